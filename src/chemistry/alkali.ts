/** How much alkali a recipe takes, for its fats and for the acids that are added to it. */
import type { Finding } from '../findings.ts'
import type { Range } from '../numerics/spread.ts'
import { MOLAR_MASS } from './atomic-weights.ts'

export type Alkali = 'NaOH' | 'KOH'

/** Share of the pure alkali in what is weighed [–]. */
export interface Purity extends Range {
  readonly nominal: number
}

export type AddedAcidName = 'citric-acid' | 'citric-acid-monohydrate' | 'lactic-acid' | 'acetic-acid'

export interface AddedAcid {
  readonly acid: AddedAcidName
  /** as weighed [kg] */
  readonly mass: number
  /** share of the acid in what is weighed; the rest counts as water [–] */
  readonly strength: number
}

export interface AlkaliInput {
  readonly fats: readonly { readonly mass: number; readonly saponificationValue: number }[]
  /** share of the fats' demand that is left without alkali [–], usually 0.05 */
  readonly superfat: number
  /** share of the hydroxide, by moles, that comes from KOH [–] */
  readonly potassiumShare: number
  readonly purity: Readonly<Record<Alkali, Pick<Purity, 'nominal'>>>
  readonly acids?: readonly AddedAcid[]
}

export interface AlkaliNeed {
  /** hydroxide that all fats could take [mol] */
  readonly demand: number
  readonly hydroxideForFats: number
  readonly hydroxideForAcids: number
  readonly alkalis: readonly AlkaliPortion[]
  /** water that comes in with the acids, bound or as their solvent [kg] */
  readonly waterWithAcids: number
  /** water that forms when the acids meet the alkali [kg] */
  readonly waterFromAcids: number
  readonly findings: readonly Finding[]
}

export interface AlkaliPortion {
  readonly alkali: Alkali
  readonly hydroxide: number
  /** pure [kg] */
  readonly pureMass: number
  /** what the scale must show [kg] */
  readonly weighedMass: number
  readonly forFats: number
  readonly forAcids: number
}

/** Acid groups in a molecule [–] and molar mass with its water of crystals [kg/mol], computed. */
const ACIDS: Readonly<Record<AddedAcidName, { groups: number; molarMass: number; crystalWater: number }>> = {
  'citric-acid': { groups: 3, molarMass: MOLAR_MASS.citricAcid, crystalWater: 0 },
  'citric-acid-monohydrate': { groups: 3, molarMass: MOLAR_MASS.citricAcidMonohydrate, crystalWater: 1 },
  'lactic-acid': { groups: 1, molarMass: MOLAR_MASS.lacticAcid, crystalWater: 0 },
  'acetic-acid': { groups: 1, molarMass: MOLAR_MASS.aceticAcid, crystalWater: 0 },
}

/**
 * Alkali for a recipe.
 *
 *     n = (1 − superfat) Σ m SV / M(KOH) + Σ acid groups;   m(alkali) = share · n · M / purity
 *
 * A superfat below 0 is computed as asked and reported as a stop: the soap would hold free alkali.
 *
 * @param input fats [kg, kg KOH per kg], superfat [–], KOH share of the moles [–], purities [–], acids [kg]
 * @returns hydroxide [mol], alkali pure and as weighed [kg], water from acids [kg], findings
 * @source iupac-atomic-weights
 */
export function alkaliFor(input: AlkaliInput): AlkaliNeed {
  const acids = input.acids ?? []
  const demand = hydroxideDemand(input.fats)
  const hydroxideForFats = demand * (1 - input.superfat)
  const hydroxideForAcids = acids.reduce((sum, acid) => sum + hydroxideOfAcid(acid), 0)
  const shares: readonly (readonly [Alkali, number])[] = [
    ['NaOH', 1 - input.potassiumShare],
    ['KOH', input.potassiumShare],
  ]
  const alkalis = shares
    .filter(([, share]) => share > 0)
    .map(([alkali, share]): AlkaliPortion => {
      const factor = (share * MOLAR_MASS[alkali]) / input.purity[alkali].nominal
      const hydroxide = share * (hydroxideForFats + hydroxideForAcids)
      return {
        alkali,
        hydroxide,
        pureMass: hydroxide * MOLAR_MASS[alkali],
        weighedMass: (hydroxideForFats + hydroxideForAcids) * factor,
        forFats: hydroxideForFats * factor,
        forAcids: hydroxideForAcids * factor,
      }
    })
  const findings: Finding[] = []
  if (input.superfat < 0)
    findings.push({ code: 'superfat-negative', severity: 'stop', values: { superfat: input.superfat } })
  return {
    demand,
    hydroxideForFats,
    hydroxideForAcids,
    alkalis,
    waterWithAcids: acids.reduce((sum, acid) => sum + waterWithAcid(acid), 0),
    waterFromAcids: hydroxideForAcids * MOLAR_MASS.water,
    findings,
  }
}

/**
 * Hydroxide that fats can take.
 *
 *     n = Σ m SV / M(KOH)
 *
 * @param fats mass [kg] and saponification value [kg KOH per kg] of each
 * @returns hydroxide [mol]
 * @source iupac-atomic-weights
 */
export function hydroxideDemand(
  fats: readonly { readonly mass: number; readonly saponificationValue: number }[],
): number {
  let potassiumHydroxide = 0
  for (const fat of fats) potassiumHydroxide += fat.mass * fat.saponificationValue
  return potassiumHydroxide / MOLAR_MASS.KOH
}

/**
 * Hydroxide that an added acid takes, one for each acid group.
 *
 *     n = groups · strength · m / M
 *
 * @param acid which, mass as weighed [kg], strength [–]
 * @returns hydroxide [mol]
 * @source iupac-atomic-weights
 */
export const hydroxideOfAcid = (acid: AddedAcid): number =>
  (ACIDS[acid.acid].groups * acid.strength * acid.mass) / ACIDS[acid.acid].molarMass

/**
 * Water that an added acid brings: its solvent and its water of crystals.
 *
 *     m (1 − strength) + crystal water · strength · m M(water) / M
 *
 * @param acid which, mass as weighed [kg], strength [–]
 * @returns water [kg]
 * @source iupac-atomic-weights
 */
export const waterWithAcid = (acid: AddedAcid): number =>
  acid.mass * (1 - acid.strength) +
  (ACIDS[acid.acid].crystalWater * acid.strength * acid.mass * MOLAR_MASS.water) / ACIDS[acid.acid].molarMass

/**
 * Mass of one alkali that does the work of a mass of the other.
 *
 *     m · M(to) / M(from)
 *
 * @param mass pure alkali [kg]
 * @param from alkali that is given
 * @param to   alkali that is wanted
 * @returns pure alkali [kg]
 * @source iupac-atomic-weights
 */
export const sameHydroxide = (mass: number, from: Alkali, to: Alkali): number =>
  (mass * MOLAR_MASS[to]) / MOLAR_MASS[from]
