/** Saponification value, iodine value and make-up of a fat from its fatty acids. */
import type { Range } from '../numerics/spread.ts'
import { MOLAR_MASS } from './atomic-weights.ts'
import { FATTY_ACID_MOLAR_MASS, FATTY_ACID_NAMES, FATTY_ACIDS, type FattyAcidName } from './fatty-acids.ts'

/** Mass share of each fatty acid among all fatty acids [–]; need not sum to 1. */
export type Composition = Readonly<Partial<Record<FattyAcidName, number>>>

/** Lowest and highest mass share of each fatty acid among all fatty acids [–]. */
export type CompositionRanges = Readonly<Partial<Record<FattyAcidName, Range>>>

/** What three fatty acids gain in becoming a triglyceride [kg/mol]: glycerol less three waters, computed. */
const GLYCEROL_RESIDUE = MOLAR_MASS.glycerol - 3 * MOLAR_MASS.water

/**
 * Saponification value of a triglyceride fat from its fatty acids.
 *
 *     SV = (1 − u) · 3 M(KOH) / (3 M̄ + M(glycerol) − 3 M(water)),   M̄ = Σw / Σ(w / M)
 *
 * Valid for whole triglycerides; free acid raises the true value a little. No acids at all gives 0.
 *
 * @param composition    mass shares of the fatty acids [–], brought to a sum of 1 here
 * @param unsaponifiable share of the fat that never turns to soap [–], 0..1
 * @returns kg KOH per kg fat
 * @source aocs-cd-3a
 */
export function saponificationValueOfTriglyceride(composition: Composition, unsaponifiable = 0): number {
  const mean = meanFattyAcidMolarMass(composition)
  return mean === 0 ? 0 : ((1 - unsaponifiable) * 3 * MOLAR_MASS.KOH) / (3 * mean + GLYCEROL_RESIDUE)
}

/**
 * Saponification value of free fatty acids, which is their acid value.
 *
 *     SV = M(KOH) / M̄
 *
 * @param composition mass shares of the fatty acids [–], brought to a sum of 1 here
 * @returns kg KOH per kg fatty acids
 * @source aocs-cd-3a
 */
export function saponificationValueOfFreeAcids(composition: Composition): number {
  const mean = meanFattyAcidMolarMass(composition)
  return mean === 0 ? 0 : MOLAR_MASS.KOH / mean
}

/**
 * Mean molar mass of the fatty acids, by number of molecules.
 *
 *     M̄ = Σ w / Σ (w / M)
 *
 * @param composition mass shares [–]
 * @returns kg/mol; 0 where there are no acids
 * @source aocs-cd-3a
 */
export function meanFattyAcidMolarMass(composition: Composition): number {
  let mass = 0
  let moles = 0
  for (const name of FATTY_ACID_NAMES) {
    const share = composition[name] ?? 0
    mass += share
    moles += share / FATTY_ACID_MOLAR_MASS[name]
  }
  return moles === 0 ? 0 : mass / moles
}

/** AOCS Cd 1c-85 factors for triglycerides [kg I₂ per kg acid, as per cent of the fat], read. */
const IODINE_FACTOR_TRIGLYCERIDE: Composition = {
  'C16:1': 0.95,
  'C18:1': 0.86,
  'C18:2': 1.732,
  'C18:3': 2.616,
  'C20:1': 0.785,
  'C22:1': 0.723,
}

/** AOCS Cd 1c-85 factors for free fatty acids [kg I₂ per kg], read. */
const IODINE_FACTOR_FREE_ACID: Composition = {
  'C16:1': 0.9976,
  'C18:1': 0.8986,
  'C18:2': 1.81,
  'C18:3': 2.735,
  'C20:1': 0.8175,
  'C22:1': 0.7497,
}

/**
 * Iodine value of a triglyceride fat from its fatty acids.
 *
 *     IV = Σ w · factor;   an acid without a printed factor: 3 d M(I₂) / (3 M + M(glycerol) − 3 M(water))
 *
 * Low for a fat with more than 0.5 % unsaponifiable or of low iodine value, as the method itself says.
 *
 * @param composition mass shares of the fatty acids [–], used as they are
 * @returns kg I₂ per kg fat
 * @source aocs-cd-1c
 */
export const iodineValueOfTriglyceride = (composition: Composition): number =>
  sumOver(composition, (name) => IODINE_FACTOR_TRIGLYCERIDE[name] ?? theoreticalIodineFactor(name))

/**
 * Iodine value of free fatty acids.
 *
 *     IV = Σ w · factor;   an acid without a printed factor: d M(I₂) / M
 *
 * @param composition mass shares of the fatty acids [–], used as they are
 * @returns kg I₂ per kg fatty acids
 * @source aocs-cd-1c
 */
export const iodineValueOfFreeAcids = (composition: Composition): number =>
  sumOver(
    composition,
    (name) =>
      IODINE_FACTOR_FREE_ACID[name] ??
      (FATTY_ACIDS[name].doubleBonds * MOLAR_MASS.iodine) / FATTY_ACID_MOLAR_MASS[name],
  )

/**
 * Iodine that the triglyceride of one fatty acid takes up, from its formula.
 *
 *     3 d M(I₂) / (3 M + M(glycerol) − 3 M(water))
 *
 * @param name fatty acid
 * @returns kg I₂ per kg triglyceride
 * @source aocs-cd-1c
 */
export const theoreticalIodineFactor = (name: FattyAcidName): number =>
  (3 * FATTY_ACIDS[name].doubleBonds * MOLAR_MASS.iodine) /
  (3 * FATTY_ACID_MOLAR_MASS[name] + GLYCEROL_RESIDUE)

/**
 * A composition from published ranges: the middle of each, brought to a sum of 1.
 *
 * Such a composition is no real oil's; it serves to check ranges against each other.
 *
 * @param ranges lowest and highest share of each acid [–]
 * @returns mass shares [–], sum 1 (empty where every range is 0)
 * @source common practice
 */
export function middleComposition(ranges: CompositionRanges): Composition {
  const middles: Partial<Record<FattyAcidName, number>> = {}
  let sum = 0
  for (const name of FATTY_ACID_NAMES) {
    const range = ranges[name]
    if (!range) continue
    const middle = (range.low + range.high) / 2
    if (middle > 0) middles[name] = middle
    sum += middle
  }
  for (const name of FATTY_ACID_NAMES) {
    const share = middles[name]
    if (share !== undefined) middles[name] = share / sum
  }
  return middles
}

/**
 * Composition of a blend of fats, by the mass of fatty acids that each brings.
 *
 * @param parts mass [kg], composition [–] and share of the fat that is fatty acids [–] of each fat
 * @returns mass shares among all fatty acids [–], sum 1
 * @source common practice
 */
export function blendComposition(
  parts: readonly {
    readonly mass: number
    readonly composition: Composition
    readonly fattyAcidShare?: number
  }[],
): Composition {
  const blend: Partial<Record<FattyAcidName, number>> = {}
  let total = 0
  for (const part of parts) {
    const sum = sumOver(part.composition, () => 1)
    if (sum === 0) continue
    const fattyAcids = part.mass * (part.fattyAcidShare ?? fattyAcidShareOfTriglyceride(part.composition))
    total += fattyAcids
    for (const name of FATTY_ACID_NAMES) {
      const share = part.composition[name]
      if (share) blend[name] = (blend[name] ?? 0) + (share / sum) * fattyAcids
    }
  }
  if (total === 0) return {}
  for (const name of FATTY_ACID_NAMES) {
    const mass = blend[name]
    if (mass !== undefined) blend[name] = mass / total
  }
  return blend
}

/**
 * Mass of fatty acids that a triglyceride gives.
 *
 *     3 M̄ / (3 M̄ + M(glycerol) − 3 M(water))
 *
 * @param composition mass shares of the fatty acids [–]
 * @returns kg fatty acids per kg fat, about 0.93 to 0.96
 * @source aocs-cd-3a
 */
export function fattyAcidShareOfTriglyceride(composition: Composition): number {
  const mean = meanFattyAcidMolarMass(composition)
  return (3 * mean) / (3 * mean + GLYCEROL_RESIDUE)
}

/** Shares of the fatty acids by double bonds [–], sum 1. */
export interface MakeUp {
  readonly saturated: number
  readonly oneDoubleBond: number
  readonly twoOrMoreDoubleBonds: number
}

/**
 * How much of a fat is saturated, and how much has one, two or more double bonds.
 *
 * @param composition mass shares of the fatty acids [–]
 * @returns shares [–], sum 1 (all 0 where there are no acids)
 * @source common practice
 */
export function makeUp(composition: Composition): MakeUp {
  const sum = sumOver(composition, () => 1)
  if (sum === 0) return { saturated: 0, oneDoubleBond: 0, twoOrMoreDoubleBonds: 0 }
  const share = (has: (doubleBonds: number) => boolean): number =>
    sumOver(composition, (name) => (has(FATTY_ACIDS[name].doubleBonds) ? 1 : 0)) / sum
  return {
    saturated: share((bonds) => bonds === 0),
    oneDoubleBond: share((bonds) => bonds === 1),
    twoOrMoreDoubleBonds: share((bonds) => bonds >= 2),
  }
}

function sumOver(composition: Composition, factor: (name: FattyAcidName) => number): number {
  let sum = 0
  for (const name of FATTY_ACID_NAMES) {
    const share = composition[name]
    if (share) sum += share * factor(name)
  }
  return sum
}
