/** Integral of a smooth function over an interval. */

/** Nodes on the positive half of (−1, 1) and their weights, Gauss-Legendre of eight points. */
const HALF: readonly (readonly [node: number, weight: number])[] = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.3137066458778873],
  [0.7966664774136267, 0.2223810344533745],
  [0.9602898564975363, 0.1012285362903763],
]

/**
 * Integral by Gauss and Legendre, eight points in each of equal panels.
 *
 *     ∫ f dx ≈ h Σ w (f(m + h x) + f(m − h x)), h half a panel, m its middle
 *
 * Exact for polynomials up to the fifteenth power in each panel; a function with a corner wants a panel's end there.
 *
 * @param f      smooth function
 * @param from   lower end, in the unit of f's argument
 * @param to     upper end; below `from` the integral changes its sign
 * @param panels how many [1 or more]
 * @returns integral, unit of f times unit of its argument
 * @source abramowitz-stegun
 */
export function integral(f: (x: number) => number, from: number, to: number, panels = 1): number {
  const half = (to - from) / panels / 2
  let sum = 0
  for (let panel = 0; panel < panels; panel += 1) {
    const middle = from + half * (2 * panel + 1)
    for (const [node, weight] of HALF) sum += weight * (f(middle + half * node) + f(middle - half * node))
  }
  return sum * half
}
