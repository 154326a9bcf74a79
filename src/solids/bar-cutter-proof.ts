/** Proof that a designed bar cutter goes together, swings through its whole way, cuts every slice free and lets go of it. */
import type { Finding } from '../findings.ts'
import { swung } from '../fixtures/bar-cutter/balance.ts'
import type { BarCutter, CutterWire } from '../fixtures/bar-cutter/types.ts'
import type { Part, Round } from '../geometry/part.ts'
import type { Box, Vec3 } from '../geometry/placement.ts'
import {
  between,
  boundsOf,
  contactsOf,
  cornersOf,
  deepestOfPairs,
  depthOf,
  type Face,
  overlapsOf,
  type Placed,
  type Proved,
  placedParts,
  placedRounds,
  TOLERANCE,
} from './proof-pieces.ts'
import type { Solid, Solids } from './solids.ts'

export interface BarCutterProof {
  /** pairs of solids that were held against each other, the frame closed */
  readonly pairs: number
  /** faces that have to touch and do */
  readonly contacts: number
  /** steps of the swing */
  readonly steps: number
  /** how much more than the true way a step takes in, at the farthest point; it leaves out nothing [m] */
  readonly stepExcess: number
  /** least room of the swinging frame to loaf, fence, end stop and platform; at most what is searched [m] */
  readonly frameClearance: number
  /** least room of a wire in its grooves and slots, straight and trailing [m] */
  readonly wireClearance: number
  readonly findings: readonly Finding[]
}

/** m; a gap is looked for as far as this */
const SEARCH = 0.01
/** rad; one step of the swing */
const STEP = (3 * Math.PI) / 180
/** sides of the prism round a wire or a round */
const SIDES = 12
/** pieces of the curve of a trailing wire */
const PIECES = 6
/** m; bars are lifted by this (common practice: over fence and end stop) */
const LIFT = 0.3
/** A driven pin is as thick as its hole; prisms that stand for both would share a skin. */
const DRIVEN = 0.98

/** A body without hollows by its corners in the closed frame. */
interface Swinging {
  readonly key: string
  readonly corners: readonly Vec3[]
}

/**
 * Proves one bar cutter.
 *
 *     no two solids share volume, the frame closed;  every joint touches on at least 0.9 of its face;
 *     pegs, pins and anchors share nothing with each other and sit in their holes: a button turns in its whole circle;
 *     the frame sweeps through nothing that stands, nor through the loaf, from open to closed;
 *     each wire sweeps through grooves and slots only, straight and trailing by its lag, and touches no other wire;
 *     closed and trailing it is out of the loaf;  with the frame open the loaf goes in and out along x and upwards
 *
 * The swing is cut into steps. Between two angles a, b a corner at distance r from the axis moves on an arc; the arc lies in
 * the triangle of its two ends and the point at r / cos((b - a) / 2) half way, so the hull of all three holds everything
 * between. A step misses nothing; it takes in up to r (1 / cos((b - a) / 2) - 1) more than is true, which is told as
 * `stepExcess`. Parts without hollows are assumed box by box; play of the hinge, glue and screws are left out.
 *
 * @param cutter as designed [m]
 * @param solids the workshop that makes and compares solids
 * @returns what was proved [m], and a stop for each pair that fails, with how deep they overlap [m]
 * @source common practice
 */
export function proveBarCutter(cutter: BarCutter, solids: Solids): BarCutterProof {
  const wood = placedParts(cutter.parts, solids)
  const swings = ({ key }: Placed): boolean => cutter.swinging.includes(key)
  const plate = (which: 'fixed' | 'swinging'): Placed[] =>
    cutter.plates[which].map(({ key, box }) => ({ key, solid: solids.box(box), boxes: [box], of: 'hinge' }))
  const knuckle = knuckleOf(cutter)
  const metal = placedRounds(cutter.rounds.map(asDriven), solids)
  const turning = solids.round(knuckle)
  const fixed: readonly Placed[] = [
    ...wood.filter((one) => !swings(one)),
    ...plate('fixed'),
    { key: knuckle.key, solid: turning, boxes: [turning.bounds], of: 'hinge' },
  ]
  const all = [...fixed, ...wood.filter(swings), ...plate('swinging'), ...metal]
  const loaf = loafBox(cutter)
  const frame: readonly Swinging[] = [
    ...[...wood.filter(swings), ...plate('swinging')].flatMap(({ key, boxes }) =>
      boxes.map((box) => ({ key, corners: cornersOf(box) })),
    ),
    ...cutter.rounds.map((round) => ({ key: round.key, corners: prismOf(round) })),
  ]
  const overlaps = overlapsOf(all, solids, meantToMeet)
  const touching = contactsOf(facesOf(cutter), all, solids)
  const swing = swingOf(cutter, frame, fixed, loaf, solids)
  const wires = wiresOf(cutter, fixed, [...wood.filter(swings), ...metal], loaf, solids)
  const out = barsOut(cutter, frame, fixed, loaf, solids)
  solids.free()
  return {
    pairs: (all.length * (all.length - 1)) / 2,
    contacts: touching.count,
    steps: swing.steps,
    stepExcess: swing.excess,
    frameClearance: swing.clearance,
    wireClearance: wires.clearance,
    findings: deepestOfPairs([
      ...overlaps,
      ...touching.findings,
      ...swing.findings,
      ...wires.findings,
      ...out,
    ]),
  }
}

const asDriven = <Any extends Round>(round: Any): Any =>
  round.key === 'wire-pin' ? { ...round, diameter: round.diameter * DRIVEN } : round

/** A screw bites into its pilot hole, a pin is driven into its own. */
const meantToMeet = (one: string, other: string): boolean =>
  [one, other].some((key) => key.startsWith('anchor-')) && [one, other].some((key) => key.endsWith('-rail'))

const knuckleOf = ({ hinge, frame, input }: BarCutter): Round => ({
  key: 'hinge-knuckle',
  shape: 'circle',
  axis: 'x',
  centre: [0, hinge.axis],
  diameter: input.hinge.knuckle,
  from: frame.x[0],
  to: frame.x[1],
})

/** As it lies, uncut; the wires make it longer as they go in. */
const loafBox = ({ loaf, platform }: BarCutter): Box => ({
  min: { x: 0, y: loaf.from, z: platform.top },
  max: { x: loaf.longest, y: loaf.to, z: platform.top + loaf.height },
})

/** What has to lie against what, across which axis, on how large a face [m2]. */
const facesOf = (cutter: BarCutter): readonly Face[] => {
  const size = (key: string): Part => {
    const part = cutter.parts.find((one) => one.key === key)
    if (!part) throw new Error(`The bar cutter has no ${key}.`)
    return part
  }
  const [riser, fence, stop, post, back, brace, rest, front] = [
    size('cutter-riser'),
    size('cutter-fence'),
    size('cutter-end-stop'),
    size('cutter-hinge-post'),
    size('cutter-back-stop'),
    size('cutter-brace'),
    size('cutter-rest'),
    size('cutter-front-rail'),
  ]
  const { frame, base, endStop, input } = cutter
  const lap = input.frame.armWidth
  const standing = ({ length, thickness }: Part): number => length * thickness
  const leaf = cutter.plates.fixed[0]!.box
  return [
    ['cutter-riser', 'cutter-base', 'z', standing(riser)],
    ['cutter-riser', 'cutter-platform', 'z', standing(riser)],
    ['cutter-fence', 'cutter-base', 'z', standing(fence)],
    ['cutter-fence', 'cutter-riser', 'y', riser.length * riser.width],
    ['cutter-end-stop', 'cutter-platform', 'z', standing(stop)],
    ['cutter-end-stop', 'cutter-platform', 'x', stop.length * endStop.dado],
    ['cutter-hinge-post', 'cutter-base', 'z', standing(post)],
    ['cutter-hinge-post', 'cutter-base', 'y', post.length * base.dado],
    ['cutter-back-stop', 'cutter-base', 'z', standing(back)],
    ['cutter-back-stop', 'cutter-base', 'y', back.length * base.dado],
    ['cutter-brace', 'cutter-base', 'z', standing(brace)],
    ['cutter-brace', 'cutter-back-stop', 'y', brace.width * brace.thickness],
    ['cutter-rest', 'cutter-base', 'z', standing(rest)],
    ['cutter-arm', 'cutter-rest', 'z', standing(rest)],
    ['cutter-arm', 'cutter-front-rail', 'z', lap * front.width],
    // each arm by its outer wall of the lap: both walls fit
    ['cutter-arm', 'cutter-front-rail', 'y', (lap * front.thickness) / 2],
    ['cutter-arm', 'cutter-back-rail', 'z', lap * (frame.backRail[1] - frame.backRail[0])],
    ['cutter-hinge-post', 'hinge-leaf', 'z', (leaf.max.x - leaf.min.x) * (leaf.max.y - leaf.min.y)],
  ]
}

/** Corners of a body at both ends of a step, and where the tangents of their ways meet. */
const stepPoints = (corners: readonly Vec3[], axis: number, from: number, to: number): readonly Vec3[] => {
  const middle = (from + to) / 2
  const out = 1 / Math.cos((to - from) / 2)
  return corners.flatMap(({ x, y, z }) => {
    const far = { y: y * out, z: axis + (z - axis) * out }
    return [
      { x, ...swung({ y, z }, axis, from) },
      { x, ...swung({ y, z }, axis, to) },
      { x, ...swung(far, axis, middle) },
    ]
  })
}

/** What may come near without harm: it is meant to lie against the frame at one end of the swing. */
const MEANT: ReadonlySet<string> = new Set([
  'cutter-rest',
  'cutter-back-stop',
  'cutter-hinge-post',
  'hinge-leaf',
  'hinge-knuckle',
])

const anglesOf = (angle: number): readonly (readonly [number, number])[] => {
  const steps = Math.max(1, Math.ceil(angle / STEP))
  return Array.from({ length: steps }, (_, index) => [(angle * index) / steps, (angle * (index + 1)) / steps])
}

const swingOf = (
  cutter: BarCutter,
  frame: readonly Swinging[],
  fixed: readonly Placed[],
  loaf: Box,
  solids: Solids,
): {
  readonly steps: number
  readonly excess: number
  readonly clearance: number
  readonly findings: readonly Finding[]
} => {
  const { axis } = cutter.hinge
  const angles = anglesOf(cutter.input.frame.openAngle)
  const standing: readonly Placed[] = [...fixed, { key: 'loaf', solid: solids.box(loaf), boxes: [loaf] }]
  let clearance = SEARCH
  const findings: Finding[] = []
  for (const [from, to] of angles)
    for (const { key, corners } of frame) {
      const points = stepPoints(corners, axis, from, to)
      const room = boundsOf(points)
      let swept: Solid | undefined
      for (const other of standing) {
        // A leaf turns about the knuckle that it is rolled into.
        if (key === 'hinge-leaf' && other.key === 'hinge-knuckle') continue
        const apart = Math.min(...other.boxes.map((box) => between(room, box)))
        const near = MEANT.has(other.key) ? -TOLERANCE : clearance
        if (apart >= near) continue
        swept ??= solids.hullOf(points)
        const shared = solids.overlap(swept, other.solid)
        const overlap = shared ? depthOf(shared.bounds) : 0
        if (overlap > TOLERANCE)
          findings.push({
            code: 'bar-cutter-frame-hits',
            severity: 'stop',
            values: { one: key, other: other.key, overlap },
          })
        if (!MEANT.has(other.key))
          clearance = shared ? 0 : Math.min(clearance, solids.gap(swept, other.solid, SEARCH))
      }
    }
  const [first, second] = angles[0]!
  return {
    steps: angles.length,
    excess: cutter.swing.radius * (1 / Math.cos((second - first) / 2) - 1),
    clearance,
    findings,
  }
}

/** A wire in the closed frame as pieces: straight, or with its middle trailing upwards behind the ends. */
const piecesOf = (cutter: BarCutter, wire: CutterWire, lag: number): readonly (readonly Vec3[])[] => {
  const { height } = cutter.wire
  const { diameter } = cutter.input.wire
  const front = cutter.frame.frontPins
  const back = cutter.frame.backPins
  const points = wire.path.flatMap(([x, y], index): Vec3[] => {
    const here = { x, y, z: height }
    if (index !== 1) return [here]
    // The second point is the front pin, the third the back one.
    return Array.from({ length: PIECES }, (_, piece) => {
      const share = piece / PIECES
      return { x, y: front + (back - front) * share, z: height + 4 * lag * share * (1 - share) }
    })
  })
  return points.slice(1).map((point, index) => capsule(points[index]!, point, diameter / 2))
}

/** Corners of a prism round a piece of wire, long enough for its round ends. */
const capsule = (a: Vec3, b: Vec3, radius: number): readonly Vec3[] => {
  const length = Math.hypot(b.x - a.x, b.y - a.y, b.z - a.z)
  const way = { x: (b.x - a.x) / length, y: (b.y - a.y) / length, z: (b.z - a.z) / length }
  // Wires lie flat or nearly so: one side of the prism is across them in the plane of the frame.
  const flat = Math.hypot(way.x, way.y)
  const side = { x: way.y / flat, y: -way.x / flat, z: 0 }
  const up = {
    x: side.y * way.z - side.z * way.y,
    y: side.z * way.x - side.x * way.z,
    z: side.x * way.y - side.y * way.x,
  }
  const outer = radius / Math.cos(Math.PI / SIDES)
  return [[a, -radius] as const, [b, radius] as const].flatMap(([end, more]) =>
    Array.from({ length: SIDES }, (_, index) => {
      const turn = ((2 * index + 1) * Math.PI) / SIDES
      const [c, s] = [outer * Math.cos(turn), outer * Math.sin(turn)]
      return {
        x: end.x + more * way.x + c * side.x + s * up.x,
        y: end.y + more * way.y + c * side.y + s * up.y,
        z: end.z + more * way.z + c * side.z + s * up.z,
      }
    }),
  )
}

const wiresOf = (
  cutter: BarCutter,
  fixed: readonly Placed[],
  carried: readonly Placed[],
  loaf: Box,
  solids: Solids,
): Proved => {
  const { axis } = cutter.hinge
  const { lag } = cutter.input.wire
  const angles = anglesOf(cutter.input.frame.openAngle)
  const findings: Finding[] = []
  let clearance = SEARCH
  const hit = (other: string, overlap: number): void => {
    findings.push({
      code: 'bar-cutter-wire-touches',
      severity: 'stop',
      values: { one: 'cutter-wire', other, overlap },
    })
  }
  const soap = solids.box(loaf)
  const still: (readonly Solid[])[] = []
  for (const wire of cutter.wires) {
    const straight = piecesOf(cutter, wire, 0)
    const bowed = piecesOf(cutter, wire, lag)
    for (const pieces of lag > 0 ? [straight, bowed] : [straight]) {
      const whole = cornersOf(boundsOf(pieces.flat()))
      for (const [from, to] of angles) {
        // Most of the way there is nothing near the wire at all.
        const around = boundsOf(stepPoints(whole, axis, from, to))
        const close = fixed.filter(({ boxes }) => boxes.some((box) => between(around, box) < clearance))
        if (close.length === 0) continue
        for (const corners of pieces) {
          const points = stepPoints(corners, axis, from, to)
          const room = boundsOf(points)
          let swept: Solid | undefined
          for (const other of close) {
            if (Math.min(...other.boxes.map((box) => between(room, box))) >= clearance) continue
            swept ??= solids.hullOf(points)
            const shared = solids.overlap(swept, other.solid)
            if (shared) {
              clearance = 0
              hit(other.key, depthOf(shared.bounds))
            } else clearance = Math.min(clearance, solids.gap(swept, other.solid, SEARCH))
          }
        }
      }
    }
    const closed = straight.map((corners) => solids.hullOf(corners))
    const loaded = bowed.map((corners) => solids.hullOf(corners))
    // Closed and still under load, every bit of it is below the underside of the loaf.
    for (const piece of loaded) {
      const shared = solids.overlap(piece, soap)
      if (shared)
        findings.push({
          code: 'bar-cutter-wire-stays-in-loaf',
          severity: 'stop',
          values: { one: 'cutter-wire', other: 'loaf', overlap: shared.bounds.max.z - loaf.min.z },
        })
    }
    // What it is carried by goes with it; what it is not meant to lie against it must not touch.
    for (const other of carried)
      if (other.of === undefined || !wire.held.includes(other.of))
        for (const piece of [...closed, ...loaded]) {
          const shared = solids.overlap(piece, other.solid)
          if (shared) hit(other.key, depthOf(shared.bounds))
        }
    for (const [index, before] of still.entries()) {
      const string = cutter.strings.find(({ wires }) => wires.includes(index))
      // Two cuts of one length are one wire: it goes on from the one to the other at the pins.
      if (string?.wires.includes(still.length)) continue
      for (const one of before)
        for (const other of closed) {
          const shared = solids.overlap(one, other)
          if (shared) hit('cutter-wire', depthOf(shared.bounds))
        }
    }
    still.push(closed)
  }
  return { clearance, findings }
}

/** With the frame open: in and out along the platform past its open end, and straight up. */
const barsOut = (
  cutter: BarCutter,
  frame: readonly Swinging[],
  fixed: readonly Placed[],
  loaf: Box,
  solids: Solids,
): Finding[] => {
  const { axis } = cutter.hinge
  const open = cutter.input.frame.openAngle
  const ways: readonly Box[] = [
    { min: loaf.min, max: { ...loaf.max, x: 2 * loaf.max.x } },
    { min: loaf.min, max: { ...loaf.max, z: loaf.max.z + LIFT } },
  ]
  const raised: readonly Placed[] = frame.map(({ key, corners }) => {
    const solid = solids.hullOf(corners.map(({ x, y, z }) => ({ x, ...swung({ y, z }, axis, open) })))
    return { key, solid, boxes: [solid.bounds] }
  })
  return ways.flatMap((way) => {
    const swept = solids.box(way)
    return [...fixed, ...raised].flatMap(({ key, solid }): Finding[] => {
      const shared = solids.overlap(swept, solid)
      const overlap = shared ? depthOf(shared.bounds) : 0
      return overlap > TOLERANCE
        ? [
            {
              code: 'bar-cutter-bars-do-not-come-out',
              severity: 'stop',
              values: { one: 'loaf', other: key, overlap },
            },
          ]
        : []
    })
  })
}

/** Corners of a prism that holds the round. */
const prismOf = ({ axis, centre, diameter, from, to }: Round): readonly Vec3[] => {
  const outer = diameter / 2 / Math.cos(Math.PI / SIDES)
  return [from, to].flatMap((along) =>
    Array.from({ length: SIDES }, (_, index): Vec3 => {
      const turn = ((2 * index + 1) * Math.PI) / SIDES
      const a = centre[0] + outer * Math.cos(turn)
      const b = centre[1] + outer * Math.sin(turn)
      if (axis === 'x') return { x: along, y: a, z: b }
      return axis === 'y' ? { x: a, y: along, z: b } : { x: a, y: b, z: along }
    }),
  )
}
