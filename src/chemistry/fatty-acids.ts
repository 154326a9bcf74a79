/** The fatty acids that fats are made of. */
import { type Formula, molarMass } from './atomic-weights.ts'

export interface FattyAcid {
  readonly carbons: number
  readonly doubleBonds: number
  readonly hydroxyls: number
}

const acid = (carbons: number, doubleBonds = 0, hydroxyls = 0): FattyAcid => ({
  carbons,
  doubleBonds,
  hydroxyls,
})

/** By the trade's short name: carbons, double bonds; OH for a hydroxyl group, n6 for the family that differs. */
export const FATTY_ACIDS = {
  'C6:0': acid(6),
  'C8:0': acid(8),
  'C10:0': acid(10),
  'C12:0': acid(12),
  'C14:0': acid(14),
  'C14:1': acid(14, 1),
  'C16:0': acid(16),
  'C16:1': acid(16, 1),
  'C17:0': acid(17),
  'C17:1': acid(17, 1),
  'C18:0': acid(18),
  'C18:1': acid(18, 1),
  'C18:1OH': acid(18, 1, 1),
  'C18:2': acid(18, 2),
  'C18:3': acid(18, 3),
  'C18:3n6': acid(18, 3),
  'C20:0': acid(20),
  'C20:1': acid(20, 1),
  'C20:2': acid(20, 2),
  'C22:0': acid(22),
  'C22:1': acid(22, 1),
  'C22:2': acid(22, 2),
  'C24:0': acid(24),
  'C24:1': acid(24, 1),
} as const satisfies Record<string, FattyAcid>

export type FattyAcidName = keyof typeof FATTY_ACIDS

export const FATTY_ACID_NAMES = Object.keys(FATTY_ACIDS) as readonly FattyAcidName[]

/**
 * Formula of a fatty acid: C n, H 2n − 2d, O 2 + h.
 *
 * @param fattyAcid carbons n, double bonds d, hydroxyl groups h [–]
 * @returns number of atoms [–]
 * @source common practice
 */
export const fattyAcidFormula = (fattyAcid: FattyAcid): Formula => ({
  C: fattyAcid.carbons,
  H: 2 * (fattyAcid.carbons - fattyAcid.doubleBonds),
  O: 2 + fattyAcid.hydroxyls,
})

/** Molar mass of each fatty acid [kg/mol], computed from its formula. */
export const FATTY_ACID_MOLAR_MASS = Object.fromEntries(
  FATTY_ACID_NAMES.map((name) => [name, molarMass(fattyAcidFormula(FATTY_ACIDS[name]))]),
) as Readonly<Record<FattyAcidName, number>>
