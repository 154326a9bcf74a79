import { erf } from 'mathjs'
import { describe, expect, test } from 'vitest'
import {
  type BlockChain,
  chainDirection,
  type Direction,
  type ErrorSource,
} from '../../src/tolerance/block-chain.ts'
import { drawBlocks, drawnSpread, errorDraw } from '../../src/tolerance/monte-carlo.ts'
import { type Distribution, stackUp } from '../../src/tolerance/stack.ts'

const DRAWS = 100_000
/** √(p (1 − p) / N) */
const samplingError = (p: number, draws = DRAWS): number => Math.sqrt((p * (1 - p)) / draws)

/** Share of sums of so many errors that leave a band. */
const outside = (count: number, distribution: Distribution, band: number, seed: number): number => {
  const draw = errorDraw(seed)
  let left = 0
  for (let index = 0; index < DRAWS; index++) {
    let sum = 0
    for (let part = 0; part < count; part++) sum += draw(distribution)
    if (Math.abs(sum) > band) left += 1
  }
  return left / DRAWS
}

describe('published: Irwin–Hall distribution, sum of uniform parts of ± 1 by its alternating sum (computed)', () => {
  const rows = [
    [1, 0, 0],
    [2, 0.085786, 0],
    [3, 0.084936, 0],
    [4, 0.083333, 0.00043],
    [5, 0.083333, 0.000947],
    [6, 0.08333, 0.001278],
    [8, 0.08329, 0.001654],
    [10, 0.083279, 0.001871],
    [12, 0.083274, 0.002014],
  ] as const
  test.each(rows)('%i parts leave root-sum-square in %f, three deviations in %f', (count, beyond, three) => {
    const parts = Array.from({ length: count }, (_, index) => ({
      key: `${index}`,
      tolerance: 1,
      sensitivity: 1,
      distribution: 'uniform' as const,
    }))
    const { rootSumSquare, nearlyAll } = stackUp(parts)
    const hair = 1e-9
    const found = outside(count, 'uniform', rootSumSquare + hair, count)
    expect(Math.abs(found - beyond)).toBeLessThanOrEqual(4 * samplingError(beyond))
    const foundThree = outside(count, 'uniform', nearlyAll + hair, 100 + count)
    expect(Math.abs(foundThree - three)).toBeLessThanOrEqual(4 * samplingError(three))
  })

  test('normal parts leave root-sum-square in 0.0027 for any number of parts', () => {
    for (const count of [1, 3, 10])
      expect(Math.abs(outside(count, 'normal', Math.sqrt(count), 7 * count) - 0.0027)).toBeLessThan(
        4 * samplingError(0.0027),
      )
  })

  test('bounded parts never leave the worst case', () => {
    for (const distribution of ['uniform', 'triangular'] as const)
      for (const count of [1, 2, 5]) expect(outside(count, distribution, count, count)).toBe(0)
  })
})

describe('by hand: two triangular parts', () => {
  // a triangular error of ± 1 is the difference of two uniform ones of 0..1; its variance is 1/6
  test('variance 1/6, and half of them within 1 − 1/√2', () => {
    const draw = errorDraw(3)
    const drawn = Array.from({ length: DRAWS }, () => draw('triangular'))
    const variance = drawn.reduce((sum, one) => sum + one * one, 0) / DRAWS
    expect(variance).toBeCloseTo(1 / 6, 2)
    // P(|x| < a) = 1 − (1 − a)²
    const within = drawn.filter((one) => Math.abs(one) < 1 - Math.SQRT1_2).length / DRAWS
    expect(Math.abs(within - 0.5)).toBeLessThan(4 * samplingError(0.5))
  })
})

const still = (cells: readonly number[]): Direction => ({ cells, ends: ['face', 'face'], sources: [] })
const single = (sources: readonly Omit<ErrorSource, 'moves'>[]): Direction => ({
  cells: [1],
  ends: ['face', 'face'],
  sources: sources.map((source) => ({ ...source, moves: [[1, 1]] })),
})
const one = (tolerance: number, distribution: Distribution) => ({ key: 'size', tolerance, distribution })

describe('by hand: weight is a product', () => {
  // three sizes of 1, each uniform within ± 0.3: variance of each 0.03, of their product 1.03³ − 1 = 0.092727
  // (the linear stack says 0.09); the mean stays 1
  test('three sizes of ± 30 %', () => {
    const size = single([one(0.3, 'uniform')])
    const chain: BlockChain = { length: size, width: size, height: size, scale: [] }
    const { all } = drawnSpread(chain, { blocks: DRAWS, seed: 5, limits: [] })
    expect(Math.abs(all.mean - 1)).toBeLessThan((4 * Math.sqrt(0.0927)) / Math.sqrt(DRAWS))
    // the deviation of a variance is about variance · √(2/N) = 0.0004
    expect(Math.abs(all.deviation ** 2 - 0.092727)).toBeLessThan(0.0018)
    expect(all.deviation ** 2 - 0.09).toBeGreaterThan(0.0009)
  })
})

describe('published: normal distribution, by the error function of a library of mathematics', () => {
  // a single bar, one normal size of ± 6 % with 3 deviations: 2 % each
  const chain: BlockChain = {
    length: single([one(0.06, 'normal')]),
    width: still([1]),
    height: still([1]),
    scale: [],
  }
  const limits = [0.94, 0.96, 0.98, 1, 1.01]
  const drawn = drawnSpread(chain, { blocks: DRAWS, seed: 11, limits })

  test.each(limits.map((limit, index) => [limit, index] as const))('share below %f', (limit, index) => {
    const exact = (1 + erf((limit - 1) / 0.02 / Math.SQRT2)) / 2
    const found = drawn.below[index]
    expect(Math.abs((found?.share ?? 0) - exact)).toBeLessThan(4 * samplingError(exact))
    expect(found?.standardError).toBeCloseTo(samplingError(found?.share ?? 0), 6)
  })

  test('three deviations hold 99.73 %', () => {
    expect(Math.abs(drawn.all.outside - (1 - erf(3 / Math.SQRT2)))).toBeLessThan(4 * samplingError(0.0027))
  })
})

const TOLERANCES = {
  place: { key: 'place', tolerance: 0.02 },
  led: { key: 'led', tolerance: 0.03 },
  together: [{ key: 'frame', tolerance: 0.1, distribution: 'uniform' as const }],
  faces: [],
}

describe('by hand: what a wire gives to one bar it takes from the other', () => {
  const direction = chainDirection([1, 1.5, 1], ['face', 'face'], TOLERANCES)
  const chain: BlockChain = { length: direction, width: direction, height: direction, scale: [] }

  test('bars of every block drawn sum to the block', () => {
    // faces do not move: 3.5³ = 42.875
    let seen = 0
    drawBlocks(chain, 500, errorDraw(1), ({ length, width, height, scale }) => {
      let sum = 0
      for (const l of length) for (const w of width) for (const h of height) sum += l * w * h * scale
      expect(sum).toBeCloseTo(42.875, 9)
      expect(length[0]).not.toBe(1)
      seen += 1
    })
    expect(seen).toBe(500)
  })

  test('neighbours go opposite ways: with one wire the two bars are each other’s mirror', () => {
    const two = chainDirection([1, 1], ['face', 'face'], TOLERANCES)
    drawBlocks(
      { length: two, width: still([1]), height: still([1]), scale: [] },
      100,
      errorDraw(2),
      ({ length }) => {
        expect((length[0] ?? 0) - 1).toBeCloseTo(1 - (length[1] ?? 0), 12)
      },
    )
  })

  test('so the mean over all bars does not spread', () => {
    const { all } = drawnSpread(chain, { blocks: 200, seed: 4, limits: [] })
    expect(all.mean).toBeCloseTo(1, 12)
    expect(all.deviation).toBeGreaterThan(0.05)
  })

  test('blocks that are heavy as a whole are so in every bar: the standard error is that of blocks', () => {
    const heavy: BlockChain = {
      length: still([1, 1]),
      width: still([1, 1]),
      height: still([1, 1, 1]),
      scale: [{ key: 'soap', tolerance: 0.03, distribution: 'normal' }],
    }
    const [below] = drawnSpread(heavy, { blocks: 4000, seed: 9, limits: [1] }).below
    // all twelve bars of a block or none: half of the blocks
    expect(below?.blocks).toBe(below?.share)
    expect(below?.standardError).toBeCloseTo(samplingError(below?.share ?? 0, 4000), 5)
  })
})

describe('by hand: draws and seeds', () => {
  const direction = chainDirection([1, 1], ['face', 'face'], TOLERANCES)
  const chain: BlockChain = { length: direction, width: direction, height: still([1]), scale: [] }
  test('the same seed repeats, another differs', () => {
    const take = (seed: number) => drawnSpread(chain, { blocks: 300, seed, limits: [0.98] })
    expect(take(1)).toEqual(take(1))
    expect(take(1)).not.toEqual(take(2))
  })

  test('nothing off: every bar as drawn', () => {
    const { all, lightest, below } = drawnSpread(
      { length: still([1, 1]), width: still([2]), height: still([3]), scale: [] },
      { blocks: 10, seed: 1, limits: [0.999, 1.001] },
    )
    expect([all.mean, all.deviation, lightest]).toEqual([1, 0, 1])
    expect(all.outside).toBe(0)
    expect(below.map(({ share }) => share)).toEqual([0, 1])
  })
})

describe('by hand: kinds of loaves', () => {
  test('three by four loaves with nothing off: four corners, six at an edge, two inside', () => {
    // 2 · 1 · 2 by 3 · 1 · 1 · 3, 10/3 in the mean: corners 6; at an edge 2 four times, 3 twice; inside 1
    const chain: BlockChain = {
      length: still([2, 1, 2]),
      width: still([3, 1, 1, 3]),
      height: still([1]),
      scale: [],
    }
    const { kinds, all } = drawnSpread(chain, { blocks: 5, seed: 1, limits: [] })
    const of = (kind: string) => kinds.find((one) => one.kind === kind)
    expect(kinds.map(({ kind, bars }) => [kind, bars]).sort()).toEqual([
      ['corner', 4],
      ['edge', 6],
      ['inner', 2],
    ])
    expect(of('corner')?.mean).toBeCloseTo(1.8, 12)
    // (4 · 0.6 + 2 · 0.9) / 6, and √((4 · 0.36 + 2 · 0.81) / 6 − 0.49)
    expect(of('edge')?.mean).toBeCloseTo(0.7, 12)
    expect(of('edge')?.deviation).toBeCloseTo(Math.sqrt(0.02), 9)
    expect(of('inner')?.mean).toBeCloseTo(0.3, 12)
    expect(all.mean).toBeCloseTo(1, 12)
  })
})

describe('by hand: bars of the lowest slices', () => {
  // two slices, the upper one drawn half as high and nothing off: below the mean is the upper one alone
  test('a block of one slice has no light bar, one of both has one of two', () => {
    const chain: BlockChain = { length: still([1]), width: still([1]), height: still([2, 1]), scale: [] }
    const { below } = drawnSpread(chain, { blocks: 10, seed: 1, limits: [{ limit: 1, slices: 1 }, 1] })
    expect(below.map(({ bars, share, blocks }) => [bars, share, blocks])).toEqual([
      [1, 0, 0],
      [2, 0.5, 1],
    ])
  })
})
