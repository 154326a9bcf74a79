/** Declared weight and its units. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { maximumAllowableVariation } from '../../src/labelling/allowable-variation.ts'
import { type NetQuantityInput, netQuantity, netStatement } from '../../src/labelling/net-quantity.ts'
import { tolerableNegativeError } from '../../src/labelling/tolerable-error.ts'

/** [kg], from memory */
const OUNCE = 0.028349523125

const kg = (...grams: number[]) => grams.map((one) => one / 1000)
const times = (count: number, grams: number) => Array.from({ length: count }, () => grams)
const europe = { region: 'EU', rule: 'average', all: true } as const
const declared = (input: NetQuantityInput) => {
  const found = netQuantity(input)
  return [Math.round((found.declared ?? Number.NaN) * 1e6) / 1000, found.limit]
}
const codes = (input: NetQuantityInput) => netQuantity(input).findings.map(({ code }) => code)

describe('published: Directive 76/211/EEC Annex I with the 2 % of German FPackV (read), the rules that a batch keeps', () => {
  test('125 g: the mean is not below it, 5.7 g may be missing from a bar', () => {
    // 5.7 g: 4.5 % of 125 g is 5.625, rounded up
    const found = netQuantity({ ...europe, bars: kg(...times(98, 126), 119.2, 119.2) })
    // mean (98 · 126 + 238.4) / 100 = 125.864; 125 − 5.7 = 119.3: two of a hundred are below, which is 2 %
    expect(found.declared).toBe(0.125)
    expect(found.tolerance).toBeCloseTo(0.0057, 12)
    expect(found.beyondTolerance).toBe(2)
  })
})

describe('published: NIST Handbook 133, Table 2-5, from memory', () => {
  test.each([
    [30, 3],
    [36, 3.6],
    [54, 3.6],
    [54.1, 5.4],
    [81, 5.4],
    [117, 7.2],
    [120, 9],
    [154, 9],
    [208, 10.8],
    [263, 12.7],
    [317, 14.5],
  ])('%d g: %d g', (label, variation) =>
    expect((maximumAllowableVariation(label / 1000) ?? 0) * 1000).toBeCloseTo(variation, 9),
  )

  test('nothing outside of the table', () => {
    for (const label of [0, -1, 317.1, Number.NaN])
      expect(maximumAllowableVariation(label / 1000)).toBeUndefined()
  })
})

describe('published: NIST Handbook 44, an ounce is 28.349523125 g, from memory', () => {
  test('113.4 g are 4 oz, 453.6 g a pound', () => {
    expect(netStatement(0.11339809251, 'US').avoirdupois?.ounces).toBe(4)
    expect(netStatement(0.45359237, 'US').avoirdupois).toEqual({ ounces: 16, pounds: 1, remainder: 0 })
  })
})

describe('by hand: average rule', () => {
  test('three of a hundred beyond the error are too many', () => {
    // 4.5 % of 124 g is 5.58, 5.6: 118.4 is not above 119.2
    expect(declared({ ...europe, bars: kg(...times(97, 127), 119.2, 119.2, 119.2) })).toEqual([
      124,
      'tolerable-error',
    ])
  })

  test('even bars: the mean', () => {
    // 1250 / 10
    expect(declared({ ...europe, bars: kg(124, 126, 123, 127, 125, 125, 124, 126, 125, 125) })).toEqual([
      125,
      'mean',
    ])
  })

  test('one light bar of ten is more than 2 %', () => {
    // mean 126.4; 117 − 5.3 = 111.7, 118 − 5.4 = 112.6
    expect(declared({ ...europe, bars: kg(...times(9, 128), 112) })).toEqual([117, 'tolerable-error'])
  })

  test('one light bar of a hundred may be beyond the error, not beyond twice the error', () => {
    // mean 127.84; 123 − 11.2 = 111.8, 124 − 11.2 = 112.8
    expect(declared({ ...europe, bars: kg(...times(99, 128), 112) })).toEqual([123, 'twice-tolerable-error'])
  })

  test('United States: none beyond the allowable variation', () => {
    // 121 − 9 = 112, 122 − 9 = 113
    expect(declared({ ...europe, region: 'US', bars: kg(...times(9, 128), 112) })).toEqual([
      121,
      'allowable-variation',
    ])
  })

  test('of some bars the low end of the mean', () => {
    // mean 125, s² = (1 + 1) / 4, s / √5 = 0.31623; t(95 %, 4) = 2.132: 125 − 0.674 = 124.326
    const found = netQuantity({ ...europe, all: false, bars: kg(124, 126, 125, 125, 125) })
    expect(found.meanAtLeast * 1000).toBeCloseTo(124.326, 3)
    expect(found.declared).toBe(0.124)
  })

  test('what bars still lose and the scale is off comes off first', () => {
    // 125 − 1.2 − 0.5 = 123.3
    const bars = kg(125, 125, 125, 125, 125)
    expect(declared({ ...europe, bars, stillToLose: 0.0012, scaleError: 0.0005 })).toEqual([123, 'mean'])
  })

  test('without figures the lightest bar', () => {
    expect(declared({ ...europe, region: 'CA', bars: kg(126, 124.6, 125) })).toEqual([124, 'lightest-bar'])
    expect(codes({ ...europe, region: 'CA', bars: kg(126, 124.6, 125) })).toEqual(['average-rule-unknown'])
    expect(declared({ ...europe, region: 'US', bars: kg(400, 401) })).toEqual([400, 'lightest-bar'])
  })
})

describe('by hand: least weight', () => {
  const least = { region: 'US', rule: 'least', all: true } as const

  test('whole grams of the lightest bar, rounded down but not by a last bit', () => {
    expect(declared({ ...least, bars: kg(125, 119.99, 130) })).toEqual([119, 'lightest-bar'])
    // 0.1204 − 0.0004 is less than 0.12 by its last bit
    expect(declared({ ...least, bars: [0.1204], stillToLose: 0.0004 })).toEqual([120, 'lightest-bar'])
  })

  test('what is too little or no weight at all', () => {
    expect(codes({ ...least, bars: [] })).toEqual(['bars-not-weighed'])
    expect(codes({ ...least, bars: [0.1, Number.NaN] })).toEqual(['bars-not-weighed'])
    expect(codes({ ...least, bars: kg(0.9) })).toEqual(['bars-below-one-gram'])
    expect(codes({ ...least, all: false, bars: kg(120, 121) })).toEqual([
      'few-bars-weighed',
      'lightest-not-known',
    ])
  })
})

describe('by hand: units', () => {
  test.each([
    // g, metric g, ounces, pounds, what is left over
    [120, 120, 4.23, undefined, undefined], // 4.2329
    [454, 454, 16.01, 1, 0.01], // 16.0144
    [680, 680, 23.98, 1, 7.98], // 23.9863
    [1000, 1000, 35.27, 2, 3.27], // 35.2740
    [1005, 1000, 35.45, 2, 3.45], // 35.4503; three digits are tens of grams
    [1234, 1230, 43.52, 2, 11.52], // 43.5281
    [2000, 2000, undefined, 4, 6.54], // 70.5479
  ])('%d g', (grams, metric, ounces, pounds, remainder) => {
    const found = netStatement(grams / 1000, 'US')
    expect(found.metric * 1000).toBeCloseTo(metric, 9)
    expect(found.avoirdupois).toEqual({ ounces, pounds, remainder })
  })

  test('grams alone elsewhere', () => {
    expect(netStatement(0.1207, 'EU')).toEqual({ metric: 0.12, avoirdupois: undefined })
  })
})

describe('by hand: what holds for every weight', () => {
  test('neither unit overstates, and neither is short by more than its last digit', () => {
    fc.assert(
      fc.property(fc.integer({ min: 5, max: 9999 }), (grams) => {
        const mass = grams / 1000
        const { metric, avoirdupois } = netStatement(mass, 'US')
        const { ounces, pounds, remainder } = avoirdupois!
        expect(metric).toBeLessThanOrEqual(mass + 1e-12)
        expect(mass - metric).toBeLessThan(grams < 1000 ? 1e-9 : 0.01)
        const inOunces = ounces ?? (pounds ?? 0) * 16 + (remainder ?? 0)
        expect(inOunces * OUNCE).toBeLessThanOrEqual(mass + 1e-9)
        expect(mass - inOunces * OUNCE).toBeLessThan(0.01 * OUNCE + 1e-9)
        if (ounces !== undefined && pounds !== undefined)
          expect(pounds * 16 + remainder!).toBeCloseTo(ounces, 9)
      }),
      { seed: 500, numRuns: 500 },
    )
  })

  test('the declared weight keeps all three rules, and one gram more breaks one', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 900, max: 1400 }), { minLength: 2, maxLength: 120 }),
        (tenths) => {
          const bars = tenths.map((one) => one / 10_000)
          const kept = (grams: number): boolean => {
            const { error, twice } = tolerableNegativeError(grams / 1000)!
            const mean = tenths.reduce((sum, one) => sum + one, 0) / tenths.length / 10
            const below = (line: number) => tenths.filter((one) => one / 10 < line - 1e-6).length
            return (
              mean >= grams - 1e-6 &&
              below(grams - twice * 1000) === 0 &&
              below(grams - error * 1000) <= 0.02 * tenths.length
            )
          }
          const grams = Math.round(netQuantity({ ...europe, bars }).declared! * 1000)
          expect([kept(grams), kept(grams + 1)]).toEqual([true, false])
        },
      ),
      { seed: 76, numRuns: 300 },
    )
  })
})
