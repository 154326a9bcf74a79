/**
 * Everything that a view can show, placed in one frame: boxes of wood, their edges, holes and hardware.
 */
import { woodBoxes } from '../geometry/cells.ts'
import { partEdges } from '../geometry/edges.ts'
import { isHole, type Part, type Round } from '../geometry/part.ts'
import {
  type Box,
  identityPlacement,
  type Placement,
  placeBox,
  placePoint,
  type Vec3,
} from '../geometry/placement.ts'

export interface Scene {
  readonly boxes: readonly (Box & { readonly key: string })[]
  readonly edges: readonly { readonly key: string; readonly a: Vec3; readonly b: Vec3 }[]
  readonly bores: readonly Bore[]
  readonly rounds: readonly Round[]
}

/** A drilled hole: middle of its two mouths [m]. */
export interface Bore {
  readonly key: string
  readonly a: Vec3
  readonly b: Vec3
  readonly diameter: number
}

/**
 * Places parts and hardware in one frame.
 *
 * Formula: every part once per placement. Validity: right-angled placements.
 * @param parts with their placements [m]
 * @param rounds hardware in the same frame [m]
 * @returns the scene [m]
 * @source common practice
 */
export function assemblyScene(parts: readonly Part[], rounds: readonly Round[]): Scene {
  const placed = parts.flatMap((part) => part.placements.map((placement) => placedPart(part, placement)))
  return {
    boxes: placed.flatMap((one) => one.boxes),
    edges: placed.flatMap((one) => one.edges),
    bores: placed.flatMap((one) => one.bores),
    rounds,
  }
}

/**
 * One copy of a part in its own coordinates, as it lies on the bench.
 *
 * Formula: the identity placement. Validity: any part.
 * @param part to be drawn [m]
 * @returns the scene [m]
 * @source common practice
 */
export const partScene = (part: Part): Scene => ({ ...placedPart(part, identityPlacement), rounds: [] })

function placedPart(part: Part, placement: Placement): Omit<Scene, 'rounds'> {
  const key = part.key
  return {
    boxes: woodBoxes(part).map((box) => ({ key, ...placeBox(placement, box) })),
    edges: partEdges(part).map(({ a, b }) => ({
      key,
      a: placePoint(placement, a),
      b: placePoint(placement, b),
    })),
    bores: part.features.filter(isHole).flatMap(({ u, v, diameter, counterbore }) => {
      const bore = (across: number, from: number, to: number): Bore => ({
        key,
        a: placePoint(placement, { x: u, y: v, z: from }),
        b: placePoint(placement, { x: u, y: v, z: to }),
        diameter: across,
      })
      const through = bore(diameter, 0, part.thickness)
      if (!counterbore) return [through]
      const { depth, face } = counterbore
      const [from, to] = face === 'lower' ? [0, depth] : [part.thickness - depth, part.thickness]
      return [through, bore(counterbore.diameter, from, to)]
    }),
  }
}
