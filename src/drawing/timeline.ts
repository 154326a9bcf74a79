/** What happens when, as bars in lanes over hours of the clock: days named above, nights between them. */
import { boxOutline, slanted } from './box-marks.ts'
import { lettering } from './lettering.ts'
import { figureSvg } from './svg.ts'
import { textWidth } from './text-width.ts'
import type { LineClass, Mark, Point, Rect, TextMark } from './types.ts'

export interface TimelineSpan {
  /** min on the time axis */
  readonly from: number
  readonly to: number
  /** `sure`: crossed; `may`: slanted, what an estimate leaves open */
  readonly kind: 'sure' | 'may'
}

export interface TimelineLane {
  readonly name: string
  readonly spans: readonly TimelineSpan[]
  /** a point in time, as an arrowhead at the foot of the lane [min] */
  readonly moments: readonly number[]
}

export interface TimelineRequest {
  readonly name: string
  /** for readers who cannot see it */
  readonly label: string
  /** of the drawing [mm] */
  readonly width: number
  /** ends of the axis [min] */
  readonly from: number
  readonly to: number
  /** hours that are named below the days [min], ascending */
  readonly hours: readonly { readonly at: number; readonly shown: string }[]
  /** where each day begins [min], the first at or before the axis does; its name stands over its part of the axis */
  readonly days: readonly { readonly at: number; readonly shown: string }[]
  readonly lanes: readonly TimelineLane[]
}

export interface Timeline {
  readonly svg: string
  readonly widthMm: number
  readonly heightMm: number
  readonly marks: readonly Mark[]
}

const TEXT = 3 // mm, 8.5 pt: the smallest of the sheet's own table text (estimate)
const LANE = 7.5 // mm from lane to lane
const BAR = 4.2 // mm of it that a bar takes
const HEAD = 11 // mm for days and hours
const BESIDE = 3 // mm between the longest name of a lane and the axis
const RIGHT = 6 // mm, half an hour's name at the end of the axis, in most languages
const STEP = 1.5 // mm between strokes of a bar
const ARROW = 1.6 // mm, half the width of an arrowhead
const CLEAR = 1.5 // mm between the names of two hours

/**
 * Draws lanes under an axis of hours.
 *
 * Formula: a straight scale from `from` to `to`; what lies outside is cut off at the ends; an hour whose name would touch
 * the one before keeps its stroke and loses its name, and so does a day whose part of the axis is narrower than its name.
 * Validity: `to` after `from`; names of lanes shorter than a third of the width.
 * @param request axis, lanes [min] and width [mm]
 * @returns svg, size [mm] and marks
 * @source common practice
 */
export function timeline(request: TimelineRequest): Timeline {
  const { width, from, to, lanes, hours, days } = request
  const height = HEAD + lanes.length * LANE + 1
  const left = Math.max(0, ...lanes.map(({ name }) => widthOf(name))) + BESIDE
  const last = hours.findLast(({ at }) => at <= to)
  const right = Math.max(RIGHT, last ? widthOf(last.shown) / 2 + 0.5 : 0)
  const span = width - left - right
  const x = (at: number): number => left + ((Math.min(to, Math.max(from, at)) - from) / (to - from)) * span
  const foot = 1
  const top = foot + lanes.length * LANE
  const inside = (at: number): boolean => at >= from && at <= to

  const marks: Mark[] = []
  for (const { at } of hours) if (inside(at)) marks.push(upright('hatch', x(at), foot, top + 1))
  // beside the name of its hour, not through it
  for (const { at } of days)
    if (at > from && at < to)
      marks.push(upright('visible', x(at), foot, top + 1), upright('visible', x(at), top + 5.6, height - 0.5))
  marks.push(level('visible', x(from), x(to), top))
  lanes.forEach((_, index) => {
    marks.push(level('hatch', x(from), x(to), top - (index + 1) * LANE))
  })

  let taken = Number.NEGATIVE_INFINITY
  for (const { at, shown } of hours) {
    if (!inside(at)) continue
    const text = words(shown, { x: x(at), y: top + 2 })
    if (text.box.x < taken + CLEAR) continue
    taken = text.box.x + text.box.width
    marks.push({ ...text, value: true })
  }
  days.forEach(({ at, shown }, index) => {
    const [a, b] = [x(at), x(days[index + 1]?.at ?? to)]
    const text = words(shown, { x: (a + b) / 2, y: top + 6.7 })
    if (text.box.width + 1 < b - a) marks.push({ ...text, value: true })
  })
  lanes.forEach(({ name, spans, moments }, index) => {
    const low = top - (index + 1) * LANE + (LANE - BAR) / 2
    marks.push(words(name, { x: widthOf(name) / 2, y: low + (BAR - 0.72 * TEXT) / 2 }))
    for (const one of spans) {
      const box: Rect = { x: x(one.from), y: low, width: x(one.to) - x(one.from), height: BAR }
      if (one.to < from || one.from > to || box.width <= 0) continue
      marks.push(...strokes(box, one.kind), boxOutline(box))
    }
    for (const at of moments) if (inside(at)) marks.push(arrowhead(x(at), low))
  })
  return {
    svg: figureSvg({ name: request.name, label: request.label, width, height, view: 'timeline', marks }),
    widthMm: width,
    heightMm: height,
    marks,
  }
}

const runs = (text: string) => [{ kind: 'plain', text } as const]
const widthOf = (text: string): number => textWidth(runs(text), TEXT)
const words = (text: string, at: Point): TextMark =>
  lettering({ class: 'note-text', runs: runs(text), at, turned: false, size: TEXT })

const upright = (kind: LineClass, x: number, low: number, high: number): Mark => ({
  kind: 'line',
  class: kind,
  a: { x, y: low },
  b: { x, y: high },
})
const level = (kind: LineClass, a: number, b: number, y: number): Mark => ({
  kind: 'line',
  class: kind,
  a: { x: a, y },
  b: { x: b, y },
})

const arrowhead = (x: number, low: number): Mark => ({
  kind: 'arrow',
  points: [
    { x, y: low },
    { x: x - ARROW, y: low + BAR },
    { x: x + ARROW, y: low + BAR },
  ],
})

/** Of what is sure lines in both directions. */
const strokes = (box: Rect, kind: TimelineSpan['kind']): Mark[] =>
  kind === 'sure' ? [...slanted(box, STEP, 1), ...slanted(box, STEP, -1)] : slanted(box, STEP, 1)
