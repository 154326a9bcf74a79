/** A whole binder in millimetres on A4: nothing in a mould is bound to inches. */
import { fileURLToPath } from 'node:url'
import { beforeAll, describe, expect, test } from 'vitest'
import { type Composed, compose } from '../../src/commands/compose.ts'
import type { Sheet } from '../../src/sheets/model.ts'

const folder = fileURLToPath(new URL('metric-mould/', import.meta.url))
let sheet: Sheet
let composed: Composed

beforeAll(async () => {
  composed = await compose(folder, 'metric-mould')
  sheet = composed.binder!.sheets.find(({ id }) => id === 'fixture/four-by-three')!
})

const millimetres = (name: string): number => Number(sheet.values.get(name)?.value) * 1000

describe('by hand: 4 by 3 loaves of 62 by 72 mm, 8 bars of 26 mm', () => {
  test('reads without a complaint, and nothing is stopped', () => {
    expect(composed.diagnostics).toEqual([])
    expect(composed.binder?.sheets.flatMap(({ stopped = [] }) => stopped)).toEqual([])
  })

  test.each([
    // 4 · 62 and 3 · 72, with 1 mm of lining on both sides
    ['mould.inside.length', 250],
    ['mould.inside.width', 218],
    // 8 · 26 + 15 of trim + 40 of freeboard
    ['mould.inside.height', 263],
    ['mould.rim.height', 353],
    // 250 + 2 · 17.9 + 2 · 40
    ['part.side.length', 365.8],
    // 218 + 2 · 6
    ['part.end.length', 230],
    // less 1.2 on both sides
    ['part.base-top.length', 247.6],
    ['part.base-top.width', 215.6],
    // 90 − 23.7
    ['part.rail.width', 66.3],
    // 250 + 218 − 3 · 1
    ['part.lining.length', 465],
    // washers of 18 mm in recesses of 19
    ['part.side.rod-1-1.recess', 19],
    ['part.side.rod-1-1.recess-depth', 1.6],
    // 218 + 35.8 + 2 (1.6 + 5.2 + 3 − 1.6) = 270.2, to the next 5 mm
    ['rod.length', 275],
    // grooves at 62 and 124 and 186 less 0.2 mm that the base is shorter than the block
    ['part.base-top.groove-x-2.at', 123.8],
  ])('%s is %s mm', (name, wanted) => expect(millimetres(name)).toBeCloseTo(wanted, 6))

  test('no drawing and no list of sizes shows an inch or a fraction', () => {
    const parts = [...sheet.values.values()].filter(({ name }) => /^(drawing|part|groove|dado)\./.test(name))
    expect(parts.length).toBeGreaterThan(120)
    expect(parts.filter(({ shown }) => /\bin\b|″|\d\/\d/.test(shown))).toEqual([])
  })

  test('is drawn in first angle with a title block in millimetres', () => {
    const figures = Object.values(sheet.blocks).filter((block) => block.kind === 'figure')
    expect(figures.length).toBeGreaterThan(4)
    for (const { svg } of figures) expect(svg).not.toMatch(/>[^<]*\d+\/\d+ in</)
  })

  test('is proved: no overlap, all that must touch touches, it comes apart', () => {
    // 2 sides, 2 strips, lid, 2 ends, base top, 3 rails, 2 cleats, 2 + 3 groove strips, 4 leaves of lining; 6 rods of 5 pieces:
    // 22 + 30 = 52 solids, 52 · 51 / 2
    expect(sheet.values.get('proof.pairs')?.value).toBe(1326)
  })
})
