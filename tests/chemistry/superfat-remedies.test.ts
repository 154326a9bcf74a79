/** Remedies applied for real, and superfats worked out once more by brute force. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { drawSuperfats } from '../../src/chemistry/superfat-draws.ts'
import { massDeviation, type SuperfatInput } from '../../src/chemistry/superfat-input.ts'
import { superfatMargin } from '../../src/chemistry/superfat-interval.ts'
import { superfatSpread } from '../../src/chemistry/superfat-spread.ts'
import { leastProcessorTime } from '../processor-time.ts'

// g/mol, rounded to 0.001: 1e-5 of the ratio of the two
const NAOH = 39.997
const KOH = 56.105

/** Invented: 6 and 4 kg of two fats, 1.1 to 1.4 kg of sodium hydroxide. */
const batch = (more: { sodium?: number; purity?: number; division?: number } = {}): SuperfatInput => {
  const half = more.purity ?? 0.01
  const weighing = { scale: 'bench', draws: 2 }
  return {
    fats: [
      { key: 'first', mass: 6, saponificationValue: { nominal: 0.19, low: 0.184, high: 0.196 }, weighing },
      { key: 'second', mass: 4, saponificationValue: { nominal: 0.256, low: 0.248, high: 0.264 }, weighing },
    ],
    alkalis: [
      {
        alkali: 'NaOH',
        mass: more.sodium ?? 1.45,
        purity: { nominal: 0.985, low: 0.985 - half, high: 0.985 + half },
        weighing: { scale: 'small', draws: 1 },
      },
    ],
    scales: {
      bench: { division: more.division ?? 0.005, repeatability: more.division ?? 0.005, span: 0.001 },
      small: { division: 0.001, repeatability: 0.001, span: 0.001 },
    },
    floor: 0.02,
  }
}

describe('by hand: superfat of what was weighed', () => {
  test('1.45 kg of 98.5 % for 6 · 190 + 4 · 256 = 2164 g of potassium hydroxide', () => {
    // 1450 · 0.985 / 39.997 = 35.7090 mol for 2164 / 56.105 = 38.5705 mol: 7.419 %
    expect(Math.abs(superfatSpread(batch()).nominal - 0.07419)).toBeLessThan(2e-5)
  })

  test('the worst case is at a corner: all of them tried', () => {
    // two draws: division and twice √2 repeatabilities; one draw of the small scale: half a division and two
    const bench = 0.005 + 2 * Math.SQRT2 * 0.005
    const small = 0.0005 + 0.002
    let [low, high] = [1, -1]
    for (let corner = 0; corner < 2 ** 8; corner++) {
      const pick = (bit: number, a: number, b: number): number => (((corner >> bit) & 1) === 1 ? a : b)
      const first = (6 + pick(0, bench, -bench)) * pick(1, 184, 196)
      const second = (4 + pick(2, bench, -bench)) * pick(3, 248, 264)
      const fats = ((first + second) * pick(4, 1.001, 0.999)) / KOH
      const alkali =
        ((1450 + 1000 * pick(5, small, -small)) * pick(6, 0.975, 0.995) * pick(7, 1.001, 0.999)) / NAOH
      low = Math.min(low, 1 - alkali / fats)
      high = Math.max(high, 1 - alkali / fats)
    }
    const { worst } = superfatSpread(batch())
    expect(Math.abs(worst.low - low)).toBeLessThan(2e-5)
    expect(Math.abs(worst.high - high)).toBeLessThan(2e-5)
  })

  test('standard deviation of two draws of 5 g: √(2 · (25 / 12 + 25)) = 7.360 g', () =>
    expect(massDeviation(batch(), { scale: 'bench', draws: 2 })).toBeCloseTo(0.00736, 5))

  test('added acids take their share first', () => {
    // (35.7090 − 1) / 38.5705
    expect(superfatSpread({ ...batch(), hydroxideForAcids: 1 }).nominal).toBeCloseTo(0.10012, 4)
  })

  test('in grams as in kilograms', () => {
    const kilograms = batch()
    const grams: SuperfatInput = {
      ...kilograms,
      fats: kilograms.fats.map((fat) => ({ ...fat, mass: fat.mass * 1000 })),
      alkalis: kilograms.alkalis.map((alkali) => ({ ...alkali, mass: alkali.mass * 1000 })),
      scales: {
        bench: { division: 5, repeatability: 5, span: 0.001 },
        small: { division: 1, repeatability: 1, span: 0.001 },
      },
    }
    const [one, other] = [superfatSpread(kilograms), superfatSpread(grams)]
    expect(other.nominal).toBeCloseTo(one.nominal, 12)
    expect(other.worst.low).toBeCloseTo(one.worst.low, 12)
    expect(other.monteCarlo.low).toBeCloseTo(one.monteCarlo.low, 12)
  })
})

describe('by hand: states at their edges', () => {
  // The alkali that makes a superfat s is (1 − s) · 38.5705 · 39.997 / 985 kg.
  const sodium = (superfat: number): number => ((1 - superfat) * 38.5705 * NAOH) / 985
  /** Searches the alkali at which a figure passes 0. */
  const edge = (of: (input: SuperfatInput) => number): number => {
    let [low, high] = [1, 1.6]
    for (let i = 0; i < 30; i++) {
      const middle = (low + high) / 2
      if (of(batch({ sodium: middle })) > 0) low = middle
      else high = middle
    }
    return low
  }

  test('the worst case passes 0: go, then hold', () => {
    const at = edge((input) => superfatSpread({ ...input, draws: 100 }).worst.low)
    expect(superfatMargin(batch({ sodium: at - 1e-5 })).state).toBe('go')
    expect(superfatMargin(batch({ sodium: at + 1e-5 })).state).toBe('hold')
  })

  test('the lower 95 % bound passes 0: hold, then stop', () => {
    const at = edge((input) => drawSuperfats(input).low)
    const state = (mass: number) => superfatMargin({ ...batch({ sodium: mass }), floor: -1 })
    expect(state(at - 1e-5).state).toBe('hold')
    expect(state(at + 1e-5).state).toBe('stop')
    expect(state(at + 1e-5).findings.map(({ code }) => code)).toContain('superfat-lower-bound-negative')
  })

  test('the nominal passes the floor: a stop, whatever the rest says', () => {
    const floor = 0.12
    expect(superfatMargin({ ...batch({ sodium: sodium(0.1201) }), floor }).state).toBe('go')
    const under = superfatMargin({ ...batch({ sodium: sodium(0.1199) }), floor })
    expect(under.state).toBe('stop')
    expect(under.findings.map(({ code }) => code)).toContain('superfat-under-floor')
    // only more superfat helps against a floor
    expect(under.remedies.map(({ kind }) => kind)).toEqual(['superfat-at-least'])
    expect(under.remedies[0]?.value).toBeGreaterThanOrEqual(floor - 1e-9)
  })
})

describe('by hand: remedies', () => {
  /** What a remedy says, done to the batch here. */
  const applied = (input: SuperfatInput, names: readonly string[]): SuperfatInput => ({
    ...input,
    fats: input.fats.map((fat) => {
      const { nominal } = fat.saponificationValue
      if (!names.includes(fat.key)) return fat
      return { ...fat, saponificationValue: { nominal, low: nominal - 0.001, high: nominal + 0.001 } }
    }),
    alkalis: input.alkalis.map((alkali) => {
      const { nominal } = alkali.purity
      if (!names.includes(alkali.alkali)) return alkali
      return { ...alkali, purity: { nominal, low: nominal - 0.005, high: nominal + 0.005 } }
    }),
    scales: Object.fromEntries(
      Object.entries(input.scales).map(([key, scale]) => [
        key,
        names.includes(key)
          ? {
              ...scale,
              division: scale.division / 10,
              repeatability: Math.min(scale.repeatability, scale.division / 10),
            }
          : scale,
      ]),
    ),
  })

  test('each brings the state, the worst case and the bound that it says', () => {
    const kinds = new Set<string>()
    fc.assert(
      fc.property(
        fc.double({ min: 1.45, max: 1.53, noNaN: true }),
        fc.double({ min: 0.006, max: 0.015, noNaN: true }),
        fc.constantFrom(0.002, 0.01, 0.05),
        (sodium, purity, division) => {
          const input = batch({ sodium, purity, division })
          const { remedies } = superfatMargin(input)
          for (const remedy of remedies) {
            kinds.add(remedy.kind)
            if (remedy.kind === 'superfat-at-least') continue
            const after = superfatSpread(applied(input, remedy.of.split('+')))
            expect(after.worst.low).toBeCloseTo(remedy.worst, 9)
            // 10 000 draws against 100 000
            expect(Math.abs(after.monteCarlo.low - remedy.lower)).toBeLessThan(0.001)
            if (Math.abs(after.monteCarlo.low) > 0.001) expect(after.state).toBe(remedy.state)
          }
        },
      ),
      { seed: 20270314, numRuns: 10 },
    )
    expect([...kinds].sort()).toEqual([
      'fat-certificate',
      'finer-scale',
      'purity-certificate',
      'superfat-at-least',
      'together',
    ])
  })

  test('a superfat that is just enough: less alkali by that much is go, a thousandth more alkali is not', () => {
    const input = batch({ sodium: 1.5 })
    const { nominal, remedies } = superfatMargin(input)
    const wanted = remedies.find(({ kind }) => kind === 'superfat-at-least')?.value ?? 0
    const mass = (1.5 * (1 - wanted)) / (1 - nominal)
    // weighing errors do not shrink with the alkali: 2 g of 1.4 kg, so 0.1 ‰ of leeway
    expect(superfatSpread(batch({ sodium: mass * 0.9998 })).state).toBe('go')
    expect(superfatSpread(batch({ sodium: mass * 1.001 })).state).toBe('hold')
  })
})

describe('by hand: speed', () => {
  test('100 000 draws take about 20 ms, and less than 60 on a busy machine', () =>
    expect(leastProcessorTime(60, 12, () => drawSuperfats(batch()))).toBeLessThan(60))
})
