/** Mass and volume of a batter for each kilogram of oils: everything about a batch is a multiple of its oils. */

export interface BatterPart {
  readonly name: string
  readonly kind: 'fat' | 'lye' | 'liquid' | 'additive'
  /** kg of this part for each kg of all oils together; the shares of the fats add up to 1 */
  readonly massPerOil: number
  /** kg/m3 at the pouring temperature, > 0 */
  readonly density: number
}

export interface BatterPerOil {
  /** kg of batter for each kg of oils */
  readonly massPerOil: number
  /** m3 of batter for each kg of oils, without air */
  readonly volumePerOil: number
  /** kg/m3, without air */
  readonly density: number
}

/**
 * Mass, volume and density of a batter for each kilogram of its oils.
 *
 *     μ = Σ sᵢ     ν = Σ sᵢ / ρᵢ     ρ = μ / ν
 *
 * Volumes are taken as additive, without air. Batter at light trace is a little denser than that, which is
 * counted with the set shrinkage in fill.ts.
 *
 * @param parts  shares [kg/kg of oils, ≥ 0] and densities [kg/m3, > 0] at the pouring temperature
 * @returns mass [kg/kg], volume [m3/kg] and density [kg/m3]; all 0 for an empty list
 * @source common practice
 */
export const batterPerOil = (parts: readonly BatterPart[]): BatterPerOil => {
  const massPerOil = parts.reduce((sum, part) => sum + part.massPerOil, 0)
  const volumePerOil = parts.reduce((sum, part) => sum + part.massPerOil / part.density, 0)
  return { massPerOil, volumePerOil, density: volumePerOil > 0 ? massPerOil / volumePerOil : 0 }
}

/** kg/m3 for each K, liquid triglyceride oils; from memory, band 0.64 to 0.68 */
const LIQUID_OIL_DENSITY_SLOPE = -0.66

/** kg/m3, water at 20 °C, the denominator of a relative density; from memory */
const WATER_DENSITY_20C = 998.2

/**
 * Density of a liquid oil at another temperature than the one it was measured at.
 *
 *     ρ(T) = ρ₀ + a · (T − T₀)
 *
 * Valid for melted fat between about 280 and 360 K. A solid fat is some 5 to 10 % denser.
 *
 * @param input  density [kg/m3] at referenceTemperature [K], wanted temperature [K], slope [kg/m3/K]
 * @returns density [kg/m3]
 * @source common practice
 */
export const oilDensity = (input: {
  readonly density: number
  readonly referenceTemperature: number
  readonly temperature: number
  readonly slope?: number
}): number =>
  input.density + (input.slope ?? LIQUID_OIL_DENSITY_SLOPE) * (input.temperature - input.referenceTemperature)

/**
 * Density from a relative density, oil at its stated temperature over water at 20 °C.
 *
 *     ρ = d · 998.2
 *
 * @param relativeDensity  [–], as printed in a standard of the "t / water 20 °C" form
 * @returns density [kg/m3] at the oil temperature of the standard
 * @source codex210
 */
export const densityFromRelative = (relativeDensity: number): number => relativeDensity * WATER_DENSITY_20C

/**
 * Density of food fat against temperature, where nothing better is known of a fat.
 *
 *     ρ(t) = 925.59 − 0.41757 · t,  t in °C
 *
 * Valid from −40 to 150 °C; a generic fat: single oils differ from it by up to 1 %.
 *
 * @param temperature  [K]
 * @returns density [kg/m3]
 * @source choi-okos
 */
export const genericFatDensity = (temperature: number): number => 925.59 - 0.41757 * (temperature - 273.15)
