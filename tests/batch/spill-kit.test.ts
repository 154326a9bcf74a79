/** Sand for a spill. */
import { describe, expect, test } from 'vitest'
import { spillKit } from '../../src/batch/spill-kit.ts'

describe('by hand: sand for a spill', () => {
  test('of 4.5 litres', () => {
    // 1.2 · 4.5 / 0.35 = 15.43 l of sand, 24.69 kg, three pails of 10 kg at most
    const kit = spillKit(0.0045)
    expect(kit.sand * 1000).toBeCloseTo(15.43, 2)
    expect(kit.sandMass).toBeCloseTo(24.69, 2)
    expect(kit.sandPails).toBe(3)
  })

  test('has pails for the wet sand, each for one person', () => {
    const kit = spillKit(0.0045)
    // 24.69 kg of sand and 4.5 · 1.53 = 6.89 kg of lye are 31.57 kg, four pails; 15.43 / 0.8 / 4 = 4.82 l each
    expect(kit.wastePails).toBe(4)
    expect(kit.wastePail * 1000).toBeCloseTo(4.82, 2)
  })

  test('has pails for the wash water, which the sand has no room for', () => {
    const kit = spillKit(0.0045)
    // three times 4.5 l, 13.5 kg, two pails; 13.5 / 0.8 / 2 = 8.44 l each
    expect([kit.washes, kit.washPails]).toEqual([3, 2])
    expect(kit.washPail * 1000).toBeCloseTo(8.44, 2)
  })

  test('says of its sand what it is reckoned with', () => {
    const { sand, voids, reserve } = spillKit(0.0045)
    // room in it, less what is counted beyond the sum: 15.43 · 0.35 / 1.2 = 4.5
    expect((sand * voids) / (1 + reserve)).toBeCloseTo(0.0045, 12)
  })

  test('grows with the pail, and counts whole pails', () => {
    expect(spillKit(0.009).sand).toBeCloseTo(2 * spillKit(0.0045).sand, 12)
    // 0.35 · 10 / (1.2 · 1600) m3 fills one pail of sand exactly
    expect(spillKit((0.35 * 10) / (1.2 * 1600)).sandPails).toBe(1)
    expect(spillKit((0.35 * 10.1) / (1.2 * 1600)).sandPails).toBe(2)
  })
})

describe('by hand: pails that are just full', () => {
  test('1.2 · 1600/0.35 + 1530 = 7015.7 kg of wet sand for each m3: 1.4254 litres fill one pail of 10 kg', () => {
    const just = 10 / ((1.2 * 1600) / 0.35 + 1530)
    expect(spillKit(just).wastePails).toBe(1)
    expect(spillKit(just * 1.001).wastePails).toBe(2)
    expect(spillKit(just * 7).wastePails).toBe(7)
  })

  test('three washes of 3.333 litres fill one', () => {
    expect(spillKit(1 / 300).washPails).toBe(1)
    expect(spillKit(1.001 / 300).washPails).toBe(2)
    expect(spillKit(7 / 300).washPails).toBe(7)
  })

  test('whole pails are whole whatever their last bit is', () => {
    for (let pails = 1; pails <= 40; pails += 1) {
      expect(spillKit((pails * 10) / ((1.2 * 1600) / 0.35 + 1530)).wastePails).toBe(pails)
      expect(spillKit((pails * 10 * 0.35) / (1.2 * 1600)).sandPails).toBe(pails)
      expect(spillKit(pails / 300).washPails).toBe(pails)
    }
  })
})
