/** How small errors of several sizes add up in what is made from them: at the worst, and as a rule. */

/**
 * How an error lies within ± its tolerance: `normal` with one part in 370 outside; `uniform` where only the limits are
 * known; `triangular` where the middle is likelier.
 */
export type Distribution = 'normal' | 'uniform' | 'triangular'

/** One size that is not quite what the drawing says. */
export interface Contribution {
  readonly key: string
  /** greatest error to either side, ≥ 0, in its own unit */
  readonly tolerance: number
  /** change of the result for each unit of the error; the sign tells the direction */
  readonly sensitivity: number
  readonly distribution: Distribution
  /** by how much its mean lies beside the drawing's figure, in its own unit; 0 where it is left out */
  readonly shift?: number
}

/** Tolerance over standard deviation [–]: 3 by agreement for a normal error; √3 and √6 follow from the shapes. */
export const TOLERANCE_IN_DEVIATIONS: Readonly<Record<Distribution, number>> = {
  normal: 3,
  uniform: Math.sqrt(3),
  triangular: Math.sqrt(6),
}

/** Deviations on either side that hold nearly all of a normal spread, 99.73 % [–]. */
export const NEARLY_ALL = 3

/** Share of one contribution. */
export interface StackShare {
  readonly key: string
  /** at its limit it changes the result by as much, in the unit of the result */
  readonly change: number
  /** standard deviation that it alone gives the result, same unit */
  readonly deviation: number
  /** of the variance of the result [0..1] */
  readonly ofVariance: number
  /** of the worst case [0..1] */
  readonly ofWorst: number
}

export interface Stack {
  /** every error at its limit, all to one side, in the unit of the result */
  readonly worst: number
  /** root of the sum of squares of the changes at the limits, same unit */
  readonly rootSumSquare: number
  /** standard deviation by the shape of each error, same unit */
  readonly deviation: number
  /** of the mean of the result, with its sign, same unit */
  readonly shift: number
  /** ± that holds nearly all results: the mean's shift, and three deviations beside it, same unit */
  readonly nearlyAll: number
  /** in the order given */
  readonly shares: readonly StackShare[]
}

/**
 * Stack-up of a linear chain.
 *
 *     worst = Σ |aᵢ| (tᵢ + |sᵢ|)      root-sum-square = √Σ (aᵢ tᵢ)² + |Σ aᵢ sᵢ|      u = √Σ (aᵢ tᵢ / kᵢ)²
 *     nearly all = 3 u + |Σ aᵢ sᵢ|;   k = 3 normal, √3 uniform, √6 triangular
 *
 * Root-sum-square holds 99.73 % only where every error is normal and its tolerance is three deviations; uniform errors
 * leave it in about one of twelve. Validity: independent errors, small enough that the result is linear in them.
 *
 * @param contributions errors in their own units, with what a unit of each does to the result
 * @returns spreads in the unit of the result, and the share of each contribution
 * @source scholz1995, tolerance-stack-up, jcgm100
 */
export function stackUp(contributions: readonly Contribution[]): Stack {
  const changes = contributions.map(({ tolerance, sensitivity }) => Math.abs(sensitivity) * tolerance)
  const deviations = contributions.map(
    ({ distribution }, index) => (changes[index] ?? 0) / TOLERANCE_IN_DEVIATIONS[distribution],
  )
  const shifts = contributions.map(({ sensitivity, shift = 0 }) => sensitivity * shift)
  const shift = sum(shifts)
  const variance = sum(deviations.map((one) => one * one))
  const worst = sum(changes) + sum(shifts.map(Math.abs))
  const deviation = Math.sqrt(variance)
  return {
    worst,
    rootSumSquare: Math.sqrt(sum(changes.map((one) => one * one))) + Math.abs(shift),
    deviation,
    shift,
    nearlyAll: NEARLY_ALL * deviation + Math.abs(shift),
    shares: contributions.map(({ key }, index) => {
      const own = deviations[index] ?? 0
      const change = changes[index] ?? 0
      return {
        key,
        change,
        deviation: own,
        ofVariance: variance > 0 ? (own * own) / variance : 0,
        ofWorst: worst > 0 ? (change + Math.abs(shifts[index] ?? 0)) / worst : 0,
      }
    }),
  }
}

const sum = (all: readonly number[]): number => all.reduce((total, one) => total + one, 0)
