/** Markdown to HTML for sheets: our one use of markdown-it. Values and maker's words enter as escaped text only. */
import MarkdownIt from 'markdown-it'
import container from 'markdown-it-container'
import { keptOrMade } from '../kept-or-made.ts'
import { type Fill, filling, plainWords } from '../sheets/compose.ts'
import type { Block, Inline, Sheet, Value } from '../sheets/model.ts'

/** A stretch of a sheet: finished HTML, or a block for its partial template. */
export type Piece =
  | { readonly kind: 'html'; readonly html: string }
  | { readonly kind: 'block'; readonly name: string; readonly block: Block }

export interface SheetBody {
  readonly pieces: readonly Piece[]
  /** second-level headings, for bookmarks and the site's own contents */
  readonly headings: readonly { readonly anchor: string; readonly title: string }[]
}

interface Surroundings {
  /** missing where gaps are left for what fills the placeholders */
  readonly fill?: Fill
  readonly anchor: string
  readonly headings: { anchor: string; title: string }[]
}

/** Stands for a placeholder in what is read again as text; no text of ours or a maker's has it. */
const GAP = '\uE000'

const SIGNALS = ['danger', 'warning', 'caution', 'notice'] as const

const markdown = buildMarkdown()

function buildMarkdown(): MarkdownIt {
  const md = new MarkdownIt({ html: false, linkify: false, typographer: false })
  // A maker's page is printed and kept: pictures from elsewhere would need a network.
  md.disable(['image'])
  for (const signal of SIGNALS)
    md.use(container, signal, {
      render: (tokens: { nesting: number }[], index: number) =>
        tokens[index]?.nesting === 1
          ? `<div class="${signal === 'caution' ? signal : `caution ${signal}`}">\n`
          : '</div>\n',
    })
  md.inline.ruler.before('link', 'placeholder', (state, silent) => {
    if (!state.src.startsWith('[[', state.pos)) return false
    const end = state.src.indexOf(']]', state.pos)
    if (end < 0) return false
    if (!silent) state.push('placeholder', '', 0).content = state.src.slice(state.pos + 2, end).trim()
    state.pos = end + 2
    return true
  })
  md.renderer.rules.placeholder = (tokens, index, _options, env: Surroundings) => {
    const name = tokens[index]?.content ?? ''
    return env.fill ? fillingHtml(name, env.fill) : `${GAP}${escapeHtml(name)}${GAP}`
  }
  md.renderer.rules.heading_open = (tokens, index, _options, env: Surroundings) => {
    const token = tokens[index]
    const inline = tokens[index + 1]
    // The sheet's own title is the one H1 of its section.
    const tag = token?.tag === 'h1' ? 'h2' : (token?.tag ?? 'h2')
    if (tag !== 'h2' || !inline) return `<${tag}>`
    const anchor = `${env.anchor}--s${env.headings.length + 1}`
    if (env.fill) env.headings.push({ anchor, title: plainWords(inline.content, env.fill) })
    return `<h2 id="${escapeHtml(anchor)}">`
  }
  md.renderer.rules.heading_close = (tokens, index) => {
    const tag = tokens[index]?.tag === 'h1' ? 'h2' : tokens[index]?.tag
    return `</${tag}>\n`
  }
  return md
}

/**
 * Renders a sheet's Markdown template; a placeholder alone on its line stands for a block.
 * @throws Error for a placeholder that nothing fills
 */
export const sheetBody = (sheet: Sheet): SheetBody => {
  const pieces: Piece[] = []
  const headings: { anchor: string; title: string }[] = []
  const env: Surroundings = { fill: sheet.fill, anchor: sheet.anchor, headings }
  for (const part of bodyParts(sheet)) {
    if ('block' in part) pieces.push({ kind: 'block', ...part })
    else pieces.push({ kind: 'html', html: markdown.render(part.text, env) })
  }
  return { pieces, headings }
}

export type BodyPart = { readonly text: string } | { readonly name: string; readonly block: Block }

/** A sheet's template taken apart: stretches of Markdown, and the blocks between them. */
export const bodyParts = ({ template, blocks }: Pick<Sheet, 'template' | 'blocks'>): BodyPart[] =>
  template.split(/^[ \t]*(\[\[[^\]\n]+\]\])[ \t]*$/m).flatMap((text): BodyPart[] => {
    const name = /^\[\[([^\]\n]+)\]\]$/.exec(text)?.[1]?.trim()
    const block = name === undefined ? undefined : blocks[name]
    if (name !== undefined && block) return [{ name, block }]
    return text.trim() === '' ? [] : [{ text }]
  })

/** Words as a reader sees them, with gaps for what fills their placeholders. */
export type SeenWords = readonly (string | { readonly gap: string })[]

const seenOnce = new Map<string, SeenWords>()
const MOST_SEEN = 20_000

export interface SeenLine {
  readonly words: SeenWords
  /** whether it stands in a box with a signal */
  readonly caution: boolean
}

const linesOnce = new Map<string, readonly SeenLine[]>()

/** Markdown as text without its marks, a list of lines: paragraphs, headings, points of lists. */
export const seenLines = (text: string): readonly SeenLine[] =>
  keptOrMade(linesOnce, MOST_SEEN, text, () => {
    const html = markdown.render(text, { anchor: '', headings: [] })
    // boxes do not stand in boxes
    return html
      .split(/(<div class="[^"]*caution[^"]*">[\s\S]*?<\/div>)/)
      .flatMap((part, index) => seen(part).map((words) => ({ words, caution: index % 2 === 1 })))
  })

/** The same of one line of words. */
export const seenWords = (text: string): SeenWords =>
  keptOrMade(
    seenOnce,
    MOST_SEEN,
    text,
    () => seen(markdown.renderInline(text, { anchor: '', headings: [] }))[0] ?? [],
  )

const seen = (html: string): SeenWords[] =>
  html
    .split(/<\/?(?:p|h[1-6]|ul|ol|li|div|blockquote|pre|hr|table|thead|tbody|tr|th|td)\b[^>]*>/)
    .map((line) =>
      withoutEntities(line.replace(/<br[^>]*>/g, ' ').replace(/<[^>]*>/g, ''))
        .replace(/[ \t\r\n]+/g, ' ')
        .replace(/^ | $/g, ''),
    )
    .filter((line) => line !== '')
    .map((line) =>
      line
        .split(GAP)
        .map((part, index) => (index % 2 === 1 ? { gap: part } : part))
        .filter((part) => part !== ''),
    )

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"' }

const withoutEntities = (text: string): string =>
  text.replace(/&(?:#(\d+)|(\w+));/g, (all, code: string | undefined, name: string) =>
    code === undefined ? (ENTITIES[name] ?? all) : String.fromCodePoint(Number(code)),
  )

/** One line of catalogue words with its values and maker's words filled in. */
export const inlineHtml = ({ text, fill, to, file }: Inline): string => {
  const html = markdown.renderInline(text, { fill, anchor: '', headings: [] })
  if (file !== undefined) return `<span class="file" data-file="${escapeHtml(file)}">${html}</span>`
  return to === undefined ? html : `<a class="reference" href="#${escapeHtml(to)}">${html}</a>`
}

/** Files that a page of the site names lead to them: the page lies one folder below the output folder. */
export const withFiles = (html: string): string =>
  html.replace(
    /<span class="file" data-file="([^"]+)">(.*?)<\/span><\/span>/g,
    '<a class="file" href="../$1">$2</span></a>',
  )

/** Tables and drawings of a page of the site, each in a box of its own that scrolls when it is wider than a phone. */
export const withScrollers = (html: string): string =>
  html
    .replace(/<table\b/g, '<div class="scroller"><table')
    .replaceAll('</table>', '</table></div>')
    .replace(
      // a figure is one already for those who listen; the printer is told once more
      /<figure class="drawing" role="group">\s*(<svg\b[\s\S]*?<\/svg>)(?=\s*<figcaption)/g,
      '<figure class="drawing"><div class="scroller of-drawing">$1</div>',
    )

/** Numbers of those who are called in an emergency: a phone that shows the page calls them with one tap. */
export const withCalls = (html: string): string =>
  html.replace(/<dl class="first-call">[\s\S]*?<\/dl>/g, (list) =>
    list.replace(
      /<dd><span class="maker">(\+?\d[\d ()./-]{1,24})<\/span>/g,
      (_all, number: string) =>
        `<dd><a class="call" href="tel:${number.replace(/[^+\d]/g, '')}"><span class="maker">${number}</span></a>`,
    ),
  )

/** References of a page of the site, where sheets have pages of their own: what is not on this one is on another. */
export const withLinks = (html: string, hrefs: Readonly<Record<string, string>>): string =>
  html.replace(/<a class="reference" href="#([^"]+)">/g, (whole, to: string) => {
    const [sheet = ''] = to.split('--')
    const href = hrefs[to] ?? (hrefs[sheet] === undefined ? undefined : `${hrefs[sheet]}#${to}`)
    return href === undefined ? whole : `<a class="reference" href="${href}">`
  })

/** A value as the reader sees it, tagged with its name; a fraction is set as one, and copies as typed. */
export const valueHtml = (value: Value): string =>
  `<data class="value" value="${escapeHtml(String(value.value))}" data-unit="${escapeHtml(value.unit)}" data-name="${escapeHtml(value.name)}">${shownHtml(value.shown)}</data>`

export const makerHtml = (text: string): string => `<span class="maker">${escapeHtml(text)}</span>`

export const escapeHtml = (text: string): string =>
  text.replace(/[&<>"']/g, (mark) => `&#${mark.charCodeAt(0)};`)

const shownHtml = (shown: string): string =>
  escapeHtml(shown).replace(/(^|[\s\u202f\u2212(-])(\d+\/\d+)(?=\D|$)/g, '$1<span class="frac">$2</span>')

const isInline = (item: Value | Inline): item is Inline => 'text' in item

const fillingHtml = (name: string, fill: Fill): string => {
  const found = filling(name, fill)
  if (typeof found === 'string') return makerHtml(found)
  return isInline(found) ? inlineHtml(found) : valueHtml(found)
}
