/**
 * Stacks the dimensions of one side of a view in rows that keep clear of each other.
 */
import type { LinearRequest, OrdinateRequest, Side } from './dimension-types.ts'
import { crosses, overlaps } from './lettering.ts'
import {
  drawLinear,
  type Fit,
  fitLinear,
  type LinearPlan,
  type SideFrame,
  sideFrame,
} from './linear-dimension.ts'
import { drawOrdinate, ordinateDepth } from './ordinate.ts'
import type { DrawingStyle, LengthFormatter, Mark, Point, Rect, TextMark } from './types.ts'

/** A dimension on paper, y up [mm]. */
export interface PlacedDimension {
  readonly name: string
  readonly value: number
  readonly shown: string
  readonly locates: readonly string[]
  readonly text: TextMark
  /** the second line of a note that has no room on one */
  readonly below?: TextMark
  /** the values in a note of several; absent when the text is the value alone */
  readonly values?: readonly NoteValue[]
  readonly marks: readonly Mark[]
}

export interface NoteValue {
  readonly name: string
  readonly value: number
  readonly shown: string
  readonly box: Rect
}

export interface SideRequest {
  readonly side: Side
  /** how far out the view's outline reaches on this side, in the side's own direction [mm] */
  readonly edge: number
  readonly linear: readonly LinearRequest[]
  readonly ordinates: readonly OrdinateRequest[]
  readonly toPaper: (point: Point) => Point
  readonly format: LengthFormatter
  readonly style: DrawingStyle
  /** texts that are set already [mm] */
  readonly taken: readonly Rect[]
}

/**
 * Lays out one side.
 *
 * Formula: ordinates next to the view, then linear dimensions, shortest first, each in the first row where nothing
 * overlaps it; rows at 10 mm and then every 8 mm. Validity: any number of dimensions.
 * @param request dimensions of the side
 * @returns placed dimensions [mm]
 * @source common practice
 */
export function layOutSide(request: SideRequest): readonly PlacedDimension[] {
  const { side, edge, linear, ordinates, toPaper, format, style } = request
  const frame = sideFrame(side)
  const placed: PlacedDimension[] = []
  let next = edge
  for (const ordinate of ordinates) {
    placed.push(...drawOrdinate({ frame, edge: next, ordinate, toPaper, format, style }))
    next += ordinateDepth({ ordinate, format, style, side })
  }
  const firstRow = ordinates.length > 0 ? next + style.nextRow : edge + style.firstRow
  const rows: (readonly [number, number])[][] = []
  const plans = linear
    .map((one) => ({ one, plan: planOf(one, request) }))
    .sort((a, b) => a.plan.to - a.plan.from - (b.plan.to - b.plan.from))
  for (const [index, { one, plan }] of plans.entries()) {
    // Extension lines of the longer dimensions will pass this one's row.
    const passing = plans.slice(index + 1).flatMap((later) => [later.plan.from, later.plan.to])
    const taken = [...request.taken, ...placed.flatMap(textsOf).map(({ box }) => box)]
    const draw = (fit: Fit, row: number) =>
      drawLinear(frame, plan, { fit, row: firstRow + row * style.nextRow, style })
    const { fit, row } = findRow(
      { plan, rows, style, outside: one.outside ?? 'after' },
      (fit, row) =>
        isClear(draw(fit, row), taken) && passing.every((at) => isPassable(frame, draw(fit, row)[0].box, at)),
    )
    while (rows.length <= row) rows.push([])
    rows[row]!.push(fit.taken)
    const [text, ...marks] = draw(fit, row)
    placed.push({
      name: one.name,
      value: measured(one),
      shown: plan.shown,
      locates: one.locates ?? [],
      text,
      marks,
    })
  }
  return placed
}

/** Distance between the anchors, in the direction of the row [m]. */
export function measured({ side, from, to }: LinearRequest): number {
  const { along } = sideFrame(side)
  return Math.abs(along(to) - along(from))
}

function planOf(one: LinearRequest, { toPaper, format }: SideRequest): LinearPlan {
  const frame = sideFrame(one.side)
  const ends = [toPaper(one.from), toPaper(one.to)].sort((a, b) => frame.along(a) - frame.along(b))
  return {
    name: one.name,
    shown: `${one.prefix ?? ''}${format(measured(one)).shown}`,
    from: frame.along(ends[0]!),
    to: frame.along(ends[1]!),
    fromOut: frame.out(ends[0]!),
    toOut: frame.out(ends[1]!),
  }
}

interface RowSearch {
  readonly plan: LinearPlan
  readonly rows: readonly (readonly (readonly [number, number])[])[]
  readonly style: DrawingStyle
  readonly outside: 'after' | 'before'
}

/** Lettering of a dimension, line by line. */
export const textsOf = ({ text, below }: PlacedDimension): readonly TextMark[] =>
  below ? [text, below] : [text]

const farthestRow = 12 // rows beyond which a drawing is overloaded, and the last try is kept

/** The first row where the dimension keeps clear of its neighbours and of all texts. */
function findRow(
  { plan, rows, style, outside }: RowSearch,
  clear: (fit: Fit, row: number) => boolean,
): { readonly fit: Fit; readonly row: number } {
  const other = outside === 'after' ? 'before' : 'after'
  const fits = [0, 4, 8, 12].flatMap((extra) => [
    fitLinear(plan, style, { outside, extra }),
    fitLinear(plan, style, { outside: other, extra }),
  ])
  for (let row = 0; row < farthestRow; row++)
    for (const fit of fits) {
      const free = (rows[row] ?? []).every(
        ([from, to]) => fit.taken[1] <= from + 1e-6 || fit.taken[0] >= to - 1e-6,
      )
      if (free && clear(fit, row)) return { fit, row }
    }
  return { fit: fits[0]!, row: rows.length }
}

function isPassable({ turned }: SideFrame, box: Rect, at: number): boolean {
  const [from, size] = turned ? [box.y, box.height] : [box.x, box.width]
  return at <= from || at >= from + size
}

function isClear([text, ...marks]: readonly [TextMark, ...Mark[]], taken: readonly Rect[]): boolean {
  return taken.every(
    (box) =>
      !overlaps(box, text.box, 0.5) &&
      marks.every((mark) => mark.kind !== 'line' || !crosses(mark.a, mark.b, box)),
  )
}
