/** What the sheet of even bars says of the demo: numbers that a hand can reckon from its files. */
import { beforeAll, describe, expect, test } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { composeEdited, STATES, sheetOf } from '../sites/edited-demo.ts'
import { linesOf, plain } from './rows.ts'

const EVEN = 'tolerance/five-by-three'
let sheet: Sheet
beforeAll(async () => {
  sheet = sheetOf(await composeEdited({}), EVEN)
})
const value = (name: string) => Number(sheet.values.get(name)?.value)
const shown = (name: string) => plain(sheet.values.get(name)?.shown ?? '')

describe('by hand: bars of 2 1/4 by 2 3/4 by 1 1/8 in, five by three loaves of seven', () => {
  test('a slicing wire off by 0.010 in changes a bar by 0.010 / 1.125 of its weight', () => {
    expect(value('error.slice-spacing.weight') / value('bar.mass')).toBeCloseTo(0.01 / 1.125, 9)
    expect(shown('error.slice-spacing.tolerance')).toBe('0.010 in (0.25 mm)')
  })

  test('1 % of density changes it by 1 %', () =>
    expect(value('error.density.weight') / value('bar.mass')).toBeCloseTo(0.01, 9))

  test('outer loaves at the worst: two wire errors, gauge, half of the inside, and the frame', () => {
    // 0.254 + 0.254 + 0.396875 + 0.396875 mm, and what the frame is off
    const frame = value('error.frame-centred.size')
    expect((value('size.both-1.worst') - frame) * 1000).toBeCloseTo(1.30175, 6)
    // bars between two wires: 4 · 0.254 mm; root of squares √4 · 0.254
    expect(value('size.height-0.worst') * 1000).toBeCloseTo(1.016, 9)
    expect(value('size.height-0.rss') * 1000).toBeCloseTo(0.508, 9)
  })

  test('three inner loaves, eight edges, four corners, seven bars each', () => {
    expect(['inner', 'edge', 'corner', 'all'].map((kind) => value(`kind.${kind}.bars`))).toEqual([
      21, 56, 28, 105,
    ])
  })

  test('shares are all of the spread', () => {
    const shares = [...sheet.values.values()].filter(({ name }) => /^error\..*\.share$/.test(name))
    expect(shares).toHaveLength(9)
    expect(shares.reduce((sum, one) => sum + Number(one.value), 0)).toBeCloseTo(1, 9)
    const drawn = ['bar-cutter', 'grid-cutter', 'mould', 'soap'].map((key) =>
      value(`drawing.spread.from.${key}`),
    )
    expect(drawn.reduce((sum, one) => sum + one, 0)).toBeCloseTo(1, 9)
  })

  test('the greatest three are told first, in order', () => {
    const told = linesOf(sheet.blocks.matters).map((line) => line.slice(0, line.indexOf('.')))
    const table = linesOf(sheet.blocks.errors).map((line) => line.split(' | ')[0])
    expect(told).toHaveLength(3)
    expect(told).toEqual(table.slice(0, 3))
  })

  test('the mean bar lies between what chance gives, and corners spread wider than inner loaves', () => {
    expect(value('kind.all.chance.low')).toBeLessThan(value('bar.mass'))
    expect(value('kind.all.chance.high')).toBeGreaterThan(value('bar.mass'))
    expect(value('kind.corner.chance.low')).toBeLessThan(value('kind.inner.chance.low'))
    // nobody draws a bar beyond what all errors at their limits give, times what products add
    expect(value('bar.mass') - value('kind.all.chance.low')).toBeLessThan(value('kind.all.worst'))
  })

  test('a spread that wires alone do not give is said, and stops nothing', () => {
    expect(sheet.stopped).toBeUndefined()
    expect(shown('wanted.spread')).toBe('4.5 g (0.16 oz)')
    const [said = '', ...more] = linesOf(sheet.blocks.said)
    expect(said).toContain('Closer wires alone do not bring nearly all bars within ± 4.5 g (0.16 oz)')
    expect(more).toEqual([])
    const [wires = '', frame = ''] = linesOf(sheet.blocks.spacing)
    expect(wires).toContain('not by this alone')
    expect(frame).not.toContain('not by this alone')
  })

  test('the label of the batch leads to its log', () => {
    const [line = ''] = linesOf(sheet.blocks.limits)
    expect(line).toMatch(/^Hearth bar, Sun 14 Mar \(log: 6\.\d+\) \| 99 g \| /)
  })
})

describe('by hand: stopped with the mould', () => {
  test('bars of a mould that cannot be built have no spread', async () => {
    const binder = await composeEdited(STATES['dado too deep'])
    expect(sheetOf(binder, EVEN).stopped?.length).toBeGreaterThan(0)
  })
})

describe('by hand: what is typed moves the sheet', () => {
  test('a frame that is centred to 0.2 mm is no longer what matters most', async () => {
    const edited = await composeEdited({
      'fixtures/five-by-three.yaml': [['# frame-centred: 1/32 in ', '  frame-centred: 0.2 mm #']],
    })
    const [first = ''] = linesOf(sheetOf(edited, EVEN).blocks.matters)
    expect(first).toContain('Soap heavier')
    expect(linesOf(sheet.blocks.matters)[0]).toContain('frame')
    const spread = (of: Sheet) => Number(of.values.get('spread.nearly-all')?.value)
    expect(spread(sheetOf(edited, EVEN))).toBeLessThan(spread(sheet))
  })
})
