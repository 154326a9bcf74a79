/** What may be lifted by hand: the revised lifting equation with all its multipliers, and a lower limit for hot or caustic loads. */
import type { Finding } from '../findings.ts'

export type Coupling = 'good' | 'fair' | 'poor'

export interface LiftPosition {
  /** m, from the middle between the ankles to the middle between the hands */
  readonly horizontal: number
  /** m, hands above the floor */
  readonly vertical: number
  /** rad, how far the load is to one side; 0 unless stated */
  readonly asymmetry?: number
}

export interface Lift extends LiftPosition {
  /** m, how far the hands travel up or down, ≥ 0 */
  readonly travel: number
  readonly coupling: Coupling
  /** lifts a minute over an hour at most; a rare lift (0.2 or less) unless stated */
  readonly liftsPerMinute?: number
}

export interface WeightLimit {
  /** kg */
  readonly limit: number
  readonly multipliers: {
    readonly horizontal: number
    readonly vertical: number
    readonly distance: number
    readonly asymmetry: number
    readonly frequency: number
    readonly coupling: number
  }
}

/**
 * Recommended weight limit of a lift, at one end of it.
 *
 *     RWL = 23 · HM · VM · DM · AM · FM · CM
 *     HM = 0.25 / H      VM = 1 − 0.3 · |V − 0.75|      DM = 0.82 + 0.045 / D      AM = 1 − 0.0032 · A (degrees)
 *
 * H below 0.25 m and D below 0.25 m count as 0.25 m. H over 0.63 m, V below 0 or over 1.75 m, D over 1.75 m, A over
 * 135° or more than 15 lifts a minute give 0: no limit can be recommended there. Made for two-handed lifts of steady
 * loads on a good floor, within an hour. A pot of liquid is no steady load, and the equation knows nothing of heat
 * and lye: take the result as the most, not as safe.
 *
 * @param lift  distances [m], angle [rad], frequency [1/min]
 * @returns limit [kg] and its multipliers [–]
 * @source niosh-94-110, waters1993
 */
export const recommendedWeightLimit = (lift: Lift): WeightLimit => {
  const degrees = Math.abs(((lift.asymmetry ?? 0) * 180) / Math.PI)
  const { horizontal, vertical, travel } = lift
  const multipliers = {
    horizontal: horizontal > LARGEST_REACH ? 0 : 0.25 / Math.max(0.25, horizontal),
    vertical: vertical < 0 || vertical > LARGEST_HEIGHT ? 0 : 1 - 0.3 * Math.abs(vertical - 0.75),
    distance: travel > LARGEST_TRAVEL ? 0 : 0.82 + 0.045 / Math.max(0.25, travel),
    asymmetry: degrees > LARGEST_TWIST ? 0 : 1 - 0.0032 * degrees,
    frequency: frequencyMultiplier(lift.liftsPerMinute ?? 0.2, vertical),
    coupling: couplingMultiplier(lift.coupling, vertical),
  }
  const limit = Object.values(multipliers).reduce(
    (product, multiplier) => product * multiplier,
    LOAD_CONSTANT,
  )
  return { limit, multipliers }
}

export interface LiftingJob {
  readonly name: string
  /** kg, load and vessel */
  readonly mass: number
  readonly from: LiftPosition
  readonly to: LiftPosition
  readonly coupling: Coupling
  readonly liftsPerMinute?: number
  readonly hotOrCaustic: boolean
  /** kg for one person with a hot or caustic load; 10 unless stated */
  readonly shopLimit?: number
  /** people at hand; 1 unless stated */
  readonly people?: 1 | 2
}

export interface LiftAssessment {
  /** kg, the smaller of the recommended limits at both ends */
  readonly recommended: number
  readonly atStart: WeightLimit
  readonly atEnd: WeightLimit
  /** kg that one person may lift here, the shop's limit included */
  readonly allowedAlone: number
  /** kg that two people may lift together here */
  readonly allowedTogether: number
  /** mass over the recommended limit of one person [–]; undefined where the limit is 0 */
  readonly liftingIndex: number | undefined
  /** fewest people for this lift; undefined when two are too few */
  readonly peopleNeeded: 1 | 2 | undefined
  readonly findings: readonly Finding[]
}

/**
 * Judges one lift: both ends of it, the shop's limit for hot or caustic loads, and two people together.
 *
 *     alone = min(RWL start, RWL end, shop limit)      together = ⅔ · (alone + alone)
 *
 * Setting down a pot gently is as hard as picking it up, so both ends count. Two people carry two thirds of the
 * sum of what each could lift, since a load is never shared evenly. The equation itself is made for one person;
 * its use for a team is a step beyond it.
 *
 * @param job  mass [kg], both positions [m], shop limit [kg], people
 * @returns limits [kg], index [–] and people needed, with findings
 * @source niosh-94-110, waters1993, hse-l23
 */
export const assessLift = (job: LiftingJob): LiftAssessment => {
  const travel = Math.abs(job.to.vertical - job.from.vertical)
  const { coupling, liftsPerMinute } = job
  const atEndOf = (position: LiftPosition): WeightLimit =>
    recommendedWeightLimit({
      ...position,
      travel,
      coupling,
      ...(liftsPerMinute === undefined ? {} : { liftsPerMinute }),
    })
  const atStart = atEndOf(job.from)
  const atEnd = atEndOf(job.to)

  const recommended = Math.min(atStart.limit, atEnd.limit)
  const shopLimit = job.hotOrCaustic ? (job.shopLimit ?? DEFAULT_SHOP_LIMIT) : Number.POSITIVE_INFINITY
  const allowedAlone = Math.min(recommended, shopLimit)
  const allowedTogether = 2 * TEAM_SHARE * allowedAlone
  const peopleNeeded = job.mass <= allowedAlone ? 1 : job.mass <= allowedTogether ? 2 : undefined

  const findings: Finding[] = []
  const values = { load: job.name, mass: job.mass, recommended, allowedAlone, allowedTogether }
  if (recommended === 0) {
    findings.push({ code: 'lift-out-of-reach', severity: 'stop', values })
  } else if (peopleNeeded === undefined) {
    findings.push({ code: 'lift-too-heavy-for-two', severity: 'stop', values })
  } else if (peopleNeeded > (job.people ?? 1)) {
    findings.push({ code: 'lift-needs-two', severity: job.hotOrCaustic ? 'stop' : 'warn', values })
  } else if (peopleNeeded === 2) {
    findings.push({ code: 'lift-by-two', severity: 'warn', values })
  }
  return {
    recommended,
    atStart,
    atEnd,
    allowedAlone,
    allowedTogether,
    liftingIndex: recommended > 0 ? job.mass / recommended : undefined,
    peopleNeeded,
    findings,
  }
}

export const DEFAULT_SHOP_LIMIT = 10 // kg, one person, hot or caustic; estimate, set by this project

const LOAD_CONSTANT = 23 // kg; Waters 1993, read
const LARGEST_REACH = 0.63 // m; NIOSH 94-110, from memory
const LARGEST_HEIGHT = 1.75 // m; NIOSH 94-110, from memory
const LARGEST_TRAVEL = 1.75 // m; NIOSH 94-110, from memory
const LARGEST_TWIST = 135 // degrees; NIOSH 94-110, from memory
const TEAM_SHARE = 2 / 3 // of the sum, two people; HSE L23 as quoted in training notes, read

/** lifts a minute, multiplier; up to one hour, hands at 0.75 m or higher; NIOSH 94-110 table 5, read in transcription */
const FREQUENCY_TABLE: readonly (readonly [number, number])[] = [
  [0.2, 1.0],
  [0.5, 0.97],
  [1, 0.94],
  [2, 0.91],
  [3, 0.88],
  [4, 0.84],
  [5, 0.8],
  [6, 0.75],
  [7, 0.7],
  [8, 0.6],
  [9, 0.52],
  [10, 0.45],
  [11, 0.41],
  [12, 0.37],
  [13, 0.34],
  [14, 0.31],
  [15, 0.28],
]

/** the next tabulated rate is taken, never one between; hands below 0.75 m: none above 12 a minute (from memory) */
const frequencyMultiplier = (liftsPerMinute: number, vertical: number): number => {
  if (vertical < 0.75 && liftsPerMinute > 12) return 0
  return FREQUENCY_TABLE.find(([rate]) => liftsPerMinute <= rate)?.[1] ?? 0
}

/** good 1, fair 0.95 below 0.75 m and 1 above, poor 0.90; NIOSH 94-110 table 7, from memory */
const couplingMultiplier = (coupling: Coupling, vertical: number): number => {
  if (coupling === 'poor') return 0.9
  return coupling === 'fair' && vertical < 0.75 ? 0.95 : 1
}
