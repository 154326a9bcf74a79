import { describe, expect, test } from 'vitest'
import { type BlockHeatRequest, heatCase } from '../../src/batch/block-heat.ts'
import { runBlock } from '../../src/batch/block-heat-run.ts'
import { type CoreReading, calibrateRate } from '../../src/batch/heat-calibration.ts'
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

describe('by hand: logs that tell nothing', () => {
  test('a core that never changed is not matched', () => {
    const flat = Array.from({ length: 15 }, (_, i) => ({ time: i * HOUR, temperature: C + 60 }))
    expect(codes(calibrateRate(BLOCK, flat))).toEqual(['heat-log-not-matched'])
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
