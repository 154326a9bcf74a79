/** The day on which a drying curve passes a wanted weight. */
import { risingRoot } from '../numerics/root.ts'
import type { Interval } from '../numerics/spread.ts'

/** kg on a day after the pour [d]. */
export type WeightOn = (days: number) => Interval

/** Days after the pour [d] on which the wanted weight is reached; undefined: not within two years. */
export interface Reached {
  readonly earliest: number | undefined
  readonly middle: number | undefined
  readonly latest: number | undefined
}

/** d; what has not come in two years does not come */
export const HORIZON = 730

/**
 * First day on which a curve is at or below a weight.
 *
 *     day by day, then halved to a hundredth of an hour
 *
 * @param curve  kg on a day after the pour [d]
 * @param wanted kg
 * @param from   first day that counts [d]
 * @returns day [d], or undefined when the curve stays above for two years
 * @source common practice
 */
export function firstDayBelow(
  curve: (days: number) => number,
  wanted: number,
  from: number,
): number | undefined {
  for (let day = from; day < HORIZON; day += 1) {
    if (curve(day + 1) <= wanted) {
      return risingRoot((days) => -curve(days), -wanted, { low: day, high: day + 1, tolerance: 4e-4 })
    }
  }
  return undefined
}
