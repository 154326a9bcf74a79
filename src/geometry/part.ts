/**
 * What a shop-built part is: a rectangular panel with features, measured from its datum corner.
 *
 * Part coordinates: u along the length, v along the width, w through the thickness. The datum corner is u = v = 0;
 * w = 0 is the face that lies down on the bench while w = thickness, the upper face, is worked.
 */
import type { Placement } from './placement.ts'

export type Face = 'upper' | 'lower'

/** A straight channel right across the panel, cut at right angles to the edge it is measured from. */
export interface Channel {
  /** dado: takes another panel; groove: takes a wire; rebate: a step that is open at the panel's edge */
  readonly kind: 'dado' | 'groove' | 'rebate'
  readonly name: string
  readonly face: Face
  /** which way the channel runs; it is located along the other direction */
  readonly runs: 'length' | 'width'
  /** near wall, measured from the datum edge [m] */
  readonly at: number
  /** across the channel [m] */
  readonly size: number
  /** below the face [m] */
  readonly depth: number
}

/** A round hole through the thickness. */
export interface Hole {
  readonly kind: 'hole'
  readonly name: string
  /** centre along the length from the datum corner [m] */
  readonly u: number
  /** centre along the width from the datum corner [m] */
  readonly v: number
  /** [m] */
  readonly diameter: number
  /** a wider, flat-bottomed step round one of its mouths, for a washer or a head [m] */
  readonly counterbore?: { readonly diameter: number; readonly depth: number; readonly face: Face }
}

/** A cut through the thickness, in from a long edge: where one strip crosses another, or a rod passes a sheet. */
export interface Notch {
  readonly kind: 'notch'
  readonly name: string
  /** near wall, along the length from the datum corner [m] */
  readonly at: number
  /** along the length [m] */
  readonly size: number
  /** in from the edge [m] */
  readonly depth: number
  /** the edge that widths are measured from, or the one across from it */
  readonly edge: 'near' | 'far'
  /** drawn and listed by its middle, where the saw is set to that as for a groove; else by the near wall */
  readonly setBy?: 'middle'
}

/**
 * Where a notch is set out along the length.
 *
 * Formula: its near wall, or that + half its size. Validity: as drawn.
 * @param notch of a part [m]
 * @returns distance from the datum corner [m]
 * @source common practice
 */
export const notchStation = ({ at, size, setBy }: Pick<Notch, 'at' | 'size' | 'setBy'>): number =>
  setBy === 'middle' ? at + size / 2 : at

/** A line right across a sheet along which it is folded. */
export interface Fold {
  readonly kind: 'fold'
  readonly name: string
  /** along the length from the datum corner [m] */
  readonly at: number
}

/** A line scribed along the worked face, right along the part: a mark to read by, which cuts nothing. */
export interface Scribe {
  readonly kind: 'scribe'
  readonly name: string
  /** along the width from the datum corner [m] */
  readonly at: number
}

/** A 45 degree bevel on the arrises of the two short or the two long edges, both faces. */
export interface Chamfer {
  readonly kind: 'chamfer'
  readonly name: string
  readonly edges: 'short' | 'long'
  /** leg of the bevel [m] */
  readonly size: number
}

export type Feature = Channel | Hole | Chamfer | Notch | Fold | Scribe

/** A panel as it is bought: measured thickness, not the nominal one. */
export interface Panel {
  /** key of the material */
  readonly material: string
  /** measured [m] */
  readonly thickness: number
  /** [kg/m3] */
  readonly density: number
}

export interface Part {
  readonly key: string
  /** how many are cut; as many as there are placements, save for a sheet that is folded into place */
  readonly count: number
  /** [m] */
  readonly length: number
  /** [m] */
  readonly width: number
  /** [m] */
  readonly thickness: number
  readonly material: string
  /** [kg/m3] */
  readonly density: number
  readonly grain: 'length' | 'width'
  /** plastic sheet: no arrow is drawn */
  readonly grainless?: boolean
  readonly features: readonly Feature[]
  readonly placements: readonly Placement[]
  /** true when a copy turned end for end does not fit, so left and right must be marked */
  readonly handed: boolean
}

/** A turned or hexagonal piece of hardware between two points of an axis-parallel line, in the assembly frame. */
export interface Round {
  readonly key: string
  readonly shape: 'circle' | 'hexagon'
  readonly axis: 'x' | 'y' | 'z'
  /** [m]: the two coordinates across the axis, in the order x, y, z with the axis left out */
  readonly centre: readonly [number, number]
  /** over the round, or across the flats of a hexagon [m] */
  readonly diameter: number
  /** lower end along the axis [m] */
  readonly from: number
  /** upper end along the axis [m] */
  readonly to: number
}

export const isChannel = (feature: Feature): feature is Channel =>
  feature.kind === 'dado' || feature.kind === 'groove' || feature.kind === 'rebate'

export const isHole = (feature: Feature): feature is Hole => feature.kind === 'hole'

export const isNotch = (feature: Feature): feature is Notch => feature.kind === 'notch'

export const isFold = (feature: Feature): feature is Fold => feature.kind === 'fold'

export const isScribe = (feature: Feature): feature is Scribe => feature.kind === 'scribe'

export const isChamfer = (feature: Feature): feature is Chamfer => feature.kind === 'chamfer'
