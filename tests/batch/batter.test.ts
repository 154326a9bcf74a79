import { describe, expect, test } from 'vitest'
import { type BatterPart, batterPerOil } from '../../src/batch/batter.ts'

/** 5 % superfat, saponification value 195, lye at a third: NaOH 0.195 · 39.997 / 56.105 · 0.95 = 0.13206 */
const ALKALI = ((0.195 * 39.997) / 56.105) * 0.95
const BATTER: readonly BatterPart[] = [
  { name: 'coconut oil', kind: 'fat', massPerOil: 0.3, density: 910 },
  { name: 'palm oil', kind: 'fat', massPerOil: 0.2, density: 900 },
  { name: 'olive oil', kind: 'fat', massPerOil: 0.5, density: 900 },
  { name: 'lye', kind: 'lye', massPerOil: 3 * ALKALI, density: 1350 },
]

describe('by hand: batter', () => {
  test('12 kg of oils make nearly 17 kg of batter, 10.5 kg about 15 kg, at a third lye and 5 % superfat', () => {
    const { massPerOil } = batterPerOil(BATTER)
    expect(massPerOil).toBeCloseTo(1.3962, 4) // 1 + 3 · 0.13206
    expect(12 * massPerOil).toBeCloseTo(16.75, 2)
    expect(10.5 * massPerOil).toBeCloseTo(14.66, 2)
  })

  test('oil and heavier lye together', () => {
    // 1 kg at 900 and 0.4 kg at 1333.333 kg/m3: 1.11111 + 0.3 = 1.41111 L for 1.4 kg
    const batter = batterPerOil([
      { name: 'oil', kind: 'fat', massPerOil: 1, density: 900 },
      { name: 'lye', kind: 'lye', massPerOil: 0.4, density: 4000 / 3 },
    ])
    expect(batter.volumePerOil).toBeCloseTo(0.00141111, 8)
    expect(batter.density).toBeCloseTo(1.4 / 0.00141111, 2)
  })

  test('nothing in it', () =>
    expect(batterPerOil([])).toEqual({ massPerOil: 0, volumePerOil: 0, density: 0 }))
})
