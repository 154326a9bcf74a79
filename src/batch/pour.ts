/** How the batter gets from the pot into the mould without anybody tipping a heavy caustic pot at face height. */
import type { Finding } from '../findings.ts'
import { assessLift, type Coupling, DEFAULT_SHOP_LIMIT, type LiftAssessment } from './lifting.ts'

export interface PourSetting {
  /** m above the floor, what the mould stands on */
  readonly standHeight: number
  /** m, rim of the mould above the stand */
  readonly rimAboveStand: number
  /** m above the floor, of the smallest person who pours */
  readonly elbowHeight: number
  readonly shoulderHeight: number
  /** kg, empty */
  readonly potMass: number
  /** kg in the pot at the pour */
  readonly batterMass: number
  /** kg/m3 */
  readonly batterDensity: number
  /** m, base to lip */
  readonly potHeight: number
  /** m above the floor, what the pot stands on before it is lifted */
  readonly potStandHeight: number
  /** m, ankles to hands while the pot is held over the mould; 0.40 unless stated */
  readonly reach?: number
  /** handles 'good', rim only 'poor'; 'fair' unless stated */
  readonly coupling?: Coupling
  /** people at hand; 1 unless stated */
  readonly people?: 1 | 2
  readonly potHasValve?: boolean
  /** kg for one person with a hot or caustic load; 10 unless stated */
  readonly shopLimit?: number
  /** what the jug that is used may be filled to [m3]; 4 litres unless stated */
  readonly jugVolume?: number
  /** lowest stand that is practical [m]; 0.10 unless stated */
  readonly lowestStand?: number
}

export type PourMethod = 'pour-directly' | 'pour-by-two' | 'low-stand' | 'low-stand-by-two' | 'jug' | 'valve'

export interface PourOption {
  readonly method: PourMethod
  readonly allowed: boolean
  /** why it is not: codes, none when allowed */
  readonly because: readonly string[]
}

export interface PourPlan {
  /** m above the floor */
  readonly rimHeight: number
  /** m above the floor, lip of the upright pot with its base at the rim */
  readonly lipHeight: number
  /** kg, pot and batter */
  readonly loadedMass: number
  readonly lift: LiftAssessment
  /** m above the floor, highest stand with the rim at the elbow and the lip below the shoulder; may be below 0 */
  readonly highestStand: number
  /** m above the floor, highest stand from which a jug reaches the mould below the shoulder */
  readonly highestStandForJug: number
  /** the lift on that stand */
  readonly liftOnLowStand: LiftAssessment
  readonly jug: { readonly mass: number; readonly volume: number; readonly count: number }
  /** m above the floor, a valve must be at least as high as the rim */
  readonly lowestValve: number
  /** best first */
  readonly options: readonly PourOption[]
  readonly chosen: PourMethod | undefined
  readonly findings: readonly Finding[]
}

/**
 * Chooses the way to pour: the pot directly, two people, a lower stand for the mould, jugs, or a valve.
 *
 *     rim = stand + rim above stand      lip = rim + pot height      stand ≤ min(elbow, shoulder − pot) − rim above stand
 *
 * Direct pouring needs rim ≤ elbow, lip ≤ shoulder and a pot within the limits of lifting.ts. The pot is taken
 * upright with its base at the rim, the highest it can come; hands hold it at seven tenths of its height. A jug is
 * filled to 3 kg, 4 litres or what it holds with headroom, whichever is least, and needs a rim no higher than the shoulder.
 *
 * @param setting  heights above the floor [m], masses [kg], density [kg/m3]
 * @returns heights [m], lift, all options best first and the chosen one
 * @source common practice
 */
export const pourPlan = (setting: PourSetting): PourPlan => {
  const people = setting.people ?? 1
  const loadedMass = setting.potMass + setting.batterMass
  const rimHeight = setting.standHeight + setting.rimAboveStand
  const lipHeight = rimHeight + setting.potHeight
  const highestStand =
    Math.min(setting.elbowHeight, setting.shoulderHeight - setting.potHeight) - setting.rimAboveStand

  const lift = potLift(setting, rimHeight)
  const standUsed = Math.max(0, Math.min(setting.standHeight, highestStand))
  const liftOnLowStand = potLift(setting, standUsed + setting.rimAboveStand)

  const heights: string[] = []
  if (rimHeight > setting.elbowHeight + HEIGHT_TOLERANCE) heights.push('rim-above-elbow')
  if (lipHeight > setting.shoulderHeight + HEIGHT_TOLERANCE) heights.push('pot-lip-above-shoulder')
  const alone = loadedMass <= lift.allowedAlone ? [] : ['pot-too-heavy-for-one']
  const together = byTwo(loadedMass, lift, people)
  const noLowStand = highestStand < (setting.lowestStand ?? LOWEST_STAND) ? ['stand-too-low-to-build'] : []

  const jugMass = Math.min(
    JUG_MASS,
    Math.min(JUG_VOLUME, setting.jugVolume ?? JUG_VOLUME) * setting.batterDensity,
  )
  const jugCount = Math.ceil(setting.batterMass / jugMass - 1e-9)
  const jugTooHigh = rimHeight > setting.shoulderHeight ? ['rim-above-shoulder'] : []
  const valve = [
    ...(setting.potHasValve ? [] : ['no-valve']),
    ...(setting.potStandHeight < rimHeight ? ['pot-stand-below-rim'] : []),
  ]

  const options: PourOption[] = [
    option('pour-directly', [...heights, ...alone]),
    option('pour-by-two', [...heights, ...together]),
    option('low-stand', [
      ...noLowStand,
      ...(loadedMass <= liftOnLowStand.allowedAlone ? [] : ['pot-too-heavy-for-one']),
    ]),
    option('low-stand-by-two', [...noLowStand, ...byTwo(loadedMass, liftOnLowStand, people)]),
    option('valve', valve),
    option('jug', jugTooHigh),
  ]
  const chosen = options.find((candidate) => candidate.allowed)?.method

  const findings: Finding[] = []
  const values = {
    rimHeight,
    lipHeight,
    elbowHeight: setting.elbowHeight,
    shoulderHeight: setting.shoulderHeight,
  }
  for (const code of heights) findings.push({ code, severity: 'warn', values })
  if (loadedMass > lift.allowedAlone) {
    findings.push({
      code: 'pot-over-lift-limit',
      severity: 'warn',
      values: { loadedMass, allowedAlone: lift.allowedAlone, allowedTogether: lift.allowedTogether },
    })
  }
  if (chosen === undefined) {
    findings.push({ code: 'no-safe-pour', severity: 'stop', values: { ...values, loadedMass, highestStand } })
  }
  return {
    rimHeight,
    lipHeight,
    loadedMass,
    lift,
    highestStand,
    highestStandForJug: setting.shoulderHeight - setting.rimAboveStand,
    liftOnLowStand,
    jug: { mass: jugMass, volume: jugMass / setting.batterDensity, count: jugCount },
    lowestValve: rimHeight,
    options,
    chosen,
    findings,
  }
}

const JUG_MASS = 3 // kg of batter; common practice
const JUG_VOLUME = 0.004 // m3; common practice
const DEFAULT_REACH = 0.4 // m, over the wall of a block mould; estimate
const NEAR_REACH = 0.3 // m, when picking up a pot that stands at the edge; estimate
const HANDLE_SHARE = 0.7 // of the pot's height; estimate
const LOWEST_STAND = 0.1 // m; estimate
const HEIGHT_TOLERANCE = 1e-9 // m

const potLift = (setting: PourSetting, rimHeight: number): LiftAssessment =>
  assessLift({
    name: 'pot',
    mass: setting.potMass + setting.batterMass,
    from: {
      horizontal: Math.min(NEAR_REACH, setting.reach ?? DEFAULT_REACH),
      vertical: setting.potStandHeight + HANDLE_SHARE * setting.potHeight,
    },
    to: {
      horizontal: setting.reach ?? DEFAULT_REACH,
      vertical: rimHeight + HANDLE_SHARE * setting.potHeight,
    },
    coupling: setting.coupling ?? 'fair',
    hotOrCaustic: true,
    shopLimit: setting.shopLimit ?? DEFAULT_SHOP_LIMIT,
    people: setting.people ?? 1,
  })

const byTwo = (mass: number, lift: LiftAssessment, people: 1 | 2): string[] => [
  ...(people < 2 ? ['only-one-person'] : []),
  ...(mass <= lift.allowedTogether ? [] : ['pot-too-heavy-for-two']),
]

const option = (method: PourMethod, because: readonly string[]): PourOption => ({
  method,
  allowed: because.length === 0,
  because,
})
