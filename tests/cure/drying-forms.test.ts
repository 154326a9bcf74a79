import { describe, expect, test } from 'vitest'
import { HALF, shareLeft, shareSlope, slabLeft, slabSlope } from '../../src/cure/drying-forms.ts'

// Crank, The Mathematics of Diffusion, plane sheet; standard forms, recalled
describe('published: crank, slab that dries from both faces', () => {
  test('half has left at 0.0492 L²/D', () => {
    expect(slabLeft(0.0492)).toBeCloseTo(0.5, 3)
    expect(HALF.slab / Math.PI ** 2).toBeCloseTo(0.0492, 4)
    expect(shareLeft('slab', HALF.slab, 1)).toBeCloseTo(0.5, 4)
  })

  test('early form 4 √(D t / (π L²)) holds up to 60 %', () => {
    for (const lost of [0.05, 0.112, 0.113, 0.2, 0.4, 0.6]) {
      const tau = Math.PI * (lost / 4) ** 2
      expect(Math.abs(1 - slabLeft(tau) - lost)).toBeLessThan(0.005)
    }
  })

  test('time goes with the square: 30 mm dries about 1.8 times faster than 40 mm', () => {
    const daysTo = (thickness: number, tau: number): number => tau * thickness ** 2
    expect(daysTo(0.04, 0.0492) / daysTo(0.03, 0.0492)).toBeCloseTo(1.8, 1)
  })
})

describe('by hand', () => {
  test('late: 8/π² exp(−π² τ) alone; at τ = 0.3 0.810569 · 0.051771 = 0.041964', () => {
    expect(slabLeft(0.3)).toBeCloseTo(0.041964, 5)
  })

  test('the two ways of reckoning meet at τ = 0.01: 1 − 0.4/√π = 0.774324', () => {
    expect(slabLeft(0.01 - 1e-12)).toBeCloseTo(0.774324, 6)
    expect(slabLeft(0.01 + 1e-12)).toBeCloseTo(0.774324, 6)
    expect(slabSlope(0.01 - 1e-12)).toBeCloseTo(slabSlope(0.01 + 1e-12), 8)
  })

  test('slopes are those of the curves', () => {
    for (const form of ['exponential', 'slab'] as const) {
      for (const days of [0.5, 3, 20, 60]) {
        const beside = (shift: number): number => shareLeft(form, 0.05 * Math.exp(shift), days)
        expect(shareSlope(form, 0.05, days)).toBeCloseTo((beside(1e-5) - beside(-1e-5)) / 2e-5, 7)
      }
    }
  })

  test('nothing has left before the start', () => {
    expect(shareLeft('slab', 0.05, -3)).toBe(1)
    expect(shareLeft('exponential', 0.05, -3)).toBe(1)
    expect(slabSlope(0)).toBe(0)
  })
})
