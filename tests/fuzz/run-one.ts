/** One folder as somebody typed it: to its sheets and pages, or to what is wrong with it, and nothing else. */
import { composeFiles } from '../../src/commands/compose.ts'
import { hasErrors, renderDiagnostics } from '../../src/diagnostics.ts'
import { loadContent } from '../../src/schema/load.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { buildPages } from '../../src/site/build-pages.ts'
import { fileOf, siteData } from '../../src/site/site-data.ts'
import type { Binder } from '../sites/edited-demo.ts'
import { elements, readHtml } from '../sites/html.ts'
import { guarded } from './guards.ts'
import { CANARY, type Files } from './mutate.ts'

export type Outcome = 'refused' | 'refused later' | 'stopped' | 'held' | 'good'

export interface Ran {
  readonly outcome: Outcome
  /** of the pages that were looked at */
  readonly pages: number
  /** what must not be, in words; empty when all is well */
  readonly wrong: readonly string[]
  /** of a processor [s] */
  readonly seconds: number
  readonly binder?: Binder
  /** that are read otherwise than in the folder as it was */
  readonly changed: readonly Sheet[]
}

/** What no reader should see; a text that was typed so is no fault. */
const NO_NUMBER = /\b(?:NaN|Infinity|undefined)\b|\[object |\d(?:\.\d+)?e[+-]?\d/
/** Written by layouts/, src/site/ and src/drawing/, with what markdown-it makes of a page of the maker's own. */
const OURS = new Set('html head meta title link script body header nav main footer section article div span p a h1 h2 h3 h4 h5 h6 ul ol li dl dt dd table caption colgroup col thead tbody tfoot tr th td figure figcaption data time strong em b i s code pre blockquote hr br img input label button output form search datalist option details summary small sup sub aside style svg g path line polyline polygon rect circle ellipse text tspan defs pattern marker clippath use title desc textpath ruby abbr kbd wbr lineargradient stop'.split(' ')) // biome-ignore format: a list reads better in rows
const LEADS =
  /^(?:#|[\w./-]+\.(?:html|css|js|pdf|ics|dxf|json)(?:[#?]|$)|data:(?:font|image)\/|tel:\+?\d+$|https?:\/\/|mailto:|\.\.?\/|$)/
/** Attributes that only say something. */
const SAYS = /^(?:alt|aria-label|aria-description|title|content|value|placeholder|data-.*|summary|label)$/

export const markup = (html: string): string[] => {
  const wrong: string[] = []
  for (const { tag, attributes } of elements(readHtml(html))) {
    if (!OURS.has(tag.toLowerCase())) wrong.push(`an element <${tag}>`)
    for (const [name, value] of Object.entries(attributes)) {
      if (/^on/i.test(name) || name === 'srcdoc' || name.includes(CANARY)) wrong.push(`an attribute ${name}`)
      if (value.includes(CANARY) && !SAYS.test(name) && !/^https:\/\//.test(value))
        wrong.push(`${name}="${value}"`)
      if (
        /^(?:href|src|action|formaction|xlink:href)$/.test(name) &&
        (!LEADS.test(value) || (name === 'src' && /^https?:/.test(value)))
      )
        wrong.push(`${name}="${value.slice(0, 80)}"`)
      if (name === 'src' && tag !== 'script' && tag !== 'img') wrong.push(`${tag} src`)
    }
  }
  return wrong
}

/** What a template or a script would make of it. */
const WORKED_OUT = /zz\s*1337\s*zz|zz\s*<data|zz\s*\d[\d.]*\s*k?g/g

const wordsOf = ({ shown }: Binder['revised'][number]): string =>
  [shown.title, ...shown.lines.map(({ text }) => text)].join('\n')

const LOADED: Ran = { outcome: 'good', pages: 0, wrong: [], seconds: 0, changed: [] }

/**
 * @param baseline by sheet what identifies it in the folder as it was; only what differs is made into pages
 * @param most     sheets whose pages are looked at, beside the first page and the look-up
 * @param deep     false to stop when the files are decoded
 */
export const runOne = async (files: Files, { baseline, most, deep = true }: Wanted): Promise<Ran> => {
  const read = [...files].map(([below, bytes]) => ({
    file: `shop/${below}`,
    below,
    bytes: new Uint8Array(Buffer.from(bytes, 'latin1')),
  }))
  const typed = [...files.values()].join('\n')
  const saysSo = NO_NUMBER.test(typed)
  const wrong: string[] = []
  const start = process.cpuUsage()
  const { given, tried } = await guarded(async () =>
    deep ? composeFiles({ files: read, diagnostics: [] }, 'shop') : loadContent(read, 'shop'),
  )
  const { user, system } = process.cpuUsage(start)
  const seconds = (user + system) / 1e6
  wrong.push(...tried.map((what) => `tried ${what}`), ...traces())

  const { diagnostics, documents } = given
  const told = renderDiagnostics(diagnostics, documents, { colour: false })
  if (!saysSo && NO_NUMBER.test(told)) wrong.push(`told: ${told.slice(0, 600)}`)
  if (STEERS.test(told)) wrong.push(`told with what steers a terminal: ${JSON.stringify(told.slice(0, 600))}`)
  const binder = 'binder' in given ? given.binder : undefined
  if (hasErrors(diagnostics)) {
    const isLate = !hasErrors(loadContent(read, 'shop').diagnostics)
    return { ...LOADED, outcome: isLate ? 'refused later' : 'refused', wrong, seconds }
  }
  if (!deep) return { ...LOADED, wrong, seconds }
  if (!binder) return { ...LOADED, wrong: [...wrong, 'neither a binder nor a mistake'], seconds }

  for (const one of binder.revised) {
    for (const { name, value, shown } of one.sheet.values.values()) {
      if (!saysSo && (NO_NUMBER.test(shown) || /\bnull\b/.test(shown)))
        wrong.push(`${one.sheet.id} ${name} shows ${shown}`)
      if (typeof value === 'number' && !Number.isFinite(value))
        wrong.push(`${one.sheet.id} ${name} is ${value}`)
    }
    const words = wordsOf(one)
    const odd = saysSo ? undefined : NO_NUMBER.exec(words)
    if (odd) wrong.push(`${one.sheet.id} says ${words.slice(Math.max(0, odd.index - 60), odd.index + 60)}`)
  }
  const written = await guarded(async () =>
    binder.outputFiles().map(({ path, text }) => ({ path, content: text() })),
  )
  wrong.push(...written.tried.map((what) => `tried ${what}`))
  for (const { path, content } of written.given) {
    if (!/^[\w-]+(?:\/[\w-]+)*\.[a-z]+$/.test(path)) wrong.push(`a file ${path}`)
    if (!saysSo && NO_NUMBER.test(content)) wrong.push(`${path}: ${NO_NUMBER.exec(content)}`)
    // what somebody typed begins no line of a calendar
    if (
      path.endsWith('.ics') &&
      content.split('\r\n').some((line) => !/^(?:[A-Z-]+[;:][^\r\n]*| [^\r\n]*|)$/.test(line))
    )
      wrong.push(`${path} has a stray line`)
  }

  const changed = binder.revised
    .filter(({ sheet, fingerprint }) => baseline.get(sheet.id) !== fingerprint)
    .map(({ sheet }) => sheet)
  const looked = changed.filter((_sheet, index) => index % Math.ceil(changed.length / most) === 0)
  const pages = await guarded(async () => {
    const data = siteData(binder.frame, binder.sheets, '', binder.language, binder.firstPage())
    return buildPages(data, new Set([...looked.map(fileOf), 'index.html', 'look-up.html']))
  })
  wrong.push(...pages.tried.map((what) => `tried ${what}`), ...traces())
  for (const { path, content } of pages.given) {
    if (!/^[a-z0-9-]+(?:\/[a-z0-9-]+)*\.html$/.test(path)) wrong.push(`a page ${path}`)
    try {
      for (const one of markup(content)) wrong.push(`${path}: ${one}`)
    } catch (error) {
      wrong.push(`${path}: ${(error as Error).message}`)
    }
    // a page of the maker's own may name a value of a sheet anywhere
    const isOwn = path.startsWith('sheets/page-')
    const seen = [...content.matchAll(WORKED_OUT)].find(([one]) => !(isOwn && one.endsWith('<data')))
    if (seen) wrong.push(`${path} worked out ${seen[0]}`)
    const text = content.replace(NOT_READ, ' ')
    const odd = saysSo ? undefined : NO_NUMBER.exec(text)
    if (odd) wrong.push(`${path} has ${text.slice(Math.max(0, odd.index - 60), odd.index + 60)}`)
  }
  return { outcome: stateOf(binder), pages: pages.given.length, wrong, seconds, binder, changed }
}

export interface Wanted {
  readonly baseline: ReadonlyMap<string, string>
  readonly most: number
  readonly deep?: boolean
}

/** Scripts, styles and tags, which nobody reads. */
const NOT_READ = /<(style|script)\b[\s\S]*?<\/\1>|<[^>]*>/g

/** Control characters and such as turn the way of reading. */
export const STEERS = /(?!\n)[\p{Cc}\u202a-\u202e\u2066-\u2069]/u

const stateOf = ({ sheets, bound }: Binder): Outcome => {
  if (sheets.some(({ stopped }) => stopped)) return 'stopped'
  return bound.batches.some(({ state }) => state === 'hold') ? 'held' : 'good'
}

const traces = (): string[] => [
  ...(CANARY in globalThis ? ['code was run'] : []),
  ...('polluted' in {} ? ['every object has what a file says'] : []),
]

/** Of a folder as it is: what tells its sheets from those of a changed one. */
export const baselineOf = async (files: Files): Promise<Map<string, string>> => {
  const { binder, wrong } = await runOne(files, { baseline: new Map(), most: 1000 })
  if (!binder || wrong.length > 0) throw new Error(`The folder is not sound as it is: ${wrong.join('; ')}`)
  return new Map(binder.revised.map(({ sheet, fingerprint }) => [sheet.id, fingerprint]))
}
