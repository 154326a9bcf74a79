/** The page of papers that are out of date: short enough to walk with, and nothing on it but what papers say. */
import { describe, expect, it } from 'vitest'
import { changesOf } from '../../src/papers/changes.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Cell, Sheet, Table } from '../../src/sheets/model.ts'
import { PLACES } from '../../src/sheets/places.ts'
import { excerpts } from '../../src/sheets/printed/excerpt.ts'
import { printedSheet } from '../../src/sheets/printed/printed-sheet.ts'
import type { ShownSheet } from '../../src/sheets/printed/shown-types.ts'
import type { OutOfDate, SheetChanges } from '../../src/sheets/printed/types.ts'
import { frame } from '../sites/small-binder.ts'

const NONE: SheetChanges = { values: [], lines: [], drawings: [], renumbered: false }
const paper = {
  sheet: 'card/lye',
  revision: 1,
  code: 'H7KQ-1-M4TX',
  shows: 'aa',
  date: '2027-01-18',
  how: 'laminated',
  where: 'wall',
} as const
const now = { id: 'card/lye', number: '5.2', title: 'Lye', revision: 2, code: 'H7KQ-2-M4TY', recorded: false }

const sheetOf = (changes: SheetChanges): Sheet => {
  const one: OutOfDate = { paper, now, number: '5.2', title: 'Lye', changes, causes: new Map(), safety: true }
  return printedSheet(frame, PLACES.printed, { outOfDate: [one], right: [] })
}
const textOf = (cell: Cell | undefined): string =>
  cell?.kind === 'value'
    ? cell.value.shown
    : cell?.kind === 'words'
      ? inlineWords(cell.words)
      : cell?.kind === 'maker'
        ? cell.text
        : ''
const rowsOf = (changes: SheetChanges): string[] =>
  (sheetOf(changes).blocks.changes as Table).rows.map((row) => row.slice(1, 4).map(textOf).join(' | '))

const weight = (label: string, before: string, after: string, safety = true) => ({
  name: label,
  label,
  before,
  now: after,
  safety,
})

describe('by hand: rows of what changed', () => {
  it('are one where the same number changed alike in several places', () => {
    const values = [
      weight('Portion', '448 g', '443 g'),
      weight('Oil', '3 kg', '4 kg'),
      weight('Portion 2', '448 g', '443 g'),
      weight('In the pail', '448 g', '443 g'),
      weight('Elsewhere', '448 g', '450 g'),
    ]
    expect(rowsOf({ ...NONE, values })).toEqual([
      'Portion, 3 places | 448 g | 443 g',
      'Oil | 3 kg | 4 kg',
      'Elsewhere | 448 g | 450 g',
    ])
  })

  it('are 25 of one sheet at the most, what may hurt somebody first, and a line that says how many more', () => {
    const many = (count: number): SheetChanges => ({
      ...NONE,
      values: [
        ...Array.from({ length: count - 1 }, (_, at) => weight(`Bars ${at}`, `${at}`, `${at + 100}`, false)),
        weight('NaOH', '448 g', '443 g'),
      ],
    })
    expect(rowsOf(many(25))).toHaveLength(25)
    const rows = rowsOf(many(40))
    expect(rows).toHaveLength(25)
    expect(rows[0]).toBe('NaOH | 448 g | 443 g')
    // 24 shown, 40 − 24 = 16
    expect(rows[24]).toContain('16 more rows')
  })

  it('are one line for a paper in another language, and its numbers', () => {
    const shown = (language: string, text: string): ShownSheet => ({
      id: 'card/lye',
      language,
      number: '5.2',
      section: language,
      title: language,
      values: [{ name: 'naoh', shown: text, unit: 'kg', label: 'NaOH' }],
      lines: [{ text: `${language} [[naoh]]` }],
      drawings: [{ label: language, hash: language }],
    })
    const rows = rowsOf(changesOf(shown('en', '1.5 kg'), shown('es', '1,6 kg')))
    expect(rows).toHaveLength(2)
    expect(rows[0]).toContain('“en”')
    expect(rows[1]).toBe('NaOH | 1.5 kg | 1,6 kg')
  })

  it('leave words as words: every value of the page has figures in it', () => {
    const { values } = sheetOf({
      ...NONE,
      values: [weight('Poured', 'noon', 'later'), weight('Wait 2', '1 h', '2 h')],
      lines: [{ before: 'Ask him', now: 'Ask her', safety: true }],
    })
    for (const [name, { shown }] of values) expect(shown, name).toMatch(/\d/)
  })
})

describe('by hand: what differs of two lines', () => {
  it('is told with three words round it', () => {
    expect(excerpts('a b c d e f g h i j k', 'a b c d e f X h i j k')).toEqual({
      before: '… d e f g h i j k',
      now: '… d e f X h i j k',
    })
    expect(excerpts('a b c d e f g h i j k l m', 'a b c d e f h i j k l m')).toEqual({
      before: '… d e f g h i j …',
      now: '… d e f h i j …',
    })
    expect(excerpts('one', 'other')).toEqual({ before: 'one', now: 'other' })
    expect(excerpts(undefined, 'fresh')).toEqual({ now: 'fresh' })
  })
})
