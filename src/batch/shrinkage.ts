/** How a bar shrinks while it dries: the lost weight and the lost size are the same water. */

/** Density of set soap before it dries [kg/m3], estimate: 1.03 to 1.06 of its batter. */
export const GREEN_SOAP = 1040
/** Density of the water that leaves [kg/m3]. */
const WATER = 998

/**
 * Length of a dried bar for each metre of the green one.
 *
 *     l = ∛(1 − loss · ρ_soap / ρ_water)
 *
 * All of the water that leaves is taken to leave no room behind, the same in every direction. Old soap that has gone
 * hard keeps a little of it as pores, so that a bar comes out larger by some tenths of a per cent: an estimate that two
 * measured bars replace.
 *
 * @param weightLoss share of the green mass that has dried off [–], 0 to 0.3
 * @returns length ratio [–], over 0 and at most 1
 * @source common practice
 */
export const driedLength = (weightLoss: number): number => Math.cbrt(1 - (weightLoss * GREEN_SOAP) / WATER)
