/** Two forms of a drying curve, as the share of the loss that is still to come. */

import type { Interval } from '../numerics/spread.ts'

/** kg of a bar on a day after the pour [d]. */
export type WeightOn = (days: number) => Interval

/** kg that a bar may lose at most from one day after the pour to a later one [d]. */
export type LossBetween = (from: number, to: number) => number

/** One exponential, or a slab that dries from both faces. */
export type FormName = 'exponential' | 'slab'

/** τ below which nothing has come from the middle yet, so that the early form is exact to ten digits. */
const EARLY = 0.01

/**
 * Share of the water still to leave a slab that dries from both of its faces.
 *
 *     8/π² Σ exp(−n² π² τ) / n², n odd        τ = D t / L²        for τ < 0.01:  1 − 4 √(τ / π)
 *
 * L is the full thickness. Half of it has left at τ = 0.0492. The faces are taken to dry at once to the room's level.
 *
 * @param tau time in units of L²/D [–], any; 1 before the start
 * @returns share left [–], 0 to 1
 * @source crank
 */
export function slabLeft(tau: number): number {
  if (tau <= 0) return 1
  if (tau < EARLY) return 1 - 4 * Math.sqrt(tau / Math.PI)
  let sum = 0
  for (let n = 1; n <= 25; n += 2) sum += Math.exp(-n * n * Math.PI ** 2 * tau) / (n * n)
  return (8 / Math.PI ** 2) * sum
}

/**
 * Speed at which a slab's water leaves, for each growth of time by a factor e: τ times the slope of `slabLeft`.
 *
 *     −8 τ Σ exp(−n² π² τ), n odd        for τ < 0.01:  −2 √(τ / π)
 *
 * @param tau time in units of L²/D [–]
 * @returns d share / d ln τ [–], ≤ 0
 * @source crank
 */
export function slabSlope(tau: number): number {
  if (tau <= 0) return 0
  if (tau < EARLY) return -2 * Math.sqrt(tau / Math.PI)
  let sum = 0
  for (let n = 1; n <= 25; n += 2) sum += Math.exp(-n * n * Math.PI ** 2 * tau)
  return -8 * tau * sum
}

/**
 * Share of the loss still to come after a time, at a rate of the tail.
 *
 *     exponential: exp(−k t)        slab: slabLeft(k t / π²), k = π² D / L²
 *
 * The rate is that of the last, slow fall in both forms, so that the two can be compared.
 *
 * @param form which of the two
 * @param rate k [1/d], > 0
 * @param days t since the bars stand free [d]; 1 before
 * @returns share left [–], 0 to 1
 * @source crank
 */
export const shareLeft = (form: FormName, rate: number, days: number): number => {
  const time = Math.max(0, days)
  return form === 'slab' ? slabLeft((rate * time) / Math.PI ** 2) : Math.exp(-rate * time)
}

/**
 * Change of `shareLeft` with the logarithm of the rate.
 *
 *     exponential: −k t exp(−k t)        slab: slabSlope(k t / π²)
 *
 * @param form which of the two
 * @param rate k [1/d], > 0
 * @param days t since the bars stand free [d]
 * @returns slope [–], ≤ 0
 * @source crank
 */
export const shareSlope = (form: FormName, rate: number, days: number): number => {
  const time = Math.max(0, days)
  return form === 'slab' ? slabSlope((rate * time) / Math.PI ** 2) : -rate * time * Math.exp(-rate * time)
}

/** Rate times half time [–]: ln 2, and π² · 0.0492 for the slab. */
export const HALF: Readonly<Record<FormName, number>> = {
  exponential: Math.LN2,
  slab: Math.PI ** 2 * 0.04918,
}
