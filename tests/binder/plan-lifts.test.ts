/** Loads of the day against the lifting equation worked out by hand. */
import { describe, expect, test } from 'vitest'
import { planLifts } from '../../src/binder/plan-lifts.ts'

const plan = (more: { oils?: number; lye?: number; limit?: number } = {}) =>
  planLifts({
    kettle: { mass: more.oils ?? 13, height: 0.3, stands: 0.5 },
    pail: { mass: more.lye ?? 5 },
    jug: { mass: 3.45 },
    rim: 1,
    shopLimit: more.limit ?? 10,
  })
const of = (key: string, loads = plan()) => {
  const found = loads.find((load) => load.key === key)
  if (!found) throw new Error(key)
  return found
}

describe('by hand: the revised equation with its multipliers', () => {
  test('kettle from the floor scale to its stand: 14.9 kg at its lower end', () => {
    // hands at 0.10 + 0.7 · 0.3 = 0.31 m, then 0.71 m; travel 0.40 m; 0.30 m out; fair grip below 0.75 m
    // 23 · (0.25/0.30) · (1 − 0.3 · 0.44) · (0.82 + 0.045/0.40) · 1 · 1 · 0.95 = 23 · 0.8333 · 0.868 · 0.9325 · 0.95
    expect(of('kettle-of-oils').lift.recommended).toBeCloseTo(23 * 0.83333 * 0.868 * 0.9325 * 0.95, 3)
  })

  test('though one could lift it, more than the limit of this shop is lifted by two', () => {
    expect(of('kettle-of-oils')).toMatchObject({ alone: 10, people: 2 })
    expect(of('kettle-of-oils', plan({ oils: 9 })).people).toBe(1)
  })

  test('two lift two thirds of twice what one may: 19.6 kg; more is nobody’s', () => {
    expect(of('kettle-of-oils', plan({ oils: 19.5 })).people).toBe(2)
    expect(of('kettle-of-oils', plan({ oils: 19.8 })).people).toBeUndefined()
    expect(of('kettle-of-oils', plan({ oils: 19.8 })).lift.findings.map(({ code }) => code)).toEqual([
      'lift-too-heavy-for-two',
    ])
  })

  test('a pail of lye: the shop’s limit for hot and caustic loads', () => {
    expect(of('pail-of-lye')).toMatchObject({ alone: 10, people: 1 })
    expect(of('pail-of-lye', plan({ lye: 11 })).people).toBe(2)
    expect(of('pail-of-lye', plan({ lye: 5, limit: 3 })).people).toBeUndefined()
  })

  test('jugs go three a minute: 0.88 of what a rare lift could be', () => {
    // start 0.8 m at 0.30 m: 23 · 0.8333 · 0.985 · (0.82 + 0.045/0.25) · 0.88; end 1 m at 0.40 m: 23 · 0.625 · 0.925 · 1 · 0.88
    expect(of('jug-of-batter').lift.recommended).toBeCloseTo(23 * 0.625 * 0.925 * 0.88, 3)
  })
})
