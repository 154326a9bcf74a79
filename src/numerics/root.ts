/** Where a rising function passes a wanted value. */

/**
 * Bisection: the place in an interval where a non-decreasing function reaches a value.
 *
 *     halve [low, high] until it is narrower than the tolerance
 *
 * A value below f(low) gives low, one above f(high) gives high: the answer never leaves the interval.
 *
 * @param f          non-decreasing function
 * @param value      wanted value, in the unit of f
 * @param interval   low ≤ high, in the unit of f's argument, and the width at which to stop
 * @returns the argument, in its own unit
 * @source common practice
 */
export function risingRoot(
  f: (x: number) => number,
  value: number,
  interval: { readonly low: number; readonly high: number; readonly tolerance: number },
): number {
  let { low, high } = interval
  if (f(low) >= value) return low
  if (f(high) <= value) return high
  while (high - low > interval.tolerance) {
    const middle = (low + high) / 2
    if (middle <= low || middle >= high) break
    if (f(middle) < value) low = middle
    else high = middle
  }
  return (low + high) / 2
}
