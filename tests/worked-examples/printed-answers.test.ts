/** Exercises and handbook answers, each with the digits that were printed; flawed ones must be refused. */
import { evaluate } from 'mathjs'
import { describe, expect, test } from 'vitest'
import { hydroxideDemand } from '../../src/chemistry/alkali.ts'
import { MOLAR_MASS, molarMass } from '../../src/chemistry/atomic-weights.ts'
import { consistentSaponification, reactionProducts } from '../../src/chemistry/mass-balance.ts'
import {
  plausibleSaponificationValue,
  saponificationValueByTitration,
} from '../../src/chemistry/saponification-value.ts'
import { lyeDensity } from '../../src/chemistry/solution-density.ts'
import {
  peakTemperature,
  potassiumHydroxideHeat,
  sodiumHydroxideHeat,
} from '../../src/chemistry/solution-heat.ts'
import { reactionEnthalpy } from './formation-enthalpies.ts'

/** Half of the last digit printed, and a hair for binary rounding. */
const near = (value: number, printed: number, halfDigit: number): void =>
  expect(Math.abs(value - printed), `${value} for ${printed}`).toBeLessThanOrEqual(halfDigit * 1.001)

const severities = (findings: readonly { code: string; severity: string }[]) =>
  findings.map(({ code, severity }) => `${severity} ${code}`)

describe('published: virtual laboratory, saponification value of a fat, public repository durg83034/Exp-08 (read)', () => {
  // sample [g], sample titre [mL], blank titre [mL], KOH [mg], value [mg/g]; 0.5 N acid, 56.1 g/mol
  test.each([
    [1.51, 7.3, 20.1, 359.04, 237.77],
    [1.5, 7.5, 20.0, 350.62, 233.75],
  ])('%d g of fat', (mass, sample, blank, milligrams, printed) => {
    const value = saponificationValueByTitration({
      blankVolume: blank / 1e6,
      sampleVolume: sample / 1e6,
      acidConcentration: 500,
      fatMass: mass / 1000,
      potassiumHydroxideMolarMass: 0.0561,
    })
    near(value * 1000, printed, 0.005)
    // 350.625 was cut off to 350.62
    near(value * mass * 1000, milligrams, 0.0051)
    expect(plausibleSaponificationValue('triglyceride', value)).toEqual([])
  })
})

describe('published: Romanian school exercise, solved, ezstudiers.com 4383817 (read)', () => {
  test('20 mL of fat of 0.88 g/mL: 17.6 g, 0.045 mol and 2.52 g KOH, value 143.18, lower than any common fat', () => {
    const fatMass = 20e-6 * 880
    near(fatMass * 1000, 17.6, 0.05)
    const value = saponificationValueByTitration({
      blankVolume: (25e-6 * 2000) / 1000, // 25 mL of 2 mol/L, in mL of the acid of 1 mol/L
      sampleVolume: 5e-6,
      acidConcentration: 1000,
      fatMass,
      potassiumHydroxideMolarMass: 0.056,
    })
    near(value * 1000, 143.18, 0.005)
    near(value * fatMass * 1000, 2.52, 0.005)
    near((value * fatMass) / 0.056, 0.045, 0.0005)
    expect(severities(plausibleSaponificationValue('triglyceride', value))).toEqual([
      'warn saponification-value-low',
    ])
  })
})

describe('published: Romanian school exercise, solved, rostudy.me 6648841 (read)', () => {
  test('33.6 g KOH, 16.8 g left over, 16.8 g taken up, value 840: the arithmetic holds, the fat is refused', () => {
    const alkali = 120 * 0.28
    near(alkali, 33.6, 0.05)
    const value = saponificationValueByTitration({
      blankVolume: alkali / 56 / 500,
      sampleVolume: 600e-6,
      acidConcentration: 500,
      fatMass: 0.02,
      potassiumHydroxideMolarMass: 0.056,
    })
    near(value * 1000, 840, 0.5)
    near(value * 20, 16.8, 0.05)
    near(alkali - value * 20, 16.8, 0.05)
    expect(severities(plausibleSaponificationValue('triglyceride', value))).toEqual([
      'stop saponification-value-impossible',
    ])
  })
})

describe('published: Vietnamese exercises, solved by mass balance (read)', () => {
  // The exercises count with 40, 56 and 92 g/mol; ours are 39.997, 56.105 and 92.094: 0.2 % at most.
  const exactly = (fat: number, sodiumHydroxide: number) =>
    reactionProducts({
      fats: [
        {
          kind: 'triglyceride',
          mass: fat,
          saponificationValue: ((sodiumHydroxide / MOLAR_MASS.NaOH) * MOLAR_MASS.KOH) / fat,
        },
      ],
      alkali: { NaOH: sodiumHydroxide, KOH: 0 },
    })

  test('khoahoc.vn 728: 100 g fat of acid value 7, 0.32 mol NaOH: 0.0125 and 0.3075 mol, 0.1025 mol and 9.43 g glycerol', () => {
    const found = reactionProducts({
      fats: [
        {
          kind: 'triglyceride',
          mass: 0.1,
          saponificationValue: (0.32 * MOLAR_MASS.KOH) / 0.1,
          acidValue: (0.007 / 0.056) * MOLAR_MASS.KOH,
        },
      ],
      alkali: { NaOH: 0.32 * MOLAR_MASS.NaOH, KOH: 0 },
    })
    const acid = found.waterFormed / MOLAR_MASS.water
    near(acid, 0.0125, 0.00005)
    near(0.32 - acid, 0.3075, 0.00005)
    near(found.glycerol / MOLAR_MASS.glycerol, 0.1025, 0.00005)
    // 0.1025 · 92.094 is 9.440
    near(found.glycerol * 1000, 9.43, 0.005 + 0.0097)
  })

  test('khoahoc.vn 9291: 8.58 kg fat, 1.2 kg NaOH, 0.92 kg glycerol: 8.86 kg soap', () => {
    const found = exactly(8.58, 1.2)
    near(found.glycerol, 0.92, 0.005)
    near(found.soap, 8.86, 0.005)
    const given = { fat: 8.58, sodiumHydroxide: 1.2, glycerol: 0.92 }
    const { saponificationValue, findings } = consistentSaponification(given)
    // about 196
    near(saponificationValue * 1000, 196, 0.5)
    expect(findings).toEqual([])
  })

  test('luyentap365.com: 0.368 kg glycerol, 9.412 kg salts, 15.69 kg soap of 60 %: refused, and never reproduced', () => {
    // as the exercise reckons: 8.58 + 1.2 − 0.368, and that over 0.6
    near(8.58 + 1.2 - 0.368, 9.412, 0.0005)
    near((8.58 + 1.2 - 0.368) / 0.6, 15.69, 0.005)
    const flawed = consistentSaponification({ fat: 8.58, sodiumHydroxide: 1.2, glycerol: 0.368 })
    expect(severities(flawed.findings)).toEqual(['stop glycerol-does-not-match-alkali'])
    expect(Math.abs(exactly(8.58, 1.2).soap - 9.412)).toBeGreaterThan(0.5)
  })

  test('diendan.hocmai.vn: 17.24 g fat, 0.06 mol NaOH: 2.4 g, 0.02 mol and 1.84 g glycerol, 17.8 g soap', () => {
    const alkali = 0.06 * MOLAR_MASS.NaOH
    near(alkali * 1000, 2.4, 0.05)
    const found = exactly(17.24e-3, alkali)
    near(found.glycerol / MOLAR_MASS.glycerol, 0.02, 0.0005)
    near(found.glycerol * 1000, 1.84, 0.005)
    near(found.soap * 1000, 17.8, 0.05)
  })

  test('hoc24.vn: 89 g fat, 42 g NaOH: 1.05 mol, 0.35 mol and 32.2 g glycerol, 98.8 g soap; value 662, refused', () => {
    near(0.042 / MOLAR_MASS.NaOH, 1.05, 0.005)
    const found = exactly(0.089, 0.042)
    near(found.glycerol / MOLAR_MASS.glycerol, 0.35, 0.005)
    near(found.glycerol * 1000, 32.2, 0.05)
    near(found.soap * 1000, 98.8, 0.05)
    const check = consistentSaponification({ fat: 0.089, sodiumHydroxide: 0.042 })
    near(check.saponificationValue * 1000, 662, 0.5)
    expect(severities(check.findings)).toEqual(['stop saponification-value-impossible'])
  })
})

describe('published: homework thread, physicsforums.com 203800, triolein and sodium oleate (read)', () => {
  const triolein = molarMass({ C: 57, H: 104, O: 6 })
  const oleate = molarMass({ C: 18, H: 33, O: 2, Na: 1 })

  test('885.4 and 304.4 g/mol', () => {
    near(triolein * 1000, 885.4, 0.055)
    near(oleate * 1000, 304.4, 0.055) // 304.45, cut off
  })

  test('the thread’s first 848 g/mol for triolein is not met', () =>
    expect(Math.abs(triolein * 1000 - 848)).toBeGreaterThan(30))

  test('405 g of sodium oleate: 53.2 g NaOH and 392.7 g triolein, by the printed molar masses', () => {
    const moles = 0.405 / oleate
    near(moles * MOLAR_MASS.NaOH * 1000, 53.2, 0.05)
    // 405 / 304.4 / 3 · 885.4 = 392.67; unrounded molar masses make it 0.04 g less
    near((moles / 3) * triolein * 1000, 392.7, 0.05 + 0.04)
    const found = reactionProducts({
      fats: [
        {
          kind: 'triglyceride',
          mass: (moles / 3) * triolein,
          saponificationValue: (3 * MOLAR_MASS.KOH) / triolein,
        },
      ],
      alkali: { NaOH: moles * MOLAR_MASS.NaOH, KOH: 0 },
    })
    near(found.soap * 1000, 405, 0.01)
  })
})

describe('published: textbook question, studyzin.com, olive oil of saponification value 190 (read)', () => {
  test('0.0033865 mol KOH for 1 g, mean molar mass 885.9 g/mol (3 · 56.1053 · 1000 / 190 = 885.87)', () => {
    const moles = hydroxideDemand([{ mass: 0.001, saponificationValue: 0.19 }])
    near(moles, 0.0033865, 5e-8)
    near(3 / moles, 885.9, 0.05)
  })
})

describe('published: Indonesian exercise on calorimetry, kudo.tips (read): 10 g NaOH in 50 g of water, 8 K warmer', () => {
  const heat = Number(evaluate('-(50 * 4.2 * 8) / (10 / 40)')) // J/mol, as the exercise reckons

  test('−6720 J/mol and −6.72 kJ/mol, by its own arithmetic', () => {
    near(heat, -6720, 0.5)
    near(heat / 1000, -6.72, 0.005)
  })

  test('is no heat of solution of sodium hydroxide: far outside the limits at that strength', () => {
    const { low, high } = sodiumHydroxideHeat(10 / 60)
    const claimed = -heat / MOLAR_MASS.NaOH
    expect(low).toBeLessThan(high)
    expect(claimed).toBeLessThan(low / 6)
    // nor at any other strength that soap lye has
    for (let share = 0.05; share <= 0.5; share += 0.01)
      expect(claimed, `${share}`).toBeLessThan(sodiumHydroxideHeat(share).low)
  })

  test('a real beaker warms near 50 K, not 8', () => {
    const { temperature } = peakTemperature({
      sodiumHydroxide: 0.01,
      potassiumHydroxide: 0,
      impurities: 0,
      water: 0.05,
      waterTemperature: 298.15,
      alkaliTemperature: 298.15,
    })
    // "near 50": the middle of the band, a tenth of it either way
    expect(Math.abs(temperature.nominal - 298.15 - 50)).toBeLessThan(5)
    expect(temperature.low - 298.15).toBeGreaterThan(5 * 8)
  })
})

describe('published: CRC Handbook, enthalpies of formation (read), differences', () => {
  test('ethyl acetate with hydroxide: −486.0 − 277.6 + 479.3 + 230.0 = −54.3 kJ/mol', () =>
    near(reactionEnthalpy(['ethyl acetate(l)', 'OH-(aq)'], ['acetate(aq)', 'ethanol(l)']), -54.3, 0.05))

  test('methyl acetate with hydroxide: −486.0 − 239.2 + 445.9 + 230.0 = −49.3 kJ/mol', () =>
    near(reactionEnthalpy(['methyl acetate(l)', 'OH-(aq)'], ['acetate(aq)', 'methanol(l)']), -49.3, 0.05))

  test('dissolving KOH: −57.8 kJ/mol, which the program takes as its high end', () => {
    const table = reactionEnthalpy(['KOH(s)'], ['K+(aq)', 'OH-(aq)'])
    near(table, -57.8, 0.05)
    near((potassiumHydroxideHeat(0.2).high * MOLAR_MASS.KOH) / 1000, -table, 0.05)
  })

  test('dissolving NaOH: −44.3 kJ/mol, inside the program’s limits for weak lye', () => {
    const table = reactionEnthalpy(['NaOH(s)'], ['Na+(aq)', 'OH-(aq)'])
    near(table, -44.3, 0.05)
    const { low, high } = sodiumHydroxideHeat(0.05)
    expect((low * MOLAR_MASS.NaOH) / 1000).toBeLessThan(-table)
    expect((high * MOLAR_MASS.NaOH) / 1000).toBeGreaterThan(-table)
  })
})

describe('published: physics tables, Cracow University of Technology (read): lye of 20 % KOH at 18 °C', () => {
  test('1.188 g/cm3', () => near(lyeDensity({ KOH: 0.2 }, 291.15) / 1000, 1.188, 0.0005))
})
