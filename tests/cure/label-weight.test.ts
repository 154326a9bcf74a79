/** The weight on a label: what bars still have on their last day of sale, and from when they may bear it. */
import { describe, expect, test } from 'vitest'
import { labelPlan } from '../../src/cure/label-weight.ts'

/** A bar of 120 g that dries to 100 g, half of the rest every ten days; 4 g either way. */
const middle = (days: number): number => 0.1 + 0.02 * 2 ** (-days / 10)
const weightOn = (days: number) => ({
  low: middle(days) - 0.004,
  middle: middle(days),
  high: middle(days) + 0.004,
})
const lossBetween = (from: number, to: number): number => middle(from) - middle(to)
const plan = (declared?: number) => labelPlan({ weightOn, lossBetween, notBefore: 30, until: 400, declared })
const codes = (of: ReturnType<typeof plan>): string[] => of.findings.map(({ code }) => code)

describe('by hand: a bar of 120 g that dries to 100 g, labelled after 30 days at the earliest, sold for 400', () => {
  test('the heaviest label: lightest mean bar of 96 g, less 3 %, 93.12 g: 93 g', () =>
    expect(plan().most).toBeCloseTo(0.093, 12))

  test('93 g on the label: on day 30 a bar loses 20/8 = 2.5 g yet, so it must weigh 95.5 g: 96 g on the scale', () => {
    const { leastOn, from, findings } = plan(0.093)
    expect(leastOn(30)).toBeCloseTo(0.096, 12)
    // day 50: 20/32 = 0.625 g to lose, 93.625 g
    expect(leastOn(50)).toBeCloseTo(0.094, 12)
    expect(from).toBe(30)
    expect(findings).toEqual([])
  })

  test('a bar that passes its check on any day still has its label on the last day of sale', () => {
    const { leastOn } = plan(0.093)
    for (const day of [30, 37, 61, 200]) {
      const least = leastOn(day) ?? 0
      expect(least - lossBetween(day, 400)).toBeGreaterThanOrEqual(0.093)
    }
  })

  test('a bar does not get ready by growing lighter: what it keeps is the same on all days', () => {
    // the middle bar ends at 100 g: a label of 101 g is never true, though it weighs more for 43 days
    const heavy = plan(0.101)
    expect(middle(43)).toBeGreaterThan(0.101)
    expect(heavy.from).toBeUndefined()
    expect(heavy.days.earliest).toBe(30)
    expect(codes(heavy)).toEqual(['label-above-dry-bars'])
  })

  test('a label of 97 g: the middle bar keeps it, the light ones do not, and it is said', () => {
    const some = plan(0.097)
    expect(some.from).toBe(30)
    expect(some.days.latest).toBeUndefined()
    expect(codes(some)).toEqual(['label-above-lightest'])
    expect(some.findings[0]?.values).toMatchObject({ declared: 0.097 })
  })

  test('more than the bar weighs when it is cut: stopped', () =>
    expect(codes(plan(0.13))).toEqual(['bars-below-label']))

  test('when less may be lost each day than was thought, bars are ready sooner; when more, later', () => {
    // a bound of twice the loss: 2 (20 · 2^(−t/10)) of 100 + 20 · 2^(−t/10) leaves 99 g when 20 · 2^(−t/10) = 1, t = 43.2
    const cautious = labelPlan({
      weightOn,
      lossBetween: (from, to) => 2 * lossBetween(from, to),
      notBefore: 30,
      until: 400,
      declared: 0.099,
    })
    expect(cautious.from).toBe(44)
  })

  test('without a label it is only told how much it may be', () => {
    const none = plan()
    expect(none.leastOn(30)).toBeUndefined()
    expect(none.from).toBe(30)
    expect(none.findings).toEqual([])
  })
})
