/** Repeatable random numbers from a given seed, the same on every machine. */

/** Gives the next number of a sequence, uniform in 0 ≤ x < 1. */
export type RandomSource = () => number

/**
 * A sequence of uniform random numbers from a seed.
 *
 *     xoshiro128** started with four numbers of splitmix32
 *
 * Made for simulation, not for secrets.
 *
 * @param seed any whole number [–]; the same seed gives the same sequence
 * @returns source of numbers [–], 0 ≤ x < 1
 * @source blackman-vigna
 */
export function randomSource(seed: number): RandomSource {
  let mixed = seed | 0
  const word = (): number => {
    mixed = (mixed + 0x9e3779b9) | 0
    let z = mixed ^ (mixed >>> 16)
    z = Math.imul(z, 0x21f0aaad)
    z ^= z >>> 15
    z = Math.imul(z, 0x735a2d97)
    return z ^ (z >>> 15)
  }
  // An all-zero state would stay zero for ever; the odd last word makes that impossible.
  const next = scrambledWords([word(), word(), word(), word() | 1])
  return () => next() * 2 ** -32
}

/**
 * The 128-bit xorshift-rotate generator xoshiro128**.
 *
 *     result = rotl(s₁ · 5, 7) · 9 mod 2³²
 *
 * Period 2¹²⁸ − 1.
 *
 * @param state four 32-bit words, not all 0
 * @returns source of whole numbers [–], 0 ≤ n < 2³²
 * @source blackman-vigna
 */
export function scrambledWords(state: readonly [number, number, number, number]): () => number {
  let [a, b, c, d] = state
  return () => {
    const scrambled = Math.imul(b, 5)
    const result = Math.imul((scrambled << 7) | (scrambled >>> 25), 9) >>> 0
    const shifted = b << 9
    c ^= a
    d ^= b
    b ^= c
    a ^= d
    c ^= shifted
    d = (d << 11) | (d >>> 21)
    return result
  }
}

/**
 * Normal numbers of mean 0 and deviation 1 from uniform ones, two at a time.
 *
 *     √(−2 ln(1 − u)) · cos, sin (2π v)
 *
 * @param random uniform source, 0 ≤ u < 1
 * @returns source of normal numbers [–]
 * @source box-muller
 */
export function normalSource(random: () => number): () => number {
  let spare: number | undefined
  return () => {
    if (spare !== undefined) {
      const kept = spare
      spare = undefined
      return kept
    }
    const radius = Math.sqrt(-2 * Math.log(1 - random()))
    const angle = 2 * Math.PI * random()
    spare = radius * Math.sin(angle)
    return radius * Math.cos(angle)
  }
}
