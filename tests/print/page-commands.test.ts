import { describe, expect, it } from 'vitest'
import { readPageCommands, showsMissingGlyph } from '../../src/print/page-commands.ts'

/** A page as the browser writes it: foot line first, then content placed 45 px from the left. */
const page = (scale: string, drawing = '0 0 m\n100 0 l\nS') => `.23999999 0 0 -.23999999 0 792 cm
q
3.125 0 0 3.125 0 0 cm
500 1000 271 1 re
f
BT
<00360037> Tj
ET
Q
q
140.625 293.75 3016.6 2077.5 re
W* n
q
${scale} 0 0 ${scale} 140.625 178.125 cm
${drawing}
Q
Q`

describe('by hand: scale of a page', () => {
  // 0.23999999 × 3.125 = 0.74999997
  it('knows the true scale', () => {
    expect(readPageCommands(page('3.125'))).toMatchObject({ placements: 1, hasTrueScale: true })
  })

  it('knows a page that was shrunk, though its foot line was not', () => {
    expect(readPageCommands(page('3.1249'))).toMatchObject({ placements: 1, hasTrueScale: false })
  })

  it('takes no content for a foot line on a page that has none', () => {
    // without margins content is placed from the corner, as a foot line is
    const bare = (scale: string): string =>
      `.23999999 0 0 -.23999999 0 792 cm\nq\n${scale} 0 0 ${scale} 0 0 cm\nQ`
    expect(readPageCommands(bare('3.125'), false, false)).toMatchObject({ placements: 1, hasTrueScale: true })
    expect(readPageCommands(bare('3.1249'), false, false)).toMatchObject({
      placements: 1,
      hasTrueScale: false,
    })
  })

  it('has no placement on a blank page', () => {
    expect(readPageCommands('')).toEqual({ placements: 0, hasTrueScale: false, extents: [] })
  })
})

describe('by hand: lengths of painted paths', () => {
  /** 100 px at 0.75 pt are 75 pt, 26.458 mm. */
  const inMillimetres = (75 / 72) * 25.4

  it('measures lines on paper and leaves out paths that only clip', () => {
    const { extents } = readPageCommands(page('3.125'), true)
    expect(extents).toHaveLength(2)
    expect(extents[0]?.width).toBeCloseTo((271 * 0.75 * 25.4) / 72, 4)
    expect(extents[1]?.width).toBeCloseTo(inMillimetres, 4)
    expect(extents[1]?.height).toBe(0)
  })

  it('takes a path of several strokes as one, curves by their hull, rectangles by their corners', () => {
    const strokes = readPageCommands(page('3.125', '0 0 m\n0 100 l\n10 5 m\n20 5 l\nS'), true)
    expect(strokes.extents[1]?.height).toBeCloseTo(inMillimetres, 4)
    const curve = readPageCommands(page('3.125', '0 0 m\n0 50 50 100 100 0 c\nS'), true)
    expect(curve.extents[1]?.height).toBeCloseTo(inMillimetres, 4)
    const box = readPageCommands(page('3.125', '5 5 100 -100 re\nf'), true)
    expect(box.extents[1]?.height).toBeCloseTo(inMillimetres, 4)
  })
})

describe('by hand: a glyph for "no such character"', () => {
  it.each([
    ['<0000> Tj', true],
    ['<00360000> Tj', true],
    ['<003600000037> Tj', true],
    ['<0036> Tj', false],
    // four zeros across two glyphs are no zero glyph
    ['<3600003700> Tj', false],
    ['<10000001> Tj', false],
    ['/ActualText <0000>', false],
  ])('%s', (commands, missing) => {
    expect(showsMissingGlyph(`BT\n${commands}\nET`)).toBe(missing)
  })
})
