import { MF } from 'mf-parser'
import { describe, expect, test } from 'vitest'
import { MOLAR_MASS, molarMass } from '../../src/chemistry/atomic-weights.ts'
import {
  FATTY_ACID_MOLAR_MASS,
  FATTY_ACID_NAMES,
  FATTY_ACIDS,
  fattyAcidFormula,
} from '../../src/chemistry/fatty-acids.ts'

/** Molar mass by another package, which starts from isotope abundances [kg/mol]. */
const elsewhere = (formula: string): number => new MF(formula).getInfo().mass / 1000

// The two sets of atomic weights differ by up to 2 in 100 000; 1 in 10 000 leaves room for rounding.
const TOLERANCE = 1e-4
const near = (value: number, expected: number) =>
  expect(Math.abs(value / expected - 1)).toBeLessThan(TOLERANCE)

describe('published: molar masses from isotope abundances, by another package', () => {
  test.each([
    ['NaOH', 'NaOH'],
    ['KOH', 'KOH'],
    ['water', 'H2O'],
    ['glycerol', 'C3H8O3'],
    ['sodiumCarbonate', 'Na2CO3'],
    ['citricAcid', 'C6H8O7'],
    ['citricAcidMonohydrate', 'C6H10O8'],
    ['lacticAcid', 'C3H6O3'],
    ['aceticAcid', 'C2H4O2'],
    ['iodine', 'I2'],
    ['hydrogen', 'H'],
    ['sodium', 'Na'],
    ['potassium', 'K'],
  ] as const)('%s', (name, formula) => near(MOLAR_MASS[name], elsewhere(formula)))

  test.each(FATTY_ACID_NAMES)('%s', (name) => {
    const { C, H, O } = fattyAcidFormula(FATTY_ACIDS[name])
    near(FATTY_ACID_MOLAR_MASS[name], elsewhere(`C${C}H${H}O${O}`))
  })

  test.each([
    ['triolein', { C: 57, H: 104, O: 6 }, 885.43421],
    ['tripalmitin', { C: 51, H: 98, O: 6 }, 807.32215],
    ['ricinoleic acid', { C: 18, H: 34, O: 3 }, 298.46145],
  ] as const)('%s', (_, formula, printed) => near(molarMass(formula), printed / 1000))
})

describe('published: homework, triolein and sodium oleate [g/mol]', () => {
  test('triolein', () =>
    expect(Math.abs(molarMass({ C: 57, H: 104, O: 6 }) * 1000 - 885.4)).toBeLessThan(0.06))
  test('sodium oleate', () =>
    // Printed as 304.4 where 304.45 is meant: cut off, not rounded.
    expect(Math.abs(molarMass({ C: 18, H: 33, O: 2, Na: 1 }) * 1000 - 304.4)).toBeLessThan(0.06))
})

describe('by hand: formulas', () => {
  test('oleic acid is C18H34O2', () => {
    expect(fattyAcidFormula(FATTY_ACIDS['C18:1'])).toEqual({ C: 18, H: 34, O: 2 })
  })

  test('ricinoleic acid has one oxygen more', () => {
    expect(fattyAcidFormula(FATTY_ACIDS['C18:1OH'])).toEqual({ C: 18, H: 34, O: 3 })
  })

  test('sodium to potassium hydroxide: 0.712888', () => {
    expect(MOLAR_MASS.NaOH / MOLAR_MASS.KOH).toBeCloseTo(0.712888, 6)
  })
})
