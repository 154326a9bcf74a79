/**
 * Moves the parts of a small fixture apart: each kind by what is said of it, together with what carries it.
 */
import type { Part, Round } from '../../geometry/part.ts'
import type { Placement, Vec3 } from '../../geometry/placement.ts'
import { type ApartScene, boundsOf, itemNumbers, shifted } from '../exploded/apart.ts'
import type { Path } from '../exploded/axonometric.ts'
import { assemblyScene } from '../scene.ts'

/** How far a piece goes with what it sits in, and then out of it [m]. */
export interface Move {
  readonly carried?: Partial<Vec3>
  readonly apart?: Partial<Vec3>
}

/** On which side of the middle a piece is, by axis: -1, 0 or 1. */
export type Sides = Vec3

/** What one kind of piece does, by its key and the side that it is on. */
export type Moves = (key: string, side: Sides) => Move

export interface SmallApart {
  readonly parts: readonly Part[]
  readonly rounds: readonly Round[]
  readonly moves: Moves
  /** hardware that gets a number; the rest is drawn with it */
  readonly numbered: readonly string[]
}

const NEAR = 1e-6 // m

const sideOf = (at: Vec3): Sides => {
  const side = (one: number): number => (Math.abs(one) < NEAR ? 0 : Math.sign(one))
  return { x: side(at.x), y: side(at.y), z: side(at.z) }
}

const sum = (one: Partial<Vec3> = {}, other: Partial<Vec3> = {}): Vec3 => ({
  x: (one.x ?? 0) + (other.x ?? 0),
  y: (one.y ?? 0) + (other.y ?? 0),
  z: (one.z ?? 0) + (other.z ?? 0),
})

const middleOf = (part: Part, placement: Placement): Vec3 => {
  const { min, max } = boundsOf(part, placement)
  return { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2, z: (min.z + max.z) / 2 }
}

const middleOfRound = ({ axis, centre: [one, other], from, to }: Round): Vec3 => {
  const along = (from + to) / 2
  if (axis === 'x') return { x: along, y: one, z: other }
  return axis === 'y' ? { x: one, y: along, z: other } : { x: one, y: other, z: along }
}

const movedRound = (round: Round, { x, y, z }: Vec3): Round => {
  const [one, other] = round.centre
  const by = round.axis === 'x' ? [x, y, z] : round.axis === 'y' ? [y, x, z] : [z, x, y]
  const [along = 0, first = 0, second = 0] = by
  return { ...round, centre: [one + first, other + second], from: round.from + along, to: round.to + along }
}

/**
 * Parts and hardware drawn apart, with the ways along which they go together.
 *
 * Formula: way = carried + apart, by key and side; a path along the part of it that is its own. Validity: fixtures whose
 * middle is over the origin.
 * @param fixture parts and hardware in their places [m], and their moves
 * @returns the scene, and the paths [m]
 * @source common practice
 */
export function smallApart({ parts, rounds, moves, numbered }: SmallApart): ApartScene {
  const paths: Path[] = []
  const wayOf = (key: string, at: Vec3): Vec3 => {
    const { carried, apart } = moves(key, sideOf(at))
    const whole = sum(carried, apart)
    if (apart) paths.push({ a: sum(at, sum(carried)), b: sum(at, whole) })
    return whole
  }
  const moved = parts.map((part) => ({
    ...part,
    placements: part.placements.map((placement) =>
      shifted(placement, wayOf(part.key, middleOf(part, placement))),
    ),
  }))
  const own = rounds.map((round) => movedRound(round, wayOf(round.key, middleOfRound(round))))
  return {
    scene: assemblyScene(moved, own),
    paths,
    numbers: smallItems(parts, rounds, numbered),
  }
}

/** Numbers of parts, and of the hardware that has one. */
export const smallItems = (
  parts: readonly Pick<Part, 'key'>[],
  rounds: readonly Pick<Round, 'key'>[],
  numbered: readonly string[],
): ReadonlyMap<string, number> =>
  itemNumbers({ parts, rounds: rounds.filter(({ key }) => numbered.includes(key)) })
