/** At which temperature a hard fat that is dissolved in the others begins to come out of them again. */

/** Gas constant [J/(mol K)], exact by definition to these digits; from memory. */
const GAS_CONSTANT = 8.31446

/**
 * Temperature at which a melted hard fat starts to crystallise out of a blend, by ideal solubility.
 *
 *     ln x = −(ΔH / R) (1/T − 1/T_m)      T = 1 / (1/T_m − R ln x / ΔH)
 *
 * Natural fats are blends themselves and come out later than this says: the result is on the warm, safe side. Melted
 * fats also supercool by some kelvin before the first crystal, which is not counted.
 *
 * @param fat share of it in the blend by number of molecules (0 < x ≤ 1), melting point [K], heat of melting [J/mol]
 * @returns temperature [K], at most the melting point
 * @source ideal-solubility
 */
export const seedingTemperature = (fat: {
  readonly moleShare: number
  readonly meltingPoint: number
  readonly heatOfMelting: number
}): number =>
  1 / (1 / fat.meltingPoint - (GAS_CONSTANT * Math.log(Math.min(1, fat.moleShare))) / fat.heatOfMelting)
