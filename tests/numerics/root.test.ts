import { describe, expect, test } from 'vitest'
import { risingRoot } from '../../src/numerics/root.ts'

describe('by hand', () => {
  const interval = { low: 0, high: 10, tolerance: 1e-9 }

  test('square root of 2', () => {
    expect(Math.abs(risingRoot((x) => x * x, 2, interval) - Math.SQRT2)).toBeLessThan(1e-9)
  })

  test('stays in the interval', () => {
    expect(risingRoot((x) => x, -1, interval)).toBe(0)
    expect(risingRoot((x) => x, 11, interval)).toBe(10)
  })

  test('a tolerance finer than numbers can be still ends', () => {
    expect(risingRoot((x) => x, 3, { ...interval, tolerance: 0 })).toBeCloseTo(3, 12)
  })
})
