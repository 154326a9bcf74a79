/**
 * A fixture drawn apart: what every such drawing is made from.
 */
import type { Part, Round } from '../../geometry/part.ts'
import type { Placement, Vec3 } from '../../geometry/placement.ts'
import { assemblyScene, type Scene } from '../scene.ts'
import type { Path } from './axonometric.ts'

export interface ApartScene {
  readonly scene: Scene
  /** along which parts and hardware go together, to be drawn as centre lines [m] */
  readonly paths: readonly Path[]
  /** of each kind of part and hardware, by key, from 1 */
  readonly numbers: ReadonlyMap<string, number>
}

/**
 * The number of each kind of part and hardware in the drawing.
 *
 * Formula: parts in their order from 1, then hardware in the order in which it is placed. Validity: any fixture.
 * @param fixture parts and hardware as designed
 * @returns numbers by key, from 1
 * @source common practice
 */
export const itemNumbers = ({
  parts,
  rounds,
}: {
  readonly parts: readonly Pick<Part, 'key'>[]
  readonly rounds: readonly Pick<Round, 'key'>[]
}): ReadonlyMap<string, number> =>
  new Map([...new Set([...parts, ...rounds].map(({ key }) => key))].map((key, index) => [key, index + 1]))

/**
 * Room that one copy of a part takes up.
 *
 * Formula: its outline, features left out. Validity: right-angled placements.
 * @param part [m]
 * @param placement of the copy [m]
 * @returns lowest and highest corner [m]
 * @source common practice
 */
export function boundsOf(part: Part, placement: Placement): { readonly min: Vec3; readonly max: Vec3 } {
  const { boxes } = assemblyScene([{ ...part, features: [], placements: [placement] }], [])
  return boxes[0]!
}

/**
 * A placement moved.
 *
 * Formula: origin + way. Validity: any.
 * @param placement [m]
 * @param by way [m]
 * @returns placement [m]
 * @source common practice
 */
export const shifted = (placement: Placement, by: Vec3): Placement => ({
  ...placement,
  origin: { x: placement.origin.x + by.x, y: placement.origin.y + by.y, z: placement.origin.z + by.z },
})
