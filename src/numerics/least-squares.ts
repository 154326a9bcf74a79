/** The curve of a given form that lies closest to measured points, and how well the points fix it. */

/** Measured points and the curve that is laid through them. */
export interface CurveProblem {
  /** where it was measured, and what, n each */
  readonly x: readonly number[]
  readonly y: readonly number[]
  /** the curve */
  readonly curve: (x: number, parameters: readonly number[]) => number
  /** change of the curve with each parameter; central differences when it is left out */
  readonly slopes?: (x: number, parameters: readonly number[]) => readonly number[]
  /** first guess of the p parameters, none of them so far off that the curve is not a number */
  readonly start: readonly number[]
  /** steps after which the search gives up */
  readonly most?: number
}

export interface CurveFit {
  readonly parameters: readonly number[]
  /** standard error of each parameter; Infinity when the points do not fix it */
  readonly errors: readonly number[]
  /** covariance of the parameters, p × p */
  readonly covariance: readonly (readonly number[])[]
  /** y − curve */
  readonly residuals: readonly number[]
  /** share with which each point decides its own place on the curve, 0 to 1 */
  readonly leverages: readonly number[]
  readonly sumOfSquares: number
  /** standard deviation of a point about the curve; 0 when no point is left over */
  readonly deviation: number
  /** points less parameters */
  readonly freedom: number
  readonly converged: boolean
  readonly steps: number
}

/** Relative step at which nothing more is gained: well below the six digits asked of it, well above rounding. */
const SMALL_STEP = 1e-11
/** Relative gain at which the sum of squares stands still. */
const SMALL_GAIN = 1e-15
const MOST_STEPS = 5000
/** A step whose bend is longer than this share of it leaves the region in which the curve is known. */
const MOST_BEND = 0.75
/** A step longer than this many times all parameters together is a leap in the dark. */
const LONGEST_STEP = 1
/** Share of a step at which the bend of its way is measured. */
const PROBE = 0.1

/**
 * Non-linear least squares by the method of Levenberg and Marquardt.
 *
 *     minimise Σ (y − f(x, b))²:   (JᵀJ + λ D²) δ = Jᵀ r,   D = largest length so far of each column of J
 *     covariance = s² (JᵀJ)⁻¹,   s² = Σ r² / (n − p)
 *
 * Each step is bent by the curve's second derivative along it, and refused when the bend is as long as the step: so a
 * first guess far off does not run away to where the curve is flat.
 * D takes the unit out of every parameter, so that grams and thousandths a day may stand side by side. The damping λ
 * grows after a step that makes it worse and shrinks by how well the last one was foretold. Steps are solved by
 * Householder reflections, never through JᵀJ, which would lose half of the digits.
 *
 * @param problem points (n ≥ p), curve and first guess, each in its own unit
 * @returns parameters with standard errors in their units, residuals in the unit of y
 * @source marquardt1963, more1978, nielsen1999, transtrum2012
 */
export function fitCurve(problem: CurveProblem): CurveFit {
  const { x, y, curve } = problem
  const most = problem.most ?? MOST_STEPS
  const slopes = problem.slopes ?? ((at: number, b: readonly number[]) => differences(curve, at, b))
  const residualsAt = (b: readonly number[]): number[] => y.map((value, i) => value - curve(x[i] ?? 0, b))
  const jacobianAt = (b: readonly number[]): number[][] => x.map((at) => [...slopes(at, b)])

  let parameters = [...problem.start]
  let residuals = residualsAt(parameters)
  let sum = squares(residuals)
  let jacobian = jacobianAt(parameters)
  let scale = columnLengths(jacobian).map((length) => (length > 0 ? length : 1))
  let damping = 1
  let growth = 2
  let converged = sum === 0
  let steps = 0
  const scaledLength = (step: readonly number[]): number =>
    Math.hypot(...step.map((change, j) => change * (scale[j] ?? 1)))
  const bendAlong = (step: readonly number[]): readonly number[] => {
    // The last steps are so short that their bend is all rounding.
    if (isSmall(step, parameters, 1e-6)) return step.map(() => 0)
    const part = residualsAt(parameters.map((value, j) => value + PROBE * (step[j] ?? 0)))
    const bend = part.map(
      (r, i) => (2 / PROBE) * ((r - (residuals[i] ?? 0)) / PROBE + dot(jacobian[i] ?? [], step)),
    )
    return dampedStep(jacobian, bend, scale, damping)
  }
  while (!converged && steps < most) {
    steps += 1
    const straight = dampedStep(jacobian, residuals, scale, damping)
    const bent = bendAlong(straight)
    const step = straight.map((change, j) => change + (bent[j] ?? 0) / 2)
    const length = scaledLength(straight)
    const reach = scaledLength(parameters)
    const tooFar = scaledLength(bent) > MOST_BEND * length || (reach > 0 && length > LONGEST_STEP * reach)
    const tried = parameters.map((value, j) => value + (step[j] ?? 0))
    const triedResiduals = residualsAt(tried)
    const triedSum = squares(triedResiduals)
    const foretold = sum - squares(residuals.map((r, i) => r - dot(jacobian[i] ?? [], straight)))
    const small = isSmall(step, parameters, SMALL_STEP)
    if (!tooFar && Number.isFinite(triedSum) && triedSum <= sum) {
      const gained = sum - triedSum
      const ratio = foretold > 0 ? gained / foretold : 0
      converged = small || (gained <= SMALL_GAIN * sum && foretold <= SMALL_GAIN * sum)
      parameters = tried
      residuals = triedResiduals
      sum = triedSum
      jacobian = jacobianAt(parameters)
      scale = columnLengths(jacobian).map((length, j) => Math.max(length, scale[j] ?? 0))
      damping *= Math.max(1 / 3, 1 - (2 * ratio - 1) ** 3)
      growth = 2
      converged ||= sum === 0
    } else {
      // A step that is too small to count and still makes it worse is rounding: this is the bottom.
      converged = small
      damping *= growth
      growth *= 2
      if (!Number.isFinite(damping)) break
    }
  }
  return { parameters, steps, converged, ...spreadOf(jacobian, residuals, sum) }
}

/** What the last Jacobian says of the parameters. */
function spreadOf(
  jacobian: readonly (readonly number[])[],
  residuals: readonly number[],
  sumOfSquares: number,
): Omit<CurveFit, 'parameters' | 'steps' | 'converged'> {
  const count = jacobian[0]?.length ?? 0
  const freedom = residuals.length - count
  const deviation = freedom > 0 ? Math.sqrt(sumOfSquares / freedom) : 0
  const lengths = columnLengths(jacobian).map((length) => (length > 0 ? length : 1))
  const scaled = jacobian.map((row) => row.map((value, j) => value / (lengths[j] ?? 1)))
  const inverse = triangleInverse(triangle(scaled))
  if (inverse === undefined) {
    return {
      errors: lengths.map(() => Number.POSITIVE_INFINITY),
      covariance: lengths.map(() => lengths.map(() => Number.POSITIVE_INFINITY)),
      residuals,
      leverages: residuals.map(() => 1),
      sumOfSquares,
      deviation,
      freedom,
    }
  }
  const covariance = lengths.map((a, i) =>
    lengths.map((b, j) => (deviation ** 2 * dot(inverse[i] ?? [], inverse[j] ?? [])) / (a * b)),
  )
  const leverages = scaled.map((row) =>
    squares(
      lengths.map((_, j) => row.reduce((total, value, i) => total + value * (inverse[i]?.[j] ?? 0), 0)),
    ),
  )
  return {
    errors: covariance.map((row, j) => Math.sqrt(row[j] ?? 0)),
    covariance,
    residuals,
    leverages,
    sumOfSquares,
    deviation,
    freedom,
  }
}

/** Central differences; the step balances the curve's bend against rounding. */
function differences(
  curve: CurveProblem['curve'],
  x: number,
  parameters: readonly number[],
): readonly number[] {
  return parameters.map((value, j) => {
    const width = Math.cbrt(Number.EPSILON) * (Math.abs(value) || 1)
    const beside = (sign: number): number =>
      curve(
        x,
        parameters.map((other, i) => (i === j ? value + sign * width : other)),
      )
    return (beside(1) - beside(-1)) / (value + width - (value - width))
  })
}

/** The step that a damping allows: least squares of J over √λ D against r over nothing. */
function dampedStep(
  jacobian: readonly (readonly number[])[],
  residuals: readonly number[],
  scale: readonly number[],
  damping: number,
): number[] {
  const root = Math.sqrt(damping)
  const rows = [
    ...jacobian.map((row, i) => [...row.map((value, j) => value / (scale[j] ?? 1)), residuals[i] ?? 0]),
    ...scale.map((_, j) => [...scale.map((_, k) => (k === j ? root : 0)), 0]),
  ]
  const upper = triangle(rows)
  const count = scale.length
  const step = new Array<number>(count).fill(0)
  for (let i = count - 1; i >= 0; i -= 1) {
    const row = upper[i] ?? []
    let rest = row[count] ?? 0
    for (let j = i + 1; j < count; j += 1) rest -= (row[j] ?? 0) * (step[j] ?? 0)
    step[i] = rest / (row[i] || Number.MIN_VALUE)
  }
  return step.map((value, j) => value / (scale[j] ?? 1))
}

/** Upper triangle of a matrix by Householder reflections, as many rows as it has columns. */
function triangle(matrix: readonly (readonly number[])[]): number[][] {
  const rows = matrix.map((row) => [...row])
  const count = rows[0]?.length ?? 0
  for (let k = 0; k < Math.min(count, rows.length); k += 1) {
    let length = 0
    for (let i = k; i < rows.length; i += 1) length = Math.hypot(length, rows[i]?.[k] ?? 0)
    if (length === 0) continue
    const head = rows[k]?.[k] ?? 0
    const turned = head > 0 ? -length : length
    const mirror = rows.slice(k).map((row, i) => (row[k] ?? 0) - (i === 0 ? turned : 0))
    const size = squares(mirror)
    if (size === 0) continue
    for (let j = k; j < count; j += 1) {
      let along = 0
      for (let i = k; i < rows.length; i += 1) along += (mirror[i - k] ?? 0) * (rows[i]?.[j] ?? 0)
      const share = (2 * along) / size
      for (let i = k; i < rows.length; i += 1) {
        const row = rows[i]
        if (row) row[j] = (row[j] ?? 0) - share * (mirror[i - k] ?? 0)
      }
    }
  }
  return rows.slice(0, count)
}

/** Inverse of an upper triangle whose columns have length 1; undefined when one depends on the others. */
function triangleInverse(upper: readonly (readonly number[])[]): number[][] | undefined {
  const count = upper.length
  const inverse = Array.from({ length: count }, () => new Array<number>(count).fill(0))
  for (let j = 0; j < count; j += 1) {
    for (let i = j; i >= 0; i -= 1) {
      const pivot = upper[i]?.[i] ?? 0
      if (!(Math.abs(pivot) > 1e-14)) return undefined
      let rest = i === j ? 1 : 0
      for (let k = i + 1; k <= j; k += 1) rest -= (upper[i]?.[k] ?? 0) * (inverse[k]?.[j] ?? 0)
      const row = inverse[i]
      if (row) row[j] = rest / pivot
    }
  }
  return inverse
}

const isSmall = (step: readonly number[], parameters: readonly number[], share: number): boolean =>
  step.every((change, j) => Math.abs(change) <= share * (Math.abs(parameters[j] ?? 0) + SMALL_STEP))

const columnLengths = (rows: readonly (readonly number[])[]): number[] =>
  (rows[0] ?? []).map((_, j) => Math.hypot(...rows.map((row) => row[j] ?? 0)))

const squares = (values: readonly number[]): number => dot(values, values)

const dot = (a: readonly number[], b: readonly number[]): number => {
  let sum = 0
  for (let i = 0; i < a.length; i += 1) sum += (a[i] ?? 0) * (b[i] ?? 0)
  return sum
}
