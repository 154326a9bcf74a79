/** How words lead to a sheet: by its number. */
import { anchorOf } from './compose.ts'
import type { Inline } from './model.ts'

/** A sheet that is there whatever else is. */
export interface Place {
  readonly id: string
  readonly number: string
}

/** The number of the section that a sheet is in: what stands before the point. */
export const sectionOf = ({ number }: Pick<Place, 'number'>): string => number.split('.')[0] ?? number

/** The number of a sheet, which leads to it; of one of its entries, with that entry's own number. */
export const linkTo = (
  { id, number }: Place,
  entry?: { readonly code: string; readonly anchor: string },
): Inline =>
  entry
    ? { text: '[[sheet]], [[entry]]', fill: { sheet: number, entry: entry.code }, to: entry.anchor }
    : { text: '[[sheet]]', fill: { sheet: number }, to: anchorOf(id) }
