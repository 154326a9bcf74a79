/** Solids of parts and hardware, with booleans and gaps by a solid-modelling library; the only import of it. */
import loadLibrary, { type Manifold } from 'manifold-3d'
import { cutBoxes } from '../geometry/cells.ts'
import { type Hole, isHole, type Part, type Round } from '../geometry/part.ts'
import { type Box, type Placement, placePoint, type Vec3 } from '../geometry/placement.ts'

/** A solid in the assembly frame; sizes in metres on the outside of this file. */
export interface Solid {
  readonly bounds: Box
  readonly body: Manifold
}

export interface Solids {
  readonly part: (part: Part, placement: Placement) => Solid
  /** with the circle inside the many-sided prism, so that what passes really passes */
  readonly round: (round: Round) => Solid
  readonly box: (box: Box) => Solid
  /** a straight piece of wire with round ends, never thinner than its diameter [m] */
  readonly capsule: (a: Vec3, b: Vec3, diameter: number) => Solid
  /** the room that a convex solid sweeps when it goes straight from each of these places to each other */
  readonly hull: (places: readonly Solid[]) => Solid
  readonly moved: (of: Solid, by: Vec3) => Solid
  /** volume that two share [m3], and the box round it; undefined where they share none */
  readonly overlap: (a: Solid, b: Solid) => { readonly volume: number; readonly bounds: Box } | undefined
  /** area on which a rests against b when it is pushed in a direction [m2] */
  readonly contact: (a: Solid, b: Solid, towards: Vec3) => number
  /** least distance [m]; at most the distance that is searched */
  readonly gap: (a: Solid, b: Solid, search: number) => number
  /** the smallest body without hollows that holds all points [m] */
  readonly hullOf: (points: readonly Vec3[]) => Solid
  /** gives back the memory of every solid made so far; bodies of parts are kept for the next proof */
  readonly free: () => void
}

/** The library is at its best with numbers near one: millimetres inside. */
const MM = 1000
/** Sides of a prism that stands for a round. */
const SIDES = 48
/** Sides round the ball at the end of a wire. */
const BALL = 16
/** Bodies of parts that are kept: all fixtures of a shop have fewer. */
const MOST_BODIES = 200
/** Less than this is not shared: touching faces come out at a few 1e-10 [mm3]. */
const NOTHING = 1e-3
/** A push this far turns a contact into an overlap [mm]. */
const PUSH = 0.01

/** @returns the solids' workshop; the library is loaded once for each call */
export const loadSolids = async (): Promise<Solids> => {
  const library = await loadLibrary()
  library.setup()
  const { Manifold } = library
  const made: Manifold[] = []
  const keep = (body: Manifold): Manifold => {
    made.push(body)
    return body
  }
  const solid = (body: Manifold): Solid => {
    const { min, max } = body.boundingBox()
    return { body, bounds: { min: metres(min), max: metres(max) } }
  }
  const block = ({ min, max }: Box): Manifold =>
    keep(
      keep(Manifold.cube([MM * (max.x - min.x), MM * (max.y - min.y), MM * (max.z - min.z)])).translate([
        MM * min.x,
        MM * min.y,
        MM * min.z,
      ]),
    )
  const less = (from: Manifold, cut: Manifold): Manifold => keep(from.subtract(cut))

  /** Prisms inside the circles: a hole is never larger than it is drilled. */
  const drilled = (part: Part, { u, v, diameter, counterbore }: Hole): Manifold[] => {
    const prism = (across: number, from: number, to: number): Manifold =>
      keep(
        keep(Manifold.cylinder(MM * (to - from), (MM * across) / 2, -1, SIDES)).translate([
          MM * u,
          MM * v,
          MM * from,
        ]),
      )
    const through = prism(diameter, -OVER, part.thickness + OVER)
    if (!counterbore) return [through]
    const [from, to] =
      counterbore.face === 'lower'
        ? [-OVER, counterbore.depth]
        : [part.thickness - counterbore.depth, part.thickness + OVER]
    return [through, prism(counterbore.diameter, from, to)]
  }

  /** By all that shapes them, and kept from proof to proof: a cutter is tried on its mould, a press on its cutter. */
  const bodies = new Map<string, Manifold>()
  /** Copies of a part are one body in several places. */
  const partBody = (part: Part): Manifold => {
    const shape = JSON.stringify([part.length, part.width, part.thickness, part.features])
    const before = bodies.get(shape)
    if (before) return before
    const body = cutOut(part)
    made.splice(made.lastIndexOf(body), 1)
    for (const [oldest, old] of bodies) {
      if (bodies.size < MOST_BODIES) break
      bodies.delete(oldest)
      keep(old)
    }
    bodies.set(shape, body)
    return body
  }
  const cutOut = (part: Part): Manifold => {
    let body = block({ min: ORIGIN, max: { x: part.length, y: part.width, z: part.thickness } })
    for (const box of cutBoxes(part)) body = less(body, block(grown(part, box)))
    for (const feature of part.features) {
      if (isHole(feature)) for (const prism of drilled(part, feature)) body = less(body, prism)
      else if (feature.kind === 'chamfer')
        for (const wedge of chamferWedges(part, feature)) body = less(body, keep(Manifold.hull(wedge)))
    }
    return body
  }

  return {
    part: (part, placement) => {
      const at = (x: number, y: number, z: number): [number, number, number] => {
        const point = placePoint(placement, { x, y, z })
        return [point.x, point.y, point.z]
      }
      const origin = at(0, 0, 0)
      const column = (end: readonly number[]): number[] => end.map((value, i) => value - (origin[i] ?? 0))
      const [u, v, w] = [column(at(1, 0, 0)), column(at(0, 1, 0)), column(at(0, 0, 1))]
      const moved = keep(
        partBody(part).transform([
          ...(u as [number, number, number]), 0,
          ...(v as [number, number, number]), 0,
          ...(w as [number, number, number]), 0,
          MM * origin[0], MM * origin[1], MM * origin[2], 1,
        ]), // biome-ignore format: a matrix reads better in rows
      )
      return solid(moved)
    },
    round: ({ shape, axis, centre, diameter, from, to }) => {
      const sides = shape === 'hexagon' ? 6 : SIDES
      // flats, or the circle, inside the prism
      const radius = (MM * diameter) / 2 / Math.cos(Math.PI / sides)
      const prism = keep(Manifold.cylinder(MM * (to - from), radius, -1, sides))
      const [a, b] = [MM * centre[0], MM * centre[1]]
      if (axis === 'z') return solid(keep(prism.translate([a, b, MM * from])))
      if (axis === 'x') return solid(keep(keep(prism.rotate([0, 90, 0])).translate([MM * from, a, b])))
      return solid(keep(keep(prism.rotate([-90, 0, 0])).translate([a, MM * from, b])))
    },
    box: (box) => solid(block(box)),
    capsule: (a, b, diameter) => {
      // many-sided outside of the ball, as the prisms are
      const ball = keep(Manifold.sphere((MM * diameter) / 2 / Math.cos(Math.PI / BALL) ** 2, BALL))
      const ends = [a, b].map(({ x, y, z }) => keep(ball.translate([MM * x, MM * y, MM * z])))
      return solid(keep(Manifold.hull(ends)))
    },
    hull: (places) => solid(keep(Manifold.hull(places.map(({ body }) => body)))),
    moved: ({ body }, { x, y, z }) => solid(keep(body.translate([MM * x, MM * y, MM * z]))),
    overlap: (a, b) => {
      if (apart(a.bounds, b.bounds)) return undefined
      const shared = keep(a.body.intersect(b.body))
      const volume = shared.volume()
      if (volume < NOTHING) return undefined
      return { volume: volume / MM ** 3, bounds: solid(shared).bounds }
    },
    contact: (a, b, towards) => {
      const pushed = keep(a.body.translate([PUSH * towards.x, PUSH * towards.y, PUSH * towards.z]))
      return Math.max(0, keep(pushed.intersect(b.body)).volume()) / PUSH / MM ** 2
    },
    gap: (a, b, search) =>
      betweenBoxes(a.bounds, b.bounds) >= search ? search : a.body.minGap(b.body, MM * search) / MM,
    hullOf: (points) =>
      solid(
        keep(Manifold.hull(points.map(({ x, y, z }): [number, number, number] => [MM * x, MM * y, MM * z]))),
      ),
    free: () => {
      for (const body of made.splice(0)) body.delete()
    },
  }
}

const ORIGIN: Vec3 = { x: 0, y: 0, z: 0 }
/** Cuts reach this far past a face, so that no skin of no thickness is left [m]. */
const OVER = 0.001

const metres = ([x, y, z]: readonly [number, number, number]): Vec3 => ({ x: x / MM, y: y / MM, z: z / MM })

/** Boxes that share no volume to speak of; those that only touch are apart. */
const apart = (a: Box, b: Box): boolean => betweenBoxes(a, b) > -TOUCHING

/** Distance along the axis in which two boxes are furthest apart; below 0 where they share volume [m]. */
const betweenBoxes = (a: Box, b: Box): number =>
  Math.max(
    Math.max(a.min.x, b.min.x) - Math.min(a.max.x, b.max.x),
    Math.max(a.min.y, b.min.y) - Math.min(a.max.y, b.max.y),
    Math.max(a.min.z, b.min.z) - Math.min(a.max.z, b.max.z),
  )

/** m; a hundredth of a micrometre */
const TOUCHING = 1e-8

/** A channel's box, let out of the faces and edges of the panel that it opens to. */
const grown = (part: Part, { min, max }: Box): Box => {
  const size: Vec3 = { x: part.length, y: part.width, z: part.thickness }
  const low = (key: keyof Vec3): number => (min[key] <= 0 ? -OVER : min[key])
  const high = (key: keyof Vec3): number => (max[key] >= size[key] ? size[key] + OVER : max[key])
  return {
    min: { x: low('x'), y: low('y'), z: low('z') },
    max: { x: high('x'), y: high('y'), z: high('z') },
  }
}

type Point = [number, number, number]

/** The four prisms that a 45 degree bevel takes off the arrises of two opposite edges [mm]. */
const chamferWedges = (
  part: Part,
  chamfer: { readonly edges: 'short' | 'long'; readonly size: number },
): Point[][] => {
  const across = chamfer.edges === 'short' ? part.length : part.width
  const along = chamfer.edges === 'short' ? part.width : part.length
  const point = (a: number, l: number, w: number): Point =>
    chamfer.edges === 'short' ? [MM * a, MM * l, MM * w] : [MM * l, MM * a, MM * w]
  const { size } = chamfer
  return [
    [0, 1],
    [across, -1],
  ].flatMap(([edge = 0, inwards = 1]) =>
    [
      [0, 1],
      [part.thickness, -1],
    ].map(([face = 0, up = 1]) =>
      [-OVER, along + OVER].flatMap((l) => [
        point(edge + inwards * size, l, face - up * OVER),
        point(edge - inwards * OVER, l, face - up * OVER),
        point(edge - inwards * OVER, l, face + up * size),
        point(edge + inwards * size, l, face),
        point(edge, l, face + up * size),
      ]),
    ),
  )
}
