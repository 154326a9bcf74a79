/** At every limit of a saw and of a layout: on which side of it is what just reaches it, and what differs by no more than sums do. */
import { describe, expect, test } from 'vitest'
import { checkLayout } from '../../src/sheet-stock/check-layout.ts'
import { isKept, sawPlan, usualSawLimits } from '../../src/sheet-stock/saw-plan.ts'
import type { LayoutProblem, Piece, Region, SheetLayout } from '../../src/sheet-stock/types.ts'

const inch = 0.0254
const kerf = 0.003
/** half of what counts as the same, and twice as much [m] */
const LITTLE = 5e-9
const MORE = 2e-8

/** One cut of a board, set by the corner's side: what is sawn off lies beyond. */
const only = (cut: 'rip' | 'crosscut', length: number, width: number, at: number, massPerArea = 0) => {
  const place = { along: 0, across: 0, length, width }
  const [first, second] =
    cut === 'rip'
      ? [
          { ...place, width: at },
          { ...place, across: at + kerf, width: width - at - kerf },
        ]
      : [
          { ...place, length: at },
          { ...place, along: at + kerf, length: length - at - kerf },
        ]
  const region: Region = {
    kind: 'cut',
    cut,
    ...place,
    first: { kind: 'blank', key: 'a', ...first },
    second: { kind: 'offcut', ...second },
  }
  const board = { length, width, trim: 0 }
  return sawPlan({ region, board, kerf, massPerArea, limits: usualSawLimits }).cuts[0]!
}

describe('by hand: which tool, at its limit', () => {
  // in inches: 12 along the fence, 30 to the fence and to the stop, 24 of travel, twice 18 on the sled
  test.each([
    [
      'an edge of 12 in goes along the fence',
      (d: number) => only('rip', 12 * inch - d, 0.25, 0.1),
      'fence',
      'sled',
    ],
    ['an edge as long as the piece reaches', (d: number) => only('rip', 0.5 - d, 0.6, 0.5), 'fence', 'sled'],
    [
      'or as long as it reaches beyond the blade',
      (d: number) => only('rip', 0.5 - d, 0.6, 0.1),
      'fence',
      'sled',
    ],
    ['a fence at 30 in', (d: number) => only('rip', 1, 1, 30 * inch + d), 'fence', 'guide'],
    ['a stop at 30 in', (d: number) => only('crosscut', 1.2, 0.4, 30 * inch + d), 'sled', 'guide'],
    ['travel of 24 in', (d: number) => only('crosscut', 1, 24 * inch + d, 0.65), 'sled', 'guide'],
    [
      'a half of 36 in lies on the sled',
      (d: number) => only('crosscut', 0.5 + 36 * inch + d, 0.4, 0.5),
      'sled',
      'guide',
    ],
  ] as const)('%s', (_, cut, within, beyond) => {
    for (const d of [-MORE, -LITTLE, 0, LITTLE]) expect(cut(d).tool).toBe(within)
    expect(cut(MORE).tool).toBe(beyond)
  })

  test('a long piece narrower than 6 in rides on the sled, one of 6 in is guided', () => {
    for (const d of [0, LITTLE]) expect(only('crosscut', 1.6, 6 * inch - d, 0.4).tool).toBe('guide')
    expect(only('crosscut', 1.6, 6 * inch - MORE, 0.4).tool).toBe('sled')
  })

  test('12 kg are led by one person, more are not', () => {
    expect(only('rip', 1, 1, 0.3, 12)).toMatchObject({ tool: 'fence', cautions: ['support'] })
    expect(only('rip', 1, 1, 0.3, 12.0001)).toMatchObject({ tool: 'guide', cautions: ['heavy'] })
  })
})

describe('by hand: which caution, at its limit', () => {
  // in inches: 36 of table, 18 of the sled to a side, 6 for a hand, 2 of a strip, 3/16 of a sliver
  test.each([
    ['support', (d: number) => only('rip', 36 * inch + d, 0.5, 0.2)],
    ['support-side', (d: number) => only('crosscut', 18 * inch + d + 0.203, 0.4, 18 * inch + d)],
    ['support-side', (d: number) => only('crosscut', 0.303 + 18 * inch + d, 0.4, 0.3)],
    ['support-sides', (d: number) => only('crosscut', 0.5 + kerf + 18 * inch + d, 0.4, 0.5)],
    ['push-stick', (d: number) => only('rip', 0.8, 0.5, 6 * inch - d)],
    ['thin', (d: number) => only('rip', 0.8, 0.5, 2 * inch - d)],
    ['thin', (d: number) => only('rip', 0.8, 0.2 + kerf + 2 * inch - d, 0.2)],
    ['sliver', (d: number) => only('rip', 0.8, 0.2 + kerf + (3 / 16) * inch - d, 0.2)],
    ['clamp', (d: number) => only('crosscut', 0.4, 6 * inch - d, 0.2)],
    ['clamp', (d: number) => only('rip', 6 * inch - d, 0.3, 0.2)],
    ['clamp', (d: number) => only('crosscut', 0.4, 0.3, 2 * inch - d)],
  ] as const)('%s', (caution, cut) => {
    for (const d of [-MORE, -LITTLE, 0, LITTLE]) expect(cut(d).cautions).not.toContain(caution)
    expect(cut(MORE).cautions).toContain(caution)
  })
})

describe('by hand: what is kept, at its limit', () => {
  test.each([
    ['6 in wide', (d: number) => [6 * inch - d, 0.3]],
    ['1 1/2 in wide and long enough', (d: number) => [1.5 * inch - d, 0.8]],
    ['24 in long and wide enough', (d: number) => [0.05, 24 * inch - d]],
  ] as const)('%s', (_, size) => {
    const kept = (d: number) => {
      const [width, length] = size(d)
      return isKept({ length: length!, width: width! }, usualSawLimits)
    }
    for (const d of [-MORE, 0, LITTLE]) expect(kept(d)).toBe(true)
    expect(kept(MORE)).toBe(false)
  })
})

/** 0.6 x 0.4 m of a board with 10 mm of trim, ripped at 0.2 m. */
const root = { kind: 'cut', cut: 'rip', along: 0, across: 0, length: 0.6, width: 0.4 } as const
const a: Piece = { kind: 'blank', key: 'a', along: 0, across: 0, length: 0.6, width: 0.2 }
const b: Piece = { kind: 'blank', key: 'b', along: 0, across: 0.203, length: 0.6, width: 0.197 }
const problem: LayoutProblem = {
  kerf,
  blanks: [
    { key: 'a', length: 0.6, width: 0.2, count: 1, turns: false },
    { key: 'b', length: 0.6, width: 0.197, count: 1, turns: false },
  ],
  boards: [{ key: 'sheet', length: 0.62, width: 0.42, count: 1, cost: 1, trim: 0.01 }],
}
const faultsOf = (region: Region, asked = problem) => {
  const layout: SheetLayout = {
    boards: [{ board: 'sheet', region }],
    left: [],
    bound: { cost: 0, boards: 0 },
  }
  return [...new Set(checkLayout(asked, layout).map(({ code }) => code))].sort()
}

describe('by hand: a layout that is right but for what sums leave over', () => {
  const SIDES = ['along', 'across', 'length', 'width'] as const
  const moved = (piece: Piece, side: (typeof SIDES)[number], by: number) => ({
    ...piece,
    [side]: piece[side] + by,
  })
  const trees = (by: number): readonly Region[] =>
    SIDES.flatMap((side) => [
      { ...root, [side]: root[side] + by, first: a, second: b },
      { ...root, first: moved(a, side, by), second: b },
      { ...root, first: a, second: moved(b, side, by) },
    ])

  test('is right by half of the least difference, to either side', () => {
    expect([...trees(LITTLE), ...trees(-LITTLE)].map((tree) => faultsOf(tree))).toEqual(Array(24).fill([]))
  })

  test('is wrong by twice of it, wherever that is', () => {
    const wrong = [...trees(MORE), ...trees(-MORE)].map((tree) => faultsOf(tree).length > 0)
    expect(wrong).toEqual(Array(24).fill(true))
  })

  test('a rest that is missing is one from there on', () => {
    // 0.4 m less the saw cut of 3 mm are 0.397 m
    const wide = (by: number) => ({ ...root, first: { ...a, width: 0.397 - by } })
    const asked = (by: number): LayoutProblem => ({
      ...problem,
      blanks: [{ ...problem.blanks[0]!, width: 0.397 - by }],
    })
    for (const by of [-LITTLE, 0, LITTLE]) expect(faultsOf(wide(by), asked(by))).toEqual([])
    expect(faultsOf(wide(MORE), asked(MORE))).toEqual(['rest-missing'])
  })

  test('a side that is as long as what it is sawn from leaves no room for the saw', () => {
    const asked = (width: number): LayoutProblem => ({
      ...problem,
      blanks: [{ ...problem.blanks[0]!, width }],
    })
    for (const width of [0.4, 0.4 - LITTLE])
      expect(faultsOf({ ...root, first: { ...a, width } }, asked(width))).toEqual(['kerf-missing'])
    expect(faultsOf({ ...root, first: { ...a, width: 0.4 - MORE } }, asked(0.4 - MORE))).toEqual([])
  })

  test('a board without length or width is none', () => {
    expect(faultsOf({ ...root, first: { ...a, length: 0 }, second: b })).toContain('size-not-a-number')
    expect(faultsOf({ ...root, first: { ...a, width: 0 }, second: b })).toContain('size-not-a-number')
  })
})

describe('by hand: which edges are trimmed, and where pieces lie', () => {
  // a in the corner of 0.6 x 0.4 m, nothing on the far edge and on the right one
  const corner = (along: number, across: number, off = 0): Region => ({
    ...root,
    along,
    across,
    first: {
      kind: 'cut',
      cut: 'crosscut',
      along,
      across,
      length: 0.6,
      width: 0.2,
      first: { ...a, along: along + off, across: across + off, length: 0.3 },
      second: { kind: 'offcut', along: along + 0.303, across, length: 0.297, width: 0.2 },
    },
    second: { kind: 'offcut', along, across: across + 0.203, length: 0.6, width: 0.197 },
  })
  const plan = (region: Region) =>
    sawPlan({ region, board: problem.boards[0]!, kerf, massPerArea: 0, limits: usualSawLimits })

  test('those at the corner, wherever that is measured from', () => {
    const { trimmed, pieces } = plan(corner(0, 0))
    expect(trimmed).toEqual(['near', 'left'])
    expect(plan(corner(0.25, 0.125)).trimmed).toEqual(trimmed)
    const placesOf = (all: typeof pieces) =>
      all.map(({ place }) =>
        [place.along, place.across, place.length, place.width].map((one) => Math.round(one * 1e6)),
      )
    expect(placesOf(plan(corner(0.25, 0.125)).pieces)).toEqual(placesOf(pieces))
    // 10 mm from either edge of the board
    expect(pieces.find(({ kind }) => kind === 'blank')?.place).toMatchObject({ along: 0.01, across: 0.01 })
  })

  test('also when a blank is off the edge by what sums leave over; not by more', () => {
    expect(plan(corner(0, 0, LITTLE)).trimmed).toEqual(['near', 'left'])
    const loose = plan({
      ...root,
      first: { ...a, along: MORE, length: 0.6 - 2 * MORE },
      second: { ...b, kind: 'offcut' },
    })
    expect(loose.trimmed).toEqual(['near'])
    const close = plan({
      ...root,
      first: { ...a, along: LITTLE, length: 0.6 - 2 * LITTLE },
      second: { ...b, kind: 'offcut' },
    })
    expect(close.trimmed).toEqual(['near', 'left', 'right'])
  })
})

describe('by hand: what no saw takes off, and by which edge a cut is set', () => {
  type Rect = Pick<Piece, 'along' | 'across' | 'length' | 'width'>
  /** The same along the board as across it. */
  const turnedBy = (rip: boolean, { along, across, length, width }: Rect): Rect =>
    rip ? { along, across, length, width } : { along: across, across: along, length: width, width: length }
  const planOf = (
    rip: boolean,
    width: number,
    parts: (rip: boolean) => Region,
    trim = 0,
    oversize: string[] = [],
  ) => {
    const size = turnedBy(rip, { along: 0, across: 0, length: 0.3 + 2 * trim, width: width + 2 * trim })
    const board = { length: size.length, width: size.width, trim }
    return sawPlan({
      region: parts(rip),
      board,
      kerf,
      massPerArea: 0,
      limits: usualSawLimits,
      oversize: new Set(oversize),
    })
  }
  const strip = (rip: boolean, across: number, width: number) =>
    turnedBy(rip, { along: 0, across, length: 0.3, width })
  const parted = (rip: boolean, across: number, width: number, first: Region, second?: Region): Region => ({
    kind: 'cut',
    cut: rip ? 'rip' : 'crosscut',
    ...strip(rip, across, width),
    first,
    ...(second ? { second } : {}),
  })
  const blank = (rip: boolean, across: number, width: number): Piece => ({
    kind: 'blank',
    key: 'a',
    ...strip(rip, across, width),
  })
  const rest = (rip: boolean, across: number, width: number): Piece => ({
    kind: 'offcut',
    ...strip(rip, across, width),
  })
  const BOTH = [true, false]

  test('0.3 mm stay on a blank, more is sawn off', () => {
    const cuts = (rip: boolean, d: number) =>
      planOf(rip, 0.2003 + d, () => parted(rip, 0, 0.2003 + d, blank(rip, 0, 0.2))).cuts.length
    for (const rip of BOTH) {
      for (const d of [-MORE, -LITTLE, 0, LITTLE]) expect(cuts(rip, d)).toBe(0)
      expect(cuts(rip, MORE)).toBe(1)
    }
  })

  test('on a blank that is cut to size later 3/16 in and the saw cut stay', () => {
    const sliver = (3 / 16) * inch
    const cuts = (rip: boolean, d: number, oversize: string[]) => {
      const width = 0.2 + kerf + sliver + d
      const region = parted(rip, 0, width, blank(rip, 0, 0.2), rest(rip, 0.2 + kerf, sliver + d))
      return planOf(rip, width, () => region, 0, oversize).cuts.length
    }
    for (const rip of BOTH) {
      for (const d of [-MORE, 0, LITTLE]) expect(cuts(rip, d, ['a'])).toBe(0)
      expect(cuts(rip, MORE, ['a'])).toBe(1)
      expect(cuts(rip, 0, [])).toBe(1)
    }
  })

  test('of two blanks the one at the corner is set, unless the fence does not reach so far and reaches the other', () => {
    const reach = 30 * inch
    const from = (rip: boolean, first: number, second: number) => {
      const width = first + kerf + second
      const region = parted(rip, 0, width, blank(rip, 0, first), blank(rip, first + kerf, second))
      return planOf(rip, width, () => region).cuts[0]?.from
    }
    for (const rip of BOTH) {
      const [corner, other] = rip ? ['near', 'far'] : ['left', 'right']
      expect(from(rip, reach, 0.2)).toBe(corner)
      expect(from(rip, reach + 1e-6, 0.2)).toBe(other)
      expect(from(rip, reach + 1e-6, reach)).toBe(other)
      expect(from(rip, reach + 1e-6, reach + 1e-6)).toBe(corner)
    }
  })

  test('a finished size is set, also one with 0.3 mm that stay on it', () => {
    const from = (rip: boolean, off: number) => {
      const second = parted(rip, 0.103, 0.2, blank(rip, 0.103, 0.2 - off))
      return planOf(rip, 0.303, () => parted(rip, 0, 0.303, rest(rip, 0, 0.1), second)).cuts[0]?.from
    }
    for (const rip of BOTH) {
      const [corner, other] = rip ? ['near', 'far'] : ['left', 'right']
      for (const off of [0, 0.0003 - MORE, 0.0003, 0.0003 + LITTLE]) expect(from(rip, off)).toBe(other)
      expect(from(rip, 0.0003 + MORE)).toBe(corner)
    }
  })

  test('an edge that is not trimmed leaves a strip where a trimmed one would have left dust', () => {
    for (const rip of BOTH) {
      // 0.4 m and twice 10 mm; trimmed at the corner 0.41 m are left: 0.398, the saw cut of 3 mm, and 9 mm
      const { cuts, pieces } = planOf(rip, 0.4, () => parted(rip, 0, 0.4, blank(rip, 0, 0.398)), 0.01)
      const falls = pieces[cuts.at(-1)?.falls ?? -1]?.place
      const [at, width] = rip ? [falls?.across, falls?.width] : [falls?.along, falls?.length]
      expect(at).toBeCloseTo(0.411, 9)
      expect(width).toBeCloseTo(0.009, 9)
    }
  })
})
