/**
 * Recorded on 27 November 2026: wood, edges and volumes of boards as each of their numbers became another, so that nobody
 * changes unseen what drawings and solids are made from. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { cellGrid, channelBox, cutBoxes, notchBox, partVolume, woodBoxes } from '../../src/geometry/cells.ts'
import { partEdges } from '../../src/geometry/edges.ts'
import { isSameTurned } from '../../src/geometry/handed.ts'
import { type Feature, isChannel, isNotch, notchStation, type Part } from '../../src/geometry/part.ts'
import { type Axis, type Box, handOf, placeBox, placePoint, type Vec3 } from '../../src/geometry/placement.ts'
import { expectRecorded } from '../recorded.ts'
import { expectChangesRecorded } from '../recorded-changes.ts'
import { plainBoard } from './plain-board.ts'

const features: readonly Feature[] = [
  { kind: 'dado', name: 'd', face: 'upper', runs: 'width', at: 0.1, size: 0.018, depth: 0.006 },
  { kind: 'groove', name: 'g', face: 'lower', runs: 'length', at: 0.09, size: 0.004, depth: 0.012 },
  { kind: 'notch', name: 'n', at: 0.35, size: 0.03, depth: 0.05, edge: 'near', setBy: 'middle' },
  { kind: 'notch', name: 'm', at: 0.46, size: 0.05, depth: 0.06, edge: 'far' },
  { kind: 'hole', name: 'h', u: 0.2, v: 0.1, diameter: 0.01 },
  {
    kind: 'hole',
    name: 'k',
    u: 0.3,
    v: 0.1,
    diameter: 0.008,
    counterbore: { diameter: 0.02, depth: 0.003, face: 'upper' },
  },
]
const board: Part = {
  ...plainBoard,
  length: 0.5,
  width: 0.2,
  features,
}
const point = ({ x, y, z }: Vec3): string => [x, y, z].map((one) => Math.round(one * 1e6)).join(',')
const box = ({ min, max }: Box): string => `${point(min)} to ${point(max)}`

describe('recorded: boards', () => {
  test('as sizes change', () =>
    expectChangesRecorded(
      { name: 'boards', test: import.meta.url },
      board,
      {
        walls: (part) => {
          const { us, vs, ws } = cellGrid(part)
          return [us, vs, ws]
        },
        wood: (part) => woodBoxes(part).map(box),
        edges: (part) => {
          // all of them would be a book
          const all = partEdges(part)
          const sum = all.reduce((total, { a, b }) => total + Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z), 0)
          const moment = all.reduce((total, { a, b }) => total + a.x * b.y + 2 * b.x * a.z + 3 * a.y * b.z, 0)
          return [all.length, sum, moment]
        },
        volume: partVolume,
        cuts: (part) => cutBoxes(part).map(box),
        channels: (part) => part.features.filter(isChannel).map((one) => box(channelBox(part, one))),
        notches: (part) =>
          part.features.filter(isNotch).map((one) => [box(notchBox(part, one)), notchStation(one)]),
      },
      [0.5, 1.3],
      new Set(['count', 'density']),
    ))
  test('edges', () =>
    expectRecorded(
      partEdges(board).map(({ a, b }) => `${point(a)} to ${point(b)}`),
      'edges',
      import.meta.url,
    ))

  test('turned end for end', () => {
    const pairs = ([-1e-6, -9e-8, 0, 9e-8, 1e-6] as const).flatMap((off) =>
      features.map((one) => {
        const other: Feature =
          one.kind === 'hole'
            ? { ...one, u: 0.5 - one.u + off }
            : isChannel(one) || one.kind === 'notch'
              ? { ...one, at: 0.5 - one.at - one.size + off }
              : one
        return [
          one.name,
          off,
          isSameTurned({ length: 0.5, features: [one, other] }),
          isSameTurned({ length: 0.5, features: [one] }),
        ]
      }),
    )
    expectRecorded(pairs, 'turned', import.meta.url)
  })

  test('placed', () => {
    const axes: readonly Axis[] = ['+x', '-x', '+y', '-y', '+z', '-z']
    const placed = axes.flatMap((u) =>
      axes.flatMap((v) =>
        axes
          .filter((w) => new Set([u[1], v[1], w[1]]).size === 3)
          .map((w) => {
            const placement = { origin: { x: 0.1, y: 0.2, z: 0.4 }, u, v, w }
            const size = { min: { x: 0, y: 0.01, z: 0.02 }, max: { x: 0.5, y: 0.3, z: 0.07 } }
            return `${u} ${v} ${w}: ${point(placePoint(placement, size.max))}; ${box(placeBox(placement, size))}; ${handOf(placement)}`
          }),
      ),
    )
    expectRecorded(placed, 'placed', import.meta.url)
  })
})
