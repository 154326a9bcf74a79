/** Blanks onto boards: what is bought, what is left, and what must hold for any parts. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { checkLayout } from '../../src/sheet-stock/check-layout.ts'
import { EVERYDAY, layOut } from '../../src/sheet-stock/lay-out.ts'
import { mostValue, shortestPiece } from '../../src/sheet-stock/one-board.ts'
import type { Blank, Board, LayoutProblem, Region, SheetLayout } from '../../src/sheet-stock/types.ts'
import { isSoak } from '../long.ts'

const ENDLESS = Number.POSITIVE_INFINITY
const blank = (key: string, length: number, width: number, count = 1, turns = false): Blank => ({
  key,
  length,
  width,
  count,
  turns,
})
const board = (key: string, length: number, width: number, rest: Partial<Board> = {}): Board => ({
  key,
  length,
  width,
  count: ENDLESS,
  cost: length * width,
  trim: 0,
  ...rest,
})
/** little: what must hold, must hold of the first layout that comes along */
const HASTY = { looks: 2e5, joins: 1e5, steps: 1e6 }
const sound = (problem: LayoutProblem, effort = EVERYDAY) => {
  const layout = layOut(problem, effort)
  expect(checkLayout(problem, layout)).toEqual([])
  return layout
}
const bought = (problem: LayoutProblem): readonly string[] => sound(problem).boards.map((one) => one.board)

describe('by hand: which boards are sawn', () => {
  const panels = [blank('panel', 0.6, 0.4, 2)]

  it('takes what stands in the shop before anything is bought', () => {
    // 0.6 + 0.6 + one kerf = 1.203 m
    const shop = board('shop', 1.203, 0.4, { count: 1, cost: 0 })
    expect(bought({ blanks: panels, boards: [board('sheet', 2.44, 1.22), shop], kerf: 0.003 })).toEqual([
      'shop',
    ])
  })

  it('buys when the saw takes what is missing', () => {
    const shop = board('shop', 1.202, 0.4, { count: 1, cost: 0 })
    const { boards } = sound({ blanks: panels, boards: [board('sheet', 2.44, 1.22), shop], kerf: 0.003 })
    expect(boards.map((one) => one.board)).toContain('sheet')
  })

  it('buys the one that a blank fits on when it is turned, to the millimetre', () => {
    const problem = (turns: boolean) => ({
      blanks: [blank('panel', 0.5, 0.3, 1, turns)],
      boards: [board('strip', 0.3, 0.5)],
      kerf: 0.003,
    })
    expect(bought(problem(true))).toEqual(['strip'])
    expect(layOut(problem(false), EVERYDAY).left).toHaveLength(1)
  })

  it('of sets that cost the same takes that of fewer boards', () => {
    const boards = [board('half', 1, 0.5, { cost: 5 }), board('whole', 2, 0.5, { cost: 10 })]
    const blanks = [blank('panel', 0.9, 0.5, 2)]
    expect(bought({ blanks, boards, kerf: 0.003 })).toEqual(['whole'])
    // the largest one has room for both, whichever is listed first
    expect(layOut({ blanks, boards, kerf: 0.003 }, HASTY).bound).toEqual({ cost: 10, boards: 1 })
  })

  it('knows how few boards could do of thirty, too, and stays near that', () => {
    // each of 1 by 1 m, of which 0.3 by 0.9 m takes 27 %: 3 on a board, 90 blanks on 30
    const boards = [
      ...[1, 2, 3, 4, 5, 6].map((size) => board(`odd-${size}`, 0.2 + size / 10, 0.5, { cost: 2 + size })),
      board('square', 1, 1, { cost: 10 }),
    ]
    const problem = { blanks: [blank('panel', 0.9, 0.3, 90)], boards, kerf: 0.003 }
    const layout = sound(problem, HASTY)
    expect(layout.bound.cost).toBeGreaterThan(0.8 * 300)
    expect(layout.bound.cost).toBeLessThanOrEqual(300)
    expect(
      layout.boards.reduce((sum, one) => sum + boards.find(({ key }) => key === one.board)!.cost, 0),
    ).toBeLessThanOrEqual(300)
  })

  it('counts trimmed edges', () => {
    const trimmed = board('sheet', 0.62, 0.42, { trim: 0.01 })
    expect(bought({ blanks: [blank('panel', 0.6, 0.4)], boards: [trimmed], kerf: 0.003 })).toEqual(['sheet'])
    const narrow = sound({
      blanks: [blank('panel', 0.6, 0.4)],
      boards: [{ ...trimmed, trim: 0.011 }],
      kerf: 0.003,
    })
    expect(narrow).toEqual({ boards: [], left: [{ key: 'panel', count: 1 }], bound: { cost: 0, boards: 0 } })
  })

  it('buys two small sheets where they cost less than a large one, and the other way round', () => {
    const blanks = [blank('panel', 0.5, 0.5, 8)]
    // Four to a small sheet of 1 by 1 m, eight to a large one of 2 by 1 m, no kerf.
    const sheets = (price: number) => [
      board('small', 1, 1, { cost: 30 }),
      board('large', 2, 1, { cost: price }),
    ]
    expect(bought({ blanks, boards: sheets(61), kerf: 0 })).toEqual(['small', 'small'])
    expect(bought({ blanks, boards: sheets(59), kerf: 0 })).toEqual(['large'])
  })

  it('turns a blank only where the board has no grain', () => {
    const upright = board('sheet', 0.4, 0.6)
    expect(bought({ blanks: [blank('panel', 0.6, 0.4, 1, true)], boards: [upright], kerf: 0 })).toEqual([
      'sheet',
    ])
    expect(sound({ blanks: [blank('panel', 0.6, 0.4)], boards: [upright], kerf: 0 }).left).toEqual([
      { key: 'panel', count: 1 },
    ])
  })

  it('says what is left when boards are used up, and lays out the rest', () => {
    const { boards, left } = sound({
      blanks: [blank('panel', 0.6, 0.4, 3)],
      boards: [board('shop', 0.6, 0.4, { count: 2, cost: 0 })],
      kerf: 0.003,
    })
    expect([boards.length, left]).toEqual([2, [{ key: 'panel', count: 1 }]])
  })

  it('buys one board for each blank that is larger than half of one', () => {
    // 0.51 of 1 in both ways: four quarters of the area, but no two on one board.
    const { boards, bound } = sound({
      blanks: [blank('panel', 0.51, 0.51, 3)],
      boards: [board('sheet', 1, 1)],
      kerf: 0,
    })
    expect([boards.length, bound]).toEqual([3, { cost: 3, boards: 3 }])
  })

  it('counts large blanks one by one where by their area, small ones among them, one board would do', () => {
    // 2 x 0.51 x 0.51 + 8 x 0.1 x 0.1 = 0.6 of 1 m2
    const { boards, bound } = sound({
      blanks: [blank('panel', 0.51, 0.51, 2), blank('block', 0.1, 0.1, 8)],
      boards: [board('sheet', 1, 1)],
      kerf: 0,
    })
    expect([boards.length, bound]).toEqual([2, { cost: 2, boards: 2 }])
    // what is no longer than a half lies beside another one
    const half = sound({ blanks: [blank('panel', 0.5, 0.5, 3)], boards: [board('sheet', 1, 1)], kerf: 0 })
    expect(half.bound).toEqual({ cost: 1, boards: 1 })
  })

  it('uses boards up for what only fits them turned, to the millimetre, and says what is left', () => {
    const { boards, left } = sound({
      blanks: [blank('panel', 0.5, 0.3, 2, true)],
      boards: [board('strip', 0.3, 0.5, { count: 1 })],
      kerf: 0.003,
    })
    expect([boards.map((one) => one.board), left]).toEqual([['strip'], [{ key: 'panel', count: 1 }]])
  })

  it('leaves a board of the shop whole where another one holds everything', () => {
    const shop = board('shop', 1, 1, { count: 2, cost: 0 })
    expect(bought({ blanks: [blank('panel', 0.45, 0.45, 4)], boards: [shop], kerf: 0.003 })).toEqual(['shop'])
  })

  it('leaves one large offcut rather than several small ones', () => {
    // Four of 0.2 by 0.5 side by side leave 1.2 by 1 less the saw; in a row of four and anywhere else they leave less.
    const { boards } = sound({
      blanks: [blank('panel', 0.2, 0.5, 4)],
      boards: [board('sheet', 2, 1)],
      kerf: 0,
    })
    const offcuts = (region: Region): readonly number[] =>
      region.kind === 'cut'
        ? [...offcuts(region.first), ...(region.second ? offcuts(region.second) : [])]
        : region.kind === 'offcut'
          ? [region.length * region.width]
          : []
    const [first] = boards
    // 2 x 1 less 4 x 0.2 x 0.5 = 1.6, in one piece when two by two stand in 0.4 by 1
    expect(Math.max(...(first ? offcuts(first.region) : []))).toBeCloseTo(1.6, 9)
  })

  it('saws nothing where nothing is asked for', () => {
    expect(layOut({ blanks: [], boards: [board('sheet', 1, 1)], kerf: 0.003 })).toEqual({
      boards: [],
      left: [],
      bound: { cost: 0, boards: 0 },
    })
  })

  it('comes to an end where there is no board at all', () => {
    expect(layOut({ blanks: panels, boards: [], kerf: 0.003 }).left).toEqual([{ key: 'panel', count: 2 }])
    const narrow = board('sheet', 0.6, 0.4, { count: 1 })
    const { left } = sound({ blanks: panels, boards: [narrow], kerf: 0.003 })
    expect(left).toEqual([{ key: 'panel', count: 1 }])
  })

  it('refuses a strip from a board that is too narrow', () => {
    expect(() => shortestPiece([blank('panel', 0.4, 0.6)], 0.5, 0)).toThrow('wider than the board')
  })
})

const size = fc.integer({ min: 4, max: 90 }).map((centimetres) => centimetres / 100)
const anyBlanks = fc
  .array(
    fc.record({ length: size, width: size, count: fc.integer({ min: 1, max: 4 }), turns: fc.boolean() }),
    {
      minLength: 1,
      maxLength: 9,
    },
  )
  .map((all) => all.map((one, index) => ({ key: `part-${index + 1}`, ...one })))
const boards = [
  board('sheet', 1.525, 1.525, { cost: 78, trim: 0.006 }),
  board('half', 1.525, 0.76, { cost: 45, trim: 0.006 }),
  board('shop', 0.76, 0.4, { count: 1, cost: 0 }),
]
const runs = { numRuns: isSoak ? 40 : 14, seed: 20 }
const costOf = ({ boards: sawn }: SheetLayout): number =>
  sawn.reduce((sum, { board: key }) => sum + (boards.find((one) => one.key === key)?.cost ?? 0), 0)

describe('by hand: what holds for any parts', () => {
  it('gives layouts that can be sawn, with every part, at no less than the bound', () => {
    fc.assert(
      fc.property(anyBlanks, fc.constantFrom(0, 0.0016, 0.0032), (blanks, kerf) => {
        const problem = { blanks, boards, kerf }
        const layout = sound(problem, HASTY)
        expect(layout.left).toEqual([])
        expect(costOf(layout)).toBeGreaterThanOrEqual(layout.bound.cost)
        // Area alone: what is bought or stands there is no less than the parts.
        const held = layout.boards.reduce((sum, { region }) => sum + region.length * region.width, 0)
        const parts = blanks.reduce((sum, { length, width, count }) => sum + length * width * count, 0)
        expect(held).toBeGreaterThanOrEqual(parts - 1e-9)
      }),
      runs,
    )
  })

  it('gives the same layout for the same parts in another order', () => {
    fc.assert(
      fc.property(anyBlanks, (blanks) => {
        const sizes = (all: readonly Blank[]) =>
          layOut({ blanks: all, boards, kerf: 0.0032 }, HASTY).boards.map(({ region }) =>
            JSON.stringify(region).replace(/"key":"[^"]*"/g, ''),
          )
        expect(sizes([...blanks].reverse())).toEqual(sizes(blanks))
      }),
      { ...runs, numRuns: isSoak ? 12 : 6 },
    )
  })

  it('bounds one board by what every layout of it keeps to', () => {
    fc.assert(
      fc.property(anyBlanks, (blanks) => {
        const { region, value, bound } = mostValue(blanks, { length: 1.2, width: 0.8 }, 0.003, HASTY)
        expect(bound).toBeGreaterThanOrEqual(value - 1e-9)
        expect(bound).toBeLessThanOrEqual(1.203 * 0.803 + 1e-9)
        // Turning can never lower what is found when the search ends by itself.
        const free = mostValue(
          blanks.map((one) => ({ ...one, turns: true })),
          { length: 1.2, width: 0.8 },
          0.003,
          HASTY,
        )
        expect(free.bound).toBeGreaterThanOrEqual(value - 1e-9)
        expect(region.length).toBeCloseTo(1.2, 9)
      }),
      runs,
    )
  })
})
