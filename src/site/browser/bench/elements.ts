/** Small helpers that the bench makes its elements with; words come in as text, never as markup. */

export type Child = Node | string

interface Marks {
  readonly class?: string
  readonly [attribute: string]: string | undefined
}

/** An element of the bench: paper and those without script see none of them. */
export const made = <Tag extends keyof HTMLElementTagNameMap>(
  tag: Tag,
  marks: Marks = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Tag] => {
  const element = document.createElement(tag)
  for (const [name, value] of Object.entries(marks))
    if (value !== undefined) element.setAttribute(name, value)
  element.append(...children)
  return element
}

export const button = (words: string, marks: Marks, act: () => void): HTMLButtonElement => {
  const element = made('button', { type: 'button', ...marks }, words)
  element.addEventListener('click', act)
  return element
}

/** Words of the catalogue: what stands between two double stars is strong. */
export const strongWords = (words: string): Child[] =>
  words.split('**').map((part, index) => (index % 2 === 1 ? made('strong', {}, part) : part))

export const textOf = (element: Element | null | undefined): string =>
  (element?.textContent ?? '').replace(/\s+/g, ' ').trim()

/** The same words without links and without what is written or ticked: to be seen again in another place. */
export const copied = (element: Element): Child[] => {
  const copy = element.cloneNode(true) as Element
  for (const one of copy.querySelectorAll('.tick-box, .bench-only')) one.remove()
  for (const link of copy.querySelectorAll('a')) link.replaceWith(...link.childNodes)
  for (const one of copy.querySelectorAll('[id]')) one.removeAttribute('id')
  return [...copy.childNodes]
}
