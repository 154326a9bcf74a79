/** From builds and boards to what is sawn: every part is a blank, areas and costs add up, what cannot be is named. */
import { beforeAll, describe, expect, test } from 'vitest'
import { type BoundBinder, bind } from '../../src/binder/bind.ts'
import type { BoundBuild } from '../../src/binder/bind-build.ts'
import type { Part } from '../../src/geometry/part.ts'
import { BUILD_PIECES } from '../../src/schema/build.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import type { Region } from '../../src/sheet-stock/types.ts'
import { type Edits, editedDemo, pressOf } from '../sites/edited-demo.ts'
import { bindAndCompose, contentOf, editedFiles, loadFiles, smallBinderFiles } from '../sites/small-binder.ts'

const BUILD = 'builds/first-set.yaml'

const bound = async (
  edits: Edits = {},
): Promise<{ binder: BoundBinder; build: BoundBuild; codes: string[] }> => {
  const { folder, remove } = editedDemo(edits)
  try {
    const { content, diagnostics } = loadContent((await readFolder(folder, 'shop', FILE_KINDS)).files, 'shop')
    if (!content) throw new Error(diagnostics.map(({ message }) => message).join('; '))
    const { binder, diagnostics: wrong } = bind(content)
    return { binder, build: binder.builds[0] as BoundBuild, codes: wrong.map(({ code }) => code) }
  } finally {
    remove()
  }
}

let demo: { binder: BoundBinder; build: BoundBuild }
beforeAll(async () => {
  demo = await bound()
}, 120_000)

const copies = (parts: readonly Part[]): number => parts.reduce((sum, { count }) => sum + count, 0)
const areaOf = (parts: readonly Part[]): number =>
  parts.reduce((sum, { count, length, width }) => sum + count * length * width, 0)
const piecesIn = (region: Region): string[] =>
  region.kind === 'cut'
    ? [...piecesIn(region.first), ...(region.second ? piecesIn(region.second) : [])]
    : region.kind === 'blank'
      ? [region.key ?? '']
      : []

describe('by hand: the demo’s build of everything', () => {
  test('makes what the fixture has, in the order of its use', () => {
    expect(demo.build.items.map(({ piece }) => piece)).toEqual(
      BUILD_PIECES.filter((piece) => piece !== 'lever-press'),
    )
    expect(demo.build.leftOut).toEqual([])
    expect(demo.build.findings).toEqual([])
  })

  test('has a blank for every copy of every part of all its fixtures', () => {
    const { moulds, gridCutters, barCutters, trialFrames } = demo.binder
    const parts = [
      ...moulds.flatMap(({ mould, gauge }) => [...mould.parts, ...(gauge ? [gauge.part] : [])]),
      ...gridCutters.flatMap(({ cutter }) => cutter.parts),
      ...barCutters.flatMap(({ cutter }) => cutter.parts),
      ...trialFrames.flatMap(({ trial }) => trial.parts),
    ]
    const blanks = demo.build.materials.flatMap((material) => material.blanks)
    expect(blanks.reduce((sum, { count }) => sum + count, 0)).toBe(copies(parts))
    for (const { material, blankArea, laidArea, blanks: own } of demo.build.materials) {
      // base top and rails are sawn 6 mm larger each way: their area and 6 mm times both of their sides
      const more = own
        .filter(({ fitted }) => fitted?.isOversize)
        .reduce((sum, { made, count }) => sum + count * 0.006 * (made.length + made.width + 0.006), 0)
      const area = areaOf(parts.filter((part) => part.material === material))
      expect(blankArea, material).toBeCloseTo(area + more, 9)
      expect(laidArea, material).toBe(blankArea)
    }
    expect(new Set(blanks.map(({ key }) => key)).size).toBe(blanks.length)
  })

  test('lays each blank as often as it is wanted', () => {
    for (const { blanks, layout } of demo.build.materials) {
      const laid = layout.boards.flatMap(({ region }) => piecesIn(region))
      for (const { key, count } of blanks) expect(laid.filter((one) => one === key).length, key).toBe(count)
      expect(layout.left).toEqual([])
    }
  })

  test('lays the grain of a part along the grain of its board, and turns plastic only', () => {
    const blanks = demo.build.materials.flatMap(({ grain, blanks: own }) =>
      own.map((blank) => ({ ...blank, grain })),
    )
    for (const { key, length, width, made, turns, grain, fitted } of blanks) {
      const [long, wide] = made.grain === 'length' ? [made.length, made.width] : [made.width, made.length]
      // what is fitted later is sawn 6 mm larger each way; plastic waits for its step
      const more = fitted && grain ? 0.006 : 0
      expect([length, width], key).toEqual([long + more, wide + more])
      expect(fitted?.isOversize ?? false, key).toBe(more > 0)
      expect(turns, key).toBe(!grain)
    }
    expect(blanks.some(({ made }) => made.grain === 'width')).toBe(true)
    expect(blanks.some(({ turns }) => turns)).toBe(true)
  })

  test('begins with the board that stands in the shop, which costs nothing', () => {
    const birch = demo.build.materials.find(({ material }) => material === 'birch-18')
    expect(birch?.boards[0]).toMatchObject({
      from: 'shop',
      count: 1,
      cost: 0,
      label: 'offcut from the bench',
    })
    expect(birch?.used[0]?.board.from).toBe('shop')
    expect(birch?.boards.slice(1).map(({ cost, count }) => [cost, count])).toEqual([
      [9400, Number.POSITIVE_INFINITY],
      [5500, Number.POSITIVE_INFINITY],
      [3100, Number.POSITIVE_INFINITY],
    ])
    // 1/4 in off each edge of what is bought, nothing off an offcut; 1/8 in saw cuts
    expect(birch?.boards.map(({ trim }) => trim)).toEqual([0, 0.00635, 0.00635, 0.00635])
    expect(demo.build.saw.kerf).toBeCloseTo(0.003175, 12)
  })

  test('counts as waste what becomes of no part', () => {
    for (const { waste, blankArea, boardArea } of demo.build.materials) {
      expect(waste).toBeCloseTo((boardArea - blankArea) / boardArea, 9)
      expect(waste).toBeGreaterThan(0)
      expect(waste).toBeLessThan(1)
    }
  })
})

describe('by hand: builds that a maker writes', () => {
  test('make some pieces, as often as is said', async () => {
    const { build } = await bound({
      [BUILD]: 'title: Two moulds\nfixtures:\n  five-by-three: { pieces: [mould], how-many: 2 }\n',
    })
    expect(build.items.map(({ piece, count }) => [piece, count])).toEqual([['mould', 2]])
    const all = (of: BoundBuild, piece: string): number =>
      of.materials
        .flatMap(({ blanks }) => blanks)
        .filter((blank) => blank.piece === piece)
        .reduce((sum, { count }) => sum + count, 0)
    expect(all(build, 'mould')).toBe(2 * all(demo.build, 'mould'))
    expect(all(build, 'bar-cutter')).toBe(0)
    // twice ten nuts are one box of 25, and twice two rods four
    const line = (kind: string) => build.quote.hardware.find((one) => one.kind === kind)
    expect(line('hex-nut')).toMatchObject({ count: 20, offer: { packs: 1, pack: 25 }, cost: 625 })
    expect(line('rod-stock')).toMatchObject({ count: 4, offer: { packs: 4 }, cost: 4 * 740 })
  })

  test('leave out what does not stand, and say so', async () => {
    const { build } = await bound({
      'fixtures/five-by-three.yaml': [['  wire: 0.020 in', '  skirt: 10 mm\n  wire: 0.020 in']],
    })
    expect(build.leftOut).toEqual([
      { fixture: 'five-by-three', title: 'Block mould, five by three', piece: 'grid-cutter' },
    ])
    expect(build.items.map(({ piece }) => piece)).toEqual([
      'set-up-gauge',
      'mould',
      'bar-cutter',
      'trial-frame',
    ])
    expect(build.materials.flatMap(({ blanks }) => blanks).some(({ piece }) => piece === 'grid-cutter')).toBe(
      false,
    )
  })

  test('where nothing stands there is nothing to make', async () => {
    const { build } = await bound({ 'fixtures/five-by-three.yaml': [['depth: 1/4 in', 'depth: 5/8 in']] })
    expect(build.items.map(({ piece }) => piece)).toEqual(['trial-frame'])
    const { build: none } = await bound({
      'fixtures/five-by-three.yaml': [['depth: 1/4 in', 'depth: 5/8 in']],
      [BUILD]: 'title: A mould\nfixtures:\n  five-by-three: { pieces: [mould] }\n',
    })
    expect(none.items).toEqual([])
    expect(none.findings).toMatchObject([{ code: 'build-nothing-stands', severity: 'stop' }])
  })

  test('a press is sawn from panels and lumber: lumber is bought by its length', async () => {
    const { build } = await bound(pressOf())
    const press = build.items.find(({ piece }) => piece === 'lever-press')
    expect(press?.parts.some(({ material }) => material === 'lumber-38')).toBe(false)
    expect(build.materials.some(({ material }) => material === 'lumber-38')).toBe(false)
    const lumber = build.quote.hardware.find(({ kind }) => kind === 'lumber')
    expect(lumber?.length).toBeGreaterThan(1)
    expect(lumber?.cost).toBeUndefined()
    expect(build.quote.total.without).toContain('lumber')
  })

  test('a trial frame that is made alone buys its pegs; beside its grid cutter it borrows them', async () => {
    const { build } = await bound({
      [BUILD]: 'title: Trial\nfixtures:\n  five-by-three: { pieces: [trial-frame] }\n',
    })
    const pegs = (of: BoundBuild): number => of.quote.hardware.find(({ kind }) => kind === 'peg')?.count ?? 0
    // three wires and a spare one
    expect(pegs(build)).toBe(4)
    const { gridCutters, barCutters } = demo.binder
    const cutters = [...gridCutters, ...barCutters]
      .flatMap(({ cutter }) => cutter.hardware)
      .filter(({ key }) => key === 'peg')
      .reduce((sum, { count, spare }) => sum + count + spare, 0)
    expect(pegs(demo.build)).toBe(cutters)
  })
})

describe('by hand: a shop without sizes or prices', () => {
  test('has one build of everything, on panels that are enough', () => {
    const { binder } = bindAndCompose(contentOf(smallBinderFiles()))
    const [build] = binder.builds
    expect(binder.builds.length).toBe(1)
    expect(build?.title).toBeUndefined()
    expect(build?.items.map(({ piece }) => piece)).toEqual(['mould'])
    for (const { used, layout, costIs } of build?.materials ?? []) {
      expect(used.map(({ board, count }) => [board.from, count])).toEqual([['asked', 1]])
      expect(layout.left).toEqual([])
      expect(costIs).toBe('area')
    }
    expect(build?.findings.map(({ code }) => code)).toEqual(Array(3).fill('board-size-unknown'))
    expect(build?.quote.total).toMatchObject({ low: 0, high: 0 })
    expect(build?.quote.currency).toBeUndefined()
  })

  test('uses its own boards first', () => {
    const files = editedFiles([
      'shop.yaml',
      'units:\n',
      'boards-in-shop:\n  - { panel: birch, length: 1 m, width: 1 m }\n\nunits:\n',
    ])
    const { binder } = bindAndCompose(contentOf(files))
    const birch = binder.builds[0]?.materials.find(({ material }) => material === 'birch')
    expect(birch?.used.map(({ board, count }) => [board.from, count])).toEqual([['shop', 1]])
  })

  test('reckons by area where one of the sizes has no price', () => {
    const files = editedFiles(
      ['shop.yaml', 'units:\n', 'currency: EUR\n\nunits:\n'],
      [
        'materials/all.yaml',
        'birch: { name: Birch plywood, thickness: 18 mm, density: 680 kg/m3 }',
        'birch: { name: Birch plywood, thickness: 18 mm, density: 680 kg/m3, sheets: [{ length: 1 m, width: 1 m, price: 30 EUR }, { length: 2 m, width: 1 m }] }',
      ],
    )
    const { binder } = bindAndCompose(contentOf(files))
    const birch = binder.builds[0]?.materials.find(({ material }) => material === 'birch')
    expect(birch?.costIs).toBe('area')
    expect(birch?.boards.map(({ cost, price }) => [cost, price])).toEqual([
      [1, 3000],
      [2, undefined],
    ])
  })
})

describe('by hand: stock that cannot be', () => {
  const codesOf = (files: ReadonlyMap<string, string>): string[] =>
    loadFiles(files).diagnostics.map(({ code, message }) => `${code}: ${message}`)

  test('a panel without its thickness', () => {
    const files = editedFiles([
      'materials/all.yaml',
      'birch: { name: Birch plywood, thickness: 18 mm,',
      'birch: { name: Birch plywood, sheets: [{ length: 1 m, width: 1 m }],',
    ])
    const [first] = loadFiles(files).diagnostics
    expect(first).toMatchObject({
      code: 'name-missing',
      path: '/panels/birch',
      message: '"thickness" is missing here',
    })
  })

  test('a board in the shop of a panel that nobody knows', () => {
    const files = editedFiles([
      'shop.yaml',
      'units:\n',
      'boards-in-shop:\n  - { panel: brich, length: 1 m, width: 1 m }\n\nunits:\n',
    ])
    const [first] = loadFiles(files).diagnostics
    expect(first).toMatchObject({
      code: 'unknown-name',
      path: '/boards-in-shop/0/panel',
      advice: 'Did you mean "birch"?',
    })
  })

  test('a build of a fixture that is not there, with a price elsewhere: both are told', () => {
    const files = editedFiles(['shop.yaml', 'units:\n', 'friend: { hourly-rate: 30 }\n\nunits:\n'])
    files.set('builds/set.yaml', 'title: All\nfixtures:\n  smal: { how-many: 1 }\n')
    expect(codesOf(files).map((one) => one.split(':')[0])).toEqual(
      expect.arrayContaining(['unknown-name', 'currency-missing']),
    )
  })

  test('a text that only looks like a price is none', () => {
    const files = editedFiles(['shop.yaml', 'name: Alder Yard', 'name: 30 EUR'])
    expect(codesOf(files)).toEqual([])
  })

  test('a sheet that is too small for one part, and saw cuts wider than another, stop the binder', async () => {
    const small = await bound({
      'materials/panels.yaml': [
        ['length: 760 mm, width: 760 mm, price: 39 USD', 'length: 200 mm, width: 200 mm, price: 9 USD'],
        ['length: 760 mm, width: 380 mm, price: 22.50 USD', 'length: 300 mm, width: 200 mm, price: 12 USD'],
      ],
      'shop.yaml': [['  kerf: 1/8 in', '  kerf: 3/4 in']],
    })
    expect(small.codes).toEqual(['sheet-too-small', 'kerf-wider-than-part'])
    expect(small.binder.builds).toEqual([])
  })
})
