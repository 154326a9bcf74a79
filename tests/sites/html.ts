/** A small reader of our own pages: well-formed HTML to a tree. It refuses what does not nest. */

export interface Element {
  readonly tag: string
  readonly attributes: Readonly<Record<string, string>>
  readonly children: readonly (Element | string)[]
}

const VOID = new Set(['meta', 'link', 'br', 'hr', 'img', 'input', 'col'])
const PIECE =
  /<!--[\s\S]*?-->|<!doctype[^>]*>|<\/([\w-]+)\s*>|<([\w-]+)((?:\s+[\w:-]+(?:="[^"]*")?)*)\s*(\/?)>/gi
const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" }

const withoutEntities = (text: string): string =>
  text.includes('&')
    ? text
        .replace(/&#x([0-9a-f]+);/gi, (_all, code: string) => String.fromCodePoint(Number.parseInt(code, 16)))
        .replace(/&#(\d+);/g, (_all, code: string) => String.fromCodePoint(Number(code)))
        .replace(/&(\w+);/g, (all, name: string) => ENTITIES[name] ?? all)
    : text

interface Open {
  tag: string
  attributes: Record<string, string>
  children: (Element | string)[]
}

/** @throws Error for an end without its beginning, or a stray angle bracket */
export const readHtml = (html: string): Element => {
  const root: Open = { tag: '', attributes: {}, children: [] }
  const stack: Open[] = [root]
  let at = 0
  const text = (to: number): void => {
    const piece = html.slice(at, to)
    const top = stack.at(-1) as Open
    if (piece === '') return
    if (piece.includes('<') && top.tag !== 'style') throw new Error(`A stray "<" in ${piece.slice(0, 80)}`)
    top.children.push(withoutEntities(piece))
  }
  for (const match of html.matchAll(PIECE)) {
    const [all, end, start, attributes = '', closed] = match
    if (stack.at(-1)?.tag === 'style' && end !== 'style') continue
    text(match.index)
    at = match.index + all.length
    if (end !== undefined) {
      const open = stack.pop()
      if (!open || open.tag !== end) throw new Error(`</${end}> ends <${open?.tag}>`)
    } else if (start !== undefined) {
      const element: Open = { tag: start, attributes: {}, children: [] }
      for (const [, name = '', value = ''] of attributes.matchAll(/([\w:-]+)(?:="([^"]*)")?/g))
        element.attributes[name] = withoutEntities(value)
      ;(stack.at(-1) as Open).children.push(element)
      if (closed !== '/' && !VOID.has(start)) stack.push(element)
    }
  }
  text(html.length)
  if (stack.length !== 1) throw new Error(`<${stack.at(-1)?.tag}> is never closed`)
  return root
}

export const hasClass = ({ attributes }: Element, name: string): boolean =>
  attributes.class !== undefined && (attributes.class === name || attributes.class.split(' ').includes(name))

/** Every element below one, in the order of the page. */
export const elements = (element: Element): Element[] => {
  const all: Element[] = []
  const add = ({ children }: Element): void => {
    for (const child of children)
      if (typeof child !== 'string') {
        all.push(child)
        add(child)
      }
  }
  add(element)
  return all
}

/** The text of an element as a reader sees it, without what `skip` names. */
export const textOf = (element: Element, skip: (element: Element) => boolean = () => false): string =>
  element.children
    .map((child) => (typeof child === 'string' ? child : skip(child) ? '' : textOf(child, skip)))
    .join('')

/** Every run of text with the elements round it, outermost first. */
export const textNodes = (element: Element): TextNode[] => {
  const all: TextNode[] = []
  const add = ({ children }: Element, around: readonly Element[]): void => {
    for (const child of children)
      if (typeof child === 'string') all.push({ text: child, around })
      else add(child, [...around, child])
  }
  add(element, [])
  return all
}

export interface TextNode {
  readonly text: string
  readonly around: readonly Element[]
}
