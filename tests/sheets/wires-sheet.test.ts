/** What the wire sheet of the demo says: numbers that a hand can reckon from the files and from published tables. */
import { beforeAll, describe, expect, test } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { composeEdited, sheetOf } from '../sites/edited-demo.ts'
import { plain, saidOf } from './rows.ts'

const WIRES = 'wires/five-by-three'
const FIXTURE = 'fixtures/five-by-three.yaml'

let sheet: Sheet
beforeAll(async () => {
  sheet = sheetOf(await composeEdited({}), WIRES)
})

const value = (name: string) => Number(sheet.values.get(name)?.value)
const shown = (name: string, of = sheet) => plain(of.values.get(name)?.shown ?? '')

describe('published: astm-a228, least strength of music wire', () => {
  // 350 ksi at 0.020 in: 350 · 6.894757 MPa · π/4 · (0.508 mm)² = 489.1 N
  test('0.020 in', () => expect(value('wire.grid-short.wire.holds')).toBeCloseTo(489.1, 0))
  // 369 ksi at 0.014 in: 369 · 6.894757 MPa · π/4 · (0.3556 mm)² = 252.7 N
  test('0.014 in', () => expect(value('wire.bar.wire.holds')).toBeCloseTo(252.7, 0))
})

describe('published: astm-a313, least strength of stainless spring wire', () => {
  // 300 ksi at 0.020 in: 419.2 N
  test('0.020 in, as the option', () => expect(value('wire.grid-long.option.breaks')).toBeCloseTo(419.2, 0))
})

describe('by hand: notes', () => {
  test('the short wires of the grid cutter', () => {
    // μ = 7850 kg/m3 · π/4 · (0.508 mm)² = 1.5911 g/m; √(120/0.0015911) / (2 · 0.2150 m) = 638.6 Hz
    expect(value('wire.grid-short.pitch')).toBeCloseTo(638.6, -0.3)
    // 440 · 2^(6/12) = 622.25 Hz is D sharp of the fifth octave; 1200 log2(638.6/622.25) = 44.9
    expect(shown('wire.grid-short.note')).toBe('D#5')
    expect(Math.abs(value('wire.grid-short.cents') - 44.9)).toBeLessThan(1)
  })

  // half a semitone is 50: a needle never stands farther off than that
  test('the needle stands by the nearest note', () => {
    for (const group of ['grid-short', 'grid-long', 'bar'])
      expect(Math.abs(value(`wire.${group}.cents`))).toBeLessThanOrEqual(50)
  })
})

describe('by hand: push', () => {
  // four wires across 8 1/4 in and two along 11 1/4 in: 0.8382 + 0.5715 = 1.4097 m; 60 N/m more push 84.6 N more
  test('grows with the load by the length of wire in soap', () =>
    expect(value('push.grid.usual') - value('push.grid.fresh')).toBeCloseTo(84.58, 1))

  test('beside newtons stands what a scale shows', () => {
    const push = value('push.grid.usual')
    // 9.80665 N each, to half a kilogram
    expect(shown('push.grid.usual')).toBe(
      `${push.toFixed(0)} N (${(Math.round((push / 9.80665) * 2) / 2).toFixed(1)} kg)`,
    )
  })

  test('nobody is told to push harder than the wires bear', () => {
    // one light person presses more than these wires hold: two people, stages and a press would break them
    expect(value('push.one-person')).toBeGreaterThan(value('push.grid.most'))
    expect(saidOf(sheet.blocks.harder)).not.toMatch(/two people|press/i)
    expect(saidOf(sheet.blocks.harder)).toContain(shown('push.grid.most'))
  })
})

describe('by hand: what does not hold stops the sheet, and names both numbers and their place', () => {
  test('a peg beyond its rating at the loaded tension, though not at the tuned one', async () => {
    // tuned to 120 N, and pulled with about 171 N in soap
    const stopped = sheetOf(
      await composeEdited({ [FIXTURE]: [['  loop-wires: no ', '  peg-rating: 150 N\n  loop-wires: no ']] }),
      WIRES,
    )
    expect(stopped.stopped?.map(({ code }) => code)).toContain('wire-peg-slips')
    expect(saidOf(stopped.blocks.stop)).toMatch(/pulled with 1[56]\d N|pulled with 17\d N/)
    expect(saidOf(stopped.blocks.stop)).toContain('holds 150 N')
    expect(saidOf(stopped.blocks.remedies)).toContain(FIXTURE)
    expect(stopped.values.has('wire.grid-short.pitch')).toBe(false)
  })
})
