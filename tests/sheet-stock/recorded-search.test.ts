/**
 * Recorded on 27 November 2026: what searches and their bounds found on small boards, so that nobody changes unseen where
 * they look and when they end. That layouts are right and how good they are is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { insertBlanks, type Size } from '../../src/sheet-stock/insertion.ts'
import { joinBlocks } from '../../src/sheet-stock/joined-blocks.ts'
import { layOut } from '../../src/sheet-stock/lay-out.ts'
import { mostValue, shortestPiece, THOROUGH } from '../../src/sheet-stock/one-board.ts'
import { BlankKeys, regionOfBlock } from '../../src/sheet-stock/regions.ts'
import type { LayoutProblem } from '../../src/sheet-stock/types.ts'
import { boardBounds, normalPatterns } from '../../src/sheet-stock/unlimited-cutting.ts'
import { type Item, wholeUnits } from '../../src/sheet-stock/whole-units.ts'
import { asNumbersChange, expectRecorded } from '../recorded.ts'
import { blank } from './millimetres.ts'
import { blockTold, layoutTold, placedTold, regionTold } from './told.ts'

const item = (length: number, width: number, count: number, turns = false, value = length * width): Item => ({
  length,
  width,
  count,
  value,
  turns,
  blanks: [{ key: `${length}x${width}`, count, upright: false }],
})

/** Of one sheet and a rest; no side is a multiple of another. */
const mixed: readonly Item[] = [
  item(31, 17, 2, true),
  item(23, 19, 3),
  item(37, 7, 2, true),
  item(13, 11, 4, true),
  item(17, 5, 5),
  item(5, 3, 6, true),
]
const valued: readonly Item[] = [
  item(21, 22, 1, false, 582),
  item(31, 13, 1, true, 403),
  item(9, 35, 2, false, 315),
  item(9, 24, 2, true, 216),
  item(30, 7, 3, false, 210),
  item(11, 13, 3, false, 150),
  item(10, 14, 4, false, 140),
  item(14, 8, 3, true, 110),
  item(12, 8, 3, true, 94),
  item(13, 7, 3, false, 90),
]
/** So many kinds and numbers that counts of them fill several words. */
const many: readonly Item[] = Array.from({ length: 9 }, (_, at) =>
  item(5 + ((at * 7) % 11), 4 + ((at * 5) % 9), 3 + 5 * (at % 4), at % 3 === 0),
)
const figures = (value: number): number => Number(value.toPrecision(7))
const lists = { mixed, valued, many }
const boards: Readonly<Record<string, readonly Size[]>> = {
  one: [{ length: 71, width: 43 }],
  two: [
    { length: 47, width: 39 },
    { length: 53, width: 29 },
  ],
  small: [{ length: 33, width: 27 }],
}

describe('recorded: whole units', () => {
  const blank = (key: string, length: number, width: number, more: object = {}) => ({
    key,
    length,
    width,
    count: 2,
    turns: false,
    ...more,
  })
  test.each([
    ['units-metric', 0.0032],
    ['units-inches', 0.003175],
    ['units-no-kerf', 0],
  ])('%s', (name, kerf) => {
    const blanks = [
      blank('tall', 0.2, 0.45),
      blank('long', 0.45, 0.2),
      blank('long-again', 0.45, 0.2, { count: 3 }),
      blank('free', 0.2, 0.45, { turns: true }),
      blank('free-too', 0.45, 0.2, { turns: true, count: 1 }),
      blank('dear', 0.45, 0.2, { value: 3 }),
      blank('square', 0.3, 0.3),
      // of the same area
      blank('strip', 0.9, 0.1),
      blank('narrow', 0.1, 0.9),
      blank('small', 0.0254, 0.0127, { value: 2 }),
    ]
    expectRecorded(
      wholeUnits(blanks, [{ length: 1.22, width: 0.61 }, blanks[0]!], kerf),
      name,
      import.meta.url,
    )
  })
})

describe('recorded: blanks put into rests', () => {
  test.each(Object.entries(lists))('in many orders: %s', (list, items) => {
    const found = Object.entries(boards).flatMap(([on, sizes]) =>
      (['all', 'whole', 'short'] as const).flatMap((aim) =>
        [0, 3e3, 3e4].map((looks): [string, string] => {
          const { placed, missed, untidiness, reach } = insertBlanks(items, sizes, looks, aim)
          const sum = `missed ${missed}, ${untidiness.toFixed(6)}, reach ${reach}`
          return [`${list} on ${on}, ${aim}, ${looks}`, `${sum}: ${placedTold(placed)}`]
        }),
      ),
    )
    expectRecorded(Object.fromEntries(found), `insertion-${list}`, import.meta.url)
  })
})

describe('recorded: bounds', () => {
  test('patterns', () => {
    const sizes = [
      { size: 7, count: 2 },
      { size: 11, count: 3 },
      { size: 18, count: 1 },
      { size: 90, count: 1 },
    ]
    expectRecorded(
      Object.fromEntries([
        ['as it is', normalPatterns(sizes, 61)],
        ...sizes.flatMap((_, at) =>
          [1, 2, 5].map((more) => [
            `${at}, ${more} more`,
            normalPatterns(
              sizes.map((one, index) => (index === at ? { ...one, count: one.count + more } : one)),
              61 + more,
            ),
          ]),
        ),
      ]),
      'patterns',
      import.meta.url,
    )
  })

  test.each(Object.entries(lists))('of boards, fine, coarse and by areas alone: %s', (list, items) => {
    const rows = [
      { length: 71, width: 43 },
      { length: 33, width: 27 },
      { length: 710, width: 430 },
    ].flatMap((board) =>
      [1e6, 2e4, 1e3, 1].map((steps): [string, string] => {
        const own =
          board.length > 100
            ? items.map((one) => ({ ...one, length: one.length * 7, width: one.width * 9 }))
            : items
        const { whole, beside } = boardBounds(own, board, steps)
        const values = [0, 0.1, 0.25, 0.4, 0.6, 0.85, 1].map((along) =>
          [0, 0.2, 0.45, 0.7, 1]
            .map((across) => beside(Math.floor(along * board.length), Math.floor(across * board.width)))
            .join(' '),
        )
        return [`${list} on ${board.length}x${board.width}, ${steps}`, `${whole}: ${values.join(' / ')}`]
      }),
    )
    expectRecorded(Object.fromEntries(rows), `bounds-${list}`, import.meta.url)
  })
})

describe('recorded: blocks', () => {
  test('joined', () => {
    const rows = Object.entries(lists).flatMap(([list, items]) =>
      [boards.one![0]!, boards.small![0]!, { length: 47, width: 39 }].flatMap((board) =>
        [20, 300, 4e3].flatMap((joins) =>
          [0, 0.8].map((share): [string, string] => {
            const bounds = boardBounds(items, board, 1e5)
            const known = share * bounds.whole
            const { block, value, bound } = joinBlocks(
              items,
              board,
              bounds,
              known,
              joins,
              0.97 * bounds.whole,
            )
            const measure = { units: { unit: 0.001, kerf: 0.002 }, keys: new BlankKeys({ items }) }
            const sawn = block && joins > 300 ? `; ${regionTold(regionOfBlock(measure, block, board))}` : ''
            return [
              `${list} on ${board.length}x${board.width}, ${joins} joins from ${share}`,
              `${figures(value)} of ${figures(bound)}: ${blockTold(block)}${sawn}`,
            ]
          }),
        ),
      ),
    )
    expectRecorded(Object.fromEntries(rows), 'blocks', import.meta.url)
  })
})

const LITTLE = { looks: 2e3, joins: 6e2, steps: 6e3 }

describe('recorded: layouts as numbers change', () => {
  const problem: LayoutProblem = {
    blanks: [blank('side', 480, 270, 2), blank('rail', 286, 64, 3, true), blank('lid', 360, 260, 1, true)],
    boards: [
      { key: 'sheet', length: 1.22, width: 0.61, count: Number.POSITIVE_INFINITY, cost: 30, trim: 0.005 },
      { key: 'half', length: 0.61, width: 0.61, count: 2, cost: 16, trim: 0.005 },
      { key: 'shop', length: 0.5, width: 0.3, count: 1, cost: 0, trim: 0 },
    ],
    kerf: 0.0032,
  }
  test.each([0, 0.5, 1.3])('of three kinds of boards, × %d', (factor) => {
    const whole = ({ blanks, boards: stock, kerf }: LayoutProblem): LayoutProblem => ({
      blanks: blanks.map((one) => ({ ...one, count: Math.round(one.count) })),
      boards: stock.map((one) => ({
        ...one,
        count: Number.isFinite(one.count) ? Math.round(one.count) : one.count,
      })),
      kerf,
    })
    expectRecorded(
      Object.fromEntries(
        asNumbersChange(problem, (given) => layoutTold(layOut(whole(given), LITTLE)), [factor]),
      ),
      `layouts-times-${factor}`,
      import.meta.url,
    )
  })

  const few = problem.blanks.map((one) => ({ ...one, value: one.length }))
  test.each([0.6, 0.95, 1.3, 2])('of one board, × %d', (factor) =>
    expectRecorded(
      Object.fromEntries(
        asNumbersChange(
          { few, board: { length: 1, width: 0.5 }, kerf: 0.003 },
          (given) => {
            const blanks = given.few.map((one) => ({ ...one, count: Math.round(one.count) }))
            const { region, value, bound } = mostValue(blanks, given.board, given.kerf, {
              ...THOROUGH,
              ...LITTLE,
            })
            return `${figures(value)} of ${figures(bound)}: ${regionTold(region)}`
          },
          [factor],
        ),
      ),
      `most-times-${factor}`,
      import.meta.url,
    ),
  )
  test.each([0.4, 0.95, 1.5])('of the shortest piece, × %d', (factor) =>
    expectRecorded(
      Object.fromEntries(
        asNumbersChange(
          { blanks: problem.blanks, width: 0.6, kerf: 0.003 },
          (given) => {
            try {
              const blanks = given.blanks.map((one) => ({ ...one, count: Math.round(one.count) }))
              const { region, length, bound } = shortestPiece(blanks, given.width, given.kerf, LITTLE)
              return `${figures(length)} of ${figures(bound)}: ${regionTold(region)}`
            } catch (error) {
              return (error as Error).message
            }
          },
          [factor],
        ),
      ),
      `shortest-times-${factor}`,
      import.meta.url,
    ),
  )
})
