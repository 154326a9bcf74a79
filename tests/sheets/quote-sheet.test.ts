/** The quote page: its total is the sum of its lines to the last coin, it says what is not priced, and knows no recipe. */
import { beforeAll, describe, expect, test } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet, Table } from '../../src/sheets/model.ts'
import { composeEdited, sheetOf } from '../sites/edited-demo.ts'
import { bindAndCompose, contentOf, smallBinderFiles } from '../sites/small-binder.ts'
import { plain, rowsOf } from './rows.ts'

const QUOTE = 'quote/first-set'

let sheet: Sheet
let all: readonly Sheet[]
beforeAll(async () => {
  const binder = await composeEdited({})
  sheet = sheetOf(binder, QUOTE)
  all = binder.sheets
}, 120_000)

const rows = (block: string, of = sheet) => rowsOf(of.blocks[block]).map((row) => row.map(plain))
/** Amounts of a cell in cents: one, or both ends. */
const cents = (text: string): [number, number] => {
  const amounts = text.split(' to ').map((one) => Math.round(Number(one.replaceAll(' ', '')) * 100))
  const [low = 0, high = low] = amounts
  return [low, high]
}
const sum = (texts: readonly string[]): [number, number] =>
  texts
    .filter((text) => /\d/.test(text))
    .map(cents)
    .reduce(([low, high], [one, other]) => [low + one, high + other], [0, 0])
/** The column before the last, which is the friend's own. */
const reckoned = (block: string) => rows(block).map((row) => row.at(-2) ?? '')

describe('by hand: the demo’s quote', () => {
  test('adds up: every line into its sum, every sum into the total', () => {
    const [work, boards, hardware] = reckoned('sums').map(cents)
    expect(work).toEqual(sum(reckoned('made')))
    expect(boards).toEqual(sum(reckoned('boards')))
    expect(hardware).toEqual(sum(reckoned('hardware')))
    const foot = (sheet.blocks.sums as Table).foot?.[0] ?? []
    const total = rowsOf({ kind: 'table', columns: [], rows: [foot] })[0]?.map(plain) ?? []
    expect(cents(total.at(-2) ?? '')).toEqual(sum(reckoned('sums')))
    expect(total[1]).toBe('')
  })

  test('says of what has no price that it is not in the sum', async () => {
    const binder = await composeEdited({
      'materials/hardware.yaml': [
        [/ {2}epoxy:\n( {4}.*\n)+/, ''],
        [/ {2}hook-and-eye:\n( {4}.*\n)+/, ''],
      ],
    })
    const foot = (sheetOf(binder, QUOTE).blocks.sums as Table).foot?.[0] ?? []
    expect(plain(rowsOf({ kind: 'table', columns: [], rows: [foot] })[0]?.[1] as never)).toBe(
      'not in it: Two-part epoxy; Hooks with their eyes',
    )
  })

  test('tells the parts of each board: 40 of birch 18 mm in all, and 12 mm, 24 mm and plastics', () => {
    const parts = rows('boards').map((row) => Number(row[2]))
    expect(parts).toHaveLength(7)
    expect(parts.every((count) => count > 0)).toBe(true)
    // counted on the lists for a router: 18 of 12 mm; 40 of 18 mm, from three boards; 2 of 24 mm; 6 and 2 of plastics
    expect([parts[0], (parts[1] ?? 0) + (parts[2] ?? 0) + (parts[3] ?? 0), ...parts.slice(4)]).toEqual([
      18, 40, 2, 6, 2,
    ])
  })

  test('tells what room each takes, set up', () => {
    const size = (piece: string, way: string) =>
      Number(sheet.values.get(`quote.five-by-three.${piece}.${way}`)?.value) * 1000
    // two walls and two strips of 17.8 outside of ends of 224.25, which stand 6.35 in each wall: 224.25 - 12.7 + 4 x 17.8
    expect(size('mould', 'width')).toBeCloseTo(282.75, 2)
    // mark sticks of 12.1 on both ends of a board of 538.63 by 381.43, from its underside up 411.06
    expect(size('grid-cutter', 'length')).toBeCloseTo(562.83, 1)
    expect(size('grid-cutter', 'width')).toBeCloseTo(381.43, 1)
    expect(size('grid-cutter', 'height')).toBeCloseTo(411.06, 1)
    // shelves of 53.2, let 3.175 into cheeks that are 209.9 apart outside
    expect(size('trial-frame', 'width')).toBeCloseTo(209.9 + 2 * (53.2 - 3.175), 0)
  })

  test('says how long glue and finish harden: a day of glue, two coats a day each, seven days', () => {
    expect(sheet.values.get('quote.waiting')?.shown).toMatch(/^10.days$/)
    // wanted by 9 April 2027, less 10 days: 30 March
    expect(sheet.values.get('quote.sawnBy')?.shown.replace(/\s/g, ' ')).toBe('30 March 2027')
  })

  test('says why two packs are bought where one would hold all: 8 screws of two sizes, in tens', () => {
    const what = (begins: string) => rows('hardware').find(([name]) => name?.startsWith(begins))?.[0]
    expect(what('Pan-head screws')).toContain('a pack holds one size')
    expect(what('Wood screws')).toContain('a pack holds one size')
    // 14 pegs fill three cards of six, 10 nuts one of 25
    expect(what('Tuning pegs')).not.toContain('one size')
    expect(what('Hexagon nuts')).not.toContain('one size')
  })

  test('says why pegs are fewer than their holes: 6 + 1 spare and 7; the 3 of the trial are borrowed', () => {
    const row = rows('hardware').find(([what]) => what?.startsWith('Tuning pegs'))
    expect(row?.[0]).toContain('trial frame')
    expect(row?.[1]).toBe('14')
  })

  test('rounds lengths up: 2 x 0.28683 + 2 x 0.21063 + 2 x 0.1447 = 1.2843 m = 4.2137 ft', () => {
    const row = rows('hardware').find(([what]) => what?.startsWith('Round rod'))
    expect(row?.[1]?.replace(/\s/g, ' ')).toBe('4.3 ft (1.3 m)')
  })

  test('each line is what is bought times what one costs', () => {
    const bought = [
      ...rows('boards').map((row) => row.slice(3)),
      ...rows('hardware').map((row) => row.slice(2)),
    ]
    let looked = 0
    for (const [buy = '', each = '', cost = ''] of bought) {
      if (!/\d/.test(cost)) continue
      // packs come as "3 × 6": three packs
      expect(cents(cost)[0], `${buy} of ${each}`).toBe(Number(buy.split(' ')[0]) * cents(each)[0])
      looked += 1
    }
    expect(looked).toBeGreaterThan(12)
  })

  test('work is its hours times the rate', () => {
    for (const row of rows('made')) {
      const [low = 0, high = 0] = (row[5] ?? '').split(' to ').map((one) => Number(one.replace(' h', '')))
      expect(cents(row[6] ?? '')).toEqual([low * 3000, high * 3000])
    }
  })

  test('its epoxy is that of the build sheets together', () => {
    const builds = ['fixture', 'grid-cutter', 'bar-cutter', 'trial-frame'].map((kind) =>
      Number(all.find(({ id }) => id === `${kind}/five-by-three`)?.values.get('finish.epoxy')?.value),
    )
    expect(Number(sheet.values.get('quote.hardware.epoxy.mass')?.value)).toBeCloseTo(
      builds.reduce((before, one) => before + one, 0),
      9,
    )
  })

  test('asks for as many nuts, rods and pegs as the build sheets', () => {
    const counted = (kind: string, name: string): number => {
      const own = all.find(({ id }) => id === `${kind}/five-by-three`)?.values
      return Number(own?.get(`${name}.count`)?.value ?? 0) + Number(own?.get(`${name}.spare`)?.value ?? 0)
    }
    expect(sheet.values.get('quote.hardware.hex-nut.count')?.value).toBe(
      counted('fixture', 'hardware.hex-nut'),
    )
    expect(sheet.values.get('quote.hardware.rod-stock.count')?.value).toBe(
      counted('fixture', 'hardware.rod-stock'),
    )
    expect(sheet.values.get('quote.hardware.peg.count')?.value).toBe(
      counted('grid-cutter', 'hardware.peg.1') + counted('bar-cutter', 'hardware.tuning-peg'),
    )
  })

  test('names the sheets that things are built from', () => {
    const number = (id: string) => all.find((one) => one.id === `${id}/five-by-three`)?.number
    expect(rows('made').map((row) => row[1])).toEqual(
      ['fixture', 'fixture', 'grid-cutter', 'bar-cutter', 'trial-frame'].map(number),
    )
  })

  test('leaves a cell to the friend beside each figure', () => {
    for (const block of ['made', 'sums', 'hardware']) {
      const table = sheet.blocks[block] as Table
      for (const row of table.rows) expect(row.at(-1)?.kind).toBe('blank')
    }
  })

  test('knows no recipe, no fat and no batch', () => {
    const text = JSON.stringify(sheet).toLowerCase()
    for (const word of ['hearth', 'olive', 'coconut', 'superfat', 'naoh', 'recipe/', 'batch/'])
      expect(text, word).not.toContain(word)
  })
})

describe('by hand: quotes of other shops', () => {
  test('without prices nothing is reckoned in money, and hours are', () => {
    const { sheets } = bindAndCompose(contentOf(smallBinderFiles()))
    const small = sheetOf({ sheets }, 'quote/everything')
    expect([...small.values.values()].some(({ unit }) => unit === 'EUR' || unit === 'USD')).toBe(false)
    expect(rows('made', small)[0]?.[5]).toMatch(/^\d+(\.5)? h to \d+(\.5)? h$/)
    expect(rows('boards', small).every((row) => row[1]?.endsWith('is enough'))).toBe(true)
    expect(inlineWords(small.title)).toBe('Quote: all fixtures')
  })

  test('with the shop’s own minutes for all work one number is left', async () => {
    const kinds = ['set-up', 'saw-cut', 'channel-metre', 'hole', 'recess', 'notch', 'edge', 'piece', 'joint']
    const others = ['screw', 'fitting', 'wire', 'finish']
    const own = [...kinds, ...others].map((kind) => `${kind}: 0 s`).join(', ')
    const binder = await composeEdited({
      'shop.yaml': [['  minutes: { saw-cut: 2 min }', `  minutes: { ${own} }`]],
    })
    // no minute at all is still half an hour, at 30 USD
    expect(rows('made', sheetOf(binder, QUOTE)).map((row) => [row[5], row[6]])).toEqual(
      Array(5).fill(['0.5 h', '15.00']),
    )
  })

  test('what does not stand is said not to be made; where nothing stands there is a stop page', async () => {
    const edits = {
      'fixtures/five-by-three.yaml': [['depth: 1/4 in', 'depth: 5/8 in']] as const,
    }
    const some = sheetOf(await composeEdited(edits), QUOTE)
    expect(rows('made', some).map((row) => row[3])).toContain('not to be made yet: its sheet says why')
    const none = sheetOf(
      await composeEdited({
        ...edits,
        'builds/first-set.yaml': 'title: A mould\nfixtures:\n  five-by-three: { pieces: [mould] }\n',
      }),
      QUOTE,
    )
    expect(none.stopped?.map(({ code }) => code)).toEqual(['build-nothing-stands'])
  })
})
