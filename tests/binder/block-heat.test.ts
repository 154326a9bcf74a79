/** The block of a batch: what is handed to the reckoning of its heat, and what is said of it. */
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { blockHeatPlanner } from '../../src/binder/plan-block-heat.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import { bindAndCompose, contentOf, type Edit, editedFiles } from '../sites/small-binder.ts'

const loaded = (...edits: readonly Edit[]) => contentOf(editedFiles(...edits))
const batchOf = (...edits: readonly Edit[]) => bind(loaded(...edits)).binder.batches[0]!
const heatOf = (...edits: readonly Edit[]) => batchOf(...edits).blockHeat!.heat

const WARM: Edit = ['recipes/plain.yaml', 'pour-temperature: 40 C', 'pour-temperature: 48 C']
const COLD_ROOM: Edit = ['shop.yaml', 'usual-temperature: 18 C', 'usual-temperature: 8 C']
const FOAM: Edit = ['shop.yaml', '\nroom:', '\nblock: { insulation: 4 cm }\nroom:']

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
    const foam = heatOf(FOAM, ['shop.yaml', 'insulation: 4 cm', 'insulation: 4 cm, walls-off: 3 days'])
    const bare = heatOf(FOAM, ['shop.yaml', 'insulation: 4 cm', 'insulation: 0 cm, walls-off: 3 days'])
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
    const heat = heatOf()
    expect(values.get('block.peakTime.low')?.value).toBe(heat.peakTime.low)
    expect(values.get('block.peakTime.high')?.value).toBe(heat.peakTime.high)
    expect(values.get('block.cut')?.value).toBe(heat.earliestCut.nominal)
  })

  const stepsOf = (...edits: readonly Edit[]): string[] =>
    Object.values(bindAndCompose(loaded(...edits)).sheets.find(({ kind }) => kind === 'batch')!.blocks)
      .flatMap((block) => (block.kind === 'steps' ? block.items : []))
      .map(({ text }) => inlineWords(text))

  test('who watches and when the sides come off is said once', () => {
    const steps = stepsOf()
    expect(steps.filter((text) => /every half hour/.test(text))).toHaveLength(1)
    expect(steps.filter((text) => /sides come off|Sides off/.test(text))).toHaveLength(1)
  })

  test('a core that must be as cool as its room within five days: no hours are made up for the cut', () => {
    // what cools towards 20 °C is never below 20 °C
    const steps = stepsOf(
      ['shop.yaml', '\nroom:', '\nblock: { cut-below: 20 C }\nroom:'],
      ['shop.yaml', 'usual-temperature: 18 C', 'usual-temperature: 20 C'],
    )
    expect(steps.filter((text) => /^Cut between/.test(text))).toEqual([])
    expect(steps.filter((text) => /^Cut as the push test says/.test(text))).toHaveLength(1)
  })

  test('a cooler pour is named by its temperature: 48 °C less 8', () => {
    const hot = stepsOf(WARM, FOAM)
    const { values } = bindAndCompose(loaded(WARM, FOAM)).sheets.find(({ kind }) => kind === 'batch')!
    expect(hot.filter((text) => /^For the next batch/.test(text))).toHaveLength(1)
    expect(values.get('block.remedy.cooler-pour.pour')?.value).toBeCloseTo(273.15 + 48 - 8, 9)
  })
})
