/**
 * Recorded on 27 November 2026: what these methods gave on small problems and in how many steps, so that nobody changes
 * unseen what all others reckon with. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { centreLine, MIDDLE, readAt } from '../../src/numerics/brick-places.ts'
import { advance, pitchOf, startBrick, storedHeat, withFaces } from '../../src/numerics/conduction.ts'
import { type CurveProblem, fitCurve } from '../../src/numerics/least-squares.ts'
import { solveLinear } from '../../src/numerics/linear.ts'
import { integral } from '../../src/numerics/quadrature.ts'
import { normalSource, randomSource } from '../../src/numerics/random.ts'
import { risingRoot } from '../../src/numerics/root.ts'
import {
  drawnInterval95,
  normalInterval95,
  rootSumSquare,
  uniformDeviation,
} from '../../src/numerics/spread.ts'
import { studentQuantile, studentShare } from '../../src/numerics/student-t.ts'
import { expectRecorded } from '../recorded.ts'
import { expectChangesRecorded } from '../recorded-changes.ts'

describe('recorded: bricks', () => {
  test('of several sizes', () => {
    const places = (['middle', 'end'] as const).flatMap((length) =>
      (['middle', 'side'] as const).flatMap((width) =>
        (['base', 'middle', 'top'] as const).map((height) => ({ length, width, height })),
      ),
    )
    const cells = [
      { length: 3, width: 2, height: 4 },
      { length: 1, width: 2, height: 5 },
      { length: 2, width: 1, height: 2 },
      { length: 2, width: 3, height: 1 },
    ]
    expectChangesRecorded(
      { name: 'bricks', test: import.meta.url },
      {
        size: { length: 0.3, width: 0.2, height: 0.1 },
        conductivity: 0.3,
        heatCapacity: 2.4e6,
        faces: { end: 0.1, side: 0.2, top: 0.15, base: 0.4 },
        later: { end: 0.08, side: 0.1, top: 0.05, base: 0.2 },
        above: 12,
        step: 700,
        power: 3e3,
      },
      Object.fromEntries(
        cells.map((own) => [
          `${own.length} by ${own.width} by ${own.height}`,
          ({ size, conductivity, heatCapacity, faces, later, above, step, power }) => {
            const started = startBrick({ size, cells: own, conductivity, heatCapacity }, faces, above)
            // warmer cells release more, the first ones most
            const source = (values: Float64Array, time: number): number => {
              let sum = 0
              for (let at = 0; at < values.length; at += 1) {
                const released = (power * time * (1 + (values[at] ?? 0) / 50)) / (1 + at)
                values[at] = (values[at] ?? 0) + released / heatCapacity
                sum += released
              }
              return sum
            }
            for (let time = 0; time < 3; time += 1) advance(started, step, source)
            const heated = withFaces(started, later)
            advance(heated, 2 * step)
            advance(heated, step, source)
            return [
              [...heated.above],
              [heated.lost, heated.generated, storedHeat(heated)],
              (['length', 'width', 'height'] as const).map((axis) => pitchOf(heated.brick, axis)),
              places.map((place) => readAt(heated, place)),
              readAt(heated, MIDDLE, started.above),
              (['end', 'side', 'top', 'base'] as const).map((toward) =>
                centreLine(heated, toward, heated.above).map(({ fromFace, above: value }) => [
                  fromFace,
                  value,
                ]),
              ),
            ]
          },
        ]),
      ),
      [0.7, 1.5],
    )
  })
})

describe('recorded: fits', () => {
  const x = [0.5, 1, 2, 3, 5, 8, 12]
  const y = [9.1, 8.4, 7.2, 6.4, 5.1, 4.2, 3.6]
  const fall: CurveProblem['curve'] = (at, [end = 0, loss = 0, rate = 0]) => end + loss * Math.exp(-rate * at)
  const slopes: CurveProblem['slopes'] = (at, [, loss = 0, rate = 0]) => [
    1,
    Math.exp(-rate * at),
    -loss * at * Math.exp(-rate * at),
  ]
  test('step by step', () => {
    const starts = [
      [3, 6, 0.2],
      [1, 1, 1],
      [0, 0, 0],
      [10, -5, 0.01],
      [3, 20, 3],
    ]
    const fits = starts.flatMap((start) => [
      ...[{ slopes }, {}].flatMap((more) =>
        [2, 200].map((most) => fitCurve({ x, y, curve: fall, start, most, ...more })),
      ),
      // as many points as parameters, and one that nothing decides
      fitCurve({ x: x.slice(2, 5), y: y.slice(2, 5), curve: fall, slopes, start }),
      fitCurve({ x, y, curve: (at, [a = 0, b = 0]) => a + 0 * b * at, start: start.slice(0, 2) }),
      fitCurve({ x, y, curve: (at, [a = 0, b = 0]) => Math.sqrt(a - b * at), start: [81, 1] }),
    ])
    // what is left of an exact fit is rounding alone
    const told = fits.map(({ residuals, sumOfSquares, deviation, covariance, errors, ...fit }) =>
      sumOfSquares < 1e-9 ? fit : { ...fit, residuals, sumOfSquares, deviation, covariance, errors },
    )
    expectRecorded(told, 'fits', import.meta.url)
  })
})

describe('recorded: small methods', () => {
  test('on a few numbers', () => {
    const tens = Float64Array.from({ length: 57 }, (_, at) => ((at * 37) % 57) ** 1.3)
    const calls: number[] = []
    risingRoot(
      (at) => {
        calls.push(at)
        return at ** 3
      },
      5,
      { low: 0, high: 3, tolerance: 0.01 },
    )
    expectRecorded(
      {
        random: [0, 1, 8, -3, 123456].map((seed) => Array.from({ length: 6 }, randomSource(seed))),
        normal: Array.from({ length: 9 }, normalSource(randomSource(4))),
        root: calls,
        integrals: [1, 2, 5].map((panels) =>
          integral((at) => Math.exp(-at * at) * Math.sin(9 * at), -1, 2.5, panels),
        ),
        linear: solveLinear(
          [
            [1e-3, 2, 3, 1],
            [4, -1, 0.5, 2],
            [2, 7, -3, 1],
            [9, 1, 1, -6],
          ],
          [1, 2, 3, 4],
        ),
        student: [0.6, 0.9, 0.975, 0.9995].map((share) =>
          [1, 1.5, 3, 7.5, 20, 400].map((freedom) => [
            studentQuantile(share, freedom),
            studentShare(share, freedom),
          ]),
        ),
        spread: [
          uniformDeviation({ low: 2, high: 7 }),
          rootSumSquare([1, 2, 7]),
          normalInterval95(3, 0.7),
          drawnInterval95(tens),
        ],
      },
      'small-methods',
      import.meta.url,
    )
  })
})
