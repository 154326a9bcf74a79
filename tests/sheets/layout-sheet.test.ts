/** What the saw plan of the demo says: that every part and cut is on it, that what is fitted later is over size, and how its rows are told. */
import { beforeAll, describe, expect, test } from 'vitest'
import { isFitted } from '../../src/fixtures/fitted-parts.ts'
import type { PlanCut } from '../../src/sheet-stock/saw-plan.ts'
import { cutRows } from '../../src/sheets/layout/cut-table.ts'
import { hundredths } from '../../src/sheets/layout/stock.ts'
import type { Sheet, Table } from '../../src/sheets/model.ts'
import { cutLater } from '../../src/sheets/mould/steps.ts'
import { type Binder, composeEdited, sheetOf } from '../sites/edited-demo.ts'
import { saidOf } from './rows.ts'

const LAYOUT = 'layout/first-set'
const MOULD = 'layout.part.five-by-three.mould.'
let binder: Binder
let sheet: Sheet
beforeAll(async () => {
  binder = await composeEdited({})
  sheet = sheetOf(binder, LAYOUT)
}, 120_000)

const tables = (name: RegExp): Table[] =>
  Object.entries(sheet.blocks).flatMap(([key, block]) =>
    name.test(key) && block.kind === 'table' ? [block] : [],
  )
const value = (name: string, of = sheet) => Number(of.values.get(name)?.value)

describe('by hand: nothing is left out', () => {
  test('parts are as many as the cut lists of the build sheets say, hardware left out', () => {
    const counts = (of: Sheet, name: RegExp): number =>
      [...of.values.values()]
        .filter((one) => name.test(one.name))
        .reduce((sum, one) => sum + Number(one.value), 0)
    const here = counts(sheet, /^layout\.part\..*\.count$/)
    const builds = ['fixture', 'grid-cutter', 'bar-cutter', 'trial-frame'].map((kind) =>
      sheetOf(binder, `${kind}/five-by-three`),
    )
    // hardware has a count, too, but no thickness
    const there = builds.reduce(
      (sum, of) =>
        sum +
        [...of.values.values()]
          .filter(({ name }) => /^part\..*\.thickness$/.test(name))
          .reduce((all, { name }) => all + value(name.replace('.thickness', '.count'), of), 0),
      0,
    )
    expect(here).toBe(there)
    expect(here).toBeGreaterThan(40)
  })

  test('cut tables have every cut once, in order', () => {
    for (const [index, table] of tables(/^cuts-/).entries()) {
      const numbers = table.rows.flatMap((row) => {
        const text = saidOf({ kind: 'table', columns: table.columns, rows: [row.slice(0, 1)] })
        const found = [...text.matchAll(/\d+/g)].map(([number]) => Number(number))
        const [first = 0, last = first] = found.slice(-2)
        return found.length > 1
          ? Array.from({ length: last - first + 1 }, (_, step) => first + step)
          : [first]
      })
      expect(numbers, String(index)).toEqual(numbers.map((_, step) => step + 1))
    }
  })

  test('each cut has a circle on the drawing', () => {
    for (const [index, table] of tables(/^cuts-/).entries()) {
      const figure = Object.entries(sheet.blocks).filter(([key]) => /^drawing-/.test(key))[index]?.[1]
      const svg = figure?.kind === 'figure' ? figure.svg : ''
      const drawn = [...svg.matchAll(/class="note-text value"[^>]*>(\d+)</g)].map((match) => Number(match[1]))
      expect(Math.max(...drawn)).toBe(drawn.length)
      expect(new Set(drawn).size).toBe(drawn.length)
      expect(table.rows.length).toBeLessThanOrEqual(drawn.length)
    }
  })
})

describe('by hand: at the head and on the drawing', () => {
  test('every letter of the table stands on its drawing', () => {
    for (const [index, table] of tables(/^cuts-/).entries()) {
      const figure = Object.entries(sheet.blocks).filter(([key]) => /^drawing-/.test(key))[index]?.[1]
      const svg = figure?.kind === 'figure' ? figure.svg : ''
      const asked = table.rows.flatMap((row) =>
        [
          ...saidOf({ kind: 'table', columns: table.columns, rows: [row.slice(1, 2)] }).matchAll(
            /\b[A-Z]\b/g,
          ),
        ].map(([letter]) => letter),
      )
      for (const letter of asked) expect(svg, `${index} ${letter}`).toMatch(new RegExp(`>${letter}<`))
    }
  })

  test('boards to buy are listed with their price, those of the shop without', () => {
    const said = saidOf(sheet.blocks.boards)
    // content/materials/panels.yaml: 1525 x 760 mm of birch-18 for 55 USD; 30 x 16 in stand in the shop
    expect(said).toMatch(/birch-18.*Board 2.*55\.00/)
    expect(said.split('\n').find((row) => row.includes('762'))).not.toMatch(/\d\.00/)
  })

  test('the straightedge is as long as the longest cut along it: the trim of 1525 mm', () =>
    expect(value('layout.limit.guide')).toBeCloseTo(1.525, 9))
})

describe('by hand: what is fitted later', () => {
  test('is what the cut list of the mould gives a step instead of a box', () => {
    const keys = ['side', 'end', 'base-top', 'rail', 'strip', 'lid', 'lining', 'cleat', 'set-up-gauge']
    for (const key of [...keys, 'groove-strip-short', 'groove-strip-long', 'edge-bar-short'])
      expect(isFitted(key), key).toBe(cutLater(key) !== undefined)
  })

  test('is sawn 6 mm larger each way than its build sheet lists it, and the plan says so', () => {
    const mould = sheetOf(binder, 'fixture/five-by-three')
    for (const key of ['base-top', 'rail'])
      for (const side of ['length', 'width'])
        expect(value(`layout.part.five-by-three.mould.${key}.${side}.exact`)).toBeCloseTo(
          value(`part.${key}.${side}`, mould) + 0.006,
          9,
        )
    expect(value('layout.part.five-by-three.mould.side.length.exact')).toBeCloseTo(
      value('part.side.length', mould),
      9,
    )
    expect(saidOf(sheet.blocks.parts)).toMatch(/Base top.*over size, until step 7/)
  })

  test('plastics have the size of their sheet, come last, and are not cut on the day', () => {
    expect(value('layout.part.five-by-three.mould.lining.length.exact')).toBeCloseTo(
      value('part.lining.length', sheetOf(binder, 'fixture/five-by-three')),
      9,
    )
    expect(
      saidOf(sheet.blocks.day)
        .split('\n')
        .map((row) => row.endsWith('| later')),
    ).toEqual([false, false, false, true, true])
    expect(saidOf(sheet.blocks['later-4'])).toContain('None of it is cut on the day')
    expect(saidOf(sheet.blocks['later-1'])).toBe('')
  })
})

describe('by hand: rows', () => {
  const cut = (number: number, more: Partial<PlanCut> = {}): PlanCut => ({
    number,
    kind: 'rip',
    piece: number,
    from: 'near',
    distance: 0.1,
    length: 1,
    kept: 0,
    tool: 'fence',
    cautions: [],
    sameSetting: number > 1,
    ...more,
  })
  const told = (...cuts: readonly PlanCut[]): number[][] =>
    cutRows(cuts.map((one) => ({ cuts: [one] }))).map(({ steps }) =>
      steps.flatMap((step) => step.cuts.map(({ number }) => number)),
    )

  test('one setting on one piece after the other is one row', () =>
    expect(told(cut(1), cut(2), cut(3))).toEqual([[1, 2, 3]]))

  test('another edge, another caution, another size begins a new one', () => {
    expect(told(cut(1), cut(2, { from: 'far' }), cut(3, { from: 'far' }))).toEqual([[1], [2, 3]])
    expect(told(cut(1), cut(2, { cautions: ['thin'] }))).toEqual([[1], [2]])
    expect(told(cut(1), cut(2, { distance: 0.2, sameSetting: false }))).toEqual([[1], [2]])
    // what is guided is marked anew on each piece
    expect(told(cut(1, { tool: 'guide' }), cut(2, { tool: 'guide', sameSetting: false }))).toEqual([[1], [2]])
  })
})

describe('by hand: offcuts as they are typed in', () => {
  test('are never larger than they are, in eighths of an inch', () => {
    const sizes = [...sheet.values.values()].filter(({ name }) =>
      /\.offcut\.\d+\.typed\.(length|width)$/.test(name),
    )
    expect(sizes.length).toBeGreaterThan(4)
    for (const { name, value: size } of sizes) {
      const drawn = [...sheet.values.values()].find(
        (one) =>
          one.name.startsWith(`drawing.board.${name.split('.')[1]}.`) &&
          one.name.endsWith(`.${name.replace(/^layout\.[^.]+\./, '').replace('.typed', '')}`),
      )
      expect(Number(size)).toBeLessThanOrEqual(Number(drawn?.value))
      expect(Number(size)).toBeGreaterThan(Number(drawn?.value) - 0.0254 / 8)
      expect((Number(size) / 0.0254) * 8).toBeCloseTo(Math.round((Number(size) / 0.0254) * 8), 6)
    }
  })
})

describe('by hand: what does not stand is not sawn', () => {
  test('a mould that is stopped takes its parts off the plan', async () => {
    expect([...sheet.values.keys()].some((name) => name.startsWith(MOULD))).toBe(true)
    const stopped = await composeEdited({
      'fixtures/five-by-three.yaml': [['depth: 1/4 in', 'depth: 5/8 in']],
    })
    const names = stopped.sheets.flatMap(({ values }) => [...values.keys()])
    expect(names.some((name) => name.startsWith(MOULD))).toBe(false)
  }, 60_000)
})

describe('by hand: shares in whole hundredths', () => {
  test('28.4, 59.3 and 12.3 % are 28, 59 and 12, which is 99: the one that is missing goes to the largest remainder', () =>
    expect(hundredths([0.284, 0.593, 0.123])).toEqual([0.29, 0.59, 0.12]))

  test('whole ones stay', () => expect(hundredths([0.5, 0.3, 0.2])).toEqual([0.5, 0.3, 0.2]))
})
