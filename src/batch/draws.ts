/** Splits a mass into weighings that scale and container can take, and picks the scale for it. */
import type { Finding } from '../findings.ts'

export interface Scale {
  readonly name: string
  /** kg, container included */
  readonly capacity: number
  /** kg, the smallest step it shows */
  readonly division: number
  /** kg, least net mass worth weighing; 20 divisions unless stated */
  readonly minimumWeighing?: number
  /** kg, heaviest container that can be set to zero; the capacity unless stated */
  readonly tareLimit?: number
  /** kg, standard deviation of one reading; half a division unless stated */
  readonly repeatability?: number
}

export interface Container {
  readonly name: string
  /** kg */
  readonly emptyMass: number
  /** kg of contents that it takes with safe headroom */
  readonly workingMass: number
}

export interface DrawRequest {
  /** kg, > 0 */
  readonly mass: number
  readonly scale: Scale
  readonly container: Container
  /** largest error as a share of the mass; 0.01 unless stated */
  readonly errorLimit?: number
  /** alkali that cannot be weighed well stops the batch, anything else is warned of */
  readonly alkali?: boolean
}

export interface Draw {
  /** 1, 2, … */
  readonly number: number
  /** kg, what the empty container weighs before it is set to zero */
  readonly tare: number
  /** kg to show on the scale after zeroing */
  readonly target: number
  /** kg to show if the container was not zeroed */
  readonly gross: number
  /** kg drawn so far, this draw included */
  readonly runningTotal: number
}

export interface DrawPlan {
  readonly scale: Scale
  readonly container: Container
  readonly draws: readonly Draw[]
  /** kg, sum of the targets */
  readonly sum: number
  /** kg, sum less the mass asked for */
  readonly roundingError: number
  /** kg, rounding error and half a division of reading for every draw, all against you */
  readonly worstError: number
  /** kg, standard deviation of the mass really drawn, without the error of the scale's span */
  readonly typicalError: number
  /** kg, most that one draw may be here */
  readonly largestDraw: number
  readonly findings: readonly Finding[]
}

/**
 * Splits a mass into the fewest draws, equal round ones first and a smaller last one for the rest.
 *
 *     largest = min(capacity − tare, working mass)      n = ⌈total / largest⌉
 *
 * Of all ways to make n draws, the one whose repeated target is roundest in divisions of the scale is taken:
 * 3 × 2000 g + 1456 g rather than 4 × 1864 g. A round target said aloud, read back and seen on the display is
 * harder to get wrong, and only the last box differs. The last draw is never larger than the others and never
 * below the minimum weighing, unless the container is so small that nothing else is left: that is a finding.
 *
 * @param request  mass [kg], scale, container, error limit [–]
 * @returns the draws [kg]; none when the container leaves no room, or when the mass rounds to nothing
 * @source common practice
 */
export const planDraws = (request: DrawRequest): DrawPlan => {
  const { mass, scale, container } = request
  const severity = request.alkali ? 'stop' : 'warn'
  const errorLimit = request.errorLimit ?? DEFAULT_ERROR_LIMIT
  const findings: Finding[] = []

  // everything below counts in whole divisions, so that no sum can drift from what the display can show
  const total = Math.round(mass / scale.division)
  const minimum = Math.max(1, Math.ceil(minimumWeighing(scale) / scale.division - COUNT_SLACK))
  const room = Math.min(scale.capacity - container.emptyMass, container.workingMass)
  const largest = Math.floor(room / scale.division + COUNT_SLACK)

  const tooHeavy =
    container.emptyMass > (scale.tareLimit ?? scale.capacity) ||
    scale.capacity - container.emptyMass < minimum * scale.division
  const tooSmall = !tooHeavy && largest < minimum
  if (tooHeavy || tooSmall) {
    findings.push({
      code: tooHeavy ? 'container-too-heavy-for-scale' : 'container-too-small-for-scale',
      severity: 'stop',
      values: {
        scale: scale.name,
        container: container.name,
        emptyMass: container.emptyMass,
        workingMass: container.workingMass,
        capacity: scale.capacity,
        minimum: minimum * scale.division,
      },
    })
  }
  const counts = tooHeavy || tooSmall || total < 1 ? [] : splitCounts(total, largest, minimum)
  // It would be left out without a word.
  const roundsToNothing = mass > 0 && total < 1
  const smallest = counts.length === 0 ? total : Math.min(...counts)
  if (smallest < minimum) {
    findings.push({
      code: 'draw-below-scale-minimum',
      severity: roundsToNothing ? 'stop' : severity,
      values: { scale: scale.name, mass: smallest * scale.division, minimum: minimum * scale.division },
    })
  }

  const draws: Draw[] = []
  let running = 0
  for (const count of counts) {
    running += count
    draws.push({
      number: draws.length + 1,
      tare: container.emptyMass,
      target: count * scale.division,
      gross: container.emptyMass + count * scale.division,
      runningTotal: running * scale.division,
    })
  }

  if (draws.length > MOST_DRAWS) {
    findings.push({
      code: 'too-many-draws',
      severity: 'stop',
      values: { scale: scale.name, draws: draws.length, mostDraws: MOST_DRAWS },
    })
  }

  const sum = running * scale.division
  const roundingError = sum - mass
  const worstError = Math.abs(roundingError) + (draws.length * scale.division) / 2
  const typicalError = Math.hypot(roundingError, readingSpread(scale) * Math.sqrt(draws.length))
  if (draws.length > 0 && worstError > errorLimit * mass) {
    findings.push({
      code: 'scale-too-coarse',
      severity,
      values: { scale: scale.name, mass, worstError, share: worstError / mass, limit: errorLimit },
    })
  }
  return {
    scale,
    container,
    draws,
    sum,
    roundingError,
    worstError,
    typicalError,
    largestDraw: Math.max(0, largest) * scale.division,
    findings,
  }
}

/**
 * One plan drawn several times over, as for several kettles of the same.
 *
 * The rounding error comes again each time and adds up; reading errors are independent.
 *
 * @param plan  for one [kg]
 * @param times how often, whole and at least 1
 * @returns all draws, numbered through [kg]
 * @source common practice
 */
export const repeatPlan = (plan: DrawPlan, times: number): DrawPlan => {
  if (times === 1) return plan
  const draws = Array.from({ length: times }, (_, time) =>
    plan.draws.map((draw, index) => ({
      ...draw,
      number: time * plan.draws.length + index + 1,
      runningTotal: time * plan.sum + draw.runningTotal,
    })),
  ).flat()
  const roundingError = plan.roundingError * times
  return {
    ...plan,
    draws,
    sum: plan.sum * times,
    roundingError,
    worstError: plan.worstError * times,
    typicalError: Math.hypot(roundingError, readingSpread(plan.scale) * Math.sqrt(draws.length)),
  }
}

export interface ScaleChoice {
  readonly chosen: DrawPlan
  /** the plan on every scale, best first */
  readonly plans: readonly DrawPlan[]
}

/**
 * Picks the scale for a mass: no findings first, then fewest draws, then smallest capacity, then finest division.
 *
 * @param request  as for planDraws [kg]
 * @param scales   at least one
 * @returns the plan on the chosen scale, and all plans in order
 * @source common practice
 */
export const chooseScale = (
  request: Omit<DrawRequest, 'scale'>,
  scales: readonly [Scale, ...Scale[]],
): ScaleChoice => {
  const plans = scales.map((scale) => planDraws({ ...request, scale }))
  const drawn = (plan: DrawPlan): number =>
    plan.draws.length === 0 ? Number.MAX_SAFE_INTEGER : plan.draws.length
  plans.sort(
    (a, b) =>
      worst(a) - worst(b) ||
      drawn(a) - drawn(b) ||
      a.scale.capacity - b.scale.capacity ||
      a.scale.division - b.scale.division,
  )
  return { chosen: plans[0]!, plans }
}

/**
 * Least net mass worth weighing on a scale.
 *
 * @param scale  its stated minimum, else 20 divisions, the least load of a class III instrument
 * @returns mass [kg]
 * @source oiml-r76
 */
export const minimumWeighing = (scale: Scale): number =>
  scale.minimumWeighing ?? MINIMUM_DIVISIONS * scale.division

/**
 * Standard deviation of one reading: rounding to the division and repeatability together.
 *
 *     u = √(d² / 12 + r²)
 *
 * @param scale  division and repeatability [kg]
 * @returns standard deviation [kg]
 * @source common practice
 */
export const readingSpread = (scale: Scale): number =>
  Math.hypot(scale.division / Math.sqrt(12), scale.repeatability ?? scale.division / 2)

const DEFAULT_ERROR_LIMIT = 0.01 // share of the mass; common practice
const MINIMUM_DIVISIONS = 20 // scale divisions; OIML R 76, class III, from memory
const MOST_DRAWS = 40 // of one thing; more than this nobody counts without a slip; common practice
const COUNT_SLACK = 1e-9 // divisions; 2.000 / 0.001 must not become 1999

const splitCounts = (total: number, largest: number, minimum: number): number[] => {
  const draws = Math.ceil(total / largest)
  if (draws === 1) return [total]
  const least = Math.ceil(total / draws) // a smaller one would leave a last draw larger than the others
  const most = Math.min(largest, Math.floor((total - minimum) / (draws - 1)))
  const repeated = roundestBetween(least, Math.max(least, most))
  const rest = total - repeated * (draws - 1)
  return [...Array.from({ length: draws - 1 }, () => repeated), rest]
}

/** the number in least…most that is a multiple of the largest 1, 2 or 5 × 10ⁿ; of several, the largest */
const roundestBetween = (least: number, most: number): number => {
  for (let power = 10 ** Math.floor(Math.log10(Math.max(1, most))); power >= 1; power /= 10) {
    for (const factor of [5, 2, 1]) {
      const step = factor * power
      const candidate = Math.floor(most / step) * step
      if (candidate >= least && candidate > 0) return candidate
    }
  }
  return least
}

const worst = (plan: DrawPlan): number =>
  Math.max(0, ...plan.findings.map((finding) => ({ warn: 1, hold: 2, stop: 3 })[finding.severity]))
