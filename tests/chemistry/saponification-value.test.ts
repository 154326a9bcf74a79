import { describe, expect, test } from 'vitest'
import {
  plausibleSaponificationValue,
  saponificationValue,
  saponificationValueByTitration,
} from '../../src/chemistry/saponification-value.ts'

describe('published: student laboratory, back titration with 0.5 N acid', () => {
  // Volumes [mL], mass [g], printed value [mg/g] to two decimals.
  test.each([
    [1.51, 7.3, 20.1, 237.77],
    [1.5, 7.5, 20.0, 233.75],
  ])('%f g', (mass, sample, blank, printed) => {
    const found = saponificationValueByTitration({
      blankVolume: blank * 1e-6,
      sampleVolume: sample * 1e-6,
      acidConcentration: 500,
      fatMass: mass / 1000,
      potassiumHydroxideMolarMass: 0.0561,
    })
    expect(Math.abs(found * 1000 - printed)).toBeLessThan(0.0051)
  })
})

describe('published: school exercises, solved with 56 g/mol', () => {
  test('20 mL of fat of 0.88 g/mL; 25 mL of 2 M alkali, 5 mL of 1 M acid left over: 143.18', () => {
    const found = saponificationValueByTitration({
      blankVolume: 50e-6, // 25 mL of 2 M is 50 mL of 1 M
      sampleVolume: 5e-6,
      acidConcentration: 1000,
      fatMass: 20e-6 * 880,
      potassiumHydroxideMolarMass: 0.056,
    })
    expect(Math.abs(found * 1000 - 143.18)).toBeLessThan(0.0051)
    expect(plausibleSaponificationValue('triglyceride', found).map((f) => [f.code, f.severity])).toEqual([
      ['saponification-value-low', 'warn'],
    ])
  })

  test('120 g of 28 % alkali, 600 mL of 0.5 M acid left over, 20 g of fat: 840, which no fat has', () => {
    const found = saponificationValueByTitration({
      blankVolume: (0.12 * 0.28) / 0.056 / 500,
      sampleVolume: 600e-6,
      acidConcentration: 500,
      fatMass: 0.02,
      potassiumHydroxideMolarMass: 0.056,
    })
    expect(found * 1000).toBeCloseTo(840, 6)
    expect(plausibleSaponificationValue('triglyceride', found)[0]).toMatchObject({
      code: 'saponification-value-impossible',
      severity: 'stop',
    })
  })
})

describe('by hand: values in use', () => {
  const olive = { kind: 'triglyceride', published: { low: 0.184, high: 0.196 } } as const

  test('range: its middle, marked', () => {
    expect(saponificationValue(olive)).toEqual({
      nominal: 0.19,
      low: 0.184,
      high: 0.196,
      basis: 'middle-of-range',
      findings: [],
    })
  })

  test('a certificate comes first: ± 1 mg/g unless it says otherwise', () => {
    const known = { ...olive, lotComposition: { 'C18:1': 1 } }
    const plain = saponificationValue({ ...known, certificate: { value: 0.188 } })
    expect([plain.nominal, plain.basis]).toEqual([0.188, 'certificate'])
    expect(plain.low).toBeCloseTo(0.187, 12)
    expect(plain.high).toBeCloseTo(0.189, 12)
    const exact = saponificationValue({ ...known, certificate: { value: 0.188, tolerance: 0.0005 } })
    expect(exact.high - exact.low).toBeCloseTo(0.001, 12)
  })

  test('a certificate outside the published range counts, and is reported', () => {
    const found = saponificationValue({ ...olive, certificate: { value: 0.2 } })
    expect(found.nominal).toBe(0.2)
    expect(found.findings.map((f) => f.code)).toEqual(['saponification-value-outside-published'])
  })

  test('analysis of the lot: pure triolein, 0 to 4 % unsaponifiable: 190.09 less 2 %, limits 190.09 · 0.96 · 0.99 and 190.09 · 1.01', () => {
    const found = saponificationValue({
      ...olive,
      lotComposition: { 'C18:1': 1 },
      unsaponifiable: { low: 0, high: 0.04 },
    })
    expect(found.basis).toBe('analysis-of-lot')
    expect(found.nominal).toBeCloseTo(0.19009 * 0.98, 6)
    expect(found.low).toBeCloseTo(0.19009 * 0.96 * 0.99, 6)
    expect(found.high).toBeCloseTo(0.19009 * 1.01, 6)
  })

  test('a fatty acid counts as free acid; a wax falls back to its range', () => {
    const stearic = saponificationValue({
      kind: 'fatty-acid',
      published: { low: 0.194, high: 0.212 },
      lotComposition: { 'C18:0': 1 },
    })
    expect(stearic.nominal).toBeCloseTo(0.19722, 5)
    const wax = saponificationValue({
      kind: 'wax',
      published: { low: 0.092, high: 0.095 },
      lotComposition: { 'C20:1': 1 },
    })
    expect([wax.basis, wax.findings]).toEqual(['middle-of-range', []])
  })

  test('the limit is that of tributyrin: 3 · 56.1053 / 302.367 = 0.5567', () => {
    expect(plausibleSaponificationValue('triglyceride', 0.556)).toEqual([])
    expect(plausibleSaponificationValue('triglyceride', 0.557)[0]?.severity).toBe('stop')
    expect(plausibleSaponificationValue('wax', 0.09)).toEqual([])
    expect(plausibleSaponificationValue('wax', 0)[0]?.severity).toBe('stop')
  })
})
