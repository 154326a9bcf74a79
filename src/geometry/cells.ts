/**
 * Cuts a part into the boxes of wood that are left between its channels.
 */
import { type Channel, isChannel, isHole, isNotch, type Notch, type Part } from './part.ts'
import type { Box } from './placement.ts'

/** Box of the part on a grid of planes; `filled` says which of its cells are wood. */
export interface CellGrid {
  /** planes across the length, width and thickness, ascending [m] */
  readonly us: readonly number[]
  readonly vs: readonly number[]
  readonly ws: readonly number[]
  /** wood at cell (i, j, k); false outside the grid */
  readonly filled: (i: number, j: number, k: number) => boolean
}

/**
 * Divides a part along the walls of all its channels and notches.
 *
 * Formula: planes at every wall and bottom; a cell is wood unless its middle lies in a cut.
 * Validity: exact for channels and notches; holes and chamfers are left out.
 * @param part with its cuts in part coordinates [m]
 * @returns the grid of cells [m]
 * @source common practice
 */
export function cellGrid(part: Part): CellGrid {
  const cuts = cutBoxes(part)
  const us = planes(
    part.length,
    cuts.flatMap((cut) => [cut.min.x, cut.max.x]),
  )
  const vs = planes(
    part.width,
    cuts.flatMap((cut) => [cut.min.y, cut.max.y]),
  )
  const ws = planes(
    part.thickness,
    cuts.flatMap((cut) => [cut.min.z, cut.max.z]),
  )
  const nj = vs.length - 1
  const nk = ws.length - 1
  const wood: boolean[] = []
  for (let i = 0; i < us.length - 1; i++)
    for (let j = 0; j < nj; j++)
      for (let k = 0; k < nk; k++) {
        const x = (us[i]! + us[i + 1]!) / 2
        const y = (vs[j]! + vs[j + 1]!) / 2
        const z = (ws[k]! + ws[k + 1]!) / 2
        wood.push(
          !cuts.some(
            ({ min, max }) => x > min.x && x < max.x && y > min.y && y < max.y && z > min.z && z < max.z,
          ),
        )
      }
  const inside = (index: number, of: readonly number[]) => index >= 0 && index < of.length - 1
  return {
    us,
    vs,
    ws,
    filled: (i, j, k) =>
      inside(i, us) && inside(j, vs) && inside(k, ws) && wood[(i * nj + j) * nk + k] === true,
  }
}

/**
 * Lists the boxes of wood of a part, joined along its length where they can be.
 *
 * Formula: filled cells of the grid, runs of neighbours along u merged. Validity: as for the grid.
 * @param part in part coordinates [m]
 * @returns boxes in part coordinates that fill the part without overlap [m]
 * @source common practice
 */
export function woodBoxes(part: Part): readonly Box[] {
  const { us, vs, ws, filled } = cellGrid(part)
  const boxes: Box[] = []
  for (let j = 0; j < vs.length - 1; j++)
    for (let k = 0; k < ws.length - 1; k++) {
      let start = -1
      for (let i = 0; i < us.length; i++) {
        const wood = filled(i, j, k)
        if (wood && start < 0) start = i
        if (!wood && start >= 0) {
          boxes.push({
            min: { x: us[start]!, y: vs[j]!, z: ws[k]! },
            max: { x: us[i]!, y: vs[j + 1]!, z: ws[k + 1]! },
          })
          start = -1
        }
      }
    }
  return boxes
}

/**
 * Volume of one copy of a part.
 *
 * Formula: sum of the boxes of wood - pi/4 d^2 x thickness per hole - pi/4 (D^2 - d^2) x depth per counterbore.
 * Validity: chamfers are neglected; a hole that meets a channel is taken through the full thickness.
 * @param part in part coordinates [m]
 * @returns volume [m3], never below 0
 * @source common practice
 */
export function partVolume(part: Part): number {
  const wood = woodBoxes(part).reduce(
    (sum, { min, max }) => sum + (max.x - min.x) * (max.y - min.y) * (max.z - min.z),
    0,
  )
  const drilled = part.features.filter(isHole).reduce((sum, { diameter, counterbore }) => {
    const step = counterbore ? (counterbore.diameter ** 2 - diameter ** 2) * counterbore.depth : 0
    return sum + (Math.PI / 4) * (diameter ** 2 * part.thickness + step)
  }, 0)
  return Math.max(0, wood - drilled)
}

/**
 * The space that a channel takes out of its part.
 *
 * Formula: near wall to far wall, over the whole panel, from the face down. Validity: clipped to the panel.
 * @param part with the panel's length, width and thickness [m]
 * @param channel of that part
 * @returns box in part coordinates [m]
 * @source common practice
 */
export function channelBox(part: Part, channel: Channel): Box {
  const far = channel.at + channel.size
  const alongLength = channel.runs === 'length'
  const w: readonly [number, number] =
    channel.face === 'upper' ? [part.thickness - channel.depth, part.thickness] : [0, channel.depth]
  return {
    min: { x: alongLength ? 0 : channel.at, y: alongLength ? channel.at : 0, z: Math.max(0, w[0]) },
    max: {
      x: alongLength ? part.length : Math.min(part.length, far),
      y: alongLength ? Math.min(part.width, far) : part.width,
      z: Math.min(part.thickness, w[1]),
    },
  }
}

/**
 * The space that a notch takes out of its part.
 *
 * Formula: near wall to far wall, from its edge inwards, through the thickness. Validity: clipped to the panel.
 * @param part with the panel's length, width and thickness [m]
 * @param notch of that part
 * @returns box in part coordinates [m]
 * @source common practice
 */
export const notchBox = (part: Part, notch: Notch): Box => ({
  min: {
    x: Math.max(0, notch.at),
    y: notch.edge === 'near' ? 0 : Math.max(0, part.width - notch.depth),
    z: 0,
  },
  max: {
    x: Math.min(part.length, notch.at + notch.size),
    y: notch.edge === 'near' ? Math.min(part.width, notch.depth) : part.width,
    z: part.thickness,
  },
})

/** All straight cuts of a part, as boxes in its coordinates [m]. */
export const cutBoxes = (part: Part): readonly Box[] => [
  ...part.features.filter(isChannel).map((channel) => channelBox(part, channel)),
  ...part.features.filter(isNotch).map((notch) => notchBox(part, notch)),
]

/** Two planes nearer than this are one [m]: far below any shop tolerance, far above rounding of the sums. */
const samePlane = 1e-9

function planes(size: number, walls: readonly number[]): readonly number[] {
  const sorted = [0, size, ...walls.filter((at) => at > 0 && at < size)].sort((a, b) => a - b)
  return sorted.filter((at, index) => index === 0 || at - sorted[index - 1]! > samePlane)
}
