/** The block of a batch: what is handed to the reckoning of its heat, and what is said of it. */
import { describe, expect, test } from 'vitest'
import { mostHeatAt } from '../../src/batch/block-heat-variants.ts'
import { bind } from '../../src/binder/bind.ts'
import type { BoundBatch } from '../../src/binder/bind-batch.ts'
import { blockHeatPlanner, blockRequest } from '../../src/binder/plan-block-heat.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import { bindAndCompose, contentOf, type Edit, editedFiles } from '../sites/small-binder.ts'

const loaded = (...edits: readonly Edit[]) => contentOf(editedFiles(...edits))
const batchOf = (...edits: readonly Edit[]) => bind(loaded(...edits)).binder.batches[0]!
const heatOf = (...edits: readonly Edit[]) => batchOf(...edits).blockHeat!.heat

const WARM: Edit = ['recipes/plain.yaml', 'pour-temperature: 40 C', 'pour-temperature: 48 C']
const COLD_ROOM: Edit = ['shop.yaml', 'usual-temperature: 18 C', 'usual-temperature: 8 C']
const FOAM: Edit = ['shop.yaml', '\nroom:', '\nblock: { insulation: 4 cm }\nroom:']

const partsOf = (batch: BoundBatch) => ({ ...batch, weighed: batch })

describe('by hand: a block of 180 by 140 by some 170 mm, 4.2 l', () => {
  const plain = heatOf()

  test('energy: the block gets what its alkali sets free, 60 kJ for each mole at most', () => {
    const batch = batchOf()
    const moles = batch.alkalis.reduce((sum, { plan, purity }) => sum + (plan.sum * purity) / 0.039997, 0)
    const { generated } = plain.runs.nominal.energy
    // of what is poured: a hundredth stays in the kettle, and what reacted before the pour is not in it
    expect(generated / (moles * 60e3)).toBeGreaterThan(0.9)
    expect(generated / (moles * 60e3)).toBeLessThan(1)
  })

  test('poured warmer it peaks hotter and sooner', () => {
    const warm = heatOf(WARM)
    expect(warm.peak.nominal).toBeGreaterThan(plain.peak.nominal)
    expect(warm.peakTime.nominal).toBeLessThan(plain.peakTime.nominal)
  })

  test('in a colder room it peaks no hotter', () =>
    expect(heatOf(COLD_ROOM).peak.nominal).toBeLessThan(plain.peak.nominal))

  test('with foam round it, it is hotter, and cut later', () => {
    const foam = heatOf(FOAM)
    const bare = heatOf()
    expect(foam.peak.nominal).toBeGreaterThan(bare.peak.nominal)
    expect(foam.earliestCut.nominal ?? Infinity).toBeGreaterThan(bare.earliestCut.nominal ?? Infinity)
  })

  test('the shop’s own limit decides when it is cut', () => {
    const cooler = heatOf(['shop.yaml', '\nroom:', '\nblock: { cut-below: 30 C }\nroom:'])
    expect(cooler.earliestCut.nominal!).toBeGreaterThan(plain.earliestCut.nominal!)
  })

  test('a single loaf of it stays cooler than the block', () => {
    const { heat, loaf } = batchOf().blockHeat!
    expect(loaf.peak).toBeLessThan(heat.peak.nominal)
  })
})

describe('by hand: reckoned once, and only for what is made', () => {
  test('equal batches share one reckoning', () => {
    const batch = batchOf()
    const planner = blockHeatPlanner()
    const parts = {
      shop: loaded().shop.value,
      mould: batch.mould,
      fill: batch.fill,
      weighed: batch,
      pourTemperature: batch.pourTemperature,
    }
    expect(planner(parts)).toBe(planner({ ...parts }))
    expect(planner({ ...parts, pourTemperature: batch.pourTemperature + 1 })).not.toBe(planner(parts))
  })

  test('a stopped batch has none, and shows no curve', () => {
    const edit: Edit = ['recipes/plain.yaml', 'superfat: 6 %', 'superfat: 1 %']
    expect(batchOf(edit).blockHeat).toBeUndefined()
    const { sheets } = bindAndCompose(loaded(edit))
    expect(
      Object.values(sheets.find(({ kind }) => kind === 'batch')!.blocks).some(
        ({ kind }) => kind === 'figure',
      ),
    ).toBe(false)
  })

  test('the sheet says who is awake when, with both ends', () => {
    const { sheets } = bindAndCompose(loaded())
    const { values } = sheets.find(({ kind }) => kind === 'batch')!
    const { heat, watch } = batchOf().blockHeat!
    expect(values.get('block.watch.from')?.value).toBe(watch.from)
    expect(values.get('block.watch.to')?.value).toBe(watch.to)
    // whole half hours, so that the wall shows the same
    expect([watch.from % 1800, watch.to % 1800]).toEqual([0, 0])
    expect(values.get('block.peakTime.high')?.value).toBe(heat.peakTime.high)
    expect(values.get('block.cut')?.value).toBe(heat.earliestCut.nominal)
  })

  const stepsOf = (...edits: readonly Edit[]): string[] =>
    Object.values(bindAndCompose(loaded(...edits)).sheets.find(({ kind }) => kind === 'batch')!.blocks)
      .flatMap((block) => (block.kind === 'steps' ? block.items : []))
      .map(({ text }) => inlineWords(text))

  const HOT = [WARM, FOAM] as const
  /** less heat than any estimate has it: no history gets too hot */
  const COOL: readonly Edit[] = [
    ['recipes/plain.yaml', 'pour-temperature: 40 C', 'pour-temperature: 20 C'],
    COLD_ROOM,
  ]

  test('nobody stops looking before every history is past its peak and below the limit', () => {
    const { heat, watch, tooHot } = batchOf(...HOT).blockHeat!
    expect(heat.peak.high).toBeGreaterThan(tooHot)
    expect(watch.mayOverheat).toBe(true)
    // whole hours: from ten on a sheet shows no halves
    expect(watch.to % 3600).toBe(0)
    for (const { series, peak, peakTime } of Object.values(heat.runs)) {
      expect(series.filter(({ time, core }) => time >= watch.to && core >= tooHot)).toEqual([])
      if (peak > tooHot) expect(watch.to).toBeGreaterThan(peakTime)
    }
    // in the hour before it one history still is: the hour is no longer than it must be
    const longest = mostHeatAt(
      blockRequest({ shop: loaded(...HOT).shop.value, ...partsOf(batchOf(...HOT)) }),
      'low',
    )
    const all = [...Object.values(heat.runs), longest].flatMap(({ series }) => series)
    expect(all.some(({ time, core }) => time >= watch.to - 3600 - 600 && core >= tooHot)).toBe(true)
  })

  test('the hours of the table of the core agree with it: after the last look none is above the limit', () => {
    const { watch, tooHot } = batchOf(...HOT).blockHeat!
    const { values } = bindAndCompose(loaded(...HOT)).sheets.find(({ kind }) => kind === 'batch')!
    const highs = [2, 4, 6, 8, 12, 24].map((hours) => ({
      at: hours * 3600,
      high: values.get(`block.log.${hours}h.high`)?.value as number,
    }))
    expect(highs.some(({ high }) => high > tooHot)).toBe(true)
    expect(highs.filter(({ at, high }) => at >= watch.to && high >= tooHot)).toEqual([])
  })

  test('a block that stays cool is looked at until the middle and the hottest history are past their peaks', () => {
    const { heat, watch } = batchOf(...COOL).blockHeat!
    expect(watch.mayOverheat).toBe(false)
    expect(watch.to).toBe(
      Math.ceil(Math.max(heat.runs.nominal.peakTime, heat.runs.high.peakTime) / 3600) * 3600,
    )
  })

  test('a block that may get too hot is not let go by chemistry alone: the maker ticks that it was read', () => {
    const stampOf = (...edits: readonly Edit[]) => {
      const { blocks } = bindAndCompose(loaded(...edits)).sheets.find(({ kind }) => kind === 'batch')!
      return blocks.state?.kind === 'stamp' ? blocks.state : undefined
    }
    expect(stampOf(...COOL)).toMatchObject({ heading: { text: 'Go' } })
    expect(stampOf(...COOL)?.ticks).toBeUndefined()
    const hot = stampOf(...HOT)
    expect(hot && inlineWords(hot.heading)).not.toBe('Go')
    expect(hot?.ticks?.map(inlineWords).filter((text) => /The maker has read it/.test(text))).toHaveLength(1)
  })

  test('the cut asks for the hours and the core; without a probe for the latest hours of the estimate', () => {
    const cutStep = (...edits: readonly Edit[]) =>
      stepsOf(...edits).filter((text) => /^Cut between/.test(text))
    const warmer = WARM
    const { heat } = batchOf(warmer).blockHeat!
    expect(heat.earliestCut.high!).toBeLessThan(heat.latestCut.nominal)
    expect(cutStep(warmer)).toHaveLength(1)
    expect(cutStep(warmer)[0]).toMatch(
      /only when the core reads below 40.°C.*; without a probe not before 1.day/,
    )
    // by the slowest history it is too hard before it is cool: hours alone say nothing
    const late = batchOf().blockHeat!.heat
    expect(late.earliestCut.high!).toBeGreaterThan(late.latestCut.nominal)
    expect(cutStep()[0]).toMatch(/only when the core reads below 40.°C.*; without a probe the maker decides/)
  })

  test('a probe stands in the middle of the block: half its height and what is left to the rim', () => {
    const { values } = bindAndCompose(loaded()).sheets.find(({ kind }) => kind === 'batch')!
    const { mould, fill } = batchOf()
    expect(values.get('block.probe.depth')?.value).toBeCloseTo(
      mould.mould.rimAboveBase - fill.pourHeight.nominal / 2,
      9,
    )
  })

  test('who watches and when the sides come off is said once', () => {
    const steps = stepsOf()
    expect(steps.filter((text) => /Every half hour/.test(text))).toHaveLength(1)
    expect(steps.filter((text) => /sides come off|Sides off/.test(text))).toHaveLength(1)
  })

  test('a core that must be as cool as its room within five days: no hours are made up for the cut', () => {
    // what cools towards 20 °C is never below 20 °C
    const steps = stepsOf(
      ['shop.yaml', '\nroom:', '\nblock: { cut-below: 20 C }\nroom:'],
      ['shop.yaml', 'usual-temperature: 18 C', 'usual-temperature: 20 C'],
    )
    expect(steps.filter((text) => /^Cut between/.test(text))).toEqual([])
    expect(steps.filter((text) => /^Do not wait for the core/.test(text))).toHaveLength(1)
  })

  test('foam and lid come off in the order of the clock, and before the sides', () => {
    const block = (rules: string): Edit => ['shop.yaml', '\nroom:', `\nblock: { ${rules} }\nroom:`]
    const offs = (rules: string): string[] =>
      stepsOf(block(rules)).flatMap(
        (text) => /^(Foam off|Lid off|Full gear.*Sides off)/.exec(text)?.[1] ?? [],
      )
    expect(
      offs('insulation: 4 cm, insulation-off: 4 h, lid-off: 6 h').map((text) => text.slice(0, 3)),
    ).toEqual(['Foa', 'Lid', 'Ful'])
    expect(
      offs('insulation: 4 cm, insulation-off: 6 h, lid-off: 4 h').map((text) => text.slice(0, 3)),
    ).toEqual(['Lid', 'Foa', 'Ful'])
    // what would come off after the sides comes off with them
    expect(offs('lid-off: 5 days')).toHaveLength(1)
    expect(batchOf(block('lid-off: 5 days')).findings.map(({ code }) => code)).toContain(
      'lid-off-after-strip',
    )
  })

  test('a lid off early cools, foam off early too', () => {
    const off = (rules: string) =>
      heatOf(['shop.yaml', '\nroom:', `\nblock: { insulation: 4 cm, ${rules} }\nroom:`]).runs.nominal
    const usual = heatOf(FOAM).runs.nominal
    const core = (run: typeof usual) => run.series.find(({ time }) => time >= 12 * 3600)!.core
    expect(core(off('lid-off: 4 h'))).toBeLessThan(core(usual))
    expect(core(off('insulation-off: 4 h'))).toBeLessThan(core(usual))
  })

  test('no blanket is said where there is none, and foam where there is', () => {
    expect(stepsOf().filter((text) => /no blanket/.test(text))).toHaveLength(1)
    expect(stepsOf(FOAM).filter((text) => /no blanket/.test(text))).toEqual([])
    expect(stepsOf(FOAM).filter((text) => /then the insulating foam, 40\smm/.test(text))).toHaveLength(1)
  })

  test('a lid that has no foam on it comes off alone', () => {
    const off = (...edits: readonly Edit[]) =>
      stepsOf(...edits).filter((text) => /off at arm's length, a fan/.test(text))
    expect(off().map((text) => /foam/.test(text))).toEqual([false])
    expect(off(FOAM).map((text) => /lid and insulating foam off/.test(text))).toEqual([true])
  })

  test('the floor of the shop takes the place of the usual 18 h', () => {
    const floored = heatOf(['shop.yaml', '\nroom:', '\nblock: { strip-not-before: 50 h }\nroom:'])
    expect(floored.strip.nominal).toBe(50 * 3600)
    expect(floored.earliestCut.nominal).toBeGreaterThanOrEqual(50 * 3600)
  })

  test('an empty window says its ways out with their hours, and the strip step the sooner one', () => {
    const late: Edit = ['shop.yaml', '\nroom:', '\nblock: { insulation: 6 cm, walls-off: 60 h }\nroom:']
    const batch = batchOf(late)
    expect(batch.findings.map(({ code }) => code)).toContain('cut-window-empty')
    const { values, blocks } = bindAndCompose(loaded(late)).sheets.find(({ kind }) => kind === 'batch')!
    const ahead = blocks['block-ahead']
    const said = ahead?.kind === 'cautions' ? ahead.items.map(inlineWords) : []
    expect(said.filter((text) => /^It gets too hard/.test(text))).toHaveLength(1)
    for (const { way, earliestCut } of batch.blockHeat!.ways)
      expect(values.get(`block.way.${way}.cut`)?.value).toBe(earliestCut)
    expect(batch.blockHeat!.ways.map(({ way }) => way)).toEqual([
      'strip-when-held',
      'no-insulation',
      'shallower-block',
    ])
    expect(values.get('block.held')?.value).toBe(batch.blockHeat!.ways[0]!.strip)
    expect(
      stepsOf(late).filter((text) => /2\sdays 12\sh after the pour are too late/.test(text)),
    ).toHaveLength(1)
  })

  test('the core is logged at six hours, each with what is expected of it', () => {
    const { blocks, values } = bindAndCompose(loaded()).sheets.find(({ kind }) => kind === 'batch')!
    const log = blocks['block-log']
    expect(log?.kind === 'table' && log.rows).toHaveLength(6)
    const { runs } = heatOf()
    const at = [runs.low, runs.nominal, runs.high].map(
      ({ series }) => series.find(({ time }) => time === 4 * 3600)!.core,
    )
    expect(values.get('block.log.4h.low')?.value).toBe(Math.min(...at))
    expect(values.get('block.log.4h.high')?.value).toBe(Math.max(...at))
    expect(stepsOf().filter((text) => /core-temperatures.*after: 2 h, reads: \d+ C/.test(text))).toHaveLength(
      1,
    )
  })

  test('a cooler pour is named by its temperature: 48 °C less 8', () => {
    const { values, blocks } = bindAndCompose(loaded(WARM, FOAM)).sheets.find(({ kind }) => kind === 'batch')!
    const ahead = blocks['block-ahead']
    const said = ahead?.kind === 'cautions' ? ahead.items.map(inlineWords) : []
    expect(said.filter((text) => /^It may get too hot/.test(text))).toHaveLength(1)
    // not among the steps after the pour, where nobody can act on it
    expect(stepsOf(WARM, FOAM).filter((text) => /core reaches/.test(text))).toEqual([])
    expect(values.get('block.remedy.cooler-pour.pour')?.value).toBeCloseTo(273.15 + 48 - 8, 9)
  })
})
