/** How much is bought of what is sold by the pack, by the length and by weight. */

/** Pieces of one size; a length where they are cut from something longer. */
export interface Pieces {
  readonly count: number
  /** of each [m] */
  readonly length?: number
}

/** What one price buys. */
export interface Offer {
  /** pieces in it; one where it is missing */
  readonly pack?: number | undefined
  /** of each [m], where pieces are cut from it */
  readonly length?: number | undefined
  /** of each [kg], where it is used by weight */
  readonly mass?: number | undefined
}

/** m; what a hacksaw or a pair of cutters takes (common practice) */
const LOST = 0.002
const SAME = 1e-9

/**
 * Whole lengths from which all pieces can be cut.
 *
 * Formula: pieces longest first, each from the first length that still takes it; 2 mm lost at every cut. Validity: pieces
 * that are no longer than a length; the number is enough, and seldom more than is needed.
 * @param pieces to be cut [m]
 * @param length of each whole one [m]
 * @returns number of lengths, undefined when a piece is longer than one
 * @source common practice
 */
export function lengthsFor(pieces: readonly Pieces[], length: number): number | undefined {
  const all = pieces
    .flatMap((one) => Array.from({ length: one.count }, () => one.length ?? length))
    .sort((a, b) => b - a)
  const left: number[] = []
  for (const piece of all) {
    if (piece > length + SAME) return undefined
    const at = left.findIndex((rest) => rest >= piece - SAME)
    if (at < 0) left.push(length - piece - LOST)
    else left[at] = (left[at] ?? 0) - piece - LOST
  }
  return left.length
}

/**
 * Packs to buy.
 *
 *     by weight: mass / mass of one;   by length: whole lengths;   else: pieces;   all up to whole packs
 *
 * @param pieces of one kind, which sizes must not share a pack [m]
 * @param mass   that is used [kg], where it is used by weight
 * @param offer  what one price buys
 * @returns number of packs, undefined when the offer does not hold what is needed
 * @source common practice
 */
export function packsFor(
  pieces: readonly Pieces[],
  mass: number | undefined,
  offer: Offer,
): number | undefined {
  const pack = offer.pack ?? 1
  if (mass !== undefined)
    return offer.mass === undefined ? undefined : Math.ceil(mass / offer.mass / pack - SAME)
  if (offer.length !== undefined && pieces.some(({ length }) => length !== undefined)) {
    const lengths = lengthsFor(pieces, offer.length)
    return lengths === undefined ? undefined : Math.ceil(lengths / pack)
  }
  return pieces.reduce((sum, { count }) => sum + Math.ceil(count / pack), 0)
}
