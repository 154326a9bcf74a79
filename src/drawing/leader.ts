/**
 * Notes with an arrow, set where they disturb least.
 */

import type { NoteValue, PlacedDimension } from './dimension-rows.ts'
import type { LeaderPiece, LeaderRequest } from './dimension-types.ts'
import { crosses, lettering, overlaps } from './lettering.ts'
import { arrow } from './linear-dimension.ts'
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
}

const shoulder = 3 // mm of level line beside the note
/** mm that a place is farther off for each line that it covers, and for touching another text */
const COVERED = 40
const BLOCKED = 1e6
const ANGLES = [60, -60, 120, -120, 30, -30, 150, -150, 75, -75, 105, -105, 45, -45, 135, -135]
const LENGTHS = [8, 12, 16, 20, 25, 30, 36, 42, 50, 60, 75, 90] // mm
const FARTHEST = 90 // mm
/** Around the target, the nearest first. */
const PLACES: readonly { readonly angle: number; readonly length: number }[] = LENGTHS.flatMap((length) =>
  ANGLES.map((degrees) => ({ angle: (degrees * Math.PI) / 180, length })),
)

/**
 * Draws one note.
 *
 * Formula: of all places around the target the one that covers the fewest lines, then the nearest. Validity: falls
 * back to the farthest place when every one touches another text.
 * @param drawing note, surroundings and style [mm]
 * @returns the placed note; its value is the first length in it [m]
 * @source common practice
 */
export function drawLeader(drawing: LeaderDrawing): PlacedDimension {
  const { leader, toPaper, paperPerMetre, style } = drawing
  const runs = leaderRuns(drawing)
  const width = textWidth(runs, style.textSize)
  const target = toPaper(leader.at)
  const radius = (leader.radius ?? 0) * paperPerMetre
  // No place around the target reaches farther than this: what lies beyond it is covered by none.
  const reach = radius + FARTHEST + shoulder + width + 2 * style.textSize
  const near = drawing.lines.filter((line) => isNear(line, target, reach))
  const placeAt = ({ angle, length }: { readonly angle: number; readonly length: number }) => {
    const way = { x: Math.cos(angle), y: Math.sin(angle) }
    const tip = { x: target.x + way.x * radius, y: target.y + way.y * radius }
    const knee = { x: target.x + way.x * (radius + length), y: target.y + way.y * (radius + length) }
    const right = way.x >= 0 ? 1 : -1
    const end = { x: knee.x + right * shoulder, y: knee.y }
    const text = lettering({
      class: 'dimension-text',
      name: leader.name,
      runs,
      at: { x: end.x + right * (width / 2 + 1), y: knee.y - 0.357 * style.textSize },
      turned: false,
      size: style.textSize,
    })
    const blocked =
      drawing.taken.some((box) => overlaps(box, text.box, 1)) ||
      drawing.taken.some((box) => crosses(tip, knee, box) || crosses(knee, end, box))
    return { tip, knee, end, text, least: (blocked ? BLOCKED : 0) + length }
  }
  const coveredBy = (box: Rect): number => near.filter((line) => crosses(line.a, line.b, box)).length
  const [first, ...rest] = PLACES
  let best = placeAt(first!)
  let cost = best.least + COVERED * coveredBy(best.text.box)
  for (const place of rest) {
    // Places grow longer: from here on none is better, and counting lines is what takes time.
    if (place.length >= cost) break
    const next = placeAt(place)
    if (next.least >= cost) continue
    const nextCost = next.least + COVERED * coveredBy(next.text.box)
    if (nextCost < cost) [best, cost] = [next, nextCost]
  }
  const line = (a: Point, b: Point): Mark => ({ kind: 'line', class: 'dimension', a, b })
  const values = noteValues(drawing, best.text.box)
  return {
    name: leader.name,
    value: values[0]?.value ?? 0,
    shown: values[0]?.shown ?? '',
    locates: leader.locates ?? [],
    text: best.text,
    values,
    marks: [line(best.tip, best.knee), line(best.knee, best.end), arrow(best.tip, best.knee, style)],
  }
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

function leaderRuns({ leader, format }: LeaderDrawing): readonly TextRun[] {
  return leader.text.flatMap((piece) => pieceRuns(piece, format))
}

function pieceRuns(piece: LeaderPiece, format: LengthFormatter): readonly TextRun[] {
  if ('words' in piece) return [{ kind: 'plain', text: piece.words }]
  const length = 'diameter' in piece ? piece.diameter : piece.length
  const runs = textRuns(format(length).shown).map((run) => ({ ...run, name: piece.name }))
  return 'diameter' in piece ? [{ kind: 'diameter' }, ...runs] : runs
}

/** Where in the note each of its values stands. */
function noteValues({ leader, format, style }: LeaderDrawing, box: Rect): readonly NoteValue[] {
  let x = box.x
  return leader.text.flatMap((piece): readonly NoteValue[] => {
    const width = textWidth(pieceRuns(piece, format), style.textSize)
    const own = { ...box, x, width }
    x += width
    if ('words' in piece) return []
    const value = 'diameter' in piece ? piece.diameter : piece.length
    return [{ name: piece.name, value, shown: format(value).shown, box: own }]
  })
}
