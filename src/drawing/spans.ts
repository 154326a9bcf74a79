/**
 * Straight, axis-parallel pieces of line in a view: which of them wood nearer to the viewer covers, and how pieces
 * on one line join.
 */
import type { Cover, SeenPoint } from './projection.ts'
import type { Point } from './types.ts'

export interface Span {
  readonly a: Point
  readonly b: Point
}

export interface LineCollector {
  /** sorts a piece of edge; its hidden part is kept only when asked for */
  readonly add: (a: SeenPoint, b: SeenPoint, keepHidden: boolean) => void
  /** the pieces of a line that can be seen */
  readonly seenOf: (a: SeenPoint, b: SeenPoint) => readonly Span[]
  readonly isCircleVisible: (centre: Point, radius: number, depth: number) => boolean
  readonly visible: () => readonly Span[]
  readonly hidden: () => readonly Span[]
}

const aside = 1e-6 // m, how far beside a line the wood is looked for; far below any shop tolerance
const nearer = 1e-7 // m, how much nearer wood must be to cover a line

/**
 * Collects the lines of one view behind the things that cover them.
 *
 * Formula: an edge is cut at every border of a cover; a piece is hidden when the points just beside its middle are
 * both covered by something nearer. Validity: axis-parallel edges and covers.
 * @param covers rectangles with their depth [m]
 * @returns a collector
 * @source common practice
 */
export function hiddenLines(covers: readonly Cover[]): LineCollector {
  const seen = new Map<string, Interval[]>()
  const unseen = new Map<string, Interval[]>()
  const isCovered = (x: number, y: number, depth: number, by: readonly Cover[] = covers) =>
    by.some(
      (cover) =>
        cover.near > depth + nearer && x > cover.left && x < cover.right && y > cover.low && y < cover.high,
    )

  const sort = (
    a: SeenPoint,
    b: SeenPoint,
    keep: (hidden: boolean, line: LinePlace, piece: Interval) => void,
  ) => {
    const flat = Math.abs(a.y - b.y) < aside
    const [from, to] = flat ? sorted(a.x, b.x) : sorted(a.y, b.y)
    if (to - from < aside) return
    const level = flat ? a.y : a.x
    const depth = Math.max(a.depth, b.depth)
    // the others cover nothing of this line
    const near = covers.filter(
      (cover) =>
        cover.near > depth + nearer &&
        (flat
          ? cover.low < level + aside && cover.high > level - aside && cover.left < to && cover.right > from
          : cover.left < level + aside && cover.right > level - aside && cover.low < to && cover.high > from),
    )
    const cuts = near
      .flatMap((cover) => (flat ? [cover.left, cover.right] : [cover.low, cover.high]))
      .filter((at) => at > from && at < to)
    const stops = [from, ...cuts.sort((p, q) => p - q), to]
    for (let index = 1; index < stops.length; index++) {
      const start = stops[index - 1]!
      const end = stops[index]!
      if (end - start < 1e-9) continue
      const middle = (start + end) / 2
      const hidden = [-aside, aside].every((by) =>
        flat ? isCovered(middle, level + by, depth, near) : isCovered(level + by, middle, depth, near),
      )
      keep(hidden, { flat, level }, [start, end])
    }
  }

  const add = (a: SeenPoint, b: SeenPoint, keepHidden: boolean) =>
    sort(a, b, (hidden, line, piece) => {
      if (!hidden) push(seen, line, piece)
      else if (keepHidden) push(unseen, line, piece)
    })

  const seenOf = (a: SeenPoint, b: SeenPoint) => {
    const pieces = new Map<string, Interval[]>()
    sort(a, b, (hidden, line, piece) => {
      if (!hidden) push(pieces, line, piece)
    })
    return [...pieces].flatMap(([key, intervals]) => toSpans(key, joinedIntervals(intervals)))
  }

  const isCircleVisible = (centre: Point, radius: number, depth: number) =>
    [0, 1, 2, 3, 4, 5, 6, 7].some((eighth) => {
      const angle = (eighth * Math.PI) / 4
      return !isCovered(centre.x + radius * Math.cos(angle), centre.y + radius * Math.sin(angle), depth)
    })

  return {
    add,
    seenOf,
    isCircleVisible,
    visible: () => [...seen].flatMap(([key, intervals]) => toSpans(key, joinedIntervals(intervals))),
    hidden: () =>
      [...unseen].flatMap(([key, intervals]) =>
        toSpans(key, intervalsWithout(joinedIntervals(intervals), joinedIntervals(seen.get(key) ?? []))),
      ),
  }
}

export type Interval = readonly [number, number]

interface LinePlace {
  readonly flat: boolean
  readonly level: number
}

/** Lines within a micrometre of each other are one line; the key holds its direction and place. */
function push(lines: Map<string, Interval[]>, { flat, level }: LinePlace, interval: Interval) {
  const key = `${flat ? 'h' : 'v'}${(Math.round(level * 1e6) / 1e6).toFixed(6)}`
  const intervals = lines.get(key)
  if (intervals) intervals.push(interval)
  else lines.set(key, [interval])
}

function toSpans(key: string, intervals: readonly Interval[]): readonly Span[] {
  const level = Number(key.slice(1))
  return intervals.map(([from, to]) =>
    key.startsWith('h')
      ? { a: { x: from, y: level }, b: { x: to, y: level } }
      : { a: { x: level, y: from }, b: { x: level, y: to } },
  )
}

/**
 * Pieces of one line without overlaps, in order; those that touch are one.
 * @param intervals from and to along the line [m or mm], in any order
 * @returns pieces, in the same unit
 * @source common practice
 */
export function joinedIntervals(intervals: readonly Interval[]): readonly Interval[] {
  const result: [number, number][] = []
  for (const [from, to] of [...intervals].sort((p, q) => p[0] - q[0])) {
    const last = result[result.length - 1]
    if (last && from <= last[1] + aside) last[1] = Math.max(last[1], to)
    else result.push([from, to])
  }
  return result
}

/**
 * What others leave of pieces of one line.
 * @param intervals from and to along the line [m or mm]
 * @param taken what is cut out of them
 * @returns pieces that are left
 * @source common practice
 */
export function intervalsWithout(
  intervals: readonly Interval[],
  taken: readonly Interval[],
): readonly Interval[] {
  return taken.reduce<readonly Interval[]>(
    (left, [from, to]) =>
      left.flatMap(([start, end]): Interval[] =>
        to <= start + aside || from >= end - aside
          ? [[start, end]]
          : [
              ...(from > start + aside ? [[start, from] as const] : []),
              ...(to < end - aside ? [[to, end] as const] : []),
            ],
      ),
    intervals,
  )
}

const sorted = (p: number, q: number): Interval => (p < q ? [p, q] : [q, p])
