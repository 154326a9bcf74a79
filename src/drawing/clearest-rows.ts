/**
 * The drawing of a part, with its figures in the rows that suit it best.
 */
import type { Part } from '../geometry/part.ts'
import { overlaps } from './lettering.ts'
import { partSheet } from './part-sheet.ts'
import type { PartWords } from './part-words.ts'
import type { SheetViews } from './sheet.ts'
import type { Drawing, LengthFormatter } from './types.ts'

/**
 * Draws a part.
 *
 * Formula: a long row of figures split between both edges, or in one line: what keeps every value clear of the others,
 * then what is drawn larger, then split. Validity: where neither is clear the split one is kept.
 * @param part to be drawn [m]
 * @param words of the drawing
 * @param exact format of the thickness in the title
 * @param draw sets views on their sheet
 * @returns the drawing [mm]
 * @source common practice
 */
export function clearestRows(
  part: Part,
  words: PartWords,
  exact: LengthFormatter,
  draw: (views: SheetViews) => Drawing,
): Drawing {
  const split = partSheet(part, words, exact, 'split')
  const drawn = draw(split)
  const isSplit = split.top?.dimensions.some((one) => one.kind === 'ordinate' && one.side === 'above')
  if (!isSplit) return drawn
  const single = draw(partSheet(part, words, exact, 'single'))
  const [better] = [drawn, single].filter(isClear).sort((a, b) => a.scale.model - b.scale.model)
  return better ?? drawn
}

/** No value lies on another. */
const isClear = ({ dimensions }: Drawing): boolean =>
  dimensions.every((one, index) => dimensions.slice(index + 1).every(({ box }) => !overlaps(one.box, box)))
