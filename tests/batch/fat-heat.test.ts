import { describe, expect, test } from 'vitest'
import { fatHeat, fatSpecificHeat, HEAT_OF_MELTING } from '../../src/batch/fat-heat.ts'

const C = 273.15

describe('published: Choi and Okos 1986, specific heat of fat, coefficients as printed (read)', () => {
  test.each([
    // t °C, 1.9842 + 1.4733e-3 t − 4.8008e-6 t² [kJ/kg/K]
    [0, 1.9842],
    [25, 2.018032],
    [60, 2.055315],
    [150, 2.097177],
  ])('%d °C', (t, kilojoules) => expect(fatSpecificHeat(C + t) / 1000).toBeCloseTo(kilojoules, 6))
})

describe('published: heats of melting of coconut oil and tallow, handbook ranges (from memory)', () => {
  test('100 to 120 and 100 to 160 kJ/kg', () => {
    expect(HEAT_OF_MELTING.coconut).toMatchObject({ low: 100e3, high: 120e3 })
    expect(HEAT_OF_MELTING.tallow).toMatchObject({ low: 100e3, high: 160e3 })
  })
})

describe('by hand: heat of fats', () => {
  test('heat of fat is the area under its specific heat', () => {
    const steps = 2000
    let area = 0
    for (let i = 0; i < steps; i += 1)
      area += (fatSpecificHeat(C + 20 + (40 * (i + 0.5)) / steps) * 40) / steps
    expect(fatHeat(C + 20, C + 60) / 1000).toBeCloseTo(area / 1000, 6)
    expect(fatHeat(C + 60, C + 20)).toBeCloseTo(-fatHeat(C + 20, C + 60), 8)
    expect(fatHeat(C + 150, C + 160)).toBeCloseTo(10 * fatSpecificHeat(C + 150), 6)
  })
})
