import { describe, expect, test } from 'vitest'
import { integral } from '../../src/numerics/quadrature.ts'

describe('by hand', () => {
  test.each([
    // ∫ x^n from −1 to 1 = 2/(n + 1) for even n; eight points are exact up to 15
    [0, 2],
    [2, 2 / 3],
    [8, 2 / 9],
    [14, 2 / 15],
    [15, 0],
  ])('x to the %i', (power, area) => expect(integral((x) => x ** power, -1, 1)).toBeCloseTo(area, 14))

  test('x to the 16 is no longer exact in one panel, and nearly so in four', () => {
    expect(Math.abs(integral((x) => x ** 16, -1, 1) - 2 / 17)).toBeGreaterThan(1e-6)
    expect(Math.abs(integral((x) => x ** 16, -1, 1, 4) - 2 / 17)).toBeLessThan(1e-10)
  })

  test('sine over half a turn is 2; backwards −2', () => {
    expect(integral(Math.sin, 0, Math.PI)).toBeCloseTo(2, 11)
    expect(integral(Math.sin, Math.PI, 0)).toBeCloseTo(-2, 11)
  })
})
