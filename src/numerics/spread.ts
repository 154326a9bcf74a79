/** How uncertain inputs spread into an uncertain result: by root sum of squares and by random draws. */

/** Lowest and highest value of a quantity, in its own unit. */
export interface Range {
  readonly low: number
  readonly high: number
}

/** An interval that holds the middle 95 % of a spread, with its middle. */
export interface Interval extends Range {
  readonly middle: number
}

/** Standard deviations on either side that hold 95 % of a normal spread [–]. */
const NORMAL_95 = 1.959964 // from memory; a rounded table value is 1.96

/**
 * Standard deviation of a quantity of which only the limits are known: every value between them is as likely.
 *
 *     u = (high − low) / √12
 *
 * @param range limits, any unit
 * @returns standard deviation, same unit, ≥ 0
 * @source jcgm100
 */
export const uniformDeviation = (range: Range): number => (range.high - range.low) / Math.sqrt(12)

/**
 * Standard deviation of a sum of independent parts.
 *
 *     u = √(Σ uᵢ²)
 *
 * @param deviations standard deviation of each part, one unit, n
 * @returns standard deviation of the sum, same unit
 * @source jcgm100
 */
export function rootSumSquare(deviations: readonly number[]): number {
  let sum = 0
  for (const deviation of deviations) sum += deviation * deviation
  return Math.sqrt(sum)
}

/**
 * The 95 % interval of a normal spread.
 *
 *     middle ± 1.96 u
 *
 * @param middle    mean, any unit
 * @param deviation standard deviation, same unit
 * @returns interval, same unit
 * @source jcgm100
 */
export const normalInterval95 = (middle: number, deviation: number): Interval => ({
  low: middle - NORMAL_95 * deviation,
  middle,
  high: middle + NORMAL_95 * deviation,
})

/**
 * The 95 % interval of drawn values: 2.5 % lie below it and 2.5 % above. Sorts the given array in place.
 *
 * @param drawn values, n ≥ 1, any unit
 * @returns interval with the median as its middle, same unit
 * @source jcgm101
 */
export function drawnInterval95(drawn: Float64Array): Interval {
  drawn.sort()
  return { low: quantile(drawn, 0.025), middle: quantile(drawn, 0.5), high: quantile(drawn, 0.975) }
}

/** Linear between the neighbours of position p (n − 1) in sorted values. */
function quantile(sorted: Float64Array, p: number): number {
  const position = p * (sorted.length - 1)
  const below = Math.floor(position)
  const lower = sorted[below] ?? 0
  const upper = sorted[below + 1] ?? lower
  return lower + (upper - lower) * (position - below)
}
