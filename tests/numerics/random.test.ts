import { describe, expect, test } from 'vitest'
import { normalSource, randomSource, scrambledWords } from '../../src/numerics/random.ts'

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

  test('a seed is mixed into four words: 0x9e3779b9 more each time, then shifts and two products of 32 bits', () => {
    const LOW = (1n << 32n) - 1n
    const wordsOf = (seed: number): bigint[] =>
      [1n, 2n, 3n, 4n].map((count) => {
        const start = (BigInt(seed) + count * 0x9e3779b9n) & LOW
        const first = ((start ^ (start >> 16n)) * 0x21f0aaadn) & LOW
        const second = ((first ^ (first >> 15n)) * 0x735a2d97n) & LOW
        return second ^ (second >> 15n)
      })
    for (const seed of [0, 1, 8, 12345, 2 ** 31]) {
      const [a, b, c, d] = wordsOf(seed).map((word) => Number(word) | 0)
      // the last one is made odd
      const next = scrambledWords([a!, b!, c!, d! | 1])
      const wanted = Array.from({ length: 4 }, () => next() / 2 ** 32)
      expect(Array.from({ length: 4 }, randomSource(seed))).toEqual(wanted)
    }
  })

  test('normal numbers: √(−2 ln(1 − u)) times cosine and sine of a turn by v', () => {
    const drawn = [0.5, 0.125, 0.75, 0.25]
    let at = 0
    const next = normalSource(() => {
      at += 1
      return drawn[at - 1]!
    })
    // √(2 ln 2) = 1.17741 at an eighth of a turn, √(2 ln 4) = 1.66511 at a quarter
    const eighth = 1.1774100226 * Math.SQRT1_2
    for (const wanted of [eighth, eighth, 0, 1.6651092223]) expect(next()).toBeCloseTo(wanted, 9)
  })
})
