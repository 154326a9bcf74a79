/** Marks to cut by: outside of what is cut out, so that none is left on it. */
import type { LineClass, Mark, Rect } from '../types.ts'

/** Between a corner and its mark, and how long a mark is [mm] */
const AWAY = 1
const LONG = 3
/** Room that marks take round what they are for [mm] */
export const CUT_ROOM = AWAY + LONG

/**
 * Marks in line with the edges of a rectangle, at its corners.
 *
 * Formula: two short lines at each corner, none touching. Validity: rectangles further apart than a mark is long, or
 * with a common edge.
 * @param rect to be cut out [mm, y up]
 * @param sides whether marks stand beside it too, or only above and below
 * @returns lines [mm]
 * @source common practice
 */
export function cutMarks(rect: Rect, sides = true): readonly Mark[] {
  const kind: LineClass = 'dimension'
  const xs = [rect.x, rect.x + rect.width] as const
  const ys = [rect.y, rect.y + rect.height] as const
  const upright = xs.flatMap((x) =>
    [ys[0] - AWAY, ys[1] + AWAY + LONG].map(
      (y): Mark => ({ kind: 'line', class: kind, a: { x, y }, b: { x, y: y - LONG } }),
    ),
  )
  if (!sides) return upright
  const level = ys.flatMap((y) =>
    [xs[0] - AWAY - LONG, xs[1] + AWAY].map(
      (x): Mark => ({ kind: 'line', class: kind, a: { x, y }, b: { x: x + LONG, y } }),
    ),
  )
  return [...upright, ...level]
}

/** The largest type size at which a line of text fits its room [mm]. */
export const fittingSize = (widthAtOne: number, room: number, largest: number): number =>
  Math.min(largest, room / widthAtOne)
