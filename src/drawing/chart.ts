/**
 * Curves over a grid in black and white: told apart by their kind of line and a name at the curve, never by colour.
 */
import { crosses, lettering, overlaps } from './lettering.ts'
import { type Interval, intervalsWithout, joinedIntervals } from './spans.ts'
import { figureSvg } from './svg.ts'
import type { LineClass, Mark, Point, Rect, TextMark } from './types.ts'

/** A value on an axis with what is written beside it; the value is in the axis' own unit. */
export interface ChartTick {
  readonly at: number
  readonly shown: string
}

export interface ChartCurve {
  /** written at the curve; nothing where the caption says it */
  readonly name: string
  readonly kind: 'visible' | 'hidden' | 'centre' | 'phantom'
  /** x and y in the units of the axes, x ascending */
  readonly points: readonly Point[]
}

/** Between two curves: hatched. */
export interface ChartBand {
  readonly low: readonly Point[]
  readonly high: readonly Point[]
}

export interface ChartColumn {
  readonly from: number
  readonly to: number
  readonly height: number
  readonly name: string
}

export interface ChartRequest {
  readonly name: string
  /** for readers who cannot see it */
  readonly label: string
  /** of the whole drawing [mm] */
  readonly width: number
  readonly height: number
  readonly x: { readonly title: string; readonly ticks: readonly ChartTick[] }
  readonly y: { readonly title: string; readonly ticks: readonly ChartTick[] }
  readonly band?: ChartBand
  readonly curves: readonly ChartCurve[]
  /** level lines right across */
  readonly levels: readonly { readonly at: number; readonly name: string }[]
  /** upright boxes from the axis, each with its name above it where it has room */
  readonly columns?: readonly ChartColumn[]
  /** measured, each as a small cross */
  readonly crosses?: readonly Point[]
  /** upright lines from the axis to the top */
  readonly moments: readonly { readonly at: number; readonly name: string }[]
}

export interface Chart {
  readonly svg: string
  readonly widthMm: number
  readonly heightMm: number
  readonly marks: readonly Mark[]
}

/**
 * Ticks at even distances, both ends of the axis included.
 * @param from  lowest, in the unit of the axis
 * @param to    highest, in the unit of the axis
 * @param by    distance of two ticks, a whole part of the axis
 * @param shown writes a value
 * @returns ticks, ascending
 * @source common practice
 */
export const axisTicks = (
  from: number,
  to: number,
  by: number,
  shown: (value: number) => string,
): ChartTick[] =>
  Array.from({ length: Math.round((to - from) / by) + 1 }, (_, index) => {
    const at = from + index * by
    return { at, shown: shown(at) }
  })

const TEXT = 3 // mm type size, the smallest of the sheet's own table text (estimate)
const LEFT = 15 // mm for numbers and title beside the upright axis
const BELOW = 11 // mm for numbers and title under the level axis
const ABOVE = 5 // mm for the names of moments
const RIGHT = 3 // mm, half a number at the end of the axis
const CROSS = 0.9 // mm, half of a cross
const STROKE = 1.2 // mm of a tick below the axis
const LEVEL = 0.6 // mm between a level and a line of the grid that are still two
const CLEAR = 0.6 // mm between letters and the lines behind them
const LEAST_COLUMN = 0.2 // mm, below which a column is a line on the axis
const HATCH = 1.6 // mm between the strokes of a band

/**
 * Draws curves.
 *
 * Formula: axes run from their first to their last tick, straight scales; a curve's name stands above it where it covers
 * no other text. Validity: ascending ticks, two at least on each axis; what lies outside of them is cut off.
 * @param request axes, curves, band, levels and moments, in the units of the axes; size [mm]
 * @returns svg, size [mm] and marks
 * @source common practice
 */
export function chart(request: ChartRequest): Chart {
  const { width, height, x, y } = request
  const field: Rect = { x: LEFT, y: BELOW, width: width - LEFT - RIGHT, height: height - BELOW - ABOVE }
  const [x0, x1] = ends(x.ticks)
  const [y0, y1] = ends(y.ticks)
  const toPaper = (point: Point): Point => ({
    x: field.x + ((point.x - x0) / (x1 - x0)) * field.width,
    y: field.y + ((point.y - y0) / (y1 - y0)) * field.height,
  })
  const inside = (points: readonly Point[]): Point[] => clipped(points, { x0, x1, y0, y1 }).map(toPaper)
  const line = (kind: LineClass, a: Point, b: Point): Mark => ({ kind: 'line', class: kind, a, b })
  const words = (text: string, at: Point, turned = false): TextMark =>
    lettering({ class: 'note-text', runs: [{ kind: 'plain', text }], at, turned, size: TEXT })
  const numbers = (text: string, at: Point): TextMark => ({ ...words(text, at), value: true })

  const near = ((y1 - y0) * LEVEL) / field.height
  const isLevel = (at: number): boolean => request.levels.some((level) => Math.abs(level.at - at) < near)

  const grid: Mark[] = [
    ...x.ticks.map(({ at }) => {
      const foot = toPaper({ x: at, y: y0 })
      return line('dimension', foot, { x: foot.x, y: foot.y - STROKE })
    }),
    // A level on a line of the grid takes its place: one would hide the other.
    ...y.ticks
      .filter(({ at }) => !isLevel(at))
      .map(({ at }) => line('hatch', toPaper({ x: x0, y: at }), toPaper({ x: x1, y: at }))),
    line('visible', toPaper({ x: x0, y: y0 }), toPaper({ x: x1, y: y0 })),
    line('visible', toPaper({ x: x0, y: y0 }), toPaper({ x: x0, y: y1 })),
  ]
  const texts: TextMark[] = [
    ...x.ticks.map(({ at, shown }) => numbers(shown, { x: toPaper({ x: at, y: y0 }).x, y: field.y - 4 })),
    ...y.ticks.map(({ at, shown }): TextMark => {
      const text = numbers(shown, { x: 0, y: toPaper({ x: x0, y: at }).y - 0.36 * TEXT })
      return moveText(text, field.x - 1.5 - text.box.width / 2)
    }),
    words(x.title, { x: field.x + field.width / 2, y: field.y - 9 }),
    words(y.title, { x: 3, y: field.y + field.height / 2 }, true),
  ]
  const levels = request.levels.flatMap(({ at, name }): Mark[] => {
    if (at < y0 || at > y1) return []
    const a = toPaper({ x: x0, y: at })
    const text = words(name, { x: 0, y: a.y + 0.8 })
    texts.push(moveText(text, field.x + field.width - 1 - text.box.width / 2))
    return [line('phantom', a, toPaper({ x: x1, y: at }))]
  })
  const moments = request.moments.flatMap(({ at, name }): Mark[] => {
    if (at < x0 || at > x1) return []
    const a = toPaper({ x: at, y: y0 })
    const top = toPaper({ x: at, y: y1 })
    const text = words(name, { x: a.x, y: top.y + 1.2 })
    // Names of moments that are near each other stand one left, one right of their lines.
    const beside = [0, -text.box.width / 2 - 1, text.box.width / 2 + 1]
      .map((by) => moveText(text, a.x + by))
      .find(
        (one) =>
          one.box.x >= 0 &&
          one.box.x + one.box.width <= width &&
          !texts.some((other) => overlaps(other.box, one.box, 0.5)),
      )
    if (beside) texts.push(beside)
    return [line('section', a, { x: top.x, y: top.y + 0.6 })]
  })
  const drawn = request.curves.map(({ name, kind, points }) => ({ name, kind, points: inside(points) }))
  const curves = drawn.flatMap(({ kind, points }): Mark[] =>
    points.length < 2 ? [] : [{ kind: 'outline', class: kind, closed: false, points }],
  )
  for (const { name, points } of drawn) {
    if (name === '') continue
    const named = placesOn(points)
      .map((place) => moveText(words(name, { x: 0, y: place.y + 1.2 }), place.x))
      .find(
        (text) =>
          text.box.x > field.x &&
          text.box.x + text.box.width < field.x + field.width &&
          !texts.some((other) => overlaps(other.box, text.box, 0.8)) &&
          !drawn.some((other) => runsThrough(other.points, text.box)),
      )
    if (named) texts.push(named)
  }
  const columns = (request.columns ?? []).flatMap(({ from, to, height: high, name }): Mark[] => {
    const foot = toPaper({ x: from, y: y0 })
    const head = toPaper({ x: to, y: Math.min(high, y1) })
    if (head.y - foot.y < LEAST_COLUMN) return []
    const text = words(name, { x: (foot.x + head.x) / 2, y: head.y + 0.8 })
    // a number wider than its column would run into the next one's
    if (text.box.width < head.x - foot.x + 1) texts.push(text)
    const left = [foot, { x: foot.x, y: head.y }]
    const right = [
      { x: head.x, y: head.y },
      { x: head.x, y: foot.y },
    ]
    return [
      { kind: 'outline', class: 'visible', closed: true, points: [...left, ...right] },
      ...hatched([foot, { x: head.x, y: foot.y }], [{ x: foot.x, y: head.y }, head]),
    ]
  })
  const band = request.band ? hatched(inside(request.band.low), inside(request.band.high)) : []
  const crossMarks = inside(request.crosses ?? []).flatMap(({ x: px, y: py }): Mark[] => [
    line('visible', { x: px - CROSS, y: py - CROSS }, { x: px + CROSS, y: py + CROSS }),
    line('visible', { x: px - CROSS, y: py + CROSS }, { x: px + CROSS, y: py - CROSS }),
  ])
  const behind = [...grid, ...band, ...levels, ...moments].flatMap((mark) => besideTexts(mark, texts))
  const marks: Mark[] = [...behind, ...columns, ...curves, ...crossMarks, ...texts]
  return {
    svg: figureSvg({ name: request.name, label: request.label, width, height, view: 'chart', marks }),
    widthMm: width,
    heightMm: height,
    marks,
  }
}

/** What is left of an upright or level line beside the letters that stand on it. */
function besideTexts(mark: Mark, texts: readonly TextMark[]): Mark[] {
  if (mark.kind !== 'line') return [mark]
  const { a, b } = mark
  const isLevel = Math.abs(a.y - b.y) < 1e-9
  const on = texts.filter(({ box }) =>
    crosses(a, b, {
      x: box.x - CLEAR,
      y: box.y - CLEAR / 2,
      width: box.width + 2 * CLEAR,
      height: box.height + CLEAR,
    }),
  )
  if (on.length === 0) return [mark]
  const taken = on.map(({ box }): Interval => {
    const [from, size] = isLevel ? [box.x, box.width] : [box.y, box.height]
    return [from - CLEAR, from + size + CLEAR]
  })
  const [p, q] = isLevel ? [a.x, b.x] : [a.y, b.y]
  const whole: Interval = [Math.min(p, q), Math.max(p, q)]
  return intervalsWithout([whole], joinedIntervals(taken)).map(([from, to]) =>
    isLevel
      ? { ...mark, a: { x: from, y: a.y }, b: { x: to, y: a.y } }
      : { ...mark, a: { x: a.x, y: from }, b: { x: a.x, y: to } },
  )
}

const ends = (ticks: readonly ChartTick[]): readonly [number, number] => [
  ticks[0]?.at ?? 0,
  ticks[ticks.length - 1]?.at ?? 1,
]

const moveText = (text: TextMark, middle: number): TextMark => {
  const by = middle - text.at.x
  return { ...text, at: { ...text.at, x: middle }, box: { ...text.box, x: text.box.x + by } }
}

/** The part of a curve that lies between the ends of both axes; a curve that leaves and comes back is joined up. */
function clipped(
  points: readonly Point[],
  { x0, x1, y0, y1 }: { x0: number; x1: number; y0: number; y1: number },
): Point[] {
  return points
    .filter(({ x }) => x >= x0 && x <= x1)
    .map(({ x, y }) => ({ x, y: Math.min(y1, Math.max(y0, y)) }))
}

/** Where a name is tried: from the middle of the curve outwards. */
const placesOn = (points: readonly Point[]): Point[] =>
  [0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2, 0.9, 0.1].flatMap((share) => {
    const point = points[Math.round(share * (points.length - 1))]
    return point ? [point] : []
  })

const runsThrough = (points: readonly Point[], box: Rect): boolean =>
  points.slice(1).some((b, index) => crosses(points[index]!, b, box))

/** Upright strokes between two curves. */
function hatched(low: readonly Point[], high: readonly Point[]): Mark[] {
  const first = Math.max(low[0]?.x ?? 0, high[0]?.x ?? 0)
  const last = Math.min(low[low.length - 1]?.x ?? 0, high[high.length - 1]?.x ?? 0)
  const strokes: Mark[] = []
  for (let x = first + HATCH / 2; x < last; x += HATCH) {
    const a = { x, y: heightAt(low, x) }
    const b = { x, y: heightAt(high, x) }
    if (b.y - a.y > 0.3) strokes.push({ kind: 'line', class: 'hatch', a, b })
  }
  return strokes
}

function heightAt(points: readonly Point[], x: number): number {
  const after = points.findIndex((point) => point.x >= x)
  const b = points[after] ?? points[points.length - 1]
  const a = points[after - 1] ?? b
  if (!a || !b || b.x === a.x) return b?.y ?? 0
  return a.y + ((b.y - a.y) * (x - a.x)) / (b.x - a.x)
}
