/** A weight on a wire, worked out by hand. */
import { describe, expect, test } from 'vitest'
import { hungSag, stretchTo } from '../../src/wires/hung-weight.ts'

const wire = { length: 0.215, whole: 0.323, tension: 120, axialStiffness: 41900 }

describe('by hand: a weight at the middle of a wire', () => {
  test('without stretch F L/(4 T): 9.80665 · 0.21518/480 = 4.396 mm for 215 mm at 120 N', () =>
    // the half wire is √(107.5² + 4.396²) = 107.59 mm long
    expect(hungSag({ ...wire, axialStiffness: 0 }, 9.80665)).toBeCloseTo(0.004396, 6))

  test('stretches: 3.7 mm are 0.1273 mm more of 323, 16.51 N more, held up by 2 · 136.51 · 3.7/107.564 = 9.392 N', () =>
    expect(hungSag(wire, 9.392)).toBeCloseTo(0.0037, 6))

  test('off its rods it sags more', () =>
    expect(hungSag({ ...wire, length: 0.323 }, 9.80665)).toBeGreaterThan(1.3 * hungSag(wire, 9.80665)))

  test('from slack to 120 N: 120 · 323/41900 = 0.925 mm', () =>
    expect(stretchTo(wire)).toBeCloseTo(0.000925, 6))
})
