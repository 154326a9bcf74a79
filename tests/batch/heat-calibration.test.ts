import { describe, expect, test } from 'vitest'
import { type BlockHeatRequest, heatCase } from '../../src/batch/block-heat.ts'
import { runBlock } from '../../src/batch/block-heat-run.ts'
import {
  type CoreReading,
  calibratedReaction,
  calibrateLog,
  calibrateRate,
} from '../../src/batch/heat-calibration.ts'
import { BLOCK, C, HOUR } from './heat-demo.ts'

/** A log of a block that reacts so much faster and has so much more heat, every hour. */
const logOf = (rate: number, heat = 1, request: BlockHeatRequest = BLOCK): CoreReading[] => {
  const usual = heatCase(request, 'nominal')
  const { series } = runBlock({
    ...usual,
    reaction: { ...usual.reaction, rate: usual.reaction.rate * rate, heat: usual.reaction.heat * heat },
  })
  return series
    .filter(({ time }) => time % HOUR === 0 && time <= 15 * HOUR)
    .map(({ time, core }) => ({ time, temperature: core }))
}
/** The same at chosen hours, to the end. */
const fullLog = (rate: number, heat: number, ...hours: readonly number[]): CoreReading[] => {
  const usual = heatCase(BLOCK, 'nominal')
  const reaction = {
    ...usual.reaction,
    rate: usual.reaction.rate * rate,
    heat: usual.reaction.heat * heat,
  }
  const { series } = runBlock({ ...usual, reaction, whole: true })
  return series
    .filter(({ time }) => hours.includes(time / HOUR))
    .map(({ time, core }) => ({ time, temperature: core }))
}
const codes = (found: ReturnType<typeof calibrateRate>): string[] => found.findings.map(({ code }) => code)

describe('by hand: the rate that made a log is found again', () => {
  test.each([0.4, 0.8, 1.5, 3])('%d times the rate', (factor) => {
    const found = calibrateRate(BLOCK, logOf(factor))
    expect((found.rateFactor ?? 0) / factor).toBeGreaterThan(0.97)
    expect((found.rateFactor ?? 0) / factor).toBeLessThan(1.03)
    expect(found.residual).toBeLessThan(0.5)
    expect(found.heatFactor).toBe(1)
    expect(found.findings).toEqual([])
  })

  test('one stray reading changes little, and the order does not matter', () => {
    const log = logOf(1.5).toReversed()
    const stray = log.map((reading, i) =>
      i === 12 ? { ...reading, temperature: reading.temperature + 35 } : reading,
    )
    const found = calibrateRate(BLOCK, stray)
    expect((found.rateFactor ?? 0) / 1.5).toBeGreaterThan(0.95)
    expect((found.rateFactor ?? 0) / 1.5).toBeLessThan(1.05)
    expect(found.findings).toEqual([])
  })

  test('heat too, where it is asked for', () => {
    const found = calibrateRate(BLOCK, logOf(1.5, 1.2), 'rate and heat')
    expect(found.heatFactor).toBe(1.2)
    expect((found.rateFactor ?? 0) / 1.5).toBeGreaterThan(0.95)
    expect((found.rateFactor ?? 0) / 1.5).toBeLessThan(1.05)
    // rate alone cannot make up for a fifth of the heat
    expect(calibrateRate(BLOCK, logOf(1.5, 1.2)).residual).toBeGreaterThan(4 * (found.residual ?? Infinity))
  })
})

describe('by hand: a log of a recipe', () => {
  test('heat is fitted where no rate alone matches: at the hours of the sheet’s own table', () => {
    const log = fullLog(1.5, 1.1, 2, 4, 6, 8, 12, 24)
    expect(codes(calibrateRate(BLOCK, log))).toEqual(['heat-log-not-matched'])
    const found = calibrateLog(BLOCK, log)
    expect(codes(found)).toEqual([])
    expect(found.heatFactor).toBe(1.1)
    expect((found.rateFactor ?? 0) / 1.5).toBeCloseTo(1, 1)
  })

  test('and left as it is where a rate does', () => {
    const found = calibrateLog(BLOCK, fullLog(1.5, 1, 2, 4, 6, 8, 12, 24))
    expect(found.heatFactor).toBe(1)
    expect((found.rateFactor ?? 0) / 1.5).toBeCloseTo(1, 1)
  })
})

describe('by hand: bands that logs leave', () => {
  const estimate = {
    rate: { low: 1, nominal: 2, high: 4 },
    heat: { low: 50e3, nominal: 60e3, high: 80e3 },
  }
  const left = (...rates: readonly number[]) =>
    calibratedReaction(
      rates.map((rateFactor) => ({ rateFactor, heatFactor: 1 })),
      estimate,
    )

  test('one log: a third up, a quarter down, and 15 % of the heat', () => {
    // s₀ = ln(4/3)/(2√2); s = s₀ with one log: exp(2 s₀ √2) = 4/3; rate 2 · 1.5 = 3
    const { rate, heat } = left(1.5)
    expect(rate.nominal).toBeCloseTo(3, 12)
    expect(rate.low).toBeCloseTo(3 * 0.75, 12)
    expect(rate.high).toBeCloseTo(4, 12)
    expect(heat).toEqual({
      low: expect.closeTo(51e3, 6),
      nominal: expect.closeTo(60e3, 6),
      high: expect.closeTo(69e3, 6),
    })
  })

  test('their geometric mean: of a half and twice it is the estimate', () => {
    expect(left(0.5, 2).rate.nominal).toBeCloseTo(2, 12)
    const { heat } = calibratedReaction(
      [
        { rateFactor: 1, heatFactor: 0.8 },
        { rateFactor: 1, heatFactor: 1.25 },
      ],
      estimate,
    )
    expect(heat.nominal).toBeCloseTo(60e3, 6)
  })

  test('two that differ by the ratio of four thirds', () => {
    // ln(4/3) = 0.287682, each 0.143841 from the mean: squares sum to 0.041380; s₀² = 0.287682²/8 = 0.010345
    // s² = (3 · 0.010345 + 0.041380)/4 = 0.018104, s = 0.134551; 2 s √1.5 = 0.329581; exp = 1.39039
    const { rate } = left(1, 4 / 3)
    expect(rate.high / rate.nominal).toBeCloseTo(1.39039, 4)
    expect(rate.nominal / rate.low).toBeCloseTo(1.39039, 4)
  })

  test('many that agree leave less than one, those that do not leave more', () => {
    const width = (...rates: readonly number[]) => left(...rates).rate.high / left(...rates).rate.nominal
    expect(width(1, 1, 1, 1, 1)).toBeLessThan(width(1))
    expect(width(1, 1)).toBeLessThan(width(1))
    expect(width(0.5, 1, 2)).toBeGreaterThan(width(1))
  })
})

describe('by hand: logs that tell nothing', () => {
  test('a core that never changed is not matched', () => {
    const flat = Array.from({ length: 15 }, (_, i) => ({ time: i * HOUR, temperature: C + 60 }))
    expect(codes(calibrateRate(BLOCK, flat))).toEqual(['heat-log-not-matched'])
    // another heat does not make it true either
    expect(codes(calibrateLog(BLOCK, flat))).toEqual(['heat-log-not-matched'])
  })

  test('up and down every two hours, which no block does', () => {
    const nonsense = Array.from({ length: 8 }, (_, i) => ({
      time: i * 2 * HOUR,
      temperature: C + (i % 2 === 0 ? 40 : 80),
    }))
    expect(codes(calibrateLog(BLOCK, nonsense))).toEqual(['heat-log-not-matched'])
  })

  test('read only long after it was hot, or only before: any rate would do', () => {
    const at = (...hours: readonly number[]) => fullLog(1.5, 1, ...hours)
    expect(codes(calibrateLog(BLOCK, at(24, 28, 32, 36)))).toEqual(['heat-log-tells-nothing'])
    expect(codes(calibrateLog(BLOCK, at(0, 0.5, 1)))).toEqual(['heat-log-too-short'])
    expect(codes(calibrateLog(BLOCK, at(0, 0.5, 1, 1.5)))).toEqual(['heat-log-tells-nothing'])
    expect(codes(calibrateLog(BLOCK, at(2, 4, 6, 12)))).toEqual([])
  })

  test('colder than its room of 20 °C by more than 5 K cannot be; by less it can', () => {
    const log = (coldest: number) => [...logOf(1.5), { time: 40 * HOUR, temperature: C + coldest }]
    expect(codes(calibrateLog(BLOCK, log(14.9)))).toEqual(['core-colder-than-room'])
    expect(calibrateLog(BLOCK, log(14.9)).rateFactor).toBeUndefined()
    expect(codes(calibrateLog(BLOCK, log(15.1)))).toEqual([])
  })

  test('faster than any rate that is tried', () => {
    expect(codes(calibrateRate(BLOCK, logOf(12)))).toContain('heat-log-beyond-rates')
  })

  test('too few readings, or all at the pour', () => {
    expect(codes(calibrateRate(BLOCK, logOf(1).slice(0, 3)))).toEqual(['heat-log-too-short'])
    expect(codes(calibrateRate(BLOCK, Array(6).fill({ time: 0, temperature: C + 38 })))).toEqual([
      'heat-log-too-short',
    ])
    expect(calibrateRate(BLOCK, []).rateFactor).toBeUndefined()
  })

  test('a block that is nonsense keeps its stops', () => {
    const found = calibrateRate({ ...BLOCK, room: C + 90 }, logOf(1))
    expect(codes(found)).toEqual(['room-hotter-than-gel'])
    expect(found.rateFactor).toBeUndefined()
  })
})

describe('by hand: logs that are just at a limit', () => {
  test('four readings are enough, one of them at the pour; what is no temperature is no reading', () => {
    const four = fullLog(1.5, 1, 0, 2, 4, 6)
    expect(codes(calibrateRate(BLOCK, four))).toEqual([])
    for (const wrong of [
      { time: 4 * HOUR, temperature: 0 },
      { time: -1, temperature: C + 40 },
      { time: Infinity, temperature: C + 40 },
      { time: 4 * HOUR, temperature: Number.NaN },
    ])
      expect(calibrateRate(BLOCK, [...four.slice(0, 3), wrong]).findings).toMatchObject([
        { code: 'heat-log-too-short', values: { logged: 3, leastLogged: 4 } },
      ])
  })

  test('heat is fitted from six readings on, not from five', () => {
    const log = fullLog(1.5, 1.1, 2, 4, 6, 8, 12, 24)
    expect(calibrateLog(BLOCK, log).heatFactor).toBe(1.1)
    expect(codes(calibrateLog(BLOCK, log.slice(0, 5)))).toEqual(codes(calibrateRate(BLOCK, log.slice(0, 5))))
    expect(calibrateLog(BLOCK, log.slice(0, 5)).heatFactor).toBe(1)
  })

  test('just 5 K colder than the room can be, a hundredth more cannot', () => {
    const log = (coldest: number) => [...logOf(1.5).slice(0, 9), { time: 40 * HOUR, temperature: coldest }]
    expect(codes(calibrateLog(BLOCK, log(BLOCK.room - 5)))).not.toContain('core-colder-than-room')
    expect(calibrateLog(BLOCK, log(BLOCK.room - 5.01)).findings).toEqual([
      {
        code: 'core-colder-than-room',
        severity: 'warn',
        values: { temperature: BLOCK.room - 5.01, after: 40 * HOUR, room: BLOCK.room },
      },
    ])
  })

  test.each([
    // a rate within 2 % of a fifth, or of five times, may as well lie beyond it; it is found to a hundredth
    [0.2025, 4, ['heat-log-beyond-rates']],
    [0.205, 4, []],
    [4.93, 0.5, []],
    [5, 0.5, ['heat-log-beyond-rates']],
  ])('%d times the rate, twelve readings %d h apart', (rate, every, wanted) => {
    const hours = Array.from({ length: 13 }, (_, at) => at * every)
    const found = calibrateRate(BLOCK, fullLog(rate, 1, ...hours))
    expect((found.rateFactor ?? 0) / rate).toBeCloseTo(1, 1)
    expect(codes(found)).toEqual(wanted)
  })
})
