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
/** Lye as heavy as any that is made here, at half its weight of alkali [kg/m3] (from memory) */
const LYE_DENSITY = 1530
/** How often a floor is mopped, each time with as much water as there was lye (estimate) */
const WASHES = 3
const WATER_DENSITY = 1000

export interface SpillKit {
  /** of loose sand that is room for lye, and what is counted beyond the sum: shares */
  readonly voids: number
  readonly reserve: number
  /** of dry sand [m3, kg] */
  readonly sand: number
  readonly sandMass: number
  /** that the sand is kept in */
  readonly sandPails: number
  /** for the wet sand, and what each holds at least, to the brim [m3] */
  readonly wastePails: number
  readonly wastePail: number
  readonly washes: number
  /** of water, each time [m3] */
  readonly wash: number
  /** for all of the wash water, and what each holds at least, to the brim [m3] */
  readonly washPails: number
  readonly washPail: number
}

/**
 * Dry sand that takes up all of a liquid, pails that the wet sand goes into, and pails for the water that washes after it.
 *
 *     sand = reserve · liquid / voids        wet sand takes the room of the dry one
 *     pails = what goes into them / what one person carries
 *
 * Validity: a liquid as thin as lye, no denser than {@link LYE_DENSITY}. Sand is counted, since its voids are known;
 * granules for spills take up more, as their maker says. The wash water gets pails of its own: the sand is full.
 *
 * @param liquid that may run out at once [m3], > 0
 * @returns volume [m3] and mass [kg] of sand, its pails, those for wet sand and for wash water [m3]
 * @source common practice
 */
export const spillKit = (liquid: number): SpillKit => {
  const sand = (RESERVE * liquid) / VOIDS
  const sandMass = sand * SAND_DENSITY
  const pailsFor = (mass: number): number => Math.ceil(mass / PAIL_LOAD - 1e-9)
  const wastePails = pailsFor(sandMass + liquid * LYE_DENSITY)
  const washPails = pailsFor(WASHES * liquid * WATER_DENSITY)
  return {
    voids: VOIDS,
    reserve: RESERVE - 1,
    sand,
    sandMass,
    sandPails: pailsFor(sandMass),
    wastePails,
    wastePail: sand / WASTE_FULLNESS / wastePails,
    washes: WASHES,
    wash: liquid,
    washPails,
    washPail: (WASHES * liquid) / WASTE_FULLNESS / washPails,
  }
}
