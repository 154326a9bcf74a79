import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type CurveFit, type CurveProblem, fitCurve } from '../../src/numerics/least-squares.ts'

interface Reference {
  readonly name: string
  readonly curve: CurveProblem['curve']
  readonly slopes: NonNullable<CurveProblem['slopes']>
  readonly starts: readonly (readonly number[])[]
  readonly x: readonly number[]
  readonly y: readonly number[]
  readonly parameters: readonly number[]
  readonly errors: readonly number[]
  readonly sumOfSquares: number
  readonly deviation: number
}

const rise: CurveProblem['curve'] = (x, [b1 = 0, b2 = 0]) => b1 * (1 - Math.exp(-b2 * x))
const riseSlopes: Reference['slopes'] = (x, [b1 = 0, b2 = 0]) => [
  1 - Math.exp(-b2 * x),
  b1 * x * Math.exp(-b2 * x),
]

const SETS: readonly Reference[] = [
  {
    name: 'Misra1a',
    curve: rise,
    slopes: riseSlopes,
    starts: [
      [500, 0.0001],
      [250, 0.0005],
    ],
    y: [10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.4, 75.47, 81.78],
    x: [77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0],
    parameters: [2.3894212918e2, 5.5015643181e-4],
    errors: [2.7070075241, 7.2668688436e-6],
    sumOfSquares: 1.2455138894e-1,
    deviation: 1.018787633e-1,
  },
  {
    name: 'BoxBOD',
    curve: rise,
    slopes: riseSlopes,
    starts: [
      [1, 1],
      [100, 0.75],
    ],
    x: [1, 2, 3, 5, 7, 10],
    y: [109, 149, 149, 191, 213, 224],
    parameters: [2.1380940889e2, 5.4723748542e-1],
    errors: [1.2354515176e1, 1.0455993237e-1],
    sumOfSquares: 1.1680088766e3,
    // recalled; it is also √(1168.0088766 / 4)
    deviation: 1.7088072423e1,
  },
  {
    name: 'MGH10',
    curve: (x, [b1 = 0, b2 = 0, b3 = 0]) => b1 * Math.exp(b2 / (x + b3)),
    slopes: (x, [b1 = 0, b2 = 0, b3 = 0]) => {
      const value = Math.exp(b2 / (x + b3))
      return [value, (b1 * value) / (x + b3), (-b1 * b2 * value) / (x + b3) ** 2]
    },
    starts: [
      [2, 400000, 25000],
      [0.02, 4000, 250],
    ],
    x: [50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100, 105, 110, 115, 120, 125],
    y: [
      34780, 28610, 23650, 19630, 16370, 13720, 11540, 9744, 8261, 7030, 6005, 5147, 4427, 3820, 3307, 2872,
    ],
    parameters: [5.609636471e-3, 6.1813463463e3, 3.4522363462e2],
    errors: [1.5687892471e-4, 2.3309021107e1, 7.8486103508e-1],
    sumOfSquares: 8.7945855171e1,
    deviation: 2.6009740065,
  },
]

const near = (is: number, wanted: number, relative: number): void =>
  expect(Math.abs(is / wanted - 1), `${is} for ${wanted}`).toBeLessThan(relative)

const compare = (fit: CurveFit, set: Reference): void => {
  expect(fit.converged).toBe(true)
  for (const [j, value] of set.parameters.entries()) near(fit.parameters[j] ?? 0, value, 5e-7)
  for (const [j, error] of set.errors.entries()) near(fit.errors[j] ?? 0, error, 1e-6)
  near(fit.sumOfSquares, set.sumOfSquares, 1e-8)
  near(fit.deviation, set.deviation, 1e-8)
}

// NIST Statistical Reference Datasets, non-linear regression (public domain). Misra1a is the curve of a drying bar.
// Read in public test suites that quote the certified values, two independent ones for each set.
describe('published: nist-strd, non-linear regression', () => {
  const trials = SETS.flatMap((set) => set.starts.map((start, i) => ({ set, start, from: i + 1 })))

  test.each(trials)('$set.name from start $from, slopes given', ({ set, start }) => {
    compare(fitCurve({ ...set, start }), set)
  })

  test.each(trials)('$set.name from start $from, slopes by differences', ({ set, start }) => {
    const { slopes: _, ...bare } = set
    compare(fitCurve({ ...bare, start }), set)
  })
})

describe('by hand', () => {
  const line: CurveProblem['curve'] = (x, [a = 0, b = 0]) => a + b * x

  test('a line through (0,1) (1,3) (2,4): 7/6 + 3/2 x, leverages 5/6, 1/3, 5/6', () => {
    // Σx = 3, Σy = 8, Sxx = 2, Sxy = (−1)(1) + (1)(4) = 3 → slope 3/2, level 8/3 − 3/2 = 7/6
    // residuals −1/6, 1/3, −1/6: sum of squares 1/6, one left over → s² = 1/6
    // error of the slope √(1/6 / 2) = 0.288675, of the level √(1/6 (1/3 + 1/2)) = 0.372678
    const fit = fitCurve({ x: [0, 1, 2], y: [1, 3, 4], curve: line, start: [0, 0] })
    expect(fit.parameters[0]).toBeCloseTo(7 / 6, 9)
    expect(fit.parameters[1]).toBeCloseTo(3 / 2, 9)
    expect(fit.sumOfSquares).toBeCloseTo(1 / 6, 9)
    expect(fit.errors[0]).toBeCloseTo(0.372678, 6)
    expect(fit.errors[1]).toBeCloseTo(0.288675, 6)
    // covariance of level and slope: −s² · mean x / Sxx = −1/12
    expect(fit.covariance[0]?.[1]).toBeCloseTo(-1 / 12, 9)
    expect(fit.leverages.map((value) => value.toFixed(6))).toEqual(['0.833333', '0.333333', '0.833333'])
  })

  test('as many points as parameters: none left over', () => {
    const fit = fitCurve({ x: [0, 1], y: [1, 3], curve: line, start: [0, 0] })
    expect(fit).toMatchObject({ freedom: 0, deviation: 0 })
    expect(fit.parameters[1]).toBeCloseTo(2, 9)
  })

  test('all points at one place fix no slope', () => {
    const fit = fitCurve({ x: [1, 1, 1], y: [1, 2, 3], curve: line, start: [0, 0] })
    expect(fit.errors).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY])
  })

  test('three places that differ by a rounding fix no slope', () => {
    const x = [0.3, 0.1 + 0.2, 0.3]
    const fit = fitCurve({ x, y: [1, 2, 3], curve: line, slopes: (at) => [1, at], start: [0, 0] })
    expect(fit.errors).toEqual([Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY])
  })

  test('a first guess at which one parameter does nothing is left again', () => {
    const [set] = SETS
    if (set) compare(fitCurve({ ...set, start: [0, 0.0005] }), set)
  })

  test('gives up after the steps allowed, and says so', () => {
    const [set] = SETS
    if (!set) throw new Error('no set')
    expect(fitCurve({ ...set, start: [500, 0.0001], most: 1 })).toMatchObject({ converged: false, steps: 1 })
  })

  test('the unit of a parameter does not matter', () => {
    fc.assert(
      fc.property(fc.double({ min: -6, max: 6, noNaN: true }), (power) => {
        const unit = 10 ** power
        const x = [0, 5, 10, 20, 40, 60]
        const y = x.map((at) => 90 + 12 * Math.exp(-0.07 * at) + 0.05 * Math.sin(at))
        const curve: CurveProblem['curve'] = (at, [a = 0, b = 0, c = 0]) => a + b * Math.exp(-c * unit * at)
        const fit = fitCurve({ x, y, curve, start: [y[5] ?? 0, 10, 0.05 / unit] })
        const plain = fitCurve({
          x,
          y,
          curve: (at, [a = 0, b = 0, c = 0]) => a + b * Math.exp(-c * at),
          start: [80, 10, 0.05],
        })
        near((fit.parameters[2] ?? 0) * unit, plain.parameters[2] ?? 0, 1e-6)
        near((fit.errors[2] ?? 0) * unit, plain.errors[2] ?? 0, 1e-6)
      }),
      { numRuns: 30 },
    )
  })
})
