/** The record of a batch: blank where nobody has typed, typed where somebody has, and nothing asked twice. */
import { beforeAll, describe, expect, it } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Block, Cell, Sheet, Step, Table } from '../../src/sheets/model.ts'
import { BATCH, type Binder, composeEdited, STATES, sheetOf, WHOLE_DEMO } from '../sites/edited-demo.ts'
import { plain, rowsOf, saidOf } from './rows.ts'

const RECORD = 'record/2027-03-14-hearth'

let blank: Binder
let made: Binder
beforeAll(async () => {
  blank = await composeEdited(STATES.go)
  made = await composeEdited(STATES['a batch that was made, and not as planned'])
})

const table = (sheet: Sheet, name: string): Table => {
  const block = sheet.blocks[name]
  if (block?.kind !== 'table') throw new Error(`no table ${name}`)
  return block
}
const rows = (sheet: Sheet, name: string): string[][] =>
  rowsOf(table(sheet, name)).map((row) => row.map(plain))
const grams = (text: string): number => Number(text.replace(/\D/g, ''))
const cells = (sheet: Sheet): Cell[] =>
  Object.values(sheet.blocks).flatMap((block: Block) => (block.kind === 'table' ? block.rows.flat() : []))
const steps = (sheet: Sheet): { readonly step: Step; readonly number: number }[] =>
  Object.values(sheet.blocks).flatMap((block) =>
    block.kind === 'steps' ? block.items.map((step, at) => ({ step, number: block.first + at })) : [],
  )

describe('by hand: a record that nobody has typed', () => {
  it('is blank all through', () => {
    const sheet = sheetOf(blank, RECORD)
    expect(cells(sheet).filter(({ kind }) => kind === 'typed')).toEqual([])
    expect(sheet.conflicts).toBeUndefined()
    expect(sheet.blocks.findings).toMatchObject({ items: [] })
  })

  it('plans the weights of the batch sheet, each with a box, a lot, and two people', () => {
    const planned = rows(sheetOf(blank, RECORD), 'weights').map(([what, mass]) => [what, mass])
    const weighed = rows(sheetOf(blank, BATCH), 'weights').map(([what, , mass]) => [what, mass])
    // the alkali has its purity there
    expect(planned.map(([, mass]) => mass)).toEqual(weighed.map(([, mass]) => mass))
    expect(planned.slice(0, 7)).toEqual(weighed.slice(0, 7))
    const oils = table(sheetOf(blank, RECORD), 'weights').rows.slice(0, 5)
    for (const row of oils)
      expect(row.slice(2).map(({ kind }) => kind)).toEqual(['box', 'blank', 'empty', 'empty', 'empty'])
  })

  it('sends the reader to the very step at which each reading is written, and has no line for it', () => {
    const sheet = sheetOf(blank, BATCH)
    const found = rows(sheetOf(blank, RECORD), 'readings').map((row) => row[3] ?? '')
    expect(found.length).toBeGreaterThan(14)
    const asking = new Set(
      steps(sheet).flatMap(({ step, number }) =>
        step.blanks?.some(({ reading }) => reading !== undefined) ? [number] : [],
      ),
    )
    const sent = found.map((text) => /^4\.1, step (\d+)$/.exec(text)?.[1])
    expect(new Set(sent.map(Number))).toEqual(asking)
    expect(cells(sheetOf(blank, RECORD)).filter(({ kind }) => kind === 'blank')).toHaveLength(
      // a weight for each of 8 materials, and two of the batter
      10,
    )
  })

  it('asks on one sheet only for lots, initials, names and hours', () => {
    const sheet = sheetOf(blank, BATCH)
    const heads = Object.values(sheet.blocks).flatMap((block) =>
      block.kind === 'table' && block.style === 'weigh'
        ? block.columns.map(({ head }) => inlineWords(head))
        : [],
    )
    expect(heads).not.toContain('Lot')
    const labels = steps(sheet).flatMap(({ step }) =>
      (step.blanks ?? []).map(({ label }) => inlineWords(label)),
    )
    for (const gone of ['Name', 'Lot of the alkali']) expect(labels).not.toContain(gone)
    expect(plain(inlineWords(steps(sheet)[0]?.step.text ?? { text: '', fill: {} }))).toContain('sheet 12.8')
  })
})

describe('by hand: a record that was typed back', () => {
  it('shows what was weighed and how far it is from the plan', () => {
    const weights = rows(sheetOf(made, RECORD), 'weights')
    const planned = rows(sheetOf(made, BATCH), 'weights').map((row) => grams(row[2] ?? ''))
    const off = (weighed: number, at: number): string => {
      const by = weighed - (planned[at] ?? Number.NaN)
      return `${by > 0 ? '+' : by < 0 ? '−' : ''}${Math.abs(by)} g`
    }
    // 1200 + 1076 g of coconut oil from two lots
    expect(weights[0]?.slice(3)).toEqual([`3 700 g, ${off(3700, 0)}`, 'O-1241', '', ''])
    expect(weights[1]?.slice(3, 5)).toEqual([`2 276 g, ${off(2276, 1)}`, 'C-1187: 1 200 g, C-1120: 1 076 g'])
    // nobody wrote down a lot of castor oil
    expect(weights[4]?.slice(3, 5)).toEqual(['', ''])
    expect(weights[7]?.slice(3, 5)).toEqual([`1 300 g, ${off(1300, 7)}`, 'N-88'])
    // more and less were weighed than planned
    expect([off(3700, 0)[0], off(1300, 7)[0]]).toEqual(['+', '−'])
  })

  it('says of each reading whether it is within its limits', () => {
    const readings = new Map(rows(sheetOf(made, RECORD), 'readings').map((row) => [row[0], row.slice(3)]))
    // at most 176 °F; within 22 minutes of 9:38; not before 18 hours after 10:50
    expect(readings.get('Lye, at its hottest')).toEqual(['190 °F (88 °C)', '**no: E**'.replaceAll('*', '')])
    expect(readings.get('First trace: time')).toEqual(['10:40 am', 'no: E'])
    expect(readings.get('Sides off: day and time')).toEqual(['Sun 14 Mar, 6 pm', 'no: E'])
    // nothing limits it
    expect(readings.get('Push test')).toEqual(['900 g', ''])
    expect(readings.get('Oils, when the lye goes in')?.[0]).toMatch(/^4\.1, step \d+$/)
  })

  it('stands in the blanks of the batch sheet, too', () => {
    const typed = steps(sheetOf(made, BATCH)).flatMap(({ step }) =>
      (step.blanks ?? []).flatMap(({ reading, typed: said }) =>
        said ? [[reading, plain(inlineWords(said))]] : [],
      ),
    )
    expect(typed).toEqual([
      ['lye-peak', '190 °F (88 °C)'],
      ['lye-in', '9:38 am'],
      ['trace', '10:40 am'],
      ['poured', '10:50 am'],
      ['sides-off', 'Sun 14 Mar, 6 pm'],
      ['push', '900 g'],
    ])
  })

  it('names everything that asks for a decision, and lets nothing of it pass as a mistake', () => {
    const sheet = sheetOf(made, RECORD)
    const said = saidOf(sheet.blocks.findings)
    for (const expected of [
      'Olive oil: 3.7 kg were weighed, and 3.6 kg were planned.',
      'Castor oil: no lot was written down.',
      'Chalk white pigment, lot W-5: 10 g were used, and the recipe has none of it.',
      'Lye, at its hottest: outside its limits.',
      // 105 − 6 − 2 = 97, of which 95 were wrapped
      '97 bars were fit for sale and 95 were wrapped: 2 are to be found',
      // 98 papers for 95 bars; 89 good labels for them
      'Lot WP-3: 3 pieces are neither on bars nor spoiled.',
      'Lot LB-3: 6 more are on bars than were taken.',
      'The bars were released, and their test had not passed.',
      // tested on 1 April, 28 days after 14 March is 11 April
      'The test was done 10 days before its day.',
      '12 bars left the shop before the batch was released.',
      'Part E of this record is empty',
    ])
      expect(said).toContain(expected)
    expect(sheet.conflicts?.map(({ code }) => code)).toEqual([
      'released-after-failed-test',
      'tested-before-test-day',
      'went-unreleased',
    ])
    expect(sheet.conflicts?.[2]?.place).toMatch(/^shop\/batches\/2027-03-14-hearth\.yaml:\d+$/)
  })

  it('has no superfat of what was weighed while a fat is missing', () => {
    expect(sheetOf(made, RECORD).values.has('made.superfat')).toBe(false)
  })
})

describe('by hand: the record of the demo that was made', () => {
  it('adds up: bars, labels, batter', async () => {
    const sheet = sheetOf(await composeEdited(WHOLE_DEMO), 'record/2027-01-10-hearth')
    // 105 − 6 − 2, of 105
    expect(rows(sheet, 'bars')).toEqual([['105', '105', '6', '2', '97', '97', '0', '92.4 %']])
    expect(rows(sheet, 'packaging').map((row) => row.slice(2))).toEqual([
      ['97', '', '97', '0'],
      ['99', '2', '97', '0'],
    ])
    const [, done = []] = rows(sheet, 'batter')
    const [pot, left, poured, bars, trimmed, rest] = done
      .slice(1)
      .map((text) => Number(text.replace(/,.*/, '').replace(/[^\d.]/g, '')))
    expect((pot ?? 0) - (left ?? 0)).toBe(poured)
    expect(Math.abs((poured ?? 0) - (bars ?? 0) - (trimmed ?? 0) - (rest ?? 0))).toBeLessThanOrEqual(1)
    expect(sheet.blocks.findings).toMatchObject({ items: [] })
    expect(sheet.values.get('made.superfat')?.shown).toBe(sheet.values.get('superfat.nominal')?.shown)
  })
})
