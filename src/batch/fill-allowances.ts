/** What a fill must allow for: losses, air, shrinkage, rise, and the rough top that is cut away. */
import type { Band } from './band.ts'

export interface FillAllowances {
  /** share of the batter that stays in pot, jug and on tools */
  readonly potResidue: Band
  /** share of the volume that is air beaten in */
  readonly air: Band
  /** share of the poured height by which the set block is lower */
  readonly setShrinkage: Band
  /** share of the poured height by which the batter may rise while it is hot */
  readonly rise: Band
  /** m, depth of the dish in the middle of the top */
  readonly dish: Band
  /** m, depth of ash that is cut off */
  readonly ash: Band
  /** rad, how far from level the mould may stand, each way */
  readonly level: number
}

/**
 * What is assumed until the maker has measured: estimates of common practice, all to be replaced.
 * Set soap is 1.03 to 1.06 of the density of its batter, so that it sinks by 3 to 5 %.
 */
export const DEFAULT_FILL_ALLOWANCES: FillAllowances = {
  potResidue: { low: 0.005, nominal: 0.01, high: 0.02 }, // estimate
  air: { low: 0, nominal: 0.01, high: 0.03 }, // estimate
  setShrinkage: { low: 0.03, nominal: 0.04, high: 0.05 }, // estimate, common practice
  rise: { low: 0, nominal: 0.03, high: 0.1 }, // estimate
  dish: { low: 0.001, nominal: 0.003, high: 0.005 }, // estimate
  ash: { low: 0.0005, nominal: 0.001, high: 0.002 }, // estimate
  level: 0.0035, // 0.2°, what a good spirit level shows
}
