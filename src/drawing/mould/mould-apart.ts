/**
 * Moves the parts of the mould apart, so that the order in which they go together reads at a glance.
 */
import type { BlockMould } from '../../fixtures/mould-types.ts'
import type { Part, Round } from '../../geometry/part.ts'
import type { Placement, Vec3 } from '../../geometry/placement.ts'
import { type ApartScene, boundsOf, itemNumbers, shifted } from '../exploded/apart.ts'
import type { Path } from '../exploded/axonometric.ts'
import { assemblyScene, type Bore } from '../scene.ts'

interface Move {
  /** up, or away from the middle along the mould's length or width */
  readonly way: 'up' | 'lengthwise' | 'widthwise'
  /** [m] */
  readonly by: (mould: BlockMould) => number
}

/** Wide enough apart that one looks over the sides and ends at the base. */
const opened = ({ outside }: BlockMould) => 0.45 * Math.min(outside.width, outside.length)

const gapOf = ({ input }: BlockMould) => 2 * input.panels.side.thickness

const baseLift = ({ outside, base }: BlockMould) => 0.75 * outside.height - 0.5 * base.height

/** How each part leaves its place, by its key. A new part needs a line only when `otherMove` does not suit it. */
const moves: Readonly<Record<string, Move>> = {
  side: { way: 'widthwise', by: opened },
  strip: { way: 'widthwise', by: (mould) => opened(mould) + gapOf(mould) },
  end: { way: 'lengthwise', by: opened },
  rail: { way: 'up', by: () => 0 },
  'base-top': { way: 'up', by: baseLift },
  'groove-strip-short': { way: 'up', by: (mould) => baseLift(mould) + 2 * gapOf(mould) },
  'groove-strip-long': { way: 'up', by: (mould) => baseLift(mould) + 3.5 * gapOf(mould) },
  cleat: { way: 'up', by: (mould) => lidLift(mould) - gapOf(mould) },
  lid: { way: 'up', by: (mould) => lidLift(mould) },
}

/** What lies on the base or hangs in the mould is lifted out of it, to between base and lid. */
const otherMove: Move = { way: 'up', by: (mould) => baseLift(mould) + gapOf(mould) }

/** The lid floats above all that is lifted, and high enough to show most of the base. */
function lidLift(mould: BlockMould): number {
  const { outside } = mould
  const under = mould.parts.filter(({ key }) => key !== 'lid' && key !== 'cleat')
  const top = Math.max(
    outside.height,
    ...under
      .filter(({ key }) => moveOf(key).way === 'up')
      .map((part) => highest(part) + moveOf(part.key).by(mould)),
  )
  const cleatDrop = 2 * mould.input.panels.lid.thickness + gapOf(mould)
  const clear = top + cleatDrop + gapOf(mould) - outside.height
  const base = mould.base.height + baseLift(mould)
  return Math.max(clear, base + outside.width - outside.height, top + 0.8 * outside.width - outside.height)
}

const moveOf = (key: string): Move => (Object.hasOwn(moves, key) ? moves[key]! : otherMove)

/**
 * Parts and hardware drawn apart.
 *
 * Formula: each copy moved along one axis, by a share of the mould or of a panel: sides and strips along the width,
 * ends along the length, base, linings and lid upwards, rods out to the front, washers and nuts along their rods.
 * Validity: any mould whose parts do not overlap when it is put together.
 * @param mould as designed [m]
 * @returns the scene, and the paths along which it goes together [m]
 * @source common practice
 */
export function mouldApart(mould: BlockMould): ApartScene {
  // The flat lining has no place in the mould; its leaves have, and count as it.
  const parts = [...mould.parts, ...mould.liningInPlace].map((part) => ({
    ...part,
    key: part.key === 'lining-side' || part.key === 'lining-end' ? 'lining' : part.key,
    placements: part.placements.map((placement) => shifted(placement, shiftOf(mould, part, placement))),
  }))
  const reach = reachOf(mould)
  const starts = rodStarts(mould, reach.rods)
  const rounds = mould.rounds.map((round) => movedRound(mould, round, reach.strips, starts))
  const scene = assemblyScene(parts, rounds)
  return {
    scene: { ...scene, bores: [...scene.bores, ...rounds.flatMap((round) => ownBore(mould, round))] },
    paths: [...rodPaths(rounds), ...cornerPaths(mould), ...liftPaths(parts)],
    numbers: itemNumbers(mould),
  }
}

const none: Vec3 = { x: 0, y: 0, z: 0 }

function shiftOf(mould: BlockMould, part: Part, placement: Placement): Vec3 {
  if (part.key.startsWith('lining-')) return liningShift(mould, part, placement)
  const { way, by } = moveOf(part.key)
  const { min, max } = boundsOf(part, placement)
  if (way === 'up') return { ...none, z: by(mould) }
  const axis = way === 'lengthwise' ? 'x' : 'y'
  return { ...none, [axis]: Math.sign(min[axis] + max[axis]) * by(mould) }
}

/** A sheet is folded: its two leaves, front with left end and back with right end, leave their corner together. */
function liningShift(mould: BlockMould, part: Part, placement: Placement): Vec3 {
  const { min, max } = boundsOf(part, placement)
  const sign = Math.sign(part.key === 'lining-side' ? min.y + max.y : min.x + max.x)
  const by = sign * 0.5 * opened(mould)
  return { ...none, x: by, y: by }
}

const highest = (part: Part): number =>
  Math.max(...part.placements.map((placement) => boundsOf(part, placement).max.z))

/** How far out, from the middle, hardware starts at the front and at the back [m]. */
function reachOf(mould: BlockMould): { readonly strips: number; readonly rods: number } {
  const wood = mould.parts
    .filter(({ key }) => moveOf(key).way === 'widthwise')
    .map(
      (part) =>
        Math.max(...part.placements.map((placement) => Math.abs(boundsOf(part, placement).max.y)), 0) +
        moveOf(part.key).by(mould),
    )
  const strips = Math.max(mould.outside.width / 2, ...wood)
  return { strips, rods: strips + gapOf(mould) / 2 }
}

const rodKey = ({ centre }: Round): string => centre.join(' ')

/** Between rod and washer, and between washer and nut, so that each is seen whole [m]. */
const rodSpace = (mould: BlockMould) => 0.6 * gapOf(mould)

/**
 * Front end of each rod. Rods with the same height less place along the mould lie on one line of the drawing, so
 * one of two such rods is drawn out farther, past the other's nut.
 */
function rodStarts(mould: BlockMould, reach: number): ReadonlyMap<string, number> {
  const { length, thread } = mould.rods
  const start = -reach - length
  const hardware = 2 * rodSpace(mould) + thread.washer.thickness + thread.nut.thickness
  // seen along the diagonal, lines lie apart by their difference over sqrt 2
  const covered = ((thread.washer.outsideDiameter + thread.diameter) / 2) * Math.SQRT2
  const set: { line: number; from: number; to: number }[] = []
  const starts = new Map<string, number>()
  const rods = mould.rounds.filter(({ key }) => key === 'rod')
  const ahead = ({ centre: [x, z] }: Round) => (x + z) / 2 // on paper this counts like the way along y
  for (const rod of [...rods].sort((p, q) => ahead(q) - ahead(p))) {
    const [x, z] = rod.centre
    const line = z - x
    const near = set.filter((other) => Math.abs(other.line - line) < covered)
    const first = start + ahead(rod)
    const from = near.reduce((at, other) => Math.min(at, other.from - length - rodSpace(mould)), first)
    // Rods that would not even touch stay where all the others are.
    const own = near.every((other) => first + length < other.from) ? first : from
    set.push({ line, from: own - hardware, to: own + length })
    starts.set(rodKey(rod), own - ahead(rod))
  }
  return starts
}

function movedRound(
  mould: BlockMould,
  round: Round,
  back: number,
  starts: ReadonlyMap<string, number>,
): Round {
  const place = (from: number): Round => ({ ...round, from, to: from + round.to - round.from })
  const { washer, nut } = mould.rods.thread
  const front = starts.get(rodKey(round))!
  const space = rodSpace(mould)
  if (round.key === 'rod') return place(front)
  const atFront = round.from + round.to < 0
  const beyond = round.key === 'washer' ? space : 2 * space + washer.thickness
  const size = round.key === 'washer' ? washer.thickness : nut.thickness
  return place(atFront ? front - beyond - size : back + beyond)
}

/** Washers and nuts show the hole that the rod goes through. */
function ownBore({ rods }: BlockMould, { key, centre, from, to }: Round): readonly Bore[] {
  if (key === 'rod') return []
  const [x, z] = centre
  const diameter = key === 'washer' ? rods.thread.holeDiameter : rods.thread.diameter
  return [{ key, a: { x, y: from, z }, b: { x, y: to, z }, diameter }]
}

/** One line through all that goes on a rod, a little beyond the nuts. */
function rodPaths(rounds: readonly Round[]): readonly Path[] {
  return rounds
    .filter(({ key }) => key === 'rod')
    .map(({ centre: [x, z], diameter }) => {
      const own = rounds.filter(({ centre }) => centre[0] === x && centre[1] === z)
      const from = Math.min(...own.map((round) => round.from)) - 2 * diameter
      const to = Math.max(...own.map((round) => round.to)) + 2 * diameter
      return { a: { x, y: from, z }, b: { x, y: to, z } }
    })
}

/** At the rim, from each corner of an end to where it stands, and from there to its dado in the side. */
function cornerPaths(mould: BlockMould): readonly Path[] {
  const { inside, outside, input } = mould
  const x = inside.length / 2 + input.panels.end.thickness / 2
  const y = inside.width / 2
  const z = outside.height
  return [-1, 1].flatMap((right) =>
    [-1, 1].flatMap((back): Path[] => {
      const corner = { x: right * x, y: back * y, z }
      return [
        { a: { ...corner, x: right * (x + moveOf('end').by(mould)) }, b: corner },
        { a: corner, b: { ...corner, y: back * (y + moveOf('side').by(mould)) } },
      ]
    }),
  )
}

/** Upright lines from what stands still or hangs below to what was lifted off it. */
function liftPaths(moved: readonly Part[]): readonly Path[] {
  const place = (key: string) =>
    moved
      .filter((part) => part.key === key)
      .flatMap((part) => part.placements.map((one) => boundsOf(part, one)))
  const [baseTop] = place('base-top')
  const [lid] = place('lid')
  const rails = place('rail').map(({ min, max }) => ({ x: (min.x + max.x) / 2, y: min.y, z: max.z }))
  const cleats = place('cleat').map(({ min, max }) => ({ x: (min.x + max.x) / 2, y: min.y, z: max.z }))
  const upTo = (from: readonly Vec3[], z: number | undefined): readonly Path[] =>
    z === undefined ? [] : from.map((a) => ({ a, b: { ...a, z } }))
  return [...upTo(rails, baseTop?.min.z), ...upTo(cleats, lid?.min.z)]
}
