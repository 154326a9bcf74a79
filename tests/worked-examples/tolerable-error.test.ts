/** How far one pack may be under its stated weight, against the directive's table and a second reckoning. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { tolerableNegativeError } from '../../src/labelling/tolerable-error.ts'

const grams = (nominal: number): number | undefined => {
  const found = tolerableNegativeError(nominal / 1000)
  return found && found.error * 1000
}

describe('published: Directive 76/211/EEC, Annex I 2.4, table (read)', () => {
  // nominal content [g], error [g]: the ends of every step
  test.each([
    [5, 0.5], // 9 % is 0.45, rounded up
    [50, 4.5],
    [75, 4.5],
    [100, 4.5],
    [200, 9],
    [250, 9],
    [300, 9],
    [400, 12],
    [500, 15],
    [750, 15],
    [1000, 15],
    [10_000, 150],
  ])('%d g: %d g', (nominal, error) => expect(grams(nominal)).toBeCloseTo(error, 9))

  test('100 g: 4.5 g, and no pack more than 9.0 g under it', () => {
    expect(tolerableNegativeError(0.1)?.error).toBeCloseTo(0.0045, 12)
    expect(tolerableNegativeError(0.1)?.twice).toBeCloseTo(0.009, 12)
  })
})

describe('published: German FPackV section 9 (read), a share of the content is rounded up to 0.1 g', () => {
  test('125 g: 4.5 % is 5.625 g, rounded up to 5.7 g', () => {
    expect(grams(125)).toBeCloseTo(5.7, 9)
    expect(tolerableNegativeError(0.125)?.twice).toBeCloseTo(0.0114, 12)
  })
})

describe('by hand: edges', () => {
  test.each([
    [120, 5.4], // 5.4 exactly: not 5.5 by its last bit
    [140, 6.3],
    [160, 7.2],
    [180, 8.1],
    [113, 5.1], // 5.085
    [1200, 18],
  ])('%d g: %d g', (nominal, error) => expect(grams(nominal)).toBeCloseTo(error, 9))

  test.each([0, -1, 4.999, 10_000.001, Number.NaN, Number.POSITIVE_INFINITY])(
    '%d g has no figure',
    (nominal) => expect(grams(nominal)).toBeUndefined(),
  )

  test('whole grams, in whole thousandths of a gram by another way of counting', () => {
    // per thousand of the content, or milligrams
    const byHand = (nominal: number): number => {
      if (nominal <= 50) return Math.ceil((nominal * 90) / 100) * 100
      if (nominal <= 100) return 4500
      if (nominal <= 200) return Math.ceil((nominal * 45) / 100) * 100
      if (nominal <= 300) return 9000
      if (nominal <= 500) return Math.ceil((nominal * 30) / 100) * 100
      if (nominal <= 1000) return 15_000
      return Math.ceil((nominal * 15) / 100) * 100
    }
    for (let nominal = 5; nominal <= 10_000; nominal++)
      expect(Math.abs((grams(nominal) ?? 0) * 1000 - byHand(nominal)), `${nominal} g`).toBeLessThan(1e-6)
  })

  test('more content never allows less error, nor a larger share of it than 0.1 g of rounding makes', () => {
    const content = fc.double({ min: 0.005, max: 10, noNaN: true })
    fc.assert(
      fc.property(content, content, (a, b) => {
        const [less, more] = [Math.min(a, b), Math.max(a, b)].map((one) => tolerableNegativeError(one)!)
        expect(less!.error).toBeLessThanOrEqual(more!.error)
        expect(less!.error).toBeLessThanOrEqual(0.09 * Math.min(a, b) + 1e-4)
      }),
      { seed: 76_211, numRuns: 500 },
    )
  })
})
