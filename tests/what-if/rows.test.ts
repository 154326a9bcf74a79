/** Numbers that read alike are one row, under the plainest of their names. */
import { describe, expect, it } from 'vitest'
import type { NumberDifference, SheetDifference } from '../../src/what-if/differences.ts'
import { rowsOf } from '../../src/what-if/rows.ts'

const number = (name: string, label: string): NumberDifference => ({
  name,
  label,
  unit: 'kg',
  before: { value: 1.652, shown: '1 652 g' },
  after: { value: 1.61, shown: '1 610 g' },
})

const sheet = (id: string, numbers: readonly NumberDifference[]): SheetDifference =>
  ({
    id,
    number: id,
    title: id,
    change: 'other',
    numbers,
    lines: [],
    drawings: [],
  }) as unknown as SheetDifference

describe('by hand: one number on three sheets', () => {
  it('is told once, on the first, by the label that its name stands in', () => {
    const sheets = [
      sheet('4.1', [number('naoh.mass', 'What goes in')]),
      sheet('5.2', [number('portion.mass', 'Beads, …, Weigh')]),
      sheet('12.8', [number('record.mass', 'Mass')]),
    ]
    const told = rowsOf(sheets, 40, () => [])
    expect(told.map(({ rows }) => rows.map(({ label }) => label))).toEqual([['Mass'], [], []])
    expect(told[0]?.rows[0]?.sheets.map(({ id }) => id)).toEqual(['4.1', '5.2', '12.8'])
  })
})
