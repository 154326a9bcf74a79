/** Shrinking of a bar from the water that it loses. */
import { describe, expect, test } from 'vitest'
import { driedLength } from '../../src/batch/shrinkage.ts'

describe('by hand: 1 litre of green soap weighs 1.04 kg', () => {
  test('a tenth of it is 104 g of water or 104.2 ml: 895.8 ml are left, a cube of 96.40 mm for one of 100 mm', () =>
    // 0.104 kg / 998 kg/m3 = 104.208 ml; 895.79^(1/3) = 9.6398
    expect(driedLength(0.1)).toBeCloseTo(0.96398, 5))

  test('nothing lost, nothing shrunk; more lost, more shrunk', () => {
    expect(driedLength(0)).toBe(1)
    for (let loss = 0.01; loss <= 0.3; loss += 0.01)
      expect(driedLength(loss)).toBeLessThan(driedLength(loss - 0.01))
  })
})
