/**
 * Looks at a scene in isometric projection and keeps the lines that the viewer sees.
 */
import type { Round } from '../../geometry/part.ts'
import type { Vec3 } from '../../geometry/placement.ts'
import type { SeenPoint } from '../projection.ts'
import type { Bore, Scene } from '../scene.ts'
import { joinedIntervals, type Span } from '../spans.ts'
import type { Point, Rect } from '../types.ts'
import {
  acrossAxis,
  isometric,
  looksAtViewer,
  onRim,
  roundCorners,
  roundOutline,
  type Shadow,
  sceneShadows,
  seenPieces,
} from './shadows.ts'

/** A straight line in space [m]. */
export interface Path {
  readonly a: Vec3
  readonly b: Vec3
}

/** What is seen, in the plane of the view [m]. */
export interface AxonometricLines {
  /** edges of boxes; pieces on one line are joined */
  readonly visible: readonly Span[]
  /** seen pieces of rims, holes and round things, as chains of short straight ones */
  readonly curves: readonly (readonly Point[])[]
  /** seen pieces of the paths */
  readonly paths: readonly Span[]
  readonly outline: Rect
  readonly shadows: readonly Shadow[]
}

/**
 * Projects a scene isometrically, from the front, the right and above at once.
 *
 * Formula: every edge less what each solid hides of it; round things by their rims and the two lines along which
 * they turn away. Validity: exact for boxes and hexagons, rims and holes by 36 corners; solids must not run into
 * each other, and nothing is seen through a hole.
 * @param scene boxes, edges, holes and rounds [m]
 * @param paths further lines that solids hide in the same way [m]
 * @returns lines in the plane of the view [m]
 * @source common practice
 */
export function axonometricLines(scene: Scene, paths: readonly Path[] = []): AxonometricLines {
  const shadows = sceneShadows(scene)
  const pieces = ({ a, b }: Path): readonly Span[] => {
    const from = isometric(a)
    const to = isometric(b)
    return seenPieces(shadows, from, to).map(([start, end]) => ({
      a: between(from, to, start),
      b: between(from, to, end),
    }))
  }
  return {
    visible: joined(scene.edges.flatMap(pieces)),
    curves: [
      ...[...scene.bores.flatMap(mouths), ...scene.rounds.flatMap(rims)].flatMap((ring) =>
        chains(ring.flatMap((a, index) => pieces({ a, b: ring[(index + 1) % ring.length]! }))),
      ),
      ...scene.rounds.flatMap(turningEdges).flatMap((edge) => pieces(edge).map(({ a, b }) => [a, b])),
    ],
    paths: paths.flatMap(pieces),
    outline: outlineOf(shadows),
    shadows,
  }
}

const between = (a: SeenPoint, b: SeenPoint, share: number): Point => ({
  x: a.x + (b.x - a.x) * share,
  y: a.y + (b.y - a.y) * share,
})

/** Edges along the axis: all six of a hexagon, of a round thing the two where it turns away from the viewer. */
function turningEdges(round: Round): readonly Path[] {
  const corners = roundOutline(round)
  const step = Math.PI / corners.length
  const looks = (angle: number) =>
    looksAtViewer({ normal: acrossAxis(round, [Math.cos(angle), Math.sin(angle)], 0) })
  return corners
    .filter((angle) => round.shape === 'hexagon' || looks(angle - step) !== looks(angle + step))
    .map((angle) => ({ a: onRim(round, angle, round.from), b: onRim(round, angle, round.to) }))
}

const rims = (round: Round): readonly (readonly Vec3[])[] =>
  [round.from, round.to].map((at) => roundOutline(round).map((angle) => onRim(round, angle, at)))

/** The two circles in which a hole ends; a face that looks away hides its own. */
function mouths({ key, a, b, diameter }: Bore): readonly (readonly Vec3[])[] {
  const axis = a.x !== b.x ? 'x' : a.y !== b.y ? 'y' : 'z'
  return [a, b].map((middle) => {
    const { x, y, z } = middle
    const centre: readonly [number, number] = axis === 'x' ? [y, z] : axis === 'y' ? [x, z] : [x, y]
    const ring: Round = {
      key,
      shape: 'circle',
      axis,
      centre,
      diameter,
      from: middle[axis],
      to: middle[axis],
    }
    return Array.from({ length: roundCorners }, (_, index) =>
      onRim(ring, (2 * Math.PI * index) / roundCorners, middle[axis]),
    )
  })
}

/** Strings pieces together that follow each other, also from the last to the first. */
function chains(pieces: readonly Span[]): readonly (readonly Point[])[] {
  const result: Point[][] = []
  for (const { a, b } of pieces) {
    const last = result[result.length - 1]
    if (last && isSame(last[last.length - 1]!, a)) last.push(b)
    else result.push([a, b])
  }
  const first = result[0]
  const last = result[result.length - 1]
  if (first && last && first !== last && isSame(last[last.length - 1]!, first[0]!))
    return [[...last, ...first.slice(1)], ...result.slice(1, -1)]
  return result
}

const isSame = (a: Point, b: Point): boolean => Math.abs(a.x - b.x) + Math.abs(a.y - b.y) < sameLine

const sameLine = 1e-6 // m, far below what a line on paper can show

/** A line that two parts share is drawn once: a laser would burn it twice. */
function joined(spans: readonly Span[]): readonly Span[] {
  const lines = new Map<string, { way: Point; off: number; pieces: [number, number][] }>()
  for (const { a, b } of spans) {
    const way = wayOf(a, b)
    const off = a.y * way.x - a.x * way.y
    const key = `${way.name} ${Math.round(off / sameLine)}`
    const ends = [a.x * way.x + a.y * way.y, b.x * way.x + b.y * way.y].sort((p, q) => p - q)
    const line = lines.get(key) ?? { way, off, pieces: [] }
    line.pieces.push([ends[0]!, ends[1]!])
    lines.set(key, line)
  }
  return [...lines.values()].flatMap(({ way, off, pieces }) =>
    joinedIntervals(pieces).map(([from, to]) => ({
      a: { x: from * way.x - off * way.y, y: from * way.y + off * way.x },
      b: { x: to * way.x - off * way.y, y: to * way.y + off * way.x },
    })),
  )
}

/** Edges run along the three axes, which stand upright and 30 degrees above the level on either side. */
function wayOf(a: Point, b: Point): Point & { readonly name: string } {
  const rise = (b.y - a.y) * Math.sign(b.x - a.x)
  if (Math.abs(b.x - a.x) < Math.abs(b.y - a.y) / 2) return { name: 'z', x: 0, y: 1 }
  const x = Math.sqrt(3) / 2
  return rise > 0 ? { name: 'y', x, y: 0.5 } : { name: 'x', x, y: -0.5 }
}

function outlineOf(shadows: readonly Shadow[]): Rect {
  const x = Math.min(...shadows.map(({ left }) => left))
  const y = Math.min(...shadows.map(({ low }) => low))
  return {
    x,
    y,
    width: Math.max(...shadows.map(({ right }) => right)) - x,
    height: Math.max(...shadows.map(({ high }) => high)) - y,
  }
}
