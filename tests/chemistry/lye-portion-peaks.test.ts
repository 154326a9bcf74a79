/** Every peak of every portion worked out again by a balance of its own, and the strength from which ice is a must. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkStockIce, equalPortions, planPortions } from '../../src/chemistry/lye-portions.ts'
import { solutionEnthalpy } from '../../src/chemistry/naoh-enthalpy.ts'
import { type LyeMixing, peakTemperature } from '../../src/chemistry/solution-heat.ts'

const kelvin = (celsius: number): number => celsius + 273.15

/** kg and °C */
interface Bench {
  readonly sodium: number
  readonly water: number
  readonly waterAt: number
  readonly alkaliAt: number
}

const mixingOf = ({ sodium, water, waterAt, alkaliAt }: Bench): LyeMixing => ({
  sodiumHydroxide: sodium,
  potassiumHydroxide: 0,
  impurities: 0,
  water,
  waterTemperature: kelvin(waterAt),
  alkaliTemperature: kelvin(alkaliAt),
})

/** High end of the peaks of n equal portions [°C], by stepping up until the enthalpies are even. */
function peaksByHand({ sodium, water, waterAt, alkaliAt }: Bench, n: number, waitFor: number): number[] {
  const peaks: number[] = []
  const part = sodium / n
  // 44.1 kJ/mol: 42.1 of the pin, 1.6 of the newer basis, 0.4 of its doubt; solid 1.49 kJ/(kg K)
  const solid = part * (44.1e6 / 39.997 + 1490 * (alkaliAt - 25))
  for (let k = 1; k <= n; k++) {
    const already = part * (k - 1)
    const start = Math.min(waitFor, peaks.at(-1) ?? 0)
    const before =
      k === 1
        ? water * (solutionEnthalpy(0, kelvin(25)) + 4190 * (waterAt - 25))
        : (water + already) * solutionEnthalpy(already / (water + already), kelvin(start))
    const mass = water + already + part
    let celsius = 0
    while (
      mass * solutionEnthalpy((already + part) / mass, kelvin(celsius)) < before + solid &&
      celsius < 150
    )
      celsius += 0.01
    peaks.push(celsius)
  }
  return peaks
}

describe('by hand: portions', () => {
  test('every peak is that of a second balance, none passes the limit, one portion fewer would', () => {
    let several = 0
    const bench = fc.record({
      sodium: fc.double({ min: 0.4, max: 3, noNaN: true }),
      waterShare: fc.double({ min: 1.5, max: 3, noNaN: true }),
      waterAt: fc.double({ min: 4, max: 25, noNaN: true }),
      alkaliAt: fc.double({ min: 15, max: 25, noNaN: true }),
    })
    fc.assert(
      fc.property(bench, fc.integer({ min: 65, max: 85 }), ({ waterShare, ...rest }, hottest) => {
        const one: Bench = { ...rest, water: rest.sodium * waterShare }
        const limits = { hottest: kelvin(hottest), waitFor: kelvin(45) }
        const { portions, findings } = planPortions(mixingOf(one), limits)
        if (findings.length > 0) return
        const n = portions.length
        const peaks = peaksByHand(one, n, 45)
        for (const [i, { peak }] of portions.entries()) {
          expect(peak).toBeLessThanOrEqual(kelvin(hottest))
          // steps of 0.01 K, water of 4.19 kJ/(kg K), the heat under 5 % held at that of 5 %: 0.5 K in all
          expect(Math.abs(peak - kelvin(peaks[i] ?? 0))).toBeLessThan(0.5)
        }
        expect(portions.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(one.sodium, 10)
        if (n === 1) return
        several++
        expect(Math.max(...peaksByHand(one, n - 1, 45))).toBeGreaterThan(hottest - 0.5)
      }),
      { seed: 20270314, numRuns: 40 },
    )
    expect(several).toBeGreaterThan(10)
  })
})

describe('by hand: lye of 45 % and more needs a quarter of its water as ice', () => {
  test.each([
    [0.4501, 0.5499, 0, 1],
    [0.4499, 0.5501, 0, 0],
    [1, 0.75, 0.25, 0],
    [1, 0.751, 0.249, 1],
  ])('%d kg, water %d, ice %d', (sodium, water, ice, stops) =>
    expect(checkStockIce({ ...mixingOf({ sodium, water, waterAt: 15, alkaliAt: 19 }), ice })).toHaveLength(
      stops,
    ),
  )
})

describe('by hand: an acid in the water, a warm room, a long wait', () => {
  const celsius = kelvin
  const lye = (more: Partial<LyeMixing>): LyeMixing => ({
    ...mixingOf({ sodium: 0, water: 0, waterAt: 20, alkaliAt: 20 }),
    ...more,
  })
  const at = (mixing: LyeMixing): number => peakTemperature(mixing).temperature.high

  test('2 mol of acid groups are 114 kJ: over 4 kg of lye at 3.75 kJ/(kg K) 7.6 K more', () => {
    const plain = lye({ sodiumHydroxide: 0.6, water: 3.4 })
    // heat capacity of 15 %: 3.75 to 3.765 kJ/(kg K)
    expect(Math.abs(at({ ...plain, acidGroups: 2 }) - at(plain) - 7.6)).toBeLessThan(0.15)
  })

  test('all of that heat comes with the first portion that has alkali enough, none later', () => {
    const mixing = lye({ sodiumHydroxide: 1.3, water: 2.7 })
    const plain = equalPortions(mixing, 3, celsius(50))
    const sour = equalPortions({ ...mixing, acidGroups: 2 }, 3, celsius(50))
    expect((sour[0]?.peak ?? 0) - (plain[0]?.peak ?? 0)).toBeGreaterThan(7)
    // both are waited for until 50 °C
    expect(Math.abs((sour[1]?.peak ?? 0) - (plain[1]?.peak ?? 0))).toBeLessThan(0.01)
  })

  test('more acid than the alkali of a portion takes: only as much heat as alkali', () => {
    const little = lye({ sodiumHydroxide: 0.04, water: 3 })
    // 1 mol of alkali
    expect(at({ ...little, acidGroups: 50 })).toBeCloseTo(at({ ...little, acidGroups: 0.04 / 0.039997 }), 3)
  })

  test('no lye falls below the room by waiting: at 35 °C a wait for 20 °C starts at 35 °C', () => {
    const warm = lye({
      sodiumHydroxide: 1.3,
      water: 2.7,
      alkaliTemperature: celsius(35),
      waterTemperature: celsius(15),
    })
    const [, second] = equalPortions(warm, 3, celsius(20))
    expect(second?.addBelow).toBeCloseTo(celsius(35), 9)
    expect(second?.peak).toBeCloseTo(equalPortions(warm, 3, celsius(35))[1]?.peak ?? 0, 9)
  })

  test('a lye that ice has made colder than the room may warm to it while somebody waits', () => {
    const cold = lye({
      sodiumHydroxide: 0.4,
      water: 0.6,
      ice: 0.6,
      alkaliTemperature: celsius(25),
      waterTemperature: celsius(5),
    })
    const [first, second] = equalPortions(cold, 2, celsius(50))
    expect(first?.peak ?? 0).toBeLessThan(celsius(25))
    expect(second?.addBelow).toBeCloseTo(celsius(25), 9)
  })

  test('as long as ice is left it is at 0 °C, not far below', () => {
    const icy = lye({ sodiumHydroxide: 0.3, water: 0.3, ice: 2.7, waterTemperature: celsius(2) })
    const [first] = equalPortions(icy, 3, celsius(50))
    expect(first?.peak).toBeCloseTo(celsius(0), 9)
    expect(first?.peakLow).toBeCloseTo(celsius(0), 9)
  })
})
