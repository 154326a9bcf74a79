/** Keeping a lye under a temperature: alkali in portions, or ice for part of the water. */
import type { Finding } from '../findings.ts'
import {
  enthalpySurplus,
  iceEnthalpy,
  type LyeMixing,
  peakTemperature,
  temperatureHavingLost,
  waterEnthalpy,
} from './solution-heat.ts'

export interface PortionPlan {
  /** empty where no number of portions helps */
  readonly portions: readonly Portion[]
  readonly findings: readonly Finding[]
}

export interface Portion {
  readonly number: number
  /** alkali as weighed [kg] */
  readonly mass: number
  /** add it only when the lye is at or below this [K] */
  readonly addBelow: number
  /** hottest that the lye gets from it: high end, and low end [K] */
  readonly peak: number
  readonly peakLow: number
}

/** More portions than this nobody weighs out [–], common practice. */
const MOST_PORTIONS = 20

/**
 * The fewest equal portions of alkali of which none heats the lye above a limit.
 *
 *     portion k: lye of k − 1 portions at T_wait (the first: water as it is) + m/n at room temperature → peak ≤ limit
 *
 * High end of the heat throughout; no heat is lost while a portion dissolves.
 *
 * @param mixing the whole lye [kg, K]
 * @param limits hottest allowed [K], the temperature to wait for before each next portion [K], and the fewest portions
 *   that the shop wants for other reasons (1 to 20; 1 unless stated)
 * @returns portions [kg, K], findings
 * @source olsson1997
 */
export function planPortions(
  mixing: LyeMixing,
  limits: { readonly hottest: number; readonly waitFor: number; readonly atLeast?: number },
): PortionPlan {
  for (let count = limits.atLeast ?? 1; count <= MOST_PORTIONS; count++) {
    const portions = equalPortions(mixing, count, limits.waitFor)
    if (portions.every((portion) => portion.peak <= limits.hottest)) return { portions, findings: [] }
  }
  return {
    portions: [],
    findings: [
      {
        code: 'portions-cannot-hold-limit',
        severity: 'stop',
        values: { hottest: limits.hottest, waitFor: limits.waitFor, mostPortions: MOST_PORTIONS },
      },
    ],
  }
}

/**
 * Peak of each of a number of equal portions.
 *
 *     as planPortions
 *
 * A lye that never gets as warm as the waiting temperature starts the next portion as warm as it is, each end of the
 * heat for itself. Somebody who waits longer than needed stays below both.
 *
 * @param mixing  the whole lye [kg, K]
 * @param count   of portions [–], ≥ 1
 * @param waitFor temperature to wait for before each next portion [K]
 * @returns portions [kg, K]
 * @source olsson1997
 */
export function equalPortions(mixing: LyeMixing, count: number, waitFor: number): readonly Portion[] {
  const weighed = mixing.sodiumHydroxide + mixing.potassiumHydroxide + mixing.impurities
  const ice = mixing.ice ?? 0
  let peaks = { low: 0, high: 0 }
  return Array.from({ length: count }, (_, i): Portion => {
    // A portion's rise is that of the lye with it, less what the lye without it had taken up already.
    const after = part(mixing, (i + 1) / count)
    // Waiting never warms the lye.
    const addBelow = i === 0 ? mixing.waterTemperature : Math.min(waitFor, peaks.high)
    if (i === 0) peaks = peakTemperature(after).temperature
    else {
      // Ice is gone after the first portion, and the heat of the portions before is gone as far as they were waited for.
      const before: LyeMixing = { ...part(mixing, i / count), water: mixing.water + ice, ice: 0 }
      const whole: LyeMixing = { ...after, water: before.water, ice: 0 }
      const at = (end: 'low' | 'high'): number =>
        temperatureHavingLost(whole, enthalpySurplus(before, Math.min(waitFor, peaks[end]), end), end)
      peaks = { low: at('low'), high: at('high') }
    }
    return { number: i + 1, mass: weighed / count, addBelow, peak: peaks.high, peakLow: peaks.low }
  })
}

/** The lye with only a share of its alkali. */
const part = (mixing: LyeMixing, share: number): LyeMixing => ({
  ...mixing,
  sodiumHydroxide: mixing.sodiumHydroxide * share,
  potassiumHydroxide: mixing.potassiumHydroxide * share,
  impurities: mixing.impurities * share,
})

export interface IceShare {
  /** ice to weigh in place of as much water [kg] */
  readonly ice: number
  /** liquid water that remains [kg] */
  readonly water: number
  /** ice in all the water [–] */
  readonly share: number
  /** peak with it, high end [K] */
  readonly peak: number
  readonly findings: readonly Finding[]
}

/**
 * Ice in place of water so that a lye stays under a temperature when its alkali goes in at once.
 *
 *     m(ice) = [Σ m h(in) + Q(high) − m h(w, T)] / (h(water) − h(ice))
 *
 * @param mixing  the lye without ice [kg, K]; the ice replaces some of its water
 * @param hottest allowed [K]
 * @param iceTemperature [K], ≤ 273.15
 * @returns ice and water [kg], findings; a stop where even all ice is too little
 * @source olsson1997
 */
export function iceFor(mixing: LyeMixing, hottest: number, iceTemperature = 273.15): IceShare {
  const allWater = mixing.water + (mixing.ice ?? 0)
  const liquid: LyeMixing = { ...mixing, water: allWater, ice: 0, iceTemperature }
  const surplus = enthalpySurplus(liquid, hottest)
  // Each kg of water that comes as ice takes this much out of the balance.
  const perMass = waterEnthalpy(mixing.waterTemperature) - iceEnthalpy(iceTemperature)
  const wanted = allWater === 0 ? 0 : Math.max(0, surplus / perMass)
  const ice = Math.min(wanted, allWater)
  const peak = peakTemperature({ ...liquid, water: allWater - ice, ice }).temperature.high
  return {
    ice,
    water: allWater - ice,
    share: allWater === 0 ? 0 : ice / allWater,
    peak,
    findings:
      wanted > allWater
        ? [{ code: 'ice-cannot-hold-limit', severity: 'stop', values: { hottest, peak, wanted, allWater } }]
        : [],
  }
}

/** From this strength on, alkali never goes into its water without ice [–], common practice. */
const STOCK_STRENGTH = 0.45

/** Latent heat matters only when there is enough of it: least ice in the water of a stock lye [–], estimate. */
const LEAST_ICE = 0.25

/**
 * Whether a lye is so strong that it must be made with ice.
 *
 *     stop: w ≥ 0.45 and ice under a quarter of the water
 *
 * @param mixing the lye [kg]
 * @returns findings
 * @source common practice
 */
export function checkStockIce(mixing: LyeMixing): readonly Finding[] {
  const ice = mixing.ice ?? 0
  const water = mixing.water + ice
  const alkali = mixing.sodiumHydroxide + mixing.potassiumHydroxide
  const massFraction = alkali / (alkali + water)
  if (alkali === 0 || massFraction < STOCK_STRENGTH || ice >= LEAST_ICE * water) return []
  return [{ code: 'strong-lye-needs-ice', severity: 'stop', values: { massFraction, ice, water } }]
}
