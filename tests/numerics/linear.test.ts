import { describe, expect, test } from 'vitest'
import { solveLinear } from '../../src/numerics/linear.ts'

describe('by hand', () => {
  test('2 x + y = 5, x − 3 y = −8: x = 1, y = 3', () => {
    const found = solveLinear(
      [
        [2, 1],
        [1, -3],
      ],
      [5, -8],
    )
    expect(found[0]).toBeCloseTo(1, 14)
    expect(found[1]).toBeCloseTo(3, 14)
  })

  test('an element of nought in the corner wants the rows exchanged: 3 z = 6, x + z = 3, y − x = 4', () => {
    // z = 2, x = 1, y = 5
    const matrix = [
      [0, 0, 3],
      [1, 0, 1],
      [-1, 1, 0],
    ]
    const found = solveLinear(matrix, [6, 3, 4])
    for (const [index, value] of [1, 5, 2].entries()) expect(found[index]).toBeCloseTo(value, 14)
    expect(matrix[0]).toEqual([0, 0, 3])
  })

  test('two like equations have no one solution', () =>
    expect(() =>
      solveLinear(
        [
          [1, 2],
          [2, 4],
        ],
        [1, 2],
      ),
    ).toThrow(RangeError))
})
