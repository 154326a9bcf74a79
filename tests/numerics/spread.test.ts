import { describe, expect, test } from 'vitest'
import { randomSource } from '../../src/numerics/random.ts'
import {
  drawnInterval95,
  normalInterval95,
  rootSumSquare,
  uniformDeviation,
} from '../../src/numerics/spread.ts'

describe('published: jcgm100, uniform limits ± a have the deviation a / √3', () => {
  test('± 1', () => expect(uniformDeviation({ low: -1, high: 1 })).toBeCloseTo(0.577, 3))
})

describe('by hand', () => {
  test('3, 4 → 5 and nothing → 0', () => {
    expect(rootSumSquare([3, 4])).toBe(5)
    expect(rootSumSquare([])).toBe(0)
  })

  test('normal interval', () => {
    const { low, middle, high } = normalInterval95(10, 1)
    expect(middle).toBe(10)
    expect(low).toBeCloseTo(8.04, 2)
    expect(high).toBeCloseTo(11.96, 2)
  })

  test('1 to 41, in any order: 1 and 41 cut off', () => {
    const drawn = Float64Array.from({ length: 41 }, (_, i) => ((i * 7) % 41) + 1)
    expect(drawnInterval95(drawn)).toEqual({ low: 2, middle: 21, high: 40 })
  })

  test('one value is its own interval', () => {
    expect(drawnInterval95(Float64Array.of(3))).toEqual({ low: 3, middle: 3, high: 3 })
  })

  test('nought to a hundred in tens: a quarter of the first step in, and of the last', () => {
    const tens = Float64Array.from({ length: 11 }, (_, index) => (10 - index) * 10)
    // places 0.025 · 10 = 0.25 and 9.75 of the sorted values
    const { low, middle, high } = drawnInterval95(tens)
    expect([low, middle, high]).toEqual([expect.closeTo(2.5, 12), 50, expect.closeTo(97.5, 12)])
  })

  test('uniform draws: 95 % of the width', () => {
    const next = randomSource(3)
    const { low, high } = drawnInterval95(Float64Array.from({ length: 100_000 }, next))
    // Standard error of either quantile is 0.0005.
    expect(Math.abs(low - 0.025)).toBeLessThan(0.002)
    expect(Math.abs(high - 0.975)).toBeLessThan(0.002)
  })
})
