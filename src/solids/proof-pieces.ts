/** What all proofs of fixtures share: parts in place, pairs that overlap, faces that touch, boxes that move. */
import type { Finding } from '../findings.ts'
import { woodBoxes } from '../geometry/cells.ts'
import type { Part, Round } from '../geometry/part.ts'
import { type Box, placeBox, type Vec3 } from '../geometry/placement.ts'
import type { Solid, Solids } from './solids.ts'

/** A solid of a fixture with the boxes that its wood is made of. */
export interface Placed {
  readonly key: string
  readonly solid: Solid
  readonly boxes: readonly Box[]
  /** pieces of one bought thing go through each other */
  readonly of?: string
}

/** The least room of something that moves [m], and what it meets. */
export interface Proved {
  readonly clearance: number
  readonly findings: readonly Finding[]
}

/** Each copy of a part where it stands. */
export const placedParts = (parts: readonly Part[], solids: Solids): readonly Placed[] =>
  parts.flatMap((part) =>
    part.placements.map((placement) => ({
      key: part.key,
      solid: solids.part(part, placement),
      boxes: woodBoxes(part).map((box) => placeBox(placement, box)),
    })),
  )

/** Hardware where it stands. */
export const placedRounds = (
  rounds: readonly (Round & { readonly of?: string })[],
  solids: Solids,
): readonly Placed[] =>
  rounds.map((round) => {
    const solid = solids.round(round)
    const { key, of } = round
    return { key, solid, boxes: [solid.bounds], ...(of === undefined ? {} : { of }) }
  })

/** Least of the three sizes of a box [m]. */
export const depthOf = ({ min, max }: Box): number => Math.min(max.x - min.x, max.y - min.y, max.z - min.z)

/**
 * Pairs that take up the same room, pieces of one thing left out.
 *
 * @param meant pairs that may: a thread in its nut, a screw in its pilot hole
 * @returns a stop for each pair, with how deep they overlap [m]
 */
export const overlapsOf = (
  all: readonly Placed[],
  solids: Solids,
  meant: (one: string, other: string) => boolean = () => false,
): Finding[] =>
  all.flatMap((one, index) =>
    all.slice(index + 1).flatMap((other): Finding[] => {
      if ((one.of !== undefined && one.of === other.of) || meant(one.key, other.key)) return []
      const shared = solids.overlap(one.solid, other.solid)
      return shared && depthOf(shared.bounds) > TOLERANCE
        ? [
            {
              code: 'parts-overlap',
              severity: 'stop',
              values: { one: one.key, other: other.key, overlap: depthOf(shared.bounds) },
            },
          ]
        : []
    }),
  )

/** What has to lie against one of what, across which axis, on how large a face [m2]. */
export type Face = readonly [one: string, other: string | readonly string[], across: keyof Vec3, area: number]

/** Share of a face that has to lie against its neighbour (a lead-in bevel or a groove takes the rest) */
const CONTACT_SHARE = 0.9

const bothWays = (key: keyof Vec3): readonly Vec3[] =>
  [1, -1].map((sign): Vec3 => ({ x: 0, y: 0, z: 0, [key]: sign }))

/**
 * Whether every piece lies against its neighbour on enough of its face.
 *
 * @returns how many do, and a stop for each that does not
 */
export const contactsOf = (
  faces: readonly Face[],
  all: readonly Placed[],
  solids: Solids,
): { readonly count: number; readonly findings: readonly Finding[] } => {
  let count = 0
  const findings: Finding[] = []
  for (const [one, kinds, across, area] of faces) {
    const other = typeof kinds === 'string' ? kinds : (kinds[0] ?? '')
    const others = all.filter(({ key }) => key === other || kinds.includes(key))
    for (const { solid } of all.filter(({ key }) => key === one)) {
      const wanted = CONTACT_SHARE * area
      let best = 0
      // The first face that is large enough will do: each push costs a boolean.
      for (const candidate of others.filter((each) => near(solid.bounds, each.solid.bounds)))
        for (const axis of bothWays(across))
          if (best < wanted) best = Math.max(best, solids.contact(solid, candidate.solid, axis))
      if (best >= wanted) count += 1
      else
        findings.push({
          code: 'parts-do-not-touch',
          severity: 'stop',
          values: { one, other, touching: best, face: area },
        })
    }
  }
  return { count, findings }
}

/** Boxes that touch or nearly do. */
const near = (a: Box, b: Box): boolean =>
  (['x', 'y', 'z'] as const).every(
    (key) => Math.min(a.max[key], b.max[key]) - Math.max(a.min[key], b.min[key]) > -1e-6,
  )

export const keysOf = (all: readonly Placed[]): readonly string[] => [...new Set(all.map(({ key }) => key))]

/** The room that a box sweeps along an axis: nothing lies between two positions that is not in it. */
export const stretched = ({ min, max }: Box, along: keyof Vec3, by: number): Box => ({
  min: { ...min, [along]: min[along] + Math.min(0, by) },
  max: { ...max, [along]: max[along] + Math.max(0, by) },
})

/** Distance along the axis in which two boxes are furthest apart; below 0 where they share room [m]. */
export const between = (a: Box, b: Box): number => -sharedDepth(a, b)

/** The smallest box that holds all points [m]. */
export const boundsOf = (points: readonly Vec3[]): Box => {
  const min = { ...points[0]! }
  const max = { ...points[0]! }
  for (const { x, y, z } of points) {
    min.x = Math.min(min.x, x)
    min.y = Math.min(min.y, y)
    min.z = Math.min(min.z, z)
    max.x = Math.max(max.x, x)
    max.y = Math.max(max.y, y)
    max.z = Math.max(max.z, z)
  }
  return { min, max }
}

/** The eight corners of a box [m]. */
export const cornersOf = ({ min, max }: Box): readonly Vec3[] =>
  [min.x, max.x].flatMap((x) => [min.y, max.y].flatMap((y) => [min.z, max.z].map((z) => ({ x, y, z }))))

/** Least of the three depths to which two boxes lie in each other; below 0 where they are apart [m]. */
export const sharedDepth = (a: Box, b: Box): number =>
  Math.min(
    Math.min(a.max.x, b.max.x) - Math.max(a.min.x, b.min.x),
    Math.min(a.max.y, b.max.y) - Math.max(a.min.y, b.min.y),
    Math.min(a.max.z, b.max.z) - Math.max(a.min.z, b.min.z),
  )

/** Many boxes of one part may meet another: the deepest of a pair is told. */
export const deepestOfPairs = (findings: readonly Finding[]): Finding[] => {
  const deepest = new Map<string, Finding>()
  for (const finding of findings) {
    const pair = `${finding.code} ${finding.values.one} ${finding.values.other}`
    const before = deepest.get(pair)
    if (!before || Number(before.values.overlap) < Number(finding.values.overlap)) deepest.set(pair, finding)
  }
  return [...deepest.values()]
}

/** m; far below what a saw can do */
export const TOLERANCE = 1e-6
