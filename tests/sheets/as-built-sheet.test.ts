/** The page of readings: readings that are as drawn change nothing, others change what hangs on them and nothing else. */
import fc from 'fast-check'
import { beforeAll, describe, expect, test } from 'vitest'
import { bind } from '../../src/binder/bind.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { asBuiltSheet } from '../../src/sheets/as-built/as-built-sheet.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import { sectionNumbers } from '../../src/sheets/fixture/fixture-numbers.ts'
import type { Inline, Sheet, Value } from '../../src/sheets/model.ts'
import { type Binder, composeEdited, type Edits, editedDemo, MOULD, sheetOf } from '../sites/edited-demo.ts'
import { plain, saidOf } from './rows.ts'

const FIXTURE = 'fixtures/five-by-three.yaml'
const PAGE = 'as-built/five-by-three'
const WIRES = 'wires/five-by-three'
const GRID = 'grid-cutter/five-by-three'
const BAR = 'bar-cutter/five-by-three'

const typed = (readings: string): Edits => ({
  [FIXTURE]: [['strip-width: 2 in\n', `strip-width: 2 in\nas-built:\n${readings}`]],
})

let drawn: Binder
let page: Sheet
beforeAll(async () => {
  drawn = await composeEdited({})
  page = sheetOf(drawn, PAGE)
})

/** The page alone, where no other sheet is asked for: fixtures are neither drawn nor proved. */
const pageAlone = async (readings: string): Promise<Sheet> => {
  const { folder, remove } = editedDemo(typed(readings))
  try {
    const { content, diagnostics } = loadContent((await readFolder(folder, 'shop', FILE_KINDS)).files, 'shop')
    if (!content) throw new Error(diagnostics.map(({ message }) => message).join('; '))
    const bound = bind(content)
    expect(bound.diagnostics).toEqual([])
    const [asBuilt] = bound.binder.asBuilt
    const numbers = asBuilt && sectionNumbers(bound.binder).fixtures.get(asBuilt.key)
    if (!asBuilt || !numbers) throw new Error('No page of readings.')
    return asBuiltSheet(drawn.frame, asBuilt, numbers)
  } finally {
    remove()
  }
}

const read = (sheet: Sheet, name: string): number => Number(sheet.values.get(name)?.value)
const millimetres = (name: string): string => `${read(page, `as-built.${name}.drawn`) * 1000} mm`
const row = (key: string, count: number): string =>
  `[${Array.from({ length: count }, (_, index) => millimetres(`${key}-${index + 1}`)).join(', ')}]`

const isSame = (one: Value | undefined, other: Value): boolean => {
  if (!one || one.shown !== other.shown || one.unit !== other.unit) return false
  if (typeof one.value === 'string' || typeof other.value === 'string') return one.value === other.value
  return Math.abs(one.value - other.value) <= 1e-7 * Math.max(1e-6, Math.abs(other.value))
}

/** Sheets that a reader would find changed, with the names of their values. */
const changed = (binder: Binder): Map<string, string[]> => {
  const all = new Map<string, string[]>()
  for (const sheet of drawn.sheets) {
    const now = sheetOf(binder, sheet.id)
    // what names the paper follows its words, too: a remark that wires were measured stands on the sheet of even bars
    const names = [...sheet.values.values()].filter(
      (value) => !value.name.startsWith('sheet.') && !isSame(now.values.get(value.name), value),
    )
    const more = [...now.values.keys()].filter((name) => !sheet.values.has(name))
    if (names.length + more.length > 0) all.set(sheet.id, [...names.map(({ name }) => name), ...more])
  }
  return all
}

describe('by hand: readings that are as drawn', () => {
  const all: Readonly<Record<string, () => string>> = {
    'grid inside': () =>
      `    inside-length: ${millimetres('frame-length')}\n    inside-width: ${millimetres('frame-width')}\n`,
    'wires across': () => `    wires-across-length: ${row('wires-across-length', 4)}\n`,
    'wires along': () => `    wires-across-width: ${row('wires-across-width', 2)}\n`,
    speaking: () =>
      `    speaking-length: { short-wires: ${millimetres('speaking-short')}, long-wires: ${millimetres('speaking-long')} }\n`,
  }

  test('change nothing but their own page, whichever of them are typed', async () => {
    const keys = Object.keys(all)
    await fc.assert(
      fc.asyncProperty(fc.subarray(keys, { minLength: 1 }), fc.boolean(), async (some, bar) => {
        const grid = some.map((key) => all[key]?.()).join('')
        const more = bar
          ? `  bar-cutter: { wires: ${row('wires', 7)}, speaking-length: ${millimetres('speaking-bar')} }\n`
          : ''
        const binder = await composeEdited(typed(`  grid-cutter:\n${grid}${more}`))
        expect([...changed(binder).keys()]).toEqual([PAGE])
      }),
      { numRuns: 4, seed: 11 },
    )
  }, 120_000)
})

describe('by hand: a reading that is off changes what hangs on it', () => {
  test('one slicing wire 1 mm further: two slices, no sheet but its page', async () => {
    const places = Array.from({ length: 7 }, (_, index) => 28.575 * (index + 1) + (index === 2 ? 1 : 0))
    const binder = await composeEdited(
      typed(`  bar-cutter: { wires: [${places.map((place) => `${place.toFixed(3)} mm`).join(', ')}] }\n`),
    )
    // a wire's place along its rails also changes how they bow, which the wire sheet tells
    expect([...changed(binder).keys()].filter((id) => id !== WIRES && id !== BAR)).toEqual([PAGE])
    const now = sheetOf(binder, PAGE)
    const slices = Array.from({ length: 7 }, (_, index) => read(now, `as-built.slice-${index + 1}.is`))
    expect(slices.map((slice) => Math.round(slice * 1e6))).toEqual([
      28575, 28575, 29575, 27575, 28575, 28575, 28575,
    ])
    // a bar of 118.0 g at 28.575 mm: 1 mm is 118.0 / 28.575 = 4.13 g
    const batch = 'as-built.2027-03-14-hearth'
    const mean = read(now, `${batch}.is.mean`)
    expect(read(now, `${batch}.is.largest`) / mean).toBeCloseTo(29.575 / 28.575, 6)
    expect(read(now, `${batch}.is.smallest`) / mean).toBeCloseTo(27.575 / 28.575, 6)
    expect(mean).toBeCloseTo(read(now, `${batch}.drawn.mean`), 9)
  })

  test('a short wire that speaks over 219 mm: lower by 1200 log2(219 / 215.01), and longer by 4 mm', async () => {
    const binder = await composeEdited(typed('  grid-cutter: { speaking-length: { short-wires: 219 mm } }\n'))
    const ids = [...changed(binder).keys()]
    for (const id of [PAGE, WIRES, GRID]) expect(ids).toContain(id)
    // neither the mould nor the bar cutter, nor a batch nor its bars; a longer piece is more wire to buy
    for (const id of ids)
      expect(id).toMatch(/^(as-built|wires|grid-cutter|trial-frame|cautions|records|training|quote)\b/)
    const now = sheetOf(binder, PAGE)
    const before = read(page, 'as-built.speaking-short.drawn')
    expect(read(now, 'as-built.wire.grid-short.cents')).toBeCloseTo(-1200 * Math.log2(0.219 / before), 6)
    // μ = 7850 kg/m3 · π/4 · (0.508 mm)² = 1.5911 g/m; √(120 / 0.0015911) / (2 · 0.219 m) = 627.0 Hz
    expect(read(now, 'as-built.wire.grid-short.pitch')).toBeCloseTo(627, 0)
    expect(read(sheetOf(binder, WIRES), 'wire.grid-short.pitch')).toBeCloseTo(627, 0)
    expect(
      read(now, 'as-built.wire.grid-short.cut') - read(page, 'as-built.wire.grid-short.cut'),
    ).toBeCloseTo(0.219 - before, 9)
  })

  test('the mould 1 mm longer: oils by 286.75 / 285.75, half a millimetre in each outer bar', async () => {
    const now = await pageAlone('  inside-length: 288.75 mm\n')
    const batch = 'as-built.2027-03-14-hearth'
    expect(read(now, `${batch}.is.oils`) / read(now, `${batch}.drawn.oils`)).toBeCloseTo(286.75 / 285.75, 9)
    expect(read(now, 'as-built.column-1.size')).toBeCloseTo(0.05765, 9)
    expect(read(now, 'as-built.column-2.size')).toBeCloseTo(0.05715, 9)
    expect(read(now, 'as-built.column-5.size')).toBeCloseTo(0.05765, 9)
    // 57.65 / 57.15 of the middle ones, and in the mean 286.75 / 285.75 of what is drawn
    expect(read(now, `${batch}.is.largest`) / read(now, `${batch}.is.smallest`)).toBeCloseTo(57.65 / 57.15, 9)
    expect(read(now, `${batch}.is.mean`) / read(now, `${batch}.drawn.mean`)).toBeCloseTo(286.75 / 285.75, 9)
    // the set block of the drawing's oils stands lower: (7 · 28.575 + 15.875) · (1 − 285.75 / 286.75) = 0.753 mm
    expect(read(now, `${batch}.cost.height`)).toBeCloseTo(0.000753, 6)
  })

  test('the mould 1.5 mm longer and no frame measured: the least of one is 1.5 mm more, and the drawn one jams', async () => {
    const binder = await composeEdited(typed('  inside-length: 289.25 mm\n'))
    const now = sheetOf(binder, PAGE)
    const least = 'as-built.frame-length.stands-from'
    // what follows from a mould of 287.75 mm, of one of 289.25 mm; both rounded up to a tenth
    expect(Math.abs(read(now, least) - read(page, least) - 0.0015)).toBeLessThanOrEqual(0.0001 + 1e-9)
    // the frame of the drawing is as long as the mould of the drawing, 287.75 mm: less than that
    expect(read(now, least)).toBeGreaterThan(0.28775)
    expect(saidOf(now.blocks.misfits)).toContain('built to the drawing')
    expect(sheetOf(binder, GRID).stopped).toBeUndefined()
    // measured, and large enough, it is no matter any more
    const wide = await pageAlone('  inside-length: 289.25 mm\n  grid-cutter: { inside-length: 289.2 mm }\n')
    expect(saidOf(wide.blocks.misfits)).not.toContain('built to the drawing')
  }, 120_000)

  test('a wire 6 mm too far on: bars under the label are counted, and the wire misses its groove', async () => {
    // wires of the row as drawn but for the second, 6 mm aside: more than the 2.13 mm that a groove of 3/16 in has
    const places = [1, 2, 3, 4].map(
      (number) => read(page, `as-built.wires-across-length-${number}.drawn`) * 1000 + (number === 2 ? 6 : 0),
    )
    const binder = await composeEdited(
      typed(
        `  grid-cutter: { wires-across-length: [${places.map((place) => `${place.toFixed(4)} mm`).join(', ')}] }\n`,
      ),
    )
    expect(sheetOf(binder, GRID).stopped?.map(({ code }) => code)).toContain('as-built-wire-misses-groove')
    const now = sheetOf(binder, PAGE)
    expect(saidOf(now.blocks.misfits)).toContain('comes down on wood')
    // 51.15 of 57.15 mm leave 105.6 g of 118.0 g; the label asks for 108.9 g: 3 rows of 7 bars
    const batch = 'as-built.2027-03-14-hearth'
    expect(read(now, `${batch}.is.smallest`)).toBeCloseTo((0.118 * 51.15) / 57.15, 3)
    expect(read(now, `${batch}.is.under`)).toBe(21)
    expect(read(now, `${batch}.cost.bars`)).toBe(21)
  })
})

describe('by hand: the page before anything is measured', () => {
  test('asks for every reading once, under a letter that the figure has too', () => {
    const figure = page.blocks.places
    const svg = figure?.kind === 'figure' ? figure.svg : ''
    const letters = [...svg.matchAll(/>([A-Z])</g)].map((match) => match[1])
    // 13 kinds of readings of mould, grid cutter and bar cutter; I is left out
    expect(letters.toSorted()).toEqual([...'ABCDEFGHJKLM'])
  })

  test('tells that an outer bar gains 118.0 g · 0.5 mm / 57.15 mm for 1 mm of the mould', () =>
    expect(read(page, 'as-built.inside-length.more.bars')).toBeCloseTo((0.118 * 0.5) / 57.15, 5))

  test('tells what the worst bar changes by: two slicing wires of 1/64 in, two wires across of 0.5 mm, half of 1/32 in', () => {
    const most = (key: string): number => read(page, `as-built.most.${key}`)
    expect(most('wires')).toBeCloseTo((0.118 * 2 * 25.4) / 64 / 28.575, 5)
    expect(most('wires-across-length')).toBeCloseTo((0.118 * 2 * 0.5) / 57.15, 4)
    // one way 0.82 g and the other 118.0 g · 0.396875 mm / 69.85 mm = 0.67 g
    expect(most('at-corner')).toBeCloseTo((0.118 * 0.396875) / 57.15 + (0.118 * 0.396875) / 69.85, 5)
  })

  test('lets pass no place that is further off than half a millimetre, as it is printed', () => {
    const drawn = read(page, 'as-built.wires-across-length-3.drawn')
    const [from, to] = ['from', 'to'].map((end) => read(page, `as-built.wires-across-length-3.passes-${end}`))
    for (const limit of [from!, to!]) {
      expect(Math.abs(limit - drawn)).toBeLessThanOrEqual(0.0005 + 1e-9)
      expect(Math.abs(limit - drawn)).toBeGreaterThan(0.0004)
      // a tenth of a millimetre is what is printed
      expect(limit * 1e4).toBeCloseTo(Math.round(limit * 1e4), 6)
    }
  })

  test('has a wire on wood beyond (3/16 in − 0.508 mm) / 2, and a slicing wire beyond its own', () => {
    const drawn = read(page, 'as-built.wires-across-width-1.drawn')
    const room = (0.0254 * 3) / 16 / 2 - 0.000254
    expect(drawn - read(page, 'as-built.wires-across-width-1.stands-from')).toBeCloseTo(room, 3)
    expect(read(page, 'as-built.wires-across-width-1.stands-to') - drawn).toBeCloseTo(room, 3)
  })

  test('tells oils of a tape only where no water was weighed', async () => {
    const now = await pageAlone('  water: { weighed: 12.95 kg, below-rim: 1 1/2 in }\n')
    expect(page.values.has('as-built.inside-length.more.oils')).toBe(true)
    expect(now.values.has('as-built.inside-length.more.oils')).toBe(false)
    expect(now.values.has('as-built.water-weighed.more.oils')).toBe(true)
  })

  test('has nothing that was found, and says so', () => {
    expect([...page.values.keys()].filter((name) => name.endsWith('.found'))).toEqual([])
    expect(inlineWords(page.fill.state as Inline)).toContain('Nothing is typed in yet')
  })

  test('is as the mould’s own sheet has its sizes', () =>
    // there in inches too
    expect(plain(sheetOf(drawn, MOULD).values.get('mould.inside.length')?.shown ?? '')).toContain(
      `${plain(page.values.get('as-built.inside-length.drawn')?.shown ?? '?')} mm`,
    ))
})
