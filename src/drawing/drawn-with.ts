/**
 * What the drawings of any fixture have in common: their room, scale, frame and words.
 */
import type { Part } from '../geometry/part.ts'
import { clearestRows } from './clearest-rows.ts'
import type { ApartScene } from './exploded/apart.ts'
import { explodedDrawing } from './exploded/exploded-drawing.ts'
import { partSheet } from './part-sheet.ts'
import type { FixtureDrawingOptions, FixtureWords } from './part-words.ts'
import { drawSheet, type SheetRequest, type SheetViews } from './sheet.ts'
import type { Drawing, Scale } from './types.ts'

export interface DrawnWith {
  /** A drawing, under the name of its label in the words. */
  readonly sheet: (name: string, label: string, views: SheetViews) => Drawing
  readonly apart: (apart: ApartScene, label: string) => Drawing
  /** A part on a drawing of its own: `part.KEY`. */
  readonly part: (part: Part) => Drawing
  /** The same, a long row of figures split or not, whichever is clearer. */
  readonly clearPart: (part: Part) => Drawing
}

/**
 * Draws with one set of options.
 *
 * Formula: none. Validity: any fixture.
 * @param options box [mm], length formatter, projection and words
 * @param largestScale none of its sheets is drawn larger
 * @param notes whether they may go over two lines
 * @returns how a sheet, the fixture apart and a part are drawn
 * @source common practice
 */
export function drawnWith<Words extends FixtureWords>(
  { box, formatter: format, exact, projection, words }: FixtureDrawingOptions<Words>,
  largestScale?: Scale,
  notes: Pick<SheetRequest, 'onOneLine'> = {},
): DrawnWith {
  const framed = { box, scaleWord: words.scale, framed: true }
  const common = { ...framed, format, projection, ...(largestScale ? { largestScale } : {}), ...notes }
  const labelled = (label: string) => words.labels[label] ?? ''
  const sheet: DrawnWith['sheet'] = (name, label, views) =>
    drawSheet({ ...common, name, label: labelled(label), ...views })
  const partAlone = (part: Part) => (views: SheetViews) => sheet(`part.${part.key}`, part.key, views)
  return {
    sheet,
    apart: (apart, label) => explodedDrawing(apart, { ...framed, label: labelled(label) }),
    part: (part) => partAlone(part)(partSheet(part, words, exact)),
    clearPart: (part) => clearestRows(part, words, exact, partAlone(part)),
  }
}
