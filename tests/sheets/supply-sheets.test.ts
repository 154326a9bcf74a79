/** Shopping, stock and cost on paper, and the lots on the batch sheet: what a reader adds up, by hand. */
import { beforeAll, describe, expect, it } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { binderSheets } from '../../src/sheets/binder-sheets.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet, Table } from '../../src/sheets/model.ts'
import { loadSolver } from '../../src/solver/solver.ts'
import type { Solve } from '../../src/supply/programme.ts'
import { contentOf, type Edit, editedFiles, frame } from '../sites/small-binder.ts'
import { plain, rowsOf } from './rows.ts'

const PACKS = `
suppliers:
  mill: { name: The mill, delivery: 5.00 EUR, lead-time: 10 days }
  corner: { name: The corner }
packs:
  olive-3: { material: olive, supplier: mill, amount: 3 kg, price: 21.00 EUR }
  coconut-1: { material: coconut, supplier: mill, amount: 1 kg, price: 6.00 EUR }
  beads-1: { material: beads, supplier: corner, amount: 1 kg, price: 4.00 EUR }
`
const LEDGER = `entries:
  - { date: 2027-01-02, received: O-1, material: olive, amount: 1 kg, price: 6.00 EUR, best-before: 2027-06-30 }
  - { date: 2027-01-02, received: O-0, material: olive, amount: 500 g, price: 3.00 EUR, best-before: 2027-01-31 }
  - { date: 2027-01-03, received: C-1, material: coconut, amount: 300 g, from: A friend }
`

let solve: Solve
beforeAll(async () => {
  solve = await loadSolver()
})

const sheetsOf = (...edits: readonly Edit[]): readonly Sheet[] => {
  const files = editedFiles(
    ['shop.yaml', 'language: en\n', 'language: en\ncurrency: EUR\n'],
    ['materials/all.yaml', '\npanels:', `${PACKS}\npanels:`],
    ...edits,
  )
  files.set('stock/2027.yaml', LEDGER)
  const { binder } = bind(contentOf(files), {}, solve)
  return binderSheets(frame, binder, 'first-angle').sheets
}

const sheet = (all: readonly Sheet[], id: string): Sheet => {
  const found = all.find((one) => one.id === id)
  if (!found) throw new Error(`no sheet ${id}`)
  return found
}
const tables = ({ blocks }: Sheet): Table[] =>
  Object.values(blocks).filter((block): block is Table => block.kind === 'table')
const text = (shown: string | undefined): number => Number((shown ?? '').replace(/[^\d.]/g, ''))

describe('by hand: the shopping list on paper', () => {
  it('adds up: packs times price is each line, lines and delivery are what is to pay, all of it the total', () => {
    const list = sheet(sheetsOf(), 'supply/shopping')
    let all = 0
    for (const table of tables(list)) {
      const rows = rowsOf({ ...table, foot: [] })
      const foot = rowsOf({ ...table, rows: table.foot ?? [], foot: [] })
      let sum = 0
      for (const [, , packs, , price, cost] of rows) {
        expect(text(cost)).toBeCloseTo(text(packs) * text(price), 9)
        sum += text(cost)
      }
      for (const [, what, , , , cost] of foot.slice(0, -1)) {
        expect(what).toBe('Delivery')
        sum += text(cost)
      }
      expect(text(foot.at(-1)?.[5])).toBeCloseTo(sum, 9)
      all += sum
    }
    expect(tables(list).length).toBe(2)
    expect(list.values.get('shopping.total')?.value).toBeCloseTo(all, 9)
  })

  it('says by when to write to the mill: ten days before 1 February', () => {
    const [mill] = tables(sheet(sheetsOf(), 'supply/shopping'))
    expect(plain(inlineWords(mill?.caption ?? { text: '', fill: {} }))).toBe(
      'The mill: order by Fri 22 Jan; first needed on Mon 1 Feb. Ordered on: ______________',
    )
  })

  it('tells the terminal what cannot be bought in time, with the batch and its line', () => {
    const late = sheet(
      sheetsOf(['materials/all.yaml', 'lead-time: 10 days', 'lead-time: 40 days']),
      'supply/shopping',
    )
    expect(late.conflicts?.map(({ code, place }) => [code, place])).toEqual([
      ['packs-not-enough', 'batches/2027-02-01-plain.yaml:3'],
      ['packs-not-enough', 'batches/2027-02-01-plain.yaml:3'],
    ])
    expect(sheet(sheetsOf(), 'supply/shopping').conflicts).toEqual([])
  })
})

describe('by hand: lots on the batch sheet', () => {
  it('names the lot to open, how much of it, and what is missing, expired or not', () => {
    const { blocks } = sheet(sheetsOf(), 'batch/2027-02-01-plain')
    const [first] = rowsOf(blocks.lots as Table)
    expect(first?.slice(1, 4).map(plain)).toEqual(['Olive oil', 'O-1', '1 000 g'])
    const missing = blocks['lots-short']
    if (missing?.kind !== 'cautions') throw new Error('no caution')
    const said = missing.items.map(inlineWords)
    // half a kilogram of it ends on 31 January, the day before
    expect(said[0]).toMatch(
      /^Olive oil: .* missing; there are 500.g that must be used by 31.Jan.2027, before the pour\.$/,
    )
    expect(said.some((one) => /^Coconut oil: \d+.g missing\.$/.test(one))).toBe(true)
  })

  it('says nothing of lots where no stock is kept', () => {
    const { binder } = bind(contentOf(editedFiles()), {}, solve)
    const { blocks } = sheet(binderSheets(frame, binder, 'first-angle').sheets, 'batch/2027-02-01-plain')
    expect(blocks.lots).toMatchObject({ kind: 'cautions', items: [] })
  })
})

describe('by hand: stock on paper', () => {
  it('is in the order in which lots are opened, with what is promised and what it is worth', () => {
    const rows = rowsOf(tables(sheet(sheetsOf(), 'supply/stock'))[0] as Table).filter(([, lot]) => lot !== '')
    // by name of the material, and of the oil what ends first
    expect(rows.map(([, lot]) => lot)).toEqual(['C-1', 'O-0', 'O-1'])
    // 6.00 for the kilogram, 3.00 for the half; the friend asked for nothing
    expect(rows.map((row) => row[8])).toEqual(['no price', '3.00', '6.00'])
    const [, , open] = rows
    expect(text(open?.[7])).toBe(1000)
  })
})

describe('by hand: a stopped batch', () => {
  it('stands on no list: not to buy, not promised, not priced', () => {
    const sheets = sheetsOf(['recipes/plain.yaml', 'superfat: 6 %', 'superfat: -3 %'])
    const list = sheet(sheets, 'supply/shopping')
    expect(tables(list)).toEqual([])
    expect(list.values.get('shopping.total')).toBeUndefined()
    expect(
      [...sheet(sheets, 'supply/stock').values.keys()].filter((name) => /promised|reserved/.test(name)),
    ).toEqual([])
    expect(sheets.map(({ id }) => id)).not.toContain('supply/cost')
  })
})

describe('by hand: cost on paper', () => {
  it('every column adds up to its bar, and what the losses take to what the materials cost', () => {
    const cost = sheet(sheetsOf(), 'supply/cost')
    const [lines, losses] = [cost.blocks['cost-1'] as Table, cost.blocks['loss-1'] as Table]
    const bar = text(rowsOf({ ...lines, rows: lines.foot ?? [], foot: [] })[0]?.[1])
    const sum = rowsOf({ ...lines, foot: [] }).reduce((all, [, amount]) => all + text(amount), 0)
    expect(sum).toBeCloseTo(bar, 9)
    const lost = rowsOf(losses).reduce((all, [, amount]) => all + text(amount?.split('(')[0]), 0)
    // nothing is wrapped and no hour counted: all of a bar is material
    expect(lost).toBeCloseTo(bar, 9)
  })

  it('names the coconut that came without a price', () => {
    const open = sheet(sheetsOf(), 'supply/cost').blocks.open
    if (open?.kind !== 'cautions') throw new Error('no notice')
    expect(open.items.map(inlineWords)).toEqual([
      'Plain bar (4.1): nobody has written down a price of Coconut oil.',
    ])
  })
})
