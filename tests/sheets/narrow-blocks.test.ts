/** Blocks of one row or one column: what no block of several loaves has is left out, and nothing else is. */
import { describe, expect, it } from 'vitest'
import { composeEdited } from '../sites/edited-demo.ts'

const FIXTURE = 'fixtures/five-by-three.yaml'

describe('by hand: a block without wires one way', () => {
  it.each([
    ['a row of two loaves', 2, 1],
    ['two rows of one loaf', 1, 2],
    ['one loaf', 1, 1],
  ])('%s reads through, or says why it cannot be', async (_what, columns, rows) => {
    const { sheets } = await composeEdited({
      [FIXTURE]: [
        ['columns: 5', `columns: ${columns}`],
        ['rows: 3', `rows: ${rows}`],
      ],
    })
    const own = sheets.filter(({ id }) => id.endsWith('/five-by-three'))
    expect(own.length).toBeGreaterThan(3)
    const stops = own.flatMap(({ stopped = [] }) => stopped.map(({ code }) => code))
    // 1 by 1 loaves want no cut
    expect(stops.includes('grid-has-no-wires')).toBe(columns * rows === 1)
  })
})
