/** Amounts of stock as whole milligrams or whole pieces, so that sums of many entries come out to nothing left over. */

/** kg, or pieces; what is weighed is kept to a milligram (common practice: no scale of a shop shows less) */
const GRAIN = 1e-6

/**
 * An amount in whole grains.
 *
 * Formula: nearest whole number of 1e-6 kg, or of 1e-6 pieces. Validity: below 1e9 kg, where a double still holds each.
 * @param amount kg or pieces
 * @returns grains [–], whole
 * @source common practice
 */
export const grains = (amount: number): number => Math.round(amount / GRAIN)

/** The amount of so many grains [kg or pieces]: the inverse of `grains`. */
export const ofGrains = (count: number): number => count / 1e6

/** Order of two names that is the same on every machine. */
export const byName = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)
