/**
 * Looks at a scene from one of six sides and sorts its lines into visible and hidden ones.
 */
import type { Round } from '../geometry/part.ts'
import type { Box, Vec3 } from '../geometry/placement.ts'
import type { Scene } from './scene.ts'
import { hiddenLines, type Span } from './spans.ts'
import type { Point, Rect } from './types.ts'

/** The side that the viewer stands on: front is at negative y, right at positive x, top at positive z. */
export type Viewpoint = 'front' | 'back' | 'left' | 'right' | 'top' | 'bottom'

/** Lines of a view, in the view's plane [m]. */
export interface ViewLines {
  readonly visible: readonly Span[]
  readonly hidden: readonly Span[]
  readonly circles: readonly { readonly centre: Point; readonly radius: number; readonly hidden: boolean }[]
  readonly hexagons: readonly { readonly centre: Point; readonly acrossFlats: number }[]
  /** middles of round things that are seen end on, and their largest diameter */
  readonly centres: readonly { readonly at: Point; readonly diameter: number }[]
  /** axes of round things that are seen from the side */
  readonly axes: readonly Span[]
  readonly outline: Rect
}

export interface ViewRequest {
  readonly scene: Scene
  readonly viewpoint: Viewpoint
  /** keys of the parts and hardware whose hidden edges are shown too */
  readonly showHidden: readonly string[]
}

/**
 * Projects a scene.
 *
 * Formula: parallel projection along an axis; a piece of edge is hidden where wood nearer to the viewer covers it
 * on both of its sides. Validity: exact for boxes; round things cover what lies behind by their square.
 * @param request scene, viewpoint and what hidden edges to show
 * @returns lines in the plane of the view [m]
 * @source common practice
 */
export function projectScene({ scene, viewpoint, showHidden }: ViewRequest): ViewLines {
  const look = lookFrom(viewpoint)
  const solids = [...scene.boxes, ...scene.rounds.map(roundBox)]
  const covers = solids.map((box) => coverOf(look, box))
  const lines = hiddenLines(covers)
  const shown = new Set(showHidden)
  for (const { key, a, b } of scene.edges) lines.add(look(a), look(b), shown.has(key))
  const circles: { centre: Point; radius: number; hidden: boolean }[] = []
  const hexagons: { centre: Point; acrossFlats: number }[] = []
  const centres: { at: Point; diameter: number }[] = []
  const axes: Span[] = []

  for (const bore of scene.bores) {
    const a = look(bore.a)
    const b = look(bore.b)
    const radius = bore.diameter / 2
    if (samePoint(a, b)) {
      const visible = lines.isCircleVisible(a, radius, Math.max(a.depth, b.depth))
      if (visible || shown.has(bore.key)) circles.push({ centre: flat(a), radius, hidden: !visible })
      if (visible) centres.push({ at: flat(a), diameter: bore.diameter })
    } else if (shown.has(bore.key)) {
      for (const [c, d] of sideLines(a, b, radius)) lines.add(c, d, true)
      axes.push({ a: flat(a), b: flat(b) })
    }
  }
  for (const round of scene.rounds) {
    const [from, to] = roundEnds(round)
    const a = look(from)
    const b = look(to)
    const radius = round.diameter / 2
    if (samePoint(a, b)) {
      if (!lines.isCircleVisible(a, radius, Math.max(a.depth, b.depth))) continue
      if (round.shape === 'hexagon') hexagons.push({ centre: flat(a), acrossFlats: round.diameter })
      else circles.push({ centre: flat(a), radius, hidden: false })
      centres.push({ at: flat(a), diameter: round.diameter })
    } else {
      for (const [c, d] of sideLines(a, b, radius)) lines.add(c, d, shown.has(round.key))
      if (round.key === 'rod')
        axes.push(...seenAxis(lines.seenOf(raised(a, radius), raised(b, radius)), round.diameter))
    }
  }
  return {
    visible: lines.visible(),
    hidden: lines.hidden(),
    circles,
    hexagons,
    centres: largestPerPoint(centres),
    axes,
    outline: boundsOf(covers),
  }
}

/** A point in the plane of the view, and how near it is to the viewer [m]. */
export interface SeenPoint extends Point {
  readonly depth: number
}

/** Which way the viewer sees the axes of the scene. */
export function lookFrom(viewpoint: Viewpoint): (point: Vec3) => SeenPoint {
  switch (viewpoint) {
    case 'front':
      return ({ x, y, z }) => ({ x, y: z, depth: -y })
    case 'back':
      return ({ x, y, z }) => ({ x: -x, y: z, depth: y })
    case 'right':
      return ({ x, y, z }) => ({ x: y, y: z, depth: x })
    case 'left':
      return ({ x, y, z }) => ({ x: -y, y: z, depth: -x })
    case 'top':
      return ({ x, y, z }) => ({ x, y, depth: z })
    case 'bottom':
      return ({ x, y, z }) => ({ x, y: -y, depth: -z })
  }
}

/** What a box covers in a view: a rectangle, and its face that is nearest to the viewer [m]. */
export interface Cover {
  readonly left: number
  readonly right: number
  readonly low: number
  readonly high: number
  readonly near: number
}

export function coverOf(look: (point: Vec3) => SeenPoint, { min, max }: Box): Cover {
  const a = look(min)
  const b = look(max)
  return {
    left: Math.min(a.x, b.x),
    right: Math.max(a.x, b.x),
    low: Math.min(a.y, b.y),
    high: Math.max(a.y, b.y),
    near: Math.max(a.depth, b.depth),
  }
}

function roundEnds({ axis, centre, from, to }: Round): readonly [Vec3, Vec3] {
  const [p, q] = centre
  const end = (at: number): Vec3 =>
    axis === 'x' ? { x: at, y: p, z: q } : axis === 'y' ? { x: p, y: at, z: q } : { x: p, y: q, z: at }
  return [end(from), end(to)]
}

function roundBox(round: Round): Box {
  const [a, b] = roundEnds(round)
  const r = round.diameter / 2
  const grow = { x: r, y: r, z: r, [round.axis]: 0 }
  return {
    min: { x: a.x - grow.x, y: a.y - grow.y, z: a.z - grow.z },
    max: { x: b.x + grow.x, y: b.y + grow.y, z: b.z + grow.z },
  }
}

/** A rod that only peeps through a gap gets no axis there. */
const seenAxis = (pieces: readonly Span[], diameter: number) =>
  pieces.filter(({ a, b }) => Math.abs(a.x - b.x) + Math.abs(a.y - b.y) > 2 * diameter)

/** The line on a round thing that is nearest to the viewer. */
const raised = (point: SeenPoint, radius: number): SeenPoint => ({ ...point, depth: point.depth + radius })

/** The four lines that show a round thing from the side. */
function sideLines(a: SeenPoint, b: SeenPoint, radius: number): readonly [SeenPoint, SeenPoint][] {
  const upright = Math.abs(a.x - b.x) < Math.abs(a.y - b.y)
  const shift = (point: SeenPoint, by: number): SeenPoint =>
    upright ? { ...point, x: point.x + by } : { ...point, y: point.y + by }
  const corners = [shift(a, -radius), shift(b, -radius), shift(b, radius), shift(a, radius)]
  return corners.map((corner, index) => [corner, corners[(index + 1) % 4]!])
}

function largestPerPoint(centres: readonly { at: Point; diameter: number }[]) {
  const largest = new Map<string, { at: Point; diameter: number }>()
  for (const one of centres) {
    const key = `${one.at.x.toFixed(6)} ${one.at.y.toFixed(6)}`
    const other = largest.get(key)
    if (!other || other.diameter < one.diameter) largest.set(key, one)
  }
  return [...largest.values()]
}

function boundsOf(covers: readonly Cover[]): Rect {
  const x = Math.min(...covers.map((cover) => cover.left))
  const y = Math.min(...covers.map((cover) => cover.low))
  return {
    x,
    y,
    width: Math.max(...covers.map((cover) => cover.right)) - x,
    height: Math.max(...covers.map((cover) => cover.high)) - y,
  }
}

const flat = ({ x, y }: Point): Point => ({ x, y })

const samePoint = (a: Point, b: Point) => Math.abs(a.x - b.x) + Math.abs(a.y - b.y) < 1e-9
