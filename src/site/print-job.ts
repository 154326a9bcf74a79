/** The print document and its sheets, as the printer wants them. */

import { PRINT_FONT_NAMES } from '../print/fonts.ts'
import { PAPER_SIZES, type PrintJob } from '../print/job.ts'
import type { BinderSettings } from '../schema/settings.ts'
import { inlineWords } from '../sheets/compose.ts'
import type { Frame } from '../sheets/frame.ts'
import type { Sheet } from '../sheets/model.ts'
import { sheetBody } from './markdown.ts'

/** mm; a printer prints no nearer to the edge than 4 to 6 mm (from memory), and a thumb wants room */
const OUTER = 12
const TOP = 12
const BOTTOM = 18

/**
 * What a page of this shop's paper leaves between its margins, upright.
 *
 * Formula: paper less margins. Validity: either paper.
 * @param paper of the shop, binding margin [m]
 * @returns width and height [mm]
 */
export const pageRoom = (
  paper: BinderSettings['paper'],
): { readonly width: number; readonly height: number } => ({
  width: PAPER_SIZES[paper.size].width - paper['binding-margin'] * 1000 - OUTER,
  height: PAPER_SIZES[paper.size].height - TOP - BOTTOM,
})

export const printJob = (
  shop: BinderSettings,
  frame: Frame,
  sheets: readonly Sheet[],
  html: string,
): PrintJob => {
  const { say } = frame
  return {
    html,
    sheets: sheets.map((sheet) => ({
      id: sheet.id,
      anchor: sheet.anchor,
      title: inlineWords(sheet.title),
      foot: {
        inner: `${shop.name} · ${inlineWords(sheet.title)}`,
        middle: inlineWords(
          say('frame.revision-foot', {
            // a code has the revision in it
            revision: sheet.code ?? sheet.revision,
            issued: sheet.issued,
          }),
        ),
        pageOf: inlineWords(say('frame.page-of', { number: sheet.number })),
      },
      orientation: sheet.orientation,
      ...(sheet.wholePage ? { wholePage: sheet.wholePage } : {}),
      bookmarks: sheetBody(sheet).headings,
    })),
    paper: PAPER_SIZES[shop.paper.size],
    margins: { inner: shop.paper['binding-margin'] * 1000, outer: OUTER, top: TOP, bottom: BOTTOM },
    duplex: {
      rightHandStarts: shop.paper['right-hand-starts'],
      mirroredMargins: shop.paper['mirrored-margins'],
    },
    language: shop.language,
    title: inlineWords(say('frame.binder-title', { shop: shop.name })),
    issued: shop.edition,
    author: shop.name,
    fontFamilies: PRINT_FONT_NAMES,
    pageNumberWords: '{n}',
  }
}
