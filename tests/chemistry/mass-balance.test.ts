import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { AddedAcidName } from '../../src/chemistry/alkali.ts'
import { MOLAR_MASS } from '../../src/chemistry/atomic-weights.ts'
import { consistentSaponification, reactionProducts } from '../../src/chemistry/mass-balance.ts'

const triglyceride = (mass: number, saponificationValue: number) =>
  ({ kind: 'triglyceride', mass, saponificationValue }) as const

/** Fat and just the sodium hydroxide that it takes. */
const exactly = (fat: number, sodiumHydroxide: number) =>
  reactionProducts({
    fats: [triglyceride(fat, ((sodiumHydroxide / MOLAR_MASS.NaOH) * MOLAR_MASS.KOH) / fat)],
    alkali: { NaOH: sodiumHydroxide, KOH: 0 },
  })

describe('published: solved exercises in mass balance, with 40 and 92 g/mol', () => {
  // Our molar masses are 39.997 and 92.094: glycerol differs by 0.1 %, less than half the last digit but in one case.
  test('8.58 kg fat, 1.2 kg NaOH: 0.92 kg glycerol, 8.86 kg soap', () => {
    const found = exactly(8.58, 1.2)
    expect(Math.abs(found.glycerol - 0.92)).toBeLessThan(0.005)
    expect(Math.abs(found.soap - 8.86)).toBeLessThan(0.005)
  })

  test('17.24 g fat, 2.4 g NaOH: 1.84 g glycerol, 17.8 g soap', () => {
    const found = exactly(17.24e-3, 2.4e-3)
    expect(Math.abs(found.glycerol * 1000 - 1.84)).toBeLessThan(0.005)
    expect(Math.abs(found.soap * 1000 - 17.8)).toBeLessThan(0.05)
  })

  test('89 g fat, 42 g NaOH: the balance holds at 98.8 g soap and 32.2 g glycerol, the pair is refused at 662', () => {
    const found = exactly(89e-3, 42e-3)
    expect(Math.abs(found.glycerol * 1000 - 32.2)).toBeLessThan(0.05)
    expect(Math.abs(found.soap * 1000 - 98.8)).toBeLessThan(0.05)
    const check = consistentSaponification({ fat: 89e-3, sodiumHydroxide: 42e-3 })
    expect(Math.abs(check.saponificationValue * 1000 - 662)).toBeLessThan(0.5)
    expect(check.findings).toMatchObject([{ code: 'saponification-value-impossible', severity: 'stop' }])
  })

  test('0.368 kg glycerol from 1.2 kg NaOH is refused; 0.92 kg is not, and 9.412 kg soap is never found', () => {
    const flawed = consistentSaponification({ fat: 8.58, sodiumHydroxide: 1.2, glycerol: 0.368 })
    expect(flawed.findings).toMatchObject([{ code: 'glycerol-does-not-match-alkali', severity: 'stop' }])
    const right = consistentSaponification({ fat: 8.58, sodiumHydroxide: 1.2, glycerol: 0.92 })
    expect(right.findings).toEqual([])
    expect(Math.abs(right.glycerol - 0.92)).toBeLessThan(0.005)
    expect(Math.abs(exactly(8.58, 1.2).soap - 9.412)).toBeGreaterThan(0.5)
  })

  test('100 g fat of acid value 7, 0.32 mol NaOH: 0.0125 mol acid, 0.1025 mol and 9.43 g glycerol', () => {
    const found = reactionProducts({
      fats: [
        {
          kind: 'triglyceride',
          mass: 0.1,
          saponificationValue: (0.32 * MOLAR_MASS.KOH) / 0.1,
          acidValue: (0.007 / 0.056) * MOLAR_MASS.KOH, // 56 g/mol in the exercise
        },
      ],
      alkali: { NaOH: 0.32 * MOLAR_MASS.NaOH, KOH: 0 },
    })
    expect(Math.abs(found.waterFormed / MOLAR_MASS.water - 0.0125)).toBeLessThan(0.00005)
    expect(Math.abs(found.glycerol / MOLAR_MASS.glycerol - 0.1025)).toBeLessThan(0.00005)
    // 92.094 instead of 92 g/mol: 0.01 g more.
    expect(Math.abs(found.glycerol * 1000 - 9.43)).toBeLessThan(0.015)
  })
})

describe('by hand: homework on sodium oleate, answered from the molar masses', () => {
  test('405 g sodium oleate from 392.6 g triolein and 53.2 g NaOH', () => {
    // 405 / 304.45 / 3 · 885.453 = 392.63 and 405 / 304.45 · 39.9968 = 53.206
    const found = exactly(0.39263, 0.053206)
    expect(Math.abs(found.soap * 1000 - 405)).toBeLessThan(0.05)
  })

  test('a fat of 190 mg/g has a mean molar mass of 885.9 g/mol', () => {
    expect(Math.abs(((3 * MOLAR_MASS.KOH) / 0.19) * 1000 - 885.9)).toBeLessThan(0.05)
  })
})

describe('by hand: what reacts with what', () => {
  test('superfat left as fat: triolein with 95 % of its alkali', () => {
    const demand = (3 * 39.9967693) / 885.453 // kg NaOH per kg
    const found = reactionProducts({
      fats: [triglyceride(1, (3 * 56.1053) / 885.453)],
      alkali: { NaOH: 0.95 * demand, KOH: 0 },
    })
    expect(found.unreactedFat).toBeCloseTo(0.05, 6)
    expect(found.superfat).toBeCloseTo(0.05, 6)
    expect(found.soap).toBeCloseTo((0.95 * 3 * 304.45) / 885.453, 5)
    expect(found.glycerol).toBeCloseTo((0.95 * 92.094) / 885.453, 5)
    expect(found.findings).toEqual([])
  })

  test('three of five groups take sodium, two potassium: 304.45 and 320.558 g/mol, in each fat', () => {
    const moles = 3 / 0.885453 // of groups in a kg of triolein
    const found = reactionProducts({
      fats: [triglyceride(1, moles * 0.0561053), triglyceride(2, moles * 0.0561053)],
      alkali: { NaOH: 0.6 * 3 * moles * 0.0399967693, KOH: 0.4 * 3 * moles * 0.0561053 },
    })
    const [one, two] = found.byFat
    expect(one?.sodiumSoap).toBeCloseTo(0.6 * moles * 0.30445, 4)
    expect(one?.potassiumSoap).toBeCloseTo(0.4 * moles * 0.320558, 4)
    expect(two?.sodiumSoap).toBeCloseTo(2 * 0.6 * moles * 0.30445, 4)
    expect(two?.potassiumSoap).toBeCloseTo(2 * 0.4 * moles * 0.320558, 4)
    // by fat or by the metals as they were mixed: the same soap
    const soap = found.byFat.reduce((sum, fat) => sum + fat.sodiumSoap + fat.potassiumSoap, 0)
    expect(soap).toBeCloseTo(found.soap, 9)
  })

  test('too much alkali stays free and is a stop', () => {
    const found = reactionProducts({ fats: [triglyceride(1, 0.19)], alkali: { NaOH: 0.15, KOH: 0 } })
    expect(found.freeAlkali).toBeCloseTo(0.15 - 0.135449, 6)
    expect(found.superfat).toBeLessThan(0)
    expect(found.findings).toMatchObject([{ code: 'alkali-left-over', severity: 'stop' }])
  })

  test('stearic acid gives water and no glycerol: 18.015 / 284.484', () => {
    const found = reactionProducts({
      fats: [{ kind: 'fatty-acid', mass: 1, saponificationValue: 56.1053 / 284.484 }],
      alkali: { NaOH: 39.9967693 / 284.484, KOH: 0 },
    })
    expect(found.glycerol).toBe(0)
    expect(found.waterFormed).toBeCloseTo(18.015 / 284.484, 6)
    expect(found.soap).toBeCloseTo(306.466 / 284.484, 5)
  })

  test('a wax leaves alcohol and gives no glycerol', () => {
    // Icosenyl icosenoate, C40H76O2: 589.046 g/mol; acid 310.522, alcohol C20H40O 296.539
    const found = reactionProducts({
      fats: [{ kind: 'wax', mass: 1, saponificationValue: 56.1053 / 589.046, fattyAcidMolarMass: 0.310522 }],
      alkali: { NaOH: 39.9967693 / 589.046, KOH: 0 },
    })
    expect(found.glycerol).toBe(0)
    expect(found.waxAlcohol).toBeCloseTo(296.539 / 589.046, 5)
    expect(found.soap).toBeCloseTo(332.504 / 589.046, 5)
  })

  test('potassium soap is heavier than sodium soap by 16.108 g/mol', () => {
    const fats = [triglyceride(1, 0.19)]
    const moles = 0.19 / 0.0561053
    const sodium = reactionProducts({ fats, alkali: { NaOH: moles * MOLAR_MASS.NaOH, KOH: 0 } })
    const potassium = reactionProducts({ fats, alkali: { NaOH: 0, KOH: 0.19 } })
    expect(potassium.soap - sodium.soap).toBeCloseTo((moles * 16.10853) / 1000, 6)
  })

  test('without any alkali nothing happens', () => {
    const found = reactionProducts({ fats: [triglyceride(2, 0.19)], alkali: { NaOH: 0, KOH: 0 } })
    expect(found.unreactedFat).toBeCloseTo(2, 12)
    expect(found.soap).toBe(0)
    expect(found.superfat).toBe(1)
  })

  test('mass in is mass out, whatever goes in', () => {
    // Nothing, or more than a milligram: a scale tells no less.
    const upTo = (max: number) => fc.oneof(fc.constant(0), fc.double({ min: 1e-6, max, noNaN: true }))
    const fat = fc.record({
      kind: fc.constantFrom('triglyceride', 'wax', 'fatty-acid'),
      mass: upTo(5),
      saponificationValue: fc.double({ min: 0.08, max: 0.27, noNaN: true }),
      acidValue: fc.double({ min: 0, max: 0.02, noNaN: true }),
      unsaponifiable: fc.double({ min: 0, max: 0.19, noNaN: true }),
    })
    const acid = fc.record({
      acid: fc.constantFrom<AddedAcidName>(
        'citric-acid',
        'citric-acid-monohydrate',
        'lactic-acid',
        'acetic-acid',
      ),
      mass: upTo(0.3),
      strength: fc.double({ min: 0.05, max: 1, noNaN: true }),
    })
    const kilograms = upTo(2)
    fc.assert(
      fc.property(
        fc.array(fat, { maxLength: 6 }),
        fc.array(acid, { maxLength: 3 }),
        kilograms,
        kilograms,
        (fats, acids, NaOH, KOH) => {
          const found = reactionProducts({ fats, acids, alkali: { NaOH, KOH } })
          expect(Math.abs(found.massOut - found.massIn)).toBeLessThan(1e-9)
          for (const mass of [
            found.soap,
            found.glycerol,
            found.unreactedFat,
            found.freeAlkali,
            found.waterFormed,
          ]) {
            expect(mass).toBeGreaterThanOrEqual(-1e-12)
          }
          expect(Number.isFinite(found.superfat)).toBe(true)
        },
      ),
      { seed: 1, numRuns: 500 },
    )
  })
})
