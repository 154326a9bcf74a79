/** The bar cutter of a fixture's file: what may be left out, what is looked up, and where a finding has its place. */
import { join } from 'node:path'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { placesOf } from '../../src/binder/finding-places.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { isSoak } from '../long.ts'
import { demo } from '../sites/edited-demo.ts'
import { contentOf, loadFiles, longerFile } from '../sites/small-binder.ts'

const BOARDS = '{ base: birch, platform: birch, fence: birch, frame: birch, upright: birch }'
const file = 'fixtures/small.yaml'
const section = (more = ''): Map<string, string> =>
  longerFile(file, `bar-cutter:\n  panels: ${BOARDS}\n  wire: 0.36 mm\n${more}`)
const bound = (more = '') => bind(contentOf(section(more))).binder.barCutters[0]!

describe('by hand: the section of a fixture', () => {
  test('may be left out', () => expect(bind(contentOf(longerFile(file, ''))).binder.barCutters).toEqual([]))

  test('needs boards and a wire only', () => {
    const { cutter, findings, boards } = bound()
    // 6 slices of 25 mm and 15 mm of trim; 25 mm is what a button of 20 and a finger's room need: a peg for each wire
    expect(cutter.wires).toHaveLength(6)
    expect(cutter.loaf.length).toBeCloseTo(0.165, 12)
    expect([cutter.loaf.width, cutter.loaf.height]).toEqual([0.07, 0.06])
    expect(cutter.staggered).toBe(false)
    expect(findings.filter(({ severity }) => severity === 'stop')).toEqual([])
    expect([...boards.keys()]).toEqual(['birch'])
  })

  test('has the pegs of the grid cutter and their rating, where it says nothing else', () => {
    const grid =
      'grid-cutter:\n  panels: { side: birch, end: birch, shelf: birch }\n  wire: 0.5 mm\n  peg: open-gear\n  peg-rating: 90 N\n  anchor: pin\n'
    const both = (more: string) =>
      bind(contentOf(longerFile(file, `${grid}bar-cutter:\n  panels: ${BOARDS}\n  wire: 0.5 mm\n${more}`)))
        .binder
    const { barCutters, gridCutters } = both('')
    expect(barCutters[0]!.cutter.input.peg).toEqual(gridCutters[0]!.cutter.input.peg)
    expect(barCutters[0]!.cutter.input.peg).toMatchObject({ key: 'open-gear', rating: 90 })
    expect(barCutters[0]!.cutter.input.anchor.key).toBe('pin')
    // pegs of its own have their own rating
    const own = both('  peg: sealed\n').barCutters[0]!.cutter.input.peg
    expect([own.key, own.rating]).toEqual(['sealed', 200])
  })

  test('takes what was measured', () => {
    const { cutter } = bound('  slot-width: 4 mm\n')
    expect(cutter.input.fence.slotWidth).toBeCloseTo(0.004, 12)
    expect(cutter.input.platform.grooveWidth).toBeCloseTo(0.003175, 12)
  })

  test('names boards that exist', () => {
    const { diagnostics } = loadFiles(
      longerFile(
        file,
        `bar-cutter:\n  panels: ${BOARDS.replace('fence: birch', 'fence: brich')}\n  wire: 0.5 mm\n`,
      ),
    )
    expect(diagnostics.map(({ code, path }) => [code, path])).toEqual([
      ['unknown-name', '/bar-cutter/panels/fence'],
    ])
  })

  test('says what is missing', () =>
    expect(
      loadFiles(longerFile(file, 'bar-cutter:\n  wire: 0.5 mm\n')).diagnostics.map(({ code }) => code),
    ).toEqual(['name-missing']))
})

describe('by hand: findings have their place in the file', () => {
  test.each([
    [
      '  groove-width: 1.2 mm\n',
      'bar-cutter-groove-too-narrow',
      ['bar-cutter: groove-width', 'bar-cutter: wire'],
    ],
    ['  handle: 60 mm\n', 'bar-cutter-handle-too-short', ['bar-cutter: handle']],
    ['  clearance: 0 mm\n', 'bar-cutter-frame-does-not-clear', ['bar-cutter: clearance']],
    [
      '  tension: 40 N\n  wire-depth: 2 mm\n',
      'bar-cutter-skin-left',
      ['bar-cutter: wire-depth', 'bar-cutter: tension'],
    ],
  ])('%s', (more, code, keys) => {
    const { findings, file: own } = bound(more)
    const finding = findings.find((one) => one.code === code)!
    expect(placesOf(own, finding).map(({ key }) => key)).toEqual(keys)
  })
})

describe('by hand: whatever a section may hold', () => {
  test('every number is one, every finding has words', () => {
    const words = readCatalogue('en')
    const millimetres = (min: number, max: number) =>
      fc.integer({ min: min * 10, max: max * 10 }).map((value) => `${value / 10} mm`)
    const any = fc.record({
      tension: fc.integer({ min: 5, max: 1000 }).map((value) => `${value} N`),
      'platform-height': millimetres(50, 400),
      'groove-width': millimetres(0.5, 20),
      'groove-depth': millimetres(1, 50),
      'slot-width': millimetres(0.5, 20),
      'fence-height': fc.integer({ min: 30, max: 110 }).map((value) => `${value} %`),
      'front-rail-width': millimetres(20, 200),
      'back-rail-width': millimetres(20, 200),
      'arm-width': millimetres(20, 120),
      handle: millimetres(20, 300),
      clearance: millimetres(0, 30),
    })
    const codes = new Set<string>()
    fc.assert(
      fc.property(any, (settings) => {
        const lines = Object.entries(settings).map(([key, value]) => `  ${key}: ${value}\n`)
        const { cutter, findings } = bound(lines.join(''))
        expect(JSON.stringify(cutter)).not.toMatch(/null/)
        for (const { code } of findings) {
          codes.add(code)
          expect(words.has(`finding.${code}`), code).toBe(true)
        }
      }),
      { seed: 5, numRuns: isSoak ? 50 : 10 },
    )
    expect(codes.size).toBeGreaterThan(isSoak ? 5 : 3)
  })
})

describe('by hand: the demo', () => {
  test('slices 7 bars and trims the top with 7 wires, and nothing is wrong with its cutter', async () => {
    const { files } = await readFolder(join(demo), 'content', FILE_KINDS)
    const { content } = loadContent(files, 'content')
    const [only] = bind(content!).binder.barCutters
    expect(only?.cutter.wires).toHaveLength(7)
    // 0.014 in
    expect(only?.cutter.input.wire.diameter).toBeCloseTo(0.0003556, 9)
    expect(only?.findings.filter(({ severity }) => severity !== 'warn')).toEqual([])
  })
})
