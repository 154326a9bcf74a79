/** Vessels: how full, of what, how hot, on what tray; how many pots; and how long melting takes. */
import type { Finding } from '../findings.ts'
import { fatHeat } from './fat-heat.ts'

export type VesselMaterial =
  | 'polypropylene'
  | 'hdpe'
  | 'stainless-304'
  | 'stainless-316'
  | 'aluminium'
  | 'zinc'
  | 'galvanised-steel'
  | 'tin'
  | 'brass'
  | 'glass'
  | 'pet'
  | 'wood'
  | 'other'

/** what a vessel is used for; 'oil' never sees lye */
export type Duty = 'oil' | 'lye' | 'batter' | 'jug'

export interface Vessel {
  readonly name: string
  readonly material: VesselMaterial
  /** m3 to the brim */
  readonly brimVolume: number
  /** K, marked on it or in its data sheet */
  readonly ratedTemperature?: number
  /** lid that closes tight */
  readonly sealed?: boolean
}

export interface VesselUse {
  readonly vessel: Vessel
  readonly duty: Duty
  /** m3 at its fullest */
  readonly contents: number
  /** K, hottest the contents get */
  readonly peakTemperature: number
  /** K above which this shop works with no lye; 353.15 (80 °C) unless stated */
  readonly shopLimit?: number
  /** m3 that the tray, tub or sink under it holds; undefined for none */
  readonly trayVolume?: number
}

export interface VesselCheck {
  /** share of the brim volume */
  readonly fullness: number
  readonly fullnessAllowed: number
  /** m3 */
  readonly workingVolume: number
  /** K that the contents may reach in it; undefined when the material is not allowed at all */
  readonly temperatureAllowed: number | undefined
  /** m3, 110 % of the contents; 0 where no tray is asked for */
  readonly trayNeeded: number
  readonly findings: readonly Finding[]
}

/**
 * Judges one vessel for what it is to hold.
 *
 *     working volume = brim · allowed fullness      T ≤ min(marked rating or usual one, ceiling of the material, shop)
 *
 * Allowed fullness: lye half, batter three quarters, oils 85 %, jug 80 %. Lye stands in a tray that holds 110 % of it.
 * A rating that is marked on the vessel is believed up to the ceiling of its material; an unmarked one counts as good
 * to 60 °C. Materials and their limits are from memory.
 *
 * @param use  vessel, duty, volumes [m3], temperatures [K]
 * @returns fullness [–], limits [m3, K], with findings
 * @source common practice
 */
export const checkVessel = (use: VesselUse): VesselCheck => {
  const { vessel, duty, contents, peakTemperature } = use
  const fullnessAllowed = FULLNESS[duty]
  const fullness = contents / vessel.brimVolume
  const caustic = duty !== 'oil'
  const name = vessel.name
  const findings: Finding[] = []

  if (fullness > fullnessAllowed + 1e-9) {
    findings.push({
      code: 'vessel-too-full',
      severity: fullness > 1 || duty === 'lye' ? 'stop' : 'hold',
      values: { vessel: name, duty, fullness, fullnessAllowed, volumeNeeded: contents / fullnessAllowed },
    })
  }

  const ceiling = MATERIAL_LIMITS[vessel.material]
  let temperatureAllowed: number | undefined
  if (caustic) {
    if (ceiling === undefined) {
      findings.push({
        code: vessel.material === 'other' ? 'vessel-material-unknown' : 'vessel-material-not-allowed',
        severity: 'stop',
        values: { vessel: name, duty, material: vessel.material },
      })
    } else {
      const own = Math.min(vessel.ratedTemperature ?? UNMARKED_RATING, ceiling)
      temperatureAllowed = Math.min(own, use.shopLimit ?? DEFAULT_SHOP_TEMPERATURE)
      if (peakTemperature > temperatureAllowed) {
        findings.push({
          code: peakTemperature > own ? 'vessel-too-hot' : 'over-shop-temperature',
          severity: 'stop',
          values: { vessel: name, duty, peakTemperature, temperatureAllowed },
        })
      }
    }
  } else {
    temperatureAllowed = vessel.ratedTemperature ?? ceiling
    if (temperatureAllowed !== undefined && peakTemperature > temperatureAllowed) {
      findings.push({
        code: 'vessel-too-hot',
        severity: 'stop',
        values: { vessel: name, duty, peakTemperature, temperatureAllowed },
      })
    }
  }

  if (duty === 'lye' && vessel.sealed) {
    findings.push({ code: 'sealed-lid-on-hot-lye', severity: 'stop', values: { vessel: name } })
  }
  const trayNeeded = duty === 'lye' ? TRAY_SHARE * contents : 0
  if ((use.trayVolume ?? 0) < trayNeeded - 1e-12) {
    findings.push({
      code: use.trayVolume === undefined ? 'tray-missing' : 'tray-too-small',
      severity: 'stop',
      values: { vessel: name, trayNeeded, trayVolume: use.trayVolume ?? 0 },
    })
  }
  return {
    fullness,
    fullnessAllowed,
    workingVolume: vessel.brimVolume * fullnessAllowed,
    temperatureAllowed,
    trayNeeded,
    findings,
  }
}

export interface PotShares {
  /** pots of the same size, in the order in which they are mixed and poured */
  readonly pots: readonly { readonly number: number; readonly volume: number; readonly share: number }[]
  readonly findings: readonly Finding[]
}

/**
 * Splits a batter over pots of one size, in equal shares, so that every pot has the same recipe and the same time.
 *
 *     n = ⌈volume / working volume⌉
 *
 * First mixed is first poured. More than one pot means more than one trace: each is warned of.
 *
 * @param input  batter [m3], working volume of one pot [m3], pots at hand
 * @returns volume [m3] and share [–] of each pot; none when the working volume is 0
 * @source common practice
 */
export const potShares = (input: {
  readonly volume: number
  readonly workingVolume: number
  readonly potsAtHand: number
}): PotShares => {
  const { volume, workingVolume, potsAtHand } = input
  const count = workingVolume > 0 ? Math.max(1, Math.ceil(volume / workingVolume - 1e-9)) : 0
  const findings: Finding[] = []
  if (count > potsAtHand || count === 0) {
    findings.push({
      code: 'too-few-pots',
      severity: 'stop',
      values: { pots: count, potsAtHand, volume, workingVolume },
    })
  } else if (count > 1) {
    findings.push({ code: 'several-pots', severity: 'warn', values: { pots: count } })
  }
  const pots = Array.from({ length: count }, (_, index) => ({
    number: index + 1,
    volume: volume / count,
    share: 1 / count,
  }))
  return { pots, findings }
}

export interface FatToMelt {
  readonly name: string
  /** kg */
  readonly mass: number
  /** K */
  readonly temperature: number
  /** J/kg of solid; 0 for an oil */
  readonly heatOfMelting: number
  /** share that is solid */
  readonly solidShare: number
}

/**
 * Heat and time to melt fats and bring them to a temperature.
 *
 *     Q = Σ m · (∫ c dT + solid share · L)      t = Q / (P · η)
 *
 * Solid fat is given the specific heat of liquid fat, which is some per cent too much. Heat lost to the room is in
 * the efficiency.
 *
 * @param input  fats, target temperature [K], power of the heater [W, > 0], efficiency [0..1, > 0]
 * @returns heat [J] and time [s]; a fat that is already hotter takes nothing
 * @source choi-okos, common practice
 */
export const meltingTime = (input: {
  readonly fats: readonly FatToMelt[]
  readonly target: number
  readonly power: number
  readonly efficiency: number
}): { readonly heat: number; readonly time: number } => {
  const heat = input.fats.reduce((sum, fat) => {
    const sensible = Math.max(0, fatHeat(fat.temperature, input.target))
    return sum + fat.mass * (sensible + fat.solidShare * fat.heatOfMelting)
  }, 0)
  return { heat, time: heat / (input.power * input.efficiency) }
}

/** Share of the brim volume that a vessel is filled to, by what it is used for; common practice, estimates. */
export const FULLNESS: Readonly<Record<Duty, number>> = { oil: 0.85, lye: 0.5, batter: 0.75, jug: 0.8 }
const TRAY_SHARE = 1.1 // of the contents; common practice
const DEFAULT_SHOP_TEMPERATURE = 353.15 // K, 80 °C; estimate, set by this project
const UNMARKED_RATING = 333.15 // K, 60 °C; what plastics and steel are cleared to with lye; from memory

/** K with lye, by material; a missing one must not hold lye at all */
const MATERIAL_LIMITS: Readonly<Partial<Record<VesselMaterial, number>>> = {
  polypropylene: 373.15, // 100 °C, from memory: softens under load above it
  hdpe: 333.15, // 60 °C, from memory
  'stainless-304': 373.15, // 100 °C, from memory: caustic cracking of stressed steel above it
  'stainless-316': 373.15, // as 304
}
