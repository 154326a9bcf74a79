/** What heat passes on its way from the block to the room. */
import type { FaceResistances } from '../numerics/conduction.ts'
import type { Band } from './band.ts'

/** A board, a blanket or an air gap: by thickness [m] and conductivity [W/(m K)], or by resistance [m2 K/W]. */
export type Layer =
  | { readonly thickness: number; readonly conductivity: number }
  | { readonly resistance: number }

/** On one face, from the block outwards. */
export interface Covering {
  /** wall, lid or base */
  readonly layers: readonly Layer[]
  /** blanket or foam round it */
  readonly insulation?: readonly Layer[]
  /** of the air at the outside, radiation included [W/(m2 K)] */
  readonly film: number
}

export interface Coverings {
  readonly end: Covering
  readonly side: Covering
  readonly top: Covering
  readonly base: Covering
}

/** Handbook ranges, from memory; the middle is the nominal value. */
export const PLYWOOD_CONDUCTIVITY: Band = { low: 0.12, nominal: 0.135, high: 0.15 } // W/(m K)
export const FOAM_CONDUCTIVITY: Band = { low: 0.028, nominal: 0.0315, high: 0.035 } // W/(m K), extruded polystyrene
export const STILL_AIR_FILM: Band = { low: 5, nominal: 7.5, high: 10 } // W/(m2 K)

/**
 * Resistance of what covers a face.
 *
 *     R = Σ d/k + Σ R of layers + 1/film
 *
 * Heat is taken to pass straight outwards, so that the outer edges of thick insulation let through more than this
 * says; what the wall itself stores is left out.
 *
 * @param covering layers and film
 * @returns resistance [m2 K/W]
 * @source incropera
 */
export const resistanceOf = (covering: Covering): number =>
  [...covering.layers, ...(covering.insulation ?? [])].reduce(
    (sum, layer) => sum + layerResistance(layer),
    1 / covering.film,
  )

const layerResistance = (layer: Layer): number =>
  'resistance' in layer ? layer.resistance : layer.thickness / layer.conductivity

/** What has been taken off a mould. */
export interface TakenOff {
  readonly lid: boolean
  readonly insulation: boolean
  /** sides and ends */
  readonly walls: boolean
}

/**
 * Coverings when some of them are off: the air film stays.
 *
 * Insulation goes with the wall or lid that carries it, and the lid with the walls that it lies on.
 *
 * @param coverings as built
 * @param off       what is off
 * @returns coverings that are left
 * @source common practice
 */
export const coveringsLeft = (coverings: Coverings, off: TakenOff): Coverings => {
  const left = (covering: Covering, bare: boolean): Covering => {
    if (bare) return { layers: [], film: covering.film }
    return off.insulation ? { layers: covering.layers, film: covering.film } : covering
  }
  return {
    end: left(coverings.end, off.walls),
    side: left(coverings.side, off.walls),
    top: left(coverings.top, off.lid || off.walls),
    base: left(coverings.base, false),
  }
}

/**
 * Resistances of the four kinds of face.
 *
 * @param coverings on each of them
 * @returns resistances [m2 K/W]
 * @source incropera
 */
export const faceResistances = (coverings: Coverings): FaceResistances => ({
  end: resistanceOf(coverings.end),
  side: resistanceOf(coverings.side),
  top: resistanceOf(coverings.top),
  base: resistanceOf(coverings.base),
})
