/**
 * One linear dimension on paper: extension lines, dimension line, arrows and value.
 */

import type { Side } from './dimension-types.ts'
import { lettering, shownWidth } from './lettering.ts'
import { textRuns } from './text-width.ts'
import type { DrawingStyle, Mark, Point, TextMark } from './types.ts'

/** Where a side's rows run: `along` the edge and `out` from it [mm]. */
export interface SideFrame {
  readonly side: Side
  readonly turned: boolean
  readonly at: (along: number, out: number) => Point
  readonly along: (point: Point) => number
  readonly out: (point: Point) => number
}

/**
 * Frame of one side of a view, for rows of dimensions.
 *
 * Formula: out is counted from the paper's origin in the direction away from the view. Validity: any side.
 * @param side of the view
 * @returns conversions between paper and row coordinates [mm]
 * @source common practice
 */
export function sideFrame(side: Side): SideFrame {
  const sign = side === 'above' || side === 'right' ? 1 : -1
  const turned = side === 'left' || side === 'right'
  return {
    side,
    turned,
    at: (along, out) => (turned ? { x: sign * out, y: along } : { x: along, y: sign * out }),
    along: (point) => (turned ? point.y : point.x),
    out: (point) => sign * (turned ? point.x : point.y),
  }
}

export interface LinearPlan {
  readonly name: string
  readonly shown: string
  /** ends along the row, ascending [mm] */
  readonly from: number
  readonly to: number
  /** how far out the two anchors are, in the same order [mm] */
  readonly fromOut: number
  readonly toOut: number
}

/** How a value fits between its extension lines. */
export interface Fit {
  readonly text: 'inside' | 'after' | 'before'
  readonly arrows: 'inside' | 'outside'
  /** from the extension line to the room of a value that stands outside [mm] */
  readonly start: number
  /** all that the dimension takes up along its row [mm] */
  readonly taken: readonly [number, number]
}

const pad = 1 // mm beside the value
const tail = 2 // mm of line behind an arrow that stands outside

/**
 * Decides what stands inside the extension lines.
 *
 * Formula: all inside if value and both arrows fit; else arrows outside; else value outside too. Validity: any span.
 * @param plan ends and value
 * @param style of the drawing [mm]
 * @param place on which end a value stands that doesn't fit, and how much farther out than needed [mm]
 * @returns the fit and the room it takes [mm]
 * @source common practice
 */
export function fitLinear(
  plan: LinearPlan,
  style: DrawingStyle,
  { outside, extra }: { readonly outside: 'after' | 'before'; readonly extra: number },
): Fit {
  const span = plan.to - plan.from
  const width = shownWidth(plan.shown, style)
  const reach = style.arrowLength + tail
  if (span >= width + 2 * pad + 2 * style.arrowLength)
    return { text: 'inside', arrows: 'inside', start: 0, taken: [plan.from, plan.to] }
  if (span >= width + 2 * pad)
    return { text: 'inside', arrows: 'outside', start: 0, taken: [plan.from - reach, plan.to + reach] }
  const arrows = span >= 2 * style.arrowLength + tail ? 'inside' : 'outside'
  const start = (arrows === 'inside' ? 0 : style.arrowLength) + extra
  const textReach = start + width + 2 * pad
  const other = arrows === 'inside' ? 0 : reach
  return outside === 'after'
    ? { text: 'after', arrows, start, taken: [plan.from - other, plan.to + textReach] }
    : { text: 'before', arrows, start, taken: [plan.from - textReach, plan.to + other] }
}

/**
 * Draws a linear dimension in its row.
 *
 * Formula: value above the line, readable from below or from the right. Validity: any fit.
 * @param frame side of the view
 * @param plan ends and value [mm]
 * @param fit what stands inside
 * @param row how far out the dimension line is [mm]
 * @param style of the drawing [mm]
 * @returns marks [mm], the value first
 * @source common practice
 */
export function drawLinear(
  frame: SideFrame,
  plan: LinearPlan,
  { fit, row, style }: { readonly fit: Fit; readonly row: number; readonly style: DrawingStyle },
): readonly [TextMark, ...Mark[]] {
  const { at } = frame
  const width = shownWidth(plan.shown, style)
  const middle =
    fit.text === 'inside'
      ? (plan.from + plan.to) / 2
      : fit.text === 'after'
        ? plan.to + fit.start + pad + width / 2
        : plan.from - fit.start - pad - width / 2
  // Above and left the text stands away from the view, below and right towards it: always on top of its line.
  const lift = frame.side === 'above' || frame.side === 'left' ? style.textLift : -style.textLift
  const text = lettering({
    class: 'dimension-text',
    name: plan.name,
    runs: textRuns(plan.shown),
    at: at(middle, row + lift),
    turned: frame.turned,
    size: style.textSize,
  })
  const lineFrom = fit.arrows === 'outside' || fit.text === 'before' ? fit.taken[0] : plan.from
  const lineTo = fit.arrows === 'outside' || fit.text === 'after' ? fit.taken[1] : plan.to
  const inwards = fit.arrows === 'inside' ? 1 : -1
  return [
    text,
    extension(frame, plan.from, plan.fromOut, row, style),
    extension(frame, plan.to, plan.toOut, row, style),
    { kind: 'line', class: 'dimension', a: at(lineFrom, row), b: at(lineTo, row) },
    arrow(at(plan.from, row), at(plan.from + inwards, row), style),
    arrow(at(plan.to, row), at(plan.to - inwards, row), style),
  ]
}

function extension(frame: SideFrame, along: number, from: number, row: number, style: DrawingStyle): Mark {
  return {
    kind: 'line',
    class: 'extension',
    a: frame.at(along, from + style.extensionGap),
    b: frame.at(along, row + style.overshoot),
  }
}

/** A filled arrow with its point at `tip`, coming from `tail`. */
export function arrow(tip: Point, from: Point, style: DrawingStyle): Mark {
  const length = Math.hypot(from.x - tip.x, from.y - tip.y) || 1
  const x = (from.x - tip.x) / length
  const y = (from.y - tip.y) / length
  const back = { x: tip.x + x * style.arrowLength, y: tip.y + y * style.arrowLength }
  const half = style.arrowWidth / 2
  return {
    kind: 'arrow',
    points: [
      tip,
      { x: back.x - y * half, y: back.y + x * half },
      { x: back.x + y * half, y: back.y - x * half },
    ],
  }
}
