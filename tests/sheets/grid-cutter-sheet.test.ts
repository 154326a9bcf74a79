/** What the build sheet of the demo's grid cutter says: numbers that a hand can reckon from the files. */
import { beforeAll, describe, expect, test } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Block, Sheet } from '../../src/sheets/model.ts'
import { type Binder, composeEdited, MOULD, sheetOf } from '../sites/edited-demo.ts'
import { rowsOf } from './rows.ts'

const GRID = 'grid-cutter/five-by-three'
const fixture = 'fixtures/five-by-three.yaml'

let binder: Binder
let sheet: Sheet
beforeAll(async () => {
  binder = await composeEdited({})
  sheet = sheetOf(binder, GRID)
})

const value = (name: string, of: Sheet = sheet) => Number(of.values.get(name)?.value)
const steps = (block: Block | undefined): string[] =>
  block?.kind === 'steps'
    ? block.items.map(({ text }) => inlineWords(text).replace(/[\u202F\u00A0]/g, ' '))
    : []
const items = (block: Block | undefined): string[] =>
  block?.kind === 'cautions' ? block.items.map((one) => inlineWords(one)) : []

describe('by hand: sheets of one fixture name each other', () => {
  test('the cutter comes after its mould', () => {
    const numbers = binder.sheets
      .filter(({ kind }) => kind === 'fixture')
      .map(({ id, number }) => [id, number])
    expect(numbers.slice(0, 2)).toEqual([
      [MOULD, '7.1'],
      [GRID, '7.2'],
    ])
  })

  test('each by its number', () => {
    expect(steps(sheet.blocks.using).join()).toContain('its own sheet, 7.1')
    expect(steps(sheetOf(binder, MOULD).blocks.opening).join()).toContain('sheet 7.2')
  })
})

describe('by hand: what hands and eyes meet', () => {
  // base of 88.9 mm, block of 215.9; skirt a fifth of the inside width of 211.634
  const [base, block, skirt] = [0.0889, 0.2159, 0.0423268]
  /** short ends: lag of the long wires and 1.5 mm, and the gap below them */
  const over = () => value('lag.long') + 0.0015 + value('gap')

  test('handles at first touch and at the end', () => {
    // 63.5 mm of wood above the upper wires
    const edge = base - over() - skirt
    expect(value('knuckles')).toBeCloseTo(edge, 6)
    expect(value('hands.end')).toBeCloseTo(edge + skirt + value('gap') + 0.0635, 6)
    expect(value('hands.start')).toBeCloseTo(value('hands.end') + block + over(), 6)
  })

  test('a loaf stands out above the frame by what is left of it', () => {
    expect(value('reach')).toBeCloseTo(value('hands.end') - base, 9)
    expect(value('standing')).toBeCloseTo(block - value('reach'), 9)
  })

  test('a kerf by the holes: half a wire of 0.508 and half a rod of 3.175 above them, 3.375 wide', () => {
    expect(value('rod-kerf.above')).toBeCloseTo(0.0018415, 7)
    expect(value('rod-kerf.wall')).toBeCloseTo(0.0018415 - 0.0016875, 7)
  })

  test('lines of the mark sticks every two inches, from the first touch to the end', () => {
    // a stroke of some 228.7 mm: five lines from 0 to 203.2, and that of the end
    expect(rowsOf(sheet.blocks.marks)).toHaveLength(6)
    expect(value('marks.1.height')).toBeCloseTo(value('hands.start'), 9)
    expect(value('marks.3.height')).toBeCloseTo(value('hands.start') - 0.1016, 9)
    expect(value('marks.6.height')).toBeCloseTo(value('hands.end'), 9)
    // the board of 17.8 mm is below the level that heights count from
    expect(value('marks.6.stick') - value('marks.6.height')).toBeCloseTo(0.0178, 4)
  })

  test('strips are counted out before the frame goes on: four across and two along', () => {
    expect(value('strips.all')).toBe(6)
    expect(value('strips.across')).toBe(4)
    expect(value('strips.along')).toBe(2)
    expect(value('grid.loaves')).toBe(15)
  })
})

describe('by hand: room and reasons', () => {
  test('a face of the block may stand out by the clearance, less half a millimetre', () =>
    expect(value('clearance.bow')).toBeCloseTo(value('clearance') - 0.0005, 9))

  test('middles end below the top of the base by what the lag leaves', () => {
    expect(value('overTravel.short.middle')).toBeCloseTo(
      0.0015 + value('lag.long') + value('gap') - value('lag.short'),
      9,
    )
    expect(value('overTravel.long.middle')).toBeCloseTo(0.0015, 9)
  })

  test('the record lets the frame be wider only as far as its wires stay in their grooves', () => {
    // 3/16 in less 0.508 mm, twice 1.342 of play and 1.0 of wander: 0.57, half of it for the frame and half for the base,
    // told to a tenth
    expect(value('inspection.more')).toBeCloseTo(0.0002, 9)
    expect(value('base.off')).toBeCloseTo(0.0002, 9)
  })

  test('the frame is as much larger than the base as its play on both sides: 287.8 less 285.1 mm', () => {
    expect(value('base.more.length')).toBeCloseTo(value('grid.inside.length') - value('base.length'), 9)
    expect(value('base.more.width')).toBeCloseTo(value('grid.inside.width') - value('base.width'), 9)
    expect(value('base.more.length')).toBeCloseTo(0.002684, 5)
  })

  test('the base may be as far off its height as its own sheet lets it be: 1/32 in', () => {
    const allowed = (of: Sheet, what: RegExp) =>
      rowsOf(of.blocks.inspection)
        .find((row) => row.some((cell) => what.test(cell)))
        ?.join()
        .replace(/[\u202F\u00A0]/g, ' ')
    expect(allowed(sheet, /^Base of the mould, height/)).toContain('± 1/32 in')
    expect(allowed(sheetOf(binder, MOULD), /base-height/)).toContain('± 1/32 in')
  })

  test('by the inches of its drawings a rod may miss its hole: 1 21/32 and 1 3/4 in hide nothing of 0.54 mm', () => {
    expect(value('rounding.rod.side.exact')).toBeCloseTo(0.00054, 5)
    // plane a fifth of 211.634: 42.327, to 1 21/32: -0.258; kerf 0.254 and 1.5875 above, 44.168, to 1 3/4: +0.282
    expect(value('rounding.rod.side.off')).toBeCloseTo(-0.00054, 4.5)
    expect(rowsOf(sheet.blocks.rounding)[0]?.at(-1)).toBe('work to the millimetres')
  })

  test('the driver for the cleats ends below the soap: 88.9 of base less 12.1 of cleat', () =>
    expect(value('driver.cleat')).toBeCloseTo(0.0768, 4))

  test('single wires are said to be single', () =>
    expect(items(sheet.blocks.choices).some((one) => one.startsWith('Every cut has a wire of its own'))).toBe(
      true,
    ))
})

describe('by hand: how hard it is pushed', () => {
  test('each of two has half of the push', () => {
    // one number for each person, told once: the whole is not rounded a second time
    expect(sheet.values.has('push.most')).toBe(false)
    expect(value('push.half.usual')).toBeLessThan(value('push.half.most'))
  })

  test('half of what is never passed is shown rounded down', () => {
    const kilograms = (name: string) => Number(/\(([\d.]+)/.exec(sheet.values.get(name)?.shown ?? '')?.[1])
    expect(kilograms('push.half.most') * 9.80665).toBeLessThanOrEqual(value('push.half.most'))
  })

  test('a wire is judged by its note at half tension, its stretch and its sag under a weight', () => {
    expect(rowsOf(sheet.blocks.judged)).toHaveLength(2)
    // tuned to 638.6 Hz, over the square root of 2
    expect(value('judged.short.half')).toBeCloseTo(451.6, -0.3)
    // 120 N over about 323 mm, E A of 207 GPa and 0.2027 mm2: 120 · 0.323/41960 = 0.92 mm
    expect(value('judged.short.stretch')).toBeCloseTo(0.00092, 4)
    // 1/2 kg on 215 mm without stretch 2.2 mm, with it less; on the 323 mm from peg to anchor half as much again
    expect(value('judged.short.sag')).toBeGreaterThan(0.0019)
    expect(value('judged.short.sag')).toBeLessThan(0.0022)
    expect(value('judged.short.sag-off') / value('judged.short.sag')).toBeGreaterThan(1.35)
  })

  test('its weight is so light that no long wire reaches the short ones: 1 kg would draw it 5 mm down, and 4.5 are free', () => {
    expect(value('judged.mass')).toBe(0.5)
    expect(value('judged.long.sag-off')).toBeLessThan(value('gap') - value('wire.diameter'))
    // right and wrong are further apart than what is read either way
    for (const layer of ['short', 'long'])
      expect(value(`judged.${layer}.sag-off`) - value(`judged.${layer}.sag`)).toBeGreaterThan(
        2 * value('judged.near'),
      )
  })

  test('the push of one is told where it is pushed, and nobody is told to lean', () => {
    const all = [...steps(sheet.blocks.using), ...steps(sheet.blocks.trial)].join(' ')
    expect(all).toMatch(/both press with the arms: about .* each in usual soap, never more than /)
    expect(all).not.toMatch(/lean on it/)
  })

  test('the trial frame is named while what soap holds back with is an estimate', () =>
    expect(steps(sheet.blocks.using)[0]).toContain('the trial frame of sheet 7.7'))

  test('the rod hides a third of a wire’s hole: 1/16 in and 0.508 mm, 1.0795 of 3.175', () =>
    expect(value('rod.covers')).toBeCloseTo(0.34, 3))

  test('beside a wire in its groove is left what wander takes, and more: 4.7625 less 0.508, half of it, less 1.342', () =>
    expect(value('groove.aside')).toBeCloseTo((0.0047625 - 0.000508) / 2 - 0.0013421, 6))

  test('three turns of 0.508 mm round a post of 6 mm take 61.3 mm', () =>
    expect(value('peg.winding')).toBeCloseTo(0.06134, 5))

  test('the notes of both layers stand where it is strung', () =>
    expect(rowsOf(sheet.blocks['wire-table'])).toHaveLength(2))
})

describe('by hand: one number for a part on every list', () => {
  test('parts count from 1, hardware after them', () => {
    const parts = rowsOf(sheet.blocks.parts)
    expect(parts.map((row) => row[0])).toEqual(parts.map((_, index) => `${index + 1}`))
    expect(parts.slice(-3).map((row) => row[1])).toEqual(['Bridge rod', 'Tuning peg', 'Anchor screw'])
    const numbers = new Map(parts.map((row) => [row[1], row[0]]))
    for (const row of rowsOf(sheet.blocks.cuts)) expect(row[0]).toBe(numbers.get(row[1]))
  })

  test('a row of the log for each of the six wires', () => expect(rowsOf(sheet.blocks.log)).toHaveLength(6))

  test('each wire from two walls: four across, two along', () => {
    // 57.15 mm from loaf to loaf, 69.85 along
    expect(value('inspection.wire.short-2') - value('inspection.wire.short-1')).toBeCloseTo(0.05715, 9)
    expect(value('inspection.wire.long-2') - value('inspection.wire.long-1')).toBeCloseTo(0.06985, 9)
  })
})

describe('by hand: other cutters', () => {
  test('loops share a row of the log, and are threaded there and back', async () => {
    const loops = sheetOf(await composeEdited({ [fixture]: [['loop-wires: no ', 'loop-wires: yes ']] }), GRID)
    expect(rowsOf(loops.blocks.log).map(([name]) => name)).toEqual([
      'Short wire of cuts 1 and 2',
      'Short wire of cuts 3 and 4',
      'Long wire of cuts 1 and 2',
    ])
    expect(steps(loops.blocks.stringing).join()).toContain('round both pins')
  })

  test('a cutter that does not clear its block has a stop page, its mould stands', async () => {
    const stopped = await composeEdited({
      [fixture]: [['  wire: 0.020 in\n  loop-wires', '  clearance: 0.2 mm\n  wire: 0.020 in\n  loop-wires']],
    })
    expect(sheetOf(stopped, GRID).stopped?.map(({ code }) => code)).toContain('grid-frame-does-not-clear')
    expect(sheetOf(stopped, MOULD).stopped).toBeUndefined()
    expect(
      [...sheetOf(stopped, GRID).values.keys()].filter((name) => /^(part|drawing|grid)\./.test(name)),
    ).toEqual([])
  })

  test('a stopped mould stops the cutter that stands on it', async () => {
    const stopped = await composeEdited({ [fixture]: [['depth: 1/4 in', 'depth: 5/8 in']] })
    expect(sheetOf(stopped, GRID).stopped?.map(({ code }) => code)).toContain('mould-dado-too-deep')
  })
})
