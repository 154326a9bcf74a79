/** Second scales: what they must show, and when they prove nothing. */
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { waterCheck } from '../../src/binder/pot-checks.ts'
import { contentOf, editedFiles } from '../sites/small-binder.ts'

const scalesWith = (floor: string) => {
  const files = editedFiles(['shop.yaml', 'scales:\n', `scales:\n  floor: ${floor}\n`])
  const batch = bind(contentOf(files)).binder.batches[0]
  if (!batch) throw new Error('no batch')
  return batch
}

describe('by hand: the pail on a second scale', () => {
  test('in steps of 5 g it shows a portion that is missing', () => {
    const { scales, lye } = scalesWith('{ capacity: 30 kg, division: 5 g }')
    const smallest = Math.min(...lye.portions.flatMap(({ masses }) => masses))
    expect(scales.lye?.scale.name).toBe('floor')
    expect((scales.lye?.band.high ?? 0) - (scales.lye?.band.low ?? 0)).toBeLessThan(smallest)
  })

  test('in steps of 200 g a missing portion would pass: it is no check, and none is printed', () =>
    expect(scalesWith('{ capacity: 30 kg, division: 200 g }').scales.lye).toBeUndefined())

  test('steam may take a hundredth of the water, and nothing comes to it', () => {
    const { scales, water, ice, alkalis } = scalesWith('{ capacity: 30 kg, division: 1 g }')
    const all = water.sum + (ice?.sum ?? 0) + alkalis.reduce((sum, { plan }) => sum + plan.sum, 0)
    const steam = (water.sum + (ice?.sum ?? 0)) / 100
    const { low = 0, high = 0 } = scales.lye?.band ?? {}
    expect(all - low - (high - all)).toBeGreaterThan(steam - 0.002)
    expect(all - low - (high - all)).toBeLessThan(steam + 0.003)
  })
})

describe('by hand: water and ice, before any alkali', () => {
  const smallestDraw = ({ water, ice }: ReturnType<typeof scalesWith>): number =>
    Math.min(...[water, ...(ice ? [ice] : [])].flatMap(({ draws }) => draws.map(({ target }) => target)))

  test('in steps of 5 g the scale shows them alone, and a draw that is missing', () => {
    const batch = scalesWith('{ capacity: 30 kg, division: 5 g }')
    const { low = 0, high = 0 } = batch.scales.water?.band ?? {}
    const all = batch.water.sum + (batch.ice?.sum ?? 0)
    expect(low).toBeLessThanOrEqual(all)
    expect(high).toBeGreaterThanOrEqual(all)
    expect(high).toBeLessThan(batch.scales.lye?.band.low ?? 0)
    expect(high).toBeLessThan(low + smallestDraw(batch))
  })

  test('on the scale that the pail stands on, and on none where there is none for it', () => {
    const batch = scalesWith('{ capacity: 30 kg, division: 5 g }')
    expect(batch.scales.water?.scale).toEqual(batch.scales.lye?.scale)
    expect(scalesWith('{ capacity: 30 kg, division: 200 g }').scales.water).toBeUndefined()
  })

  test('where a draw could be missing unseen, there is no such check', () => {
    const batch = scalesWith('{ capacity: 30 kg, division: 5 g }')
    const { scale } = batch.scales.lye ?? {}
    if (!scale) throw new Error('no scale')
    expect(waterCheck(batch, scale)).toBeDefined()
    // a scale whose one step is a whole draw tells nothing of it
    expect(waterCheck(batch, { ...scale, division: smallestDraw(batch) })).toBeUndefined()
  })
})

describe('by hand: the empty kettle', () => {
  test('2 kg, two steps of the scale either way', () => {
    const { gross } = scalesWith('{ capacity: 30 kg, division: 5 g }').scales
    expect(gross?.empty?.low).toBeCloseTo(1.99, 9)
    expect(gross?.empty?.high).toBeCloseTo(2.01, 9)
  })
})
