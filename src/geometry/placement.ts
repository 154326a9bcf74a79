/**
 * Right-angled placement of a part in its assembly: which way the part's length, width and thickness point.
 */

export interface Vec3 {
  readonly x: number
  readonly y: number
  readonly z: number
}

export type Axis = '+x' | '-x' | '+y' | '-y' | '+z' | '-z'

/** Where a part's datum corner sits [m] and where its length (u), width (v) and thickness (w) point. */
export interface Placement {
  readonly origin: Vec3
  readonly u: Axis
  readonly v: Axis
  readonly w: Axis
}

/** Axis-parallel box between two opposite corners [m]. */
export interface Box {
  readonly min: Vec3
  readonly max: Vec3
}

/** The placement that leaves part coordinates as they are. */
export const identityPlacement: Placement = {
  origin: { x: 0, y: 0, z: 0 },
  u: '+x',
  v: '+y',
  w: '+z',
}

/**
 * Moves a point from part coordinates into the assembly frame.
 *
 * Formula: origin + x u + y v + z w. Validity: any right-angled placement.
 * @param placement of the part
 * @param point in part coordinates: x along length, y along width, z along thickness [m]
 * @returns the point in the assembly frame [m]
 * @source common practice
 */
export function placePoint(placement: Placement, point: Vec3): Vec3 {
  const u = unitVector(placement.u)
  const v = unitVector(placement.v)
  const w = unitVector(placement.w)
  const along = (key: keyof Vec3) =>
    placement.origin[key] + point.x * u[key] + point.y * v[key] + point.z * w[key]
  return { x: along('x'), y: along('y'), z: along('z') }
}

/**
 * Moves a box from part coordinates into the assembly frame.
 *
 * Formula: corners placed, then sorted per axis. Validity: any right-angled placement.
 * @param placement of the part
 * @param box in part coordinates [m]
 * @returns the box in the assembly frame [m]
 * @source common practice
 */
export function placeBox(placement: Placement, box: Box): Box {
  const a = placePoint(placement, box.min)
  const b = placePoint(placement, box.max)
  return {
    min: { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y), z: Math.min(a.z, b.z) },
    max: { x: Math.max(a.x, b.x), y: Math.max(a.y, b.y), z: Math.max(a.z, b.z) },
  }
}

/**
 * Tells a turned part from a mirrored one.
 *
 * Formula: sign of (u cross v) . w. Validity: any right-angled placement.
 * @param placement of the part
 * @returns +1 for a turned part, -1 for a mirrored one, 0 when two axes coincide
 * @source common practice
 */
export function handOf(placement: Placement): number {
  const u = unitVector(placement.u)
  const v = unitVector(placement.v)
  const w = unitVector(placement.w)
  return (u.y * v.z - u.z * v.y) * w.x + (u.z * v.x - u.x * v.z) * w.y + (u.x * v.y - u.y * v.x) * w.z
}

function unitVector(axis: Axis): Vec3 {
  const sign = axis.startsWith('-') ? -1 : 1
  return {
    x: axis.endsWith('x') ? sign : 0,
    y: axis.endsWith('y') ? sign : 0,
    z: axis.endsWith('z') ? sign : 0,
  }
}
