/** Every peak of every portion worked out again by a balance of its own, and the strength from which ice is a must. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkStockIce, planPortions } from '../../src/chemistry/lye-portions.ts'
import { solutionEnthalpy } from '../../src/chemistry/naoh-enthalpy.ts'
import type { LyeMixing } from '../../src/chemistry/solution-heat.ts'

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
