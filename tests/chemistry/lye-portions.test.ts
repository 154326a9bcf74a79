import { describe, expect, test } from 'vitest'
import {
  checkStockIce,
  equalPortions,
  iceFor,
  planPortions,
  portionPeaks,
} from '../../src/chemistry/lye-portions.ts'
import { ICE, peakTemperature } from '../../src/chemistry/solution-heat.ts'
import { celsius, lye } from './lye-mixing.ts'

describe('by hand: portions', () => {
  test.each([2, 3, 7])('%i portions without waiting end as hot as all at once', (count) => {
    const portions = equalPortions(lye(0.25), count, celsius(500))
    // Each step is solved to a millionth of a kelvin.
    expect(Math.abs(portions.at(-1)!.peak - peakTemperature(lye(0.25)).temperature.high)).toBeLessThan(1e-4)
  })

  test.each([2, 3, 7])('of potassium hydroxide, too: %i portions end as hot as all at once', (count) => {
    const potassium = { ...lye(0.25), sodiumHydroxide: 0, potassiumHydroxide: 0.25 }
    const portions = equalPortions(potassium, count, celsius(500))
    expect(Math.abs(portions.at(-1)!.peak - peakTemperature(potassium).temperature.high)).toBeLessThan(1e-4)
  })

  test('200 g NaOH, 100 g KOH and 12 g of what is not pure, in three portions: 104 g each', () => {
    const mixed = { ...lye(0.2), potassiumHydroxide: 0.1, impurities: 0.012 }
    const masses = equalPortions(mixed, 3, celsius(35)).map(({ mass }) => mass)
    expect(masses).toHaveLength(3)
    for (const mass of masses) expect(mass).toBeCloseTo(0.104, 12)
  })

  test('all NaOH first, then all KOH: what is not pure comes by the weight of each, 208 g and 104 g', () => {
    const mixed = { ...lye(0.2), potassiumHydroxide: 0.1, impurities: 0.012 }
    const portions = portionPeaks(mixed, [{ sodium: 1, potassium: 0 }, { sodium: 1, potassium: 1 }], celsius(35)) // biome-ignore format: one line
    expect(portions[0]?.mass).toBeCloseTo(0.208, 12)
    expect(portions[1]?.mass).toBeCloseTo(0.104, 12)
  })

  test('the portions are all of the alkali, none passes the limit, and one fewer would', () => {
    const limits = { hottest: celsius(60), waitFor: celsius(35) }
    const { portions, findings } = planPortions(lye(0.33), limits)
    expect(findings).toEqual([])
    expect(portions.reduce((sum, portion) => sum + portion.mass, 0)).toBeCloseTo(0.33, 12)
    expect(Math.max(...portions.map((portion) => portion.peak))).toBeLessThanOrEqual(limits.hottest)
    const fewer = equalPortions(lye(0.33), portions.length - 1, limits.waitFor)
    expect(Math.max(...fewer.map((portion) => portion.peak))).toBeGreaterThan(limits.hottest)
    expect(portions.map((portion) => portion.number)).toEqual(portions.map((_, i) => i + 1))
    expect(portions[0]!.addBelow).toBe(celsius(20))
    expect(portions[1]!.addBelow).toBe(celsius(35))
  })

  test('a weak lye needs no portions', () => {
    expect(planPortions(lye(0.05), { hottest: celsius(60), waitFor: celsius(35) }).portions.length).toBe(1)
  })

  test('a limit at the waiting temperature cannot be held: stop', () => {
    const plan = planPortions(lye(0.33), { hottest: celsius(35), waitFor: celsius(35) })
    expect(plan).toMatchObject({
      portions: [],
      findings: [{ code: 'portions-cannot-hold-limit', severity: 'stop' }],
    })
  })

  test('impurities are weighed with the alkali', () => {
    const impure = { ...lye(0.33), impurities: 0.01 }
    const { portions } = planPortions(impure, { hottest: celsius(60), waitFor: celsius(35) })
    expect(portions.reduce((sum, portion) => sum + portion.mass, 0)).toBeCloseTo(0.34, 12)
  })
})

describe('by hand: ice', () => {
  test.each([50, 60, 70, 80])('33 %% just reaches %i °C', (t) => {
    const found = iceFor(lye(0.33), celsius(t))
    expect(found.ice + found.water).toBeCloseTo(0.67, 12)
    expect(Math.abs(found.peak - celsius(t))).toBeLessThan(1e-4)
    expect(found.findings).toEqual([])
  })

  test('its size: 49 K of 3.57 kJ/(kg K) over 334 + 84 kJ/kg', () => {
    // From 108.8 °C (high end) to 60 °C.
    const expected = (48.8 * 3.574) / (ICE.latentHeat / 1000 + 84)
    expect(Math.abs(iceFor(lye(0.33), celsius(60)).ice / expected - 1)).toBeLessThan(0.02)
  })

  test('colder ice, less of it', () => {
    expect(iceFor(lye(0.33), celsius(60), celsius(-18)).ice).toBeLessThan(iceFor(lye(0.33), celsius(60)).ice)
  })

  test('no ice where the lye stays under the limit by itself', () => {
    expect(iceFor(lye(0.05), celsius(60)).ice).toBe(0)
  })

  test('more ice than water is a stop, and all water is ice', () => {
    const found = iceFor(lye(0.45), celsius(35))
    expect(found.share).toBe(1)
    expect(found.findings).toMatchObject([{ code: 'ice-cannot-hold-limit', severity: 'stop' }])
  })

  test('50 % stock without ice is a stop; with ice, or weaker, it is not', () => {
    expect(checkStockIce(lye(0.5))).toMatchObject([{ code: 'strong-lye-needs-ice', severity: 'stop' }])
    expect(checkStockIce({ ...lye(0.5), water: 0.25, ice: 0.25 })).toEqual([])
    expect(checkStockIce(lye(0.33))).toEqual([])
    expect(checkStockIce(lye(0))).toEqual([])
  })
})
