/**
 * Running dimensions: distances of many stations from one datum edge.
 */

import type { PlacedDimension } from './dimension-rows.ts'
import type { OrdinateRequest, Side } from './dimension-types.ts'
import { lettering, shownWidth } from './lettering.ts'
import { type SideFrame, sideFrame } from './linear-dimension.ts'
import { textRuns } from './text-width.ts'
import { capitalHeight, type DrawingStyle, type LengthFormatter, type Mark, type Point } from './types.ts'

export interface OrdinateDrawing {
  readonly frame: SideFrame
  /** how far out the row begins [mm] */
  readonly edge: number
  readonly ordinate: OrdinateRequest
  readonly toPaper: (point: Point) => Point
  readonly format: LengthFormatter
  readonly style: DrawingStyle
}

const straight = 3 // mm of line before a bend
const bend = 3 // mm in which a line moves over to its value
const gap = 1 // mm between line and value
/** Pitches that the mark of the datum may be moved past the datum edge */
const PAST_DATUM = 1.5

/**
 * Draws one row of running dimensions.
 *
 * Formula: values along their lines, moved apart to 1.25 letter heights where stations are close. Validity: any number.
 * @param drawing side, stations and style [mm]
 * @returns placed dimensions; the first one also carries the mark of the datum
 * @source common practice
 */
export function drawOrdinate(drawing: OrdinateDrawing): readonly PlacedDimension[] {
  const { frame, edge, ordinate, toPaper, format, style } = drawing
  const zero = frame.along(ordinate.origin)
  const stations = ordinate.stations
    .map((station) => ({ station, paper: toPaper(station.at) }))
    .sort((a, b) => frame.along(a.paper) - frame.along(b.paper))
  const pitch = capitalHeight * style.textSize * 1.25 + 0.6
  // The datum's mark is kept clear of the values like one of them.
  const spread = apart(
    [frame.along(toPaper(ordinate.origin)), ...stations.map(({ paper }) => frame.along(paper))],
    pitch,
    // Rows at two edges meet at the datum corner: neither spreads far beyond it.
    frame.along(toPaper(ordinate.origin)) - PAST_DATUM * pitch,
  )
  return stations.map(({ station, paper }, index) => {
    const value = Math.abs(frame.along(station.at) - zero)
    const { shown } = format(value)
    const along = frame.along(paper)
    const end = spread[index + 1]!
    const start = edge + straight + bend + gap
    const { at } = frame
    const text = lettering({
      class: 'dimension-text',
      name: station.name,
      runs: textRuns(shown),
      at: baseline(frame, end, start + shownWidth(shown, style) / 2, style),
      turned: !frame.turned,
      size: style.textSize,
    })
    const line = (a: Point, b: Point): Mark => ({ kind: 'line', class: 'extension', a, b })
    return {
      name: station.name,
      value,
      shown,
      locates: station.locates ?? [],
      text,
      marks: [
        line(at(along, frame.out(paper) + style.extensionGap), at(along, edge + straight)),
        line(at(along, edge + straight), at(end, edge + straight + bend)),
        ...(index === 0 ? datumMark(drawing, spread[0]!) : []),
      ],
    }
  })
}

/**
 * Room that a row of running dimensions takes.
 *
 * Formula: line, bend, gap and the longest value. Validity: as drawn.
 * @param row stations, formatter, style and side
 * @returns depth [mm]
 * @source common practice
 */
export function ordinateDepth(row: {
  readonly ordinate: OrdinateRequest
  readonly format: LengthFormatter
  readonly style: DrawingStyle
  readonly side: Side
}): number {
  const { ordinate, format, style, side } = row
  const frame = sideFrame(side)
  const widths = ordinate.stations.map((station) =>
    shownWidth(format(Math.abs(frame.along(station.at) - frame.along(ordinate.origin))).shown, style),
  )
  return straight + bend + gap + Math.max(0, ...widths)
}

/** A small circle on the datum edge, with a stub of line. */
function datumMark({ frame, edge, ordinate, toPaper, style }: OrdinateDrawing, end: number): readonly Mark[] {
  const paper = toPaper(ordinate.origin)
  const along = frame.along(paper)
  const line = (a: Point, b: Point): Mark => ({ kind: 'line', class: 'extension', a, b })
  return [
    line(frame.at(along, frame.out(paper) + style.extensionGap), frame.at(along, edge + straight)),
    line(frame.at(along, edge + straight), frame.at(end, edge + straight + bend)),
    { kind: 'circle', class: 'dimension', centre: frame.at(end, edge + straight + bend + 1), radius: 1 },
  ]
}

/** Middle of the baseline, so that the letters' waist lies on the line's end. */
function baseline(frame: SideFrame, along: number, out: number, style: DrawingStyle): Point {
  const half = (capitalHeight * style.textSize) / 2
  // Turned text climbs, so its baseline lies to the right of the waist; level text has it below.
  return frame.at(frame.turned ? along - half : along + half, out)
}

/**
 * Moves ascending places apart to a least pitch, as little as it takes, groups staying centred on their stations.
 * @param least no place comes before this
 */
export function apart(
  places: readonly number[],
  pitch: number,
  least = Number.NEGATIVE_INFINITY,
): readonly number[] {
  const groups: { places: number[] }[] = []
  const centred = (group: { places: number[] }) =>
    group.places.reduce((sum, place) => sum + place, 0) / group.places.length -
    ((group.places.length - 1) / 2) * pitch
  const first = (group: { places: number[] }) => Math.max(least, centred(group))
  for (const place of places) {
    groups.push({ places: [place] })
    while (groups.length > 1) {
      const last = groups[groups.length - 1]!
      const before = groups[groups.length - 2]!
      if (first(before) + before.places.length * pitch <= first(last) + 1e-9) break
      before.places.push(...last.places)
      groups.pop()
    }
  }
  return groups.flatMap((group) => group.places.map((_, index) => first(group) + index * pitch))
}
