/** Choices by chance that a seed brings back. */
export interface Chance {
  /** 0 ≤ number < 1 */
  readonly next: () => number
  readonly between: (low: number, high: number) => number
  /** rounded to so many decimals */
  readonly number: (low: number, high: number, decimals?: number) => number
  readonly whole: (low: number, high: number) => number
  readonly of: <T>(all: readonly [T, ...T[]]) => T
  /** true so often [0..1] */
  readonly odds: (share: number) => boolean
}

/** A generator of its own (xorshift with a multiplier, Marsaglia 2003, from memory): the program's has no part in it. */
export const chanceOf = (seed: number): Chance => {
  let state = BigInt.asUintN(64, BigInt(seed) * 0x9e3779b97f4a7c15n + 0x1234567n) || 1n
  const next = (): number => {
    state ^= state >> 12n
    state = BigInt.asUintN(64, state ^ (state << 25n))
    state ^= state >> 27n
    return Number(BigInt.asUintN(64, state * 0x2545f4914f6cdd1dn) >> 11n) / 2 ** 53
  }
  const between = (low: number, high: number): number => low + (high - low) * next()
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1))
  return {
    next,
    between,
    whole,
    number: (low, high, decimals = 1) => Number(between(low, high).toFixed(decimals)),
    of: (all) => all[whole(0, all.length - 1)] ?? all[0],
    odds: (share) => next() < share,
  }
}
