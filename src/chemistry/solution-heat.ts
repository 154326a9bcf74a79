/** How hot a lye gets when its alkali dissolves. */
import type { Finding } from '../findings.ts'
import { risingRoot } from '../numerics/root.ts'
import { MOLAR_MASS } from './atomic-weights.ts'
import { lyeWarming, waterWarming } from './lye-heat-capacity.ts'
import { solutionBoilingPoint, solutionEnthalpy } from './naoh-enthalpy.ts'

/** A figure with what is known of its limits. */
export interface Band {
  readonly low: number
  readonly nominal: number
  readonly high: number
}

export interface LyeMixing {
  /** pure [kg] */
  readonly sodiumHydroxide: number
  /** pure [kg] */
  readonly potassiumHydroxide: number
  /** acid groups of what is stirred into the water first; each takes its alkali at once [mol]; none unless stated */
  readonly acidGroups?: number
  /** what came with the alkali and is none: for NaOH salts, for KOH mostly bound water [kg] */
  readonly impurities: number
  /** liquid water [kg] */
  readonly water: number
  /** [K] */
  readonly waterTemperature: number
  /** [K] */
  readonly alkaliTemperature: number
  /** ice, which becomes water [kg] */
  readonly ice?: number
  /** [K]; 273.15 where not given */
  readonly iceTemperature?: number
}

export interface PeakTemperature {
  /** without any loss of heat, capped at the boiling point [K] */
  readonly temperature: Band
  /** heat that the dissolving alkali gives off [J] */
  readonly heat: Band
  /** [K] */
  readonly boilingPoint: number
  /** pure alkali in the lye [–] */
  readonly massFraction: number
  readonly findings: readonly Finding[]
}

/**
 * Peak temperature of a lye by the balance of enthalpy.
 *
 *     Σ m h(in) + Q = m h(w, T),   ice takes its latent heat first
 *
 * Sodium hydroxide: integral heat at the recipe's own strength; nominal on the older basis, the high end 1.6 kJ/mol
 * more on the newer one, each ± 0.4. Potassium hydroxide: only the heat at endless dilution is known and taken as the
 * high and the nominal; the low end falls off with strength as sodium hydroxide does. The boiling point is that of
 * sodium hydroxide at the same strength. Nothing is lost to pail and air, so a real pail stays a little under. Valid
 * for shares up to 0.5, temperatures 0 to 150 °C.
 *
 * @param mixing masses [kg] and temperatures [K]
 * @returns peak [K], heat [J], boiling point [K], findings
 * @source olsson1997, felder, crc-thermo
 */
export function peakTemperature(mixing: LyeMixing): PeakTemperature {
  const composition = compositionOf(mixing)
  const heat = heatReleased(mixing)
  const boilingPoint = solutionBoilingPoint(composition.massFraction)
  const at = (released: number): number =>
    Math.min(boilingPoint, temperatureWithEnthalpy(mixing, sensibleEnthalpy(mixing) + released))
  const temperature = { low: at(heat.low), nominal: at(heat.nominal), high: at(heat.high) }
  const findings: Finding[] = []
  if (temperature.high >= boilingPoint)
    findings.push({ code: 'lye-may-boil', severity: 'stop', values: { boilingPoint } })
  if (mixing.potassiumHydroxide > 0) {
    findings.push({
      code: 'koh-heat-known-at-dilution-only',
      severity: 'warn',
      values: { low: temperature.low, high: temperature.high },
    })
  }
  return { temperature, heat, boilingPoint, massFraction: composition.massFraction, findings }
}

/** Enthalpy of solid NaOH above that of its elements of account at 25 °C, older basis [J/mol]; computed. */
const SODIUM_SOLID = 42_100 // pins the enthalpies of solution to the integral heats for 3 to 20 mol water

/** How far those integral heats agree with the pin [J/mol], computed. */
const SODIUM_UNCERTAINTY = 400

/** How much more heat the newer formation enthalpies give [J/mol], computed: 44.5 − 42.89. */
const NEWER_BASIS = 1_600

/** Heat of KOH at endless dilution [J/mol], computed from formation enthalpies that were read. */
const POTASSIUM_DILUTE = 57_800

/** Heat of NaOH at endless dilution on the older basis [J/mol], from memory. */
const SODIUM_DILUTE = 42_890

/**
 * Heat given off when solid sodium hydroxide dissolves to a given strength at 25 °C.
 *
 *     q = [42 100 J/mol / M − (h(w) − (1 − w) h(0)) / w];   high end + 1.6 kJ/mol;  ± 0.4 kJ/mol
 *
 * Valid for 0 < w ≤ 0.5; towards 0 the value at w = 0.05 is used, since the pin does not reach further.
 *
 * @param massFraction pure NaOH in the finished lye [–]
 * @returns heat [J per kg NaOH], > 0: given off
 * @source olsson1997, felder, crc-thermo
 */
export function sodiumHydroxideHeat(massFraction: number): Band {
  const w = Math.max(0.05, massFraction)
  const t25 = 298.15
  const dissolved = (solutionEnthalpy(w, t25) - (1 - w) * solutionEnthalpy(0, t25)) / w
  const nominal = SODIUM_SOLID / MOLAR_MASS.NaOH - dissolved
  return {
    low: nominal - SODIUM_UNCERTAINTY / MOLAR_MASS.NaOH,
    nominal,
    high: nominal + (NEWER_BASIS + SODIUM_UNCERTAINTY) / MOLAR_MASS.NaOH,
  }
}

/**
 * Heat given off when solid potassium hydroxide dissolves, as far as it is known.
 *
 *     high = nominal = 57.8 kJ/mol / M;   low = high · (heat of NaOH at that strength / at endless dilution)
 *
 * The low end is an estimate.
 *
 * @param massFraction pure alkali in the finished lye [–]
 * @returns heat [J per kg KOH], > 0: given off
 * @source crc-thermo
 */
export function potassiumHydroxideHeat(massFraction: number): Band {
  const high = POTASSIUM_DILUTE / MOLAR_MASS.KOH
  const ratio = Math.min(1, (sodiumHydroxideHeat(massFraction).nominal * MOLAR_MASS.NaOH) / SODIUM_DILUTE)
  return { low: high * ratio, nominal: high, high }
}

/**
 * Heat that all the alkali of a lye gives off at 25 °C.
 *
 *     Q = m(NaOH) q(NaOH) + m(KOH) q(KOH) + n(acid groups that found alkali) · q(acid), at the strength of the whole
 *
 * An added acid is neutralised by the first of the alkali. Solid acids cool a little as they dissolve: the low end.
 *
 * @param mixing masses [kg], acid groups [mol]
 * @returns heat [J], ≥ 0
 * @source olsson1997, felder, crc-thermo
 */
export function heatReleased(mixing: LyeMixing): Band {
  const { massFraction } = compositionOf(mixing)
  const sodium = sodiumHydroxideHeat(massFraction)
  const potassium = potassiumHydroxideHeat(massFraction)
  const hydroxide = mixing.sodiumHydroxide / MOLAR_MASS.NaOH + mixing.potassiumHydroxide / MOLAR_MASS.KOH
  const neutralised = Math.min(mixing.acidGroups ?? 0, hydroxide)
  const sum = (end: keyof Band): number =>
    mixing.sodiumHydroxide * sodium[end] +
    mixing.potassiumHydroxide * potassium[end] +
    neutralised * NEUTRALISATION[end]
  return { low: sum('low'), nominal: sum('nominal'), high: sum('high') }
}

/**
 * Heat of neutralising one acid group in water [J/mol]. Acetic acid from formation enthalpies that were read or recalled:
 * 285.8 + 486.0 − 485.8 − 230.0 = 56.0; citric acid about 55, and 6 less as a solid that has to dissolve (recalled).
 */
const NEUTRALISATION: Band = { low: 48_000, nominal: 55_000, high: 57_000 }

/** Heat capacity of solid alkali [J/(kg K)]: NaOH 59.5 J/(mol K), from memory; KOH is near it by mass. */
const SOLID_HEAT_CAPACITY = 1_490

/** Heat capacity of salts that come with the alkali [J/(kg K)], estimate. */
const IMPURITY_HEAT_CAPACITY = 1_000

/** Latent heat [J/kg] and heat capacity [J/(kg K)] of ice, from memory. */
export const ICE = { latentHeat: 333_550, heatCapacity: 2_100 } as const

const REFERENCE = 298.15 // all heats are given at 25 °C [K]

/** Enthalpy that the parts bring, above themselves at 25 °C as liquid water and solid alkali [J]. */
function sensibleEnthalpy(mixing: LyeMixing): number {
  const solid = mixing.sodiumHydroxide + mixing.potassiumHydroxide
  return (
    mixing.water * waterEnthalpy(mixing.waterTemperature) +
    (solid * SOLID_HEAT_CAPACITY + mixing.impurities * IMPURITY_HEAT_CAPACITY) *
      (mixing.alkaliTemperature - REFERENCE) +
    (mixing.ice ?? 0) * iceEnthalpy(mixing.iceTemperature ?? 273.15)
  )
}

/**
 * Enthalpy of liquid water above that at 25 °C.
 *
 *     ∫ c dT of water itself: the enthalpy of lye at w = 0 makes cold water up to 4 kJ/kg colder than it is
 *
 * @param temperature [K]
 * @returns enthalpy [J/kg]
 * @source choi-okos
 */
export const waterEnthalpy = (temperature: number): number => waterWarming(REFERENCE, temperature)

/**
 * Enthalpy of ice below that of water at 25 °C.
 *
 *     h(water, 0 °C) − L − c (273.15 − T)
 *
 * @param temperature [K], ≤ 273.15
 * @returns enthalpy [J/kg], < 0
 * @source common practice
 */
export const iceEnthalpy = (temperature: number): number =>
  waterEnthalpy(273.15) - ICE.latentHeat - ICE.heatCapacity * Math.max(0, 273.15 - temperature)

/** Enthalpy of the finished lye above itself at 25 °C [J]. */
function lyeEnthalpy(mixing: LyeMixing, temperature: number): number {
  const { lye, mass } = compositionOf(mixing)
  return (
    mass * lyeWarming(lye, REFERENCE, temperature) +
    mixing.impurities * IMPURITY_HEAT_CAPACITY * (temperature - REFERENCE)
  )
}

/** Alkali and water; impurities stand apart. */
function compositionOf(mixing: LyeMixing) {
  const alkali = mixing.sodiumHydroxide + mixing.potassiumHydroxide
  const mass = alkali + mixing.water + (mixing.ice ?? 0)
  const share = (part: number): number => (mass === 0 ? 0 : part / mass)
  const lye = { NaOH: share(mixing.sodiumHydroxide), KOH: share(mixing.potassiumHydroxide) }
  return { massFraction: share(alkali), mass, lye }
}

const temperatureWithEnthalpy = (mixing: LyeMixing, enthalpy: number): number =>
  risingRoot((temperature) => lyeEnthalpy(mixing, temperature), enthalpy, {
    low: 253.15,
    high: 473.15,
    tolerance: 1e-6,
  })

/**
 * Enthalpy that a lye would have to lose to be at a temperature right after mixing.
 *
 *     ΔH = Σ m h(in) + Q − m h(w, T)
 *
 * @param mixing      masses [kg] and temperatures [K]
 * @param temperature wanted [K]
 * @param end         which end of the heat is counted; the high one unless stated
 * @returns surplus [J]; below 0 where the lye stays cooler by itself
 * @source olsson1997
 */
export const enthalpySurplus = (mixing: LyeMixing, temperature: number, end: keyof Band = 'high'): number =>
  sensibleEnthalpy(mixing) + heatReleased(mixing)[end] - lyeEnthalpy(mixing, temperature)

/**
 * Temperature of a lye that has lost some of its enthalpy by the time its last part is in.
 *
 *     Σ m h(in) + Q − lost = m h(w, T), capped at the boiling point
 *
 * @param mixing the whole lye [kg, K]
 * @param lost   enthalpy that its parts have given up before [J]
 * @param end    which end of the heat is counted
 * @returns temperature [K]
 * @source olsson1997
 */
export const temperatureHavingLost = (mixing: LyeMixing, lost: number, end: keyof Band): number =>
  Math.min(
    solutionBoilingPoint(compositionOf(mixing).massFraction),
    temperatureWithEnthalpy(mixing, sensibleEnthalpy(mixing) + heatReleased(mixing)[end] - lost),
  )

/**
 * Peak temperature when a ready stock lye is poured into its make-up water.
 *
 *     lost = enthalpy of the stock on its way to its own temperature;  then as temperatureHavingLost
 *
 * Only the heat of thinning is left: from a half to a third it still warms the lye by some 32 K. Potassium hydroxide: the high
 * end is at endless dilution whatever the strength, so that its thinning counts as without heat.
 *
 * @param stock  the stock lye [kg]; its water holds `water`, `waterTemperature` is that of the make-up water [K]
 * @param makeUp water to thin it with [kg], and ice [kg]
 * @param temperature of the stock [K]
 * @returns peak at each end of what is known [K]
 * @source olsson1997, felder
 */
export const thinnedStockTemperature = (
  stock: LyeMixing,
  makeUp: { readonly water: number; readonly ice: number },
  temperature: number,
): Band => {
  const whole: LyeMixing = { ...stock, water: stock.water + makeUp.water, ice: makeUp.ice }
  // acids wait in the make-up water: the stock has not met them yet
  const alone: LyeMixing = { ...stock, ice: 0, acidGroups: 0 }
  const at = (end: keyof Band): number =>
    temperatureHavingLost(whole, enthalpySurplus(alone, temperature, end), end)
  const ends = [at('low'), at('nominal'), at('high')]
  // More heat of dissolving can mean less or more heat of thinning: the ends are sorted out here.
  return { low: Math.min(...ends), nominal: at('nominal'), high: Math.max(...ends) }
}

/**
 * Whether a lye gets hotter than its vessel or its shop allows.
 *
 *     stop: high end of the peak > limit
 *
 * @param peak  from peakTemperature or a plan of portions, high end [K]
 * @param limit rated temperature of the vessel or limit of the shop, whichever is lower [K]
 * @returns findings
 * @source common practice
 */
export const checkLyePeak = (peak: number, limit: number): readonly Finding[] =>
  peak > limit ? [{ code: 'lye-too-hot', severity: 'stop', values: { peak, hottest: limit } }] : []
