/**
 * What each solid of a scene hides from a viewer who looks along the diagonal of the axes.
 *
 * A convex solid hides a convex region: behind its faces that look at the viewer and within its outline. So the
 * piece of a straight line that it hides is found by clipping, to the last digit, and no line is tried by chance.
 */
import type { Round } from '../../geometry/part.ts'
import type { Box, Vec3 } from '../../geometry/placement.ts'
import type { SeenPoint } from '../projection.ts'
import type { Scene } from '../scene.ts'
import type { Point } from '../types.ts'

/** Corners on a circle that stands for a round thing: it departs from the true circle by 0.4 % of the radius. */
export const roundCorners = 36

/**
 * A point as seen in isometric projection, from the front, the right and above at once.
 *
 * Formula: right = (x + y) / sqrt 2, up = (-x + y + 2 z) / sqrt 6, nearness = (x - y + z) / sqrt 3: each axis is
 * foreshortened by sqrt(2/3), and the three stand 120 degrees apart. Validity: any point.
 * @param point in the assembly frame [m]
 * @returns right, up and nearness to the viewer [m]
 * @source common practice
 */
export const isometric = ({ x, y, z }: Vec3): SeenPoint => ({
  x: (x + y) / Math.SQRT2,
  y: (-x + y + 2 * z) / Math.sqrt(6),
  depth: (x - y + z) / Math.sqrt(3),
})

/** The region behind one solid, as seen by the viewer [m]. */
export interface Shadow {
  readonly key: string
  /** the region is where every limit is below zero */
  readonly limits: readonly Limit[]
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
  readonly near: number
}

/** Distance beyond a plane: x, y and depth times their factors, less the offset. */
type Limit = readonly [x: number, y: number, depth: number, offset: number]

/** A plane through a solid's face: the outward normal and its distance from the origin. */
interface Facing {
  readonly normal: Vec3
  readonly offset: number
}

/**
 * The shadows of all solids of a scene.
 *
 * Formula: faces that look at the viewer and the hull of the projected corners. Validity: exact for boxes and
 * hexagons; round things are prisms of 36 sides.
 * @param scene boxes and rounds [m]
 * @returns one shadow for each [m]
 * @source common practice
 */
export const sceneShadows = (scene: Scene): readonly Shadow[] => [
  ...scene.boxes.map(boxShadow),
  ...scene.rounds.map(roundShadow),
]

/**
 * Whether the viewer sees a point.
 *
 * Formula: no shadow contains it. Validity: a point on a face counts as in front of that face.
 * @param shadows of the scene [m]
 * @param point in the assembly frame [m]
 * @returns true when nothing stands before it
 * @source common practice
 */
export function isSeen(shadows: readonly Shadow[], point: Vec3): boolean {
  const seen = isometric(point)
  return !shadows.some(
    (shadow) =>
      shadow.near > seen.depth &&
      seen.x > shadow.left &&
      seen.x < shadow.right &&
      seen.y > shadow.low &&
      seen.y < shadow.high &&
      shadow.limits.every((limit) => beyond(limit, seen) < -hair),
  )
}

/**
 * The pieces of a straight line that the viewer sees.
 *
 * Formula: the line clipped by each shadow; what is left. Validity: pieces below 0.01 mm are dropped.
 * @param shadows of the scene [m]
 * @param a one end as seen [m]
 * @param b other end as seen [m]
 * @returns shares of the way from a to b, ascending [0..1]
 * @source common practice
 */
export function seenPieces(
  shadows: readonly Shadow[],
  a: SeenPoint,
  b: SeenPoint,
): readonly (readonly [number, number])[] {
  const length = Math.hypot(b.x - a.x, b.y - a.y)
  if (length < crumb) return []
  const least = crumb / length
  const left = Math.min(a.x, b.x)
  const right = Math.max(a.x, b.x)
  const low = Math.min(a.y, b.y)
  const high = Math.max(a.y, b.y)
  const far = Math.min(a.depth, b.depth)
  const hidden: (readonly [number, number])[] = []
  for (const shadow of shadows) {
    if (shadow.right <= left || shadow.left >= right || shadow.high <= low || shadow.low >= high) continue
    if (shadow.near <= far) continue
    const piece = hiddenPiece(shadow, a, b)
    if (piece && piece[1] - piece[0] > hair / length) hidden.push(piece)
  }
  const seen: [number, number][] = []
  let from = 0
  for (const [start, end] of hidden.sort((p, q) => p[0] - q[0])) {
    if (start - from > least) seen.push([from, start])
    from = Math.max(from, end)
  }
  if (1 - from > least) seen.push([from, 1])
  return seen
}

const hair = 1e-7 // m: how far inside a shadow something must be, so that a solid does not hide its own edges

const crumb = 1e-5 // m: shorter pieces would only be specks on paper

function hiddenPiece(shadow: Shadow, a: SeenPoint, b: SeenPoint): readonly [number, number] | undefined {
  let from = 0
  let to = 1
  for (let index = 0; index < shadow.limits.length; index++) {
    const limit = shadow.limits[index]!
    const start = beyond(limit, a)
    const end = beyond(limit, b)
    if (start >= -hair && end >= -hair) return undefined
    if (start > 0) from = Math.max(from, start / (start - end))
    else if (end > 0) to = Math.min(to, start / (start - end))
    if (from >= to) return undefined
  }
  return [from, to]
}

const beyond = (limit: Limit, at: SeenPoint): number =>
  limit[0] * at.x + limit[1] * at.y + limit[2] * at.depth - limit[3]

function boxShadow({ key, min, max }: Box & { readonly key: string }): Shadow {
  const corners = [min.x, max.x].flatMap((x) =>
    [min.y, max.y].flatMap((y) => [min.z, max.z].map((z): Vec3 => ({ x, y, z }))),
  )
  return shadowOf(key, corners, [
    { normal: { x: 1, y: 0, z: 0 }, offset: max.x },
    { normal: { x: 0, y: -1, z: 0 }, offset: -min.y },
    { normal: { x: 0, y: 0, z: 1 }, offset: max.z },
  ])
}

function roundShadow(round: Round): Shadow {
  const corners = roundOutline(round)
  const [p, q] = round.centre
  const apothem = cornerRadius(round) * Math.cos(Math.PI / corners.length)
  const sides = corners.map((angle): Facing => {
    const middle = angle + Math.PI / corners.length
    const [u, v] = [Math.cos(middle), Math.sin(middle)]
    return { normal: acrossAxis(round, [u, v], 0), offset: u * p + v * q + apothem }
  })
  const end = (way: number): Facing => ({
    normal: acrossAxis(round, [0, 0], way),
    offset: way > 0 ? round.to : -round.from,
  })
  const points = corners.flatMap((angle) => [onRim(round, angle, round.from), onRim(round, angle, round.to)])
  return shadowOf(round.key, points, [...sides, end(1), end(-1)].filter(looksAtViewer))
}

/** Which way faces look: only those at the front, the right or the top are seen. */
export const looksAtViewer = ({ normal }: { readonly normal: Vec3 }): boolean =>
  isometric(normal).depth > 1e-9

/** Angles of the corners of a round thing about its axis [rad]. */
export const roundOutline = ({ shape }: Round): readonly number[] => {
  if (shape === 'hexagon') return [0, 1, 2, 3, 4, 5].map((sixth) => (sixth * Math.PI) / 3)
  // Half a step on, so that no side is seen edge on.
  return Array.from({ length: roundCorners }, (_, index) => (2 * Math.PI * (index + 0.5)) / roundCorners)
}

/** A point on the outline of a round thing, at a place along its axis [m]. */
export function onRim(round: Round, angle: number, at: number): Vec3 {
  const radius = cornerRadius(round)
  const [p, q] = round.centre
  return acrossAxis(round, [p + radius * Math.cos(angle), q + radius * Math.sin(angle)], at)
}

/** A hexagon is measured across its flats. */
const cornerRadius = ({ shape, diameter }: Round): number =>
  shape === 'hexagon' ? diameter / Math.sqrt(3) : diameter / 2

/** Two coordinates across the axis and one along it, as a point of the frame. */
export function acrossAxis(
  { axis }: Pick<Round, 'axis'>,
  [p, q]: readonly [number, number],
  at: number,
): Vec3 {
  if (axis === 'x') return { x: at, y: p, z: q }
  return axis === 'y' ? { x: p, y: at, z: q } : { x: p, y: q, z: at }
}

function shadowOf(key: string, corners: readonly Vec3[], faces: readonly Facing[]): Shadow {
  const seen = corners.map(isometric)
  const xs = seen.map(({ x }) => x)
  const ys = seen.map(({ y }) => y)
  return {
    key,
    limits: [
      ...hullLimits(seen),
      ...faces.map(({ normal, offset }): Limit => {
        const { x, y, depth } = isometric(normal)
        return [x, y, depth, offset]
      }),
    ],
    left: Math.min(...xs),
    right: Math.max(...xs),
    low: Math.min(...ys),
    high: Math.max(...ys),
    near: Math.max(...seen.map(({ depth }) => depth)),
  }
}

/** The convex hull of points, as distances beyond its sides (monotone chain). */
function hullLimits(points: readonly Point[]): readonly Limit[] {
  const sorted = [...points].sort((a, b) => a.x - b.x || a.y - b.y)
  const half = (list: readonly Point[]) => {
    const chain: Point[] = []
    for (const point of list) {
      while (chain.length > 1 && turn(chain[chain.length - 2]!, chain[chain.length - 1]!, point) <= 1e-15)
        chain.pop()
      chain.push(point)
    }
    return chain.slice(0, -1)
  }
  const hull = [...half(sorted), ...half(sorted.reverse())]
  return hull.map((a, index): Limit => {
    const b = hull[(index + 1) % hull.length]!
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    const [x, y] = [(b.y - a.y) / length, (a.x - b.x) / length]
    return [x, y, 0, x * a.x + y * a.y]
  })
}

/** Twice the area of a triangle; positive when it turns to the left. */
const turn = (a: Point, b: Point, c: Point): number => (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
