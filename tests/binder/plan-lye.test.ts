/** The lye of one batch: portions that add up, and a peak under the limit. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { acidsInPail, type LyeRequest, planLye } from '../../src/binder/plan-lye.ts'
import { solutionEnthalpy } from '../../src/chemistry/naoh-enthalpy.ts'

const kelvin = (celsius: number): number => celsius + 273.15
const codes = (findings: readonly { code: string; severity: string }[]) =>
  findings.map(({ code, severity }) => `${severity} ${code}`)

const request = (more: Partial<LyeRequest> = {}): LyeRequest => ({
  alkalis: [{ kind: 'NaOH', weighed: 1.313, pure: 1.293, division: 0.001 }],
  water: 2.666,
  ice: 0,
  waterTemperature: kelvin(15),
  roomTemperature: kelvin(19),
  coolTo: kelvin(38),
  hottest: kelvin(80),
  nextPortionBelow: kelvin(50),
  ...more,
})

describe('by hand: portions', () => {
  test('whole divisions that make up what was weighed, none empty, every peak at most the limit', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 500, max: 6000 }),
        fc.integer({ min: 0, max: 2000 }),
        fc.constantFrom(1, 2, 5, 10),
        fc.double({ min: 1.8, max: 3, noNaN: true }),
        fc.integer({ min: 60, max: 90 }),
        (sodium, potassium, step, water, hottest) => {
          const alkali = (kind: 'NaOH' | 'KOH', grams: number) => {
            const weighed = (Math.ceil(grams / step) * step) / 1000
            return { kind, weighed, pure: weighed * (kind === 'KOH' ? 0.9 : 0.98), division: step / 1000 }
          }
          const alkalis = [alkali('NaOH', sodium), ...(potassium > 500 ? [alkali('KOH', potassium)] : [])]
          const all = alkalis.reduce((sum, { weighed }) => sum + weighed, 0)
          const plan = planLye(request({ alkalis, water: all * water, hottest: kelvin(hottest) }))
          if (plan.portions.length === 0) {
            expect(codes(plan.findings)).toContain('stop portions-cannot-hold-limit')
            return
          }
          for (const [i, { weighed }] of alkalis.entries()) {
            const masses = plan.portions.map((portion) => portion.masses[i] ?? 0)
            const steps = masses.map((mass) => Math.round((mass * 1000) / step))
            expect(steps.reduce((sum, one) => sum + one, 0)).toBe(Math.round((weighed * 1000) / step))
            for (const [k, mass] of masses.entries()) {
              expect(mass).toBeCloseTo(((steps[k] ?? 0) * step) / 1000, 12)
              expect(steps[k]).toBeGreaterThan(0)
              // never more than a division over its equal part: the peak is that of equal parts
              expect(mass).toBeLessThan(weighed / masses.length + step / 1000)
            }
          }
          expect(plan.portions.length).toBeGreaterThanOrEqual(Math.min(20, all / 0.5))
          for (const { peak } of plan.portions) expect(peak).toBeLessThanOrEqual(kelvin(hottest))
          expect(plan.peak).toBe(Math.max(...plan.portions.map(({ peak }) => peak)))
        },
      ),
      { seed: 20270314, numRuns: 80 },
    )
  })

  test('1313 g in three: 438, 438 and 437 g', () => {
    const { portions } = planLye(request({ hottest: kelvin(88) }))
    expect(portions.map(({ number }) => number)).toEqual([1, 2, 3])
    for (const [i, mass] of [0.438, 0.438, 0.437].entries())
      expect(portions[i]?.masses[0]).toBeCloseTo(mass, 12)
  })

  test('the last of three, worked out again', () => {
    // 0.862 kg of 1.293 kg in 2.666 kg of water at 50 °C; 0.431 kg more at 44.1 kJ/mol; the impurities take 0.02 kJ/K
    const { portions } = planLye(request({ hottest: kelvin(88) }))
    const into = 3.528 * solutionEnthalpy(0.862 / 3.528, kelvin(50)) + 0.431 * (44.1e6 / 39.997 - 1490 * 6)
    const peak = portions.at(-1)?.peak ?? 0
    // one kelvin of it is 3.959 kg · 3.58 kJ/(kg K) = 14.2 kJ
    expect(Math.abs(3.959 * solutionEnthalpy(1.293 / 3.959, peak) - into) / 14_200).toBeLessThan(0.2)
  })
})

describe('by hand: the rest of the plan', () => {
  test('strength counts alkali as weighed: 1.313 / 3.979 = 33.0 %', () =>
    expect(planLye(request()).concentration).toBeCloseTo(0.33, 3))

  test('all at once would be hotter by far than the limit', () => {
    const { atOnce, limit } = planLye(request())
    // about 83 K and the 4.7 K of the high end over 15 °C
    expect(Math.abs(atOnce.high - kelvin(103))).toBeLessThan(2.5)
    expect(atOnce.high).toBeGreaterThan(limit)
  })

  test('a lye of 33 % and 80 °C fills about 3 l: 3.979 kg over 1310 to 1330 kg/m3', () => {
    const { volume } = planLye(request())
    expect(volume).toBeGreaterThan(3.979 / 1330)
    expect(volume).toBeLessThan(3.979 / 1310)
  })

  test('acids stand in the pail, too: 200 g of one without water make it heavier by that, and fuller by 5 %', () => {
    // 0.2 kg beside 3.979 kg
    const [without, with200] = [planLye(request()), planLye(request({ acidsWithoutWater: 0.2 }))]
    expect(with200.mass - without.mass).toBeCloseTo(0.2, 12)
    expect(with200.volume / without.volume).toBeCloseTo(4.179 / 3.979, 3)
    expect(with200.peak).toBe(without.peak)
  })

  test('50 g of citric acid in crystals of 99 %: 0.707 mol of groups, 4.7 g of water', () => {
    // C6H8O7 · H2O is 210.138 g/mol: 3 · 49.5 / 210.138 = 0.7067; 0.5 g + 49.5 · 18.015 / 210.138 = 4.744 g
    const of = acidsInPail([{ acid: 'citric-acid-monohydrate', mass: 0.05, strength: 0.99 }])
    expect(of.acidGroups).toBeCloseTo(0.7067, 4)
    expect(of.waterWithAcids).toBeCloseTo(0.004744, 6)
    expect(of.acidsWithoutWater).toBeCloseTo(0.045256, 6)
  })

  test('cooling by two readings: one halving an hour', () => {
    const readings = { first: kelvin(69), second: kelvin(44), timeBetween: 3600, room: kelvin(19) }
    // read with as much in it as today
    const { volume } = planLye(request())
    const plan = planLye(request({ readings: { ...readings, volume } }))
    const last = (plan.portions.at(-1)?.peak ?? 0) - 273.15
    expect(plan.coolingMeasured).toBe(true)
    expect(plan.coolingTime).toBeCloseTo(3600 * Math.log2((last - 19) / 19), 3)
    expect(planLye(request()).coolingMeasured).toBe(false)
    // read with an eighth in it: surface over volume goes with the cube root, twice as fast then as today
    const eighth = planLye(request({ readings: { ...readings, volume: volume / 8 } }))
    expect((eighth.coolingTime ?? 0) / (plan.coolingTime ?? 1)).toBeCloseTo(2, 6)
  })

  test('a lye of 50 % without ice is a stop', () => {
    const alkalis = [{ kind: 'NaOH' as const, weighed: 1, pure: 1, division: 0.001 }]
    expect(codes(planLye(request({ alkalis, water: 1 })).findings)).toContain('stop strong-lye-needs-ice')
  })

  test('a limit that cannot be held is a stop, and there are no portions', () => {
    const plan = planLye(request({ hottest: kelvin(51), waterTemperature: kelvin(50) }))
    expect(plan.portions).toEqual([])
    expect(codes(plan.findings)).toContain('stop portions-cannot-hold-limit')
  })

  test('more than 10 kg of alkali is not stirred in by hand', () => {
    const of = (weighed: number): string[] =>
      codes(
        planLye(
          request({
            alkalis: [{ kind: 'NaOH', weighed, pure: weighed, division: 0.001 }],
            water: weighed,
            ice: 1.2 * weighed,
            waterTemperature: kelvin(4),
          }),
        ).findings,
      )
    expect(of(10)).toEqual([])
    expect(of(10.5)).toEqual(['stop alkali-too-much-by-hand'])
  })
})
