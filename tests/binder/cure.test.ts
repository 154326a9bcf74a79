/** Bars of a batch from its file to their log: what is expected, what was weighed, what cannot be. */
import { describe, expect, test } from 'vitest'
import { waterSum } from '../../src/binder/weigh-out.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import { printedTasks } from '../../src/sheets/cure/tasks.ts'
import {
  bindAndCompose,
  contentOf,
  editedFiles,
  longerFile,
  smallBinderFiles,
} from '../sites/small-binder.ts'

const FILE = 'batches/2027-02-01-plain.yaml'
const made = (more: string) => {
  const { binder, sheets } = bindAndCompose(contentOf(longerFile(FILE, more)))
  return { cure: binder.cures[0]!, sheet: sheets.find(({ id }) => id === 'cure/2027-02-01-plain')! }
}
/** A bar of 100 g that dries to 90 g, half of it in a week: 90 + 10 · 2^(−d/7), from day 2 on. */
const falling = (days: readonly number[]): string => {
  const day = (d: number): string => `2027-02-${String(1 + d).padStart(2, '0')}`
  const list = days.map((d) => `{ date: ${day(d)}, weight: ${(90 + 10 * 2 ** (-(d - 2) / 7)).toFixed(1)} g }`)
  return `weigh-ins: [${list.join(', ')}]\n`
}

describe('by hand: bars of 60 by 70 by 25 mm, not yet weighed', () => {
  const { cure, sheet } = made('')

  test('one bar is 105 cm3 of set soap: of what was poured, over the area and the set height', () => {
    const { fill } = cure.batch
    expect(cure.barMass).toBeCloseTo((fill.pouredMass / (fill.area * fill.setHeight.nominal)) * 105e-6, 9)
    // about 1.05 kg/l
    expect(cure.barMass).toBeGreaterThan(0.1)
    expect(cure.barMass).toBeLessThan(0.118)
  })

  test('the days of the log are dates: poured 1 February, day 28 is 1 March', () =>
    expect(cure.plan.find(({ days }) => days === 28)?.date).toBe('2027-03-01'))

  test('expected weights fall, and never below the bar without its water', () => {
    const lows = cure.plan.map(({ low }) => low)
    expect([...lows].sort((a, b) => b - a)).toEqual(lows)
    expect(lows[lows.length - 1]).toBeGreaterThan(cure.barMass * 0.7)
  })

  test('says that it is an estimate', () => {
    expect(cure.drying).toBeUndefined()
    expect(cure.findings.map(({ code }) => code)).toEqual(['drying-estimated'])
    expect(sheet.values.get('cure.green')?.value).toBeCloseTo(cure.barMass, 12)
  })
})

describe('by hand: five weigh-ins of a bar that halves its way to 90 g every week', () => {
  const { cure, sheet } = made(`label-weight: 93 g\n${falling([2, 5, 9, 16, 23])}`)

  test('ends at 90 g: by what was weighed no bar keeps a label of 93 g, though it weighs more for two weeks', () => {
    expect(cure.weightOn(10).middle).toBeGreaterThan(0.093)
    expect(cure.label.from).toBeUndefined()
    expect(cure.findings.map(({ code }) => code)).toContain('label-above-dry-bars')
    expect(printedTasks(cure).some(({ task }) => task === 'label')).toBe(false)
  })

  test('a label of 85 g is kept: labelled on the first day of the shop, 42 days after the pour', () => {
    const light = made(`label-weight: 85 g\n${falling([2, 5, 9, 16, 23])}`).cure
    expect(light.label.from).toBe(42)
    expect(light.label.leastOn(42)).toBeGreaterThanOrEqual(0.085)
    expect(printedTasks(light).find(({ task }) => task === 'label')?.at.date).toBe('2027-03-15')
  })

  test('what was weighed stands in the log, and only later days are blank', () => {
    const log = sheet.blocks.log
    if (log?.kind !== 'table') throw new Error('no log')
    expect(log.rows.filter((row) => row.at(-3)?.kind === 'value')).toHaveLength(5)
    expect(log.rows.filter((row) => row.at(-3)?.kind === 'blank')).toHaveLength(
      cure.plan.filter(({ days }) => days > 23).length,
    )
  })

  test('nothing of the estimate is said any more', () =>
    expect(cure.findings.map(({ code }) => code)).not.toContain('drying-estimated'))
})

describe('by hand: weigh-ins that cannot be', () => {
  test.each([
    ['weigh-in-before-pour', 'weigh-ins: [{ date: 2027-01-30, weight: 100 g }]\n'],
    [
      'weigh-ins-out-of-order',
      'weigh-ins: [{ date: 2027-02-10, weight: 100 g }, { date: 2027-02-05, weight: 99 g }]\n',
    ],
    ['bars-below-label', 'label-weight: 300 g\n'],
  ])('%s: a stop page with its line, never a curve', (code, more) => {
    const { sheet } = made(more)
    expect(sheet.stopped?.map((one) => one.code)).toContain(code)
    expect(sheet.stopped?.[0]?.place).toMatch(/2027-02-01-plain\.yaml:6$/)
    expect(Object.values(sheet.blocks).some((block) => block.kind === 'figure')).toBe(false)
  })

  test('a bar that gains is told, and the curve goes on', () => {
    const { cure } = made(falling([2, 5, 9, 16]).replace(']', ', { date: 2027-02-20, weight: 99 g }]'))
    expect(cure.findings.map(({ code }) => code)).toContain('weigh-in-gains')
  })

  test('three are too few for a curve', () =>
    expect(made(falling([2, 5, 9])).cure.findings.map(({ code }) => code)).toEqual([
      'weigh-ins-too-few',
      'drying-estimated',
    ]))

  test('a stopped batch has no log', () => {
    const files = editedFiles(['recipes/plain.yaml', 'superfat: 6 %', 'superfat: 1 %'])
    expect(bindAndCompose(contentOf(files)).binder.cures).toEqual([])
  })

  test('words of the stop page are in the reader’s units', () => {
    const { sheet } = made('label-weight: 300 g\n')
    const stamp = sheet.blocks.stop
    expect(stamp?.kind === 'stamp' && inlineWords(stamp.items[0]!)).toMatch(/300\s?g of their label/)
  })
})

describe('by hand: lye from the bottle', () => {
  test('a stock lye of 48 % brings 52 % of its weight as water: bars dry as those of dry alkali in as much water', () => {
    const files = smallBinderFiles()
    const materials = 'materials/all.yaml'
    files.set(
      materials,
      `${files.get(materials)}\nstock-lyes:\n  half: { name: Half, kind: NaOH, strength: 48 %, strength-range: { from: 47.5 %, to: 48.5 % } }\n`,
    )
    const dry = bindAndCompose(contentOf(files)).binder.cures[0]!
    files.set(FILE, files.get(FILE)!.replace('water-temperature: 8 C, ice: 40 %', 'stock: half'))
    const stock = bindAndCompose(contentOf(files)).binder.cures[0]!
    // less is weighed, as much is in the bar
    expect(stock.batch.water.sum).toBeLessThan(dry.batch.water.sum)
    expect(waterSum(stock.batch) / stock.batch.fill.batterMass).toBeCloseTo(
      waterSum(dry.batch) / dry.batch.fill.batterMass,
      2,
    )
    expect(stock.weightOn(28).middle).toBeCloseTo(dry.weightOn(28).middle, 3)
  })
})
