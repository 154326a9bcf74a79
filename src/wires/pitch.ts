/** The note of a stretched wire: tension from pitch and pitch from tension. */
import type { Finding } from '../findings.ts'

/** A string between two pins: speaking length [m] and mass of a metre [kg/m]. */
export interface PlainString {
  readonly length: number
  readonly massPerLength: number
}

/**
 * Pitch of a string that does not resist bending (Mersenne).
 *
 *     f = √(T/μ) / (2 L)
 *
 * @param string  speaking length [m] > 0, mass of a metre [kg/m] > 0
 * @param tension [N], ≥ 0
 * @returns frequency of the fundamental [Hz]
 * @source mersenne1636
 */
export const pitchOfTension = (string: PlainString, tension: number): number =>
  Math.sqrt(tension / string.massPerLength) / (2 * string.length)

/**
 * Tension of a string from its pitch, the same formula turned round.
 *
 *     T = μ (2 L f)²
 *
 * @param string speaking length [m] > 0, mass of a metre [kg/m] > 0
 * @param pitch  frequency of the fundamental [Hz]
 * @returns tension [N]
 * @source mersenne1636
 */
export const tensionOfPitch = (string: PlainString, pitch: number): number =>
  string.massPerLength * (2 * string.length * pitch) ** 2

export interface StiffString extends PlainString {
  /** [m], [Pa] */
  readonly diameter: number
  readonly modulus: number
}

export interface Stiffening {
  /** B of the stiff string [–] */
  readonly inharmonicity: number
  /** how much higher than Mersenne's the fundamental is: ends that turn freely, ends that are held [cents] */
  readonly pinnedCents: number
  readonly heldCents: number
  /** by how much Mersenne overstates the tension at the held ends' pitch [share] */
  readonly overstated: number
  readonly findings: readonly Finding[]
}

/** More than this of the tension is worth a word [share]: as close as a tuner brings wires to each other (common practice). */
const WORTH_SAYING = 0.03

/**
 * How much its own stiffness raises a string's fundamental.
 *
 *     B = π³ E d⁴ / (64 T L²)
 *     ends that turn:  f₁ = f √(1 + B)
 *     ends that are held: f₁ = f √(1 + B) (1 + (2/π) √B + (4/π²) B), the first terms of a series for small B
 *
 * A wire that is bent over a pin lies between the two. Free to turn, the shift is a fraction of a cent; held, it reaches
 * tens of cents on a short thick wire, for which a tuner's reading then says some per cent too much tension: on the safe side
 * for the wire and the peg, not for the lag. Good for B below 0.01.
 *
 * @param string  speaking length [m], mass of a metre [kg/m], diameter [m], modulus [Pa]
 * @param tension [N], > 0
 * @returns B [–], shifts [cents], overstated tension [share]
 * @source fletcher-rossing
 */
export function stiffening(string: StiffString, tension: number): Stiffening {
  const { diameter, length, modulus } = string
  const inharmonicity = (Math.PI ** 3 * modulus * diameter ** 4) / (64 * tension * length ** 2)
  const pinned = Math.sqrt(1 + inharmonicity)
  const held = pinned * (1 + (2 / Math.PI) * Math.sqrt(inharmonicity) + (4 / Math.PI ** 2) * inharmonicity)
  const overstated = held ** 2 - 1
  return {
    inharmonicity,
    pinnedCents: cents(pinned),
    heldCents: cents(held),
    overstated,
    findings:
      overstated > WORTH_SAYING
        ? [
            {
              code: 'wire-stiffness-raises-pitch',
              severity: 'warn',
              values: { cents: cents(held), overstated, length, wire: diameter },
            },
          ]
        : [],
  }
}

const cents = (ratio: number): number => 1200 * Math.log2(ratio)

export interface Note {
  /** letter with # and octave: A4, C#5 */
  readonly name: string
  /** number of the key, 69 for A4 */
  readonly key: number
  /** of the note itself [Hz], and how far above it the pitch is [cents, −50 to 50] */
  readonly pitch: number
  readonly cents: number
}

/** Hz of A4; ISO 16 (from memory), in general use (read) */
const A4 = 440
const LETTERS = ['C', 'C#', 'D', 'D#', 'E', 'F', 'F#', 'G', 'G#', 'A', 'A#', 'B'] as const

/**
 * Pitch of a note in equal temperament.
 *
 *     f = 440 · 2^((key − 69)/12)
 *
 * @param key number of the key, 69 for A4
 * @returns frequency [Hz]
 * @source iso-16
 */
export const notePitch = (key: number): number => A4 * 2 ** ((key - 69) / 12)

/**
 * The note that a tuner shows for a pitch.
 *
 *     key = round(69 + 12 log₂(f/440));   cents = 1200 log₂(f / its pitch)
 *
 * @param pitch frequency [Hz], > 0
 * @returns nearest note and the distance from it [cents]
 * @source iso-16
 */
export function noteOf(pitch: number): Note {
  const key = Math.round(69 + 12 * Math.log2(pitch / A4))
  const exact = notePitch(key)
  const octave = Math.floor(key / 12) - 1
  return {
    name: `${LETTERS[((key % 12) + 12) % 12]}${octave}`,
    key,
    pitch: exact,
    cents: cents(pitch / exact),
  }
}

/**
 * How far a tuner may be off for a share of the tension.
 *
 *     cents = 600 log₂(1 + share), since T grows with the square of f
 *
 * @param share of the tension [–], above −1
 * @returns distance [cents]
 * @source mersenne1636
 */
export const centsOfTension = (share: number): number => 600 * Math.log2(1 + share)

/**
 * Pitch of the same wire at a share of its tension.
 *
 *     f √share: half of the tension sounds half an octave, six semitones, lower
 *
 * @param pitch at the whole tension [Hz]
 * @param share of the tension [–], ≥ 0
 * @returns frequency [Hz]
 * @source mersenne1636
 */
export const pitchAtShare = (pitch: number, share: number): number => pitch * Math.sqrt(share)

/**
 * How far one pitch is from another.
 *
 *     cents = 1200 log₂(to / from)
 *
 * @param from, to frequencies [Hz] > 0
 * @returns distance, above 0 where the second is the higher [cents]
 * @source iso-16
 */
export const centsBetween = (from: number, to: number): number => cents(to / from)
