/** A picture of where a pour stops: the mould cut across, the batter in it, an arrow from the rim down to its line. */
import { figureSvg } from './svg.ts'
import { drawingStyle, type LineClass, type Mark, type Point, type Rect } from './types.ts'

export interface PourPictureRequest {
  /** for readers who cannot see it */
  readonly label: string
  /** room on the paper [mm] */
  readonly width: number
  readonly height: number
  /** of the mould: between its lined walls, and from its base to its rim [m] */
  readonly inside: { readonly width: number; readonly height: number }
  /** thickness of a wall and of the base [m] */
  readonly wall: number
  readonly base: number
  /** surface of the batter below the rim [m] */
  readonly belowRim: number
}

/** mm between two lines of batter, and from the edge of the room to the picture */
const LINES = 2.2
const EDGE = 1
/** an arrow is seen from farther than those of a drawing that is measured (estimate) */
const ARROW = 1.4

/**
 * Draws the picture.
 *
 * Formula: everything at the one scale at which mould and base fill the room, so that the line stands where it stands in
 * the mould. Validity: batter between base and rim.
 * @param request room [mm], sizes of the mould and of the pour [m]
 * @returns an svg
 * @source common practice
 */
export function pourPicture(request: PourPictureRequest): string {
  const { label, inside, wall, base, belowRim } = request
  const scale = Math.min(
    (request.width - 2 * EDGE) / (inside.width + 2 * wall),
    (request.height - 2 * EDGE) / (inside.height + base),
  )
  const [thick, deep, under] = [wall * scale, inside.height * scale, base * scale]
  const left = request.width / 2 - (inside.width * scale) / 2
  const right = request.width / 2 + (inside.width * scale) / 2
  const floor = EDGE + under
  const rim = floor + deep
  const line = rim - belowRim * scale
  const marks: Mark[] = [
    box({ x: left - thick, y: EDGE, width: thick, height: under + deep }),
    box({ x: right, y: EDGE, width: thick, height: under + deep }),
    box({ x: left, y: EDGE, width: right - left, height: under }),
    ...batter(left, right, floor, line),
    across('extension', left - thick, right + thick, rim),
    across('visible', left, right, line),
    ...between((left + right) / 2, line, rim),
  ]
  return figureSvg({ name: 'pour', label, width: request.width, height: request.height, view: 'pour', marks })
}

const across = (kind: LineClass, from: number, to: number, y: number): Mark => ({
  kind: 'line',
  class: kind,
  a: { x: from, y },
  b: { x: to, y },
})

const box = ({ x, y, width, height }: Rect): Mark => ({
  kind: 'outline',
  class: 'visible',
  closed: true,
  points: [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ],
})

const batter = (left: number, right: number, floor: number, line: number): Mark[] =>
  Array.from({ length: Math.max(0, Math.ceil((line - floor) / LINES) - 1) }, (_, index) =>
    across('hatch', left, right, line - (index + 1) * LINES),
  )

/** A line with a head at each end; where there is no room for two, the lower one alone. */
const between = (x: number, low: number, high: number): Mark[] => {
  const length = Math.min(ARROW * drawingStyle.arrowLength, (high - low) / 2)
  const half = (length * drawingStyle.arrowWidth) / drawingStyle.arrowLength / 2
  const head = (tip: number, way: 1 | -1): Mark => {
    const back = tip - way * length
    const points: readonly Point[] = [
      { x, y: tip },
      { x: x - half, y: back },
      { x: x + half, y: back },
    ]
    return { kind: 'arrow', points }
  }
  return [
    { kind: 'line', class: 'visible', a: { x, y: low + length }, b: { x, y: high - length } },
    head(low, -1),
    head(high, 1),
  ]
}
