/** What one person does at one saw: by hand on small boards, and replayed on boards by chance. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { piecesOf } from '../../src/sheet-stock/check-layout.ts'
import { LEAST_CUT } from '../../src/sheet-stock/real-pieces.ts'
import {
  alikeBoards,
  isKept,
  letterOf,
  type SawPlan,
  sawPlan,
  sheetShares,
  usualSawLimits,
} from '../../src/sheet-stock/saw-plan.ts'
import type { Piece, Place, Region, Sawn } from '../../src/sheet-stock/types.ts'
import { randomLayout } from './random-trees.ts'

const inch = 0.0254

/** A board that light weighs nothing: no piece is led by two. */
const LIGHT = { massPerArea: 0, limits: usualSawLimits } as const

const blank = (key: string, along: number, across: number, length: number, width: number): Piece => ({
  kind: 'blank',
  key,
  turned: false,
  along,
  across,
  length,
  width,
})
const offcut = (along: number, across: number, length: number, width: number): Piece => ({
  kind: 'offcut',
  along,
  across,
  length,
  width,
})
const cut = (kind: Sawn['cut'], place: Place, first: Region, second?: Region): Sawn => ({
  kind: 'cut',
  cut: kind,
  along: place.along,
  across: place.across,
  length: place.length,
  width: place.width,
  first,
  ...(second ? { second } : {}),
})

/**
 * Saws a board as the plan says, by its words alone: the piece, the edge, the distance, and where both halves go.
 * @returns the places of what is never sawn again, by id
 */
const replay = ({ board, cuts }: SawPlan, kerf: number): Map<number, Place> => {
  const there = new Map<number, Place>([[0, { along: 0, across: 0, ...board }]])
  for (const { piece, from, distance, kept, falls } of cuts) {
    const { along, across, length, width } = there.get(piece)!
    there.delete(piece)
    const rip = from === 'near' || from === 'far'
    const size = rip ? width : length
    expect(distance).toBeGreaterThan(0)
    expect(distance).toBeLessThan(size)
    const start = rip ? across : along
    const end = start + size
    const isLow = from === 'near' || from === 'left'
    const set = (id: number, low: number, high: number): void => {
      expect(there.has(id)).toBe(false)
      there.set(
        id,
        rip
          ? { along, length, across: low, width: high - low }
          : { across, width, along: low, length: high - low },
      )
    }
    if (isLow) set(kept, start, start + distance)
    else set(kept, end - distance, end)
    const beyond = size - distance - kerf
    if (falls === undefined) expect(beyond).toBeLessThan(1e-7)
    else if (isLow) set(falls, start + distance + kerf, end)
    else set(falls, start, end - distance - kerf)
  }
  return there
}

describe('by hand: a sheet that is ripped into three equal strips', () => {
  // 40 x 20 in without trim, kerf 1/8 in: strips of 2 in, then 20 - 3 · 2 1/8 = 13 5/8 in are left
  const long = 40 * inch
  const kerf = inch / 8
  const at = (n: number) => n * (2 * inch + kerf)
  const strip = (n: number): Region =>
    cut(
      'crosscut',
      { along: 0, across: at(n), length: long, width: 2 * inch },
      blank('rail', 0, at(n), 25 * inch, 2 * inch),
      offcut(25 * inch + kerf, at(n), long - 25 * inch - kerf, 2 * inch),
    )
  const rest = (n: number): Place => ({ along: 0, across: at(n), length: long, width: 20 * inch - at(n) })
  const region = cut(
    'rip',
    rest(0),
    strip(0),
    cut('rip', rest(1), strip(1), cut('rip', rest(2), strip(2), offcut(0, at(3), long, 20 * inch - at(3)))),
  )
  const plan = sawPlan({ region, board: { length: long, width: 20 * inch, trim: 0 }, kerf, ...LIGHT })

  test('is one step of three cuts at one setting, and one step of crosscuts for each strip at one more', () => {
    expect(plan.steps.map(({ cuts }) => cuts.map(({ number }) => number))).toEqual([[1, 2, 3], [4], [5], [6]])
    expect(plan.cuts.map(({ sameSetting }) => sameSetting)).toEqual([false, true, true, false, true, true])
    expect(plan.settings).toBe(2)
    expect(plan.cuts.map(({ kind }) => kind)).toEqual([
      'rip',
      'rip',
      'rip',
      'crosscut',
      'crosscut',
      'crosscut',
    ])
  })

  test('strips are A, B and C; what is left between two of the cuts has no letter', () =>
    expect(plan.pieces.flatMap(({ letter }) => letter ?? [])).toEqual(['A', 'B', 'C']))

  test('2 in beside a fence are too little for a hand, but no thin strip; 2 in on the sled are clamped', () => {
    // 40 in run out over the table; 25 in lie left of the blade, and the sled bears 18 in
    expect(plan.cuts[0]!.cautions).toEqual(['support', 'push-stick'])
    expect(plan.cuts[3]!.tool).toBe('sled')
    expect(plan.cuts[3]!.cautions).toEqual(['support-side', 'clamp'])
  })

  test('the long wide rest is kept; 14 7/8 in of strip are not, being neither long nor wide enough', () => {
    expect(plan.offcuts.map(({ offcut: number, place }) => [number, place.width / inch])).toEqual([
      [1, expect.closeTo(13.625, 9)],
    ])
  })

  test('its area: 3 · 25 · 2 of 800 sq in are parts, 40 · 13 5/8 are kept', () => {
    const shares = sheetShares([{ plan, count: 2 }])
    expect(shares.area).toBeCloseTo(2 * 800 * inch * inch, 9)
    expect(shares.blanks).toBeCloseTo(150 / 800, 9)
    expect(shares.kept).toBeCloseTo(545 / 800, 9)
    expect(shares.waste).toBeCloseTo(105 / 800, 9)
  })
})

describe('by hand: which edges are trimmed', () => {
  // 1 x 0.5 m, 10 mm off each edge: 0.98 x 0.48. One blank of 0.6 x 0.48 at the left end.
  const board = { length: 1, width: 0.5, trim: 0.01 }
  const kerf = 0.003
  const region = cut(
    'crosscut',
    { along: 0, across: 0, length: 0.98, width: 0.48 },
    blank('a', 0, 0, 0.6, 0.48),
    offcut(0.603, 0, 0.377, 0.48),
  )
  const plan = sawPlan({ region, board, kerf, ...LIGHT })

  test('those that the blank ends on, long ones first; the right end stays as it came', () =>
    expect(plan.trimmed).toEqual(['near', 'far', 'left']))

  test('the offcut is longer by what was not trimmed: 1 - 0.01 - 0.6 - 0.003', () => {
    expect(plan.offcuts).toHaveLength(1)
    expect(plan.offcuts[0]!.place.length).toBeCloseTo(0.387, 9)
    expect(plan.offcuts[0]!.place.width).toBeCloseTo(0.48, 9)
  })

  test('with the blank at the other end it is the left one that stays, and the offcut begins at the bare edge', () => {
    const other = cut(
      'crosscut',
      { along: 0, across: 0, length: 0.98, width: 0.48 },
      offcut(0, 0, 0.377, 0.48),
      blank('a', 0.38, 0, 0.6, 0.48),
    )
    const turned = sawPlan({ region: other, board, kerf, ...LIGHT })
    expect(turned.trimmed).toEqual(['near', 'far', 'right'])
    expect(turned.offcuts[0]!.place.along).toBeCloseTo(0, 9)
    expect(turned.offcuts[0]!.place.length).toBeCloseTo(0.387, 9)
  })

  test('what is sawn off is 10 mm with its saw cut; what stays is measured from the edge across', () => {
    const [near, far, left] = plan.cuts
    expect([near!.from, near!.distance]).toEqual(['far', expect.closeTo(0.49, 9)])
    expect([far!.from, far!.distance]).toEqual(['near', expect.closeTo(0.48, 9)])
    expect([left!.from, left!.distance]).toEqual(['right', expect.closeTo(0.99, 9)])
    expect(plan.pieces[near!.falls!]!.place.width).toBeCloseTo(0.007, 9)
  })

  test('a trim as thin as the saw cut leaves nothing to fall', () => {
    const thin = sawPlan({ region, board: { length: 0.986, width: 0.486, trim: 0.003 }, kerf, ...LIGHT })
    expect(thin.cuts[0]!.kind).toBe('trim')
    expect(thin.cuts[0]!.falls).toBeUndefined()
  })

  test('an edge is trimmed for the fence where no blank is', () => {
    // the blank is in the middle: offcut below, offcut beyond; the strip is set from the far edge, the crosscut from the left
    const middle = cut(
      'rip',
      { along: 0, across: 0, length: 0.98, width: 0.48 },
      offcut(0, 0, 0.98, 0.177),
      cut(
        'rip',
        { along: 0, across: 0.18, length: 0.98, width: 0.3 },
        cut(
          'crosscut',
          { along: 0, across: 0.18, length: 0.98, width: 0.1 },
          offcut(0, 0.18, 0.2, 0.1),
          blank('a', 0.203, 0.18, 0.777, 0.1),
        ),
        offcut(0, 0.283, 0.98, 0.197),
      ),
    )
    // first cut: neither side is a finished width, so it is set by the near edge
    expect(sawPlan({ region: middle, board, kerf, ...LIGHT }).trimmed).toEqual(['near', 'right'])
  })
})

describe('by hand: what no saw takes off', () => {
  const board = { length: 1, width: 0.5, trim: 0 }
  /** One blank of the whole width, shorter by `less`, and beside the cut another of 0.4 m that makes the piece. */
  const plan = (less: number) =>
    sawPlan({
      region: cut(
        'crosscut',
        { along: 0, across: 0, length: 1, width: 0.5 },
        cut('crosscut', { along: 0, across: 0, length: 0.4, width: 0.5 }, blank('a', 0, 0, 0.4 - less, 0.5)),
        offcut(0.403, 0, 0.597, 0.5),
      ),
      board,
      kerf: 0.003,
      ...LIGHT,
    })

  test('0.3 mm are left on the blank, without a cut', () => {
    const one = plan(0.0003)
    expect(one.cuts).toHaveLength(1)
    expect(one.pieces.find(({ key }) => key === 'a')!.place.length).toBeCloseTo(0.4, 9)
  })

  test('a sliver stays on what is over size anyway: 3/16 in and a saw cut, and no more', () => {
    const plan = (beyond: number, oversize: readonly string[]) =>
      sawPlan({
        region: cut(
          'rip',
          { along: 0, across: 0, length: 1, width: 0.2 + 0.003 + beyond },
          blank('a', 0, 0, 1, 0.2),
          offcut(0, 0.203, 1, beyond),
        ),
        board: { length: 1, width: 0.2 + 0.003 + beyond, trim: 0 },
        kerf: 0.003,
        oversize: new Set(oversize),
        ...LIGHT,
      })
    // 3/16 in are 4.76 mm
    expect(plan(0.0047, ['a']).cuts).toHaveLength(0)
    expect(plan(0.0047, ['a']).pieces[0]!.place.width).toBeCloseTo(0.2077, 9)
    expect(plan(0.0048, ['a']).cuts).toHaveLength(1)
    expect(plan(0.0047, ['b']).cuts).toHaveLength(1)
  })

  test('0.4 mm are a cut', () => {
    const one = plan(0.0004)
    expect(one.cuts).toHaveLength(2)
    expect(one.pieces.find(({ key }) => key === 'a')!.place.length).toBeCloseTo(0.3996, 9)
  })
})

describe('by hand: tools, and what is said of a cut', () => {
  const kerf = 0.003
  const one = (length: number, width: number, kind: Sawn['cut'], size: number, massPerArea = 0) => {
    const place = { along: 0, across: 0, length, width }
    const rip = kind === 'rip'
    const region = cut(
      kind,
      place,
      rip ? blank('a', 0, 0, length, size) : blank('a', 0, 0, size, width),
      rip
        ? offcut(0, size + kerf, length, width - size - kerf)
        : offcut(size + kerf, 0, length - size - kerf, width),
    )
    const plan = sawPlan({
      region,
      board: { length, width, trim: 0 },
      kerf,
      massPerArea,
      limits: usualSawLimits,
    })
    return plan.cuts[0]!
  }

  test('a long edge goes along the fence; a short one is no guide: it rides on the sled', () => {
    expect(one(1, 0.6, 'rip', 0.3).tool).toBe('fence')
    // 0.2 m of edge against 0.5 m of distance
    expect(one(1, 0.2, 'crosscut', 0.5).tool).toBe('sled')
    // 0.25 m of edge is below 12 in, however little is sawn off
    expect(one(0.25, 0.2, 'rip', 0.1).tool).toBe('sled')
  })

  test('what neither fence nor sled reaches is guided', () => {
    // 0.8 m is beyond 30 in of fence, 0.7 m beyond 24 in of sled
    expect(one(1.2, 0.9, 'rip', 0.8).tool).toBe('guide')
    expect(one(1.2, 0.7, 'crosscut', 0.75).tool).toBe('guide')
  })

  test('12.2 kg a square metre: 1 m2 is heavy, 0.9 m2 is not', () => {
    expect(one(1, 1, 'rip', 0.3, 12.2).cautions).toEqual(['heavy'])
    expect(one(1, 1, 'rip', 0.3, 12.2).tool).toBe('guide')
    expect(one(1, 0.9, 'rip', 0.3, 12.2).tool).toBe('fence')
  })

  test('narrow beside the fence, thin on either side, small on the sled', () => {
    expect(one(0.9, 0.6, 'rip', 0.16).cautions).toEqual([])
    expect(one(0.9, 0.6, 'rip', 0.15).cautions).toEqual(['push-stick'])
    // a block in place of the stick, so never both
    expect(one(0.9, 0.6, 'rip', 0.05).cautions).toEqual(['thin'])
    expect(one(0.9, 0.6, 'rip', 0.56).cautions).toEqual(['thin'])
    expect(one(0.5, 0.14, 'crosscut', 0.3).cautions).toEqual(['clamp'])
    // 40 mm at the stop of the sled
    expect(one(0.4, 0.2, 'crosscut', 0.04).cautions).toEqual(['clamp'])
  })

  test('what falls is a sliver below 3/16 in, which is 4.76 mm, and no thin strip', () => {
    expect(one(0.9, 0.6, 'rip', 0.6 - kerf - 0.0047).cautions).toEqual(['sliver'])
    expect(one(0.9, 0.6, 'rip', 0.6 - kerf - 0.0048).cautions).toEqual(['thin'])
    expect(one(0.4, 0.2, 'crosscut', 0.4 - kerf - 0.002).cautions).toEqual(['sliver'])
  })

  test('a long piece with a short end is not crosscut against the fence', () => {
    // 343 mm of end, 224 mm to the fence, 888 mm beyond: it would turn; 18 in are 457 mm, so the end is borne
    expect(one(1.115, 0.343, 'crosscut', 0.224).tool).toBe('sled')
    expect(one(1.115, 0.343, 'crosscut', 0.224).cautions).toEqual(['support-side'])
    // the edge is as long as the piece reaches beyond the blade, and then no longer
    expect(one(0.6, 0.35, 'crosscut', 0.25).tool).toBe('fence')
    expect(one(0.6, 0.35, 'crosscut', 0.249).tool).toBe('sled')
  })

  test('the sled bears 36 in beyond the blade: what is longer lies still; a narrow one is clamped to the sled', () => {
    // 1.5 m less 0.4 m are 1.1 m; 36 in are 0.914 m
    expect(one(1.5, 0.343, 'crosscut', 0.4).tool).toBe('guide')
    expect(one(1.5, 0.05, 'crosscut', 0.4).tool).toBe('sled')
    expect(one(1.5, 0.05, 'crosscut', 0.4).cautions).toEqual(['support-side', 'clamp'])
  })

  test('an end is trimmed square to an edge, never with the other end on the fence', () => {
    // 0.7 x 0.7 m less 10 mm on each edge; 24 in of travel are too short, 0.6 m are not
    const trims = (width: number) =>
      sawPlan({
        region: blank('a', 0, 0, 0.68, width - 0.02),
        board: { length: 0.7, width, trim: 0.01 },
        kerf,
        ...LIGHT,
      })
    expect(trims(0.7).cuts.map(({ from, tool }) => [from, tool])).toEqual([
      ['far', 'fence'],
      ['near', 'fence'],
      ['right', 'guide'],
      ['left', 'guide'],
    ])
    expect(trims(0.6).cuts.map(({ tool }) => tool)).toEqual(['fence', 'fence', 'sled', 'sled'])
    // the fence is set for each long edge; nothing is set for the ends
    expect(trims(0.6).settings).toBe(2)
  })

  test('one size from two saws: the second is set by what the first has sawn', () => {
    // 1.5 x 1 m at 12 kg a square metre are 18 kg; the rest of 1.5 x 0.597 m is 10.7 kg, and goes along the fence
    const rest: Place = { along: 0, across: 0.403, length: 1.5, width: 0.597 }
    const region = cut(
      'rip',
      { along: 0, across: 0, length: 1.5, width: 1 },
      blank('a', 0, 0, 1.5, 0.4),
      cut('rip', rest, blank('a', 0, 0.403, 1.5, 0.4), offcut(0, 0.806, 1.5, 0.194)),
    )
    const plan = sawPlan({
      region,
      board: { length: 1.5, width: 1, trim: 0 },
      kerf,
      massPerArea: 12,
      limits: usualSawLimits,
    })
    expect(plan.cuts.map(({ tool }) => tool)).toEqual(['guide', 'fence'])
    expect(plan.cuts.map(({ cautions }) => cautions)).toEqual([['heavy'], ['support', 'match']])
  })

  test('a pair that another setting comes between is matched, on one board and from board to board', () => {
    // 1 m of 0.2 m: 0.3, then 0.25, then 0.3 m again; kerf 3 mm, so the third begins at 0.556 m
    const chain = (at: number, sizes: readonly number[]): Region => {
      const [size, ...more] = sizes
      const whole: Place = { along: at, across: 0, length: 1 - at, width: 0.2 }
      if (size === undefined) return offcut(at, 0, 1 - at, 0.2)
      return cut('crosscut', whole, blank(`s${size}`, at, 0, size, 0.2), chain(at + size + kerf, more))
    }
    const request = {
      region: chain(0, [0.3, 0.25, 0.3]),
      board: { length: 1, width: 0.2, trim: 0 },
      kerf,
      ...LIGHT,
    }
    const plan = sawPlan(request)
    expect(plan.cuts.map(({ cautions }) => cautions.includes('match'))).toEqual([false, false, true])
    const next = sawPlan({ ...request, earlier: plan.cuts })
    expect(next.cuts.map(({ cautions }) => cautions.includes('match'))).toEqual([true, true, true])
    // side by side nothing is set anew, so nothing is matched
    const beside = sawPlan({ ...request, region: chain(0, [0.3, 0.3]) })
    expect(beside.cuts.flatMap(({ cautions }) => cautions)).not.toContain('match')
  })

  test('a strip that reaches beyond the sled on both sides wants a stand on each', () => {
    // 1.1 m less 0.527 m and 3 mm are 0.57 m; 18 in are 0.457 m
    expect(one(1.1, 0.11, 'crosscut', 0.527).cautions).toEqual(['support-sides', 'clamp'])
    expect(one(0.97, 0.11, 'crosscut', 0.527).cautions).toEqual(['support-side', 'clamp'])
  })

  test('two finished sizes of one cut: what falls is measured', () => {
    const region = cut(
      'rip',
      { along: 0, across: 0, length: 1, width: 0.403 },
      blank('a', 0, 0, 1, 0.2),
      blank('b', 0, 0.203, 1, 0.2),
    )
    const plan = sawPlan({ region, board: { length: 1, width: 0.403, trim: 0 }, kerf, ...LIGHT })
    // 1 m runs out over the table
    expect(plan.cuts[0]!.cautions).toEqual(['support', 'measure-rest'])
  })
})

describe('by hand: order', () => {
  test('equal crosscuts of two strips wait until both strips are there, and the fence is set three times', () => {
    // strips of 0.2 and 0.1 m, each crosscut at 0.3 m; the sheet is 0.8 x 0.303 m, kerf 3 mm
    const kerf = 0.003
    const half = (key: string, across: number, width: number): Region =>
      cut(
        'crosscut',
        { along: 0, across, length: 0.8, width },
        blank(key, 0, across, 0.3, width),
        offcut(0.303, across, 0.497, width),
      )
    const region = cut(
      'rip',
      { along: 0, across: 0, length: 0.8, width: 0.5 },
      half('a', 0, 0.2),
      cut(
        'rip',
        { along: 0, across: 0.203, length: 0.8, width: 0.297 },
        half('b', 0.203, 0.1),
        offcut(0, 0.306, 0.8, 0.194),
      ),
    )
    const plan = sawPlan({ region, board: { length: 0.8, width: 0.5, trim: 0 }, kerf, ...LIGHT })
    expect(plan.cuts.map((one) => [one.kind, Math.round(one.distance * 1000)])).toEqual([
      ['rip', 200],
      ['rip', 100],
      ['crosscut', 300],
      ['crosscut', 300],
    ])
    expect(plan.settings).toBe(3)
  })

  const order = (region: Region, length: number, width: number) =>
    sawPlan({ region, board: { length, width, trim: 0 }, kerf: 0.003, ...LIGHT })
  const distances = (plan: SawPlan) => plan.cuts.map((one) => Math.round(one.distance * 1000))

  test('strips of one piece come one after the other before another piece is laid on at the same setting', () => {
    // 1 m and a saw cut of 1/256 m by 0.5 m, in two halves, each with strips of 1/8 m
    const kerf = 1 / 256
    const strips = (along: number, across: number): Region =>
      across > 0.25
        ? offcut(along, across, 0.5, 0.5 - across)
        : cut(
            'rip',
            { along, across, length: 0.5, width: 0.5 - across },
            blank('a', along, across, 0.5, 0.125),
            strips(along, across + 0.125 + kerf),
          )
    const place = { along: 0, across: 0, length: 1 + kerf, width: 0.5 }
    const region = cut('crosscut', place, strips(0, 0), strips(0.5 + kerf, 0))
    const plan = sawPlan({ region, board: { length: 1 + kerf, width: 0.5, trim: 0 }, kerf, ...LIGHT })
    expect(plan.steps.map(({ cuts }) => cuts.length)).toEqual([1, 2, 2])
    expect(plan.settings).toBe(2)
  })

  test('what can be sawn at the setting that stands is, before a rip at another', () => {
    // strips A and B of 0.2 m; both crosscut at 0.5 m, what A leaves is ripped at 0.1 m
    const place = { along: 0, across: 0, length: 0.9, width: 0.403 }
    const a = cut(
      'crosscut',
      { ...place, width: 0.2 },
      blank('a', 0, 0, 0.5, 0.2),
      cut(
        'rip',
        { along: 0.503, across: 0, length: 0.397, width: 0.2 },
        blank('c', 0.503, 0, 0.397, 0.1),
        offcut(0.503, 0.103, 0.397, 0.097),
      ),
    )
    const b = cut(
      'crosscut',
      { ...place, across: 0.203, width: 0.2 },
      blank('b', 0, 0.203, 0.5, 0.2),
      offcut(0.503, 0.203, 0.397, 0.2),
    )
    expect(distances(order(cut('rip', place, a, b), 0.9, 0.403))).toEqual([200, 500, 500, 100])
  })

  test('a setting that is needed again below another one waits for that', () => {
    // the left part is ripped at 0.1 m; the right one at 0.2 m first, and what that leaves at 0.1 m
    const place = { along: 0, across: 0, length: 1, width: 0.5 }
    const left = cut(
      'rip',
      { ...place, length: 0.6 },
      blank('a', 0, 0, 0.6, 0.1),
      offcut(0, 0.103, 0.6, 0.397),
    )
    const right = cut(
      'rip',
      { along: 0.603, across: 0, length: 0.397, width: 0.5 },
      blank('b', 0.603, 0, 0.397, 0.2),
      cut(
        'rip',
        { along: 0.603, across: 0.203, length: 0.397, width: 0.297 },
        blank('c', 0.603, 0.203, 0.397, 0.1),
        offcut(0.603, 0.306, 0.397, 0.194),
      ),
    )
    const plan = order(cut('crosscut', place, left, right), 1, 0.5)
    expect(distances(plan)).toEqual([600, 200, 100, 100])
    expect(plan.settings).toBe(3)
  })

  test('no cut is made between two offcuts', () => {
    const region = cut(
      'rip',
      { along: 0, across: 0, length: 1, width: 0.5 },
      blank('a', 0, 0, 1, 0.2),
      cut(
        'crosscut',
        { along: 0, across: 0.203, length: 1, width: 0.297 },
        offcut(0, 0.203, 0.5, 0.297),
        offcut(0.503, 0.203, 0.497, 0.297),
      ),
    )
    const plan = sawPlan({ region, board: { length: 1, width: 0.5, trim: 0 }, kerf: 0.003, ...LIGHT })
    expect(plan.cuts).toHaveLength(1)
    expect(plan.offcuts.map(({ place }) => place.length)).toEqual([1])
  })

  test('a board that is a blank as it is wants no cut', () => {
    const plan = sawPlan({
      region: blank('a', 0, 0, 1, 0.5),
      board: { length: 1, width: 0.5, trim: 0 },
      kerf: 0.003,
      ...LIGHT,
    })
    expect(plan.cuts).toEqual([])
    expect(plan.pieces).toMatchObject([{ kind: 'blank', key: 'a' }])
  })

  test('letters pass over I and O and go on with two', () =>
    expect([0, 7, 8, 13, 23, 24, 25].map(letterOf)).toEqual(['A', 'H', 'J', 'P', 'Z', 'AA', 'AB']))

  test('alike boards are told once, by their numbers', () => {
    const region = blank('a', 0, 0, 1, 0.5)
    const boards = [
      { board: 'x', region },
      { board: 'y', region },
      { board: 'x', region: { ...region } },
    ]
    expect(alikeBoards(boards).map(({ numbers }) => numbers)).toEqual([[1, 3], [2]])
  })

  test('kept: 6 x 6 in; 1 1/2 x 24 in; not 5 x 23 in, not 1 x 40 in', () => {
    const kept = (length: number, width: number) =>
      isKept({ length: length * inch, width: width * inch }, usualSawLimits)
    expect([kept(6, 6), kept(1.5, 24), kept(24, 1.5), kept(5, 23), kept(40, 1)]).toEqual([
      true,
      true,
      true,
      false,
      false,
    ])
  })
})

describe('by hand: for any tree', () => {
  const plans = (check: (plan: SawPlan, region: Region, kerf: number, trim: number) => void, seed: number) =>
    fc.assert(
      fc.property(randomLayout, fc.integer({ min: 0, max: 30 }), ({ problem, layout }, massPerArea) => {
        const [board] = problem.boards
        for (const { region } of layout.boards) {
          const plan = sawPlan({
            region,
            board: board!,
            kerf: problem.kerf,
            massPerArea,
            limits: usualSawLimits,
          })
          check(plan, region, problem.kerf, board!.trim)
        }
      }),
      { seed, numRuns: 120 },
    )

  test('trees by chance are worth the name: eight cuts a board, or more', () => {
    let cuts = 0
    let boards = 0
    plans((plan) => {
      cuts += plan.cuts.length
      boards += 1
    }, 20)
    expect(cuts / boards).toBeGreaterThan(8)
  })

  test('the plan, replayed by its words alone, ends with the blanks in their places and with nothing lost', () =>
    plans((plan, region, kerf, trim) => {
      const sawn = replay(plan, kerf)
      // what is left is what the plan lists as never sawn
      const leaves = plan.pieces.filter(({ sawnBy }) => sawnBy === undefined)
      expect([...sawn.keys()].sort((a, b) => a - b)).toEqual(leaves.map(({ id }) => id))
      for (const { id, place } of leaves)
        for (const side of ['along', 'across', 'length', 'width'] as const)
          expect(Math.abs(sawn.get(id)![side] - place[side])).toBeLessThan(1e-7)
      const blanks = leaves.filter(({ kind }) => kind === 'blank')
      const wanted = piecesOf(region).filter(({ kind }) => kind === 'blank')
      expect(blanks.map(({ key }) => key).sort()).toEqual(wanted.map(({ key }) => key).sort())
      for (const { key, along, across, length, width } of wanted) {
        const found = sawn.get(blanks.find((one) => one.key === key)!.id)!
        expect(Math.abs(found.along - along - trim)).toBeLessThan(1e-7)
        expect(Math.abs(found.across - across - trim)).toBeLessThan(1e-7)
        // larger by less than a saw takes off, never smaller
        for (const over of [found.length - length, found.width - width]) {
          expect(over).toBeGreaterThan(-1e-7)
          expect(over).toBeLessThan(LEAST_CUT + 1e-7)
        }
      }
    }, 21))

  test('every cut of the tree that parts a blank from something is there once, but for what no saw takes off, and no other', () =>
    plans((plan, region) => {
      const count = (one: Region): number =>
        one.kind === 'cut' && piecesOf(one).some(({ kind }) => kind === 'blank')
          ? 1 + count(one.first) + (one.second ? count(one.second) : 0)
          : 0
      const beyond = (one: Sawn): number =>
        one.cut === 'rip' ? one.width - one.first.width : one.length - one.first.length
      const nothing = (one: Region): number =>
        one.kind === 'cut'
          ? Number(!one.second && beyond(one) <= LEAST_CUT + 1e-9) +
            nothing(one.first) +
            (one.second ? nothing(one.second) : 0)
          : 0
      const made = plan.cuts.filter(({ kind }) => kind !== 'trim').length
      expect(made).toBeLessThanOrEqual(count(region))
      expect(made).toBeGreaterThanOrEqual(count(region) - nothing(region))
      expect(plan.cuts.map(({ number }) => number)).toEqual(plan.cuts.map((_, index) => index + 1))
      expect(plan.steps.flatMap(({ cuts }) => cuts)).toEqual(plan.cuts)
      expect(plan.cuts.map(({ piece }) => plan.pieces[piece]!.sawnBy)).toEqual(
        plan.cuts.map(({ number }) => number),
      )
    }, 22))

  test('trims come first, and every piece is there before it is sawn', () =>
    plans((plan) => {
      const kinds = plan.cuts.map(({ kind }) => kind === 'trim')
      expect(kinds.lastIndexOf(true)).toBe(plan.trimmed.length - 1)
      const made = new Set([0])
      for (const { piece, kept, falls } of plan.cuts) {
        expect(made.has(piece)).toBe(true)
        made.add(kept)
        if (falls !== undefined) made.add(falls)
      }
    }, 23))

  test('cuts of one step share piece, edge and distance, and letters are given once each', () =>
    plans((plan) => {
      for (const { cuts } of plan.steps) {
        expect(new Set(cuts.map(({ from }) => from)).size).toBe(1)
        for (const [index, one] of cuts.entries())
          if (index > 0) {
            expect(one.piece).toBe(cuts[index - 1]!.falls)
            expect(Math.abs(one.distance - cuts[0]!.distance)).toBeLessThan(1e-7)
          }
      }
      const letters = plan.pieces.flatMap(({ letter }) => letter ?? [])
      expect(new Set(letters).size).toBe(letters.length)
      // whatever lies on the saw in a step is the board or has a letter
      for (const { cuts } of plan.steps) {
        const piece = plan.pieces[cuts[0]!.piece]!
        expect(piece.kind === 'board' || piece.letter !== undefined).toBe(true)
      }
    }, 24))

  test('shares make up the whole', () =>
    plans((plan) => {
      const { blanks, kept, waste } = sheetShares([{ plan, count: 1 }])
      expect(blanks + kept + waste).toBeCloseTo(1, 9)
      expect(Math.min(blanks, kept, waste)).toBeGreaterThan(-1e-9)
    }, 25))
})
