/** Water for the lye: how strong it is, and stock lye with make-up water. */
import type { Finding } from '../findings.ts'
import type { Alkali, AlkaliPortion } from './alkali.ts'
import type { LyeComposition } from './solution-density.ts'

/** The one figure that the maker gives; the other two follow. */
export type LyeStrength =
  | { readonly by: 'concentration'; readonly value: number }
  | { readonly by: 'water-to-lye'; readonly value: number }
  | { readonly by: 'water-share-of-oils'; readonly value: number }

export interface LyeWater {
  /** all liquid that counts as water [kg] */
  readonly water: number
  /** alkali as weighed in alkali plus water [–] */
  readonly concentration: number
  /** water to alkali as weighed [–] */
  readonly waterToLye: number
  /** water to fats [–] */
  readonly waterShareOfOils: number
}

/**
 * Water for a lye, and its strength in the three ways of saying it.
 *
 *     water = m (1/c − 1) = m r = share · fats,   m alkali as weighed
 *
 * Strength counts alkali as weighed, impurities and all, as the trade does.
 *
 * @param alkaliMass as weighed [kg], > 0
 * @param fatMass    [kg], > 0
 * @param strength   one figure [–]; a concentration lies in 0 < c < 1
 * @returns water [kg] and the three figures [–]
 * @source common practice
 */
export function lyeWater(alkaliMass: number, fatMass: number, strength: LyeStrength): LyeWater {
  const water = waterOf(alkaliMass, fatMass, strength)
  return {
    water,
    concentration: alkaliMass / (alkaliMass + water),
    waterToLye: water / alkaliMass,
    waterShareOfOils: water / fatMass,
  }
}

function waterOf(alkaliMass: number, fatMass: number, strength: LyeStrength): number {
  switch (strength.by) {
    case 'concentration':
      return alkaliMass * (1 / strength.value - 1)
    case 'water-to-lye':
      return alkaliMass * strength.value
    case 'water-share-of-oils':
      return fatMass * strength.value
  }
}

/**
 * What a lye really consists of: pure alkali in all of it.
 *
 *     wᵢ = pure mass of i / (Σ alkali as weighed + water)
 *
 * @param alkalis pure and weighed mass of each [kg]
 * @param water   [kg]
 * @returns share of each pure alkali [–]
 * @source common practice
 */
export function lyeComposition(
  alkalis: readonly Pick<AlkaliPortion, 'alkali' | 'pureMass' | 'weighedMass'>[],
  water: number,
): LyeComposition {
  const total = water + alkalis.reduce((sum, part) => sum + part.weighedMass, 0)
  const shares: Partial<Record<Alkali, number>> = {}
  if (total > 0)
    for (const part of alkalis) shares[part.alkali] = (shares[part.alkali] ?? 0) + part.pureMass / total
  return shares
}

export interface StockUse {
  /** stock lye to weigh [kg] */
  readonly stock: number
  /** water to add to it [kg]; 0 where the stock alone brings more than is wanted */
  readonly makeUpWater: number
  /** strength that results [–] */
  readonly concentration: number
  readonly findings: readonly Finding[]
}

/**
 * How much of a ready stock lye a batch takes, and the water to add.
 *
 *     stock = alkali / c;   make-up = water − stock (1 − c)
 *
 * A batch lye stronger than the stock cannot be made from it: a stop.
 *
 * @param need alkali as the stock counts it [kg], all water wanted [kg], stock strength [–], 0 < c < 1
 * @returns stock and water [kg], strength [–], findings
 * @source common practice
 */
export function stockLye(need: {
  readonly alkali: number
  readonly water: number
  readonly stockConcentration: number
}): StockUse {
  const stock = need.alkali / need.stockConcentration
  const waterInStock = stock - need.alkali
  const makeUp = need.water - waterInStock
  // Weighing cannot tell a milligram: a rounding error is not a missing amount of water.
  const short = makeUp < -1e-6
  const makeUpWater = Math.max(0, makeUp)
  return {
    stock,
    makeUpWater,
    concentration: need.alkali / (stock + makeUpWater),
    findings: short
      ? [
          {
            code: 'stock-weaker-than-batch',
            severity: 'stop',
            values: { waterInStock, water: need.water, stockConcentration: need.stockConcentration },
          },
        ]
      : [],
  }
}
