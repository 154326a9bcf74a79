import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { alkaliFor, hydroxideOfAcid, sameHydroxide, waterWithAcid } from '../../src/chemistry/alkali.ts'

const pure = { NaOH: { nominal: 1 }, KOH: { nominal: 1 } }
const oneKilogram = [{ mass: 1, saponificationValue: 0.19 }]

describe('by hand: alkali', () => {
  test('1 kg at 190 mg/g: 190 g KOH, or 190 · 0.712888 = 135.449 g NaOH', () => {
    const base = { fats: oneKilogram, superfat: 0, purity: pure }
    const [sodium] = alkaliFor({ ...base, potassiumShare: 0 }).alkalis
    const [potassium] = alkaliFor({ ...base, potassiumShare: 1 }).alkalis
    expect(sodium?.alkali).toBe('NaOH')
    expect(sodium?.weighedMass).toBeCloseTo(0.135449, 6)
    expect(potassium?.alkali).toBe('KOH')
    expect(potassium?.weighedMass).toBeCloseTo(0.19, 9)
  })

  test('5 % superfat and 98 % purity: 135.449 · 0.95 / 0.98 = 131.302 g', () => {
    const need = alkaliFor({
      fats: oneKilogram,
      superfat: 0.05,
      potassiumShare: 0,
      purity: { NaOH: { nominal: 0.98 }, KOH: { nominal: 1 } },
    })
    expect(need.alkalis[0]?.weighedMass).toBeCloseTo(0.131302, 6)
    expect(need.alkalis[0]?.pureMass).toBeCloseTo(0.128676, 6)
  })

  test('a blend by moles: a quarter of 3.38649 mol as KOH of 90 %', () => {
    const need = alkaliFor({
      fats: oneKilogram,
      superfat: 0,
      potassiumShare: 0.25,
      purity: { NaOH: { nominal: 1 }, KOH: { nominal: 0.9 } },
    })
    expect(need.demand).toBeCloseTo(3.38649, 5)
    expect(need.alkalis.map((a) => a.alkali)).toEqual(['NaOH', 'KOH'])
    expect(need.alkalis[0]?.weighedMass).toBeCloseTo(0.75 * 0.135449, 6)
    expect(need.alkalis[1]?.weighedMass).toBeCloseTo((0.25 * 0.19) / 0.9, 6)
  })

  // g of alkali to 1 g of acid, from the molar masses alone.
  test.each([
    ['citric-acid', 0.6245, 0.8761],
    ['citric-acid-monohydrate', 0.571, 0.801],
    ['lactic-acid', 0.444, 0.6229],
    ['acetic-acid', 0.666, 0.9343],
  ] as const)('1 kg of %s', (acid, sodium, potassium) => {
    const hydroxide = hydroxideOfAcid({ acid, mass: 1, strength: 1 })
    expect(Math.abs(hydroxide * 0.0399968 - sodium)).toBeLessThan(0.00006)
    expect(Math.abs(hydroxide * 0.0561053 - potassium)).toBeLessThan(0.00006)
  })

  test('lactic acid of 80 %: four fifths of the alkali, a fifth of it is water', () => {
    const acid = { acid: 'lactic-acid', mass: 0.1, strength: 0.8 } as const
    expect(hydroxideOfAcid(acid)).toBeCloseTo(0.8 * (0.1 / 0.090078), 6)
    expect(waterWithAcid(acid)).toBeCloseTo(0.02, 12)
  })

  test('crystal water of citric acid: 18.015 / 210.138 = 8.573 %', () => {
    expect(waterWithAcid({ acid: 'citric-acid-monohydrate', mass: 1, strength: 1 })).toBeCloseTo(0.08573, 5)
    expect(waterWithAcid({ acid: 'citric-acid', mass: 1, strength: 1 })).toBe(0)
  })

  test('added acid asks for alkali of its own and makes a water to each group; the superfat does not touch it', () => {
    const acids = [{ acid: 'citric-acid', mass: 0.02, strength: 1 }] as const
    const base = { fats: oneKilogram, superfat: 0.05, potassiumShare: 0, purity: pure }
    const without = alkaliFor(base)
    const withAcid = alkaliFor({ ...base, acids })
    const extra = withAcid.alkalis[0]!.weighedMass - without.alkalis[0]!.weighedMass
    expect(extra).toBeCloseTo(0.02 * 0.6245, 5)
    expect(withAcid.alkalis[0]!.forAcids).toBeCloseTo(extra, 9)
    expect(withAcid.waterFromAcids).toBeCloseTo((3 * 0.02 * 18.015) / 192.123, 6)
  })

  test('a superfat below 0 is a stop', () => {
    const need = alkaliFor({ fats: oneKilogram, superfat: -0.01, potassiumShare: 0, purity: pure })
    expect(need.findings).toMatchObject([{ code: 'superfat-negative', severity: 'stop' }])
  })

  test('NaOH to KOH and back', () => {
    expect(sameHydroxide(1, 'KOH', 'NaOH')).toBeCloseTo(0.712888, 6)
    expect(sameHydroxide(sameHydroxide(3, 'KOH', 'NaOH'), 'NaOH', 'KOH')).toBeCloseTo(3, 12)
  })

  test('twice the fats take twice the alkali, whatever the blend', () => {
    const fats = fc.array(
      fc.record({
        mass: fc.double({ min: 0.001, max: 20, noNaN: true }),
        saponificationValue: fc.double({ min: 0.08, max: 0.27, noNaN: true }),
      }),
      { maxLength: 8 },
    )
    fc.assert(
      fc.property(fats, fc.double({ min: 0, max: 1, noNaN: true }), (list, potassiumShare) => {
        const need = (factor: number) =>
          alkaliFor({
            fats: list.map((fat) => ({ ...fat, mass: fat.mass * factor })),
            superfat: 0.04,
            potassiumShare,
            purity: { NaOH: { nominal: 0.985 }, KOH: { nominal: 0.9 } },
          })
        const [once, twice] = [need(1), need(2)]
        for (const [i, part] of once.alkalis.entries()) {
          expect(twice.alkalis[i]!.weighedMass).toBeCloseTo(2 * part.weighedMass, 9)
        }
        const moles = once.alkalis.reduce((sum, part) => sum + part.hydroxide, 0)
        expect(moles).toBeCloseTo(once.hydroxideForFats, 9)
      }),
      { seed: 1, numRuns: 300 },
    )
  })
})
