import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { alkaliFor } from '../../src/chemistry/alkali.ts'
import type { SuperfatInput } from '../../src/chemistry/superfat-input.ts'
import { superfatMargin } from '../../src/chemistry/superfat-interval.ts'
import { isSoak } from '../long.ts'
import { leastProcessorTime } from '../processor-time.ts'

const range = (low: number, high: number) => ({
  low: low / 1000,
  high: high / 1000,
  nominal: (low + high) / 2000,
})

/** Coconut, palm and olive, a third of each by weight, 10 kg; Codex ranges of saponification values (mg KOH/g). */
const RANGES = { coconut: range(248, 265), palm: range(190, 209), olive: range(184, 196) }
const PURE = { nominal: 0.985, low: 0.985, high: 0.985 }

const batch = (
  more: {
    superfat?: number
    purity?: typeof PURE
    division?: number
    span?: number
    exact?: boolean
    alkaliScale?: string
  } = {},
): SuperfatInput => {
  const purity = more.purity ?? PURE
  const fats = Object.entries(RANGES).map(([key, value]) => ({
    key,
    mass: 10 / 3,
    saponificationValue: more.exact ? { ...value, low: value.nominal, high: value.nominal } : value,
    weighing: { scale: 'bench', draws: 1 },
  }))
  const need = alkaliFor({
    fats: fats.map(({ mass, saponificationValue }) => ({
      mass,
      saponificationValue: saponificationValue.nominal,
    })),
    superfat: more.superfat ?? 0.05,
    potassiumShare: 0,
    purity: { NaOH: purity, KOH: purity },
  })
  const division = more.division ?? 0.001
  const scale = { division, repeatability: division, span: more.span ?? 0.001 }
  return {
    fats,
    alkalis: [
      {
        alkali: 'NaOH',
        mass: need.alkalis[0]?.weighedMass ?? 0,
        purity,
        weighing: { scale: more.alkaliScale ?? 'bench', draws: 1 },
      },
    ],
    scales: { bench: scale, other: scale },
    floor: 0.02,
  }
}

describe('by hand: how far a 5 % recipe of coconut, palm and olive may be off', () => {
  test('worst case near +1 % with ranges and scale, near -0.5 % with a range of purity', () => {
    // by hand, thirds: low SVs (248 + 190 + 184) / 3 = 207.3, middle 215.3: 1 − 0.95 · 215.33 / 207.33 = 0.0133
    const { worst } = superfatMargin(batch())
    expect(worst.low).toBeGreaterThan(0.005)
    expect(worst.low).toBeLessThan(0.0134)
    // purity up to 1.015 of the nominal: 1 − 0.95 · 1.0386 · 1.0152 = −0.0017, and the scale besides
    const impure = superfatMargin(batch({ purity: { nominal: 0.985, low: 0.97, high: 1 } }))
    expect(impure.worst.low).toBeGreaterThan(-0.012)
    expect(impure.worst.low).toBeLessThan(-0.001)
    expect(impure.state).toBe('hold')
  })

  test('root of the sum of squares near 5 ± 3 %', () => {
    const { rootSumSquare } = superfatMargin(batch({ purity: { nominal: 0.985, low: 0.97, high: 1 } }))
    const half = (rootSumSquare.high - rootSumSquare.low) / 2
    expect(half).toBeGreaterThan(0.015)
    expect(half).toBeLessThan(0.035)
    expect(Math.abs(rootSumSquare.middle - 0.05)).toBeLessThan(0.005)
  })
})

describe('by hand: two ways to the same interval', () => {
  test('drawn at random and by squares agree within three tenths of a percent, over many recipes', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.02, max: 0.12, noNaN: true }),
        fc.double({ min: 0.0005, max: 0.01, noNaN: true }),
        fc.double({ min: 0, max: 0.02, noNaN: true }),
        (superfat, division, spread) => {
          const purity = { nominal: 0.97, low: 0.97 - spread, high: 0.97 + spread }
          const { monteCarlo, rootSumSquare } = superfatMargin(batch({ superfat, division, purity }))
          expect(Math.abs(monteCarlo.low - rootSumSquare.low)).toBeLessThan(0.003)
          expect(Math.abs(monteCarlo.high - rootSumSquare.high)).toBeLessThan(0.003)
        },
      ),
      { seed: 314, numRuns: isSoak ? 100 : 8 },
    )
  })

  test('the same seed gives the same figures', () =>
    expect(superfatMargin({ ...batch(), seed: 7 }).monteCarlo).toEqual(
      superfatMargin({ ...batch(), seed: 7 }).monteCarlo,
    ))

  test('certain figures leave no interval: nominal is all there is', () => {
    const { nominal, worst, monteCarlo, state } = superfatMargin(
      batch({ exact: true, division: 1e-9, span: 0 }),
    )
    expect(nominal).toBeCloseTo(0.05, 9)
    for (const one of [worst.low, worst.high, monteCarlo.low, monteCarlo.high])
      expect(one).toBeCloseTo(0.05, 6)
    expect(state).toBe('go')
  })

  test('a finer scale and a certificate each make the interval narrower', () => {
    const width = (input: SuperfatInput): number => {
      const { worst } = superfatMargin(input)
      return worst.high - worst.low
    }
    expect(width(batch({ division: 0.0001 }))).toBeLessThan(width(batch({ division: 0.005 })))
    expect(width(batch({ exact: true }))).toBeLessThan(width(batch()))
  })

  test('an error of the span cancels where one scale weighs both, and not where two do', () => {
    const one = superfatMargin(batch({ exact: true, division: 1e-9, span: 0.01 }))
    const two = superfatMargin(batch({ exact: true, division: 1e-9, span: 0.01, alkaliScale: 'other' }))
    expect(one.worst.high - one.worst.low).toBeLessThan(1e-6)
    // 1 − 0.95 · 1.01 / 0.99 = 0.0308 and 1 − 0.95 · 0.99 / 1.01 = 0.0688
    expect(two.worst.low).toBeCloseTo(0.0308, 4)
    expect(two.worst.high).toBeCloseTo(0.0688, 4)
  })
})

describe('by hand: go, hold, stop, and what would clear a hold', () => {
  test('states at their edges', () => {
    const state = (superfat: number) =>
      superfatMargin(batch({ exact: true, division: 1e-9, span: 0, superfat })).state
    expect(state(0.0201)).toBe('go')
    expect(state(0.0199)).toBe('stop') // under the shop's floor of 2 %
    expect(superfatMargin(batch({ superfat: 0.03 })).state).toBe('hold') // 1 − 0.97 · 1.0386 = −0.74 % at worst
    expect(superfatMargin({ ...batch({ superfat: 0.005 }), floor: -1 }).state).toBe('stop') // lower bound under 0
  })

  test('the least superfat that it names is just enough, and a little less is not', () => {
    const held = superfatMargin(batch({ superfat: 0.03 }))
    const needed = held.remedies.find(({ kind }) => kind === 'superfat-at-least')?.value ?? 0
    expect(superfatMargin(batch({ superfat: needed + 0.0005 })).worst.low).toBeGreaterThanOrEqual(0)
    expect(superfatMargin(batch({ superfat: needed - 0.001 })).worst.low).toBeLessThan(0)
  })

  test('a remedy that says go really gives go', () => {
    const { remedies } = superfatMargin(batch({ superfat: 0.03 }))
    expect(remedies.length).toBeGreaterThan(2)
    const ranks = remedies.map(({ state }) => ({ go: 0, hold: 1, stop: 2 })[state])
    expect(ranks).toEqual([...ranks].sort((a, b) => a - b))
    // with a certificate for every fat (± 1 mg/g) the worst case is 1 − 0.97 · 215.33 / 214.33 = +2.5 %
    const certified = batch({ superfat: 0.03 })
    const narrowed = certified.fats.map((fat) => ({
      ...fat,
      saponificationValue: {
        ...fat.saponificationValue,
        low: fat.saponificationValue.nominal - 0.001,
        high: fat.saponificationValue.nominal + 0.001,
      },
    }))
    const cleared = superfatMargin({ ...certified, fats: narrowed })
    expect(cleared.state).toBe('go')
    expect(Math.abs(cleared.worst.low - 0.0255)).toBeLessThan(0.003) // and the scale
  })

  test('a hundred thousand draws take less than a blink', () => {
    const input = batch()
    // 40 ms on a core of its own
    expect(leastProcessorTime(100, 10, () => superfatMargin(input))).toBeLessThan(100)
  })
})
