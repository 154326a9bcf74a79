/** Code that proves layouts: what is right passes, and every way of being wrong is named. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { checkLayout } from '../../src/sheet-stock/check-layout.ts'
import { layOut } from '../../src/sheet-stock/lay-out.ts'
import type { LayoutProblem, Piece, Region, SheetLayout } from '../../src/sheet-stock/types.ts'
import { randomLayout } from './random-trees.ts'

// A board of 1.02 x 0.52 m with 10 mm of trim: 1 x 0.5 m, ripped at 0.2 m with a kerf of 3 mm, the strip crosscut at 0.4 m.
const problem: LayoutProblem = {
  kerf: 0.003,
  blanks: [
    { key: 'a', length: 0.4, width: 0.2, count: 1, turns: false },
    { key: 'b', length: 0.597, width: 0.2, count: 1, turns: false },
    { key: 'c', length: 0.297, width: 1, count: 1, turns: true },
  ],
  boards: [{ key: 'sheet', length: 1.02, width: 0.52, count: 1, cost: 1, trim: 0.01 }],
}
const a: Piece = { kind: 'blank', key: 'a', turned: false, along: 0, across: 0, length: 0.4, width: 0.2 }
const b: Piece = {
  kind: 'blank',
  key: 'b',
  turned: false,
  along: 0.403,
  across: 0,
  length: 0.597,
  width: 0.2,
}
const c: Piece = { kind: 'blank', key: 'c', turned: true, along: 0, across: 0.203, length: 1, width: 0.297 }
const strip: Region = {
  kind: 'cut',
  cut: 'crosscut',
  along: 0,
  across: 0,
  length: 1,
  width: 0.2,
  first: a,
  second: b,
}
const root = { kind: 'cut', cut: 'rip', along: 0, across: 0, length: 1, width: 0.5 } as const
const layoutOf = (region: Region, left: SheetLayout['left'] = []): SheetLayout => ({
  boards: [{ board: 'sheet', region }],
  left,
  bound: { cost: 0, boards: 0 },
})
const codes = (region: Region, asked = problem, left: SheetLayout['left'] = []) =>
  [...new Set(checkLayout(asked, layoutOf(region, left)).map(({ code }) => code))].sort()

describe('by hand: three blanks on one board', () => {
  test('a right layout has no fault', () => expect(codes({ ...root, first: strip, second: c })).toEqual([]))

  test('a blank of another size', () =>
    expect(
      codes({
        ...root,
        first: { ...strip, first: { ...a, key: 'b' }, second: { ...b, key: 'a' } },
        second: c,
      }),
    ).toEqual(['wrong-size']))

  test('a blank that nobody asked for, and one that is missing', () =>
    expect(codes({ ...root, first: { ...strip, first: { ...a, key: 'z' } }, second: c })).toEqual([
      'unknown-blank',
      'wrong-count',
    ]))

  test('turned across the grain', () => {
    const blanks = problem.blanks.map((one) => ({ ...one, turns: false }))
    expect(codes({ ...root, first: strip, second: c }, { ...problem, blanks })).toEqual([
      'turned-against-grain',
    ])
  })

  test('a kerf that is forgotten: the second strip begins where the first ends', () => {
    const wide: Piece = { ...c, across: 0.2, width: 0.3 }
    const blanks = problem.blanks.map((one) => (one.key === 'c' ? { ...one, length: 0.3 } : one))
    expect(codes({ ...root, first: strip, second: wide }, { ...problem, blanks })).toEqual([
      'cut-beside-piece',
      'kerf-missing',
      'overlap',
    ])
  })

  test('beyond a wider saw cut than the layout was made for', () =>
    expect(codes({ ...root, first: strip, second: c }, { ...problem, kerf: 0.004 })).toEqual([
      'cut-beside-piece',
      'kerf-missing',
      'overlap',
    ]))

  test('a cut that does not go through: the strip is shorter than its board', () =>
    expect(
      codes(
        { ...root, first: { ...strip, length: 0.9, second: { ...b, length: 0.497 } }, second: c },
        {
          ...problem,
          blanks: problem.blanks.map((one) => (one.key === 'b' ? { ...one, length: 0.497 } : one)),
        },
      ),
    ).toEqual(['cut-beside-piece']))

  test('no rest where the saw leaves one', () =>
    expect(codes({ ...root, first: strip }, { ...problem, blanks: problem.blanks.slice(0, 2) })).toEqual([
      'rest-missing',
    ]))

  test('a saw cut of 3 mm takes a rest of 2.9 mm, and the cut is right without one', () =>
    expect(
      codes(
        { ...root, width: 0.5, first: { ...c, across: 0, width: 0.4971 } },
        { ...problem, blanks: [{ key: 'c', length: 0.4971, width: 1, count: 1, turns: true }] },
      ),
    ).toEqual([]))

  test('beyond the trimmed board', () => {
    const boards = problem.boards.map((one) => ({ ...one, trim: 0.02 }))
    expect(codes({ ...root, first: strip, second: c }, { ...problem, boards })).toEqual([
      'board-not-as-trimmed',
      'outside-board',
    ])
  })

  test('more boards than there are, and boards that nobody has', () => {
    const region: Region = { kind: 'offcut', along: 0, across: 0, length: 1, width: 0.5 }
    const twice: SheetLayout = {
      boards: ['sheet', 'sheet', 'other'].map((board) => ({ board, region })),
      left: problem.blanks.map(({ key }) => ({ key, count: 1 })),
      bound: { cost: 0, boards: 0 },
    }
    expect(checkLayout(problem, twice)).toEqual([
      { code: 'too-many-boards', key: 'sheet' },
      { code: 'unknown-board', key: 'other' },
    ])
  })

  test('what is left over counts, and only once', () => {
    const region: Region = { ...root, first: strip, second: { ...c, kind: 'offcut' } }
    expect(codes(region, problem, [{ key: 'c', count: 1 }])).toEqual([])
    expect(codes(region, problem, [{ key: 'c', count: 2 }])).toEqual(['wrong-count'])
    expect(
      codes(region, problem, [
        { key: 'c', count: 0.5 },
        { key: 'c', count: 0.5 },
      ]),
    ).toEqual(['wrong-count'])
  })

  test('a size that is no number', () =>
    expect(codes({ ...root, first: { ...strip, width: Number.NaN }, second: c })).toContain(
      'size-not-a-number',
    ))
})

describe('by hand: four blanks round a fifth, which no cut right through parts', () => {
  // 3 x 3 with a middle of 1 x 1 and four of 2 x 1 around it, in turn: each cut across would meet one of them
  const around = [
    [0, 0, 2, 1],
    [2, 0, 1, 2],
    [1, 2, 2, 1],
    [0, 1, 1, 2],
    [1, 1, 1, 1],
  ] as const
  const blanks = around.map(([, , length, width], index) => ({
    key: `p${index}`,
    length,
    width,
    count: 1,
    turns: false,
  }))
  const leaf = (index: number): Piece => {
    const [along, across, length, width] = around[index]!
    return { kind: 'blank', key: `p${index}`, turned: false, along, across, length, width }
  }
  test('is told by the rectangles alone', () => {
    const tree = around.slice(1).reduce<Region>(
      (first, _, index) => ({
        kind: 'cut',
        cut: 'rip',
        along: 0,
        across: 0,
        length: 3,
        width: 3,
        first,
        second: leaf(index + 1),
      }),
      leaf(0),
    )
    const found = checkLayout(
      { kerf: 0, blanks, boards: [{ key: 'sheet', length: 3, width: 3, count: 1, cost: 1, trim: 0 }] },
      layoutOf(tree),
    ).map(({ code }) => code)
    expect(found).toContain('no-cut-right-through')
    expect(found).not.toContain('overlap')
    expect(found).not.toContain('wrong-count')
  })
})

describe('by hand: for any tree', () => {
  test('one that is grown from the board down has no fault', () => {
    fc.assert(
      fc.property(randomLayout, ({ problem: asked, layout }) => {
        expect(checkLayout(asked, layout)).toEqual([])
      }),
      { seed: 11, numRuns: 150 },
    )
  })

  test('one blank moved by a millimetre is found, by the tree or by the rectangles', () => {
    fc.assert(
      fc.property(randomLayout, ({ problem: asked, layout }) => {
        let moved = false
        const shift = (region: Region): Region => {
          if (region.kind === 'cut')
            return {
              ...region,
              first: shift(region.first),
              ...(region.second ? { second: shift(region.second) } : {}),
            }
          if (moved || region.kind !== 'blank') return region
          moved = true
          return { ...region, along: region.along + 0.001 }
        }
        const boards = layout.boards.map(({ board, region }) => ({ board, region: shift(region) }))
        fc.pre(moved)
        expect(checkLayout(asked, { ...layout, boards }).length).toBeGreaterThan(0)
      }),
      { seed: 12, numRuns: 150 },
    )
  })

  test('what the program lays out has none', () => {
    const sizes = fc.integer({ min: 20, max: 700 }).map((size) => size / 1000)
    fc.assert(
      fc.property(
        fc.array(fc.record({ length: sizes, width: sizes, count: fc.integer({ min: 1, max: 5 }) }), {
          minLength: 1,
          maxLength: 12,
        }),
        (list) => {
          const asked: LayoutProblem = {
            kerf: 0.003175,
            blanks: list.map((one, index) => ({ key: `p${index}`, turns: index % 2 === 0, ...one })),
            boards: [
              { key: 'rest', length: 0.7, width: 0.4, count: 1, cost: 0, trim: 0.00635 },
              { key: 'sheet', length: 1.525, width: 1.525, count: 20, cost: 78, trim: 0.00635 },
            ],
          }
          expect(checkLayout(asked, layOut(asked))).toEqual([])
        },
      ),
      { seed: 13, numRuns: 60 },
    )
  })
})
