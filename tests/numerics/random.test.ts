import { describe, expect, test } from 'vitest'
import { randomSource, scrambledWords } from '../../src/numerics/random.ts'

describe('published: blackman-vigna, xoshiro128** from the state 1, 2, 3, 4 (read in the tests of several public libraries)', () => {
  test('first words', () => {
    const next = scrambledWords([1, 2, 3, 4])
    expect(Array.from({ length: 6 }, next)).toEqual([11520, 0, 5927040, 70819200, 2031721883, 1637235492])
  })
})

describe('by hand', () => {
  test('the first word is 9 · rotl(5 · 2, 7) = 9 · 10 · 128', () => {
    expect(scrambledWords([1, 2, 3, 4])()).toBe(9 * 10 * 128)
  })

  test('the same seed repeats, another does not', () => {
    const take = (seed: number) => Array.from({ length: 50 }, randomSource(seed))
    expect(take(7)).toEqual(take(7))
    expect(take(7)).not.toEqual(take(8))
  })

  test.each([0, 1, -1, 2 ** 31, 12345])('seed %i: within 0..1, mean 1/2 and variance 1/12', (seed) => {
    const next = randomSource(seed)
    const drawn = Array.from({ length: 40_000 }, next)
    expect(drawn.every((x) => x >= 0 && x < 1)).toBe(true)
    const mean = drawn.reduce((sum, x) => sum + x, 0) / drawn.length
    const variance = drawn.reduce((sum, x) => sum + (x - mean) ** 2, 0) / drawn.length
    // Standard error of the mean is 0.0014, of the variance 0.0004: four of each.
    expect(Math.abs(mean - 1 / 2)).toBeLessThan(0.006)
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(0.0016)
  })
})
