import { describe, expect, test } from 'vitest'
import { outside } from './outside.ts'

/** Ten figures of the font are 5.72 type sizes wide (advance of 572 units, read from the font). */
const svg = (text: string): string =>
  `<svg viewBox="0 0 40 20" width="40mm"><g transform="translate(10 5)">${text}</g></svg>`
const at = (x: number, more = '', y = 3): string =>
  `<text class="note-text" x="${x}" y="${y}" font-size="3" text-anchor="middle"${more}>0000000000</text>`

describe('by hand: lettering outside its drawing', () => {
  test('is found at either side, where it is moved to', () => {
    // 17.2 mm wide: from 11.4 to 28.6, to 40.6, from -1.6
    expect(outside(svg(at(10)))).toEqual([])
    expect(outside(svg(at(22)))).toEqual(['0000000000'])
    expect(outside(svg(at(-3)))).toEqual(['0000000000'])
  })

  test('is found above and below where it is turned', () => {
    expect(outside(svg(at(10, ' transform="rotate(-90 10 5)"', 5)))).toEqual([])
    expect(outside(svg(at(10, ' transform="rotate(-90 10 9)"', 9)))).toEqual(['0000000000'])
  })

  test('begins at its place where it does', () => {
    const start = '<text x="20" y="3" font-size="3" text-anchor="start">0000000000</text>'
    expect(outside(svg(start))).toEqual(['0000000000'])
    expect(outside(svg(start.replace('x="20"', 'x="12"')))).toEqual([])
  })
})
