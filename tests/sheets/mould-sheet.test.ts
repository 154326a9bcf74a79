/** What the build sheet of the demo's mould says: numbers that a hand can reckon from the files. */
import { beforeAll, describe, expect, test } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { composeEdited, MOULD, sheetOf } from '../sites/edited-demo.ts'
import { rowsOf as rows } from './rows.ts'

let sheet: Sheet
beforeAll(async () => {
  sheet = sheetOf(await composeEdited({}), MOULD)
})

const value = (name: string) => Number(sheet.values.get(name)?.value)
const shown = (name: string) => sheet.values.get(name)?.shown.replace(/[\u202F\u00A0]/g, ' ')

describe('by hand: what a tape of 1/32 in adds up to', () => {
  // second dado at 343.35 mm = 13.51772 in, 17/32 is 0.3437 mm more; 18.1 mm wide = 45.606/64, 46/64 is 0.1563 mm more;
  // the first stands at 1 1/2 in exactly
  test('inside length', () => expect(value('rounding.inside-length.off') * 1000).toBeCloseTo(0.5, 3))

  // end 224.25 mm = 8.82874 in, 27/32 is 0.3812 mm more; the dado is 1/4 in exactly
  test('inside width', () => expect(value('rounding.inside-width.off') * 1000).toBeCloseTo(0.38125, 3))

  // base 285.15 mm = 11.22638 in, 7/32 is 0.1938 mm less: (0.5 + 0.1938) / 2
  test('gap along the length', () =>
    expect(value('rounding.base-gap-length.off') * 1000).toBeCloseTo(0.3469, 3))

  // grooves at 56.85, 114, 171.15, 228.3 and 69.55, 139.4 mm: 2.2382 in is 0.3 mm below 2 1/4, all the others alike
  test('the worst groove', () => expect(value('rounding.groove.off') * 1000).toBeCloseTo(0.3, 3))

  test('what is beyond its allowance is told to work to the millimetres, and nothing else', () => {
    const verdicts = rows(sheet.blocks.rounding).map((row) => row[4])
    expect(verdicts).toEqual([
      'the tape will do', 'the tape will do', 'work to the millimetres', 'work to the millimetres', 'the tape will do',
    ]) // biome-ignore format: one line reads better
  })

  test('the cut list gives the error of each size with its sign', () => {
    // side 399.55 mm = 15.7303 in, 23/32 is 0.2937 mm less; 13 1/2 in is exact
    expect(shown('part.side.lengthOff')).toBe('−0.3 mm')
    expect(shown('part.side.widthOff')).toBe('0.0 mm')
    // 224.25 mm: 0.38 mm more
    expect(shown('part.end.lengthOff')).toBe('+0.4 mm')
  })
})

describe('by hand: holes, hardware, water', () => {
  test('four rod holes, each from two edges', () => {
    // the gauge beside the mould has holes of its own
    const holes = rows(sheet.blocks.holes).filter(([part]) => part === 'Side')
    expect(holes).toHaveLength(4)
    // lip of 38.1 mm, in its middle; heights as the file has them; 399.55 − 19.05
    expect(value('part.side.rod-1-1.u') * 1000).toBeCloseTo(19.05, 9)
    expect(value('part.side.rod-1-2.u') * 1000).toBeCloseTo(380.5, 9)
    expect(value('part.side.rod-2-1.v') * 1000).toBeCloseTo(273.05, 9)
    expect(shown('part.side.rod-1-1.diameter')).toBe('9/32 in')
    expect(holes.every((row) => row[5] === 'through')).toBe(true)
  })

  test('two nuts and washers more than eight', () => {
    expect(value('hardware.hex-nut.count')).toBe(8)
    expect(value('hardware.hex-nut.spare')).toBe(2)
    expect(value('hardware.washer.spare')).toBe(2)
  })

  test('water to the line: 285.75 · 209.55 mm · 8 1/2 in at 998 kg/m3', () =>
    expect(value('mould.water.mass')).toBeCloseTo(0.28575 * 0.20955 * 0.2159 * 998, 6))

  test('two long strips and four short ones are counted out', () => {
    expect(value('strips.long')).toBe(2)
    expect(value('strips.short')).toBe(4)
  })
})

describe('by hand: one number for a part on every list', () => {
  test('the parts list counts from 1 to rod, washer and nut, and the cut list uses the same numbers', () => {
    // the gauge stands beside the mould, and so has no number in it
    const all = rows(sheet.blocks.parts)
    const parts = all.filter(([, name]) => name !== 'Set-up gauge')
    expect(all).toHaveLength(parts.length + 1)
    expect(parts.map((row) => row[0])).toEqual(parts.map((_, index) => `${index + 1}`))
    expect(parts.slice(-3).map((row) => row[1])).toEqual(['Rod', 'Washer', 'Nut'])
    const numbers = new Map(all.map((row) => [row[1], row[0]]))
    for (const row of rows(sheet.blocks.cuts)) expect(row[0]).toBe(numbers.get(row[1]))
  })

  test('the record asks for every size that may be typed back, by its name in the file', () => {
    const keys = rows(sheet.blocks.inspection).map((row) => row[1])
    for (const key of [
      'inside-length',
      'inside-width',
      'rim-above-bench',
      'base-length',
      'base-width',
      'base-height',
    ])
      expect(keys).toContain(key)
    expect(keys.filter((key) => key === 'grooves-across-length')).toHaveLength(4)
    expect(keys.filter((key) => key === 'grooves-across-width')).toHaveLength(2)
  })
})
