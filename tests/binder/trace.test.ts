/** A lot through stock lye, trim and a second batch, as a maker's folder says it; and stock after a batch was typed in. */
import { describe, expect, it } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { lookUp } from '../../src/binder/recall-lookup.ts'
import { batchCode } from '../../src/labelling/batch-code.ts'
import { contentOf, editedFiles } from '../sites/small-binder.ts'

const LEDGER = `entries:
  - { date: 2027-01-02, received: O-1, material: olive, amount: 20 kg, from: The mill }
  - { date: 2027-01-02, received: C-1, material: coconut, amount: 5 kg }
  - { date: 2027-01-02, received: N-1, material: beads, amount: 3 kg, from: Tallgate }
  - { date: 2027-01-02, received: N-2, material: beads, amount: 1 kg }
  - { date: 2027-01-10, made: HH-1, material: half, amount: 2 kg, of: [{ lot: N-1, amount: 1 kg }] }
  - { date: 2027-02-03, made: T-1, material: trim, amount: 300 g, batch: 2027-02-01-plain }
  - { date: 2027-02-20, lost: N-1, amount: 50 g, why: damp }
  - { date: 2027-02-28, counted: N-1, amount: 1.9 kg }
`
const FIRST = `made:
  used: [{ lot: O-1, amount: 2 kg }, { lot: C-1, amount: 500 g }, { lot: HH-1, amount: 700 g }]
  bars: { cut: 36, tests: 5, rejected: 1 }
  stands: rack 1
  went:
    - { date: 2027-03-20, bars: 10, to: Green market }
    - { date: 2027-03-27, bars: 4, to: Corner store }
`
/** Rebatched with the trim of the first, on which nobody wrote what left. */
const SECOND = `recipe: plain
mould: small
date: 2027-02-15
fill: to the line
lye: { water-temperature: 8 C, ice: 40 % }
made:
  used: [{ lot: O-1, amount: 1.5 kg }, { lot: N-2, amount: 250 g }, { lot: T-1, amount: 300 g }]
  bars: { cut: 30, tests: 5 }
`

const bound = (first = FIRST, second = SECOND) => {
  const files = editedFiles(
    [
      'materials/all.yaml',
      '\npanels:',
      '\nstock-lyes:\n  half: { name: Half lye, kind: NaOH, strength: 50 % }\nadditives:\n  trim: { name: Trim of plain soap }\npanels:',
    ],
    [
      'batches/2027-02-01-plain.yaml',
      'lye: { water-temperature: 8 C, ice: 40 % }\n',
      `lye: { water-temperature: 8 C, ice: 40 % }\n${first}`,
    ],
  )
  files.set('stock/2027.yaml', LEDGER)
  files.set('batches/2027-02-15-plain.yaml', second)
  const { binder, diagnostics } = bind(contentOf(files))
  expect(diagnostics).toEqual([])
  return binder
}

const recalled = (binder: ReturnType<typeof bound>, name: string) => {
  const looked = lookUp(binder, name)
  if (!('found' in looked)) throw new Error(`nothing called ${name}`)
  return looked.found.holders
}

describe('by hand: a recall of a lot of alkali', () => {
  it('goes through the stock lye into the first batch, and with its trim into the second', () => {
    const { batches, lots, bars, made, sold, kept, unrecorded } = recalled(bound(), 'N-1')
    expect(batches).toEqual([
      { name: '2027-02-01-plain', way: ['N-1', 'HH-1', '2027-02-01-plain'] },
      { name: '2027-02-15-plain', way: ['N-1', 'HH-1', '2027-02-01-plain', 'T-1', '2027-02-15-plain'] },
    ])
    expect(lots.map(({ name }) => name)).toEqual(['HH-1', 'T-1'])
    // 36 − 5 − 1 = 30 of which 14 left; 30 − 5 = 25 of which nobody wrote down how many
    expect(bars).toEqual([
      { batch: '2027-02-01-plain', made: 30, sold: 14, kept: 16 },
      { batch: '2027-02-15-plain', made: 25, sold: undefined, kept: undefined },
    ])
    expect([made, sold, kept]).toEqual([55, 14, 16])
    expect(unrecorded).toEqual(['2027-02-15-plain'])
  })

  it('leaves out what another lot went into', () => {
    const { batches } = recalled(bound(), 'N-2')
    expect(batches.map(({ name }) => name)).toEqual(['2027-02-15-plain'])
  })

  it('goes back from the second batch to every lot, the alkali of the stock lye among them', () => {
    const found = bound().trace.batches.find(({ key }) => key === '2027-02-15-plain')
    expect(found?.sources.lots.map(({ name }) => name)).toEqual(['N-2', 'O-1', 'T-1', 'C-1', 'HH-1', 'N-1'])
    expect(found?.sources.batches.map(({ name }) => name)).toEqual(['2027-02-01-plain'])
  })

  it('calls a batch back by its name and by the code on its wrapper', () => {
    const binder = bound()
    const names = (name: string) => recalled(binder, name).batches.map((one) => one.name)
    expect(names('2027-02-01-plain')).toEqual(['2027-02-01-plain', '2027-02-15-plain'])
    const code = batchCode('2027-02-15', 'PL')
    if (!code.ok) throw new Error('no code')
    expect(names(code.batch.code.toLowerCase())).toEqual(['2027-02-15-plain'])
    expect(names('n-1')).toEqual(['2027-02-01-plain', '2027-02-15-plain'])
  })

  it('suggests what is spelled alike, and tells a code of a day without a batch', () => {
    const binder = bound()
    expect(lookUp(binder, 'HH-2')).toMatchObject({ near: 'HH-1' })
    expect(lookUp(binder, 'quite another')).toMatchObject({ near: undefined })
    const other = batchCode('2027-02-16', 'PL')
    expect(lookUp(binder, other.ok ? other.batch.code : '')).toMatchObject({
      date: '2027-02-16',
      batches: [],
    })
  })

  it('finds nothing of a lot that nothing used', () => {
    const idle = bound(FIRST.replace('{ lot: C-1, amount: 500 g }, ', ''))
    expect(recalled(idle, 'C-1')).toMatchObject({ batches: [], lots: [], made: 0, sold: 0 })
  })
})

describe('by hand: stock after a batch was typed in', () => {
  it('has bought = used + lost + left for every lot', () => {
    const { ledger } = bound().stock
    for (const { lot, bought, used, lost, left } of ledger.lots)
      expect(used + lost + left, lot).toBeCloseTo(bought, 9)
    const of = (name: string) => ledger.lots.find(({ lot }) => lot === name)
    // 20 − 2 − 1.5; 2 − 0.7
    expect(of('O-1')?.left).toBeCloseTo(16.5, 9)
    expect(of('HH-1')?.left).toBeCloseTo(1.3, 9)
    // 3 − 1 into the stock lye − 0.05 spilled is 1.95, and 1.9 were counted
    expect(of('N-1')).toMatchObject({ used: 1, lost: 0.1, left: 1.9 })
  })

  it('follows what was typed: a gram more weighed is a gram less left', () => {
    const left = (text: string) =>
      bound(text).stock.ledger.lots.find(({ lot }) => lot === 'O-1')?.left ?? Number.NaN
    expect(left(FIRST.replace('amount: 2 kg', 'amount: 2.001 kg'))).toBeCloseTo(left(FIRST) - 0.001, 9)
  })
})
