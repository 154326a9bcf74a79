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

/** What of each alkali is in the lye once a portion is in [–]: 1 with the last. */
export interface PortionShares {
  readonly sodium: number
  readonly potassium: number
}

/**
 * The fewest portions of alkali of which none heats the lye above a limit.
 *
 *     portion k: lye of k − 1 portions, as warm as it may have become + m/n at room temperature → peak ≤ limit
 *
 * High end of the heat throughout; no heat is lost while a portion dissolves.
 *
 * @param mixing the whole lye [kg, K]
 * @param limits hottest allowed [K], the temperature to wait for before each next portion [K], and the fewest portions
 *   that the shop wants for other reasons (1 to 20; 1 unless stated)
 * @param split  how so many portions are weighed out; equal ones unless stated
 * @returns portions [kg, K], findings
 * @source olsson1997
 */
export function planPortions(
  mixing: LyeMixing,
  limits: { readonly hottest: number; readonly waitFor: number; readonly atLeast?: number },
  split: (count: number) => readonly PortionShares[] = equalShares,
): PortionPlan {
  const colderThanRoom: Finding[] =
    limits.waitFor < mixing.alkaliTemperature
      ? [
          {
            code: 'next-portion-below-room',
            severity: 'warn',
            values: { waitFor: limits.waitFor, room: mixing.alkaliTemperature },
          },
        ]
      : []
  for (let count = limits.atLeast ?? 1; count <= MOST_PORTIONS; count++) {
    const portions = portionPeaks(mixing, split(count), limits.waitFor)
    if (portions.every((portion) => portion.peak <= limits.hottest))
      return { portions, findings: portions.length > 1 ? colderThanRoom : [] }
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

const equalShares = (count: number): readonly PortionShares[] =>
  Array.from({ length: count }, (_, i) => ({ sodium: (i + 1) / count, potassium: (i + 1) / count }))

/**
 * Peak of each of a number of equal portions.
 *
 *     as portionPeaks
 *
 * @param mixing  the whole lye [kg, K]
 * @param count   of portions [–], ≥ 1
 * @param waitFor temperature to wait for before each next portion [K]
 * @returns portions [kg, K]
 * @source olsson1997
 */
export const equalPortions = (mixing: LyeMixing, count: number, waitFor: number): readonly Portion[] =>
  portionPeaks(mixing, equalShares(count), waitFor)

/** Lye with ice left in it is about this cold, or a little colder [K]. */
const ICE_COLD = 273.15

/**
 * Peak of each portion of alkali.
 *
 *     start = max(T_wait, T_room) or, where it is not as warm as that, the last peak or T_room, whichever is more
 *
 * No lye in still air falls below the room, and one that ice has made colder warms towards it while somebody waits: the
 * start of a portion is the warmest that it can be without breaking the rule to wait. As long as ice is left the lye is
 * taken to be at 0 °C. Each end of the heat is followed for itself.
 *
 * @param mixing     the whole lye [kg, K]; alkaliTemperature is that of the room
 * @param cumulative what of each alkali is in with each portion [–], rising to 1
 * @param waitFor    temperature to wait for before each next portion [K]
 * @returns portions [kg, K]
 * @source olsson1997
 */
export function portionPeaks(
  mixing: LyeMixing,
  cumulative: readonly PortionShares[],
  waitFor: number,
): readonly Portion[] {
  const room = mixing.alkaliTemperature
  const allWater = mixing.water + (mixing.ice ?? 0)
  const waitTo = Math.max(waitFor, room)
  const parts = cumulative.map((shares) => part(mixing, shares))
  const weighed = ({ sodiumHydroxide, potassiumHydroxide, impurities }: LyeMixing): number =>
    sodiumHydroxide + potassiumHydroxide + impurities
  let peaks = { low: 0, high: 0 }
  return parts.map((after, i): Portion => {
    const earlier = parts[i - 1]
    const addBelow = earlier ? Math.min(waitTo, Math.max(peaks.high, room)) : mixing.waterTemperature
    if (!earlier) peaks = peakTemperature(after).temperature
    else {
      // A portion's rise is that of the lye with it, less what the lye without it had taken up already.
      const before: LyeMixing = { ...earlier, water: allWater, ice: 0 }
      const whole: LyeMixing = { ...after, water: allWater, ice: 0 }
      const at = (end: 'low' | 'high'): number => {
        const start = Math.min(waitTo, end === 'high' ? Math.max(peaks.high, room) : peaks.low)
        return temperatureHavingLost(whole, enthalpySurplus(before, start, end), end)
      }
      peaks = { low: at('low'), high: at('high') }
    }
    peaks = { low: Math.max(ICE_COLD, peaks.low), high: Math.max(ICE_COLD, peaks.high) }
    return {
      number: i + 1,
      mass: weighed(after) - (earlier ? weighed(earlier) : 0),
      addBelow,
      peak: peaks.high,
      peakLow: peaks.low,
    }
  })
}

/** The lye with only a share of its alkali; what is impure comes in the share of what is weighed. */
const part = (mixing: LyeMixing, { sodium, potassium }: PortionShares): LyeMixing => {
  const pure = mixing.sodiumHydroxide + mixing.potassiumHydroxide
  const within = mixing.sodiumHydroxide * sodium + mixing.potassiumHydroxide * potassium
  return {
    ...mixing,
    sodiumHydroxide: mixing.sodiumHydroxide * sodium,
    potassiumHydroxide: mixing.potassiumHydroxide * potassium,
    impurities: pure === 0 ? 0 : (mixing.impurities * within) / pure,
  }
}

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
