import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { heatHardFatsTo, mixTemperature, type Stream } from '../../src/batch/mixing.ts'

const C = 273.15
const solid = (point: number, heat: number, solidShare: number) => ({ point: C + point, heat, solidShare })
const codes = (result: { readonly findings: readonly { readonly code: string }[] }): string[] =>
  result.findings.map((finding) => finding.code)

describe('by hand: mixing', () => {
  test('two waters meet in the middle; thrice the mass pulls thrice as hard', () => {
    const cold: Stream = { name: 'cold', mass: 1, temperature: C + 20, specificHeat: 4180 }
    expect(mixTemperature([cold, { ...cold, temperature: C + 60 }]).temperature).toBeCloseTo(C + 40, 6)
    expect(mixTemperature([cold, { ...cold, temperature: C + 60, mass: 3 }]).temperature).toBeCloseTo(
      C + 50,
      6,
    )
  })

  test('fats, oils and lye: (6·2000·60 + 4·2000·20 + 4·3500·30) / 34000 = 38.2353 °C', () => {
    const mix = mixTemperature([
      { name: 'hard', mass: 6, temperature: C + 60, specificHeat: 2000 },
      { name: 'oil', mass: 4, temperature: C + 20, specificHeat: 2000 },
      { name: 'lye', mass: 4, temperature: C + 30, specificHeat: 3500 },
    ])
    expect(mix.temperature - C).toBeCloseTo(38.2353, 4)
    expect(mix.seedingPoint).toBeUndefined()
  })

  test('solid fat takes its heat of melting: all of it, some of it, none of it', () => {
    const fat: Stream = {
      name: 'palm',
      mass: 1,
      temperature: C + 20,
      specificHeat: 2000,
      melting: solid(35, 100e3, 1),
    }
    const water = (t: number): Stream => ({ name: 'water', mass: 1, temperature: C + t, specificHeat: 4000 })
    // 4000 (90 − T) = 2000 (T − 20) + 100000 → 50
    expect(mixTemperature([fat, water(90)]).temperature - C).toBeCloseTo(50, 6)
    expect(mixTemperature([fat, water(90)]).unmelted).toBeCloseTo(0, 6)
    // to 35: water gives 100 kJ, fat takes 30 kJ, 70 kJ melts 0.7 kg
    const some = mixTemperature([fat, water(60)])
    expect(some.temperature - C).toBeCloseTo(35, 4)
    expect(some.unmelted).toBeCloseTo(0.3, 4)
    expect(codes(some)).toContain('hard-fat-not-melted')
    // 4000 (40 − T) = 2000 (T − 20) → 33.333, below the melting point
    expect(mixTemperature([fat, water(40)])).toMatchObject({ unmelted: 1 })
    expect(mixTemperature([fat, water(40)]).temperature - C).toBeCloseTo(33.3333, 4)
  })

  test('below the seeding point: warned of, and how much it would warm if the fat set', () => {
    const fat: Stream = {
      name: 'palm',
      mass: 1,
      temperature: C + 50,
      specificHeat: 2000,
      melting: solid(38, 100e3, 0),
    }
    const mix = mixTemperature([fat, { name: 'oil', mass: 3, temperature: C + 20, specificHeat: 2000 }])
    expect(mix.temperature - C).toBeCloseTo(27.5, 6)
    expect(mix.seedingPoint).toBeCloseTo(C + 34, 9)
    expect(mix.riseIfFatsSet).toBeCloseTo(12.5, 6) // 100 kJ over 8 kJ/K
    expect(codes(mix)).toEqual(['below-seeding-point'])
    expect(
      codes(
        mixTemperature([
          { ...fat, temperature: C + 95 },
          { name: 'oil', mass: 3, temperature: C + 20, specificHeat: 2000 },
        ]),
      ),
    ).toEqual([])
  })

  test('hard fats to 59.33 °C for a pot at 38 °C: 38 + (8000·18 + 14000·8) / 12000', () => {
    const plan = heatHardFatsTo({
      hardFats: [{ name: 'hard', mass: 6, temperature: C + 20, specificHeat: 2000 }],
      others: [
        { name: 'oil', mass: 4, temperature: C + 20, specificHeat: 2000 },
        { name: 'lye', mass: 4, temperature: C + 30, specificHeat: 3500 },
      ],
      wanted: C + 38,
    })
    expect(plan.heatTo - C).toBeCloseTo(59.3333, 4)
    expect(plan.potTemperature - C).toBeCloseTo(38, 6)
    expect(plan.findings).toEqual([])
  })

  test('a wish too hot or too cold to grant', () => {
    const hard: Stream = {
      name: 'hard',
      mass: 5,
      temperature: C + 20,
      specificHeat: 'fat',
      melting: solid(40, 120e3, 1),
    }
    const others: Stream[] = [{ name: 'oil', mass: 5, temperature: C + 20, specificHeat: 'fat' }]
    const hot = heatHardFatsTo({ hardFats: [hard], others, wanted: C + 60 })
    expect(hot.heatTo - C).toBeCloseTo(80, 9)
    expect(codes(hot)).toContain('pot-colder-than-wanted')
    const cold = heatHardFatsTo({ hardFats: [hard], others, wanted: C + 25 })
    expect(cold.heatTo - C).toBeCloseTo(45, 9)
    expect(cold.potTemperature - C).toBeGreaterThan(32)
    expect(codes(cold)).toContain('pot-hotter-than-wanted')
    const wax = { ...hard, melting: solid(85, 120e3, 1) }
    expect(codes(heatHardFatsTo({ hardFats: [wax], others, wanted: C + 60 }))).toContain(
      'melting-above-heating-limit',
    )
  })

  test('energy is kept: what the warm parts give the cold ones take', () => {
    const part = fc.record({
      mass: fc.double({ min: 0.1, max: 10, noNaN: true }),
      t: fc.double({ min: 5, max: 90, noNaN: true }),
      fat: fc.boolean(),
    })
    fc.assert(
      fc.property(fc.tuple(part, part, part, part), (parts) => {
        const streams = parts.map(
          ({ mass, t, fat }): Stream => ({
            name: 'p',
            mass,
            temperature: C + t,
            specificHeat: fat ? 'fat' : 3570,
          }),
        )
        const { temperature } = mixTemperature([streams[0]!, ...streams.slice(1)])
        // Simpson's rule is exact for the quadratic specific heat
        const taken = streams.reduce((sum, { mass, temperature: from, specificHeat }) => {
          const c = (t: number): number =>
            specificHeat === 'fat' ? 1984.2 + 1.4733 * (t - C) - 0.0048008 * (t - C) ** 2 : 3570
          const width = temperature - from
          return sum + (mass * width * (c(from) + 4 * c(from + width / 2) + c(temperature))) / 6
        }, 0)
        expect(Math.abs(taken)).toBeLessThan(0.01) // J of some 1e6
      }),
      { seed: 6, numRuns: 300 },
    )
  })

  test('heating plan there and back', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 45, noNaN: true }),
        fc.double({ min: 0.2, max: 3, noNaN: true }),
        (pot, ratio) => {
          const plan = heatHardFatsTo({
            hardFats: [
              { name: 'hard', mass: 1, temperature: C, specificHeat: 'fat', melting: solid(25, 110e3, 1) },
            ],
            others: [{ name: 'oil', mass: ratio, temperature: C + 20, specificHeat: 'fat' }],
            wanted: C + pot,
            hottest: C + 300,
          })
          expect(plan.potTemperature).toBeCloseTo(C + pot, 6)
        },
      ),
      { seed: 6, numRuns: 100 },
    )
  })

  test('of two hard fats the higher seeding point counts, a half solid one sets by half', () => {
    const soft: Stream = {
      name: 'soft',
      mass: 1,
      temperature: C + 50,
      specificHeat: 2000,
      melting: solid(28, 90e3, 0),
    }
    const hard: Stream = {
      name: 'hard',
      mass: 2,
      temperature: C + 50,
      specificHeat: 2000,
      melting: solid(40, 100e3, 0),
    }
    const oil: Stream = { name: 'oil', mass: 3, temperature: C + 10, specificHeat: 2000 }
    const mix = mixTemperature([soft, hard, oil]) // 30 °C: hard is below 36, soft above 24
    expect(mix.temperature - C).toBeCloseTo(30, 6)
    expect(mix.seedingPoint).toBeCloseTo(C + 36, 9)
    expect(mix.riseIfFatsSet).toBeCloseTo(200 / 12, 6) // 2 · 100 kJ over 12 kJ/K
    expect(mix.findings[0]).toMatchObject({ severity: 'warn', values: { names: 'hard' } })
    const both = mixTemperature([soft, hard, { ...oil, mass: 30 }])
    expect(both.findings[0]?.values.seedingPoint).toBeCloseTo(C + 36, 9)

    // 2 kg, 60 % solid, at 20 °C with water at 38 °C: 4000 (38 − T) = 4000 (T − 20) → 29; below 40, so 1.2 kg stay
    const half = { ...hard, temperature: C + 20, melting: solid(40, 100e3, 0.6) }
    const cool = mixTemperature([half, { name: 'water', mass: 1, temperature: C + 38, specificHeat: 4000 }])
    expect(cool.temperature - C).toBeCloseTo(29, 6)
    expect(cool.unmelted).toBeCloseTo(1.2, 9)
    expect(cool.riseIfFatsSet).toBeCloseTo(80 / 8, 6) // 0.8 kg of it is liquid
    expect(cool.findings[0]).toMatchObject({ code: 'hard-fat-not-melted', severity: 'hold' })
  })

  test('two solid fats with one melting point share the heat that is there', () => {
    const fat: Stream = {
      name: 'a',
      mass: 0.3,
      temperature: C + 35,
      specificHeat: 2000,
      melting: solid(35, 100e3, 1),
    }
    const water: Stream = { name: 'water', mass: 1, temperature: C + 45, specificHeat: 4000 } // 40 kJ: 0.4 of 0.6 kg
    const mix = mixTemperature([fat, { ...fat, name: 'b' }, water])
    expect(mix.temperature - C).toBeCloseTo(35, 4)
    expect(mix.unmelted).toBeCloseTo(0.2, 4)
  })

  test('heating: the hardest fat sets the least temperature, and what the findings weigh', () => {
    const soft: Stream = {
      name: 'soft',
      mass: 1,
      temperature: C,
      specificHeat: 2000,
      melting: solid(25, 100e3, 1),
    }
    const hard = { ...soft, name: 'hard', melting: solid(50, 100e3, 1) }
    const others: Stream[] = [{ name: 'oil', mass: 2, temperature: C + 20, specificHeat: 2000 }]
    const cold = heatHardFatsTo({ hardFats: [soft, hard], others, wanted: C + 25 })
    expect(cold.heatTo - C).toBeCloseTo(55, 9)
    expect(cold.potTemperature - C).toBeCloseTo(37.5, 6)
    expect(cold.findings.find((finding) => finding.code === 'pot-hotter-than-wanted')?.severity).toBe('warn')
    const hot = heatHardFatsTo({ hardFats: [soft, hard], others, wanted: C + 70 })
    expect(hot.findings.find((finding) => finding.code === 'pot-colder-than-wanted')?.severity).toBe('warn')
    const wax = heatHardFatsTo({
      hardFats: [{ ...hard, melting: solid(85, 100e3, 1) }],
      others,
      wanted: C + 60,
    })
    expect(wax.findings.find((finding) => finding.code === 'melting-above-heating-limit')?.severity).toBe(
      'hold',
    )
  })
})

describe('by hand: temperatures that are just met', () => {
  const palm: Stream = {
    name: 'palm',
    mass: 2,
    temperature: C + 60,
    specificHeat: 2000,
    melting: solid(40, 100e3, 0),
  }
  const oil: Stream = { name: 'oil', mass: 3, temperature: C + 20, specificHeat: 2000 }
  const lye: Stream = { name: 'lye', mass: 1, temperature: C + 30, specificHeat: 4000 }

  test('a pot just at the seeding point of a fat does not seed it', () => {
    const { temperature } = mixTemperature([palm, oil])
    expect(temperature - C).toBeCloseTo(36, 6)
    const at = (seedingPoint: number) =>
      mixTemperature([{ ...palm, melting: { ...solid(40, 100e3, 0), seedingPoint } }, oil])
    expect(at(temperature)).toMatchObject({ findings: [], riseIfFatsSet: 0, seedingPoint: temperature })
    expect(codes(at(temperature + 1e-6))).toEqual(['below-seeding-point'])
    expect(at(temperature + 1e-6).riseIfFatsSet).toBeCloseTo(20, 6) // 200 kJ over 10 kJ/K
  })

  test('a fat that none is taken of seeds nothing', () => {
    const mix = mixTemperature([
      oil,
      lye,
      { ...palm, mass: 0, temperature: C + 20, melting: solid(90, 100e3, 1) },
    ])
    expect(mix).toMatchObject({ seedingPoint: undefined, unmelted: 0, riseIfFatsSet: 0, findings: [] })
  })

  test('what stays solid to the last milligram is held back, half a milligram is not', () => {
    // 4 kJ/K from 45 to 35 °C melt 0.4 kg
    const water: Stream = { name: 'water', mass: 1, temperature: C + 45, specificHeat: 4000 }
    const fat = (mass: number): Stream => ({
      name: 'fat',
      mass,
      temperature: C + 35,
      specificHeat: 2000,
      melting: solid(35, 100e3, 1),
    })
    expect(codes(mixTemperature([fat(0.40001), water]))).toContain('hard-fat-not-melted')
    expect(mixTemperature([fat(0.4001), water]).unmelted).toBeCloseTo(0.0001, 6)
    expect(codes(mixTemperature([fat(0.3999), water]))).not.toContain('hard-fat-not-melted')
  })

  test('a limit that is just what the fats are heated to, or just what melts them', () => {
    const others: Stream[] = [oil, lye]
    const plan = (hottest: number, wanted: number) =>
      heatHardFatsTo({ hardFats: [palm], others, wanted: C + wanted, hottest })
    // 40 + (6000 · 20 + 4000 · 10)/4000 = 80
    const { heatTo } = plan(C + 200, 40)
    expect(heatTo - C).toBeCloseTo(80, 6)
    expect(codes(plan(heatTo, 40))).toEqual([])
    expect(codes(plan(heatTo - 1e-6, 40))).toEqual(['pot-colder-than-wanted'])
    // melted at 40 °C and 5 K more
    const melted = palm.melting!.point + 5
    expect(codes(plan(melted, 50))).not.toContain('melting-above-heating-limit')
    expect(codes(plan(melted - 1e-6, 50))).toContain('melting-above-heating-limit')
  })

  test('a hundredth of a kelvin hotter than wanted is no word worth', () => {
    const others: Stream[] = [oil, lye]
    const at = (over: number) => {
      const { heatTo } = heatHardFatsTo({ hardFats: [palm], others, wanted: C + 40, hottest: C + 200 })
      const melting = { ...palm.melting!, point: heatTo - 5 + over }
      return codes(
        heatHardFatsTo({ hardFats: [{ ...palm, melting }], others, wanted: C + 40, hottest: C + 200 }),
      )
    }
    expect(at(0.0099)).not.toContain('pot-hotter-than-wanted')
    expect(at(0.01005)).toContain('pot-hotter-than-wanted')
  })

  test('80 °C is the limit where none is stated (estimate)', () => {
    const plan = heatHardFatsTo({ hardFats: [palm], others: [oil, lye], wanted: C + 60 })
    expect(plan.heatTo).toBe(C + 80)
  })

  test('pots of nothing but one part are as warm as it', () => {
    for (const celsius of [5, 38, 80]) {
      const mix = mixTemperature([{ ...oil, temperature: C + celsius }])
      expect(mix.temperature - C).toBeCloseTo(celsius, 6)
    }
    expect(mixTemperature([{ ...oil, mass: 0 }]).riseIfFatsSet).toBe(0)
  })

  test('a solid that was given hotter than its melting point cools all others by what melting takes', () => {
    // 1 kg at 50 °C that melts at 40 with 100 kJ, 1 kg of water at 50 °C: 2000 (50 − T) + 4000 (50 − T) = 100 kJ at T = 33.3,
    // which is below 40, so it does not melt: at 40 °C 60 kJ melt 0.6 kg
    const mix = mixTemperature([
      { ...palm, mass: 1, temperature: C + 50, melting: solid(40, 100e3, 1) },
      { ...lye, temperature: C + 50 },
    ])
    expect(mix.temperature - C).toBeCloseTo(40, 4)
    expect(mix.unmelted).toBeCloseTo(0.4, 4)
  })
})
