/** Where a rising function passes a wanted value, and where something ceases to hold. */

/** low ≤ high, in the unit of a function's argument, and the width at which to stop. */
export interface Interval {
  readonly low: number
  readonly high: number
  readonly tolerance: number
}

/**
 * Halves an interval until it is narrower than its tolerance, or until no number lies between its ends.
 *
 * @param holds    of its lower end, and not of its upper one; asked of neither
 * @param interval in the unit of the argument
 * @returns the last that holds and the first that does not, as far as they were looked for
 * @source common practice
 */
export function narrowed(
  holds: (x: number) => boolean,
  interval: Interval,
): { readonly low: number; readonly high: number } {
  let { low, high } = interval
  while (high - low > interval.tolerance) {
    const middle = (low + high) / 2
    if (middle <= low || middle >= high) break
    if (holds(middle)) low = middle
    else high = middle
  }
  return { low, high }
}

/**
 * Bisection: the place in an interval where a non-decreasing function reaches a value.
 *
 *     halve [low, high] until it is narrower than the tolerance
 *
 * A value below f(low) gives low, one above f(high) gives high: the answer never leaves the interval.
 *
 * @param f          non-decreasing function
 * @param value      wanted value, in the unit of f
 * @param interval   in the unit of f's argument
 * @returns the argument, in its own unit
 * @source common practice
 */
export function risingRoot(f: (x: number) => number, value: number, interval: Interval): number {
  if (f(interval.low) >= value) return interval.low
  if (f(interval.high) <= value) return interval.high
  const { low, high } = narrowed((x) => f(x) < value, interval)
  return (low + high) / 2
}
