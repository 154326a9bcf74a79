/** Two checks on weighings: a known mass on the scale, and the whole pot on a second one before lye meets oil. */
import type { Finding } from '../findings.ts'
import { type DrawPlan, readingSpread, type Scale } from './draws.ts'

export interface AcceptBand {
  /** kg, the reading if all is well, rounded to the division */
  readonly expected: number
  /** kg, lowest and highest reading to accept, multiples of the division */
  readonly low: number
  readonly high: number
  readonly findings: readonly Finding[]
}

/**
 * Largest error a scale in use should show at a load.
 *
 *     up to 500 d: 1 d      up to 2000 d: 2 d      above: 3 d
 *
 * Twice the limits at first verification of a class III instrument, from memory. An unverified kitchen scale need not keep
 * them: that is what the check mass is for.
 *
 * @param scale  division [kg]
 * @param load   on the pan [kg], ≥ 0
 * @returns error [kg]
 * @source oiml-r76
 */
export const errorInUse = (scale: Scale, load: number): number => {
  const divisions = load / scale.division
  if (divisions <= 500) return scale.division
  return (divisions <= 2000 ? 2 : 3) * scale.division
}

/**
 * What the scale may show with a known mass on it, at the head of the batch sheet.
 *
 *     check mass ± error in use
 *
 * @param input  scale, check mass [kg] and the largest draw of the day [kg]
 * @returns readings [kg] to accept; a check mass far below the largest draw proves little and is warned of
 * @source oiml-r76
 */
export const scaleCheck = (input: {
  readonly scale: Scale
  readonly checkMass: number
  readonly largestDraw: number
}): AcceptBand => {
  const { scale, checkMass, largestDraw } = input
  const findings: Finding[] = []
  if (checkMass > scale.capacity) {
    findings.push({
      code: 'check-mass-over-capacity',
      severity: 'warn',
      values: { scale: scale.name, checkMass, capacity: scale.capacity },
    })
  } else if (checkMass < LEAST_CHECK_SHARE * largestDraw) {
    findings.push({
      code: 'check-mass-small',
      severity: 'warn',
      values: { scale: scale.name, checkMass, wanted: LEAST_CHECK_SHARE * largestDraw },
    })
  }
  return { ...readingsWithin(scale, checkMass, errorInUse(scale, checkMass)), findings }
}

const LEAST_CHECK_SHARE = 0.2 // of the largest draw; common practice

export interface GrossCheckRequest {
  /** kg, the empty pot as weighed */
  readonly potMass: number
  /** everything that is in the pot when it is weighed; oils, before lye meets them */
  readonly contents: readonly { readonly name: string; readonly plan: DrawPlan }[]
  readonly scale: Scale
  /** standard deviations on either side; 2 unless stated */
  readonly coverage?: number
}

export interface GrossCheck extends AcceptBand {
  /** kg, smallest draw missed or poured twice that the band is sure to show */
  readonly detects: number
  /** names of contents with a draw smaller than that */
  readonly notDetected: readonly string[]
}

/**
 * Expected reading of the pot with all oils on a second scale, with the readings to accept.
 *
 *     expected = pot + Σ draws
 *     u² = Σ n·u_read² + Σ_scales (Σ e/√3)² + 2·u_check² + (e_check/√3)²      accept expected ± k·u
 *
 * Draws on one scale share the error of its span, so that their errors in use add up; those of different scales
 * and the reading errors are independent. A missed draw passes for sure only if it is less than the width of the
 * band, so that draws smaller than twice k·u are named as not caught.
 *
 * @param request  pot [kg], plans of all contents, the second scale, coverage factor [–]
 * @returns expected reading and band [kg], the smallest mistake it shows [kg]
 * @source oiml-r76
 */
export const grossCheck = (request: GrossCheckRequest): GrossCheck => {
  const { scale, contents } = request
  const expected = contents.reduce((sum, content) => sum + content.plan.sum, request.potMass)

  let variance = 2 * readingSpread(scale) ** 2 + (errorInUse(scale, expected) / Math.sqrt(3)) ** 2 // pot and total
  const spanErrors = new Map<string, number>()
  for (const { plan } of contents) {
    variance += plan.draws.length * readingSpread(plan.scale) ** 2
    const error = plan.draws.reduce((sum, draw) => sum + errorInUse(plan.scale, draw.gross), 0)
    spanErrors.set(plan.scale.name, (spanErrors.get(plan.scale.name) ?? 0) + error)
  }
  for (const error of spanErrors.values()) variance += error ** 2 / 3

  const halfWidth = (request.coverage ?? 2) * Math.sqrt(variance)
  const detects = 2 * halfWidth
  const notDetected = contents
    .filter(({ plan }) => plan.draws.some((draw) => draw.target < detects))
    .map((content) => content.name)

  const findings: Finding[] = []
  if (expected + halfWidth > scale.capacity) {
    findings.push({
      code: 'gross-check-over-capacity',
      severity: 'hold',
      values: { scale: scale.name, expected, capacity: scale.capacity },
    })
  }
  if (notDetected.length > 0) {
    findings.push({
      code: 'gross-check-misses-small-draws',
      severity: 'warn',
      values: { detects, names: notDetected.join(', ') },
    })
  }
  return { ...readingsWithin(scale, expected, halfWidth), detects, notDetected, findings }
}

/** the multiples of the division inside value ± halfWidth; always the nearest one at least */
const readingsWithin = (
  scale: Scale,
  value: number,
  halfWidth: number,
): { readonly expected: number; readonly low: number; readonly high: number } => {
  const slack = 1e-9 // divisions
  const nearest = Math.round(value / scale.division)
  const low = Math.ceil((value - halfWidth) / scale.division - slack)
  const high = Math.floor((value + halfWidth) / scale.division + slack)
  return {
    expected: nearest * scale.division,
    low: Math.min(low, nearest) * scale.division,
    high: Math.max(high, nearest) * scale.division,
  }
}
