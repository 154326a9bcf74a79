/** What soap holds a wire back with, on each metre that lies in it. */

/**
 * N/m of wire in soap: a block cut fresh, one that is not known yet, and one cut late. Estimates: nobody has published
 * them for this soap; a trial frame finds a maker's own.
 */
export const CUTTING_LOAD = { fresh: 40, usual: 100, late: 400 } as const

/**
 * Load of a wire from what soap is made of.
 *
 *     q = G + (1 + μ) σ d
 *
 * Tearing takes the same whatever the wire, pushing aside and rubbing grow with its diameter: that is why thin wire cuts
 * more easily. Made for cheese and gels cut steadily by a straight wire.
 *
 * @param soap     tearing energy G [J/m2], yield stress σ [Pa], friction μ of wire and soap [–], all ≥ 0
 * @param diameter of the wire [m]
 * @returns load [N/m]
 * @source kamyab1998
 */
export const cuttingLoadOf = (
  soap: { readonly tearingEnergy: number; readonly yieldStress: number; readonly friction: number },
  diameter: number,
): number => soap.tearingEnergy + (1 + soap.friction) * soap.yieldStress * diameter
