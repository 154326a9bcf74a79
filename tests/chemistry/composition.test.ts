import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  blendComposition,
  type Composition,
  fattyAcidShareOfTriglyceride,
  iodineValueOfFreeAcids,
  iodineValueOfTriglyceride,
  makeUp,
  meanFattyAcidMolarMass,
  middleComposition,
  saponificationValueOfFreeAcids,
  saponificationValueOfTriglyceride,
  theoreticalIodineFactor,
} from '../../src/chemistry/composition.ts'
import { FATTY_ACID_NAMES, FATTY_ACIDS, type FattyAcidName } from '../../src/chemistry/fatty-acids.ts'
import { fats, measuredOf, rangesOf } from './fats-library.ts'

const computed = fats.flatMap(([key, fat]) => {
  const composition = middleComposition(rangesOf(fat))
  if (fat.kind === 'wax') return []
  const free = fat.kind === 'fatty-acid'
  return [
    {
      key,
      fat,
      saponificationValue:
        1000 *
        (free ? saponificationValueOfFreeAcids(composition) : saponificationValueOfTriglyceride(composition)),
      iodineValue:
        100 * (free ? iodineValueOfFreeAcids(composition) : iodineValueOfTriglyceride(composition)),
    },
  ]
})

describe('published: ranges of each fat, against its own fatty-acid ranges taken at their middle', () => {
  test('34 of the 36 fats; the two waxes do not follow from their acids', () => {
    expect(fats.length).toBe(36)
    expect(computed.length).toBe(34)
  })

  // Babassu: all figures from memory; the middle of wide ranges is a little too heavy.
  const below: Readonly<Record<string, number>> = { babassu: 244.4 }
  test.each(computed)('saponification value of $key', ({ key, fat, saponificationValue }) => {
    const { from, to } = fat['saponification-value']
    const known = below[key]
    if (known !== undefined) return expect(Math.abs(saponificationValue - known)).toBeLessThan(0.05)
    expect(saponificationValue).toBeGreaterThanOrEqual(from)
    expect(saponificationValue).toBeLessThanOrEqual(to)
  })

  // Beef tallow (40 to 53): the acids are another source's and leave out C16:1. Babassu (10 to 18): as above.
  const outsideIodine: Readonly<Record<string, number>> = { 'beef-tallow': 39.7, babassu: 18.1 }
  test.each(computed)('iodine value of $key', ({ key, fat, iodineValue }) => {
    const { from = 0, to = Number.POSITIVE_INFINITY } = fat['iodine-value']
    const known = outsideIodine[key]
    if (known !== undefined) return expect(Math.abs(iodineValue - known)).toBeLessThan(0.05)
    expect(iodineValue).toBeGreaterThanOrEqual(from)
    expect(iodineValue).toBeLessThanOrEqual(to)
  })
})

describe('published: aocs-cd-1c, factors of the pure acids', () => {
  // The printed factors carry three figures; formulas give them within half a per cent.
  test.each([
    ['C16:1', 0.95],
    ['C18:1', 0.86],
    ['C18:2', 1.732],
    ['C18:3', 2.616],
    ['C20:1', 0.785],
    ['C22:1', 0.723],
  ] as const)('%s', (name, factor) => {
    expect(iodineValueOfTriglyceride({ [name]: 1 })).toBe(factor)
    expect(Math.abs(theoreticalIodineFactor(name) / factor - 1)).toBeLessThan(0.005)
  })
})

describe('published: aocs-cd-1c, factors of the free acids', () => {
  test.each([
    ['C16:1', 0.9976],
    ['C18:1', 0.8986],
    ['C18:2', 1.81],
    ['C18:3', 2.735],
    ['C20:1', 0.8175],
    ['C22:1', 0.7497],
  ] as const)('%s', (name, factor) => {
    expect(iodineValueOfFreeAcids({ [name]: 1 })).toBe(factor)
    // formulas: double bonds · 253.809 / molar mass
    const { carbons, doubleBonds } = FATTY_ACIDS[name]
    const molarMass = 12.011 * carbons + 1.008 * (2 * carbons - 2 * doubleBonds) + 2 * 15.999
    expect(Math.abs((doubleBonds * 253.809) / molarMass / factor - 1)).toBeLessThan(0.005)
  })
})

describe('by hand: food tables of 2017, mean acid [g/mol], values computed from them apart from this program', () => {
  test.each([
    ['coconut', 213.632, 247.91, 9.52],
    ['palm', 271.174, 197.65, 57.61],
    ['sunflower', 280.043, 191.66, 130.84],
    ['safflower', 279.208, 192.21, 145.21],
    ['soybean', 278.093, 192.95, 129.17],
    ['maize', 277.999, 193.01, 115.91],
    ['cottonseed', 274.29, 195.51, 107.72],
    ['sesame', 279.5, 192.02, 109.31],
    ['peanut', 281.527, 190.7, 93.4],
    ['rice-bran', 276.854, 193.78, 94.1],
  ] as const)('%s', (key, mean, saponificationValue, iodineValue) => {
    const composition = measuredOf(fats.find(([name]) => name === key)![1])
    expect(meanFattyAcidMolarMass(composition) * 1000).toBeCloseTo(mean, 2)
    expect(
      Math.abs(saponificationValueOfTriglyceride(composition) * 1000 - saponificationValue),
    ).toBeLessThan(0.0051)
    // The iodine value was summed over the percentages as printed, or over 100 %: they differ by up to 1 %.
    const sum = Object.values(composition).reduce((total, share) => total + share, 0)
    const candidates = [1, 1 / sum].map((scale) => iodineValueOfTriglyceride(composition) * 100 * scale)
    expect(Math.min(...candidates.map((value) => Math.abs(value - iodineValue)))).toBeLessThan(0.0051)
  })
})

describe('by hand: composition', () => {
  test.each([
    ['C12:0', 639.015, 263.4, 280.08],
    ['C16:0', 807.339, 208.48, 218.79],
    ['C18:0', 891.501, 188.8, 197.22],
    ['C18:1', 885.453, 190.09, 198.63],
    ['C18:1OH', 933.45, 180.32, 187.98],
    ['C22:1', 1053.777, 159.73, 165.71],
  ] as const)('pure %s: 3 · 56.1053 / M and 56.1053 / M [g/mol]', (name, triglyceride, ofFat, ofAcid) => {
    expect(saponificationValueOfTriglyceride({ [name]: 1 }) * 1000).toBeCloseTo(ofFat, 2)
    expect(saponificationValueOfTriglyceride({ [name]: 1 })).toBeCloseTo(
      ((3 * 0.0561053) / triglyceride) * 1000,
      6,
    )
    expect(saponificationValueOfFreeAcids({ [name]: 1 }) * 1000).toBeCloseTo(ofAcid, 2)
  })

  test('ricinoleic acid, which the method does not list: 0.8157', () => {
    expect(iodineValueOfTriglyceride({ 'C18:1OH': 1 })).toBeCloseTo(0.8157, 4)
  })

  test('a tenth that never turns to soap takes a tenth off', () => {
    const oleic = { 'C18:1': 1 }
    expect(saponificationValueOfTriglyceride(oleic, 0.1)).toBeCloseTo(
      0.9 * saponificationValueOfTriglyceride(oleic),
      12,
    )
  })

  test('no acids: 0, not a fraction by zero', () => {
    expect([
      saponificationValueOfTriglyceride({}),
      saponificationValueOfFreeAcids({}),
      iodineValueOfTriglyceride({}),
    ]).toEqual([0, 0, 0])
    expect(makeUp({})).toEqual({ saturated: 0, oneDoubleBond: 0, twoOrMoreDoubleBonds: 0 })
    expect(blendComposition([])).toEqual({})
    expect(middleComposition({ 'C16:1': { low: 0, high: 0 } })).toEqual({})
  })

  test('make-up: 20 + 10 saturated, 40 with one, 25 + 5 with more', () => {
    const found = makeUp({ 'C16:0': 0.2, 'C18:0': 0.1, 'C18:1': 0.4, 'C18:2': 0.25, 'C18:3': 0.05 })
    expect(found.saturated).toBeCloseTo(0.3, 12)
    expect(found.oneDoubleBond).toBeCloseTo(0.4, 12)
    expect(found.twoOrMoreDoubleBonds).toBeCloseTo(0.3, 12)
  })

  test('a blend weighs its fats by the fatty acids that they give', () => {
    const blend = blendComposition([
      { mass: 1, composition: { 'C12:0': 1 } },
      { mass: 1, composition: { 'C18:1': 1 } },
    ])
    // 3 · 200.322 / 639.015 = 0.94046 against 3 · 282.468 / 885.453 = 0.95703
    expect(blend['C12:0']).toBeCloseTo(0.94046 / (0.94046 + 0.95703), 5)
    expect(fattyAcidShareOfTriglyceride({ 'C12:0': 1 })).toBeCloseTo(0.94046, 5)
  })

  const compositions = fc
    .dictionary(fc.constantFrom(...FATTY_ACID_NAMES), fc.double({ min: 0.001, max: 1, noNaN: true }), {
      minKeys: 1,
    })
    .map((shares) => shares as Composition)

  test('the value of any mixture lies between those of its acids, and does not change with its sum', () => {
    fc.assert(
      fc.property(compositions, fc.double({ min: 0.1, max: 10, noNaN: true }), (composition, factor) => {
        const names = Object.keys(composition) as FattyAcidName[]
        const pure = names.map((name) => saponificationValueOfTriglyceride({ [name]: 1 }))
        const mixed = saponificationValueOfTriglyceride(composition)
        expect(mixed).toBeGreaterThanOrEqual(Math.min(...pure) - 1e-12)
        expect(mixed).toBeLessThanOrEqual(Math.max(...pure) + 1e-12)
        const scaled = Object.fromEntries(names.map((name) => [name, (composition[name] ?? 0) * factor]))
        expect(saponificationValueOfTriglyceride(scaled)).toBeCloseTo(mixed, 10)
        const parts = makeUp(composition)
        expect(parts.saturated + parts.oneDoubleBond + parts.twoOrMoreDoubleBonds).toBeCloseTo(1, 10)
      }),
      { seed: 1, numRuns: 300 },
    )
  })
})
