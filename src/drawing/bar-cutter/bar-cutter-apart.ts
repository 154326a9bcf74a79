/**
 * Moves the parts of the bar cutter apart, so that the order in which they go together reads at a glance.
 */
import type { BarCutter } from '../../fixtures/bar-cutter/types.ts'
import type { Part, Round } from '../../geometry/part.ts'
import type { Vec3 } from '../../geometry/placement.ts'
import { type ApartScene, boundsOf, itemNumbers, shifted } from '../exploded/apart.ts'
import type { Path } from '../exploded/axonometric.ts'
import { assemblyScene, type Scene } from '../scene.ts'
import { turned } from '../turn-scene.ts'
import { cutterRounds, HARDWARE, knuckle, plateAsPart } from './cutter-scene.ts'

type Way = readonly [axis: 'y' | 'z', by: (cutter: BarCutter) => number]

/** All that swings goes up together, clear of everything that stands. */
const frameLift = ({ backStop, frame }: BarCutter): number => 2.6 * backStop.top - frame.bottom
const stand = ({ platform }: BarCutter): number => 0.6 * platform.top

/** How each part leaves its place; y grows towards the handles. A new part needs a line only where `otherWay` does not suit. */
const ways: Readonly<Record<string, Way>> = {
  'cutter-base': ['z', () => 0],
  'cutter-riser': ['z', stand],
  'cutter-rest': ['z', stand],
  'cutter-platform': ['z', (cutter) => 2.2 * stand(cutter)],
  'cutter-end-stop': ['z', (cutter) => 3.2 * stand(cutter)],
  'cutter-fence': ['y', (cutter) => 1.4 * (cutter.base.y[1] - cutter.fence.y[0])],
  'cutter-hinge-post': ['z', (cutter) => 2.6 * stand(cutter)],
  'cutter-back-stop': ['y', (cutter) => -1.6 * cutter.backStop.brace],
  'cutter-brace': ['y', (cutter) => -3.4 * cutter.backStop.brace],
  'continuous-hinge': ['z', (cutter) => 4.4 * stand(cutter)],
  'cutter-arm': ['z', frameLift],
  'cutter-front-rail': ['z', (cutter) => frameLift(cutter) + 1.2 * stand(cutter)],
  'cutter-back-rail': ['z', (cutter) => frameLift(cutter) + 1.2 * stand(cutter)],
  'tuning-peg': ['z', (cutter) => frameLift(cutter) + 2.4 * stand(cutter)],
  'wire-pin': ['z', (cutter) => frameLift(cutter) + 2.1 * stand(cutter)],
  'wire-anchor': ['z', (cutter) => frameLift(cutter) - 0.6 * stand(cutter)],
  'music-wire': ['z', (cutter) => frameLift(cutter) - stand(cutter)],
}
const otherWay: Way = ['z', stand]

const wayOf = (key: string): Way => (Object.hasOwn(ways, key) ? ways[key]! : otherWay)

const moveOf = (cutter: BarCutter, key: string): Vec3 => {
  const [axis, by] = wayOf(key)
  return { x: 0, y: 0, z: 0, [axis]: by(cutter) }
}

/**
 * Parts and hardware drawn apart.
 *
 * Formula: each moved along one axis, by a share of the cutter's height; the frame above all that stands. Validity: any bar
 * cutter whose parts do not overlap when it is put together.
 * @param cutter as designed [m]
 * @returns the scene, turned so that the handles are in front, and the paths along which it goes together [m]
 * @source common practice
 */
export function cutterApart(cutter: BarCutter): ApartScene {
  const plates = [...cutter.plates.fixed, ...cutter.plates.swinging].map(plateAsPart)
  const parts = [...cutter.parts, ...plates].map(
    (part): Part => ({
      ...part,
      placements: part.placements.map((one) => shifted(one, moveOf(cutter, part.key))),
    }),
  )
  const rounds = [...cutterRounds(cutter), knuckle(cutter)].map((round) => movedRound(cutter, round))
  const scene = assemblyScene(parts, rounds)
  const wires = wirePieces(cutter)
  return {
    scene: turned({
      ...scene,
      boxes: [...scene.boxes, ...wires.boxes],
      edges: [...scene.edges, ...wires.edges],
    }),
    paths: pathsOf(cutter).map(({ a, b }) => ({ a: half(a), b: half(b) })),
    numbers: cutterItems(cutter),
  }
}

const half = ({ x, y, z }: Vec3): Vec3 => ({ x: -x, y: -y, z })

/** Numbers of parts and of what is bought, as lists and drawings have them. */
export const cutterItems = (cutter: BarCutter): ReadonlyMap<string, number> => {
  const there = new Set(['continuous-hinge', 'music-wire', ...cutterRounds(cutter).map(({ key }) => key)])
  return itemNumbers({
    parts: cutter.parts,
    rounds: HARDWARE.filter((key) => there.has(key)).map((key) => ({ key })),
  })
}

function movedRound(cutter: BarCutter, round: Round): Round {
  const { y, z } = moveOf(cutter, round.key)
  const [p, q] = round.centre
  if (round.axis === 'z') return { ...round, centre: [p, q + y], from: round.from + z, to: round.to + z }
  return { ...round, centre: [p, q + z] }
}

/** Wires are too thin to be drawn by their two sides: each is one line, and a sliver that its number can point at. */
function wirePieces(cutter: BarCutter): Pick<Scene, 'boxes' | 'edges'> {
  const { frame, wire, input } = cutter
  const { z } = moveOf(cutter, 'music-wire')
  const key = 'music-wire'
  const height = wire.height + z
  return {
    boxes: cutter.wires.map(({ x }) => ({
      key,
      min: { x: x - input.wire.diameter / 2, y: frame.backPins, z: height - input.wire.diameter },
      max: { x: x + input.wire.diameter / 2, y: frame.frontPins, z: height },
    })),
    edges: cutter.wires.map(({ x }) => ({
      key,
      a: { x, y: frame.backPins, z: height },
      b: { x, y: frame.frontPins, z: height },
    })),
  }
}

/** From the middle of each part that was moved to where it belongs. */
function pathsOf(cutter: BarCutter): readonly Path[] {
  const stood = cutter.parts.filter(({ key }) => !cutter.swinging.includes(key))
  const own = stood.flatMap((part) => {
    const move = moveOf(cutter, part.key)
    if (move.y === 0 && move.z === 0) return []
    return part.placements.map((placement): Path => {
      const { min, max } = boundsOf(part, placement)
      const a = {
        x: (min.x + max.x) / 2,
        y: (min.y + max.y) / 2,
        z: move.z === 0 ? (min.z + max.z) / 2 : min.z,
      }
      return { a, b: { x: a.x, y: a.y + move.y, z: a.z + move.z } }
    })
  })
  const [, lift] = wayOf('cutter-back-rail')
  const { frame, hinge } = cutter
  const corners = [frame.x[0], frame.x[1]].map((x): Path => {
    const a = { x, y: hinge.edge, z: hinge.axis }
    return { a, b: { ...a, z: a.z + lift(cutter) } }
  })
  return [...own, ...corners]
}
