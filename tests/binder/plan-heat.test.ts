/** How warm fats and lye are brought together: a balance of heat by other arithmetic. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { FormulaFat } from '../../src/binder/formula.ts'
import { type HeatRequest, planHeat } from '../../src/binder/plan-heat.ts'

const kelvin = (celsius: number): number => celsius + 273.15
const from = { source: 'none', evidence: 'computed' } as const

const fat = (
  key: string,
  share: number,
  melting?: { from: number; to: number; 'solid-at-room'?: number },
  kind: FormulaFat['entry']['kind'] = 'triglyceride',
): FormulaFat =>
  ({
    key,
    name: key,
    share,
    value: { nominal: 0.195, low: 0.19, high: 0.2, basis: 'middle-of-range', findings: [] },
    density: 900,
    certificate: undefined,
    entry: {
      names: [key],
      kind,
      ...(melting && {
        melting: { ...melting, from: kelvin(melting.from), to: kelvin(melting.to), ...from },
      }),
    },
  }) as unknown as FormulaFat

const OLIVE = fat('olive', 0.6)
const PALM = fat('palm', 0.4, { from: 33, to: 39 })

const request = (more: Partial<HeatRequest> = {}): HeatRequest => ({
  fats: [
    { fat: OLIVE, mass: 6 },
    { fat: PALM, mass: 4 },
  ],
  lye: { mass: 4, composition: { NaOH: 0.33 }, temperature: kelvin(40) },
  later: 0,
  additions: 0,
  pourTemperature: kelvin(40),
  room: kelvin(20),
  ...more,
})

describe('by hand: fats and lye', () => {
  test('both at the temperature of the pour: the fats are warmed to it and no further', () => {
    const { fats, pot, lye } = planHeat(request())
    expect(fats).toBeCloseTo(kelvin(40), 3)
    expect(pot).toBeCloseTo(kelvin(40), 3)
    expect(lye).toBe(kelvin(40))
  })

  test('a lye of 25 °C: 4 kg · 3.58 kJ/(kg K) · 15 K over 10 kg · 2.04 kJ/(kg K) is 10.5 K more', () => {
    // fat at 45 °C: 1.9842 + 0.0663 − 0.0097 = 2.041 kJ/(kg K); lye of 33 %: 3.576 at 25 °C
    const { fats, pot } = planHeat(
      request({ lye: { mass: 4, composition: { NaOH: 0.33 }, temperature: kelvin(25) } }),
    )
    expect(Math.abs(fats - kelvin(50.5))).toBeLessThan(0.2)
    expect(pot).toBeCloseTo(kelvin(40), 3)
  })

  test('half a kilogram of water kept back, as cold as the room: 0.5 · 4.18 · 20 / (10 · 2.03 + 4 · 3.57) = 1.2 K', () => {
    // the fats make up for all of it: 41.8 kJ over 20.3 kJ/K; the pot is warmer until it goes in
    const { fats, pot } = planHeat(request({ later: 0.5 }))
    expect(Math.abs(fats - kelvin(42.06))).toBeLessThan(0.1)
    expect(Math.abs(pot - kelvin(41.21))).toBeLessThan(0.1)
  })
})

describe('by hand: what melts, and when it comes out again', () => {
  test('palm of 39 °C is clear at 44 °C, five kelvin more', () => {
    const { clearAt, hard } = planHeat(request())
    expect(clearAt).toBeCloseTo(kelvin(44), 9)
    expect(hard.map(({ key }) => key)).toEqual(['palm'])
  })

  test('two fifths of it by molecules come out at 32.3 °C', () => {
    // M = 3 · 56.105 / 0.195 = 863.2 g/mol, · 125 kJ/kg = 107.9 kJ/mol;
    // 1 / (1/312.15 + 8.31446 · 0.91629 / 107 900) = 305.4 K
    expect(planHeat(request()).seeding?.temperature).toBeCloseTo(305.4, 1)
    expect(planHeat(request()).findings).toEqual([])
  })

  test('a pot colder than that is warned of', () => {
    const { findings } = planHeat(
      request({
        pourTemperature: kelvin(30),
        lye: { mass: 4, composition: { NaOH: 0.33 }, temperature: kelvin(30) },
      }),
    )
    expect(findings.map(({ code, severity }) => `${severity} ${code}`)).toEqual(['warn below-seeding-point'])
  })

  test('all oils, nothing hard: nothing to melt, and nothing that sets', () => {
    const plan = planHeat(request({ fats: [{ fat: OLIVE, mass: 10 }] }))
    expect(plan.hard).toEqual([])
    expect([plan.clearAt, plan.seeding]).toEqual([undefined, undefined])
  })

  test('heat and time: 10 kg from 20 to 44 °C and 4 kg melted, on 1 kW at 50 %', () => {
    // mean heat capacity at 32 °C: 1.9842 + 0.0471 − 0.0049 = 2.0264; 10 · 2.0264 · 24 = 486.3 kJ; 4 · 125 = 500 kJ
    const plan = planHeat(request({ heater: { power: 1000, efficiency: 0.5 } }))
    expect(Math.abs(plan.heat / 1000 - 986.3)).toBeLessThan(1)
    expect(Math.abs(plan.time - 2 * 986.3)).toBeLessThan(2)
  })

  test('a fifth of it solid in the room melts with a fifth of the heat', () => {
    const soft = fat('palm', 0.4, { from: 33, to: 39, 'solid-at-room': 0.2 })
    const with_ = (one: FormulaFat): number =>
      planHeat(
        request({
          fats: [
            { fat: OLIVE, mass: 6 },
            { fat: one, mass: 4 },
          ],
        }),
      ).heat
    expect((with_(PALM) - with_(soft)) / 1000).toBeCloseTo(0.8 * 500, 6)
  })
})

describe('by hand: whatever the masses', () => {
  test('heat that the fats give is heat that lye and water take', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 20, noNaN: true }),
        fc.double({ min: 0.3, max: 8, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: 20, max: 45 }),
        fc.integer({ min: 35, max: 50 }),
        (oils, lyeMass, later, lyeAt, pour) => {
          const plan = planHeat(
            request({
              fats: [{ fat: OLIVE, mass: oils }],
              lye: { mass: lyeMass, composition: { NaOH: 0.33 }, temperature: kelvin(lyeAt) },
              later,
              pourTemperature: kelvin(pour),
            }),
          )
          if (plan.findings.length > 0) return
          // ∫ c dT with c = 1984.2 + 1.4733 t − 0.0048008 t² by the middle: the curve is nearly straight
          const middle = (plan.fats - 273.15 + pour) / 2
          const c = 1984.2 + 1.4733 * middle - 0.0048008 * middle ** 2
          const given = oils * c * (plan.fats - kelvin(pour))
          const taken = lyeMass * 3575 * (pour - lyeAt) + later * 4177 * (pour - 20)
          expect(Math.abs(given - taken)).toBeLessThan(0.01 * Math.abs(taken) + 50)
        },
      ),
      { seed: 20270303, numRuns: 200 },
    )
  })
})
