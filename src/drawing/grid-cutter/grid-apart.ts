/**
 * Moves the parts of the grid cutter apart, so that the order in which they go together reads at a glance.
 */
import type { GridCutter } from '../../fixtures/grid-cutter/types.ts'
import type { Part, Round } from '../../geometry/part.ts'
import type { Axis, Placement, Vec3 } from '../../geometry/placement.ts'
import { type ApartScene, boundsOf, itemNumbers, shifted } from '../exploded/apart.ts'
import type { Path } from '../exploded/axonometric.ts'
import { assemblyScene } from '../scene.ts'

const none: Vec3 = { x: 0, y: 0, z: 0 }

/** How far sides and ends leave their corners, wide enough to look over the front ones at the back ones [m]. */
const opened = ({ outside }: GridCutter): number =>
  Math.max(0.35 * Math.min(outside.width, outside.length), outside.height)
/** From what carries to what is carried [m]. */
const gapOf = ({ outside }: GridCutter): number => 0.5 * outside.height

/** In gaps: pegs out of their shelf, and anchors so far down that they are seen below a rail that stands before them. */
const PEGS_UP = 0.9
const ANCHORS_DOWN = 2.8

/** What sits on a rail goes with it, and on outwards by one gap more. */
const CARRIED: Readonly<Record<string, number>> = { 'side-shelf': 1, 'end-shelf': 1 }

const kindOf = (key: string): string => key.replace(/-2$/, '')

/**
 * Parts and hardware drawn apart.
 *
 * Formula: sides along the width, ends along the length, shelves beyond their rails, rods to the inside of theirs, pegs
 * and anchors up and down out of their shelves, stop blocks below their corners; what is no part of the frame lies in
 * front. Validity: any cutter whose parts do not overlap when it is put together.
 * @param cutter as designed [m]
 * @returns the scene, and the paths along which it goes together [m]
 * @source common practice
 */
export function gridApart(cutter: GridCutter): ApartScene {
  const parts = cutter.parts.map((part) => ({
    ...part,
    placements: part.placements.map((placement) => shifted(placement, shiftOf(cutter, part, placement))),
  }))
  const rounds = cutter.rounds.map((round) => movedRound(cutter, round))
  const scene = assemblyScene(parts, rounds)
  return {
    scene,
    paths: [...shaftPaths(cutter, rounds), ...cornerPaths(cutter)],
    numbers: gridItems(cutter),
  }
}

/** A peg is bought as one piece, and numbered at its housing. */
const WITHIN: readonly string[] = ['peg-post', 'peg-shaft', 'peg-button', 'anchor-head']

/**
 * Numbers of the parts and the hardware.
 *
 * Formula: as of any fixture; the pieces of a peg, and the head of an anchor, have no number of their own. Validity: any
 * cutter.
 * @param cutter as designed
 * @returns numbers by key, from 1; that of a peg is its housing's
 * @source common practice
 */
export const gridItems = ({
  parts,
  rounds,
}: Pick<GridCutter, 'parts' | 'rounds'>): ReadonlyMap<string, number> =>
  itemNumbers({ parts, rounds: rounds.filter(({ key }) => !WITHIN.includes(key)) })

/** Which way a place of the frame lies from its middle: to an end or to a side. */
function outwards({ outside, input }: GridCutter, { x, y }: Pick<Vec3, 'x' | 'y'>): Vec3 {
  const endToEnd = outside.length - 2 * input.handle
  const beyondEnd = Math.abs(x) - endToEnd / 2
  const beyondSide = Math.abs(y) - outside.width / 2
  return beyondEnd > beyondSide ? { ...none, x: Math.sign(x) } : { ...none, y: Math.sign(y) }
}

const times = ({ x, y, z }: Vec3, by: number): Vec3 => ({ x: x * by, y: y * by, z: z * by })

function shiftOf(cutter: GridCutter, part: Part, placement: Placement): Vec3 {
  const { min, max } = boundsOf(part, placement)
  const middle = { x: (min.x + max.x) / 2, y: (min.y + max.y) / 2 }
  const [open, gap] = [opened(cutter), gapOf(cutter)]
  const kind = kindOf(part.key)
  if (kind === 'cutter-side') return { ...none, y: Math.sign(middle.y) * open }
  if (kind === 'cutter-end') return { ...none, x: Math.sign(middle.x) * open }
  const carried = CARRIED[kind]
  if (carried !== undefined) return times(outwards(cutter, middle), open + carried * gap)
  if (kind === 'stop-block') return { ...none, x: Math.sign(middle.x) * open, z: -0.9 * max.z }
  // What the frame stands on, and what it is set out with, lies below it.
  return { ...none, z: -cutter.outside.width }
}

const axisOf = ({ axis }: Round): Axis => `+${axis}`

/** The place of a round in plan. */
const planOf = (round: Round): Pick<Vec3, 'x' | 'y'> => {
  const middle = (round.from + round.to) / 2
  const [p, q] = round.centre
  return round.axis === 'x' ? { x: middle, y: p } : round.axis === 'y' ? { x: p, y: middle } : { x: p, y: q }
}

const movedBy = (round: Round, by: Vec3): Round => {
  const along = by[round.axis]
  const [p, q] = round.centre
  const [dp, dq] = round.axis === 'x' ? [by.y, by.z] : round.axis === 'y' ? [by.x, by.z] : [by.x, by.y]
  return { ...round, centre: [p + dp, q + dq], from: round.from + along, to: round.to + along }
}

function movedRound(cutter: GridCutter, round: Round): Round {
  const [open, gap] = [opened(cutter), gapOf(cutter)]
  if (round.key === 'bridge-rod') {
    const { x, y } = planOf(round)
    const way = axisOf(round) === '+x' ? { ...none, y: Math.sign(y) } : { ...none, x: Math.sign(x) }
    return movedBy(round, times(way, open - 0.5 * gap))
  }
  const way = times(outwards(cutter, planOf(round)), open + gap)
  const lift = round.key.startsWith('peg-')
    ? PEGS_UP * gap
    : round.key.startsWith('anchor-')
      ? -ANCHORS_DOWN * gap
      : 0
  return movedBy(round, { ...way, z: lift })
}

/** From each peg down, and from each anchor up, to its hole in the shelf. */
function shaftPaths(cutter: GridCutter, moved: readonly Round[]): readonly Path[] {
  const gap = gapOf(cutter)
  return moved
    .filter(({ key }) => key === 'peg-post' || key === `anchor-${cutter.input.anchor.key}`)
    .map(({ key, centre: [x, y], from, to }): Path => {
      const down = key === 'peg-post'
      return {
        a: { x, y, z: down ? from : to },
        b: { x, y, z: down ? from - PEGS_UP * gap : to + ANCHORS_DOWN * gap },
      }
    })
}

/** At the upper edge, from each corner of an end to where it stands, and from there to its dado in the side. */
function cornerPaths(cutter: GridCutter): readonly Path[] {
  const { inside, outside, input, edgeAtEnd } = cutter
  const open = opened(cutter)
  const x = inside.length / 2 + input.panels.end.thickness / 2
  const y = inside.width / 2
  const z = edgeAtEnd + outside.height
  return [-1, 1].flatMap((right) =>
    [-1, 1].flatMap((back): Path[] => {
      const corner = { x: right * x, y: back * y, z }
      return [
        { a: { ...corner, x: right * (x + open) }, b: corner },
        { a: corner, b: { ...corner, y: back * (y + open) } },
      ]
    }),
  )
}
