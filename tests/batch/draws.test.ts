import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import {
  type Container,
  chooseScale,
  minimumWeighing,
  planDraws,
  readingSpread,
  repeatPlan,
  type Scale,
} from '../../src/batch/draws.ts'

const KITCHEN: Scale = { name: 'kitchen', capacity: 5, division: 0.001 }
const BENCH: Scale = { name: 'bench', capacity: 30, division: 0.01 }
const POCKET: Scale = { name: 'pocket', capacity: 0.5, division: 0.0001 }
const bowl = (emptyMass: number, workingMass: number): Container => ({ name: 'bowl', emptyMass, workingMass })
const grams = (plan: { readonly draws: readonly { readonly target: number }[] }): number[] =>
  plan.draws.map((draw) => Math.round(draw.target * 1e4) / 10)
const codes = (plan: { readonly findings: readonly { readonly code: string }[] }): string[] =>
  plan.findings.map((finding) => finding.code)

describe('by hand: draws', () => {
  test.each([
    // mass [kg], working mass [kg], draws [g]
    [7.456, 2, [2000, 2000, 2000, 1456]], // 7456 / 2000 → 4
    [7.456, 2.4, [2000, 2000, 2000, 1456]], // still 4; 2000 is the roundest between 1864 and 2400
    [7.456, 2.5, [2500, 2500, 2456]], // 3; between 2486 and 2500
    [10, 4, [4000, 4000, 2000]], // 3; between 3334 and 4000
    [6, 2, [2000, 2000, 2000]], // exactly full three times
    [6.01, 2, [1800, 1800, 1800, 610]], // 2000 would leave 10 g, below 20; 1500 would leave more than a draw
    [1.3857, 2, [1386]],
    [2.01, 2, [1500, 510]], // between 1005 and 1990
  ])('%d kg in draws of at most %d kg', (mass, working, expected) => {
    expect(grams(planDraws({ mass, scale: KITCHEN, container: bowl(0.5, working) }))).toEqual(expected)
  })

  test('tare, gross and running total stand beside each target', () => {
    const { draws } = planDraws({ mass: 7.456, scale: KITCHEN, container: bowl(0.5, 2) })
    expect(draws[3]).toEqual({ number: 4, tare: 0.5, target: 1.456, gross: 1.956, runningTotal: 7.456 })
    expect(draws[1]?.runningTotal).toBe(4)
  })

  test('the container counts against the capacity: 5 kg less 1.2 kg leaves 3.8 kg', () => {
    const plan = planDraws({ mass: 4.5, scale: KITCHEN, container: bowl(1.2, 10) })
    expect(plan.largestDraw).toBeCloseTo(3.8, 12)
    expect(grams(plan)).toEqual([3000, 1500]) // between 2250 and 3800
  })

  test('ounces: 10 lb on a scale of 0.1 oz, jug for 4 lb', () => {
    const ounce = 0.028349523125
    const scale: Scale = { name: 'ounce', capacity: 176 * ounce, division: 0.1 * ounce }
    const plan = planDraws({ mass: 160 * ounce, scale, container: bowl(8 * ounce, 64 * ounce) })
    const ounces = plan.draws.map((draw) => Math.round((draw.target / ounce) * 10) / 10)
    expect(ounces).toEqual([60, 60, 40]) // between 53.4 and 64
    expect(plan.sum / ounce).toBeCloseTo(160, 9)
  })

  test('rounding and reading errors: 100.4 g on a 1 g scale', () => {
    const plan = planDraws({ mass: 0.1004, scale: KITCHEN, container: bowl(0.1, 1) })
    expect(plan.roundingError).toBeCloseTo(-0.0004, 12)
    expect(plan.worstError).toBeCloseTo(0.0009, 12) // 0.4 g + half a gram
    expect(codes(plan)).toEqual([]) // 0.9 %
    expect(codes(planDraws({ mass: 0.08, scale: KITCHEN, container: bowl(0.1, 1) }))).toEqual([]) // 0.5 / 80 = 0.6 %
    const coarse = planDraws({ mass: 0.04, scale: KITCHEN, container: bowl(0.1, 1), alkali: true })
    expect(coarse.findings).toMatchObject([{ code: 'scale-too-coarse', severity: 'stop' }]) // 0.5 / 40 = 1.25 %
  })

  test('too little for the scale, a container too heavy, a tare limit', () => {
    const small = planDraws({ mass: 0.012, scale: KITCHEN, container: bowl(0.1, 1) })
    expect(codes(small)).toContain('draw-below-scale-minimum')
    expect(small.findings[0]?.severity).toBe('warn')
    expect(planDraws({ mass: 0.0001, scale: KITCHEN, container: bowl(0.1, 1) }).draws).toEqual([])
    const heavy = planDraws({ mass: 1, scale: KITCHEN, container: bowl(6, 9) })
    expect(heavy.draws).toEqual([])
    expect(codes(heavy)).toEqual(['container-too-heavy-for-scale'])
    const limited = planDraws({ mass: 1, scale: { ...KITCHEN, tareLimit: 0.4 }, container: bowl(0.5, 2) })
    expect(codes(limited)).toEqual(['container-too-heavy-for-scale'])
    const spoon = planDraws({ mass: 1, scale: KITCHEN, container: bowl(0.01, 0.015) })
    expect(codes(spoon)).toEqual(['container-too-small-for-scale']) // 15 g at most, 20 g at least
    const cup = planDraws({ mass: 0.031, scale: KITCHEN, container: bowl(0.01, 0.03) })
    expect(grams(cup)).toEqual([16, 15]) // no way to have both at 20 g
    expect(codes(cup)).toContain('draw-below-scale-minimum')
  })

  test('minimum and spread of a reading', () => {
    expect(minimumWeighing(KITCHEN)).toBeCloseTo(0.02, 12)
    expect(minimumWeighing({ ...KITCHEN, minimumWeighing: 0.005 })).toBe(0.005)
    expect(readingSpread({ ...KITCHEN, repeatability: 0 })).toBeCloseTo(0.001 / 3.4641016, 9)
    expect(readingSpread({ ...KITCHEN, repeatability: 0.001 })).toBeCloseTo(0.001 * Math.sqrt(13 / 12), 12)
  })

  test('the scale: fewest draws within the error, then the smallest', () => {
    const pick = (mass: number, container: Container): string =>
      chooseScale({ mass, container }, [BENCH, KITCHEN, POCKET]).chosen.scale.name
    expect(pick(10, bowl(1, 20))).toBe('bench') // one draw; 5 g of 10 kg
    expect(pick(2, bowl(0.5, 4))).toBe('kitchen') // both one draw, smaller capacity
    expect(pick(0.02, bowl(0.05, 0.4))).toBe('pocket') // 0.5 g of 20 g is too coarse
    const all = chooseScale({ mass: 10, container: bowl(1, 20) }, [KITCHEN, BENCH])
    expect(all.plans.map((plan) => plan.draws.length)).toEqual([1, 3])
  })

  test('2,000 random scales: sum, capacity, minimum, fewest draws, last one smallest', () => {
    const scaleOf = fc.record({
      division: fc.constantFrom(0.0001, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.0028349523125, 0.028349523125),
      divisions: fc.integer({ min: 200, max: 30000 }),
      tareShare: fc.double({ min: 0, max: 0.6, noNaN: true }),
      workingShare: fc.double({ min: 0.05, max: 1.5, noNaN: true }),
      massShare: fc.double({ min: 0.001, max: 12, noNaN: true }),
    })
    let split = 0
    fc.assert(
      fc.property(scaleOf, ({ division, divisions, tareShare, workingShare, massShare }) => {
        const capacity = division * divisions
        const scale: Scale = { name: 's', capacity, division }
        const container = bowl(capacity * tareShare, capacity * workingShare)
        const mass = capacity * massShare
        const plan = planDraws({ mass, scale, container })
        const small = minimumWeighing(scale)
        if (plan.draws.length === 0) {
          expect(codes(plan).length).toBeGreaterThan(0)
          return
        }
        const hair = division * 1e-6
        expect(Math.abs(plan.sum - mass)).toBeLessThanOrEqual(division / 2 + hair)
        expect(plan.draws.at(-1)?.runningTotal).toBe(plan.sum)
        for (const draw of plan.draws) {
          expect(draw.gross).toBeLessThanOrEqual(capacity + hair)
          expect(draw.target).toBeLessThanOrEqual(container.workingMass + hair)
          if (!codes(plan).some((code) => code === 'draw-below-scale-minimum')) {
            expect(draw.target).toBeGreaterThanOrEqual(small - hair)
          }
        }
        expect((plan.draws.length - 1) * plan.largestDraw).toBeLessThan(plan.sum)
        if (plan.draws.length > 1) {
          split += 1
          const targets = plan.draws.map((draw) => draw.target)
          expect(new Set(targets.slice(0, -1)).size).toBe(1)
          expect(targets.at(-1)).toBeLessThanOrEqual(targets[0]! + hair)
        }
      }),
      { seed: 6, numRuns: 2000 },
    )
    expect(split).toBeGreaterThan(500) // most of them were really split
  })

  test('typical error: three readings of 0.5 and 0.2887 g, and 0.4 g of rounding', () => {
    const plan = planDraws({ mass: 6.0004, scale: KITCHEN, container: bowl(0.5, 2.2) })
    expect(grams(plan)).toEqual([2000, 2000, 2000])
    expect(plan.typicalError).toBeCloseTo(Math.sqrt(0.4 ** 2 + 3 * (0.25 + 1 / 12)) / 1000, 9)
    expect(readingSpread(KITCHEN)).toBeCloseTo(Math.sqrt(0.25 + 1 / 12) / 1000, 12)
  })

  test('numbers in the findings, and a container that fits exactly', () => {
    const coarse = planDraws({ mass: 0.04, scale: KITCHEN, container: bowl(0.1, 1) }).findings[0]
    expect(coarse?.values.share).toBeCloseTo(0.0125, 12)
    const small = planDraws({ mass: 0.012, scale: KITCHEN, container: bowl(0.1, 1) }).findings[0]
    expect(small?.values).toMatchObject({ mass: 0.012, minimum: 0.02 })
    expect(
      codes(planDraws({ mass: 0.05, scale: { ...KITCHEN, tareLimit: 0.5 }, container: bowl(0.5, 1) })),
    ).toEqual([])
    // 5 kg less 4.985 kg is 15 g, less than 20 g
    expect(codes(planDraws({ mass: 1, scale: KITCHEN, container: bowl(4.985, 2) }))).toEqual([
      'container-too-heavy-for-scale',
    ])
  })

  test('of scales alike in all else the finer is taken', () => {
    const fine = { ...KITCHEN, name: 'fine', division: 0.0005 }
    expect(chooseScale({ mass: 1, container: bowl(0.5, 2) }, [KITCHEN, fine]).chosen.scale.name).toBe('fine')
  })

  test('a scale that only warns goes before one that stops; error just over 1 % is told', () => {
    const tiny: Scale = { name: 'tiny', capacity: 0.05, division: 0.0001 } // the bowl is heavier than its capacity
    const choice = chooseScale({ mass: 0.03, container: bowl(0.1, 1) }, [tiny, KITCHEN]) // 0.5 / 30 is 1.7 %
    expect(choice.plans.map((plan) => [plan.scale.name, plan.findings[0]?.severity])).toEqual([
      ['kitchen', 'warn'],
      ['tiny', 'stop'],
    ])
    expect(codes(planDraws({ mass: 0.048, scale: KITCHEN, container: bowl(0.1, 1) }))).toEqual([
      'scale-too-coarse',
    ]) // 1.04 %
  })
})

describe('by hand: one plan for several kettles', () => {
  const one = planDraws({ mass: 2.3456, scale: KITCHEN, container: bowl(0.5, 2) })

  test('three times 2000 + 346 g, numbered through', () => {
    // 2346 in two: a round one between 1173 and 2000 is 2000, its rest 346
    const plan = repeatPlan(one, 3)
    expect(grams(one)).toEqual([2000, 346])
    expect(grams(plan)).toEqual([2000, 346, 2000, 346, 2000, 346])
    expect(plan.draws.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6])
    expect(plan.draws.map(({ runningTotal }) => Math.round(runningTotal * 1000))).toEqual([
      2000, 2346, 4346, 4692, 6692, 7038,
    ])
    expect(plan.sum).toBeCloseTo(7.038, 9)
  })

  test('rounding comes three times, reading errors as independent ones', () => {
    const plan = repeatPlan(one, 3)
    expect(plan.roundingError).toBeCloseTo(3 * 0.0004, 9)
    expect(plan.worstError).toBeCloseTo(3 * (0.0004 + 0.001), 9)
    expect(plan.typicalError).toBeCloseTo(Math.hypot(0.0012, readingSpread(KITCHEN) * Math.sqrt(6)), 12)
  })

  test('once is itself', () => expect(repeatPlan(one, 1)).toBe(one))
})

describe('by hand: more draws than anybody counts', () => {
  test('20 kg in a cup for 500 g are forty draws; half a kilogram more is a stop', () => {
    const cup = bowl(0.1, 0.5)
    expect(codes(planDraws({ mass: 20, scale: KITCHEN, container: cup }))).toEqual([])
    const plan = planDraws({ mass: 20.5, scale: KITCHEN, container: cup })
    expect(plan.draws).toHaveLength(41)
    expect(plan.findings).toMatchObject([{ code: 'too-many-draws', severity: 'stop' }])
  })
})

describe('by hand: a division above the amount', () => {
  test('4 g on a scale of 10 g would be left out: a stop, whatever it is', () => {
    const plan = planDraws({ mass: 0.004, scale: BENCH, container: bowl(0.1, 2) })
    expect(plan.draws).toEqual([])
    expect(plan.findings.map(({ code, severity }) => `${severity} ${code}`)).toContain(
      'stop draw-below-scale-minimum',
    )
  })

  test('6 g are one step of it: badly weighed, and warned of', () =>
    expect(
      planDraws({ mass: 0.006, scale: BENCH, container: bowl(0.1, 2) }).findings.map(
        ({ severity }) => severity,
      ),
    ).not.toContain('stop'))
})

describe('by hand: weighings that are just at a limit', () => {
  // in quarters of a kilogram every sum is exact: 20 divisions are 5 kg
  const QUARTERS: Scale = { name: 'quarters', capacity: 64, division: 0.25, repeatability: 0 }
  const of = (mass: number, container: Container, scale = QUARTERS, errorLimit = 1) =>
    codes(planDraws({ mass, scale, container, errorLimit }))

  test('a container that leaves just the least weighing is light enough, one that holds just that is large enough', () => {
    expect(of(5, bowl(59, 9))).toEqual([])
    expect(of(5, bowl(59.25, 9))).toEqual(['container-too-heavy-for-scale'])
    expect(of(5, bowl(1, 5))).toEqual([])
    expect(of(5, bowl(1, 4.75))).toEqual(['container-too-small-for-scale'])
  })

  test('the least weighing is enough, a division less is not', () => {
    expect(of(5, bowl(1, 20))).toEqual([])
    expect(of(4.75, bowl(1, 20))).toEqual(['draw-below-scale-minimum'])
    // 100 divisions, 80 at the most in one: of 50 to 80 it is 50 that is roundest
    expect(
      planDraws({ mass: 25, scale: QUARTERS, container: bowl(1, 20) }).draws.map(({ target }) => target),
    ).toEqual([12.5, 12.5])
  })

  test('an error of just the limit is allowed: an eighth of a kilogram of eight', () => {
    expect(of(8, bowl(1, 20), QUARTERS, 1 / 64)).toEqual([])
    expect(of(8, bowl(1, 20), QUARTERS, 1 / 64 - 1e-9)).toEqual(['scale-too-coarse'])
  })

  test('nothing to weigh is below what a scale is good for, and stops nothing', () => {
    const none = planDraws({ mass: 0, scale: QUARTERS, container: bowl(1, 20) })
    expect(none).toMatchObject({ draws: [], sum: 0, worstError: 0, typicalError: 0 })
    expect(none.findings).toMatchObject([{ code: 'draw-below-scale-minimum', severity: 'warn' }])
  })

  test('one division is drawn, half of one is rounded up to it, less is not drawn', () => {
    const targets = (mass: number) =>
      planDraws({ mass, scale: QUARTERS, container: bowl(1, 20) }).draws.map(({ target }) => target)
    expect(targets(0.25)).toEqual([0.25])
    expect(targets(0.125)).toEqual([0.25])
    expect(targets(0.12)).toEqual([])
  })

  test('a mass that rounds to nothing is told once, as a stop', () => {
    const lost = planDraws({ mass: 0.12, scale: QUARTERS, container: bowl(1, 20), alkali: true })
    expect(lost.findings).toMatchObject([
      { code: 'draw-below-scale-minimum', severity: 'stop', values: { mass: 0, minimum: 5 } },
    ])
  })

  test('a scale that cannot take the container comes last, however small it is', () => {
    const small: Scale = { ...QUARTERS, name: 'small', capacity: 8 }
    const { plans } = chooseScale({ mass: 20, container: bowl(7, 20), errorLimit: 1 }, [small, QUARTERS])
    expect(plans.map(({ scale }) => scale.name)).toEqual(['quarters', 'small'])
    expect(plans[1]?.findings[0]).toMatchObject({
      code: 'container-too-heavy-for-scale',
      severity: 'stop',
      values: { emptyMass: 7, workingMass: 20, capacity: 8, minimum: 5 },
    })
  })

  test('of two that stop, the one with fewer draws; one without any comes after it', () => {
    const cup: Scale = { ...QUARTERS, name: 'cup', capacity: 6.5 }
    // 41 draws of 5 kg are a stop, and so is none at all
    const { plans } = chooseScale({ mass: 205, container: bowl(1.5, 20), errorLimit: 1 }, [
      { ...cup, capacity: 6 },
      cup,
    ])
    expect(plans.map(({ draws }) => draws.length)).toEqual([41, 0])
  })

  test('round targets: 5, 2 or 1 of the largest power that fits between', () => {
    const split = (mass: number, working: number) =>
      grams(planDraws({ mass, scale: KITCHEN, container: bowl(0.5, working) }))
    expect(split(1.1, 0.7)).toEqual([600, 500]) // 550 to 700: 500 is too small, 600 is three times 200, 700 only seven times 100
    expect(split(0.09, 0.05)).toEqual([50, 40])
    expect(split(0.333, 0.12)).toEqual([120, 120, 93]) // 111 to 120: 120 is a whole ten and no whole fifty
    expect(split(0.333, 0.112)).toEqual([112, 112, 109]) // 111 to 112: 112 is even
    expect(split(0.111, 0.0371)).toEqual([37, 37, 37]) // nothing else
  })
})

describe('by hand: quotients that are whole but for their last bit', () => {
  test.each([0.0001, 0.0005, 0.001, 0.005, 0.01])(
    'a least weighing of so many divisions of %d kg is enough',
    (division) => {
      for (let least = 1; least <= 200; least += 1) {
        const mass = Number((least * division).toFixed(6))
        const scale: Scale = { ...KITCHEN, division, minimumWeighing: mass }
        const plan = planDraws({ mass, scale, container: bowl(0.5, 2), errorLimit: 1 })
        expect(codes(plan)).toEqual([])
        expect(plan.draws).toHaveLength(1)
      }
    },
  )
})
