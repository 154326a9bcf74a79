/** How the lye of one batch is made: portions, the hottest it gets, how long it cools, what forbids it. */
import type { Alkali } from '../chemistry/alkali.ts'
import {
  coolingConstantFromReadings,
  coolingTime,
  estimatedCoolingConstant,
} from '../chemistry/lye-cooling.ts'
import { lyeWarming } from '../chemistry/lye-heat-capacity.ts'
import { checkStockIce, planPortions } from '../chemistry/lye-portions.ts'
import { checkSolubility } from '../chemistry/solubility.ts'
import { lyeDensity } from '../chemistry/solution-density.ts'
import { type LyeMixing, peakTemperature } from '../chemistry/solution-heat.ts'
import type { Finding } from '../findings.ts'

/** kg and K throughout. */
export interface LyeRequest {
  readonly alkalis: readonly LyeAlkali[]
  readonly water: number
  readonly ice: number
  readonly waterTemperature: number
  readonly roomTemperature: number
  /** what the lye has to come down to before it is used */
  readonly coolTo: number
  readonly hottest: number
  readonly nextPortionBelow: number
  /** two readings of this pail, when the shop has taken them */
  readonly readings?:
    | { readonly first: number; readonly second: number; readonly timeBetween: number; readonly room: number }
    | undefined
}

export interface LyeAlkali {
  readonly kind: Alkali
  readonly weighed: number
  readonly pure: number
  /** of the scale that weighs it */
  readonly division: number
}

export interface LyePlan {
  readonly portions: readonly {
    readonly number: number
    /** of each alkali, in their order */
    readonly masses: readonly number[]
    readonly peak: number
  }[]
  /** hottest over all portions, high end [K] */
  readonly peak: number
  /** what it would reach if all went in at once, high end [K] */
  readonly peakAtOnce: number
  readonly limit: number
  readonly waitBelow: number
  readonly waterTemperature: number
  /** as weighed, in all of the lye [–] */
  readonly concentration: number
  /** [m3], at the hottest */
  readonly volume: number
  /** from the last peak to the temperature of use; undefined when the room is too warm for it [s] */
  readonly coolingTime: number | undefined
  /** whether that time rests on readings of this pail */
  readonly coolingMeasured: boolean
  readonly findings: readonly Finding[]
}

export const planLye = (request: LyeRequest): LyePlan => {
  const weighedAlkali = sum(request.alkalis.map(({ weighed }) => weighed))
  const pureOf = (kind: Alkali): number =>
    sum(request.alkalis.map((alkali) => (alkali.kind === kind ? alkali.pure : 0)))
  const mixing: LyeMixing = {
    sodiumHydroxide: pureOf('NaOH'),
    potassiumHydroxide: pureOf('KOH'),
    impurities: weighedAlkali - pureOf('NaOH') - pureOf('KOH'),
    water: request.water,
    waterTemperature: request.waterTemperature,
    alkaliTemperature: request.roomTemperature,
    ice: request.ice,
  }
  const total = weighedAlkali + request.water + request.ice
  const share = (mass: number): number => (total === 0 ? 0 : mass / total)
  const composition = { NaOH: share(mixing.sodiumHydroxide), KOH: share(mixing.potassiumHydroxide) }
  const plan = planPortions(mixing, {
    hottest: request.hottest,
    waitFor: request.nextPortionBelow,
    atLeast: Math.min(MOST_BY_HAND, Math.max(1, Math.ceil(weighedAlkali / HANDFUL))),
  })
  const atOnce = peakTemperature(mixing)
  const peak = Math.max(...plan.portions.map((portion) => portion.peak), request.waterTemperature)
  const volume = total / lyeDensity(composition, Math.min(peak, HOTTEST_KNOWN_DENSITY))
  const findings: Finding[] = [
    ...plan.findings,
    ...checkStockIce(mixing),
    ...checkSolubility(composition, request.roomTemperature).findings,
  ]
  const warming = lyeWarming(composition, request.roomTemperature, request.roomTemperature + 1)
  const measured = request.readings && coolingConstantFromReadings(request.readings)
  const cooling = coolingTime({
    from: plan.portions.at(-1)?.peak ?? request.hottest,
    to: request.coolTo,
    room: request.roomTemperature,
    constant:
      measured?.constant ??
      estimatedCoolingConstant({
        mass: total,
        heatCapacity: warming,
        area: wettedArea(volume),
        surroundings: 'still-air',
      }).nominal,
  })
  return {
    portions: roundPortions(plan.portions, request),
    peak,
    peakAtOnce: atOnce.temperature.high,
    limit: request.hottest,
    waitBelow: request.nextPortionBelow,
    waterTemperature: request.waterTemperature,
    concentration: share(weighedAlkali),
    volume,
    coolingTime: cooling.time,
    coolingMeasured: measured?.constant !== undefined,
    findings: [...findings, ...(measured?.findings ?? []), ...cooling.findings],
  }
}

/** kg; as much as one person can stir in little by little and watch, however cool the lye stays (common practice) */
const HANDFUL = 0.5
/** A shop that makes more lye than this at once wants another way of making it. */
const MOST_BY_HAND = 20

/** K; the density model is fitted up to 120 °C */
const HOTTEST_KNOWN_DENSITY = 393.15

/** Portions in whole divisions whose sums are exactly what was weighed: all but the last alike, none empty. */
const roundPortions = (
  portions: readonly { readonly number: number; readonly peak: number }[],
  { alkalis }: LyeRequest,
): LyePlan['portions'] =>
  portions.map(({ number, peak }, index) => ({
    number,
    peak,
    masses: alkalis.map(({ weighed, division }) => {
      const whole = Math.round(weighed / division)
      const each = Math.ceil(whole / portions.length)
      // Few divisions among many portions: rounding each up would leave the last ones empty.
      if (each * (portions.length - 1) >= whole) {
        const upTo = (count: number): number => Math.ceil((whole * count) / portions.length)
        return (upTo(index + 1) - upTo(index)) * division
      }
      const before = Math.min(whole, each * index)
      return (Math.min(whole, before + each) - before) * division
    }),
  }))

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0)

/** Bottom, wall and surface of a pail that is as wide as its filling is deep [m2]. */
const wettedArea = (volume: number): number => {
  const diameter = Math.cbrt((4 * volume) / Math.PI)
  return Math.PI * diameter ** 2 * 1.5
}
