/** Heat that it takes to warm a lye. */
import type { Alkali } from './alkali.ts'
import { solutionEnthalpy, solutionHeatCapacity } from './naoh-enthalpy.ts'
import type { LyeComposition } from './solution-density.ts'

/** Parameters a₁ to a₆ of the apparent heat capacity of KOH, read. */
const APPARENT = [
  -0.612709529812129, -0.0454225316920391, 1.87598005977999, -5.62731016809735, 2.42547035549534,
  1.24500822569176,
] as const

/**
 * Heat capacity of a lye of potassium hydroxide.
 *
 *     c = (1 − w) c_water + w (a₁ e^α + a₅ w^a₆);   α = a₂ t + a₃ e^(0.01 t) + a₄ w,   t in °C
 *
 * Valid 4 to 95 °C, w up to 0.465. The enthalpy of sodium lye at w = 0 would be 2 % too much for the water term.
 *
 * @param massFraction pure KOH in the lye [–]
 * @param temperature  [K]
 * @returns heat capacity [J/(kg K)]
 * @source laliberte2009, choi-okos
 */
export function potassiumLyeHeatCapacity(massFraction: number, temperature: number): number {
  const [a1, a2, a3, a4, a5, a6] = APPARENT
  const t = temperature - 273.15
  const alpha = a2 * t + a3 * Math.exp(0.01 * t) + a4 * massFraction
  const apparent = a1 * Math.exp(alpha) + a5 * massFraction ** a6
  return (1 - massFraction) * waterHeatCapacity(temperature) + massFraction * 1000 * apparent
}

/** Coefficients of the heat capacity of water [J/(kg K), t in °C], lowest power first; read. */
const WATER = [4176.2, -9.0864e-2, 5.4731e-3] as const

/**
 * Heat capacity of liquid water.
 *
 *     c = 4176.2 − 0.090864 t + 0.0054731 t²,   t in °C
 *
 * Valid 0 to 150 °C; within 1 % of steam tables.
 *
 * @param temperature [K]
 * @returns heat capacity [J/(kg K)]
 * @source choi-okos
 */
export function waterHeatCapacity(temperature: number): number {
  const t = temperature - 273.15
  return WATER[0] + WATER[1] * t + WATER[2] * t ** 2
}

/**
 * Heat that warms liquid water from one temperature to another.
 *
 *     ∫ c dT
 *
 * @param from [K]
 * @param to   [K]
 * @returns heat [J/kg]
 * @source choi-okos
 */
export function waterWarming(from: number, to: number): number {
  const upTo = (t: number): number => t * (WATER[0] + t * (WATER[1] / 2 + (t * WATER[2]) / 3))
  return upTo(to - 273.15) - upTo(from - 273.15)
}

/**
 * Heat capacity of a lye of sodium hydroxide, potassium hydroxide or both.
 *
 *     c = Σ share of alkali i · cᵢ(w of all alkali)
 *
 * Weighing the two by mass is this project's own choice for a mixed lye.
 *
 * @param lye         share of each pure alkali [–]
 * @param temperature [K]
 * @returns heat capacity [J/(kg K)]
 * @source olsson1997, laliberte2009
 */
export const lyeHeatCapacity = (lye: LyeComposition, temperature: number): number =>
  weighed(lye, (alkali, w) =>
    alkali === 'KOH' ? potassiumLyeHeatCapacity(w, temperature) : solutionHeatCapacity(w, temperature),
  )

/**
 * Heat that warms a lye from one temperature to another.
 *
 *     h(w, to) − h(w, from); for KOH ∫ c dT by Simpson's rule, since c is nearly straight
 *
 * @param lye  share of each pure alkali [–]
 * @param from [K]
 * @param to   [K]
 * @returns heat [J/kg lye]
 * @source olsson1997, laliberte2009
 */
export const lyeWarming = (lye: LyeComposition, from: number, to: number): number =>
  weighed(lye, (alkali, w) => {
    if (alkali === 'NaOH') return solutionEnthalpy(w, to) - solutionEnthalpy(w, from)
    const [start, middle, end] = [from, (from + to) / 2, to].map((t) => potassiumLyeHeatCapacity(w, t))
    return (((start ?? 0) + 4 * (middle ?? 0) + (end ?? 0)) / 6) * (to - from)
  })

/** Mean over the alkalis of a lye by mass; plain water counts as lye of sodium hydroxide. */
function weighed(lye: LyeComposition, of: (alkali: Alkali, massFraction: number) => number): number {
  const potassium = lye.KOH ?? 0
  const massFraction = (lye.NaOH ?? 0) + potassium
  if (potassium === 0) return of('NaOH', massFraction)
  const share = potassium / massFraction
  return share * of('KOH', massFraction) + (share < 1 ? (1 - share) * of('NaOH', massFraction) : 0)
}
