/** A document with one of everything that a binder prints, to settle the arithmetic of pages. */
import { readFileSync } from 'node:fs'
import { fontFaceCss, PRINT_FONT_NAMES } from '../../../src/print/fonts.ts'
import { PAPER_SIZES, type PrintJob, type PrintSheet } from '../../../src/print/job.ts'

export interface SinkSettings {
  readonly paper?: 'Letter' | 'A4'
  readonly rightHandStarts?: boolean
  readonly mirroredMargins?: boolean
  /** put at the end of the sheet `plain` */
  readonly extra?: string
  /** put at the end of the full-size sheet, instead of its check scale */
  readonly scale?: string
  /** put into the head */
  readonly head?: string
}

const pageCss = readFileSync(new URL('../../../layouts/styles/page.css', import.meta.url), 'utf8')

const OWN_STYLE = `
html { font: 10pt 'Noto Sans' }
code { font-family: 'Noto Sans Mono' }
h1 { font-size: 16pt; margin: 0 0 3mm } h2 { font-size: 12pt; margin: 3mm 0 }
table { border-collapse: collapse; width: 100% } td, th { border: 0.3pt solid; padding: 1mm }
svg text { font: 4px 'Noto Sans' }
.half-page { border: 0.5pt solid; padding: 4mm }
.row { display: flex; justify-content: space-between }
`

const sheet = (
  id: string,
  title: string,
  more: Partial<Omit<PrintSheet, 'id' | 'anchor' | 'title'>> = {},
): PrintSheet => ({
  id,
  anchor: id.replaceAll('/', '-'),
  title,
  foot: {
    inner: `Demo shop · ${title}`,
    middle: 'rev 3 · 2027-03-14',
    pageOf: 'Sheet 1 · page {x} of {y}',
  },
  orientation: 'portrait',
  bookmarks: [],
  ...more,
})

/** Sheets in the order of the document; the pages that they take are counted by hand in the tests. */
export const SINK_SHEETS: readonly PrintSheet[] = [
  sheet('contents', 'Contents'),
  sheet('plain', 'A plain sheet of one page'),
  sheet('batch/two-pages', 'Batch sheet of two pages', {
    bookmarks: [
      { title: 'Weighing the oils', anchor: 'weighing' },
      { title: 'Second page', anchor: 'second-page' },
    ],
  }),
  sheet('wide', 'A landscape sheet of two pages', {
    orientation: 'landscape',
    bookmarks: [{ title: 'Landscape, second page', anchor: 'wide-second' }],
  }),
  sheet('cards', 'Station cards, two to a page'),
  sheet('full-size', 'A full-size template', { bleedFree: true }),
  sheet('last', `The last sheet, with a title ${'much '.repeat(12)}too long for its foot line`),
]

/** Lines of 150 mm across and 100 mm down, as one path with end ticks and one plain line. */
export const CHECK_SCALES = `
<div class="row"><svg width="160mm" height="12mm" viewBox="0 0 160 12" data-check-scale-mm="150" role="img" aria-label="check scale across">
<path d="M5 6H155M5 2V10M155 2V10" fill="none" stroke="#000" stroke-width="0.25"/><text x="10" y="5">150 mm</text></svg></div>
<svg width="12mm" height="110mm" viewBox="0 0 12 110" data-check-scale-mm="100" role="img" aria-label="check scale down">
<line x1="6" y1="5" x2="6" y2="105" stroke="#000" stroke-width="0.25"/></svg>`

const row = (index: number) =>
  `<tr><td>${index}</td><td>Olive oil, pail ${index}</td><td>2 <span class="fraction">1/4</span> kg</td></tr>`
const table = (rows: number) =>
  `<table><thead><tr><th scope="col">No.</th><th scope="col">What</th><th scope="col">How much</th></tr></thead><tbody>${Array.from({ length: rows }, (_, index) => row(index + 1)).join('')}</tbody></table>`

function bodies(settings: SinkSettings): Record<string, string> {
  const rows = SINK_SHEETS.flatMap((each) => [
    `<tr><td>${each.title}</td><td><a href="#${each.anchor}" data-page-of="${each.anchor}"></a></td></tr>`,
    ...each.bookmarks.map(
      (bookmark) =>
        `<tr><td>– ${bookmark.title}</td><td><a href="#${bookmark.anchor}" data-page-of="${bookmark.anchor}"></a></td></tr>`,
    ),
  ])
  return {
    contents: `<table class="contents"><tbody>${rows.join('')}</tbody></table>`,
    plain: `<p>A mixed number: 2\u202f<span class="fraction">1/4</span> in.</p><p><em>slanted</em> <strong>bold</strong> <code>LOT 0O1lI</code></p>${settings.extra ?? ''}`,
    'batch-two-pages': `<h2 id="weighing">Weighing</h2>${table(40)}<h2 id="second-page">More</h2><p>End.</p>`,
    wide: `${table(12)}<h2 id="wide-second" style="break-before: page">More</h2><p>End.</p>`,
    cards: '<div class="half-page">Card one</div><div class="half-page">Card two</div>',
    'full-size': settings.scale ?? CHECK_SCALES,
    last: '<p>End.</p>',
  }
}

/** Makes the job for a document with one of everything. */
export function kitchenSink(settings: SinkSettings = {}): PrintJob {
  const content = bodies(settings)
  const sections = SINK_SHEETS.map((each) => {
    // the two cards fill their page
    const title = each.anchor === 'cards' ? '' : `<h1>${each.title}</h1>`
    return `<section class="sheet" id="${each.anchor}">${title}${content[each.anchor]}</section>`
  })
  return {
    html: `<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Demo</title><style>${fontFaceCss({ inline: true })}</style><style>${pageCss}${OWN_STYLE}</style><style id="page-rules"></style>${settings.head ?? ''}</head><body>${sections.join('\n')}</body></html>`,
    sheets: SINK_SHEETS,
    paper: PAPER_SIZES[settings.paper ?? 'Letter'],
    margins: { inner: 25, outer: 12, top: 12, bottom: 16 },
    duplex: {
      rightHandStarts: settings.rightHandStarts ?? true,
      mirroredMargins: settings.mirroredMargins ?? true,
    },
    language: 'en',
    title: 'Demo binder',
    issued: '2027-03-14',
    author: 'Demo shop',
    fontFamilies: PRINT_FONT_NAMES,
    pageNumberWords: '{n}',
  }
}
