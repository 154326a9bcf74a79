/** The table of ice by water, against balances of its own and against every percent tried. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { iceByWater } from '../../src/chemistry/ice-by-water.ts'
import { solutionEnthalpy } from '../../src/chemistry/naoh-enthalpy.ts'
import { type LyeMixing, peakTemperature } from '../../src/chemistry/solution-heat.ts'

const celsius = (t: number): number => t + 273.15

/** One kilogram of lye; alkali at 20 °C. */
const lye = (massFraction: number): LyeMixing => ({
  sodiumHydroxide: massFraction,
  potassiumHydroxide: 0,
  impurities: 0,
  water: 1 - massFraction,
  waterTemperature: celsius(20),
  alkaliTemperature: celsius(20),
})

describe('published: Felder and Rousseau, Table B.11, heat of solution with 4 mol of water: 34.43 kJ/mol', () => {
  // 39.997 g of alkali in 4 · 18.015 g of water: w = 39.997 / 112.057 = 0.35693
  const w = 39.997 / (39.997 + 4 * 18.015)
  // high end 1.6 + 0.4 kJ/mol more: 36.43 / 0.039997 = 910.8 kJ/kg alkali, 325.1 kJ/kg lye
  const heat = (36_430 / 0.039997) * w
  const warmed = (t: number): number => solutionEnthalpy(w, celsius(t)) - solutionEnthalpy(w, celsius(25))
  const row = (limit: number) =>
    iceByWater({ ...lye(w), alkaliTemperature: celsius(25) }, celsius(limit), [celsius(25)])[0]!

  test('the peak without ice, all at 25 °C', () => {
    let t = 25
    while (warmed(t) < heat) t += 0.1
    // the program's pin agrees with the table within 0.4 kJ/mol: 3.6 kJ/kg lye, a kelvin
    expect(Math.abs(row(80).peakWithoutIce - celsius(t))).toBeLessThan(1.1)
  })

  test.each([60, 70, 80, 90])('the ice for %i °C', (limit) => {
    // a kg of ice takes 333.55 to melt and 25 · 4.18 = 104.5 kJ to warm
    const wanted = (heat - warmed(limit)) / 438_050 / (1 - w)
    // 3.6 kJ is 1.3 % of the water; rounded up by less than 1 %
    const { share } = row(limit)
    expect(share).toBeGreaterThan(wanted - 0.013)
    expect(share).toBeLessThan(wanted + 0.023)
  })
})

describe('by hand: rows', () => {
  test('a third and 100 °C: some 9 K of 3.57 kJ/(kg K) over 418 kJ/kg is 11 and a half percent, so 12 %', () => {
    // 0.67 / 18.015 over 0.33 / 39.997: 4.51 mol of water, 36.3 kJ/mol between the table's 34.43 (4) and 37.76 (5),
    // 38.3 at the high end, 316 kJ; less 16.5 kJ since all is at 20 and not 25 °C: 84 K of 3.57 above 25, 109 °C
    const [row] = iceByWater(lye(0.33), celsius(100), [celsius(20)])
    expect(Math.abs(row!.peakWithoutIce - celsius(109))).toBeLessThan(1)
    expect(row!.share).toBe(0.12)
    // 0.12 · 0.67 · 418 / 3.57 = 9.4 K
    expect(Math.abs(row!.peakWithoutIce - row!.peak - 9.4)).toBeLessThan(0.3)
  })

  test('water that is 10 K colder leaves the lye 0.75 · 41.8 = 31.4 kJ colder', () => {
    const [cold, warm] = iceByWater(lye(0.25), celsius(60), [celsius(8), celsius(18)])
    const between =
      solutionEnthalpy(0.25, warm!.peakWithoutIce) - solutionEnthalpy(0.25, cold!.peakWithoutIce)
    expect(Math.abs(between / 31_400 - 1)).toBeLessThan(0.01)
  })

  test('water that is warmer than the alkali: the alkali counts as warm, 31.4 and 0.25 · 14.9 = 35.1 kJ', () => {
    const [cool, hot] = iceByWater(lye(0.25), celsius(60), [celsius(20), celsius(30)])
    const between = solutionEnthalpy(0.25, hot!.peakWithoutIce) - solutionEnthalpy(0.25, cool!.peakWithoutIce)
    expect(Math.abs(between / 35_100 - 1)).toBeLessThan(0.01)
  })

  test('a lye that stays cool by itself needs none', () => {
    expect(iceByWater(lye(0.05), celsius(60), [celsius(5), celsius(30)]).map(({ share }) => share)).toEqual([
      0, 0,
    ])
  })

  test('45 %, all of its water as ice: some 50 °C, so 35 °C cannot be kept', () => {
    // 2.7 mol of water: 27 kJ/mol between the table's 23 (2) and 28.9 (3), 29 at the high end, 330 kJ; all at 20 and not
    // 25 °C: less 15; 0.55 · 418 = 230 kJ into ice: 85 kJ are left, 26 K of 3.3 kJ/(kg K) above 25
    const [row] = iceByWater(lye(0.45), celsius(35), [celsius(20)])
    expect(row!.share).toBeUndefined()
    expect(Math.abs(row!.peak - celsius(51))).toBeLessThan(4)
  })

  test('a limit above the boiling point is not kept by a lye that boils', () => {
    // Half alkali at 60 °C: 2.2 mol of water, 24 + 2 kJ/mol, 325 kJ, and 35 · (2.09 + 0.75) = 99 kJ more than at 25 °C:
    // 132 K of 3.2 kJ/(kg K), near 157 °C; it boils before that, and under 150 °C.
    const hot = { ...lye(0.5), waterTemperature: celsius(60), alkaliTemperature: celsius(60) }
    const { boilingPoint } = peakTemperature(hot)
    expect(boilingPoint).toBeLessThan(celsius(150))
    const [row] = iceByWater(hot, celsius(160), [celsius(60)])
    expect(row!.peakWithoutIce).toBe(boilingPoint)
    expect(row!.share).toBeGreaterThan(0)
    expect(row!.peak).toBeLessThan(boilingPoint)
  })

  test('ice that the lye has already counts as water, and colder ice does more', () => {
    const water = [celsius(20)]
    const plain = iceByWater(lye(0.33), celsius(60), water)
    expect(iceByWater({ ...lye(0.33), water: 0.4, ice: 0.27 }, celsius(60), water)).toEqual(plain)
    const cold = iceByWater({ ...lye(0.33), iceTemperature: celsius(-18) }, celsius(60), water)
    // 18 · 2.1 = 38 kJ more on 418: 62 % becomes 57 %
    expect(plain[0]!.share! - cold[0]!.share!).toBeGreaterThan(0.035)
    expect(plain[0]!.share! - cold[0]!.share!).toBeLessThan(0.07)
  })
})

describe('by hand: every percent tried', () => {
  const cases = fc.record({
    sodium: fc.double({ min: 0.02, max: 0.45, noNaN: true }),
    potassium: fc.constantFrom(0, 0.05),
    limit: fc.integer({ min: 35, max: 110 }),
    waters: fc.array(fc.double({ min: 1, max: 40, noNaN: true }), { minLength: 1, maxLength: 4 }),
  })

  test('the share is the least that holds; more ice is never hotter; warmer water never needs less', () => {
    let [held, failed] = [0, 0]
    fc.assert(
      fc.property(cases, ({ sodium, potassium, limit, waters }) => {
        const mixing = { ...lye(sodium + potassium), sodiumHydroxide: sodium, potassiumHydroxide: potassium }
        const rows = iceByWater(mixing, celsius(limit), waters.map(celsius))
        expect(rows.map(({ waterTemperature }) => waterTemperature)).toEqual(waters.map(celsius))
        for (const row of rows) {
          const peaks = Array.from({ length: 101 }, (_, percent) => {
            const ice = (mixing.water * percent) / 100
            const alkaliTemperature = Math.max(celsius(20), row.waterTemperature)
            const { waterTemperature } = row
            const with_ = { ...mixing, water: mixing.water - ice, ice, waterTemperature, alkaliTemperature }
            const { temperature, boilingPoint } = peakTemperature(with_)
            return {
              peak: temperature.high,
              holds: temperature.high <= celsius(limit) && temperature.high < boilingPoint,
            }
          })
          peaks.slice(1).forEach(({ peak }, i) => {
            expect(peak).toBeLessThanOrEqual(peaks[i]!.peak)
          })
          const least = peaks.findIndex(({ holds }) => holds)
          expect(row.share).toBe(least < 0 ? undefined : least / 100)
          expect(row.peakWithoutIce).toBe(peaks[0]!.peak)
          expect(row.peak).toBe(peaks[least < 0 ? 100 : least]!.peak)
          if (row.share === undefined) failed++
          else {
            held++
            expect(row.peak).toBeLessThanOrEqual(celsius(limit))
          }
        }
        const rising = [...rows].sort((a, b) => a.waterTemperature - b.waterTemperature)
        rising.slice(1).forEach((row, i) => {
          expect(row.share ?? 2).toBeGreaterThanOrEqual(rising[i]!.share ?? 2)
          expect(row.peakWithoutIce).toBeGreaterThanOrEqual(rising[i]!.peakWithoutIce)
        })
      }),
      { numRuns: 100, seed: 23 },
    )
    expect(held).toBeGreaterThan(50)
    expect(failed).toBeGreaterThan(0)
  })
})
