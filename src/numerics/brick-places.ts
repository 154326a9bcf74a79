/** Temperatures of a heated brick at places that are not the middles of its cells: its own middle, and its faces. */
import { type Extent, type FaceResistances, type HeatedBrick, pitchOf } from './conduction.ts'

/** Where to read a temperature: in the middle of an axis or on a face. */
export interface Place {
  readonly length: 'middle' | 'end'
  readonly width: 'middle' | 'side'
  readonly height: 'base' | 'middle' | 'top'
}

export const MIDDLE: Place = { length: 'middle', width: 'middle', height: 'middle' }

/**
 * Temperature at a place of the brick.
 *
 *     middle plane: (9 θ₁ − θ₂)/8;   middle height: (9 (θ₋ + θ₊) − θ₋₋ − θ₊₊)/16;   face: θ₁ R/(R + h/2k)
 *
 * Second order, as the cells are.
 *
 * @param heated brick
 * @param place  middle or face, for each axis
 * @param values of the cells above the surroundings [K]; of the brick itself when left out
 * @returns above the surroundings [K]
 * @source patankar
 */
export function readAt(heated: HeatedBrick, place: Place, values = heated.above): number {
  const { cells } = heated.brick
  let sum = 0
  for (const [k, w] of heightWeights(heated, place.height))
    for (const [j, v] of halfWeights(heated, 'width', place.width))
      for (const [i, u] of halfWeights(heated, 'length', place.length))
        sum += (values[(k * cells.width + j) * cells.length + i] ?? 0) * u * v * w
  return sum
}

/** A point on a line from the middle of the brick to the middle of a face. */
export interface LinePoint {
  /** m */
  readonly fromFace: number
  /** K above the surroundings */
  readonly above: number
}

/**
 * Values along the line from the brick's middle to the middle of a face, without the face itself.
 *
 * @param heated brick
 * @param toward face where the line ends
 * @param values of the cells above the surroundings [K]
 * @returns points from the middle outwards
 * @source patankar
 */
export function centreLine(
  heated: HeatedBrick,
  toward: keyof FaceResistances,
  values: Float64Array,
): LinePoint[] {
  const { brick } = heated
  const { cells } = brick
  const axis = AXIS[toward]
  const pitch = pitchOf(brick, axis)
  const across = (name: keyof Extent, index: number): readonly Weight[] => {
    if (axis === name) return [[index, 1]]
    return name === 'height' ? heightWeights(heated, 'middle') : halfWeights(heated, name, 'middle')
  }
  const half = brick.size[axis] / 2
  const points: LinePoint[] = [{ fromFace: half, above: readAt(heated, MIDDLE, values) }]
  for (let step = 0; step < cells[axis]; step += 1) {
    const fromMiddle = axis === 'height' ? (step + 0.5) * pitch - half : (step + 0.5) * pitch
    if (fromMiddle <= pitch / 4) continue
    // towards the base the same distances are counted from the top downwards
    const index = toward === 'base' ? cells.height - 1 - step : step
    let sum = 0
    for (const [k, w] of across('height', index))
      for (const [j, v] of across('width', index))
        for (const [i, u] of across('length', index))
          sum += (values[(k * cells.width + j) * cells.length + i] ?? 0) * u * v * w
    points.push({ fromFace: half - fromMiddle, above: sum })
  }
  return points
}

const AXIS = { end: 'length', side: 'width', top: 'height', base: 'height' } as const

type Weight = readonly [index: number, weight: number]

/** Share of the outer cell's excess that its face has. */
const faceShare = (heated: HeatedBrick, name: keyof Extent, resistance: number): number => {
  if (resistance === Infinity) return 1
  return resistance / (resistance + pitchOf(heated.brick, name) / (2 * heated.brick.conductivity))
}

function halfWeights(
  heated: HeatedBrick,
  name: 'length' | 'width',
  place: 'middle' | 'end' | 'side',
): readonly Weight[] {
  const n = heated.brick.cells[name]
  if (place !== 'middle')
    return [[n - 1, faceShare(heated, name, name === 'length' ? heated.faces.end : heated.faces.side)]]
  if (n === 1) return [[0, 1]]
  return [
    [0, 9 / 8],
    [1, -1 / 8],
  ]
}

function heightWeights(heated: HeatedBrick, place: Place['height']): readonly Weight[] {
  const n = heated.brick.cells.height
  if (place === 'base') return [[0, faceShare(heated, 'height', heated.faces.base)]]
  if (place === 'top') return [[n - 1, faceShare(heated, 'height', heated.faces.top)]]
  const half = n / 2
  if (n % 2 === 1) return [[(n - 1) / 2, 1]]
  if (n === 2)
    return [
      [0, 1 / 2],
      [1, 1 / 2],
    ]
  return [
    [half - 2, -1 / 16],
    [half - 1, 9 / 16],
    [half, 9 / 16],
    [half + 1, -1 / 16],
  ]
}
