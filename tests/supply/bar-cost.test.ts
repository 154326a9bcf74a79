import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { barCost, roundedTogether } from '../../src/supply/bar-cost.ts'
import { rational } from '../../src/units/rational.ts'

/** 2.5 kg of oil at 30.00 for 5 kg, 0.35 kg of lye at 9.00 for 1 kg; 20 bars, of which 2 are tests and 1 is broken. */
const BATCH = {
  materials: [
    { name: 'olive oil', used: 2.5, price: 3000, priceFor: 5 },
    { name: 'lye', used: 0.35, price: 900, priceFor: 1 },
  ],
  packaging: [{ name: 'band', used: 1, price: 500, priceFor: 100 }],
  labour: { hours: 3, perHour: 1700 },
  bars: { cut: 20, tests: 2, rejected: 1 },
  batter: { mixed: 4, residue: 0.2, trim: 0.3 },
}

describe('by hand: cost of a bar', () => {
  it('is all that was spent over the bars that are sold', () => {
    // 1500 + 315 + 17 · 5 + 3 · 1700 = 7000; 7000 / 17 = 411.76
    const cost = barCost(BATCH)
    expect(cost).toMatchObject({ sold: 17, batch: 7000, bar: 412 })
    expect(cost?.exact).toBeCloseTo(411.7647, 4)
    // 5100 / 17 = 300; 1500 / 17 = 88.24; 315 / 17 = 18.53; 5: the coin that is missing goes to the lye
    expect(cost?.lines.map(({ name, batch, bar }) => [name, batch, bar])).toEqual([
      ['labour', 5100, 300],
      ['olive oil', 1500, 88],
      ['lye', 315, 19],
      ['band', 85, 5],
    ])
    expect(cost?.lines.map(({ share }) => share)).toEqual([5100 / 7000, 1500 / 7000, 315 / 7000, 85 / 7000])
  })

  it('leaves work out where it is not wanted', () => {
    // 1900 / 17 = 111.76
    const { labour: _, ...without } = BATCH
    expect(barCost(without)).toMatchObject({ batch: 1900, bar: 112 })
  })

  it('says what of the materials never became a bar', () => {
    // residue 0.2 / 4 = 5 %, trim 7.5 %; of the 87.5 % left: tests 2/20 = 8.75 %, broken 4.375 %, sold 74.375 %
    const losses = barCost(BATCH)?.losses ?? []
    expect(losses.map(({ kind, share }) => [kind, share])).toEqual([
      ['in-bars', 0.74375],
      ['residue', 0.05],
      ['trim', 0.075],
      ['tests', 0.0875],
      ['rejected', 0.04375],
    ])
    // 1815 / 17 = 106.76: 79.41, 5.34, 8.01, 9.34, 4.67 → 79 + 5 + 8 + 9 + 4 = 105, two coins to 4.67 and 79.41
    expect(losses.map(({ bar }) => bar)).toEqual([80, 5, 8, 9, 5])
  })

  it('costs nothing that can be told when no bar is sold', () => {
    expect(barCost({ ...BATCH, bars: { cut: 3, tests: 2, rejected: 1 } })).toBeUndefined()
  })

  it('rounds once', () => {
    // three thirds of a coin are one, not none
    const third = (name: string) => ({ name, used: 1, price: 1, priceFor: 3 })
    const cost = barCost({
      ...BATCH,
      materials: [third('a'), third('b'), third('c')],
      packaging: [],
      labour: undefined,
    })
    expect(cost?.batch).toBe(1)
    expect(cost?.lines.map(({ batch }) => batch)).toEqual([1, 0, 0])
    // 0.1 · 15 = 1.5 goes up, as it would not by a double of 1.4999…
    const half = { name: 'a', used: 0.1, price: 15, priceFor: 1 }
    expect(barCost({ ...BATCH, materials: [half], packaging: [], labour: undefined })?.batch).toBe(2)
  })

  it('falls with more bars, and rises with what is used', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 4, max: 60 }),
        fc.integer({ min: 1, max: 5000 }),
        fc.integer({ min: 1, max: 5000 }),
        (cut, grams, more) => {
          const with_ = (bars: number, used: number): number =>
            barCost({
              ...BATCH,
              materials: [{ name: 'a', used: used / 1000, price: 777, priceFor: 1 }],
              bars: { cut: bars, tests: 2, rejected: 1 },
            })?.exact ?? Number.NaN
          expect(with_(cut + 1, grams)).toBeLessThan(with_(cut, grams))
          expect(with_(cut, grams + more)).toBeGreaterThan(with_(cut, grams))
        },
      ),
      { seed: 20270304, numRuns: 200 },
    )
  })

  it('rounds up the first of equal rests: three of 2/3 are two coins', () => {
    const two = rational(2n, 3n)
    expect(roundedTogether([two, two, two])).toEqual([1, 1, 0])
    // 1/4 + 3 · 3/4 = 2.5, half away from nought 3
    const [one, three] = [rational(1n, 4n), rational(3n, 4n)]
    expect(roundedTogether([one, three, three, three])).toEqual([0, 1, 1, 1])
    // 1/4 + 2 · 3/4 + 1/4 = 2
    expect(roundedTogether([one, three, one, three])).toEqual([0, 1, 0, 1])
  })

  it('has columns that add up', () => {
    const amount = fc.tuple(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 1, max: 999 }))
    fc.assert(
      fc.property(fc.array(amount, { minLength: 1, maxLength: 9 }), (amounts) => {
        const rounded = roundedTogether(amounts.map(([n, d]) => rational(BigInt(n), BigInt(d))))
        // over one denominator, in whole numbers of it
        const all = amounts.reduce((product, [, d]) => product * BigInt(d), 1n)
        const sum = amounts.reduce((total, [n, d]) => total + (BigInt(n) * all) / BigInt(d), 0n)
        expect(rounded.reduce((total, one) => total + one, 0)).toBe(Number((2n * sum + all) / (2n * all)))
        for (const [index, [n, d]] of amounts.entries())
          expect(Math.abs((rounded[index] ?? 0) - n / d)).toBeLessThan(1)
      }),
      { seed: 20270305, numRuns: 300 },
    )
  })
})
