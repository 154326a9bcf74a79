import { describe, expect, test } from 'vitest'
import { type BlockHeatRequest, USUAL_RESOLUTION, USUAL_RULES } from '../../src/batch/block-heat.ts'
import {
  belowBoiling,
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

describe('by hand: what keeps a block below the boiling point', () => {
  const peakOf = (request: BlockHeatRequest): number => reckoned(request).peak.nominal
  /** What was found, applied, with the pour and the height somewhat more than that. */
  const changed = (request: BlockHeatRequest, warmer = 0, higher = 1): BlockHeatRequest => {
    const enough = belowBoiling(request)
    if (!enough) throw new Error('nothing is enough')
    const { bare, pour, height = request.block.height } = enough
    return {
      ...request,
      pour: pour + warmer,
      block: { ...request.block, height: height * higher },
      ...(bare ? { insulationOff: 0 } : {}),
    }
  }

  test('a block that loses nothing: 100 °C less what its own heat warms it by', () => {
    const wall = { layers: [{ resistance: 1e9 }], film: 1 }
    const closed: BlockHeatRequest = {
      ...BLOCK,
      coverings: { end: wall, side: wall, top: wall, base: wall },
      pour: C + 75,
      reaction: {
        ...BLOCK.reaction,
        // 102 000 J/kg of which 0.03 was given off before: 98 940 J/kg over 2550 J/(kg K) is 38.8 K
        heat: { low: 102_000, nominal: 102_000, high: 102_000 },
      },
    }
    const enough = belowBoiling(closed)
    // 61.2 °C, less half a kelvin for rounding, found to a quarter
    expect((enough?.pour ?? 0) - C).toBeGreaterThan(60.4)
    expect((enough?.pour ?? 0) - C).toBeLessThan(60.75)
    expect(enough).toMatchObject({ bare: false, height: undefined })
  })

  test('by the pour alone where that is enough, foam and height as planned', () => {
    const hot = { ...BLOCK, pour: C + 75 }
    expect(belowBoiling(hot)).toMatchObject({ bare: false, height: undefined })
    expect(peakOf(changed(hot))).toBeLessThanOrEqual(C + 100)
    expect(peakOf(changed(hot, 2))).toBeGreaterThan(C + 100)
    // what it says of itself
    const { nominal, high } = reckoned(changed(hot)).peak
    expect(belowBoiling(hot)).toMatchObject({ peak: nominal, high, maySteam: high > C + 100 })
  })

  test('without foam, and poured as planned where that is enough', () => {
    const hot = insulated({ ...BLOCK, room: C + 20, pour: C + 48.7 }, 0.08)
    expect(peakOf(hot)).toBeGreaterThan(C + 100)
    expect(belowBoiling(hot)).toMatchObject({ bare: true, pour: hot.pour, height: undefined })
    expect(peakOf(changed(hot))).toBeLessThanOrEqual(C + 100)
  })

  test('without foam and cooler, as warm as that bears', () => {
    const hot = insulated({ ...BLOCK, pour: C + 75 }, 0.08)
    expect(peakOf({ ...hot, insulationOff: 0 })).toBeGreaterThan(C + 100)
    expect(belowBoiling(hot)).toMatchObject({ bare: true, height: undefined })
    expect(peakOf(changed(hot))).toBeLessThanOrEqual(C + 100)
    expect(peakOf(changed(hot, 2))).toBeGreaterThan(C + 100)
  })

  test('lower, too, where all of that is not; nothing where a fifth of the height boils still', () => {
    const heat = { low: 150_000, nominal: 190_000, high: 200_000 }
    const hot = insulated({ ...BLOCK, room: C + 35, reaction: { ...BLOCK.reaction, heat } }, 0.03)
    expect(belowBoiling(hot)).toMatchObject({ bare: true, pour: C + 35 })
    expect(peakOf(changed(hot))).toBeLessThanOrEqual(C + 100)
    expect(peakOf(changed(hot, 0, 1.15))).toBeGreaterThan(C + 100)
    const more = { low: 300_000, nominal: 320_000, high: 340_000 }
    expect(belowBoiling({ ...hot, reaction: { ...BLOCK.reaction, heat: more } })).toBeUndefined()
  })
})

describe('by hand: ways out of an empty window', () => {
  const rules = { ...USUAL_RULES, stripNotBefore: 0 }
  const named = (request: BlockHeatRequest) => cutWindowWays(request).map(({ way }) => way)

  test('stripping, no foam and a shallower block each open it earlier', () => {
    const late = insulated({ ...BLOCK, rules, wallsOff: 70 * HOUR }, 0.08)
    const [stripped, bare, shallow] = cutWindowWays(late)
    const planned = reckoned(late).earliestCut.nominal ?? 0
    expect(planned).toBeGreaterThanOrEqual(70 * HOUR)
    for (const way of [stripped, bare, shallow]) expect(way?.earliestCut).toBeLessThan(planned - HOUR)
    expect(bare?.earliestCut).toBeLessThan((stripped?.earliestCut ?? 0) - HOUR)
    expect(shallow?.earliestCut).toBeLessThan((stripped?.earliestCut ?? 0) - HOUR)
    expect(stripped?.strip).toBe(reckoned(late).runs.nominal.held)
    // two thirds of 216 mm
    expect(shallow?.setting).toBeCloseTo(0.144, 9)
  })

  test('only ways that can be taken are offered, and told apart from enough', () => {
    expect(named({ ...BLOCK, wallsOff: 'when-held' })).toEqual(['shallower-block'])
    expect(named(BLOCK)).toEqual(['strip-when-held', 'shallower-block'])
    const enough = (hours: number) => {
      const latestCut = { low: HOUR, nominal: hours * HOUR, high: 99 * HOUR }
      return cutWindowWays({ ...BLOCK, rules: { ...rules, latestCut } }).map((way) => way.enough)
    }
    expect(enough(48)).toEqual([true, true])
    expect(enough(5)).toEqual([false, false])
  })
})

describe('by hand: bounds of the form of the rate', () => {
  test('all at once is hottest at the pour, first order before the usual form', () => {
    const fine = { ...BLOCK, resolution: USUAL_RESOLUTION }
    const [first, whole] = [boundByForm(fine, 'first-order'), boundByForm(fine, 'all-at-once')]
    const usual = reckoned(BLOCK).runs.nominal
    const { heat, started } = { heat: BLOCK.reaction.heat.nominal, started: BLOCK.reaction.started }
    expect(whole.peakTime).toBe(0)
    // 38 °C + Q (1 − x₀)/c, which no other form can pass
    expect(whole.peak).toBeCloseTo(C + 38 + (heat * (1 - started)) / 2550, 6)
    expect(first.peakTime).toBeLessThan(usual.peakTime)
    // of coarse cells, as the watch is reckoned, its hour is the same to a quarter
    expect(Math.abs(boundByForm(BLOCK, 'first-order').peakTime - first.peakTime)).toBeLessThanOrEqual(900)
    expect(first.peak).toBeGreaterThan(usual.peak)
    expect(first.peak).toBeLessThan(whole.peak + 1.5)
  })
})
