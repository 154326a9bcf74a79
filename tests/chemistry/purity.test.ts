/** Purity as stated, as estimated, and what cannot be. */
import { describe, expect, test } from 'vitest'
import { dryPurity, stockStrength } from '../../src/chemistry/purity.ts'

const codes = ({ findings }: { readonly findings: readonly { code: string; severity: string }[] }) =>
  findings.map(({ code, severity }) => `${severity} ${code}`)

describe('published: INRS data sheets 20 and 35 (read), reagent specification (recalled)', () => {
  // 20: NaOH with up to 2 % NaCl, 1 % Na2CO3, 0.2 % Na2SO4, so 96.8 at the least. 35: technical KOH 90 to 92 %.
  test('what the trade sells is taken', () => {
    for (const purity of [0.968, 0.985, 1])
      expect(codes(dryPurity({ name: 'a', kind: 'NaOH', purity, range: { low: 0.96, high: 1 } }))).toEqual([])
    for (const purity of [0.85, 0.9, 0.92])
      expect(codes(dryPurity({ name: 'a', kind: 'KOH', purity, range: { low: 0.84, high: 0.93 } }))).toEqual(
        [],
      )
  })

  test('"at least 85" that is 90 lies within what is counted where nobody states a range', () =>
    expect(dryPurity({ name: 'a', kind: 'KOH', purity: 0.85 }).high).toBeCloseTo(0.9, 12))
})

describe('by hand: limits of a purity', () => {
  test('a stated range is the range, damp takes from its low end', () =>
    expect(
      dryPurity({ name: 'a', kind: 'NaOH', purity: 0.98, range: { low: 0.97, high: 0.99 }, damp: 0.02 }),
    ).toMatchObject({ nominal: 0.98, low: 0.97 * 0.98, high: 0.99, findings: [] }))

  test('none stated: a per cent either way, never above pure, and it is said', () => {
    const guessed = dryPurity({ name: 'a', kind: 'NaOH', purity: 0.995 })
    expect(guessed).toMatchObject({ low: 0.985, high: 1 })
    expect(codes(guessed)).toEqual(['warn purity-range-missing'])
    expect(stockStrength({ name: 'a', strength: 0.48 })).toMatchObject({ low: 0.47, high: 0.49 })
  })

  test('55 % typed for 99 % would print nearly twice the weight: a stop', () => {
    expect(codes(dryPurity({ name: 'a', kind: 'NaOH', purity: 0.55 }))).toContain('stop purity-too-low')
    expect(codes(dryPurity({ name: 'a', kind: 'NaOH', purity: 0.9 }))).not.toContain('stop purity-too-low')
    expect(codes(dryPurity({ name: 'a', kind: 'KOH', purity: 0.79 }))).toContain('stop purity-too-low')
  })
})
