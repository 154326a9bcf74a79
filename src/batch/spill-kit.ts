/** How much it takes to soak up what a pail holds. */

/** Share of loose dry sand that is air, and what a volume of it weighs [kg/m3] (common practice; sand differs) */
const VOIDS = 0.35
const SAND_DENSITY = 1600
/** More than the sum, for what runs off before the ring is closed (estimate) */
const RESERVE = 1.2
/** Of sand in one pail, so that one person carries it [kg] (estimate) */
const PAIL_LOAD = 10
/** Waste pails are filled no higher, so that a lid goes on (common practice) */
const WASTE_FULLNESS = 0.8

export interface SpillKit {
  /** of dry sand [m3, kg] */
  readonly sand: number
  readonly sandMass: number
  /** that the sand is kept in */
  readonly sandPails: number
  /** that pails for the wet sand hold together, to the brim [m3] */
  readonly waste: number
}

/**
 * Dry sand that takes up all of a liquid, and the pails that the wet sand goes into.
 *
 *     sand = reserve · liquid / voids        wet sand takes the room of the dry one
 *
 * Validity: a liquid as thin as lye. Sand is counted, since its voids are known; granules for spills take up more, as
 * their maker says.
 *
 * @param liquid that may run out at once [m3], ≥ 0
 * @returns volume [m3] and mass [kg] of sand, its pails, volume of the waste pails [m3]
 * @source common practice
 */
export const spillKit = (liquid: number): SpillKit => {
  const sand = (RESERVE * liquid) / VOIDS
  const sandMass = sand * SAND_DENSITY
  return { sand, sandMass, sandPails: Math.ceil(sandMass / PAIL_LOAD - 1e-9), waste: sand / WASTE_FULLNESS }
}
