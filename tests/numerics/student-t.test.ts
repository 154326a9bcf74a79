import { describe, expect, test } from 'vitest'
import { studentQuantile, studentShare } from '../../src/numerics/student-t.ts'

// The usual table of critical values, upper tails 0.10, 0.05, 0.025, 0.01, 0.005; read in two public texts and a
// statistics library's source.
const TABLE: readonly (readonly [number, ...number[]])[] = [
  [1, 3.078, 6.314, 12.706, 31.821, 63.657],
  [2, 1.886, 2.92, 4.303, 6.965, 9.925],
  [3, 1.638, 2.353, 3.182, 4.541, 5.841],
  [4, 1.533, 2.132, 2.776, 3.747, 4.604],
  [5, 1.476, 2.015, 2.571, 3.365, 4.032],
  [6, 1.44, 1.943, 2.447, 3.143, 3.707],
  [7, 1.415, 1.895, 2.365, 2.998, 3.499],
  [8, 1.397, 1.86, 2.306, 2.896, 3.355],
  [9, 1.383, 1.833, 2.262, 2.821, 3.25],
  [10, 1.372, 1.812, 2.228, 2.764, 3.169],
  [15, 1.341, 1.753, 2.131, 2.602, 2.947],
  [20, 1.325, 1.725, 2.086, 2.528, 2.845],
  [30, 1.31, 1.697, 2.042, 2.457, 2.75],
  [60, 1.296, 1.671, 2.0, 2.39, 2.66],
  [1e9, 1.282, 1.645, 1.96, 2.326, 2.576],
]

describe('published: table of Student t', () => {
  test.each(TABLE)('%d degrees of freedom', (freedom, ...row) => {
    const tails = [0.1, 0.05, 0.025, 0.01, 0.005]
    expect(tails.map((tail) => studentQuantile(1 - tail, freedom).toFixed(3))).toEqual(
      row.map((value) => value.toFixed(3)),
    )
  })
})

describe('by hand', () => {
  test('one degree of freedom: 1/2 + arctan t / π', () => {
    for (const t of [-30, -1, 0, 0.3, 1, 12]) {
      expect(studentShare(t, 1)).toBeCloseTo(1 / 2 + Math.atan(t) / Math.PI, 12)
    }
  })

  test('two degrees of freedom: 1/2 + t / (2 √(2 + t²))', () => {
    for (const t of [-5, -1, 0.2, 1, 4]) {
      expect(studentShare(t, 2)).toBeCloseTo(1 / 2 + t / (2 * Math.sqrt(2 + t * t)), 12)
    }
  })

  test('the same on both sides, 0 in the middle', () => {
    expect(studentQuantile(0.025, 4)).toBe(-studentQuantile(0.975, 4))
    expect(studentQuantile(0.5, 4)).toBe(0)
  })
})
