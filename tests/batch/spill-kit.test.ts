/** Sand for a spill. */
import { describe, expect, test } from 'vitest'
import { spillKit } from '../../src/batch/spill-kit.ts'

describe('by hand: sand for a spill', () => {
  test('of 4.5 litres', () => {
    // 1.2 · 4.5 / 0.35 = 15.43 l of sand, 24.69 kg, three pails of 10 kg at most; 15.43 / 0.8 = 19.29 l of waste pails
    const kit = spillKit(0.0045)
    expect(kit.sand * 1000).toBeCloseTo(15.43, 2)
    expect(kit.sandMass).toBeCloseTo(24.69, 2)
    expect(kit.sandPails).toBe(3)
    expect(kit.waste * 1000).toBeCloseTo(19.29, 2)
  })

  test('grows with the pail, and counts whole pails', () => {
    expect(spillKit(0.009).sand).toBeCloseTo(2 * spillKit(0.0045).sand, 12)
    // 0.35 · 10 / (1.2 · 1600) m3 fills one pail of sand exactly
    expect(spillKit((0.35 * 10) / (1.2 * 1600)).sandPails).toBe(1)
    expect(spillKit((0.35 * 10.1) / (1.2 * 1600)).sandPails).toBe(2)
  })
})
