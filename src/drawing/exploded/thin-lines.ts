/**
 * Leaves out lines that would run into their neighbours on paper.
 */
import type { Span } from '../spans.ts'
import type { Point } from '../types.ts'

/**
 * Draws narrow things, such as the groove of a wire, with one line instead of two that blot.
 *
 * Formula: from the longest line on, each gives up what runs beside a parallel one that is kept; what is shorter than
 * the least distance is left out. Validity: lines that cross or meet at an angle are left alone.
 * @param lines on paper [mm]
 * @param apart least distance between parallel lines [mm]
 * @param beside lines that are kept before all others, and not given back [mm]
 * @returns what is left of the lines [mm]
 * @source common practice
 */
export function thinnedLines(
  lines: readonly Span[],
  apart: number,
  beside: readonly Span[] = [],
): readonly Span[] {
  const before = beside.map(lineOf)
  const kept = [...before]
  for (const line of inOrder(lines.map(lineOf))) {
    let pieces: readonly Interval[] = [[line.from, line.to]]
    for (const other of kept)
      if (isParallel(line.way, other.way) && Math.abs(line.off - other.off) < apart)
        pieces = pieces.flatMap(([from, to]): Interval[] =>
          other.to <= from || other.from >= to
            ? [[from, to]]
            : [[from, Math.min(to, other.from)] as const, [Math.max(from, other.to), to] as const].filter(
                // What is left over at an end would be a stub no longer than the gap is wide.
                ([start, end]) => end - start > 2 * apart,
              ),
        )
    kept.push(
      ...pieces.filter(([from, to]) => to - from > apart).map(([from, to]) => ({ ...line, from, to })),
    )
  }
  return kept.slice(before.length).map(({ way, off, from, to }) => ({
    a: { x: from * way.x - off * way.y, y: from * way.y + off * way.x },
    b: { x: to * way.x - off * way.y, y: to * way.y + off * way.x },
  }))
}

type Interval = readonly [number, number]

/** A piece of a line: its direction to the right or upwards, its distance from the origin, and its ends along it. */
interface Line {
  readonly way: Point
  readonly off: number
  readonly from: number
  readonly to: number
}

function lineOf({ a, b }: Span): Line {
  const length = Math.hypot(b.x - a.x, b.y - a.y)
  const back = b.x - a.x < -1e-9 || (Math.abs(b.x - a.x) < 1e-9 && b.y < a.y)
  const sign = back ? -1 : 1
  const way = { x: (sign * (b.x - a.x)) / length, y: (sign * (b.y - a.y)) / length }
  const along = ({ x, y }: Point) => x * way.x + y * way.y
  const [p, q] = [along(a), along(b)]
  return { way, off: a.y * way.x - a.x * way.y, from: Math.min(p, q), to: Math.max(p, q) }
}

/** Longest first. Both walls of a groove are about as long; the same one is taken all along, or the line would jump. */
function inOrder(lines: readonly Line[]): readonly Line[] {
  const place = ({ way, off }: Line) => [way.x, way.y, off].map((value) => value.toFixed(4)).join(' ')
  const lengths = new Map<string, number>()
  for (const line of lines) lengths.set(place(line), (lengths.get(place(line)) ?? 0) + line.to - line.from)
  const rank = (line: Line) => Math.round(2 * Math.log2(lengths.get(place(line))!))
  return lines
    .map((line) => ({ line, rank: rank(line) }))
    .sort((p, q) => q.rank - p.rank || p.line.off - q.line.off || p.line.from - q.line.from)
    .map(({ line }) => line)
}

const isParallel = (p: Point, q: Point): boolean => Math.abs(p.x * q.y - p.y * q.x) < 1e-6
