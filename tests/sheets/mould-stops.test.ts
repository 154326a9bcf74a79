/** A mould that contradicts itself: its page names both sizes and where the maker wrote them. */
import { describe, expect, test } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { bindAndCompose, contentOf, type Edit, editedFiles, loadFiles } from '../sites/small-binder.ts'
import { linesOf } from './rows.ts'

const FILE = 'fixtures/small.yaml'

const stopped = (...edits: readonly (readonly [string, string])[]): Sheet => {
  const files = editedFiles(...edits.map(([from, to]): Edit => [FILE, from, to]))
  return bindAndCompose(contentOf(files)).sheets.find(({ id }) => id === 'fixture/small')!
}

describe('by hand: two sizes that contradict each other, and their lines', () => {
  test('a panel thinner than its dado', () => {
    const sheet = stopped(['depth: 6 mm', 'depth: 20 mm'])
    expect(linesOf(sheet.blocks.stop)).toEqual([
      // 20 / 25.4 · 16 = 12.6, 18 / 25.4 · 16 = 11.3, half of 18 mm to the 64th: 22.7
      'The dado is 20 mm (13/16 in) deep; in a side of 18 mm (11/16 in) it may be 9.0 mm (23/64 in).',
    ])
    expect(linesOf(sheet.blocks.remedies)).toEqual([
      'Make the dado shallower, or the sides thicker. In fixtures/small.yaml, “dado: depth”, “panels: side”.',
    ])
  })

  test('bars larger than the block that the finished mould can hold', () => {
    const sheet = stopped(['strip-width: 50 mm', 'strip-width: 50 mm\nas-built: { inside-length: 170 mm }'])
    expect(linesOf(sheet.blocks.stop).join()).toMatch(/168 mm .* long; .* need 180 mm/)
    expect(linesOf(sheet.blocks.remedies).join()).toContain('“as-built: inside-length”')
  })

  test('rods that meet', () => {
    const sheet = stopped(['heights: [50 mm, 240 mm]', 'heights: [50 mm, 60 mm]'])
    expect(linesOf(sheet.blocks.stop)[0]).toMatch(/10(\.0)? mm .* apart; their washers need 18 mm/)
    expect(linesOf(sheet.blocks.remedies)[0]).toContain('“rods: heights”')
  })

  test('a base that does not enter with its lining', () => {
    const sheet = stopped(['clearance: 1.2 mm', 'clearance: 0.4 mm'])
    expect(linesOf(sheet.blocks.stop)[0]).toMatch(/clearance of 0\.4 mm .* lining .* 1\.0 mm/)
    expect(linesOf(sheet.blocks.remedies)[0]).toContain('“base: clearance”, “lining”')
  })

  test('four at once are all told, each once', () => {
    const sheet = stopped(
      ['depth: 6 mm', 'depth: 20 mm'],
      ['heights: [50 mm, 240 mm]', 'heights: [50 mm, 60 mm]'],
      ['groove-width: 3 mm', 'groove-width: 2 mm'],
      ['short-wires: 10 mm', 'short-wires: 7 mm'],
    )
    expect(sheet.stopped?.map(({ code }) => code).sort()).toEqual([
      'mould-dado-too-deep',
      'mould-groove-strip-too-thick',
      'mould-rods-meet',
      'mould-short-wires-do-not-lead',
    ])
    expect(sheet.stopped?.every(({ place }) => /^fixtures\/small\.yaml:\d+$/.test(place ?? ''))).toBe(true)
  })

  test('a negative clearance is a mistake of typing, told with its place before anything is bound', () => {
    const files = editedFiles([FILE, 'clearance: 1.2 mm', 'clearance: -1 mm'])
    const { content, diagnostics } = loadFiles(files)
    expect(content).toBeUndefined()
    expect(diagnostics.map(({ path, file }) => `${file} ${path}`)).toEqual([`${FILE} /base/clearance`])
  })

  test('no cut size stands on the page that took the place of the sheet', () => {
    const sheet = stopped(['depth: 6 mm', 'depth: 20 mm'])
    expect([...sheet.values.keys()].filter((name) => /^(part|drawing|mould)\./.test(name))).toEqual([])
  })
})
