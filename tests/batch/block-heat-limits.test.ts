/** Limits of a block's heat that are just met: on which side of them the block is then. */
import { describe, expect, test } from 'vitest'
import {
  type BlockHeatRequest,
  blockHeat,
  heatCase,
  nonsense,
  USUAL_RULES,
} from '../../src/batch/block-heat.ts'
import { type HeatCase, runBlock } from '../../src/batch/block-heat-run.ts'
import { cutWindowWays, overheatingRemedies } from '../../src/batch/block-heat-variants.ts'
import { BLOCK, C, HOUR, insulated, reckoned } from './heat-demo.ts'

const codes = (request: BlockHeatRequest): string[] => blockHeat(request).findings.map(({ code }) => code)
const RULES = { ...USUAL_RULES, longest: 60 * HOUR }
/** In a few cells, for limits that do not hang on how fine they are. */
const FEW: BlockHeatRequest = {
  ...BLOCK,
  rules: RULES,
  resolution: { cells: { length: 2, width: 2, height: 3 }, longestStep: 600, reactedInStep: 0.4 },
  every: HOUR,
}

describe('by hand: a block as warm as its room that makes no heat stays as it is', () => {
  const still: HeatCase = {
    ...heatCase(FEW, 'nominal'),
    pour: C + 20,
    reaction: { ...heatCase(FEW, 'nominal').reaction, heat: 0, form: 'all-at-once' },
    rules: { ...RULES, pastPeak: 0, holdsShape: 1, stripNotBefore: 0, longest: 3 * HOUR },
    whole: true,
  }
  const at = (change: Partial<HeatCase>) => runBlock({ ...still, ...change })
  const ruled = (change: Partial<HeatCase['rules']>) => at({ rules: { ...still.rules, ...change } })

  test('so it is hottest at the pour, and not at the end', () => {
    expect(runBlock(still)).toMatchObject({ peak: C + 20, peakTime: 0, end: 3 * HOUR })
    expect(runBlock(still).energy).toEqual({ generated: 0, lost: 0, stored: 0 })
  })

  test('it holds at once: past its peak by nothing, reacted to the whole, and at its gel temperature, not above it', () => {
    expect(runBlock(still).held).toBe(0)
    expect(at({ gel: { low: C, nominal: C + 20, high: C + 30 } }).held).toBe(0)
    expect(at({ gel: { low: C, nominal: C + 19.9, high: C + 30 } }).held).toBeUndefined()
    expect(ruled({ pastPeak: 0.1 }).held).toBeUndefined()
  })

  test('it may be cut where the limit is just its own temperature, and not below it', () => {
    expect(ruled({ cutBelow: C + 20, cutBelowCautious: C + 19.9 })).toMatchObject({
      cut: 0,
      cutCautious: undefined,
    })
    expect(ruled({ cutBelow: C + 19.9, cutBelowCautious: C + 20 })).toMatchObject({
      cut: undefined,
      cutCautious: 0,
    })
  })

  test('the hour before which walls stay on counts from its first second', () => {
    expect(ruled({ stripNotBefore: 5000 }).held).toBe(5000)
    expect(ruled({ stripNotBefore: 3 * HOUR }).held).toBe(3 * HOUR)
  })

  test('all of it has gelled where that takes just its temperature, up to its faces, and nothing where it takes more', () => {
    const { low, nominal, high } = at({ gel: { low: C + 19, nominal: C + 20, high: C + 20.1 } }).gelled
    expect(low.share).toBe(1)
    expect(nominal).toEqual({
      temperature: C + 20,
      share: 1,
      edge: { fromEnd: 0, fromSide: 0, fromTop: 0, fromBase: 0 },
    })
    expect(high).toEqual({ temperature: C + 20.1, share: 0, edge: undefined })
  })
})

describe('by hand: steam', () => {
  // no heat of its own: hottest at the pour, in one cell
  const poured = (celsius: number): BlockHeatRequest => ({
    ...FEW,
    room: C,
    pour: C + celsius,
    reaction: { ...BLOCK.reaction, heat: { low: 0, nominal: 0, high: 0 } },
    resolution: { cells: { length: 1, width: 1, height: 1 }, longestStep: 600, reactedInStep: 0.4 },
    rules: { ...RULES, tooHot: C + 150, longest: 2 * HOUR },
  })

  test('leaves a block above 100 °C, not at 100 °C: one that is there by the middle of the estimate boils', () => {
    const told = (celsius: number) => codes(poured(celsius)).filter((code) => /steam|boils/.test(code))
    expect(told(100)).toEqual([])
    expect(told(100.1)).toEqual(['block-boils'])
  })

  test('a block that makes no heat is no nonsense', () => expect(nonsense(poured(38))).toEqual([]))
})

describe('by hand: what a block cannot be, and what it just can', () => {
  const of = (change: Partial<BlockHeatRequest>): string[] =>
    nonsense({ ...BLOCK, ...change }).map(({ code }) => code)

  test('all of it reacted at trace, all of it water', () => {
    expect(of({ reaction: { ...BLOCK.reaction, started: 1 } })).toEqual(['heat-started-no-share'])
    expect(of({ reaction: { ...BLOCK.reaction, started: 0.999 } })).toEqual([])
    expect(of({ soap: { ...BLOCK.soap, waterShare: 1 } })).toContain('heat-water-no-share')
    expect(of({ soap: { ...BLOCK.soap, waterShare: 0 } })).toContain('heat-water-no-share')
  })

  test('a room just as warm as soap gels in: 63 °C with a quarter of water', () => {
    const soap = { ...BLOCK.soap, waterShare: 0.25 }
    expect(of({ soap, room: C + 63 })).toEqual([])
    expect(of({ soap, room: C + 63.01 })).toEqual(['room-hotter-than-gel'])
  })

  test('no temperature, no resistance, no rate', () => {
    expect(of({ room: 0 })).toEqual(['heat-size-not-positive'])
    expect(of({ pour: 0 })).toEqual(['heat-size-not-positive'])
    expect(of({ reaction: { ...BLOCK.reaction, rate: { low: 0, nominal: 1, high: 2 } } })).toEqual([
      'heat-size-not-positive',
    ])
  })
})

describe('by hand: a limit that is just what was reckoned', () => {
  const heat = reckoned(FEW)
  const hours = (low: number, nominal: number) => ({ ...RULES, latestCut: { low, nominal, high: 1e9 } })
  const { nominal: cut = 0, high: late = 0 } = heat.earliestCut

  test('is not too hot', () => {
    const { nominal, high } = heat.peak
    expect(codes({ ...FEW, rules: { ...RULES, tooHot: nominal } })).not.toContain('block-overheats')
    expect(codes({ ...FEW, rules: { ...RULES, tooHot: nominal - 0.001 } })).toContain('block-overheats')
    expect(codes({ ...FEW, rules: { ...RULES, tooHot: high } })).not.toContain('block-may-overheat')
    expect(codes({ ...FEW, rules: { ...RULES, tooHot: high - 0.001 } })).toContain('block-may-overheat')
  })

  test('is not too late', () => {
    expect(cut).toBeGreaterThan(0)
    expect(codes({ ...FEW, rules: hours(cut, cut) })).not.toContain('cut-window-empty')
    expect(codes({ ...FEW, rules: hours(cut, cut - 1) })).toContain('cut-window-empty')
    expect(late).toBeGreaterThan(cut)
    expect(codes({ ...FEW, rules: hours(late, late) }).filter((one) => one.startsWith('cut-'))).toEqual([])
    expect(codes({ ...FEW, rules: hours(late - 1, late) })).toContain('cut-window-may-be-empty')
  })

  test('a room just as warm as the cut allows is too warm', () => {
    const room = C + 30
    const cold = { ...FEW, room, rules: { ...RULES, cutBelow: room } }
    expect(codes(cold)).toContain('room-warmer-than-cut')
    expect(codes(cold)).not.toContain('core-never-cool')
  })

  test('what comes off the minute that it holds does not come off too early, nor too late', () => {
    const { held = 0 } = heat.runs.nominal
    expect(held).toBe(18 * HOUR)
    const taken = (change: Partial<BlockHeatRequest>) =>
      codes({ ...FEW, ...change }).filter((code) => /before-held|after-strip/.test(code))
    expect(taken({ wallsOff: held })).toEqual([])
    expect(taken({ wallsOff: 'when-held', lidOff: held, insulationOff: held })).toEqual([])
  })

  test('none of the three histories cut: no hour at all', () => {
    expect(reckoned({ ...FEW, room: C + 41 }).earliestCut).toEqual({
      low: undefined,
      nominal: undefined,
      high: undefined,
    })
  })

  test('a remedy that just keeps to the limit is enough, a way that just opens the window, too', () => {
    const hot = insulated(FEW, 0.05)
    for (const [at, { peak, remedy }] of overheatingRemedies(hot).entries()) {
      const same = (tooHot: number) => overheatingRemedies({ ...hot, rules: { ...RULES, tooHot } })[at]
      expect(same(peak)).toMatchObject({ remedy, enough: true })
      expect(same(peak - 0.001)?.enough).toBe(false)
    }
    for (const [at, { earliestCut = 0 }] of cutWindowWays(hot).entries()) {
      const same = (latest: number) => cutWindowWays({ ...hot, rules: hours(latest, latest) })[at]
      expect(same(earliestCut)?.enough).toBe(true)
      expect(same(earliestCut - 1)?.enough).toBe(false)
    }
  })
})

describe('by hand: a part that gels is seen from three hundredths on, and what is missing to the whole, too (estimate)', () => {
  /** Share where the finding begins or ends, found by halving between two waters. */
  const shareAt = (some: number, none: number): number => {
    let [inside, outside] = [some, none]
    const partly = (waterShare: number) => {
      const soap = { ...FEW.soap, waterShare }
      const heat = blockHeat({ ...FEW, soap, room: C + 12, rules: { ...RULES, longest: 9 * HOUR } })
      if (!('runs' in heat)) throw new Error('nonsense')
      return {
        share: heat.gelled.nominal.share,
        told: heat.findings.some(({ code }) => code === 'block-gels-in-part'),
      }
    }
    expect([partly(inside).told, partly(outside).told]).toEqual([true, false])
    for (let halving = 0; halving < 14; halving += 1) {
      const middle = (inside + outside) / 2
      if (partly(middle).told) inside = middle
      else outside = middle
    }
    return partly(inside).share
  }

  test('little of it', () => expect(shareAt(0.19, 0.11)).toBeCloseTo(0.03, 4))
  test('nearly all', () => expect(shareAt(0.19, 0.34)).toBeCloseTo(0.97, 4))
})
