/** Notes of wires against worked string problems, and stiffness against the equation of a stretched beam. */
import { describe, expect, test } from 'vitest'
import {
  centsOfTension,
  noteOf,
  notePitch,
  pitchAtShare,
  pitchOfTension,
  stiffening,
  tensionOfPitch,
} from '../../src/wires/pitch.ts'
import { wireFigures } from '../../src/wires/strength.ts'

const inch = 0.0254
const string = (inches: number, length: number) => {
  const figures = wireFigures({ material: 'music-wire', diameter: inches * inch })
  return { ...figures, length, diameter: inches * inch }
}

describe('published: string problems at 7850 kg/m3 (computed apart from this program)', () => {
  test.each([
    // in, m, N, Hz, note, cents
    [0.01, 0.3, 40, 528.525, 'C5', 17.4],
    [0.013, 0.3, 60, 497.929, 'B4', 14.1],
    [0.016, 0.3, 100, 522.294, 'C5', -3.2],
    [0.016, 0.4, 100, 391.721, 'G4', -1.2],
    [0.018, 0.35, 120, 435.92, 'A4', -16.1],
    [0.02, 0.3, 150, 511.742, 'C5', -38.5],
    [0.022, 0.45, 180, 339.749, 'F4', -47.6],
    [0.024, 0.3, 200, 492.424, 'B4', -5.1],
  ])('%f in, %f m at %i N: %f Hz, %s %f cents', (inches, length, tension, hertz, name, offset) => {
    const wire = string(inches, length)
    const pitch = pitchOfTension(wire, tension)
    expect(Math.abs(pitch - hertz)).toBeLessThan(0.002)
    expect(noteOf(pitch)).toMatchObject({ name })
    expect(Math.abs(noteOf(pitch).cents - offset)).toBeLessThan(0.06)
    expect(tensionOfPitch(wire, pitch)).toBeCloseTo(tension, 9)
  })

  test('0.010 in, 25.5 in long, E4 at 329.63 Hz: 16.2 lbf by a page on guitar strings (read)', () =>
    // that page takes 2.215e-5 lb/in of wire, half a per cent less than a cylinder of steel
    expect(tensionOfPitch(string(0.01, 25.5 * inch), 329.63) / 4.4482216).toBeCloseTo(16.2, 0))

  test('B of 0.016 in, 0.3 m, 100 N is 0.0002987 and lifts the fundamental by 0.26 cents', () => {
    const { inharmonicity, pinnedCents } = stiffening(string(0.016, 0.3), 100)
    expect(inharmonicity).toBeCloseTo(0.0002987, 7)
    expect(pinnedCents).toBeCloseTo(0.26, 2)
  })
})

describe('published: equal temperament from A4 = 440 Hz (computed apart)', () => {
  test.each([
    [36, 'C2', 65.4064],
    [54, 'F#3', 184.9972],
    [60, 'C4', 261.6256],
    [69, 'A4', 440],
    [73, 'C#5', 554.3653],
    [84, 'C6', 1046.5023],
  ])('key %i is %s, %f Hz', (key, name, hertz) => {
    expect(notePitch(key)).toBeCloseTo(hertz, 4)
    expect(noteOf(hertz)).toMatchObject({ name, key })
    expect(Math.abs(noteOf(hertz).cents)).toBeLessThan(0.01)
  })
})

describe('by hand', () => {
  test('at one length and pitch every plain wire has the same stress', () => {
    const stress = (inches: number): number =>
      tensionOfPitch(string(inches, 0.3), 440) / string(inches, 0.3).area
    // 7850 · (2 · 0.3 · 440)² = 547.1 MPa
    expect(stress(0.012) / 1e6).toBeCloseTo(547.1, 1)
    expect(stress(0.032)).toBeCloseTo(stress(0.012), 3)
  })

  test('3 % of the tension is 600 log₂ 1.03 = 25.6 cents; an octave is four times the tension', () => {
    expect(centsOfTension(0.03)).toBeCloseTo(25.59, 2)
    expect(centsOfTension(3)).toBeCloseTo(1200, 9)
  })

  test('a pitch half way between two notes belongs to one of them by 50 cents at most', () => {
    for (let hertz = 60; hertz < 1100; hertz *= 1.013)
      expect(Math.abs(noteOf(hertz).cents)).toBeLessThanOrEqual(50)
  })
})

describe('by hand: held ends by the equation of a stretched beam, solved here', () => {
  /** Fundamental of E I y⁗ − T y″ = μ ω² y with y = y′ = 0 at both ends, over that of the plain string. */
  const exact = (inches: number, length: number, tension: number): number => {
    const wire = string(inches, length)
    const bending = (wire.modulus * Math.PI * wire.diameter ** 4) / 64
    // half the length, symmetric mode: p tanh(p L/2) + k tan(k L/2) = 0, p² − k² = T/EI, p k = ω √(μ/EI)
    const miss = (ratio: number): number => {
      const omega = ratio * 2 * Math.PI * pitchOfTension(wire, tension)
      const half = tension / bending / 2
      const root = Math.sqrt(half ** 2 + (wire.massPerLength * omega ** 2) / bending)
      const p = Math.sqrt(root + half)
      // the difference of two near numbers, written so that no digit is lost
      const k = (omega * Math.sqrt(wire.massPerLength / bending)) / p
      return p * Math.tanh((p * length) / 2) + k * Math.tan((k * length) / 2)
    }
    // between the place where the tangent jumps and the next note
    let [low, high] = [1.0001, 1.5]
    for (let step = 0; step < 100; step += 1) {
      const middle = (low + high) / 2
      if (miss(middle) < 0) low = middle
      else high = middle
    }
    return low
  }

  test.each([
    [0.016, 0.3, 100],
    [0.02, 0.23, 120],
    [0.02, 0.309, 120],
    [0.032, 0.2, 150],
  ])('%f in, %f m, %i N: within half a cent', (inches, length, tension) => {
    const { heldCents, inharmonicity } = stiffening(string(inches, length), tension)
    expect(inharmonicity).toBeLessThan(0.01)
    expect(Math.abs(heldCents - 1200 * Math.log2(exact(inches, length, tension)))).toBeLessThan(0.5)
  })

  test('short and thick wire is said to sound too high, long and thin wire is not', () => {
    const codes = (inches: number, length: number) =>
      stiffening(string(inches, length), 120).findings.map(({ code }) => code)
    expect(codes(0.02, 0.23)).toEqual(['wire-stiffness-raises-pitch'])
    expect(codes(0.012, 0.4)).toEqual([])
  })
})

describe('by hand: a share of the tension', () => {
  test('half of it is six semitones lower: from A4 to D#4, 440/1.41421 = 311.13 Hz', () => {
    expect(pitchAtShare(440, 0.5)).toBeCloseTo(311.13, 2)
    expect(noteOf(pitchAtShare(440, 0.5)).name).toBe('D#4')
  })

  // 638.6 · √0.97 = 628.9, · √1.03 = 648.1
  test('3 per cent to either side of 638.6 Hz', () => {
    expect(pitchAtShare(638.6, 0.97)).toBeCloseTo(628.9, 0)
    expect(pitchAtShare(638.6, 1.03)).toBeCloseTo(648.1, 0)
  })
})
