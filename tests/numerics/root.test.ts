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

  test('it ends on whichever side of two neighbours the middle of them is rounded to', () => {
    for (let place = 1; place <= 40; place += 1) {
      const value = place / 7
      let calls = 0
      const found = risingRoot(
        (x) => {
          calls += 1
          // halving 10 once for each bit of a number takes 60 steps or so
          if (calls > 500) throw new Error('no end')
          return x
        },
        value,
        { ...interval, tolerance: 0 },
      )
      expect(found).toBeCloseTo(value, 12)
    }
  })
})
