import { describe, expect, test } from 'vitest'
import { assessLift, type Lift, recommendedWeightLimit } from '../../src/batch/lifting.ts'

const IDEAL: Lift = { horizontal: 0.25, vertical: 0.75, travel: 0.25, coupling: 'good' }
const multipliers = (change: Partial<Lift>) => recommendedWeightLimit({ ...IDEAL, ...change }).multipliers
const INCH = 0.0254
const POUND = 0.45359237

/** half of the last digit printed, and a hair for a value that lies exactly on it */
const HALF_DIGIT = 0.005 + 1e-9
const near = (value: number, printed: number): void => {
  expect(Math.abs(value - printed)).toBeLessThanOrEqual(HALF_DIGIT)
}

describe('published: NIOSH 94-110, multiplier tables in centimetres and degrees (from memory)', () => {
  test.each([
    [25, 1.0],
    [28, 0.89],
    [30, 0.83],
    [36, 0.69],
    [40, 0.63],
    [46, 0.54],
    [50, 0.5],
    [56, 0.45],
    [60, 0.42],
    [63, 0.4],
  ])('horizontal %d cm', (h, printed) => near(multipliers({ horizontal: h / 100 }).horizontal, printed))

  test.each([
    [0, 0.78],
    [20, 0.84],
    [50, 0.93],
    [80, 0.99],
    [100, 0.93],
    [130, 0.84],
    [150, 0.78],
    [175, 0.7],
  ])('vertical %d cm', (v, printed) => near(multipliers({ vertical: v / 100 }).vertical, printed))

  test.each([
    [25, 1.0],
    [40, 0.93],
    [55, 0.9],
    [70, 0.88],
    [100, 0.87],
    [175, 0.85], // 130 cm is left out: recalled as 0.86, the formula rounds to 0.85
  ])('distance %d cm', (d, printed) => near(multipliers({ travel: d / 100 }).distance, printed))

  test.each([
    [0, 1.0],
    [30, 0.9],
    [45, 0.86],
    [60, 0.81],
    [90, 0.71],
    [120, 0.62],
    [135, 0.57],
  ])('asymmetry %d degrees', (a, printed) =>
    near(multipliers({ asymmetry: (a * Math.PI) / 180 }).asymmetry, printed),
  )

  test.each([
    ['good', 0.5, 1],
    ['fair', 0.5, 0.95],
    ['fair', 0.75, 1],
    ['poor', 0.5, 0.9],
    ['poor', 1, 0.9],
  ] as const)('coupling %s at %d m', (coupling, vertical, printed) =>
    expect(multipliers({ coupling, vertical }).coupling).toBe(printed),
  )
})

describe('published: NIOSH 94-110, frequency table up to one hour (read in transcription)', () => {
  test.each([
    [0.2, 1.0],
    [0.5, 0.97],
    [1, 0.94],
    [2, 0.91],
    [3, 0.88],
    [4, 0.84],
    [5, 0.8],
    [6, 0.75],
    [7, 0.7],
    [8, 0.6],
    [9, 0.52],
    [10, 0.45],
    [11, 0.41],
    [12, 0.37],
    [13, 0.34],
    [14, 0.31],
    [15, 0.28],
  ])('%d a minute', (liftsPerMinute, printed) =>
    expect(multipliers({ liftsPerMinute }).frequency).toBe(printed),
  )
})

describe('published: worked problems in inches and pounds', () => {
  // the metric form takes 25 cm and 23 kg where the other takes 10 in and 51 lb: 1.6 % and 0.6 % less; printed
  // multipliers are rounded to two digits before they are multiplied, up to 1.2 % more; the slope of VM is 0.003 a cm
  // where 0.0075 an inch is 0.00295, 1 % at 63 in. Together up to 5 %
  const within = (kg: number, pounds: number): void => {
    expect(kg / POUND).toBeLessThan(pounds)
    expect(kg / POUND).toBeGreaterThan(pounds * 0.95)
  }
  const lift = (h: number, v: number, d: number): Lift => ({
    horizontal: h * INCH,
    vertical: v * INCH,
    travel: d * INCH,
    coupling: 'fair',
  })
  test('NIOSH 94-110 example 1, reel to punch press, 16.3 and 14.5 lb (from memory)', () => {
    within(recommendedWeightLimit(lift(23, 15, 48)).limit, 16.3)
    within(recommendedWeightLimit(lift(23, 63, 48)).limit, 14.5)
  })
  test('NIOSH 94-110 example 2, supply rolls, 28.0 and 18.1 lb (from memory)', () => {
    within(recommendedWeightLimit({ ...lift(15, 27, 17), coupling: 'poor' }).limit, 28.0)
    within(recommendedWeightLimit({ ...lift(20, 10, 17), coupling: 'poor' }).limit, 18.1)
  })
  test('NIOSH 94-110 example 3, bags into a hopper, 18.9 lb at the start, turned by 45° (from memory)', () => {
    within(recommendedWeightLimit({ ...lift(18, 15, 21), asymmetry: Math.PI / 4 }).limit, 18.9)
  })
  test('boxes between conveyors, 18.4 lb before the frequency (read, a worked answer)', () => {
    within(recommendedWeightLimit(lift(20, 6, 16)).limit, 18.4)
  })
})

describe('published: HSE L23 as quoted for railway work, 20 kg each is around 26.6 kg together (read)', () => {
  test('two thirds of the sum', () => {
    const result = assessLift({
      name: 'sleeper',
      mass: 25,
      from: { horizontal: 0.25, vertical: 0.75 },
      to: { horizontal: 0.25, vertical: 0.75 },
      coupling: 'good',
      hotOrCaustic: true,
      shopLimit: 20,
      people: 2,
    })
    // printed as 26.6 though two thirds of 40 is 26.67: cut off, not rounded
    expect(Math.floor(result.allowedTogether * 10) / 10).toBe(26.6)
  })
})

const POT = {
  name: 'pot',
  mass: 9,
  from: { horizontal: 0.3, vertical: 0.75 },
  to: { horizontal: 0.4, vertical: 1.3 },
  coupling: 'poor',
  hotOrCaustic: true,
} as const

describe('by hand: lifts', () => {
  test('the ideal lift is the constant itself', () => {
    expect(recommendedWeightLimit(IDEAL).limit).toBe(23)
    expect(recommendedWeightLimit({ ...IDEAL, horizontal: 0.1, travel: 0 }).limit).toBe(23)
  })

  test('a pot held 40 cm out at 130 cm, lifted from 75 cm by its rim, is about 10 kg', () => {
    // 23 · 0.625 · 0.835 · (0.82 + 0.045/0.55 = 0.90182) · 0.9 = 9.742
    expect(assessLift(POT).recommended).toBeCloseTo(9.742, 3)
    expect(assessLift(POT).recommended).toBe(assessLift(POT).atEnd.limit)
    // start: 23 · 0.8333 · 1 · 0.90182 · 0.9 = 15.556
    expect(assessLift(POT).atStart.limit).toBeCloseTo(15.556, 3)
  })

  test('outside the range there is no limit to recommend', () => {
    for (const change of [
      { horizontal: 0.64 },
      { vertical: 1.76 },
      { vertical: -0.01 },
      { travel: 1.76 },
      { asymmetry: 2.4 }, // 137.5°
      { liftsPerMinute: 15.1 },
      { liftsPerMinute: 13, vertical: 0.7 },
    ]) {
      expect(recommendedWeightLimit({ ...IDEAL, ...change }).limit).toBe(0)
    }
    const far = assessLift({ ...POT, to: { horizontal: 0.7, vertical: 1 } })
    expect(far.liftingIndex).toBeUndefined()
    expect(far.findings[0]).toMatchObject({ code: 'lift-out-of-reach', severity: 'stop' })
  })

  test('shop limit, two people, too heavy for two', () => {
    const easy = {
      ...POT,
      to: { horizontal: 0.25, vertical: 0.75 },
      from: { horizontal: 0.25, vertical: 0.75 },
      coupling: 'good' as const,
    }
    expect(assessLift({ ...easy, mass: 10 })).toMatchObject({
      allowedAlone: 10,
      peopleNeeded: 1,
      findings: [],
    })
    const two = assessLift({ ...easy, mass: 13 })
    expect(two.allowedTogether).toBeCloseTo(13.333, 3)
    expect(two.findings[0]).toMatchObject({ code: 'lift-needs-two', severity: 'stop' })
    expect(assessLift({ ...easy, mass: 13, people: 2 }).findings[0]).toMatchObject({
      code: 'lift-by-two',
      severity: 'warn',
    })
    expect(assessLift({ ...easy, mass: 13.4, people: 2 }).findings[0]?.code).toBe('lift-too-heavy-for-two')
    expect(assessLift({ ...easy, mass: 13, hotOrCaustic: false })).toMatchObject({
      allowedAlone: 23,
      peopleNeeded: 1,
    })
    expect(assessLift({ ...easy, mass: 11.5, hotOrCaustic: false }).liftingIndex).toBe(0.5)
  })

  test('between two tabulated rates the next one counts', () => {
    for (const [rate, printed] of [
      [0.21, 0.97],
      [0.51, 0.94],
      [9.5, 0.45],
      [10.5, 0.41],
      [11.5, 0.37],
      [12.5, 0.34],
      [13.5, 0.31],
    ] as const) {
      expect(multipliers({ liftsPerMinute: rate }).frequency).toBe(printed)
    }
    expect(multipliers({ liftsPerMinute: 12, vertical: 0.7 }).frequency).toBe(0.37)
  })

  test('a frequency given for the job counts at both ends', () => {
    const rare = assessLift(POT)
    const often = assessLift({ ...POT, liftsPerMinute: 5 })
    expect(often.recommended).toBeCloseTo(0.8 * rare.recommended, 9)
  })

  test('severities: too heavy for two stops, two for a cold load only warns', () => {
    expect(assessLift({ ...POT, mass: 30 }).findings[0]).toMatchObject({ severity: 'stop' })
    const cold = assessLift({ ...POT, mass: 12, hotOrCaustic: false }) // 9.742 alone, 12.99 together
    expect(cold.findings[0]).toMatchObject({ code: 'lift-needs-two', severity: 'warn' })
  })
})

describe('by hand: loads that are just at a limit', () => {
  const easy = {
    ...POT,
    to: { horizontal: 0.25, vertical: 0.75 },
    from: { horizontal: 0.25, vertical: 0.75 },
    coupling: 'good' as const,
  }

  test('alone up to 10 kg, together up to two thirds of 20 kg', () => {
    expect(assessLift({ ...easy, mass: 10 }).peopleNeeded).toBe(1)
    expect(assessLift({ ...easy, mass: 10.001 }).peopleNeeded).toBe(2)
    const { allowedTogether } = assessLift(easy)
    expect(allowedTogether).toBeCloseTo(40 / 3, 12)
    expect(assessLift({ ...easy, mass: allowedTogether, people: 2 }).peopleNeeded).toBe(2)
    expect(assessLift({ ...easy, mass: allowedTogether + 1e-6, people: 2 }).peopleNeeded).toBeUndefined()
  })

  test('where no limit can be recommended nobody lifts, two people neither', () => {
    const far = assessLift({ ...easy, to: { horizontal: 0.64, vertical: 0.75 }, people: 2 })
    expect(far).toMatchObject({
      recommended: 0,
      allowedAlone: 0,
      allowedTogether: 0,
      peopleNeeded: undefined,
    })
    expect(far.findings.map(({ code }) => code)).toEqual(['lift-out-of-reach'])
  })

  test('a way down is as long as a way up', () => {
    const up = assessLift({ ...easy, to: { horizontal: 0.25, vertical: 1.15 } })
    const down = assessLift({ ...easy, from: { horizontal: 0.25, vertical: 1.15 } })
    // 0.82 + 0.045/0.4
    expect(up.atStart.multipliers.distance).toBeCloseTo(0.9325, 12)
    expect(down.atStart.multipliers.distance).toBeCloseTo(0.9325, 12)
  })
})

describe('by hand: ends of the tables', () => {
  test.each([
    ['horizontal', { horizontal: 0.63 }, { horizontal: 0.631 }],
    ['vertical', { vertical: 1.75 }, { vertical: 1.751 }],
    ['travel', { travel: 1.75 }, { travel: 1.751 }],
    ['asymmetry', { asymmetry: (134.99 * Math.PI) / 180 }, { asymmetry: (135.1 * Math.PI) / 180 }],
    ['frequency', { liftsPerMinute: 15 }, { liftsPerMinute: 15.01 }],
    ['frequency, low', { liftsPerMinute: 12, vertical: 0.74 }, { liftsPerMinute: 12.01, vertical: 0.74 }],
  ])('%s', (_, inside, outside) => {
    expect(recommendedWeightLimit({ ...IDEAL, ...inside }).limit).toBeGreaterThan(0)
    expect(recommendedWeightLimit({ ...IDEAL, ...outside }).limit).toBe(0)
  })

  test('just above 0.75 m hands are high, just below it they are low', () => {
    expect(multipliers({ liftsPerMinute: 13, vertical: 0.751 }).frequency).toBe(0.34)
    expect(multipliers({ liftsPerMinute: 13, vertical: 0.749 }).frequency).toBe(0)
    expect(multipliers({ coupling: 'fair', vertical: 0.751 }).coupling).toBe(1)
    expect(multipliers({ coupling: 'fair', vertical: 0.749 }).coupling).toBe(0.95)
  })

  test('a rate a hair above one of the table takes the next one', () => {
    const table = [
      1, 0.97, 0.94, 0.91, 0.88, 0.84, 0.8, 0.75, 0.7, 0.6, 0.52, 0.45, 0.41, 0.37, 0.34, 0.31, 0.28,
    ]
    const rates = [0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15]
    for (const [at, rate] of rates.entries())
      expect(multipliers({ liftsPerMinute: rate * 1.001 }).frequency).toBe(table[at + 1] ?? 0)
  })
})
