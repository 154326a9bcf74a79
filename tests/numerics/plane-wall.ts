/** Exact series of a plane wall that cools on both faces, by itself: roots by bisection, no code of the program. */

/** Roots of ζ tan ζ = Bi, each between nπ and nπ + π/2. */
export const wallRoots = (biot: number, count: number): number[] =>
  Array.from({ length: count }, (_, n) => {
    let low = n * Math.PI
    let high = n * Math.PI + Math.PI / 2
    for (let turn = 0; turn < 200; turn += 1) {
      const middle = (low + high) / 2
      // sin and cos keep their signs over the interval up to the factor (−1)ⁿ
      const sign = n % 2 === 0 ? 1 : -1
      if (sign * (middle * Math.sin(middle) - biot * Math.cos(middle)) < 0) low = middle
      else high = middle
    }
    return (low + high) / 2
  })

export const wallCoefficient = (root: number): number =>
  (4 * Math.sin(root)) / (2 * root + Math.sin(2 * root))

/** θ*(x, t) = Σ Cₙ exp(−ζₙ² Fo) cos(ζₙ x/L), 60 terms */
export const wallSeries = (biot: number, fourier: number, place: number): number =>
  wallRoots(biot, 60).reduce(
    (sum, root) => sum + wallCoefficient(root) * Math.exp(-root * root * fourier) * Math.cos(root * place),
    0,
  )
