/** What a tight wire holds, against figures reckoned apart. */
import { describe, expect, test } from 'vitest'
import { whipOfWire } from '../../src/wires/wire-energy.ts'

const inch = 0.0254
const music = (inches: number) => ({ material: 'music-wire' as const, diameter: inches * inch })

describe('by hand: a tight wire', () => {
  test.each([
    // U = T²L/(2EA): 0.016 in: A = 0.12972 mm², E = 203.4 GPa, 100² · 0.3 / (2 · 26384) = 56.85 mJ, and so on
    [0.016, 0.3, 100, 56.85],
    [0.02, 0.3, 150, 81.87],
    [0.024, 0.45, 200, 151.6],
  ])('of %f in, %f m long, pulled with %i N, holds %f mJ', (inches, length, tension, millijoules) => {
    expect(whipOfWire(music(inches), tension, length).energy * 1000).toBeCloseTo(millijoules, 1)
  })

  test('lets its end fly at the stress over the root of modulus times density', () => {
    // 771 MPa in 0.016 in is 100 N: 771e6 / √(203.4e9 · 7850) = 771e6 / 39.96e6 = 19.3 m/s
    expect(whipOfWire(music(0.016), 100, 0.3).speed).toBeCloseTo(19.3, 1)
    expect(whipOfWire(music(0.016), 100, 3).speed).toBe(whipOfWire(music(0.016), 100, 0.3).speed)
  })

  test('of no pull holds nothing', () => {
    expect(whipOfWire(music(0.02), 0, 0.4)).toEqual({ energy: 0, speed: 0 })
  })
})
