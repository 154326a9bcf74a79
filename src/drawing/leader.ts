/**
 * Notes with an arrow, set where they disturb least.
 */

import type { NoteValue, PlacedDimension } from './dimension-rows.ts'
import type { LeaderPiece, LeaderRequest } from './dimension-types.ts'
import { crosses, LEADING, lettering, overlaps } from './lettering.ts'
import { arrow } from './linear-dimension.ts'
import { boundsOf } from './mark-bounds.ts'
import { textRuns, textWidth } from './text-width.ts'
import type { DrawingStyle, LengthFormatter, Mark, Point, Rect, TextRun } from './types.ts'

export interface LeaderDrawing {
  readonly leader: LeaderRequest
  readonly toPaper: (point: Point) => Point
  readonly paperPerMetre: number
  readonly format: LengthFormatter
  readonly style: DrawingStyle
  /** texts that the note must not touch [mm] */
  readonly taken: readonly Rect[]
  /** lines that the note had better not cover [mm] */
  readonly lines: readonly { readonly a: Point; readonly b: Point }[]
  /** what the view may be wide, and what is drawn of it so far; without it a note stands on one line [mm] */
  readonly within?: { readonly room: number; readonly drawn: Rect }
}

const shoulder = 3 // mm of level line beside the note
/** mm that a place is farther off for each line that it covers, and for touching another text */
const COVERED = 40
const BLOCKED = 1e6
/** the same for each mm past the room, and for a note on two lines: better near on two than far away on one */
const PAST_ROOM = 1e4
const AT_COMMA = 15
const AT_SPACE = 25
const ANGLES = [60, -60, 120, -120, 30, -30, 150, -150, 75, -75, 105, -105, 45, -45, 135, -135]
const LENGTHS = [8, 12, 16, 20, 25, 30, 36, 42, 50, 60, 75, 90] // mm
const FARTHEST = 90 // mm
/** Around the target, the nearest first. */
const PLACES: readonly Place[] = LENGTHS.flatMap((length) =>
  ANGLES.map((degrees) => ({ angle: (degrees * Math.PI) / 180, length })),
)

/**
 * Draws one note.
 *
 * Formula: of all places around the target the one that covers the fewest lines, then the nearest; where the view has
 * little room, on two lines, too. Validity: falls back to the farthest place when every one touches another text.
 * @param drawing note, surroundings and style [mm]
 * @returns the placed note; its value is the first length in it [m]
 * @source common practice
 */
export function drawLeader(drawing: LeaderDrawing): PlacedDimension {
  const { leader, toPaper, paperPerMetre, style } = drawing
  const target = toPaper(leader.at)
  const radius = (leader.radius ?? 0) * paperPerMetre
  const oneLine: Layout = { lines: [leader.text], farther: 0 }
  const layouts = [oneLine, ...(drawing.within ? twoLines(leader.text) : [])]
    .map((layout) => {
      const set = layout.lines.map((line) => line.flatMap((piece) => pieceRuns(piece, drawing.format)))
      const widths = set.map((runs) => textWidth(runs, style.textSize))
      return { ...layout, set, widths, width: Math.max(...widths) }
    })
    // of places that are as good the one with the narrower note
    .sort((a, b) => a.farther - b.farther || a.width - b.width)
  // No place around the target reaches farther than this: what lies beyond it is covered by none.
  const reach = radius + FARTHEST + shoulder + layouts[0]!.width + 2 * style.textSize
  const near = drawing.lines.filter((line) => isNear(line, target, reach))
  const placeAt = ({ angle, length }: Place, layout: (typeof layouts)[number]) => {
    const way = { x: Math.cos(angle), y: Math.sin(angle) }
    const tip = { x: target.x + way.x * radius, y: target.y + way.y * radius }
    const knee = { x: target.x + way.x * (radius + length), y: target.y + way.y * (radius + length) }
    const right = way.x >= 0 ? 1 : -1
    const end = { x: knee.x + right * shoulder, y: knee.y }
    const texts = layout.set.map((runs, line) =>
      lettering({
        class: 'dimension-text',
        name: leader.name,
        runs,
        at: {
          x: end.x + right * (layout.widths[line]! / 2 + 1),
          y: knee.y + (((layout.set.length - 1) / 2 - line) * LEADING - 0.357) * style.textSize,
        },
        turned: false,
        size: style.textSize,
      }),
    )
    const box = boundsOf(texts.map((text) => text.box))
    const blocked =
      drawing.taken.some((other) => overlaps(other, box, 1)) ||
      drawing.taken.some((other) => crosses(tip, knee, other) || crosses(knee, end, other))
    const least = (blocked ? BLOCKED : 0) + pastRoom(drawing, box) + layout.farther + length
    return { lines: layout.lines, tip, knee, end, texts, box, least }
  }
  const coveredBy = (box: Rect): number => near.filter((line) => crosses(line.a, line.b, box)).length
  const [first, ...rest] = PLACES.flatMap((place) => layouts.map((layout) => ({ place, layout })))
  let best = placeAt(first!.place, first!.layout)
  let cost = best.least + COVERED * coveredBy(best.box)
  for (const { place, layout } of rest) {
    // Places grow longer: from here on none is better, and counting lines is what takes time.
    if (place.length >= cost) break
    const next = placeAt(place, layout)
    if (next.least >= cost) continue
    const nextCost = next.least + COVERED * coveredBy(next.box)
    if (nextCost < cost) [best, cost] = [next, nextCost]
  }
  const line = (a: Point, b: Point): Mark => ({ kind: 'line', class: 'dimension', a, b })
  const values = best.texts.flatMap(({ box }, index) => noteValues(best.lines[index]!, drawing, box))
  const [text, below] = best.texts
  return {
    name: leader.name,
    value: values[0]?.value ?? 0,
    shown: values[0]?.shown ?? '',
    locates: leader.locates ?? [],
    text: text!,
    ...(below ? { below } : {}),
    values,
    marks: [line(best.tip, best.knee), line(best.knee, best.end), arrow(best.tip, best.knee, style)],
  }
}

/** What a place is farther off because the note would make the view wider than its room. */
function pastRoom({ within }: LeaderDrawing, box: Rect): number {
  if (!within) return 0
  const { room, drawn } = within
  return Math.max(0, boundsOf([drawn, box]).width - Math.max(room, drawn.width)) * PAST_ROOM
}

type Line = readonly LeaderPiece[]

/** A note line by line, and what its place is farther off for that [mm] */
interface Layout {
  readonly lines: readonly Line[]
  readonly farther: number
}

/**
 * Every way to set a note on two lines: at a comma, at a space, before the × between two sizes.
 * A number keeps its unit, its count and the word after it.
 */
function twoLines(text: Line): readonly Layout[] {
  return text.flatMap((piece, index) => {
    if (!('words' in piece)) return []
    const { words } = piece
    const at = (head: string, tail: string): readonly Line[] => [
      [...text.slice(0, index), ...(head === '' ? [] : [{ words: head }])],
      [...(tail === '' ? [] : [{ words: tail }]), ...text.slice(index + 1)],
    ]
    return [...words.matchAll(/ /g)].flatMap(({ index: space }) => {
      const [head, tail] = [words.slice(0, space), words.slice(space + 1)]
      const isBreak = head === '' ? tail.startsWith('×') : /\p{L}{3,}[^\p{L}\d]*$/u.test(head)
      return isBreak ? [{ lines: at(head, tail), farther: head.endsWith(',') ? AT_COMMA : AT_SPACE }] : []
    })
  })
}

interface Place {
  readonly angle: number
  readonly length: number
}

const isNear = (
  { a, b }: { readonly a: Point; readonly b: Point },
  { x, y }: Point,
  reach: number,
): boolean =>
  Math.min(a.x, b.x) <= x + reach &&
  Math.max(a.x, b.x) >= x - reach &&
  Math.min(a.y, b.y) <= y + reach &&
  Math.max(a.y, b.y) >= y - reach

function pieceRuns(piece: LeaderPiece, format: LengthFormatter): readonly TextRun[] {
  if ('words' in piece) return [{ kind: 'plain', text: piece.words }]
  const length = 'diameter' in piece ? piece.diameter : piece.length
  const runs = textRuns(format(length).shown).map((run) => ({ ...run, name: piece.name }))
  return 'diameter' in piece ? [{ kind: 'diameter' }, ...runs] : runs
}

/** Where in a line of the note each of its values stands. */
function noteValues(line: Line, { format, style }: LeaderDrawing, box: Rect): readonly NoteValue[] {
  let x = box.x
  return line.flatMap((piece): readonly NoteValue[] => {
    const width = textWidth(pieceRuns(piece, format), style.textSize)
    const own = { ...box, x, width }
    x += width
    if ('words' in piece) return []
    const value = 'diameter' in piece ? piece.diameter : piece.length
    return [{ name: piece.name, value, shown: format(value).shown, box: own }]
  })
}
