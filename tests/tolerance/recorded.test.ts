/**
 * Recorded on 27 November 2026: how errors add up in bars, by rule and by draws, as each of their numbers became another, so
 * that nobody changes unseen what a sheet says of weights. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import {
  type BlockChain,
  chainDirection,
  type DirectionTolerances,
  deviationOf,
  loafKind,
  pooledContributions,
  sizeContributions,
  weightContributions,
} from '../../src/tolerance/block-chain.ts'
import { drawBlocks, drawnBlocks, drawnSpread, errorDraw } from '../../src/tolerance/monte-carlo.ts'
import { neededTolerance } from '../../src/tolerance/needed-spacing.ts'
import { kindStacks, neighbourDifference, rankedErrors, sizeStacks } from '../../src/tolerance/ranking.ts'
import { stackUp } from '../../src/tolerance/stack.ts'
import { expectRecorded } from '../recorded.ts'
import { expectChangesRecorded } from '../recorded-changes.ts'

const tolerances: DirectionTolerances = {
  place: { key: 'place', tolerance: 0.0003 },
  led: { key: 'led', tolerance: 0.0004 },
  together: [{ key: 'frame', tolerance: 0.001, distribution: 'uniform' }],
  faces: [
    { key: 'inside', tolerance: 0.0008, distribution: 'uniform', at: 'both' },
    { key: 'stop', tolerance: 0.0005, distribution: 'triangular', at: 'start' },
    { key: 'fill', tolerance: 0.002, distribution: 'uniform', at: 'end' },
  ],
}
const INPUT = {
  length: [0.07, 0.072, 0.07],
  width: [0.05, 0.051],
  height: [0.025, 0.025],
  tolerances,
  scale: [
    { key: 'density', tolerance: 0.02, distribution: 'normal' as const },
    { key: 'pour', tolerance: 0.01, distribution: 'triangular' as const },
  ],
}
const chainOf = ({ length, width, height, tolerances: all, scale }: typeof INPUT): BlockChain => ({
  length: chainDirection(length, ['face', 'face'], all),
  width: chainDirection(width, ['face', 'wire'], all),
  height: chainDirection(height, ['wire', 'wire'], { ...all, faces: [] }),
  scale,
})
const keep = (
  name: string,
  answers: Readonly<Record<string, (given: typeof INPUT) => unknown>>,
  factors: readonly number[],
) => expectChangesRecorded({ name, test: import.meta.url }, INPUT, answers, factors)

describe('recorded: by rule', () => {
  test('of a bar', () =>
    keep(
      'of-a-bar',
      {
        sizes: (given) =>
          [0, 1, 2].map((cell) => stackUp(sizeContributions(chainOf(given).length, cell)).nearlyAll),
        weight: (given) => stackUp(weightContributions(chainOf(given), { length: 0, width: 1, height: 1 })),
        pooled: (given) => pooledContributions(chainOf(given)).map((one) => Object.values(one).join(' ')),
        deviations: ({ scale }) => scale.map(deviationOf),
        needed: (given) =>
          [0.03, 0.06].map((wanted) =>
            neededTolerance(
              weightContributions(chainOf(given), { length: 1, width: 0, height: 0 }),
              ['place', 'led'],
              wanted,
            ),
          ),
      },
      [0.5],
    ))
  test('of a block', () =>
    keep(
      'of-a-block',
      {
        ranked: (given) => rankedErrors(chainOf(given)).map((one) => Object.values(one)),
        neighbours: (given) =>
          (['length', 'width', 'height'] as const).map((key) => neighbourDifference(chainOf(given)[key])),
        kinds: (given) => kindStacks(chainOf(given)),
        sizes: (given) =>
          sizeStacks(chainOf(given)).map(({ direction, faces, stack }) => [direction, faces, stack]),
      },
      [0.5],
    ))
})

describe('recorded: by draws', () => {
  test('errors and blocks', () => {
    const draw = errorDraw(5)
    const blocks: number[][] = []
    drawBlocks(chainOf(INPUT), 4, errorDraw(7), ({ length, width, height, scale }) =>
      blocks.push([...length, ...width, ...height, scale]),
    )
    const errors = Array.from({ length: 5 }, () => (['normal', 'uniform', 'triangular'] as const).map(draw))
    expectRecorded({ errors, blocks }, 'drawn-blocks', import.meta.url)
  })
  test('spreads', () =>
    keep(
      'drawn-spreads',
      {
        spread: (given) =>
          drawnSpread(chainOf(given), {
            blocks: 60,
            seed: 3,
            limits: [0.97, 1, { limit: 0.99, slices: 1 }, { limit: 1.01, slices: 5 }],
          }),
        'of one loaf': (given) => {
          const chain = chainOf({
            ...given,
            length: given.length.slice(0, 1),
            width: given.width.slice(0, 1),
          })
          return [
            drawnBlocks(chain, { blocks: 20, seed: 9 }).spread,
            loafKind(chain, { length: 0, width: 0 }),
          ]
        },
      },
      [0.8, 1.5],
    ))
})
