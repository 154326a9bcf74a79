/** What the templates get: the sheets, and the words that frame them. */
import { inlineWords } from '../sheets/compose.ts'
import type { FirstPage } from '../sheets/first-page.ts'
import type { Frame } from '../sheets/frame.ts'
import type { Inline, Sheet } from '../sheets/model.ts'
import { benchData } from './bench.ts'
import type { SiteData, SitedSheet } from './build-pages.ts'
import { qrSvg, scannedText } from './qr.ts'

const WORDS = {
  sheet: 'frame.sheet', revision: 'frame.revision', code: 'code.code', issued: 'frame.issued', pages: 'frame.pages',
  pagesUnknown: 'frame.pages-unknown', page: 'frame.page', title: 'frame.title', sources: 'frame.sources',
  readAt: 'frame.read-at', cardStop: 'frame.card-stop', home: 'site.home', printed: 'frame.printed', wholeBinder: 'frame.whole-binder', sheets: 'frame.sheets',
  'signal-danger': 'frame.signal.danger', 'signal-warning': 'frame.signal.warning', 'signal-caution': 'frame.signal.caution',
  'signal-notice': 'frame.signal.notice', 'evidence-read': 'frame.evidence.read', 'evidence-recalled': 'frame.evidence.recalled',
  'evidence-computed': 'frame.evidence.computed', 'evidence-common-practice': 'frame.evidence.common-practice',
  skip: 'site.skip', allPages: 'site.all-pages', inHurry: 'site.in-hurry', due: 'site.due', dueHow: 'site.due-how', dueNone: 'site.due-none',
  batches: 'site.batches', batchesNone: 'site.batches-none', stopped: 'site.stopped', allSheets: 'site.all-sheets', sections: 'site.sections',
  files: 'site.files', search: 'site.search', previous: 'site.previous',
  lookUp: 'code.page.title', lookUpLabel: 'code.page.label', lookUpDo: 'code.page.do', lookUpAll: 'code.page.all', lookUpLink: 'code.page.link',
  next: 'site.next', neighbours: 'site.neighbours', print: 'site.print', printHow: 'site.print-how',
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

/** Pages of a preview come from a server, never from a folder, and ask it for what is new. */
export const PREVIEW_POLICY = `${POLICY.replaceAll(' file:', '')}; connect-src 'self'`

/** Scripts and styles that sheets of one kind have beyond those of every page: bundled from `browser/NAME.page.ts`, copied from `layouts/styles/NAME.css`. */
const OF_KIND: Readonly<
  Record<string, { readonly scripts?: readonly string[]; readonly styles?: readonly string[] }>
> = { batch: { scripts: ['bench'], styles: ['bench'] } }

/** Styles of single kinds of sheets, each a file beside `screen.css`. */
export const stylesOfKinds = (): readonly string[] => [
  ...new Set(Object.values(OF_KIND).flatMap(({ styles = [] }) => styles)),
]

/** Its page, below the output folder. */
export const fileOf = ({ anchor }: Pick<Sheet, 'anchor'>): string => `sheets/${anchor}.html`

/** Words that the templates put beside those of a sheet. */
export const frameWords = ({ say }: Pick<Frame, 'say'>): SiteData['words'] =>
  Object.fromEntries(Object.entries(WORDS).map(([name, key]): [string, Inline] => [name, say(key)]))

/** What a camera reads off a card: whose it is, which sheet, which revision, and its code. */
const scanOf = ({ say, shopName }: Frame, sheet: Sheet): string => {
  const lines = [
    shopName,
    `${sheet.number} ${inlineWords(sheet.title)}`,
    inlineWords(say('code.scan-revision', { revision: sheet.revision })),
    sheet.code?.shown ?? '',
  ]
  return qrSvg(scannedText(lines, [0, 1]), inlineWords(say('code.scan-label')))
}

/** Of a page of one sheet alone. */
const NO_FIRST_PAGE: FirstPage = { days: [], urgent: [], kin: [] }

/**
 * @param firstPage what its first page shows beside the sheets
 * @param files     that its first page leads to
 */
export const siteData = (
  frame: Frame,
  sheets: readonly Sheet[],
  printStyles: string,
  language: string,
  { days, urgent, kin: kinds }: FirstPage = NO_FIRST_PAGE,
  files: SiteData['files'] = [],
): SiteData => {
  const { say } = frame
  const names = [...new Set(sheets.map(({ section }) => inlineWords(section)))]
  const sited = sheets.map(
    (sheet, place): SitedSheet => ({
      sheet,
      file: fileOf(sheet),
      place,
      section: `section-${names.indexOf(inlineWords(sheet.section)) + 1}`,
      scripts: OF_KIND[sheet.kind]?.scripts ?? [],
      styles: OF_KIND[sheet.kind]?.styles ?? [],
      ...(sheet.kind === 'card' && sheet.code ? { scan: scanOf(frame, sheet) } : {}),
      ...(sheet.atBench ? { bench: JSON.stringify(benchData(frame, sheet)) } : {}),
    }),
  )
  const byId = new Map(sited.map((item) => [item.sheet.id, item]))
  const pages = new Map(sited.map(({ sheet, file }) => [sheet.anchor, file]))
  return {
    language,
    title: say('frame.binder-title', { shop: frame.shopName }),
    sheets: sited,
    sections: names.map((_name, index) => {
      const anchor = `section-${index + 1}`
      const here = sited.filter(({ section }) => section === anchor)
      return { anchor, name: here[0]?.sheet.section as Inline, sheets: here }
    }),
    urgent: urgent.flatMap(({ id, words }) => {
      const item = byId.get(id)
      return item ? [{ words, file: item.file }] : []
    }),
    batches: sited
      .filter(({ sheet }) => sheet.id.startsWith('batch/'))
      .map((item) => ({
        item,
        isStopped: item.sheet.stopped !== undefined,
        kin: kinds.flatMap(({ begins, words }) => {
          const kin = byId.get(item.sheet.id.replace('batch/', begins))
          return kin ? [{ words, item: kin }] : []
        }),
      })),
    days: days.map(({ day, tasks }) => ({
      day,
      tasks: tasks.map(({ words, sheets: anchors }) => ({
        words,
        file: anchors.flatMap((anchor) => pages.get(anchor) ?? [])[0],
      })),
    })),
    files,
    hrefs: Object.fromEntries(sheets.map((sheet) => [sheet.anchor, `${sheet.anchor}.html`])),
    words: {
      ...frameWords(frame),
      edition: say('site.edition', { date: frame.issued }),
    },
    policy: POLICY,
    printStyles,
  }
}

/** The same for pages that are shown while their files are edited, and never printed. */
export const previewData = (
  frame: Frame,
  sheets: readonly Sheet[],
  language: string,
  firstPage: FirstPage,
): SiteData => ({
  ...siteData(frame, sheets, '', language, firstPage),
  policy: PREVIEW_POLICY,
  preview: true,
})
