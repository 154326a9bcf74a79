import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type AcidGroupKey,
  type BlendFat,
  type BlendMakeUp,
  blendMakeUp,
  rangeOfSum,
} from '../../src/chemistry/blend-make-up.ts'
import {
  blendComposition,
  type CompositionRanges,
  iodineValueOfTriglyceride,
  middleComposition,
} from '../../src/chemistry/composition.ts'
import { FATTY_ACID_NAMES, type FattyAcidName } from '../../src/chemistry/fatty-acids.ts'
import { fats, rangesOf } from './fats-library.ts'

const shipped = (key: string, mass: number): BlendFat => {
  const fat = fats.find(([name]) => name === key)![1]
  const { from, to } = fat['saponification-value']
  return { kind: fat.kind, mass, saponificationValue: (from + to) / 2000, acids: rangesOf(fat) }
}
const pure = (name: FattyAcidName, mass: number): BlendFat => ({
  kind: 'triglyceride',
  mass,
  saponificationValue: 0.19,
  acids: { [name]: { low: 1, high: 1 } },
})
const group = (makeUp: BlendMakeUp, key: AcidGroupKey) => makeUp.groups.find((one) => one.key === key)!

describe('published: merck-castor, read: 87 ricinoleic, 7 oleic, 3 linoleic, 2 palmitic, 1 stearic', () => {
  test('3 % saturated, 7 % with one double bond, 3 % with two, 87 % hydroxy acid, no width', () => {
    const found = blendMakeUp([shipped('castor', 1)])
    const shares = found.groups.map(({ key, share }) => [key, Math.round(share.middle * 1e9) / 1e7])
    expect(shares).toEqual([
      ['saturated', 3],
      ['oneDoubleBond', 7],
      ['hydroxy', 87],
      ['twoOrMoreDoubleBonds', 3],
    ])
    for (const { share } of found.groups) expect(share.high - share.low).toBeLessThan(1e-12)
  })
})

describe('published: codex210, read: iodine values of the oils, weighted by hand', () => {
  // coconut 6.3 to 10.6, palm 50 to 55, soybean 124 to 139, maize 103 to 135, sesame 104 to 120
  test.each([
    ['coconut', 6.3, 10.6, 'soybean', 124, 139],
    ['palm', 50, 55, 'coconut', 6.3, 10.6],
    ['maize', 103, 135, 'palm', 50, 55],
    ['sesame', 104, 120, 'soybean', 124, 139],
  ] as const)('half %s, half %s', (first, low1, high1, second, low2, high2) => {
    const { iodineValue } = blendMakeUp([shipped(first, 1), shipped(second, 1)])
    expect(iodineValue.middle * 100).toBeGreaterThanOrEqual((low1 + low2) / 2)
    expect(iodineValue.middle * 100).toBeLessThanOrEqual((high1 + high2) / 2)
    // what the acids allow is at least as wide as half of what was found in oils
    expect(iodineValue.low * 100).toBeLessThan((high1 + high2) / 2)
    expect(iodineValue.high * 100).toBeGreaterThan((low1 + low2) / 2)
  })
})

describe('by hand: make-up', () => {
  test('0.6 kg of pure triolein and 0.4 kg of pure trilaurin', () => {
    const found = blendMakeUp([pure('C18:1', 0.6), pure('C12:0', 0.4)])
    // acids in the fat: 3 · 282.468 / 885.453 = 0.957028, 3 · 200.322 / 639.015 = 0.940457
    // 0.4 · 0.940457 = 0.376183; 0.6 · 0.957028 = 0.574217; 0.376183 / 0.950400 = 0.395816
    expect(group(found, 'saturated').share.middle).toBeCloseTo(0.395816, 5)
    expect(group(found, 'oneDoubleBond').share.middle).toBeCloseTo(0.604184, 5)
    // iodine value by weight of fat: 0.6 · 0.860
    expect(found.iodineValue.middle).toBeCloseTo(0.516, 12)
    expect(found.covered).toBe(1)
  })

  test('limits that the other acids force: at least 1 − 0.15 − 0.60 = 0.25 linoleic, though 0.10 is printed', () => {
    const ranges: CompositionRanges = {
      'C16:0': { low: 0.1, high: 0.15 },
      'C18:1': { low: 0.5, high: 0.6 },
      'C18:2': { low: 0.1, high: 0.4 },
    }
    const only = (acid: FattyAcidName) => rangeOfSum(ranges, (name) => (name === acid ? 1 : 0))
    expect(only('C18:2').low).toBeCloseTo(0.25, 12)
    // 1 − 0.10 − 0.50
    expect(only('C18:2').high).toBeCloseTo(0.4, 12)
    expect(only('C16:0').low).toBeCloseTo(0.1, 12)
    expect(only('C16:0').high).toBeCloseTo(0.15, 12)
    // iodine: least 0.15 C16:0, 0.60 · 0.86 + 0.25 · 1.732 = 0.949; most 0.10, 0.50 · 0.86 + 0.40 · 1.732 = 1.1228
    const iodine = rangeOfSum(ranges, (name) => iodineValueOfTriglyceride({ [name]: 1 }))
    expect(iodine.low).toBeCloseTo(0.949, 10)
    expect(iodine.high).toBeCloseTo(1.1228, 10)
  })

  test('ranges that cannot sum to 1 give the sums of their ends', () => {
    const found = rangeOfSum({ 'C16:0': { low: 0.2, high: 0.3 }, 'C18:1': { low: 0.1, high: 0.4 } }, () => 1)
    expect(found.low).toBeCloseTo(0.3, 12)
    expect(found.high).toBeCloseTo(0.7, 12)
  })

  test('a wax without published acids is not covered; its published iodine value counts', () => {
    const wax: BlendFat = {
      kind: 'wax',
      mass: 0.1,
      saponificationValue: 0.0955,
      iodineValue: { low: 0.07, high: 0.13 },
    }
    const found = blendMakeUp([pure('C18:1', 0.9), wax])
    expect(found.covered).toBeCloseTo(0.9, 12)
    expect(found.iodineCovered).toBeCloseTo(1, 12)
    // 0.9 · 0.86 + 0.1 · 0.10
    expect(found.iodineValue.middle).toBeCloseTo(0.784, 12)
    expect(group(found, 'oneDoubleBond').share.middle).toBeCloseTo(1, 12)
  })

  test('a wax brings the acids of its saponification value: 0.0935 / 56.1053 g/mol · 310.518 = 0.5175 of it', () => {
    const wax: BlendFat = { ...pure('C20:1', 1), kind: 'wax', saponificationValue: 0.0935 }
    const found = blendMakeUp([pure('C18:2', 1), wax])
    // trilinolein: 3 · 280.452 / 879.405 = 0.956734; 0.517482 / (0.517482 + 0.956734) = 0.351022
    expect(group(found, 'oneDoubleBond').share.middle).toBeCloseTo(0.35102, 4)
  })

  test('the iodine value of a wax is the published one, as the factors are those of triglycerides', () => {
    const wax: BlendFat = { ...pure('C20:1', 1), kind: 'wax', iodineValue: { low: 0.8, high: 0.88 } }
    expect(blendMakeUp([wax]).iodineValue).toEqual({ low: 0.8, middle: expect.closeTo(0.84, 12), high: 0.88 })
  })

  test('small acids are counted together, a single small one by its name', () => {
    const found = blendMakeUp([shipped('soybean', 1)])
    expect(group(found, 'saturated').acids.map(({ name }) => name)).toEqual(['C16:0', 'C18:0'])
    expect(group(found, 'saturated').other?.middle).toBeLessThan(0.02)
    const lone = blendMakeUp([pure('C18:1', 99), pure('C22:1', 1)])
    expect(group(lone, 'oneDoubleBond').acids.map(({ name }) => name)).toEqual(['C18:1', 'C22:1'])
    expect(group(lone, 'oneDoubleBond').other).toBeUndefined()
  })

  test('nothing known: zeros, not fractions by zero', () => {
    for (const found of [
      blendMakeUp([]),
      blendMakeUp([{ kind: 'wax', mass: 1, saponificationValue: 0.1 }]),
    ]) {
      expect(found.covered).toBe(0)
      expect(found.iodineValue).toEqual({ middle: 0, low: 0, high: 0 })
      for (const { share } of found.groups) expect(share).toEqual({ middle: 0, low: 0, high: 0 })
    }
  })

  const keys = fats.filter(([, fat]) => fat.kind === 'triglyceride').map(([key]) => key)
  const blends = fc.uniqueArray(
    fc.tuple(fc.constantFrom(...keys), fc.double({ min: 0.01, max: 1, noNaN: true })),
    {
      minLength: 1,
      maxLength: 6,
      selector: ([key]) => key,
    },
  )

  test('groups and their acids sum to 1; limits hold the middle; iodine value within 2 % of that of the blend', () => {
    fc.assert(
      fc.property(blends, (parts) => {
        const found = blendMakeUp(parts.map(([key, mass]) => shipped(key, mass)))
        expect(found.groups.reduce((sum, { share }) => sum + share.middle, 0)).toBeCloseTo(1, 10)
        for (const { share, acids, other } of found.groups) {
          const inside = acids.reduce((sum, acid) => sum + acid.share.middle, other?.middle ?? 0)
          expect(inside).toBeCloseTo(share.middle, 10)
          expect(share.low).toBeLessThanOrEqual(share.middle + 1e-12)
          expect(share.high).toBeGreaterThanOrEqual(share.middle - 1e-12)
          expect(share.high).toBeLessThanOrEqual(1 + 1e-9)
        }
        const blend = blendComposition(
          parts.map(([key, mass]) => ({ mass, composition: middleComposition(shipped(key, mass).acids!) })),
        )
        expect(Math.abs(found.iodineValue.middle / iodineValueOfTriglyceride(blend) - 1)).toBeLessThan(0.02)
      }),
      { seed: 1, numRuns: 200 },
    )
  })

  test('no make-up within the ranges lies beyond the limits', () => {
    const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), {
      minLength: FATTY_ACID_NAMES.length,
      maxLength: FATTY_ACID_NAMES.length,
    })
    fc.assert(
      fc.property(
        fc.constantFrom(...keys),
        shares,
        fc.double({ min: 0, max: 2, noNaN: true }),
        (key, at, slope) => {
          const ranges = shipped(key, 1).acids!
          const made = Object.fromEntries(
            FATTY_ACID_NAMES.flatMap((name, index) => {
              const range = ranges[name]
              return range ? [[name, range.low + (at[index] ?? 0) * (range.high - range.low)]] : []
            }),
          ) as Record<FattyAcidName, number>
          // whatever is missing to 1 goes where there is room, in order; some cannot be completed
          let left = 1 - Object.values(made).reduce((sum, share) => sum + share, 0)
          for (const name of Object.keys(made) as FattyAcidName[]) {
            const range = ranges[name]!
            const next = Math.min(range.high, Math.max(range.low, made[name] + left))
            left -= next - made[name]
            made[name] = next
          }
          fc.pre(Math.abs(left) < 1e-12)
          const factor = (name: FattyAcidName): number => (FATTY_ACID_NAMES.indexOf(name) * slope) % 1
          const sum = Object.entries(made).reduce(
            (total, [name, share]) => total + share * factor(name as FattyAcidName),
            0,
          )
          const limits = rangeOfSum(ranges, factor)
          expect(sum).toBeGreaterThanOrEqual(limits.low - 1e-9)
          expect(sum).toBeLessThanOrEqual(limits.high + 1e-9)
        },
      ),
      { seed: 2, numRuns: 300 },
    )
  })
})
