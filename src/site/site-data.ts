/** What the templates get: the sheets, and the words that frame them. */
import type { Frame } from '../sheets/frame.ts'
import type { Inline, Sheet } from '../sheets/model.ts'
import { benchData } from './bench.ts'
import type { SiteData } from './build-pages.ts'

const WORDS = {
  sheet: 'frame.sheet', revision: 'frame.revision', issued: 'frame.issued', pages: 'frame.pages',
  pagesUnknown: 'frame.pages-unknown', page: 'frame.page', title: 'frame.title', sources: 'frame.sources',
  readAt: 'frame.read-at', cardStop: 'frame.card-stop', home: 'frame.home', printed: 'frame.printed', wholeBinder: 'frame.whole-binder', sheets: 'frame.sheets',
  'signal-danger': 'frame.signal.danger', 'signal-warning': 'frame.signal.warning', 'signal-caution': 'frame.signal.caution',
  'signal-notice': 'frame.signal.notice', 'evidence-read': 'frame.evidence.read', 'evidence-recalled': 'frame.evidence.recalled',
  'evidence-computed': 'frame.evidence.computed', 'evidence-common-practice': 'frame.evidence.common-practice',
} as const // biome-ignore format: a table reads better in rows

/**
 * What the browser holds a page of the site to. `file:` stands beside 'self' for pages that are opened from a folder,
 * where browsers differ in what 'self' means; a page from a server can load nothing of a folder anyway.
 */
const POLICY = [
  "default-src 'none'",
  "script-src 'self' file:",
  "style-src 'self' file:",
  "font-src 'self' file:",
  "img-src 'self' file: data:",
  "base-uri 'none'",
  "form-action 'none'",
].join('; ')

/** Scripts and styles that sheets of one kind have beyond those of every page: bundled from `browser/NAME.page.ts`, copied from `layouts/styles/NAME.css`. */
const OF_KIND: Readonly<
  Record<string, { readonly scripts?: readonly string[]; readonly styles?: readonly string[] }>
> = { batch: { scripts: ['bench'], styles: ['bench'] } }

/** Styles of single kinds of sheets, each a file beside `screen.css`. */
export const stylesOfKinds = (): readonly string[] => [
  ...new Set(Object.values(OF_KIND).flatMap(({ styles = [] }) => styles)),
]

export const siteData = (
  frame: Frame,
  sheets: readonly Sheet[],
  printStyles: string,
  language: string,
): SiteData => ({
  language,
  title: frame.say('frame.binder-title', { shop: frame.shopName }),
  sheets: sheets.map((sheet) => ({
    sheet,
    file: `sheets/${sheet.anchor}.html`,
    scripts: OF_KIND[sheet.kind]?.scripts ?? [],
    styles: OF_KIND[sheet.kind]?.styles ?? [],
    ...(sheet.atBench ? { bench: JSON.stringify(benchData(frame, sheet)) } : {}),
  })),
  hrefs: Object.fromEntries(sheets.map((sheet) => [sheet.anchor, `${sheet.anchor}.html`])),
  words: Object.fromEntries(
    Object.entries(WORDS).map(([name, key]): [string, Inline] => [name, frame.say(key)]),
  ),
  policy: POLICY,
  printStyles,
})
