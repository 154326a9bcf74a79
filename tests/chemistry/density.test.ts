import { describe, expect, test } from 'vitest'
import { fatDensity, foodFatDensity, waterDensity } from '../../src/chemistry/density.ts'

describe('published: water at ordinary pressure [kg/m3] (from memory)', () => {
  test.each([
    [4, 999.97],
    [20, 998.2],
    [25, 997.05],
    [60, 983.2],
    [100, 958.4],
  ])('%i °C', (t, printed) => {
    // 958.4 at 100 °C is met within 0.06: the equation is for water at one atmosphere, on the point of boiling.
    expect(Math.abs(waterDensity(t + 273.15) - printed)).toBeLessThan(0.06)
  })
})

describe('by hand: density of fats', () => {
  const olive = { low: 0.91, high: 0.916, temperature: 293.15, waterTemperature: 293.15 }

  test('olive oil at its own temperature: 0.913 · 998.2 = 911.4', () => {
    const found = fatDensity(olive, 293.15)
    expect(found.nominal).toBeCloseTo(911.4, 1)
    expect(found.low).toBeCloseTo(0.91 * 998.2, 1)
    expect(found.high).toBeCloseTo(0.916 * 998.2, 1)
  })

  test('20 K warmer: 13.2 less; the high end falls by 8.35 only', () => {
    const found = fatDensity(olive, 313.15)
    expect(found.nominal).toBeCloseTo(911.36 - 13.2, 1)
    expect(found.low).toBeCloseTo(908.36 - 13.2, 1)
    expect(found.high).toBeCloseTo(914.35 - 8.35, 1)
  })

  test('water at 20 °C where the source does not say', () => {
    const { waterTemperature: _, ...bare } = olive
    expect(fatDensity(bare, 300)).toEqual(fatDensity(olive, 300))
  })

  test('food fat in general at 0 °C and 40 °C', () => {
    expect(foodFatDensity(273.15)).toBeCloseTo(925.59, 6)
    expect(foodFatDensity(313.15)).toBeCloseTo(925.59 - 16.703, 2)
  })

  test('the density of solid cocoa butter says nothing about the melted fat', () => {
    const solid = { low: 0.973, high: 0.98, temperature: 298.15, waterTemperature: 298.15, solid: true }
    const found = fatDensity(solid, 318.15)
    expect(found.basis).toBe('food-fat-in-general')
    expect(found.nominal).toBeCloseTo(906.8, 1)
    expect(found.high).toBeLessThan(930)
  })
})
