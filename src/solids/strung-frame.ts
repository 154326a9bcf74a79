/** What proofs of frames with wires share: a bowed wire in pieces, its way into a groove, its holes, buttons that turn. */
import type { Finding } from '../findings.ts'
import type { Vec3 } from '../geometry/placement.ts'
import { deepestOfPairs, depthOf, type Placed, type Proved } from './proof-pieces.ts'
import type { Solid, Solids } from './solids.ts'

/** A wire between two rods of a frame. */
export interface StrungWire {
  /** as its groove: along the length or the width of what is cut */
  readonly runs: 'length' | 'width'
  /** where it stands across its run, and above the bench at the end of the stroke [m] */
  readonly at: number
  readonly height: number
  /** half of its length from rod to rod [m] */
  readonly half: number
  readonly diameter: number
  /** of its middle when it cuts [m] */
  readonly lag: number
}

/** The least room that was found [m], and each thing that comes too near: by how much it is met, or how near it is [m]. */
export interface Met {
  readonly clearance: number
  readonly met: readonly { readonly key: string; readonly by: number }[]
}

/** Pieces that stand for a bowed wire */
const PIECES = 8
/** A wire is a many-sided prism round its circle: its corners stand out by this share of its diameter */
const CORNERS = 0.03
/** m; a wire that lies nearer to wood saws it when it is tuned (common practice) */
export const HOLE_ROOM = 0.0002
/** m; a button that comes nearer than this scrapes (common practice) */
export const TURNS_IN = 0.0005

const placeOf = ({ runs, at }: Pick<StrungWire, 'runs' | 'at'>, along: number, z: number): Vec3 =>
  runs === 'width' ? { x: at, y: along, z } : { x: along, y: at, z }

/** A wire that is bowed up by a share of its lag, from rod to rod: a parabola of straight pieces. */
export const wirePieces = (wire: StrungWire, share: number, solids: Solids): readonly Solid[] => {
  const points = Array.from({ length: PIECES + 1 }, (_, index): Vec3 => {
    const along = (2 * index) / PIECES - 1
    return placeOf(wire, along * wire.half, wire.height + share * wire.lag * (1 - along ** 2))
  })
  return points.slice(1).map((point, index) => solids.capsule(points[index] ?? point, point, wire.diameter))
}

/**
 * A wire on its way into its groove: straight at the end of the stroke and bowed above the base; all other places lie
 * between these two.
 *
 * @param wire   with its pieces at rest and loaded, and how far above the end its way begins [m]
 * @param base   that is grooved
 * @param aside  how far the wire may stray to either side [m]
 * @param search how far a gap is looked for [m]
 * @returns room in the middle, and what a strayed wire meets
 */
export function intoGroove(
  wire: StrungWire & {
    readonly rest: readonly Solid[]
    readonly loaded: readonly Solid[]
    readonly up: number
  },
  base: readonly Placed[],
  { aside, search }: { readonly aside: number; readonly search: number },
  solids: Solids,
): Met {
  const met: { key: string; by: number }[] = []
  let clearance = search
  const beside = (by: number): Vec3 => (wire.runs === 'width' ? { x: by, y: 0, z: 0 } : { x: 0, y: by, z: 0 })
  wire.rest.forEach((lowest, index) => {
    const way = solids.hull([lowest, solids.moved(wire.loaded[index] ?? lowest, { x: 0, y: 0, z: wire.up })])
    // One side at a time: what is shared at both walls would look as wide as the groove.
    const strayed = [-aside, aside].map((by) => solids.hull([way, solids.moved(way, beside(by))]))
    for (const { key, solid } of base) {
      clearance = Math.min(clearance, solids.gap(way, solid, search))
      for (const one of strayed) {
        const shared = solids.overlap(one, solid)
        if (shared && depthOf(shared.bounds) > CORNERS * wire.diameter)
          met.push({ key, by: depthOf(shared.bounds) })
      }
    }
  })
  return { clearance, met }
}

/**
 * A straight wire from peg to anchor: inside a hole it touches nothing, and passes below its shelf.
 *
 * @param reach past the outer faces of both rails [m]
 * @returns room, and wood that is nearer than `HOLE_ROOM`
 */
export function throughHoles(
  wire: Omit<StrungWire, 'half' | 'lag'>,
  reach: number,
  wood: readonly Placed[],
  search: number,
  solids: Solids,
): Met {
  const met: { key: string; by: number }[] = []
  let clearance = search
  const straight = solids.capsule(
    placeOf(wire, -reach, wire.height),
    placeOf(wire, reach, wire.height),
    wire.diameter,
  )
  for (const { key, solid } of wood) {
    const gap = solids.gap(straight, solid, search)
    clearance = Math.min(clearance, gap)
    if (gap < HOLE_ROOM) met.push({ key, by: gap })
  }
  return { clearance, met }
}

/** Each button turns in its room: nothing else is in it nearer than `TURNS_IN`, but for the housing that carries it. */
export function turningButtons(frame: readonly Placed[], search: number, solids: Solids): Met {
  const met: { key: string; by: number }[] = []
  let clearance = search
  for (const button of frame.filter(({ key }) => key === 'peg-button'))
    for (const other of frame) {
      if (other === button) continue
      const gap = solids.gap(button.solid, other.solid, search)
      if (other.key === 'peg-body' && gap < TURNS_IN) continue
      clearance = Math.min(clearance, gap)
      if (gap < TURNS_IN) met.push({ key: other.key, by: gap })
    }
  return { clearance, met }
}

/**
 * What several things of a frame come to together.
 *
 * @param ways   of each thing, by its name
 * @param search how far a gap was looked for [m]
 * @param found  the finding of a fixture's own proof, for one thing and what it meets
 * @returns the least room [m], and of each pair the worst finding
 */
export const provedOf = (
  ways: readonly (Met & { readonly one: string })[],
  search: number,
  found: (one: string, met: Met['met'][number]) => Finding,
): Proved => ({
  clearance: Math.min(search, ...ways.map(({ clearance }) => clearance)),
  findings: deepestOfPairs(ways.flatMap(({ one, met }) => met.map((each) => found(one, each)))),
})
