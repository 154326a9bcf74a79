/** Rails under the pull of wires against beam tables, closed forms of single loads, and tuning worked by hand. */
import { describe, expect, test } from 'vitest'
import {
  bestTuning,
  pinGive,
  railBow,
  railGive,
  tuneInPasses,
  tuningOrder,
  type WireSet,
} from '../../src/wires/rail.ts'
import { boardSection, RAIL_MODULUS, type Rail } from '../../src/wires/rail-section.ts'
import { wireFigures } from '../../src/wires/strength.ts'

/** a number out of a table, which must be there */
const of = (rows: readonly (readonly number[])[], i: number, j: number): number => rows[i]?.[j] ?? Number.NaN
const board = { width: 0.075, depth: 0.019 }
const railOf = (
  change: Partial<typeof board> = {},
  modulus: { bending: number; shear?: number } = { bending: 10e9 },
): Rail => ({
  length: 0.31,
  sections: [boardSection({ ...board, ...change }, modulus)],
})
const rail = railOf()
/** 0.075 · 0.019³ / 12 = 4.2869e-8 m4, times 10 GPa = 428.69 N m² */
const bending = (10e9 * 0.075 * 0.019 ** 3) / 12

describe('published: beams under one load (tables, memory)', () => {
  test('in the middle: L³/48EI on two supports, L³/192EI between fixed ends', () => {
    const middle = [rail.length / 2]
    expect(of(railGive(rail, middle, 'pinned'), 0, 0) / (0.31 ** 3 / 48 / bending)).toBeCloseTo(1, 9)
    expect(of(railGive(rail, middle, 'fixed'), 0, 0) / (0.31 ** 3 / 192 / bending)).toBeCloseTo(1, 9)
  })

  test('anywhere: b x (L² − b² − x²)/6LEI, and b² x² (3aL − 3ax − bx)/6L³EI, for x up to the load', () => {
    const length = rail.length
    const places = [0.03, 0.08, 0.155, 0.2, 0.29]
    const pinned = railGive(rail, places, 'pinned')
    const fixed = railGive(rail, places, 'fixed')
    for (const [j, a] of places.entries())
      for (const [i, x] of places.entries()) {
        const [near, at] = x <= a ? [a, x] : [length - a, length - x]
        const far = length - near
        const simple = (far * at * (length ** 2 - far ** 2 - at ** 2)) / (6 * length * bending)
        const held =
          (far ** 2 * at ** 2 * (3 * near * length - 3 * near * at - far * at)) / (6 * length ** 3 * bending)
        expect(of(pinned, i, j) / simple).toBeCloseTo(1, 8)
        expect(of(fixed, i, j) / held).toBeCloseTo(1, 8)
      }
  })

  test('with shear: L/4GA more on two supports and between fixed ends', () => {
    const stiff = railOf({}, { bending: 10e9, shear: 0.6e9 })
    const more = 0.31 / (4 * 0.6e9 * (5 / 6) * 0.075 * 0.019)
    for (const ends of ['pinned', 'fixed'] as const)
      expect(
        (of(railGive(stiff, [0.155], ends), 0, 0) - of(railGive(rail, [0.155], ends), 0, 0)) / more,
      ).toBeCloseTo(1, 8)
  })

  test('forty loads are nearly an even one: 5 q L⁴/384EI and q L⁴/384EI', () => {
    const places = Array.from({ length: 40 }, (_, i) => (0.31 * (i + 0.5)) / 40)
    const middle = (ends: 'pinned' | 'fixed'): number => {
      const rows = railGive(rail, places, ends)
      const bow = rows.map((row) => row.reduce((sum, give) => sum + give, 0))
      return Math.max(...bow) / ((40 * 0.31 ** 3) / 384 / bending)
    }
    expect(middle('pinned')).toBeCloseTo(5, 1)
    expect(middle('fixed')).toBeCloseTo(1, 1)
  })
})

const steel = wireFigures({ material: 'music-wire', diameter: 0.02 * 0.0254 }).axialStiffness
const three: WireSet = {
  rail,
  places: [0.0775, 0.155, 0.2325],
  length: 0.21,
  axialStiffness: steel,
  tension: 120,
}

describe('published: common practice, three wires at 120 N on a flat rail of 75 by 19 mm', () => {
  // about 0.1 mm with its ends fixed, 0.4 mm pinned, at 10 GPa
  test('0.4 mm pinned, 0.1 mm fixed', () => {
    const { pinned, fixed } = railBow(three)
    expect(pinned.most * 1000).toBeCloseTo(0.4, 1)
    expect(fixed.most * 1000).toBeCloseTo(0.1, 1)
  })

  test('each wire is stretched about half a millimetre', () =>
    expect(Math.abs(railBow(three).pinned.stretch * 1000 - 0.5)).toBeLessThan(0.15))
})

describe('by hand: share of the stretch', () => {
  test('three loads at the quarters: 19 P L³/384EI pinned, P L³/96EI fixed, twice over 0.6113 mm', () => {
    // stretch 120 · 0.21 / 41226 = 0.61126 mm
    const { pinned, fixed, findings } = railBow(three)
    const unit = (120 * 0.31 ** 3) / bending
    expect(pinned.most / ((19 * unit) / 384)).toBeCloseTo(1, 8)
    expect(fixed.most / (unit / 96)).toBeCloseTo(1, 8)
    expect(pinned.stretch * 1000).toBeCloseTo(0.6113, 4)
    expect(fixed.share).toBeCloseTo((2 * unit) / 96 / 0.00061126, 4)
    expect(findings.map(({ code, severity }) => [code, severity])).toEqual([['rail-too-limber', 'stop']])
  })

  test('turned on edge it is (75/19)² = 15.6 times as stiff: 8 % pinned, nothing to say', () => {
    const { pinned, fixed, findings } = railBow({ ...three, rail: railOf({ width: 0.019, depth: 0.075 }) })
    expect(railBow(three).pinned.most / pinned.most).toBeCloseTo((75 / 19) ** 2, 6)
    expect(pinned.share).toBeLessThan(0.1)
    expect(fixed.share).toBeLessThan(pinned.share)
    expect(findings).toEqual([])
  })

  test('in between it is said, and not stopped', () => {
    const { findings, fixed, pinned } = railBow({ ...three, rail: railOf({ depth: 0.03 }) })
    expect(fixed.share).toBeLessThan(0.15)
    expect(pinned.share).toBeGreaterThan(0.1)
    expect(findings).toMatchObject([{ code: 'rail-bow-slackens-wires', severity: 'warn' }])
  })

  test('two wires at the same place, or one outside, are refused', () => {
    expect(() => railGive(rail, [0.1, 0.1], 'pinned')).toThrow(RangeError)
    expect(() => railGive(rail, [0.1, 0.32], 'pinned')).toThrow(RangeError)
  })
})

describe('by hand: tuning two wires', () => {
  // places mirrored: give a on itself, b on the other. Tuning the second takes r = b/(L/EA + a) of the target from the
  // first; in the next pass its r comes back r times smaller to the second, and so on: r, r³, r⁵
  const two: WireSet = { ...three, places: [0.1, 0.21] }
  const give = railGive(rail, two.places, 'pinned')
  const ratio = (2 * of(give, 0, 1)) / (0.21 / steel + 2 * of(give, 0, 0))

  test('r after the first pass, r³ after the second, r⁵ after the third', () => {
    expect(ratio).toBeGreaterThan(0.2)
    const { passes } = tuneInPasses(two, 'pinned', [0, 1], 0)
    for (const pass of [0, 1, 2]) expect(passes[pass]?.worst).toBeCloseTo(ratio ** (2 * pass + 1), 9)
    // the last that was tuned is right, the other has lost
    expect(passes[0]?.tensions[1]).toBeCloseTo(120, 9)
    expect(passes[0]?.tensions[0]).toBeCloseTo(120 * (1 - ratio), 7)
  })

  test('as many passes as bring r to 3 %', () => {
    const needed = [1, 3, 5, 7, 9].findIndex((power) => ratio ** power <= 0.03) + 1
    expect(tuneInPasses(two, 'pinned', [0, 1]).needed).toBe(needed)
  })

  test('a rail that does not give wants one pass', () =>
    expect(tuneInPasses({ ...two, rail: railOf({}, { bending: 1e15 }) }, 'pinned', [1, 0]).needed).toBe(1))

  test('a rail like a bow string: neighbours go slack, none pushes, and it comes right or is given up', () => {
    const limp = { ...three, rail: railOf({}, { bending: 1e8 }) }
    const { passes, needed } = tuneInPasses(limp, 'pinned', [0, 1, 2])
    expect(Math.min(...passes.flatMap(({ tensions }) => tensions))).toBe(0)
    expect(needed === undefined ? passes.length : needed).toBe(passes.length)
    expect(passes.length).toBeGreaterThan(5)
  })
})

describe('by hand: orders', () => {
  test.each([
    ['along', 4, [0, 1, 2, 3]],
    ['middle-out', 4, [1, 2, 0, 3]],
    ['ends-in', 4, [0, 3, 1, 2]],
    ['middle-out', 5, [2, 1, 3, 0, 4]],
  ] as const)('%s of %i', (order, count, indices) => expect(tuningOrder(order, count)).toEqual(indices))

  test('the best needs the fewest passes on rails from limber to stiff, where the orders differ', () => {
    const four = { ...three, places: [0.067, 0.125, 0.184, 0.242] }
    let differ = 0
    for (let depth = 0.014; depth < 0.05; depth += 0.001) {
      const set = { ...four, rail: railOf({ depth }) }
      const passes = (['along', 'middle-out', 'ends-in'] as const).map(
        (order) => tuneInPasses(set, 'pinned', tuningOrder(order, 4)).needed ?? 99,
      )
      expect(bestTuning(set, 'pinned').needed ?? 99).toBe(Math.min(...passes))
      if (Math.max(...passes) > Math.min(...passes)) differ += 1
    }
    expect(differ).toBeGreaterThan(3)
  })

  test('the wire in the middle feels the rails most: twice 19 L³/384EI when all are pulled, as they are in soap', () => {
    expect(pinGive(three, 'pinned') / ((2 * 19 * 0.31 ** 3) / 384 / bending)).toBeCloseTo(1, 8)
    // one alone: 2 L³/48EI
    expect(pinGive({ rail, places: [0.155] }, 'pinned') / ((2 * 0.31 ** 3) / 48 / bending)).toBeCloseTo(1, 8)
  })

  test('the program reckons with 10.05 GPa (read) and a low shear', () =>
    expect(RAIL_MODULUS).toEqual({ bending: 10.05e9, shear: 0.6e9 }))
})
