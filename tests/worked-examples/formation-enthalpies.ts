/** Standard enthalpies of formation at 25 °C [kJ/mol]: CRC Handbook, tables of substances and of aqueous ions (read). */
export const FORMATION = {
  'NaOH(s)': -425.8,
  'KOH(s)': -424.6,
  'Na+(aq)': -240.1,
  'K+(aq)': -252.4,
  'OH-(aq)': -230.0,
  'acetate(aq)': -486.0,
  'ethyl acetate(l)': -479.3,
  'ethanol(l)': -277.6,
  'methyl acetate(l)': -445.9,
  'methanol(l)': -239.2,
} as const

export type Species = keyof typeof FORMATION

/** Products less reactants [kJ/mol]; below 0 where heat is given off. */
export const reactionEnthalpy = (reactants: readonly Species[], products: readonly Species[]): number => {
  const sum = (of: readonly Species[]): number => of.reduce((total, one) => total + FORMATION[one], 0)
  return sum(products) - sum(reactants)
}
