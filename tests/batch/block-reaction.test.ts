import { describe, expect, test } from 'vitest'
import { FRESH_SOAP } from '../../src/batch/block-heat.ts'
import {
  batterHeat,
  fastestAt,
  gelTemperature,
  HEAT_PER_MOLE,
  type RateForm,
  type ReactionCase,
  rateConstant,
  reactingCells,
  USUAL_RATE,
} from '../../src/batch/block-reaction.ts'
import { FOAM_CONDUCTIVITY, PLYWOOD_CONDUCTIVITY, STILL_AIR_FILM } from '../../src/batch/block-walls.ts'

const C = 273.15

const reaction = (form: RateForm, heat = 0): ReactionCase => ({
  heat,
  rate: 2e-4,
  activationEnergy: 55e3,
  started: 0.03,
  form,
})

/** One cell at 40 °C in a room of 40 °C, after so many steps. */
const cell = (
  form: RateForm,
  time: number,
  steps: number,
  heat = 0,
): { readonly x: number; readonly above: number } => {
  const soap = reactingCells(reaction(form, heat), 1, C + 40, 1000, 2500)
  const above = new Float64Array(1)
  for (let step = 0; step < steps; step += 1) soap.source(above, time / steps)
  return { x: soap.reacted[0] ?? 0, above: above[0] ?? 0 }
}

describe('published: heat of saponification (lye-solutions.yaml: simple esters computed from CRC tables, read; fat recalled)', () => {
  test('50 to 80 kJ/mol; a fat of saponification value 190, 3.39 mol/kg, gives about 170 to 270 kJ/kg', () => {
    expect(HEAT_PER_MOLE).toMatchObject({ low: 50e3, high: 80e3 })
    const fat = batterHeat(3.39)
    expect(fat.low / 1000).toBeCloseTo(169.5, 6)
    expect(fat.high / 1000).toBeCloseTo(271.2, 6)
    // the two that were read, ethyl acetate 54.3 and methyl acetate 49.3 kJ/mol, lie at the low end of it
    expect(HEAT_PER_MOLE.nominal).toBeGreaterThan(54.3e3)
    expect(HEAT_PER_MOLE.nominal).toBeLessThan((50e3 + 80e3) / 2)
  })
})

describe('published: handbook values from memory (lye-solutions.yaml, other_thermal)', () => {
  test('fresh soap 2.3 to 2.8 kJ/(kg K) and 0.25 to 0.35 W/(m K)', () => {
    expect(FRESH_SOAP.heatCapacity).toEqual({ low: 2300, nominal: 2550, high: 2800 })
    expect(FRESH_SOAP.conductivity).toEqual({ low: 0.25, nominal: 0.3, high: 0.35 })
  })

  test('plywood 0.12 to 0.15, foam 0.028 to 0.035 W/(m K), still air 5 to 10 W/(m2 K)', () => {
    expect(PLYWOOD_CONDUCTIVITY).toMatchObject({ low: 0.12, high: 0.15 })
    expect(FOAM_CONDUCTIVITY).toMatchObject({ low: 0.028, high: 0.035 })
    expect(STILL_AIR_FILM).toMatchObject({ low: 5, high: 10 })
  })
})

describe('published: cells of 1 cm stay stable in explicit steps of 168 s (verified-facts, measured)', () => {
  test('h²/6α = 168 s, so α = 9.92e-8 m2/s, lies in the range of fresh soap', () => {
    const { conductivity, heatCapacity } = FRESH_SOAP
    const diffusivity = 0.01 ** 2 / (6 * 168)
    expect(diffusivity).toBeGreaterThan(conductivity.low / (1010 * heatCapacity.high))
    expect(diffusivity).toBeLessThan(conductivity.high / (1010 * heatCapacity.low))
  })
})

describe('by hand: rate against temperature', () => {
  test('is given at 40 °C and grows by exp(E/R (1/T₀ − 1/T))', () => {
    expect(rateConstant(2e-4, 55e3, C + 40)).toBeCloseTo(2e-4, 12)
    // 55000/8.314463 · (1/313.15 − 1/333.15) = 6615.0 · 1.91707e-4 = 1.26814 → × 3.5542
    expect(rateConstant(2e-4, 55e3, C + 60) / 2e-4).toBeCloseTo(3.5542, 3)
  })
})

describe('by hand: batter kept at 40 °C', () => {
  // k = 2e-4/s, x₀ = 0.03: ln(1/0.03)/(2e-4 · 1.03) = 3.506558/2.06e-4 = 17022 s
  test('reacts fastest after ln(1/x₀)/(k (1 + x₀)) = 17022 s, at x = (1 − x₀)/2', () => {
    expect(fastestAt(2e-4, 0.03)).toBeCloseTo(17022, 0)
    expect(cell('autocatalytic', fastestAt(2e-4, 0.03), 400).x).toBeCloseTo(0.485, 4)
    const step = 60
    let fastest = { time: 0, change: 0 }
    const soap = reactingCells(reaction('autocatalytic'), 1, C + 40, 1000, 2500)
    const above = new Float64Array(1)
    for (let time = 0; time < 40_000; time += step) {
      const before = soap.reacted[0] ?? 0
      soap.source(above, step)
      const change = (soap.reacted[0] ?? 0) - before
      if (change > fastest.change) fastest = { time: time + step / 2, change }
    }
    expect(Math.abs(fastest.time - 17022)).toBeLessThan(step)
  })

  test.each([3600, 10_000, 20_000, 40_000])('follows the closed solution at %d s', (time) => {
    const grown = 0.03 * Math.exp(2e-4 * 1.03 * time)
    expect(cell('autocatalytic', time, 400).x).toBeCloseTo((grown - 0.03) / (1 + grown), 4)
  })

  test('first order follows 1 − exp(−k t) and is fastest at the pour', () => {
    expect(cell('first-order', 5000, 200).x).toBeCloseTo(1 - Math.exp(-1), 4)
    expect(cell('first-order', 600, 10).x).toBeGreaterThan(5 * cell('autocatalytic', 600, 10).x)
  })

  test('an error of steps half as long is a quarter', () => {
    const exact = 0.03 * Math.exp(2e-4 * 1.03 * 17022)
    const x = (exact - 0.03) / (1 + exact)
    const miss = (steps: number): number => Math.abs(cell('autocatalytic', 17022, steps).x - x)
    const order = Math.log2(miss(20) / miss(40))
    expect(order).toBeGreaterThan(1.8)
    expect(order).toBeLessThan(2.2)
  })
})

describe('by hand: heat in a cell that loses none', () => {
  test('warms by Q (1 − x₀)/c, and its source tells as much', () => {
    // 150 kJ/kg · 0.97/2500 J/(kg K) = 58.2 K; 58.2 · 2500 · 1000 kg/m3 = 145.5 MJ/m3
    const soap = reactingCells(reaction('autocatalytic', 150e3), 1, C + 40, 1000, 2500)
    const above = new Float64Array(1)
    let told = 0
    for (let step = 0; step < 4000; step += 1) told += soap.source(above, 20)
    expect(above[0]).toBeCloseTo(58.2, 1)
    expect(told / 1e6).toBeCloseTo(145.5, 1)
    expect(told).toBeCloseTo((above[0] ?? 0) * 2500 * 1000, 3)
    expect(soap.fastest(above)).toBe(0)
    expect(soap.least()).toBeGreaterThan(0.999)
  })

  test('own heat makes it faster', () => {
    expect(cell('autocatalytic', 10_000, 400, 150e3).x).toBeGreaterThan(
      cell('autocatalytic', 10_000, 400).x * 1.2,
    )
  })
})

describe('by hand: gel temperature, a line through what makers report (estimate)', () => {
  test.each([
    // 63 + 140 · (0.25 − w)
    [0.25, 63],
    [0.19, 71.4],
    [0.15, 77],
    [0.02, 90],
    [0.6, 50],
  ])('water %d: %d °C, 5 K either way', (water, celsius) => {
    const gel = gelTemperature(water)
    expect(gel.nominal - C).toBeCloseTo(celsius, 6)
    expect(gel.high - gel.low).toBeCloseTo(10, 9)
  })
})

describe('by hand: usual rate (estimates)', () => {
  test('twice and half either way', () => {
    const { low, nominal, high } = USUAL_RATE.rate
    expect([low / nominal, high / nominal]).toEqual([0.5, 2])
  })
})

describe('by hand: temperatures beyond those that rates are tabled for', () => {
  // every quarter kelvin from −30 to 170 °C
  const fastest = (room: number, above: number): number =>
    reactingCells(reaction('autocatalytic'), 1, room, 1000, 2500).fastest(Float64Array.of(above))
  const wanted = (kelvins: number): number => rateConstant(2e-4, 55e3, kelvins) * 1.03

  test('colder than −30 °C counts as −30 °C', () => {
    expect(fastest(C - 30, 0) / wanted(C - 30)).toBeCloseTo(1, 9)
    expect(fastest(C - 60, 0) / wanted(C - 30)).toBeCloseTo(1, 9)
  })

  test('hotter than 170 °C counts as 170 °C', () => {
    expect(fastest(C + 20, 150) / wanted(C + 170)).toBeCloseTo(1, 9)
    expect(fastest(C + 20, 400) / wanted(C + 170)).toBeCloseTo(1, 9)
  })

  test('at a whole quarter the rate is exact, between two it misses by 3 parts in 100,000 at the most', () => {
    for (const celsius of [-29.75, 0, 20.25, 40, 63.5, 110.75])
      expect(fastest(C + celsius, 0) / wanted(C + celsius)).toBeCloseTo(1, 9)
    const miss = fastest(C + 20.125, 0) / wanted(C + 20.125) - 1
    // (0.25 K)²/8 · ((E/RT²)² − 2 E/RT³): 0.0078125 · ((6615/293.275²)² − 2 · 6615/293.275³) = 4.2e-5 · …
    const slope = 6615.0 / 293.275 ** 2
    expect(miss).toBeCloseTo((0.25 ** 2 / 8) * (slope ** 2 - (2 * slope) / 293.275), 7)
    expect(Math.abs(miss)).toBeLessThan(5e-5)
  })
})

describe('by hand: when a cell is done', () => {
  test('one part in ten thousand is left, and of that nothing more is reckoned', () => {
    const soap = reactingCells(reaction('autocatalytic'), 1, C + 40, 1000, 2500)
    const above = new Float64Array(1)
    // near its end a step of 20 s reacts 2e-4 · 1.03 · 1e-4 · 20 = 4e-7
    for (let step = 0; step < 4000; step += 1) soap.source(above, 20)
    expect(soap.reacted[0]).toBeGreaterThanOrEqual(0.9999)
    expect(soap.reacted[0]).toBeLessThan(0.9999 + 5e-7)
    expect(soap.source(above, 20)).toBe(0)
    expect(soap.fastest(above)).toBe(0)
  })

  test('of several cells the least counts, and the hottest that is not done', () => {
    const soap = reactingCells(reaction('first-order'), 3, C + 40, 1000, 2500)
    soap.reacted.set([0.5, 1, 0.25])
    expect(soap.least()).toBe(0.25)
    expect(soap.fastest(Float64Array.of(0, 60, 20))).toBeCloseTo(rateConstant(2e-4, 55e3, C + 60), 12)
  })
})
