/** Student's t: how many standard errors hold a wanted share when the error itself comes from few points. */
import { risingRoot } from './root.ts'

/**
 * Share of Student's t below a value.
 *
 *     P(T ≤ t) = 1 − ½ I(ν / (ν + t²); ν/2, ½) for t ≥ 0
 *
 * @param t       value [–]
 * @param freedom degrees of freedom [–], ≥ 1
 * @returns share [–], 0 to 1
 * @source abramowitz-stegun
 */
export function studentShare(t: number, freedom: number): number {
  const tail = betaShare(freedom / (freedom + t * t), freedom / 2, 1 / 2) / 2
  return t >= 0 ? 1 - tail : tail
}

/**
 * The value below which a share of Student's t lies.
 *
 *     t with P(T ≤ t) = share, by bisection
 *
 * @param share   wanted share [–], 0 < share < 1
 * @param freedom degrees of freedom [–], ≥ 1
 * @returns t [–], to some ten digits
 * @source abramowitz-stegun
 */
export function studentQuantile(share: number, freedom: number): number {
  if (share < 1 / 2) return -studentQuantile(1 - share, freedom)
  if (share === 1 / 2) return 0
  let high = 1
  while (studentShare(high, freedom) < share && high < 1e12) high *= 2
  return risingRoot((t) => studentShare(t, freedom), share, { low: 0, high, tolerance: high * 1e-13 })
}

/** Regularised incomplete beta function, by its continued fraction on the side where that is short. */
function betaShare(x: number, a: number, b: number): number {
  if (x <= 0) return 0
  if (x >= 1) return 1
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x))
  return x < (a + 1) / (a + b + 2)
    ? (front * betaFraction(x, a, b)) / a
    : 1 - (front * betaFraction(1 - x, b, a)) / b
}

/** The fraction from its front, with both its running ratios kept away from 0. */
function betaFraction(x: number, a: number, b: number): number {
  const kept = (value: number): number => (Math.abs(value) < 1e-300 ? 1e-300 : value)
  let below = 1 / kept(1 - ((a + b) * x) / (a + 1))
  let above = 1
  let fraction = below
  for (let m = 1; m <= 400; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m))
    below = 1 / kept(1 + even * below)
    above = kept(1 + even / above)
    fraction *= below * above
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1))
    below = 1 / kept(1 + odd * below)
    above = kept(1 + odd / above)
    const turn = below * above
    fraction *= turn
    if (Math.abs(turn - 1) < 1e-15) break
  }
  return fraction
}

/** Stirling's series from 10 on; below it by Γ(z + 1) = z Γ(z). */
function logGamma(z: number): number {
  let shift = 0
  let at = z
  for (; at < 10; at += 1) shift += Math.log(at)
  const square = 1 / (at * at)
  const series =
    (1 / 12 - square * (1 / 360 - square * (1 / 1260 - square * (1 / 1680 - square / 1188)))) / at
  return (at - 1 / 2) * Math.log(at) - at + Math.log(2 * Math.PI) / 2 + series - shift
}
