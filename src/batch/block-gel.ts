/** Which part of a block turned to gel, and how far out it reaches. */
import { centreLine, MIDDLE, readAt } from '../numerics/brick-places.ts'
import type { FaceResistances, HeatedBrick } from '../numerics/conduction.ts'

/** How far from the middle of each face the gel reaches [m]; 0 where it reaches the face. */
export interface GelEdge {
  readonly fromEnd: number
  readonly fromSide: number
  readonly fromTop: number
  readonly fromBase: number
}

/** Gelled part for one gel temperature. */
export interface Gelled {
  /** K */
  readonly temperature: number
  /** of the block's volume [–] */
  readonly share: number
  /** undefined when the core never gelled */
  readonly edge: GelEdge | undefined
}

/**
 * Part of a block that was ever above the gel temperature.
 *
 *     share = mean over cells of ½ + (hottest − limit)/(slope through the cell), kept within 0 to 1
 *
 * A cell on the edge counts in part, so that the share does not jump from cell to cell. The edge is where the hottest
 * temperatures pass the limit on the lines from the middle to the faces.
 *
 * @param brick       the block
 * @param hottest     that each cell ever was, above the room [K]
 * @param faces       that the middle of each face ever was, above the room [K]
 * @param temperature at which it gels [K]
 * @param room        [K]
 * @returns share [–] and edge [m]
 * @source patankar
 */
export function gelled(
  brick: HeatedBrick,
  hottest: Float64Array,
  faces: GelEdge,
  temperature: number,
  room: number,
): Gelled {
  const limit = temperature - room
  const { length, width } = brick.brick.cells
  const n = hottest.length
  const slope = (i: number, stride: number, position: number, count: number): number => {
    if (count === 1) return 0
    const low = position > 0 ? i - stride : i
    const high = position < count - 1 ? i + stride : i
    return Math.abs(hottest[high]! - hottest[low]!) / ((high - low) / stride)
  }
  let share = 0
  for (let i = 0; i < n; i += 1) {
    const column = i % length
    const row = Math.floor(i / length) % width
    const layer = Math.floor(i / (length * width))
    const across =
      slope(i, 1, column, length) +
      slope(i, length, row, width) +
      slope(i, length * width, layer, brick.brick.cells.height)
    const excess = hottest[i]! - limit
    share += across > 0 ? Math.min(1, Math.max(0, 0.5 + excess / across)) : Number(excess >= 0)
  }
  const edge = (toward: keyof FaceResistances, face: number): number => {
    const points = [...centreLine(brick, toward, hottest), { fromFace: 0, above: face }]
    for (const [index, point] of points.entries()) {
      const inner = points[index - 1]
      if (!inner || point.above >= limit) continue
      const part = (inner.above - limit) / (inner.above - point.above)
      return inner.fromFace + (point.fromFace - inner.fromFace) * Math.max(0, part)
    }
    return 0
  }
  const inside = readAt(brick, MIDDLE, hottest) >= limit
  return {
    temperature,
    share: share / n,
    edge: inside
      ? {
          fromEnd: edge('end', faces.fromEnd),
          fromSide: edge('side', faces.fromSide),
          fromTop: edge('top', faces.fromTop),
          fromBase: edge('base', faces.fromBase),
        }
      : undefined,
  }
}
