/** A picture of where a pour stops: the rim of the mould cut across, the batter below it, an arrow from one to the other. */
import { figureSvg } from './svg.ts'
import type { LineClass, Mark, Point } from './types.ts'

export interface PourPictureRequest {
  /** for readers who cannot see it */
  readonly label: string
  /** room on the paper [mm] */
  readonly width: number
  readonly height: number
  /** thickness of a wall [m] */
  readonly wall: number
  /** surface of the batter below the rim [m] */
  readonly belowRim: number
}

/** shares of the room: rim to batter, and the most that the wall may take of the width */
const GAP_SHARE = 0.45
const WALL_SHARE = 0.3
/** mm between two lines of batter, between two of wood, and round the picture */
const LINES = 3.2
const WOOD = 4
const EDGE = 1.5
/** of the arrow's length and of half its width to its head's */
const HEAD = 0.3
const HEAD_WIDTH = 0.6

/**
 * Draws the picture.
 *
 * Formula: wall and gap at the one scale at which the gap takes its share of the room, or the wall the most that it may.
 * Validity: batter below the rim; wall and batter go on beyond the picture, so they have no line there.
 * @param request room [mm], sizes of the mould and of the pour [m]
 * @returns an svg
 * @source common practice
 */
export function pourPicture({ label, width, height, wall, belowRim }: PourPictureRequest): string {
  const scale = Math.min((GAP_SHARE * height) / belowRim, (WALL_SHARE * width) / wall)
  const rim = height - EDGE
  const line = rim - belowRim * scale
  const inner = EDGE + wall * scale
  const right = width - EDGE
  const marks: Mark[] = [
    // the wall goes on below
    outline([
      { x: EDGE, y: EDGE },
      { x: EDGE, y: rim },
      { x: inner, y: rim },
      { x: inner, y: EDGE },
    ]),
    ...wood(EDGE, inner, EDGE, rim),
    across('hidden', inner, right, rim),
    across('visible', inner, right, line),
    ...batter(inner, right, EDGE, line),
    ...arrow((inner + right) / 2, line, rim),
  ]
  return figureSvg({ name: 'pour', label, width, height, view: 'pour', marks })
}

const across = (kind: LineClass, from: number, to: number, y: number): Mark => ({
  kind: 'line',
  class: kind,
  a: { x: from, y },
  b: { x: to, y },
})

const outline = (points: readonly Point[]): Mark => ({
  kind: 'outline',
  class: 'visible',
  closed: false,
  points,
})

const batter = (from: number, to: number, low: number, high: number): Mark[] =>
  Array.from({ length: Math.max(0, Math.floor((high - low) / LINES)) }, (_, index) =>
    across('hatch', from, to, high - (index + 1) * LINES),
  )

/** Lines at 45 degrees, cut off at the wall. */
const wood = (left: number, right: number, low: number, high: number): Mark[] => {
  const across = right - left
  return Array.from({ length: Math.floor((high - low + across) / WOOD) }, (_, index): Mark => {
    const start = low - across + (index + 1) * WOOD
    const from = Math.max(0, low - start)
    const to = Math.min(across, high - start)
    return {
      kind: 'line',
      class: 'hatch',
      a: { x: left + from, y: start + from },
      b: { x: left + to, y: start + to },
    }
  })
}

/** A line with a head at each end. */
const arrow = (x: number, low: number, high: number): Mark[] => {
  const length = HEAD * (high - low)
  const head = (tip: number, way: 1 | -1): Mark => {
    const half = (length * HEAD_WIDTH) / 2
    return {
      kind: 'arrow',
      points: [
        { x, y: tip },
        { x: x - half, y: tip - way * length },
        { x: x + half, y: tip - way * length },
      ],
    }
  }
  return [
    { kind: 'line', class: 'visible', a: { x, y: low + length }, b: { x, y: high - length } },
    head(low, -1),
    head(high, 1),
  ]
}
