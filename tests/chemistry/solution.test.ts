import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkSolubility, sodiumHydroxideSolubility } from '../../src/chemistry/solubility.ts'
import { lyeComposition, lyeWater, stockLye } from '../../src/chemistry/solution.ts'
import { celsius } from './lye-mixing.ts'

const sodium = { alkali: 'NaOH', pureMass: 1.4, weighedMass: 1.42 } as const

describe('published: encyclopedia-naoh, acs-omega-2020, saturated lye of NaOH', () => {
  test.each([
    [20, 0.522],
    [80, 0.758],
    [90, 0.7628],
  ])('%i °C', (t, share) => expect(sodiumHydroxideSolubility(celsius(t))).toBeCloseTo(share, 4))
})

describe('published: perry-recalled, g NaOH in 100 g of water (from memory)', () => {
  test.each([
    [0, 42],
    [10, 51.5],
    [20, 109],
  ])('%i °C', (t, grams) => {
    const share = sodiumHydroxideSolubility(celsius(t))
    // The 20 °C point is that of another source: 52.2 % is 109.2 g.
    expect(Math.abs((100 * share) / (1 - share) - grams)).toBeLessThan(0.5)
  })
})

describe('by hand: strength of a lye', () => {
  test('a third of lye: two of water to one', () => {
    const found = lyeWater(1.5, 10, { by: 'concentration', value: 1 / 3 })
    expect(found.water).toBeCloseTo(3, 12)
    expect(found.waterToLye).toBeCloseTo(2, 12)
    expect(found.waterShareOfOils).toBeCloseTo(0.3, 12)
  })

  test('the three ways of saying it lead back to each other', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 5, noNaN: true }),
        fc.double({ min: 1, max: 30, noNaN: true }),
        fc.double({ min: 0.15, max: 0.5, noNaN: true }),
        (alkali, fats, concentration) => {
          const first = lyeWater(alkali, fats, { by: 'concentration', value: concentration })
          const second = lyeWater(alkali, fats, { by: 'water-to-lye', value: first.waterToLye })
          const third = lyeWater(alkali, fats, { by: 'water-share-of-oils', value: second.waterShareOfOils })
          expect(third.concentration).toBeCloseTo(concentration, 10)
          expect(third.water).toBeCloseTo(first.water, 9)
          expect(
            lyeWater(2 * alkali, 2 * fats, { by: 'concentration', value: concentration }).water,
          ).toBeCloseTo(2 * first.water, 9)
        },
      ),
      { seed: 1, numRuns: 200 },
    )
  })

  test('pure alkali in all of the lye: 1.4 / (1.42 + 2.78)', () => {
    expect(lyeComposition([sodium], 2.78).NaOH).toBeCloseTo(1.4 / 4.2, 12)
    expect(lyeComposition([], 0)).toEqual({})
    // the same in two weighings
    const half = { alkali: 'NaOH', pureMass: 0.7, weighedMass: 0.71 } as const
    expect(lyeComposition([half, half], 2.78).NaOH).toBeCloseTo(1.4 / 4.2, 12)
  })

  test('1.5 kg alkali from 50 % stock, 3 kg water wanted: 3 kg stock and 1.5 kg water', () => {
    const found = stockLye({ alkali: 1.5, water: 3, stockConcentration: 0.5 })
    expect(found.stock).toBeCloseTo(3, 12)
    expect(found.makeUpWater).toBeCloseTo(1.5, 12)
    expect(found.concentration).toBeCloseTo(1 / 3, 12)
    expect(found.findings).toEqual([])
  })

  test('a stock of just the strength wanted takes no water; a weaker one is a stop', () => {
    expect(stockLye({ alkali: 1, water: 1, stockConcentration: 0.5 })).toMatchObject({
      makeUpWater: 0,
      findings: [],
    })
    const weak = stockLye({ alkali: 1, water: 0.9, stockConcentration: 0.5 })
    expect(weak.findings).toMatchObject([{ code: 'stock-weaker-than-batch', severity: 'stop' }])
    expect(weak.makeUpWater).toBe(0)
  })

  test('50 % stock: clear at 20 °C but near the edge beneath it, solid in a cool room', () => {
    expect(checkSolubility({ NaOH: 0.5 }, celsius(25)).findings).toEqual([])
    expect(checkSolubility({ NaOH: 0.5 }, celsius(19)).findings[0]).toMatchObject({
      code: 'lye-near-crystallising',
      severity: 'warn',
    })
    expect(checkSolubility({ NaOH: 0.5 }, celsius(12)).findings[0]).toMatchObject({
      code: 'lye-beyond-solubility',
      severity: 'stop',
    })
    expect(checkSolubility({ NaOH: 0.33 }, celsius(12)).findings).toEqual([])
  })

  test('outside 0 to 90 °C the ends hold; plain water never crystallises here', () => {
    expect(sodiumHydroxideSolubility(celsius(-20))).toBeCloseTo(42 / 142, 12)
    expect(sodiumHydroxideSolubility(celsius(150))).toBeCloseTo(0.7628, 12)
    expect(checkSolubility({}, celsius(20)).findings).toEqual([])
  })

  test('potassium hydroxide: 14.1 mol/L · 56.1 g/mol over 1530 kg/m3 = 51.7 %', () => {
    expect(checkSolubility({ KOH: 0.5 }, celsius(25)).limit).toBeCloseTo((14.1 * 56.1053) / 1530, 3)
    expect(checkSolubility({ KOH: 0.53 }, celsius(20)).findings[0]?.severity).toBe('stop')
  })
})
