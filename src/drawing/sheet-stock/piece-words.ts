/** Words in the pieces of a board: as much as finds room there, upright or turned, and clear of the numbers of the cuts. */
import { BOLD, LEADING, lettering, overlaps } from '../lettering.ts'
import { textWidth } from '../text-width.ts'
import type { Mark, Point, Rect, TextMark, TextRun } from '../types.ts'

/** Some words of a line. */
export interface WordPiece {
  readonly class: TextMark['class']
  readonly runs: readonly TextRun[]
  readonly size: number
  readonly maker?: boolean
}

/** Lines of words, one choice of what to say. */
export type WordLines = readonly (readonly WordPiece[])[]

/** mm between two pieces of a line, between two lines, and round all of them */
const BETWEEN = 1.2
const ROUND = 0.7

export interface PlacedWords {
  readonly marks: readonly TextMark[]
  readonly box: Rect
}

/**
 * Sets the first choice that has room.
 *
 * Formula: each choice upright, then turned, in the middle of the piece, then beside it as far as the piece allows. Validity:
 * pieces of any size.
 * @param room of the piece [mm]
 * @param choices what to say, the fullest first
 * @param taken what the words must not touch [mm]
 * @returns marks and the room that they take [mm]; nothing where no choice fits
 * @source common practice
 */
export function wordsIn(
  room: Rect,
  choices: readonly WordLines[],
  taken: readonly Rect[],
): PlacedWords | undefined {
  for (const lines of choices)
    for (const turned of room.height > 1.6 * room.width ? [true, false] : [false, true]) {
      const size = blockSize(lines)
      const [width, height] = turned ? [size.height, size.width] : [size.width, size.height]
      const spare = { x: room.width - width - 2 * ROUND, y: room.height - height - 2 * ROUND }
      if (spare.x < 0 || spare.y < 0) continue
      for (const [x, y] of SHIFTS) {
        const box: Rect = {
          x: room.x + ROUND + spare.x * x,
          y: room.y + ROUND + spare.y * y,
          width,
          height,
        }
        if (!taken.some((one) => overlaps(one, box, 0.4))) return { marks: setLines(lines, box, turned), box }
      }
    }
  return undefined
}

/** Shares of the spare room, the middle first. */
const SHIFTS: readonly (readonly [number, number])[] = [0.5, 0.25, 0.75, 0, 1]
  .flatMap((y) => [0.5, 0.25, 0.75, 0, 1].map((x) => [x, y] as const))
  .sort(([ax, ay], [bx, by]) => Math.hypot(ax - 0.5, ay - 0.5) - Math.hypot(bx - 0.5, by - 0.5))

const pieceWidth = ({ class: kind, runs, size }: WordPiece): number =>
  textWidth(runs, size) * (kind === 'view-title' ? BOLD : 1)

const lineWidth = (line: readonly WordPiece[]): number =>
  line.reduce((sum, piece) => sum + pieceWidth(piece) + BETWEEN, -BETWEEN)

const lineHeight = (line: readonly WordPiece[]): number => Math.max(...line.map(({ size }) => size))

/** Of upright lines [mm]. */
export const blockSize = (lines: WordLines): { readonly width: number; readonly height: number } => ({
  width: Math.max(...lines.map(lineWidth)),
  // the last line ends with its descenders, the first begins with its capitals
  height: lines.reduce((sum, line, index) => sum + lineHeight(line) * (index === 0 ? 1 : LEADING), 0),
})

/** Lines in a box, each in its middle [mm]. */
export function setLines(lines: WordLines, box: Rect, turned: boolean): readonly TextMark[] {
  const long = turned ? box.height : box.width
  const marks: TextMark[] = []
  let down = 0
  for (const [index, line] of lines.entries()) {
    const high = lineHeight(line)
    down += index === 0 ? high * CAPITALS : high * LEADING
    let at = (long - lineWidth(line)) / 2
    for (const piece of line) {
      const width = pieceWidth(piece)
      const middle: Point = turned
        ? { x: box.x + down, y: box.y + at + width / 2 }
        : { x: box.x + at + width / 2, y: box.y + box.height - down }
      marks.push(lettering({ ...piece, at: middle, turned }))
      at += width + BETWEEN
    }
  }
  return marks
}

/** Height of a capital with a little room, of the type size; what is left of it is the descender's. */
const CAPITALS = 0.75

/** Pieces of a straight line outside of circles [mm]. */
export function clippedLine(
  { a, b }: { readonly a: Point; readonly b: Point },
  circles: readonly { readonly centre: Point; readonly radius: number }[],
): readonly { readonly a: Point; readonly b: Point }[] {
  const run = { x: b.x - a.x, y: b.y - a.y }
  const length2 = run.x * run.x + run.y * run.y
  if (length2 < 1e-12) return []
  const covered = circles.flatMap(({ centre, radius }): (readonly [number, number])[] => {
    const to = { x: a.x - centre.x, y: a.y - centre.y }
    const half = (to.x * run.x + to.y * run.y) / length2
    const root = half * half - (to.x * to.x + to.y * to.y - radius * radius) / length2
    if (root <= 0) return []
    return [[-half - Math.sqrt(root), -half + Math.sqrt(root)]]
  })
  const spans: { a: Point; b: Point }[] = []
  let from = 0
  const at = (share: number): Point => ({ x: a.x + run.x * share, y: a.y + run.y * share })
  for (const [low, high] of [...covered].sort((one, other) => one[0] - other[0])) {
    if (Math.min(low, 1) > from + 1e-9) spans.push({ a: at(from), b: at(Math.min(low, 1)) })
    from = Math.max(from, high)
  }
  if (from < 1 - 1e-9) spans.push({ a: at(from), b })
  return spans
}

/** Straight lines of marks clipped by circles; other marks as they are. */
export const clippedMarks = (
  marks: readonly Mark[],
  circles: readonly { readonly centre: Point; readonly radius: number }[],
): readonly Mark[] =>
  marks.flatMap((mark): readonly Mark[] =>
    mark.kind === 'line' ? clippedLine(mark, circles).map((span) => ({ ...mark, ...span })) : [mark],
  )
