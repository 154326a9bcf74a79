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
