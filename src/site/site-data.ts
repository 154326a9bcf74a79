/** What the templates get: the sheets, and the words that frame them. */

import { inlineWords } from '../sheets/compose.ts'
import type { Frame } from '../sheets/frame.ts'
import type { Inline, Sheet } from '../sheets/model.ts'
import type { SiteData } from './build-pages.ts'
import { qrSvg, scannedText } from './qr.ts'

const WORDS = {
  sheet: 'frame.sheet', revision: 'frame.revision', code: 'code.code', issued: 'frame.issued', pages: 'frame.pages',
  pagesUnknown: 'frame.pages-unknown', page: 'frame.page', title: 'frame.title', sources: 'frame.sources',
  readAt: 'frame.read-at', cardStop: 'frame.card-stop', home: 'frame.home', printed: 'frame.printed', wholeBinder: 'frame.whole-binder', sheets: 'frame.sheets',
  'signal-danger': 'frame.signal.danger', 'signal-warning': 'frame.signal.warning', 'signal-caution': 'frame.signal.caution',
  'signal-notice': 'frame.signal.notice', 'evidence-read': 'frame.evidence.read', 'evidence-recalled': 'frame.evidence.recalled',
  'evidence-computed': 'frame.evidence.computed', 'evidence-common-practice': 'frame.evidence.common-practice',
} as const // biome-ignore format: a table reads better in rows

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
    ...(sheet.kind === 'card' && sheet.code ? { scan: scanOf(frame, sheet) } : {}),
  })),
  hrefs: Object.fromEntries(sheets.map((sheet) => [sheet.anchor, `${sheet.anchor}.html`])),
  words: frameWords(frame),
  printStyles,
})
