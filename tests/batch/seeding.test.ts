/** When a dissolved solid comes out again, against solutions whose ideal solubility is printed in textbooks. */
import { describe, expect, test } from 'vitest'
import { seedingTemperature } from '../../src/batch/seeding.ts'

describe('published: textbooks of physical chemistry, naphthalene in benzene (recalled)', () => {
  // Naphthalene melts at 80.2 °C with 19.0 kJ/mol. Ideal solubility at 25 °C is printed as 0.31 by moles.
  test('0.31 of it by molecules is saturated near 25 °C', () =>
    expect(
      seedingTemperature({ moleShare: 0.31, meltingPoint: 353.4, heatOfMelting: 19_000 }) - 273.15,
    ).toBeCloseTo(25, -0.5))
})

describe('by hand: seeding', () => {
  test('the pure solid sets at its melting point', () =>
    expect(seedingTemperature({ moleShare: 1, meltingPoint: 312, heatOfMelting: 1e5 })).toBeCloseTo(312, 9))

  test('a quarter of it by molecules: 1 / (1/312 + 8.31446 · 1.38629 / 110 000) = 302.13 K', () =>
    // 0.00320513 + 0.00010478 = 0.00330991
    expect(seedingTemperature({ moleShare: 0.25, meltingPoint: 312, heatOfMelting: 110_000 })).toBeCloseTo(
      302.13,
      1,
    ))

  test('less of it stays dissolved to lower temperatures', () => {
    const at = (moleShare: number): number =>
      seedingTemperature({ moleShare, meltingPoint: 340, heatOfMelting: 57_000 })
    for (let share = 0.05; share < 1; share += 0.05) expect(at(share)).toBeLessThan(at(share + 0.05))
  })
})

describe('by hand: a share that came out a hair above the whole', () => {
  test('is the pure solid, whatever its last digits are', () => {
    for (const moleShare of [1 + 2 ** -52, 1.0001, 1.009])
      expect(seedingTemperature({ moleShare, meltingPoint: 312, heatOfMelting: 1e5 })).toBe(1 / (1 / 312))
  })
})
