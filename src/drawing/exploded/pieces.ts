/**
 * Distances between points and straight pieces in a plane.
 */
import type { Point } from '../types.ts'

/** A straight piece between two points. */
export interface Piece {
  readonly a: Point
  readonly b: Point
}

/** A piece with its bounds, for one that is asked after many times: most are far away. */
export interface BoundedPiece extends Piece {
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
}

/** @param piece in the plane @returns the same piece with its bounds, in the same unit */
export const bounded = ({ a, b }: Piece): BoundedPiece => ({
  a,
  b,
  left: Math.min(a.x, b.x),
  right: Math.max(a.x, b.x),
  low: Math.min(a.y, b.y),
  high: Math.max(a.y, b.y),
})

/**
 * Distance of a point from a straight piece.
 *
 * Formula: to the foot of the perpendicular, or to the nearer end. Validity: also for a piece without length.
 * @param point in the plane
 * @param piece in the plane, in the same unit
 * @returns distance, 0 or more, in the same unit
 * @source common practice
 */
export function pointDistance({ x, y }: Point, { a, b }: Piece): number {
  const run = b.x - a.x
  const rise = b.y - a.y
  const square = run * run + rise * rise
  const share = square === 0 ? 0 : ((x - a.x) * run + (y - a.y) * rise) / square
  const foot = Math.min(1, Math.max(0, share))
  return Math.hypot(x - a.x - foot * run, y - a.y - foot * rise)
}

/**
 * Distance between two straight pieces.
 *
 * Formula: 0 when each has its ends on both sides of the other; else the least distance of an end from the other.
 * Validity: any pieces.
 * @param p in the plane
 * @param q in the plane, in the same unit
 * @returns distance, 0 or more, in the same unit
 * @source common practice
 */
export function pieceDistance(p: Piece, q: Piece): number {
  if (cross(p, q)) return 0
  return Math.min(pointDistance(p.a, q), pointDistance(p.b, q), pointDistance(q.a, p), pointDistance(q.b, p))
}

/**
 * Whether two straight pieces have a point in common.
 *
 * Formula: each has its ends on both sides of the other, or on it. Validity: pieces on one line are not found.
 * @param p in the plane
 * @param q in the plane, in the same unit
 * @returns true when they cross or one ends on the other
 * @source common practice
 */
export function cross(p: Piece, q: Piece): boolean {
  const [pa, pb, qa, qb] = [turn(q, p.a), turn(q, p.b), turn(p, q.a), turn(p, q.b)]
  return pa * pb <= 0 && qa * qb <= 0 && (pa !== pb || qa !== qb)
}

const turn = ({ a, b }: Piece, { x, y }: Point): number => (b.x - a.x) * (y - a.y) - (b.y - a.y) * (x - a.x)
