import { describe, expect, test } from 'vitest'
import { USUAL_RULES } from '../../src/batch/block-heat.ts'
import {
  boundByForm,
  cutWindowWays,
  LOAF,
  loafOf,
  overheatingRemedies,
} from '../../src/batch/block-heat-variants.ts'
import { BLOCK, C, HOUR, insulated, reckoned } from './heat-demo.ts'

describe('by hand: a loaf of the same soap', () => {
  const loaf = loafOf(BLOCK)

  test('is 250 by 90 by 75 mm in 12 mm boards without a lid', () => {
    expect(loaf.block).toEqual(LOAF)
    expect(LOAF).toEqual({ length: 0.25, width: 0.09, height: 0.075 })
    expect(loaf.coverings.top.layers).toEqual([])
    expect(loafOf({ ...BLOCK, wallsOff: 'when-held', lidOff: 5 })).toEqual(loaf)
  })

  test('has a colder core than the block and gels less', () => {
    const [small, large] = [reckoned(loaf), reckoned(BLOCK)]
    expect(small.peak.nominal).toBeLessThan(large.peak.nominal - 20)
    expect(small.peak.high).toBeLessThan(large.peak.high)
    expect(small.gelled.nominal.share).toBeLessThan(large.gelled.nominal.share)
  })
})

describe('by hand: remedies for too much heat', () => {
  const hot = insulated(BLOCK, 0.05)

  test('each alone lowers the peak', () => {
    const { peak } = reckoned(hot)
    const remedies = overheatingRemedies({ ...hot, rules: { ...USUAL_RULES, tooHot: peak.nominal - 0.1 } })
    expect(remedies.map(({ remedy }) => remedy)).toEqual(['no-insulation', 'cooler-pour', 'shallower-block'])
    for (const remedy of remedies) expect(remedy.peak).toBeLessThan(peak.nominal)
    expect(remedies.every(({ enough }) => enough)).toBe(true)
    expect(remedies[1]?.setting).toBeCloseTo(C + 30, 9)
    expect(remedies[2]?.setting).toBeCloseTo(0.144, 9)
  })

  test('are told apart from enough, and only offered where they can be taken', () => {
    const strict = { ...BLOCK, room: BLOCK.pour, rules: { ...USUAL_RULES, tooHot: C + 40 } }
    const remedies = overheatingRemedies(strict)
    expect(remedies.map(({ remedy }) => remedy)).toEqual(['shallower-block'])
    expect(remedies[0]?.enough).toBe(false)
  })
})

describe('by hand: ways out of an empty window', () => {
  test('stripping and a shallower block both open it earlier', () => {
    const [planned, stripped, shallow] = cutWindowWays(BLOCK)
    expect(planned?.earliestCut).toBe(reckoned(BLOCK).earliestCut.nominal)
    expect(stripped?.earliestCut).toBeLessThan((planned?.earliestCut ?? 0) - HOUR)
    expect(shallow?.earliestCut).toBeLessThan((planned?.earliestCut ?? 0) - HOUR)
    expect(stripped?.strip).toBe(planned?.strip)
  })
})

describe('by hand: bounds of the form of the rate', () => {
  test('all at once is hottest at the pour, first order before the usual form', () => {
    const bounds = boundByForm(BLOCK)
    const usual = reckoned(BLOCK).runs.nominal
    const { heat, started } = { heat: BLOCK.reaction.heat.nominal, started: BLOCK.reaction.started }
    expect(bounds['all-at-once'].peakTime).toBe(0)
    // 38 °C + Q (1 − x₀)/c, which no other form can pass
    expect(bounds['all-at-once'].peak).toBeCloseTo(C + 38 + (heat * (1 - started)) / 2550, 6)
    expect(bounds['first-order'].peakTime).toBeLessThan(usual.peakTime)
    expect(bounds['first-order'].peak).toBeGreaterThan(usual.peak)
    expect(bounds['first-order'].peak).toBeLessThan(bounds['all-at-once'].peak + 1.5)
  })
})
