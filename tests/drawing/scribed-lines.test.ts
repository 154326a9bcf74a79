/** Lines that are scribed along a part: a place to be read, nothing to be cut. */
import { describe, expect, test } from 'vitest'
import { partSheet } from '../../src/drawing/part-sheet.ts'
import { ordinates } from '../../src/drawing/part-stations.ts'
import { templateShapes } from '../../src/drawing/templates/template-features.ts'
import { partTemplate } from '../../src/drawing/templates/template-tiles.ts'
import { partVolume } from '../../src/geometry/cells.ts'
import type { Part } from '../../src/geometry/part.ts'
import { ROOMS, templateOptions } from './template-words.ts'

const board: Part = {
  key: 'cutter-side',
  count: 2,
  length: 0.4,
  width: 0.1,
  thickness: 0.018,
  material: 'm',
  density: 700,
  grain: 'length',
  features: [
    { kind: 'scribe', name: 'mark-1', at: 0.04 },
    { kind: 'scribe', name: 'mark-2', at: 0.09 },
  ],
  placements: [],
  handed: false,
}
const words = {
  face: {},
  edgeView: '',
  endEdgeView: '',
  detail: '',
  through: '',
  bevel: '',
  grain: '',
  make: '',
  recess: '',
  notch: '',
  deep: '',
  fold: '',
  scribe: 'line',
  thick: '',
}

describe('by hand: a board with lines 40 and 90 mm above its edge', () => {
  test('is as heavy as without them', () => expect(partVolume(board)).toBeCloseTo(0.4 * 0.1 * 0.018, 12))

  test('has each of them located once, from the left', () => {
    const [row, ...more] = ordinates(board)
    expect(more).toEqual([])
    expect(row?.side).toBe('left')
    expect(row?.stations.map(({ at, locates }) => [at.y, locates])).toEqual([
      [0.04, ['mark-1.at']],
      [0.09, ['mark-2.at']],
    ])
  })

  test('shows them from end to end, with a note each', () => {
    const { top } = partSheet(board, words, () => ({ shown: '18 mm' }))
    const lines = (top?.extras ?? []).filter(({ kind }) => kind === 'line')
    expect(lines).toEqual([
      { kind: 'line', class: 'phantom', a: { x: 0, y: 0.04 }, b: { x: 0.4, y: 0.04 } },
      { kind: 'line', class: 'phantom', a: { x: 0, y: 0.09 }, b: { x: 0.4, y: 0.09 } },
    ])
    const notes = (top?.dimensions ?? []).flatMap((one) => (one.kind === 'leader' ? [one.name] : []))
    expect(notes).toEqual(['part.cutter-side.mark-1.note', 'part.cutter-side.mark-2.note'])
  })

  test('has them on its template, 40 and 90 mm up, 400 mm long', () => {
    expect(templateShapes(board).map(({ kind, lines }) => [kind, lines[0]?.a.y, lines[0]?.b.x])).toEqual([
      ['scribe', 40, 400],
      ['scribe', 90, 400],
    ])
    for (const room of Object.values(ROOMS))
      expect(partTemplate(board, templateOptions(room))?.pages.length).toBeGreaterThan(0)
  })
})
