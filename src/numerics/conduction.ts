/** Conduction of heat in a brick that warms itself, with a resistance of its own on every face. */

/** m */
export interface Extent {
  readonly length: number
  readonly width: number
  readonly height: number
}

export interface Brick {
  /** of the whole brick [m] */
  readonly size: Extent
  /** along half the length, half the width and the whole height; whole numbers ≥ 1 */
  readonly cells: Extent
  /** W/(m K) */
  readonly conductivity: number
  /** J/(m3 K) */
  readonly heatCapacity: number
}

/**
 * From a face of the brick to the surroundings [m2 K/W], > 0, Infinity for none passing. Both ends are alike, and both
 * sides: that is what leaves a quarter to reckon.
 */
export interface FaceResistances {
  readonly end: number
  readonly side: number
  readonly top: number
  readonly base: number
}

/** A brick in the middle of its history. `advance` changes it in place. */
export interface HeatedBrick {
  readonly brick: Brick
  readonly faces: FaceResistances
  /** K above the surroundings; length × width × height cells, length runs fastest, from the middle outwards, base first */
  readonly above: Float64Array
  /** J of the whole brick since the start */
  readonly lost: number
  readonly generated: number
}

/**
 * What warms the cells: adds to their temperatures what a time releases, and tells how much that was.
 *
 * @param above K above the surroundings, changed in place
 * @param time  [s]
 * @returns sum over the cells of the heat released [J/m3]
 */
export type HeatSource = (above: Float64Array, time: number) => number

type Writable<T> = { -readonly [K in keyof T]: T[K] }

/**
 * A brick of even temperature.
 *
 * @param brick size [m], cells, conductivity [W/(m K)] and heat capacity [J/(m3 K)], all > 0
 * @param faces resistances [m2 K/W]
 * @param above temperature above the surroundings [K]
 * @returns the brick at its start
 * @source patankar
 */
export const startBrick = (brick: Brick, faces: FaceResistances, above: number): HeatedBrick => ({
  brick,
  faces,
  above: new Float64Array(brick.cells.length * brick.cells.width * brick.cells.height).fill(above),
  lost: 0,
  generated: 0,
})

/**
 * The same brick with other resistances from now on: a lid comes off, walls are stripped.
 *
 * @param heated brick, left as it is
 * @param faces  resistances from now on [m2 K/W]
 * @returns brick that shares the temperatures of the given one
 * @source patankar
 */
export const withFaces = (heated: HeatedBrick, faces: FaceResistances): HeatedBrick => ({ ...heated, faces })

/**
 * Brings a brick forward by one time step, in place.
 *
 *     half of the source · L(length) · L(width) · L(height) · half of the source
 *     L: (θ′ − θ)/Δt = −A (θ′ + θ)/2 along one axis; outer cell to surroundings: 1/(h/2k + R)
 *
 * Finite volumes, second order in space and time, stable for any step. The three axes commute on a brick, so that
 * taking them one after the other costs no accuracy; only the source does not commute, hence its halves. Every axis
 * conserves heat exactly: stored + lost = generated to rounding. A step far over h²/α rings in the outer cells.
 *
 * @param heated brick, changed in place
 * @param step   [s], > 0
 * @param source what warms the cells; nothing when left out
 * @source patankar, strang1968
 */
export function advance(heated: HeatedBrick, step: number, source?: HeatSource): void {
  const { brick, above } = heated
  const state = heated as Writable<HeatedBrick>
  const volume = cellVolume(brick)
  if (source) state.generated += source(above, step / 2) * volume
  const { length, width, height } = brick.cells
  const axes = axesOf(heated, step)
  const plane = length * width
  let passed = sweepLines(above, axes.length, length, width * height)
  for (let layer = 0; layer < height; layer += 1)
    passed += sweepRows(above, axes.width, width, length, layer * plane)
  passed += sweepRows(above, axes.height, height, plane, 0)
  state.lost += passed * brick.heatCapacity * volume
  if (source) state.generated += source(above, step / 2) * volume
}

/**
 * Heat that the brick holds above its surroundings.
 *
 * @param heated brick
 * @returns heat [J]
 * @source patankar
 */
export function storedHeat(heated: HeatedBrick): number {
  let sum = 0
  for (const value of heated.above) sum += value
  return sum * heated.brick.heatCapacity * cellVolume(heated.brick)
}

/**
 * Size of a cell.
 *
 * @param brick size and cells; length and width count cells in a half
 * @param axis  along which
 * @returns pitch [m]
 * @source patankar
 */
export const pitchOf = (brick: Brick, axis: keyof Extent): number =>
  brick.size[axis] / brick.cells[axis] / (axis === 'height' ? 1 : 2)

/** m3 of a cell with its mirror images in the other three quarters */
const cellVolume = ({ size, cells }: Brick): number =>
  (size.length * size.width * size.height) / (cells.length * cells.width * cells.height)

/** One axis, ready to be solved: (1 + aA) φ = θ by elimination, with the factors that all its lines share. */
interface Axis {
  /** coupling a k/(C h²) of two cells */
  readonly coupling: number
  readonly inverse: Float64Array
  /** 2 a U/(C h) of the first and the last cell: what a step loses there for each K of φ */
  readonly first: number
  readonly last: number
  readonly middle: Float64Array
}

const axesOf = (heated: HeatedBrick, step: number): { readonly [K in keyof Extent]: Axis } => {
  const { faces } = heated
  return {
    length: axisOf(heated, 'length', step, Infinity, faces.end),
    width: axisOf(heated, 'width', step, Infinity, faces.side),
    height: axisOf(heated, 'height', step, faces.base, faces.top),
  }
}

function axisOf(
  heated: HeatedBrick,
  name: keyof Extent,
  step: number,
  firstResistance: number,
  lastResistance: number,
): Axis {
  const { brick } = heated
  const n = brick.cells[name]
  const h = pitchOf(brick, name)
  const a = step / 2
  const coupling = (a * brick.conductivity) / (brick.heatCapacity * h * h)
  const leak = (resistance: number): number =>
    a / (brick.heatCapacity * h * (h / (2 * brick.conductivity) + resistance))
  const first = leak(firstResistance)
  const last = leak(lastResistance)
  const inverse = new Float64Array(n)
  for (let i = 0; i < n; i += 1) {
    let diagonal = 1
    if (i > 0) diagonal += coupling - coupling * coupling * (inverse[i - 1] ?? 0)
    else diagonal += first
    diagonal += i < n - 1 ? coupling : last
    inverse[i] = 1 / diagonal
  }
  return {
    coupling,
    inverse,
    first: 2 * first,
    last: 2 * last,
    middle: new Float64Array(name === 'length' ? n : brick.cells.length * brick.cells.width * n),
  }
}

/** Lines whose cells lie side by side; gives the sum of what the faces let out, in K of a cell. */
function sweepLines(above: Float64Array, axis: Axis, n: number, lines: number): number {
  const { coupling, inverse, middle } = axis
  let passed = 0
  for (let line = 0, at = 0; line < lines; line += 1, at += n) {
    let previous = 0
    for (let i = 0; i < n; i += 1) {
      previous = (above[at + i]! + coupling * previous) * inverse[i]!
      middle[i] = previous
    }
    passed += axis.last * previous
    above[at + n - 1] = 2 * previous - above[at + n - 1]!
    for (let i = n - 2; i >= 0; i -= 1) {
      previous = middle[i]! + coupling * inverse[i]! * previous
      above[at + i] = 2 * previous - above[at + i]!
    }
    passed += axis.first * previous
  }
  return passed
}

/** Lines that run across rows of `width` cells: all of them at once, row by row, which keeps the processor busy. */
function sweepRows(above: Float64Array, axis: Axis, n: number, width: number, from: number): number {
  const { coupling, inverse, middle } = axis
  const factor = inverse[0]!
  for (let j = 0; j < width; j += 1) middle[j] = above[from + j]! * factor
  for (let i = 1; i < n; i += 1) {
    const m = inverse[i]!
    const row = i * width
    for (let j = row; j < row + width; j += 1)
      middle[j] = (above[from + j]! + coupling * middle[j - width]!) * m
  }
  let last = 0
  const end = (n - 1) * width
  for (let j = end; j < end + width; j += 1) {
    last += middle[j]!
    above[from + j] = 2 * middle[j]! - above[from + j]!
  }
  for (let i = n - 2; i >= 0; i -= 1) {
    const m = coupling * inverse[i]!
    const row = i * width
    for (let j = row; j < row + width; j += 1) {
      const value = middle[j]! + m * middle[j + width]!
      middle[j] = value
      above[from + j] = 2 * value - above[from + j]!
    }
  }
  let first = 0
  for (let j = 0; j < width; j += 1) first += middle[j]!
  return axis.first * first + axis.last * last
}
