/** What the sheet of even bars says of the demo: numbers that a hand can reckon from its files. */
import { beforeAll, describe, expect, test } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { composeEdited, STATES, sheetOf, WHOLE_DEMO } from '../sites/edited-demo.ts'
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
    const frame = value('error.frame-centred.tolerance')
    expect((value('size.both-1.worst') - frame) * 1000).toBeCloseTo(1.30175, 6)
    // bars between two wires: 4 · 0.254 mm; by chance, all four normal, √4 · 0.254
    expect(value('size.height-0.worst') * 1000).toBeCloseTo(1.016, 9)
    expect(value('size.height-0.chance') * 1000).toBeCloseTo(0.508, 9)
    // first bar at the end stop: 1/64 in, flat, and one wire: √(3 · 0.396875² + 2 · 0.254²) = 0.775607
    expect(value('size.height-1.chance') * 1000).toBeCloseTo(0.775607, 5)
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

  test('“nearly all” is one number in headline and table; corners spread wider than inner loaves', () => {
    expect(shown('kind.all.chance')).toBe(shown('spread.nearly-all'))
    expect(value('kind.corner.chance')).toBeGreaterThan(value('kind.inner.chance'))
    expect(value('kind.all.chance')).toBeLessThan(value('kind.all.worst'))
    // the mean square of 21, 56 and 28 bars
    const squares = 21 * value('kind.inner.chance') ** 2 + 56 * value('kind.edge.chance') ** 2
    const all = Math.sqrt((squares + 28 * value('kind.corner.chance') ** 2) / 105)
    expect(all / value('kind.all.chance')).toBeCloseTo(1, 4)
  })

  test('without an error the squares of all others are left', () => {
    const left = value('error.frame-centred.without') / value('spread.nearly-all')
    expect(left ** 2 + value('error.frame-centred.share')).toBeCloseTo(1, 9)
  })

  test('bars that feel an error: 12 of 15 loaves at a face, the first bar of 15 loaves, every bar', () => {
    const bars = (key: string) => value(`error.${key}.bars`)
    expect(['frame-centred', 'gauge-laid', 'inside-sawn'].map(bars)).toEqual([84, 84, 84])
    expect(bars('end-stop')).toBe(15)
    expect(['density', 'slice-spacing', 'wire-spacing'].map(bars)).toEqual([105, 105, 105])
  })

  test('no gap more than twice its opposite: a third of the room off, gaps two thirds of it apart', async () => {
    const room = value('error.frame-centred.tolerance')
    expect(value('centred.room')).toBeCloseTo(room, 9)
    expect(value('centred.off')).toBeCloseTo(room / 3, 9)
    expect((room + room / 3) / (room - room / 3)).toBeCloseTo(2, 9)
    // the frame's variance is a ninth of what it was
    const left = (value('centred.spread') / value('spread.nearly-all')) ** 2
    expect(left).toBeCloseTo(1 - (8 / 9) * value('error.frame-centred.share'), 9)
    const grid = sheetOf(await composeEdited({}), 'grid-cutter/five-by-three')
    expect(plain(grid.values.get('centred.difference')?.shown ?? '')).toBe(shown('centred.difference'))
  })

  test('outer loaves of opposite sides: what frame and gauge shift one gains, the other loses', () => {
    // 2 · (off + 1/64 in); of the smaller side of 2 1/4 in
    const card = 2 * (value('centred.off') + 0.0254 / 64)
    expect(value('centred.card')).toBeCloseTo(card, 9)
    expect(value('centred.gauge-part')).toBeCloseTo(0.0254 / 32, 9)
    const outer = (value('centred.opposite') / value('bar.mass')) * 2.25 * 0.0254
    expect(outer * 1000).toBeCloseTo(card * 1000, 1)
    // gaps differ by twice what the frame is off
    expect(value('spacing.frame-centred.gaps')).toBeCloseTo(2 * value('spacing.frame-centred.needed'), 12)
  })

  test('one number of grams has one of ounces: 5.0 g / 28.3495 = 0.176', () => {
    const both = [...sheet.values.values()].map(({ shown: text }) =>
      /^([\d.]+).g \(([\d.]+).oz\)$/u.exec(plain(text)),
    )
    const pairs = both.flatMap((one) => (one ? [[Number(one[1]), Number(one[2])] as const] : []))
    expect(pairs.length).toBeGreaterThan(20)
    for (const [grams, ounces] of pairs)
      expect(Math.abs(grams / 28.349523125 - ounces)).toBeLessThanOrEqual(0.005)
  })

  test('neighbours of a loaf at the end stop: places 1 − 2 · 1 + 1 of stop, first and second wire', () => {
    // √(3 · 0.396875² + (4 + 1) · 2 · 0.254²) = √(0.472529 + 0.645160) = 1.057208 mm of 28.575 mm
    expect(value('neighbours.apart') / value('bar.mass')).toBeCloseTo(1.057208 / 28.575, 6)
  })

  test('a spread that wires alone do not give is said, and stops nothing', () => {
    expect(sheet.stopped).toBeUndefined()
    expect(shown('wanted.spread')).toBe('4.5 g (0.16 oz)')
    const [said = '', ...more] = linesOf(sheet.blocks.said)
    expect(said).toContain('Closer wires alone do not bring nearly all bars within ± 4.5 g (0.16 oz)')
    // centred by eye: 4.0 g is less than 4.5 g
    expect(value('centred.spread')).toBeLessThan(value('wanted.spread'))
    expect(more).toHaveLength(1)
    expect(more[0]).toContain('Centring the frame by eye does it')
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

describe('by hand: a block that is not filled to its line has fewer bars', () => {
  test('a batch of four slices: 60 bars of 105, and its own mean bar', async () => {
    const whole = sheetOf(await composeEdited(WHOLE_DEMO), EVEN)
    const bars = (batch: string) => Number(whole.values.get(`limit.${batch}.dry.bars`)?.value)
    expect(bars('2027-03-14-hearth')).toBe(105)
    // 5 by 3 loaves of 4 slices
    expect(bars('2027-03-21-lather')).toBe(60)
    // a frame that is centred by eye makes fewer too light
    for (const batch of ['2027-03-14-hearth', '2027-03-21-lather']) {
      const light = (name: string) => Number(whole.values.get(`limit.${batch}.${name}.light`)?.value ?? 0)
      expect(light('dry')).toBeGreaterThan(0.5)
      expect(light('centred')).toBeLessThan(light('dry'))
    }
    const lines = linesOf(whole.blocks.limits)
    expect(lines.map((line) => / of (\d+)/.exec(plain(line))?.[1])).toEqual(['105', '105', '60', '60'])
    const means = [...whole.values.values()].filter(({ name }) => /^limit\..*\.mean$/.test(name))
    const mean = means.reduce((sum, one) => sum + Number(one.value), 0) / means.length
    expect(mean).toBeCloseTo(Number(whole.values.get('bar.mass')?.value), 9)
  })
})

describe('by hand: what was measured', () => {
  test('wires that were measured are told of; an inside that was measured is no error along that way', async () => {
    const edited = sheetOf(
      await composeEdited({
        'fixtures/five-by-three.yaml': [
          ['# as-built:', 'as-built:'],
          ['#   inside-length: 288.4 mm', '  inside-length: 288.4 mm'],
          ['#   bar-cutter:\n', '  bar-cutter:\n'],
          ['#     wires: [28.6 mm', '    wires: [28.6 mm'],
        ],
      }),
      EVEN,
    )
    expect(linesOf(edited.blocks.said).join(' ')).toContain('no longer chance')
    expect(linesOf(sheet.blocks.said).join(' ')).not.toContain('no longer chance')
    // the length gives no error any more: loaves of both outer rows, not of the outer columns: 2 · 5 · 7
    expect(Number(edited.values.get('error.inside-sawn.bars')?.value)).toBe(70)
  })
})
