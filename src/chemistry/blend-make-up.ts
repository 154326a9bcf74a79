/** Fatty acids of a whole formula: the middle of what is published for its fats, and how far it can be from that. */
import type { Range } from '../numerics/spread.ts'
import { MOLAR_MASS } from './atomic-weights.ts'
import {
  type CompositionRanges,
  fattyAcidShareOfTriglyceride,
  iodineValueOfFreeAcids,
  iodineValueOfTriglyceride,
  meanFattyAcidMolarMass,
  middleComposition,
} from './composition.ts'
import { FATTY_ACID_NAMES, FATTY_ACIDS, type FattyAcidName } from './fatty-acids.ts'
import type { FatKind } from './saponification-value.ts'

export interface BlendFat {
  readonly kind: FatKind
  /** kg, any total */
  readonly mass: number
  /** kg KOH per kg fat */
  readonly saponificationValue: number
  /** missing where nothing is published */
  readonly acids?: CompositionRanges | undefined
  /** published [kg I₂ per kg]; used where the acids cannot give it */
  readonly iodineValue?: Range | undefined
}

/** Lowest and highest possible, and the one that the middles of the ranges give. */
export interface Estimate extends Range {
  readonly middle: number
}

export type AcidGroupKey = 'saturated' | 'oneDoubleBond' | 'hydroxy' | 'twoOrMoreDoubleBonds'

export interface AcidGroup {
  readonly key: AcidGroupKey
  readonly share: Estimate
  /** acids that make a noticeable share, each by itself, in order of length */
  readonly acids: readonly { readonly name: FattyAcidName; readonly share: Estimate }[]
  /** all smaller ones of the group together */
  readonly other: Estimate | undefined
}

export interface BlendMakeUp {
  /** shares of all fatty acids that are known [–]; they sum to 1 */
  readonly groups: readonly AcidGroup[]
  /** kg I₂ per kg of the fats that it is known of */
  readonly iodineValue: Estimate
  /** share of the mass whose acids are known [–] */
  readonly covered: number
  /** share of the mass whose iodine value is known [–] */
  readonly iodineCovered: number
}

/** An acid with less than this of the whole is counted with the others of its group [–], our choice for legibility. */
const SMALLEST_NAMED = 0.02

const GROUP_OF: Readonly<Record<AcidGroupKey, (name: FattyAcidName) => boolean>> = {
  saturated: (name) => FATTY_ACIDS[name].doubleBonds === 0 && FATTY_ACIDS[name].hydroxyls === 0,
  oneDoubleBond: (name) => FATTY_ACIDS[name].doubleBonds === 1 && FATTY_ACIDS[name].hydroxyls === 0,
  hydroxy: (name) => FATTY_ACIDS[name].hydroxyls > 0,
  twoOrMoreDoubleBonds: (name) => FATTY_ACIDS[name].doubleBonds >= 2 && FATTY_ACIDS[name].hydroxyls === 0,
}
const GROUP_KEYS = Object.keys(GROUP_OF) as readonly AcidGroupKey[]

/**
 * Make-up of a formula by groups of fatty acids, with the iodine value.
 *
 *     share(a) = Σ mᵢ fᵢ wᵢₐ / Σ mᵢ fᵢ;   fᵢ = fatty acids in a fat (a wax: SV M̄ / M(KOH));   IV = Σ mᵢ IVᵢ / Σ mᵢ
 *
 * Limits hold for every make-up whose acids lie within their ranges and sum to 1 in each fat. A fat without published
 * acids is left out and counted as not covered; its published iodine value is used, as it is for a wax.
 *
 * @param fats masses [kg], saponification values [kg KOH per kg], ranges of acids [–], iodine values [kg I₂ per kg]
 * @returns shares [–], iodine value [kg I₂ per kg], what is covered [–]
 * @source aocs-cd-1c, common practice
 */
export function blendMakeUp(fats: readonly BlendFat[]): BlendMakeUp {
  const total = fats.reduce((sum, fat) => sum + fat.mass, 0)
  const known = fats.filter(({ acids, mass }) => mass > 0 && sumOfHighs(acids) > 0)
  const groups = GROUP_KEYS.map((key): AcidGroup => {
    const members = FATTY_ACID_NAMES.filter(GROUP_OF[key])
    const each = members.map((name) => ({ name, share: shareOf(known, (one) => one === name) }))
    const present = each.filter(({ share }) => share.high > 0)
    const named = present.filter(({ share }) => share.middle >= SMALLEST_NAMED)
    const small = present.filter(({ share }) => share.middle < SMALLEST_NAMED)
    // A single small one is better called by its name than "other".
    const alone = small.length === 1
    return {
      key,
      share: shareOf(known, (name) => members.includes(name)),
      acids: alone ? present : named,
      other: small.length < 2 ? undefined : shareOf(known, (name) => small.some((one) => one.name === name)),
    }
  })
  const iodine = fats.flatMap((fat) => {
    const value = iodineValueOf(fat)
    return value && fat.mass > 0 ? [{ mass: fat.mass, value }] : []
  })
  const iodineMass = iodine.reduce((sum, { mass }) => sum + mass, 0)
  return {
    groups,
    iodineValue: weighted(iodine.map(({ mass, value }) => ({ weight: mass, value }))),
    covered: total === 0 ? 0 : known.reduce((sum, { mass }) => sum + mass, 0) / total,
    iodineCovered: total === 0 ? 0 : iodineMass / total,
  }
}

/**
 * Lowest and highest value of a weighted sum of acids, when each stays within its range and all sum to 1.
 *
 *     min, max Σ c w;   low ≤ w ≤ high, Σ w = 1: start at the lows, give what is left to the least or greatest c first
 *
 * Ranges that cannot sum to 1 give the sums of their ends.
 *
 * @param ranges lowest and highest share of each acid [–]
 * @param factor c of an acid, any unit
 * @returns limits, unit of the factor
 * @source common practice
 */
export function rangeOfSum(ranges: CompositionRanges, factor: (name: FattyAcidName) => number): Range {
  const acids = FATTY_ACID_NAMES.flatMap((name) => {
    const range = ranges[name]
    return range ? [{ ...range, factor: factor(name) }] : []
  })
  const lows = acids.reduce((sum, acid) => sum + acid.low, 0)
  const highs = acids.reduce((sum, acid) => sum + acid.high, 0)
  const atLows = acids.reduce((sum, acid) => sum + acid.low * acid.factor, 0)
  if (lows > 1 || highs < 1)
    return { low: atLows, high: acids.reduce((sum, acid) => sum + acid.high * acid.factor, 0) }
  const filled = (order: 1 | -1): number => {
    let left = 1 - lows
    let sum = atLows
    for (const acid of [...acids].sort((a, b) => order * (a.factor - b.factor))) {
      const more = Math.min(left, acid.high - acid.low)
      sum += more * acid.factor
      left -= more
    }
    return sum
  }
  return { low: filled(1), high: filled(-1) }
}

function shareOf(fats: readonly BlendFat[], belongs: (name: FattyAcidName) => boolean): Estimate {
  return weighted(
    fats.map((fat) => {
      const acids = fat.acids ?? {}
      return {
        weight: fat.mass * fattyAcidShare(fat),
        value: estimate(acids, (name) => (belongs(name) ? 1 : 0)),
      }
    }),
  )
}

/** Fatty acids that one kilogram of a fat gives [–]. */
function fattyAcidShare({ kind, acids = {}, saponificationValue }: BlendFat): number {
  if (kind === 'fatty-acid') return 1
  const middle = middleComposition(acids)
  if (kind === 'triglyceride') return fattyAcidShareOfTriglyceride(middle)
  return (saponificationValue / MOLAR_MASS.KOH) * meanFattyAcidMolarMass(middle)
}

function iodineValueOf({ kind, acids, iodineValue }: BlendFat): Estimate | undefined {
  if (kind !== 'wax' && acids && sumOfHighs(acids) > 0) {
    const ofAcids = kind === 'fatty-acid' ? iodineValueOfFreeAcids : iodineValueOfTriglyceride
    return estimate(acids, (name) => ofAcids({ [name]: 1 }))
  }
  return iodineValue && { ...iodineValue, middle: (iodineValue.low + iodineValue.high) / 2 }
}

function estimate(acids: CompositionRanges, factor: (name: FattyAcidName) => number): Estimate {
  const composition = middleComposition(acids)
  const middle = FATTY_ACID_NAMES.reduce((sum, name) => sum + (composition[name] ?? 0) * factor(name), 0)
  const range = rangeOfSum(acids, factor)
  // Middles that are brought to a sum of 1 can leave a narrow range by a little.
  return { middle, low: Math.min(range.low, middle), high: Math.max(range.high, middle) }
}

function weighted(parts: readonly { readonly weight: number; readonly value: Estimate }[]): Estimate {
  const total = parts.reduce((sum, { weight }) => sum + weight, 0)
  const mean = (of: (value: Estimate) => number): number =>
    total === 0 ? 0 : parts.reduce((sum, { weight, value }) => sum + weight * of(value), 0) / total
  return { middle: mean(({ middle }) => middle), low: mean(({ low }) => low), high: mean(({ high }) => high) }
}

const sumOfHighs = (acids: CompositionRanges | undefined): number =>
  FATTY_ACID_NAMES.reduce((sum, name) => sum + (acids?.[name]?.high ?? 0), 0)
