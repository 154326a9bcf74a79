import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { alkaliFor } from '../../src/chemistry/alkali.ts'
import { superfatContributions } from '../../src/chemistry/superfat-contributions.ts'
import type { SuperfatInput } from '../../src/chemistry/superfat-input.ts'
import { superfatMargin } from '../../src/chemistry/superfat-interval.ts'
import { superfatSpread } from '../../src/chemistry/superfat-spread.ts'
import { leastProcessorTime } from '../processor-time.ts'

/** Coconut, palm and olive 30 : 30 : 40, 10.5 kg, at 5 % by the middle of the published ranges. */
const blend = [
  { key: 'coconut', mass: 3.15, low: 0.248, high: 0.265 },
  { key: 'palm', mass: 3.15, low: 0.19, high: 0.209 },
  { key: 'olive', mass: 4.2, low: 0.184, high: 0.196 },
]
const exactPurity = { nominal: 0.985, low: 0.985, high: 0.985 }
const widePurity = { nominal: 0.985, low: 0.97, high: 1 }
const kitchenScale = { division: 0.001, repeatability: 0.001, span: 0.002 }

function batch(change: Partial<SuperfatInput> = {}, purity = widePurity, superfat = 0.05): SuperfatInput {
  const fats = blend.map(({ key, mass, low, high }) => ({
    key,
    mass,
    saponificationValue: { low, high, nominal: (low + high) / 2, basis: 'middle-of-range' },
    weighing: { scale: 'kitchen', draws: 1 },
  }))
  const need = alkaliFor({
    fats: fats.map(({ mass, saponificationValue }) => ({
      mass,
      saponificationValue: saponificationValue.nominal,
    })),
    superfat,
    potassiumShare: 0,
    purity: { NaOH: purity, KOH: purity },
  })
  const weighing = { scale: 'kitchen', draws: 1 }
  return {
    fats,
    alkalis: [{ alkali: 'NaOH', mass: need.alkalis[0]!.weighedMass, purity, weighing }],
    scales: { kitchen: kitchenScale },
    floor: 0.03,
    ...change,
  }
}

/** One fat, one alkali, nothing uncertain unless said. */
function plain(change: Partial<SuperfatInput> = {}): SuperfatInput {
  const weighing = { scale: 'a', draws: 1 }
  return {
    fats: [{ key: 'fat', mass: 1, saponificationValue: { nominal: 0.2, low: 0.2, high: 0.2 }, weighing }],
    alkalis: [{ alkali: 'KOH', mass: 0.19, purity: { nominal: 1, low: 1, high: 1 }, weighing }],
    scales: { a: { division: 0, repeatability: 0, span: 0 } },
    floor: 0,
    ...change,
  }
}

describe('by hand: estimates of the trade for this blend at 5 %', () => {
  // "Near + 1 %" and "about − 0.5 %" are one-digit estimates: half a point either way.
  test('ranges and scale against it: near + 1 %', () => {
    expect(Math.abs(superfatSpread(batch({}, exactPurity)).worst.low - 0.01)).toBeLessThan(0.005)
  })

  test('purity too: about − 0.5 %, and 5 ± 3 % by root of squares: hold', () => {
    const found = superfatSpread(batch())
    expect(Math.abs(found.worst.low + 0.005)).toBeLessThan(0.005)
    expect(Math.abs(found.rootSumSquare.low - 0.02)).toBeLessThan(0.005)
    expect(Math.abs(found.rootSumSquare.high - 0.08)).toBeLessThan(0.005)
    expect(found.state).toBe('hold')
  })
})

describe('by hand: spread, states and edges', () => {
  test('nothing uncertain: 1 − 0.19 / 0.2 = 5 % at every end', () => {
    const found = superfatSpread(plain())
    for (const value of [
      found.nominal,
      found.worst.low,
      found.worst.high,
      found.monteCarlo.low,
      found.monteCarlo.high,
      found.rootSumSquare.low,
    ]) {
      expect(value).toBeCloseTo(0.05, 12)
    }
    expect(found.state).toBe('go')
  })

  test('the worst case takes low values, high purity, light fats and heavy alkali', () => {
    const weighing = { scale: 'a', draws: 2 }
    const found = superfatSpread(
      plain({
        fats: [
          { key: 'fat', mass: 1, saponificationValue: { nominal: 0.2, low: 0.19, high: 0.21 }, weighing },
        ],
        alkalis: [{ alkali: 'KOH', mass: 0.19, purity: { nominal: 0.98, low: 0.97, high: 0.99 }, weighing }],
        scales: { a: { division: 0.002, repeatability: 0.001, span: 0.01 } },
      }),
    )
    const off = 2 * 0.001 + Math.SQRT2 * 2 * 0.001 // two half divisions, twice the repeatability of two draws
    expect(found.worst.low).toBeCloseTo(1 - ((0.19 + off) * 0.99) / ((1 - off) * 0.19), 10)
    expect(found.worst.high).toBeCloseTo(1 - ((0.19 - off) * 0.97) / ((1 + off) * 0.21), 10)
    expect(found.nominal).toBeCloseTo(1 - (0.19 * 0.98) / 0.2, 12)
  })

  test('the span error of one scale cancels; that of two does not: 1 − 0.95 · 1.01 / 0.99', () => {
    const span = { division: 0, repeatability: 0, span: 0.01 }
    const shared = superfatSpread(plain({ scales: { a: span } }))
    expect(shared.worst.low).toBeCloseTo(0.05, 12)
    expect(shared.monteCarlo.high).toBeCloseTo(0.05, 12)
    const base = plain()
    const apart = superfatSpread({
      ...base,
      alkalis: base.alkalis.map((alkali) => ({ ...alkali, weighing: { scale: 'b', draws: 1 } })),
      scales: { a: span, b: span },
    })
    expect(apart.worst.low).toBeCloseTo(1 - (0.95 * 1.01) / 0.99, 10)
    expect(apart.worst.high).toBeCloseTo(1 - (0.95 * 0.99) / 1.01, 10)
    expect(apart.monteCarlo.low).toBeLessThan(0.04)
  })

  test('an acid weighed on the scale of the fats errs with them: both light, 1 − (0.19 / M − 0.0099 · 15) / (0.198 / M)', () => {
    const M = 0.0561056 // kg/mol, potassium hydroxide (IUPAC atomic weights 2021: 39.0983 + 15.999 + 1.008)
    const base = plain()
    const found = superfatSpread({
      ...base,
      alkalis: base.alkalis.map((alkali) => ({ ...alkali, weighing: { scale: 'b', draws: 1 } })),
      acids: [{ key: 'acid', mass: 0.01, hydroxidePerMass: 15, weighing: { scale: 'a', draws: 1 } }],
      scales: {
        a: { division: 0, repeatability: 0, span: 0.01 },
        b: { division: 0, repeatability: 0, span: 0 },
      },
    })
    // heavy: demand and acid both 1.01 times
    expect(found.worst.low).toBeCloseTo(1 - (0.19 / M - 0.0099 * 15) / (0.198 / M), 5)
    expect(found.worst.high).toBeCloseTo(1 - (0.19 / M - 0.0101 * 15) / (0.202 / M), 5)
    expect(found.nominal).toBeCloseTo(1 - (0.19 / M - 0.01 * 15) / (0.2 / M), 5)
  })

  test('as a cause: none from a shared scale, 0.95 · 1 % / √3 from each of two', () => {
    const span = { division: 0, repeatability: 0, span: 0.01 }
    const base = plain({ scales: { a: span, b: span } })
    const parts = (input: SuperfatInput) =>
      superfatContributions(input).filter((part) => part.cause === 'span' && part.deviation > 1e-12)
    expect(parts(base)).toEqual([])
    const apart = parts({
      ...base,
      alkalis: base.alkalis.map((alkali) => ({ ...alkali, weighing: { scale: 'b', draws: 1 } })),
    })
    expect(apart.map((part) => part.of).sort()).toEqual(['a', 'b'])
    for (const part of apart) expect(part.deviation).toBeCloseTo((0.95 * 0.01) / Math.sqrt(3), 10)
  })

  test('one uniform value alone: 95 % of its width, and root of squares stays inside the worst case', () => {
    const weighing = { scale: 'a', draws: 1 }
    const found = superfatSpread(
      plain({
        alkalis: [{ alkali: 'KOH', mass: 0.19, purity: { nominal: 1, low: 0.98, high: 1.02 }, weighing }],
      }),
    )
    expect(Math.abs(found.monteCarlo.low - (1 - 0.95 * (1 + 0.95 * 0.02)))).toBeLessThan(0.0003)
    expect(found.rootSumSquare.low).toBeCloseTo(found.worst.low, 12)
  })

  test('acids take their alkali first', () => {
    const acid = (0.01 * 1000) / 56.1053 // mol in 10 g KOH
    const found = superfatSpread(plain({ hydroxideForAcids: acid }))
    expect(found.nominal).toBeCloseTo(1 - 0.18 / 0.2, 6)
  })

  test('nominal under the floor is a stop, whatever the margin', () => {
    const found = superfatMargin(plain({ floor: 0.06 }))
    expect(found.state).toBe('stop')
    expect(found.findings.map((f) => f.code)).toEqual(['superfat-under-floor'])
  })

  test('lower 95 % bound under 0 is a stop', () => {
    const found = superfatMargin(batch({ floor: 0 }, widePurity, 0.02))
    expect(found.monteCarlo.low).toBeLessThan(0)
    expect(found.state).toBe('stop')
    expect(found.findings.map((f) => f.code)).toContain('superfat-lower-bound-negative')
  })

  test('soft end: 8 % nominal passes 10 %; each middle of a range is marked', () => {
    const codes = superfatMargin(batch({}, widePurity, 0.08)).findings.map((f) => f.code)
    expect(codes.filter((code) => code === 'saponification-value-is-middle-of-range').length).toBe(3)
    expect(codes).toContain('superfat-may-be-soft')
    expect(
      superfatMargin(batch({ softLimit: 0.2 }, widePurity, 0.08)).findings.map((f) => f.code),
    ).not.toContain('superfat-may-be-soft')
  })

  test('no fats, no alkali: finite numbers', () => {
    for (const input of [plain({ fats: [] }), plain({ alkalis: [] }), plain({ fats: [], alkalis: [] })]) {
      const found = superfatMargin(input)
      for (const value of [found.nominal, found.worst.low, found.monteCarlo.low, found.rootSumSquare.high]) {
        expect(Number.isFinite(value)).toBe(true)
      }
    }
  })

  test('the same seed gives the same interval, another seed nearly', () => {
    const [a, b, c] = [1, 1, 2].map((seed) => superfatSpread(batch({ seed })).monteCarlo)
    expect(a).toEqual(b)
    expect(a).not.toEqual(c)
    expect(Math.abs(a!.low - c!.low)).toBeLessThan(0.0005)
  })

  test('grams or ounces, one batch or two: the same', () => {
    const scaled = (factor: number): SuperfatInput => {
      const input = batch()
      return {
        ...input,
        fats: input.fats.map((fat) => ({ ...fat, mass: fat.mass * factor })),
        alkalis: input.alkalis.map((alkali) => ({ ...alkali, mass: alkali.mass * factor })),
        scales: {
          kitchen: {
            division: kitchenScale.division * factor,
            repeatability: kitchenScale.repeatability * factor,
            span: kitchenScale.span,
          },
        },
      }
    }
    const one = superfatSpread(scaled(1))
    for (const factor of [2, 35.27396]) {
      const other = superfatSpread(scaled(factor))
      expect(other.nominal).toBeCloseTo(one.nominal, 10)
      expect(other.worst.low).toBeCloseTo(one.worst.low, 10)
      expect(other.monteCarlo.low).toBeCloseTo(one.monteCarlo.low, 10)
    }
  })

  test('a finer scale never widens the interval', () => {
    const width = (division: number) => {
      const { worst, rootSumSquare } = superfatSpread(
        batch({ scales: { kitchen: { ...kitchenScale, division } } }),
      )
      return { worst: worst.high - worst.low, root: rootSumSquare.high - rootSumSquare.low }
    }
    const widths = [0.05, 0.02, 0.005, 0.001, 0.0001].map(width)
    for (let i = 1; i < widths.length; i++) {
      expect(widths[i]!.worst).toBeLessThan(widths[i - 1]!.worst)
      expect(widths[i]!.root).toBeLessThan(widths[i - 1]!.root)
    }
  })

  test('root of squares and random draws agree', () => {
    const value = fc.tuple(
      fc.double({ min: 0.5, max: 5, noNaN: true }),
      fc.double({ min: 0.18, max: 0.26, noNaN: true }),
      fc.double({ min: 0.001, max: 0.01, noNaN: true }),
    )
    fc.assert(
      fc.property(fc.array(value, { minLength: 3, maxLength: 6 }), (fats) => {
        const weighing = { scale: 'kitchen', draws: 1 }
        const list = fats.map(([mass, nominal, half], i) => ({
          key: `fat ${i}`,
          mass,
          saponificationValue: { nominal, low: nominal - half, high: nominal + half },
          weighing,
        }))
        const demand = list.reduce((sum, fat) => sum + fat.mass * fat.saponificationValue.nominal, 0)
        const alkalis = [{ alkali: 'KOH' as const, mass: demand / 0.985, purity: widePurity, weighing }]
        const found = superfatSpread(batch({ fats: list, alkalis, draws: 20_000 }))
        const { monteCarlo, rootSumSquare } = found
        // Root of squares takes tails that uniform values lack: up to a third of a standard deviation, here 0.004.
        expect(Math.abs(monteCarlo.low - rootSumSquare.low)).toBeLessThan(0.004)
        expect(Math.abs(monteCarlo.high - rootSumSquare.high)).toBeLessThan(0.004)
        expect(monteCarlo.low).toBeGreaterThanOrEqual(found.worst.low)
        expect(monteCarlo.high).toBeLessThanOrEqual(found.worst.high)
      }),
      { seed: 1, numRuns: 30 },
    )
  })

  test('100,000 draws take under 40 ms', () => {
    const input = batch()
    const took = leastProcessorTime(40, 25, (seed) => superfatSpread({ ...input, seed, draws: 100_000 }))
    expect(took).toBeLessThan(40)
  })
})

describe('by hand: remedies', () => {
  const found = superfatMargin(batch())

  test('nothing to remedy where all is well', () => {
    expect(superfatMargin(plain()).remedies).toEqual([])
  })

  test('the certificate of the most uncertain fat comes first, more superfat after all papers', () => {
    expect(found.state).toBe('hold')
    expect(found.remedies[0]).toMatchObject({ kind: 'fat-certificate', of: 'palm', state: 'go' })
    expect(found.remedies.map((remedy) => remedy.kind)).toContain('purity-certificate')
    expect(found.remedies.map((remedy) => remedy.kind)).toContain('finer-scale')
    const states = found.remedies.map((remedy) => remedy.state)
    expect(states.lastIndexOf('go')).toBeLessThan(states.indexOf('hold'))
  })

  test('a remedy does what it says', () => {
    const certified = batch()
    const after = superfatSpread({
      ...certified,
      fats: certified.fats.map((fat) =>
        fat.key === 'palm'
          ? { ...fat, saponificationValue: { nominal: 0.1995, low: 0.1985, high: 0.2005 } }
          : fat,
      ),
    })
    expect(after.state).toBe('go')
    expect(found.remedies[0]!.worst).toBeCloseTo(after.worst.low, 9)
  })

  test('the superfat asked for puts the worst case at 0, and no smaller one does', () => {
    const asked = found.remedies.find((remedy) => remedy.kind === 'superfat-at-least')!
    expect(asked.value).toBeGreaterThan(0.05)
    // The error of weighing 1.4 kg of alkali changes a hair with its mass.
    expect(Math.abs(superfatSpread(batch({}, widePurity, asked.value)).worst.low)).toBeLessThan(0.0001)
    expect(superfatSpread(batch({}, widePurity, asked.value! - 0.001)).state).toBe('hold')
    expect(superfatSpread(batch({}, widePurity, asked.value! + 0.001)).state).toBe('go')
  })

  test('under the floor only more superfat helps', () => {
    const remedies = superfatMargin(plain({ floor: 0.06 })).remedies
    expect(remedies.map((remedy) => remedy.kind)).toEqual(['superfat-at-least'])
    expect(remedies[0]!.value).toBeCloseTo(0.06, 10)
  })

  test('where no paper suffices alone, several are joined', () => {
    const remedies = superfatMargin(batch({ floor: 0 }, widePurity, 0.035)).remedies
    expect(remedies.find((remedy) => remedy.kind === 'together')).toMatchObject({ state: 'go' })
  })

  test('causes: palm weighs most among the fats, squares sum to the whole', () => {
    const { contributions, rootSumSquare } = superfatMargin(batch())
    const fats = contributions.filter((part) => part.cause === 'saponification-value').map((part) => part.of)
    expect(fats).toEqual(['palm', 'coconut', 'olive'])
    const whole = Math.sqrt(contributions.reduce((sum, part) => sum + part.deviation ** 2, 0))
    expect(rootSumSquare.high - rootSumSquare.low).toBeCloseTo(2 * 1.96 * whole, 5)
  })
})

describe('by hand: nothing uncertain but the weighing', () => {
  test('twenty draws of a fat, each 5 g off: 22.4 g of 1 kg; 1.96 · 0.81 · 2.24 % either way, by both ways', () => {
    // ratio 0.19 / 0.2 · … : s = 1 − 0.19/(m · 0.2) at m = 1: 0.05; ds/dm = 0.95 per kg; 0.95 · 0.02236 · 1.96 = 0.0416
    const spread = superfatSpread(
      plain({
        fats: [
          {
            key: 'fat',
            mass: 1,
            saponificationValue: { nominal: 0.2, low: 0.2, high: 0.2 },
            weighing: { scale: 'b', draws: 20 },
          },
        ],
        scales: {
          a: { division: 0, repeatability: 0, span: 0 },
          b: { division: 0, repeatability: 0.005, span: 0 },
        },
      }),
    )
    expect(Math.abs(spread.rootSumSquare.low - (0.05 - 0.0416))).toBeLessThan(0.0005)
    // the draws are not quite symmetric: less fat weighs more than more fat
    expect(Math.abs(spread.monteCarlo.low - (0.05 - 0.0416))).toBeLessThan(0.0025)
    expect(Math.abs(spread.monteCarlo.high - (0.05 + 0.0416))).toBeLessThan(0.0025)
  })

  /** 20 g of an acid at 15.615 mol/kg beside the fat, on a scale that errs by 1 g and by a span. */
  const citric = (span: number): Pick<SuperfatInput, 'alkalis' | 'acids' | 'scales'> => ({
    alkalis: [
      {
        alkali: 'KOH',
        mass: 0.19 + 0.02 * 15.615 * 0.0561056,
        purity: { nominal: 1, low: 1, high: 1 },
        weighing: { scale: 'a', draws: 1 },
      },
    ],
    acids: [{ key: 'citric', mass: 0.02, hydroxidePerMass: 15.615, weighing: { scale: 'b', draws: 1 } }],
    scales: {
      a: { division: 0, repeatability: 0, span: 0 },
      b: { division: 0, repeatability: 0.001, span },
    },
  })

  test('an acid that is drawn short leaves its alkali to the fats: 2 g of 20 g at 15.6 mol/kg', () => {
    // 3 / 192.12 g/mol = 15.615 mol/kg; 0.002 · 15.615 = 0.03123 mol of 3.565 mol: 0.88 %, twice the deviation of 1 g
    const spread = superfatSpread(plain(citric(0)))
    expect(spread.nominal).toBeCloseTo(0.05, 6)
    expect(Math.abs(spread.worst.low - (0.05 - 0.00876))).toBeLessThan(0.0001)
    expect(Math.abs(spread.worst.high - (0.05 + 0.00876))).toBeLessThan(0.0001)
    expect(Math.abs(spread.monteCarlo.low - (0.05 - 1.96 * 0.00438))).toBeLessThan(0.0003)
  })

  test('an acid on a scale of its own: 1 g of weighing, 1 % of span, beside a fat of 0.19 to 0.21', () => {
    const input = plain({
      fats: [
        {
          key: 'fat',
          mass: 1,
          saponificationValue: { nominal: 0.2, low: 0.19, high: 0.21 },
          weighing: { scale: 'a', draws: 1 },
        },
      ],
      ...citric(0.01),
    })
    const of = (cause: string): number =>
      superfatContributions(input).find((part) => part.cause === cause)?.deviation ?? 0
    // 0.2 / 0.0561053 = 3.56473 mol wanted: 0.95 · 0.01 / √3 / 0.2; 0.001 · 15.615 / 3.56473; 0.3123 / 3.56473 · 0.01 / √3
    expect(of('saponification-value')).toBeCloseTo(0.027424, 6)
    expect(of('weighing')).toBeCloseTo(0.0043804, 6)
    expect(of('span')).toBeCloseTo(0.0005058, 6)
    // the fat as it is: 0.022 · 1.01 and 0.018 · 0.99 kg in the place of 0.02, by 15.615 / 3.56473
    const certain = input.fats.map((fat) => ({ ...fat, saponificationValue: { nominal: 0.2, low: 0.2, high: 0.2 } })) // biome-ignore format: one line
    const { worst } = superfatSpread({ ...input, fats: certain })
    expect(worst.high).toBeCloseTo(0.05 + 0.009725, 5)
    expect(worst.low).toBeCloseTo(0.05 - 0.009549, 5)
  })
})
