/** From the section of a fixture to its grid cutter: what is derived where the maker says nothing, and where a misfit stands. */
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import type { BoundGridCutter } from '../../src/binder/bind-grid-cutter.ts'
import { placesOf } from '../../src/binder/finding-places.ts'
import { contentOf, editedFiles, smallBinderFiles } from '../sites/small-binder.ts'

/** Grooves and strips that a wire of half a millimetre needs in this mould. */
const WIDE = [
  'groove-width: 3 mm, groove-depths: { short-wires: 10 mm, long-wires: 6 mm }',
  'groove-width: 5 mm, groove-depths: { short-wires: 15 mm, long-wires: 10 mm }',
] as const
const FILE = 'fixtures/small.yaml'

const bound = (section: string, grooves: string = WIDE[1]): BoundGridCutter => {
  const files = editedFiles(
    [FILE, WIDE[0], grooves],
    [FILE, 'base-top: birch', 'base-top: thick'],
    ['materials/all.yaml', '  sheet: {', '  thick: { name: Thick, thickness: 24 mm, density: 680 kg/m3 }\n  thin: { name: Thin, thickness: 12 mm, density: 690 kg/m3 }\n  sheet: {'],
    ['materials/all.yaml', 'name: Polyethylene sheet, thickness: 2.8 mm', 'name: Polyethylene sheet, thickness: 4.8 mm'],
  ) // biome-ignore format: one edit a line
  files.set(
    FILE,
    `${files.get(FILE)}grid-cutter:\n  panels: { side: birch, end: birch, shelf: thin }\n${section}`,
  )
  const [cutter] = bind(contentOf(files)).binder.gridCutters
  if (!cutter) throw new Error('no cutter')
  return cutter
}
/** what keeps it from being built or used */
const codes = ({ findings }: BoundGridCutter): string[] =>
  findings.filter(({ severity }) => severity !== 'warn').map(({ code }) => code)
const placed = (cutter: BoundGridCutter, code: string): string[] => {
  const finding = cutter.findings.find((one) => one.code === code)
  return finding ? placesOf(cutter.file, finding).map(({ key }) => key) : []
}

describe('by hand: a block of 3 by 2 loaves', () => {
  test('a fixture that asks for none has none', () =>
    expect(bind(contentOf(smallBinderFiles())).binder.gridCutters).toEqual([]))

  test('wire and boards are enough', () => {
    const found = bound('  wire: 0.5 mm\n')
    expect(codes(found)).toEqual([])
    const { cutter } = found
    // 2 wires across the length of 180 mm, 1 across the width of 140
    expect(cutter.layers.map(({ count }) => count)).toEqual([2, 1])
    // bow of the sides under batter and 1 mm; the lined room is the block
    expect(cutter.input.clearance).toBeCloseTo(cutter.input.bow + 0.001, 9)
    expect(cutter.input.bow).toBeGreaterThan(0)
    expect(cutter.inside.length).toBeCloseTo(0.18 + 2 * cutter.input.clearance, 9)
    // 4 in beyond ends of 18 mm
    expect(cutter.outside.length).toBeCloseTo(cutter.inside.length + 2 * (0.018 + 0.1016), 9)
    // dadoes as in the mould
    expect(cutter.input.dado).toEqual({ depth: 0.006, fitAllowance: expect.closeTo(0.0003, 9) })
    expect([...found.panelNames.keys()]).toEqual(['birch', 'thin'])
  })

  test('lag is that of the wires tuned to what strength and peg ask for, in soap of 100 N/m', () => {
    const { cutter, wires } = bound('  wire: 0.5 mm\n')
    const [short, long] = wires.groups
    // 0.6 of a peg of 200 N; a quarter of 475 N would be less: 118, in steps of 5
    expect([short?.tension, long?.tension]).toEqual([115, 115])
    expect(cutter.input.wire.lag).toEqual({
      short: short?.chosen.loaded.usual.lag,
      long: long?.chosen.loaded.usual.lag,
    })
    // 1.5 mm through
    expect(cutter.layers[1]?.overTravel).toBeCloseTo(cutter.input.wire.lag.long + 0.0015, 9)
  })
})

describe('by hand: what contradicts each other is named with its lines', () => {
  test('a wire as thick as its groove', () => {
    const found = bound(
      '  wire: 1.5 mm\n',
      'groove-width: 1.5 mm, groove-depths: { short-wires: 15 mm, long-wires: 10 mm }',
    )
    expect(codes(found)).toContain('grid-wire-thicker-than-groove')
    expect(placed(found, 'grid-wire-thicker-than-groove')).toEqual([
      'grid-cutter: wire',
      'base: groove-width',
    ])
  })

  test('grooves that the wires do not reach the bottom of with room', () => {
    const shallow = 'groove-width: 5 mm, groove-depths: { short-wires: 7 mm, long-wires: 5 mm }'
    const found = bound('  wire: 0.5 mm\n', shallow)
    expect(codes(found)).toEqual(
      expect.arrayContaining(['grid-short-groove-too-shallow', 'grid-long-groove-too-shallow']),
    )
    expect(placed(found, 'grid-short-groove-too-shallow')).toEqual(['base: groove-depths: short-wires'])
  })

  test('layers that touch under load', () => {
    const found = bound('  wire: 0.5 mm\n  layer-gap: 2 mm\n')
    expect(codes(found)).toContain('grid-layers-touch')
    expect(placed(found, 'grid-layers-touch')).toEqual(['grid-cutter: layer-gap'])
  })

  test('a frame that cannot clear the block', () => {
    const found = bound('  wire: 0.5 mm\n  clearance: 0.2 mm\n')
    expect(codes(found)).toContain('grid-frame-does-not-clear')
    expect(placed(found, 'grid-frame-does-not-clear')).toEqual(['grid-cutter: clearance'])
  })

  test('nothing is proved of what does not stand', () => {
    const files = bound('  wire: 0.5 mm\n  clearance: 0.2 mm\n')
    expect(files.proof).toBeUndefined()
  })
})
