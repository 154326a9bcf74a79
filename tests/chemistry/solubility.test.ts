/** How strong a lye stays clear. */
import { describe, expect, test } from 'vitest'
import { checkSolubility, sodiumHydroxideSolubility } from '../../src/chemistry/solubility.ts'

const kelvin = (celsius: number): number => celsius + 273.15
const codes = (findings: readonly { code: string; severity: string }[]) =>
  findings.map(({ code, severity }) => `${severity} ${code}`)

describe('published: saturated sodium hydroxide, percent of the lye', () => {
  test.each([
    ['Great Soviet Encyclopedia, sodium hydroxide (read)', 20, 52.2, 0.05],
    ['Great Soviet Encyclopedia, sodium hydroxide (read)', 80, 75.8, 0.05],
    ['ACS Omega 5 (2020) 4875, Table 5 (read)', 90, 76.28, 0.005],
    ['handbooks, 42 g in 100 g of water (from memory)', 0, 29.6, 0.05],
    ['handbooks, 51.5 g in 100 g of water (from memory)', 10, 34.0, 0.05],
    ['handbooks, 109 g in 100 g of water (from memory)', 20, 52.15, 0.06],
  ])('%s, %d °C', (_source, celsius, percent, tolerance) =>
    expect(Math.abs(sodiumHydroxideSolubility(kelvin(celsius)) * 100 - percent)).toBeLessThan(
      tolerance + 1e-9,
    ),
  )
})

describe('by hand: between and outside the points', () => {
  test('halfway between 60 and 80 °C: (63.504 + 75.8) / 2 = 69.652 %', () =>
    // 174 g for 100 g of water: 174 / 274
    expect(sodiumHydroxideSolubility(kelvin(70)) * 100).toBeCloseTo(69.652, 3))
  test('the end values hold outside', () => {
    expect(sodiumHydroxideSolubility(kelvin(-10)) * 100).toBeCloseTo((42 / 142) * 100, 9)
    expect(sodiumHydroxideSolubility(kelvin(120)) * 100).toBeCloseTo(76.28, 9)
  })
  test('half sodium hydroxide at 20 °C stays clear, a cool cellar of 15 °C makes crystals of it (common practice)', () => {
    expect(codes(checkSolubility({ NaOH: 0.5 }, kelvin(20)).findings)).toEqual([])
    expect(codes(checkSolubility({ NaOH: 0.5 }, kelvin(15)).findings)).toEqual(['stop lye-beyond-solubility'])
  })
})

describe('by hand: states at their edges, at 20 °C', () => {
  test.each([
    [0.522 + 1e-9, ['stop lye-beyond-solubility']],
    [0.522 - 1e-9, ['warn lye-near-crystallising']],
    [0.502 + 1e-9, ['warn lye-near-crystallising']],
    [0.502 - 1e-9, []],
    [0.33, []],
    [0, []],
  ])('%d', (share, wanted) =>
    expect(codes(checkSolubility({ NaOH: share }, kelvin(20)).findings)).toEqual(wanted),
  )

  test('potassium hydroxide: 14.1 mol/L (Sipos, Hefter, May 2000, read) of 1530 kg/m3 is 51.7 %', () => {
    // 14.1 · 56.105 / 1530 = 0.517
    expect(checkSolubility({ KOH: 0.3 }, kelvin(25)).limit).toBeCloseTo(0.517, 3)
    expect(codes(checkSolubility({ KOH: 0.53 }, kelvin(20)).findings)).toEqual(['stop lye-beyond-solubility'])
  })

  test('a mixed lye has the limits of its parts by mass: (3 · 52.2 + 51.208) / 4 = 51.952 %', () => {
    // potassium hydroxide at 20 °C: 49.239 + 0.8 · (51.7 − 49.239)
    const { limit, massFraction } = checkSolubility({ NaOH: 0.3, KOH: 0.1 }, kelvin(20))
    expect(limit).toBeCloseTo(0.51952, 5)
    expect(massFraction).toBeCloseTo(0.4, 12)
  })
})

describe('published: Perry and Lange, g for 100 g of water (recalled)', () => {
  test.each([
    ['NaOH', 30, 119],
    ['NaOH', 40, 129],
    ['NaOH', 60, 174],
    ['KOH', 0, 97],
    // 112 at 20 °C would be 52.8 %; the measured density of a saturated lye says a little less, and less is safer
  ] as const)('%s at %i °C: %i', (alkali, temperature, grams) => {
    const { limit } = checkSolubility({ [alkali]: 0.3 }, kelvin(temperature))
    expect(Math.abs(limit - grams / (100 + grams))).toBeLessThan(0.0005)
  })
})
