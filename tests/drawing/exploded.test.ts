import { describe, expect, it } from 'vitest'
import { itemNumbers } from '../../src/drawing/exploded/apart.ts'
import { axonometricLines, type Path } from '../../src/drawing/exploded/axonometric.ts'
import { balloonRadius, leaderEnd, placeBalloons } from '../../src/drawing/exploded/balloons.ts'
import { explodedDrawing, explodedView, placesSeen } from '../../src/drawing/exploded/exploded-drawing.ts'
import { type Piece, pieceDistance, pointDistance } from '../../src/drawing/exploded/pieces.ts'
import { isometric } from '../../src/drawing/exploded/shadows.ts'
import { thinnedLines } from '../../src/drawing/exploded/thin-lines.ts'
import { segments } from '../../src/drawing/mark-bounds.ts'
import { mouldApart } from '../../src/drawing/mould/mould-apart.ts'
import type { Scene } from '../../src/drawing/scene.ts'
import { designBlockMould } from '../../src/fixtures/block-mould.ts'
import type { BlockMould } from '../../src/fixtures/mould-types.ts'
import type { Round } from '../../src/geometry/part.ts'
import type { Box, Vec3 } from '../../src/geometry/placement.ts'
import {
  crowdedMouldInput,
  demoMouldInput,
  linedMouldInput,
  tinyMouldInput,
} from '../fixtures/mould-input.ts'
import { leastProcessorTime } from '../processor-time.ts'

const origin: Vec3 = { x: 0, y: 0, z: 0 }
const axes: readonly Vec3[] = [
  { x: 1, y: 0, z: 0 },
  { x: 0, y: -1, z: 0 },
  { x: 0, y: 0, z: 1 },
]

describe('published: ISO 5456-3, isometric axonometry (from memory), and trigonometry', () => {
  it('shortens each axis by sqrt(2/3) = 0.816', () => {
    for (const axis of axes) {
      const { x, y } = isometric(axis)
      expect(Math.hypot(x, y)).toBeCloseTo(0.8164965809, 9)
    }
  })

  it('sets the three axes 120 degrees apart, height upright and length 30 degrees below the level', () => {
    const angles = axes.map((axis) => {
      const { x, y } = isometric(axis)
      return (Math.atan2(y, x) * 180) / Math.PI
    })
    expect(angles[0]).toBeCloseTo(-30, 9)
    expect(angles[1]).toBeCloseTo(-150, 9)
    expect(angles[2]).toBeCloseTo(90, 9)
  })

  it('draws a circle on a face as an ellipse with axes 1 and 1/sqrt(3) of the diameter', () => {
    // the long axis of an isometric ellipse is the diameter itself, the short one 0.577 of it
    const ring = [...Array(720)].map((_, index) => (index * Math.PI) / 360)
    const reach = ring.map((angle) => {
      const { x, y } = isometric({ x: Math.cos(angle), y: 0, z: Math.sin(angle) })
      return Math.hypot(x, y)
    })
    expect(Math.max(...reach)).toBeCloseTo(1, 4)
    expect(Math.min(...reach)).toBeCloseTo(1 / Math.sqrt(3), 4)
  })
})

type KeyedBox = Scene['boxes'][number]

const boxAt = (key: string, min: Vec3, max: Vec3): KeyedBox => ({ key, min, max })

const sceneOf = (boxes: readonly KeyedBox[], rounds: readonly Round[] = []): Scene => ({
  boxes,
  edges: boxes.flatMap(edgesOf),
  bores: [],
  rounds,
})

function edgesOf({ key, min, max }: KeyedBox) {
  const corner = (bits: number): Vec3 => ({
    x: bits & 1 ? max.x : min.x,
    y: bits & 2 ? max.y : min.y,
    z: bits & 4 ? max.z : min.z,
  })
  return [...Array(8).keys()].flatMap((bits) =>
    [1, 2, 4].flatMap((bit) => (bits & bit ? [] : [{ key, a: corner(bits), b: corner(bits | bit) }])),
  )
}

const lengthOf = ({ a, b }: Piece) => Math.hypot(b.x - a.x, b.y - a.y)
const total = (lines: readonly Piece[]) => lines.reduce((sum, line) => sum + lengthOf(line), 0)
const foreshortening = Math.sqrt(2 / 3)

describe('by hand: what hides what', () => {
  it('shows nine of the twelve edges of a box', () => {
    const { visible } = axonometricLines(sceneOf([boxAt('one', origin, { x: 3, y: 2, z: 1 })]))
    // the three that meet at the far corner (0, 2, 0) are hidden: 3 of each direction are left
    expect(visible).toHaveLength(9)
    expect(total(visible)).toBeCloseTo(3 * (3 + 2 + 1) * foreshortening, 9)
  })

  it('hides exactly the piece of an edge that a nearer box covers', () => {
    // A path along x at y = 5, z = 0 behind the unit box [0..1] x [0..1] x [0..1]. From (x, 5, 0) the way to the viewer
    // is (x + t, 5 - t, t). It is in the box for y where 4 <= t <= 5, but there z = t > 1: seen all along.
    // At z = -3.5 it passes the box at t where 4 <= t <= 5 (y), 3.5 <= t <= 4.5 (z), so 4 <= t <= 4.5, and needs
    // 0 <= x + t <= 1: some t of that range exists for -4.5 <= x <= -3. Hidden: 1.5 of the length, from -4.5 to -3.
    const scene = sceneOf([boxAt('near', origin, { x: 1, y: 1, z: 1 })])
    const path = (z: number): Path => ({ a: { x: -10, y: 5, z }, b: { x: 10, y: 5, z } })
    expect(axonometricLines(scene, [path(0)]).paths).toHaveLength(1)
    const { paths } = axonometricLines(scene, [path(-3.5)])
    expect(paths).toHaveLength(2)
    const along = (x: number) => isometric({ x, y: 5, z: -3.5 }).x
    expect(paths[0]!.b.x).toBeCloseTo(along(-4.5), 9)
    expect(paths[1]!.a.x).toBeCloseTo(along(-3), 9)
    // in front of the box, at y = -5, the same line hides nothing and is not hidden
    const before: Path = { a: { x: -10, y: -5, z: 0.5 }, b: { x: 10, y: -5, z: 0.5 } }
    expect(axonometricLines(scene, [before]).paths).toHaveLength(1)
  })

  it('hides a box partly behind another by the length that arithmetic gives', () => {
    // Back: [0..4] x [2..3] x [0..1]. Front: [0..1] x [0..1] x [0..1]. From the back's front face (x, 2, z) the way is
    // (x + t, 2 - t, z + t), within the front box for 1 <= t <= 2, 0 <= x + t <= 1 and z + t <= 1: only x = z = 0
    // touches. So all nine edges of both are seen whole.
    const back = boxAt('back', { x: 0, y: 2, z: 0 }, { x: 4, y: 3, z: 1 })
    const front = boxAt('front', origin, { x: 1, y: 1, z: 1 })
    const whole = 3 * (4 + 1 + 1) * foreshortening + 9 * foreshortening
    expect(total(axonometricLines(sceneOf([back, front])).visible)).toBeCloseTo(whole, 9)
    // With the front box 3 wide, standing at x = 1..4 and 1.5 high, (x, 2, z) is hidden where some 1 <= t <= 2 has
    // 1 <= x + t <= 4 and z + t <= 1.5. Lower front edge (z = 0): t from 1 to 1.5, so 1 - 1.5 <= x <= 4 - 1: of its
    // 0 to 4 it is hidden from 0 to 3. Upper front edge (z = 1): no t: seen. Left front edge (x = 0): hidden for
    // z <= 1.5 - 1 = 0.5. Right front edge (x = 4): needs t <= 0: seen. The end and all of the top: seen.
    // Left out are 3 and 0.5; the front box shows its nine edges.
    const wide = boxAt('front', { x: 1, y: 0, z: 0 }, { x: 4, y: 1, z: 1.5 })
    const left = 3 * (4 + 1 + 1) + 3 * (3 + 1 + 1.5) - 3 - 0.5
    expect(total(axonometricLines(sceneOf([back, wide])).visible)).toBeCloseTo(left * foreshortening, 9)
  })

  it('draws one line where two boxes share an edge', () => {
    const low = boxAt('low', origin, { x: 1, y: 1, z: 1 })
    const high = boxAt('high', { x: 0, y: 0, z: 1 }, { x: 1, y: 1, z: 2 })
    // a tower of 1 x 1 x 2 has nine edges, and the joint adds two
    const { visible } = axonometricLines(sceneOf([low, high]))
    expect(total(visible)).toBeCloseTo((3 * (1 + 1 + 2) + 2) * foreshortening, 9)
  })

  it('shows a rod by its front end, half of its far end, and two lines', () => {
    const rod: Round = {
      key: 'rod',
      shape: 'circle',
      axis: 'y',
      centre: [0, 0],
      diameter: 0.02,
      from: 0,
      to: 0.3,
    }
    const { curves } = axonometricLines(sceneOf([], [rod]))
    const closed = curves.filter((points) => points.length === 37)
    const open = curves.filter((points) => points.length > 2 && points.length < 37)
    expect(closed).toHaveLength(1)
    expect(open).toHaveLength(1)
    expect(open[0]).toHaveLength(19)
    const sides = curves.filter((points) => points.length === 2)
    expect(sides).toHaveLength(2)
    for (const [a, b] of sides) expect(lengthOf({ a: a!, b: b! })).toBeCloseTo(0.3 * foreshortening, 9)
    // the lines stand a diameter apart: a cylinder is as wide as it is, seen from anywhere
    const [one, two] = sides.map(([a, b]) => ({ a: a!, b: b! }))
    expect(pieceDistance(one!, two!)).toBeCloseTo(0.02, 3)
  })

  it('shows a nut as a hexagonal prism: six edges in front, three behind, four between', () => {
    const nut: Round = {
      key: 'nut',
      shape: 'hexagon',
      axis: 'y',
      centre: [0, 0],
      diameter: 0.011,
      from: 0,
      to: 0.005,
    }
    const { curves } = axonometricLines(sceneOf([], [nut]))
    const across = curves.filter((points) => points.length === 2)
    const ring = curves.filter((points) => points.length === 7)
    const behind = curves.filter((points) => points.length === 4)
    expect([ring.length, behind.length, across.length]).toEqual([1, 1, 4])
    // measured across its flats, so 11 / cos 30 degrees = 12.7017 mm across its corners, which lie along x: on paper
    // these are 12.7017 sqrt(2/3) apart
    const [corner, , , opposite] = ring[0]!
    expect(lengthOf({ a: corner!, b: opposite! })).toBeCloseTo(0.0127017 * foreshortening, 7)
  })
})

describe('by hand: narrow things get one line', () => {
  it('keeps the longer of two lines that lie close, and what the other has beyond it', () => {
    const long = { a: { x: 0, y: 0 }, b: { x: 10, y: 0 } }
    const close = { a: { x: 5, y: 0.4 }, b: { x: 14, y: 0.4 } }
    const far = { a: { x: 0, y: 1 }, b: { x: 3, y: 1 } }
    const left = thinnedLines([close, long, far], 0.6)
    // 10 of the long one, 14 - 10 of the close one, all 3 of the far one
    expect(total(left)).toBeCloseTo(17, 9)
    expect(left).toHaveLength(3)
    expect(thinnedLines([close], 0.6, [long])).toEqual([{ a: { x: 10, y: 0.4 }, b: { x: 14, y: 0.4 } }])
  })
})

describe('by hand: balloons around forty made-up drawings', () => {
  const frame: readonly Piece[] = [
    { a: { x: 0, y: 0 }, b: { x: 90, y: 0 } },
    { a: { x: 90, y: 0 }, b: { x: 120, y: 120 } },
    { a: { x: 120, y: 120 }, b: { x: 30, y: 110 } },
    { a: { x: 30, y: 110 }, b: { x: 0, y: 0 } },
  ]
  // a linear congruential generator, so that every run tries the same drawings
  let state = 1
  const next = () => {
    state = (state * 1103515245 + 12345) % 2147483648
    return state / 2147483648
  }
  const drawings = Array.from({ length: 40 }, () => {
    const dots: { x: number; y: number }[] = []
    while (dots.length < 12) {
      const y = 5 + 100 * next()
      const dot = { x: 30 + 60 * next(), y }
      if (dots.every((other) => Math.hypot(other.x - dot.x, other.y - dot.y) > 6)) dots.push(dot)
    }
    return placeBalloons(
      dots.map((dot, index) => ({ key: `${index}`, number: index + 1, dots: [dot] })),
      frame,
    )
  })

  it('crosses no leaders, covers no balloon and lays none on another', () => {
    for (const balloons of drawings)
      balloons.forEach((one, index) => {
        const leader = { a: one.dot, b: leaderEnd(one) }
        balloons.forEach((two, other) => {
          if (other === index) return
          expect(pieceDistance(leader, { a: two.dot, b: leaderEnd(two) })).toBeGreaterThan(1)
          expect(pointDistance(two.centre, leader)).toBeGreaterThan(balloonRadius)
          expect(Math.hypot(one.centre.x - two.centre.x, one.centre.y - two.centre.y)).toBeGreaterThan(10)
        })
      })
  })
})

/** With parts that the table of moves names although no mould has them yet, and one that it does not name. */
function withStrips(mould: BlockMould): BlockMould {
  const baseTop = mould.parts.find(({ key }) => key === 'base-top')!
  const flat = (key: string, z: number) => ({
    ...baseTop,
    key,
    features: [],
    thickness: 0.003,
    placements: baseTop.placements.map((one) => ({
      ...one,
      origin: { ...one.origin, z: mould.base.height + z },
    })),
  })
  return {
    ...mould,
    parts: [...mould.parts, flat('strip-long', 0), flat('strip-short', 0.003), flat('lining-base', 0.006)],
  }
}

const box = { width: 175, height: 220 }
const cases: readonly (readonly [string, BlockMould])[] = [
  ['demo', designBlockMould(demoMouldInput)],
  ['tiny', designBlockMould(tinyMouldInput)],
  ['dense', designBlockMould(crowdedMouldInput)],
  ['demo with further parts', withStrips(designBlockMould(demoMouldInput))],
  ['lined', designBlockMould(linedMouldInput)],
]

describe.each(cases)('by hand: %s drawn apart', (_, mould) => {
  const drawing = explodedDrawing(mouldApart(mould), { box, label: 'Mould drawn apart', scaleWord: 'Scale' })
  const exploded = mouldApart(mould)
  const { scene } = exploded
  const lines = axonometricLines(scene, exploded.paths)
  const view = explodedView(placesSeen(exploded, lines), lines, drawing.scale)
  const leaders = view.balloons.map((balloon) => ({ a: balloon.dot, b: leaderEnd(balloon) }))

  it('overlaps nowhere in space', () => {
    const solids = [...scene.boxes, ...scene.rounds.map(boxAround)]
    solids.forEach((a, index) => {
      for (const b of solids.slice(index + 1)) expect(overlap(a, b), `${a.key} and ${b.key}`).toBe(false)
    })
  })

  it('fits the box', () => {
    expect(drawing.widthMm).toBeLessThanOrEqual(box.width)
    expect(drawing.heightMm).toBeLessThanOrEqual(box.height)
    expect(drawing.svg).not.toMatch(/NaN|Infinity|undefined|\d\.\d{4,}|[MLA]-/)
    expect(drawing.dimensions).toEqual([])
  })

  it('numbers each kind once', () => {
    const keys = [...mould.parts.map(({ key }) => key), 'rod', 'washer', 'nut']
    expect(view.balloons.map(({ key, number }) => [key, number])).toEqual(
      keys.map((key, index) => [key, index + 1]),
    )
    expect([...itemNumbers(mould)]).toEqual(keys.map((key, index) => [key, index + 1]))
    for (const { number } of view.balloons) expect(drawing.svg).toContain(`>${number}</text>`)
  })

  it('keeps balloons clear of each other, of the drawing and of all leaders but their own', () => {
    const drawn = [...view.outlines, ...view.paths].flatMap(segments)
    view.balloons.forEach(({ number, centre }, index) => {
      for (const other of view.balloons.slice(index + 1))
        expect(
          Math.hypot(centre.x - other.centre.x, centre.y - other.centre.y),
          `${number} and ${other.number}`,
        ).toBeGreaterThan(2 * balloonRadius + 1)
      for (const line of drawn)
        expect(pointDistance(centre, line), `${number}`).toBeGreaterThan(balloonRadius + 1)
      leaders.forEach((leader, other) => {
        if (other !== index) expect(pointDistance(centre, leader)).toBeGreaterThan(balloonRadius)
      })
    })
  })

  it('crosses no two leaders', () => {
    leaders.forEach((a, index) => {
      for (const b of leaders.slice(index + 1)) expect(pieceDistance(a, b)).toBeGreaterThan(1)
    })
  })

  it('ends each leader on a face of its own part that the viewer sees', () => {
    for (const { key, point, dot } of view.balloons) {
      const own = [...scene.boxes, ...scene.rounds.map(boxAround)].filter((one) => one.key === key)
      expect(
        own.some((one) => reach(one, point) < 1e-3),
        key,
      ).toBe(true)
      // Seen from the viewer, the first thing that a ray meets is the part itself.
      expect(firstMet(scene, point), key).toBe(key)
      const { x, y } = isometric(point)
      const perMetre = 1000 / drawing.scale.model
      expect(Math.hypot(dot.x - x * perMetre, dot.y - y * perMetre)).toBeLessThan(1e-9)
    }
  })

  it('draws only what a ray from the viewer meets first, and all of it', () => {
    const seen = [...lines.visible]
    for (const { key, a, b } of scene.edges.filter((_, index) => index % 3 === 0))
      for (const share of [0.13, 0.37, 0.61, 0.89]) {
        const point = between(a, b, share)
        const hidden = rayDepth(scene, point) > 1e-5
        const nearHidden = [-2e-3, 2e-3].some(
          (by) => rayDepth(scene, between(a, b, share + by)) > 1e-5 !== hidden,
        )
        if (nearHidden) continue
        const drawn = seen.some((line) => pointDistance(isometric(point), line) < 1e-7)
        if (!hidden) expect(drawn, `${key} ${JSON.stringify(point)}`).toBe(true)
        else if (drawn) expect(coincides(scene, point), `${key} ${JSON.stringify(point)}`).toBe(true)
      }
  })

  it('is the same on every run', () => {
    const again = explodedDrawing(mouldApart(mould), { box, label: 'Mould drawn apart', scaleWord: 'Scale' })
    expect(again).toEqual(drawing)
  })
})

describe('by hand: the order of assembly', () => {
  const mould = designBlockMould(demoMouldInput)
  const { scene } = mouldApart(mould)
  const span = (key: string, axis: keyof Vec3) => {
    const own = [...scene.boxes, ...scene.rounds.map(boxAround)].filter((one) => one.key === key)
    return [
      Math.min(...own.map(({ min }) => min[axis])),
      Math.max(...own.map(({ max }) => max[axis])),
    ] as const
  }

  it('stacks rails, base top, cleats and lid from below', () => {
    const order = ['rail', 'base-top', 'cleat', 'lid']
    order.slice(1).forEach((key, index) => {
      expect(span(key, 'z')[0]).toBeGreaterThan(span(order[index]!, 'z')[1])
    })
    expect(span('cleat', 'z')[0]).toBeGreaterThan(mould.outside.height)
  })

  it('sets strips outside the sides, rods before the strips, washers and nuts beyond', () => {
    const order = ['side', 'strip', 'rod', 'washer', 'nut']
    order.slice(1).forEach((key, index) => {
      expect(span(key, 'y')[0]).toBeLessThan(span(order[index]!, 'y')[0])
    })
    expect(span('rod', 'y')[1]).toBeLessThan(span('strip', 'y')[0])
  })

  it('draws apart in a time that nobody waits for', () => {
    const took = leastProcessorTime(60, 12, () => {
      const { scene: all, paths } = mouldApart(mould)
      axonometricLines(all, paths)
    })
    // 20 ms when this was written; the bound is for a busy machine
    expect(took).toBeLessThan(60)
  })
})

const between = (a: Vec3, b: Vec3, share: number): Vec3 => ({
  x: a.x + (b.x - a.x) * share,
  y: a.y + (b.y - a.y) * share,
  z: a.z + (b.z - a.z) * share,
})

function boxAround({ key, axis, centre: [p, q], diameter, shape, from, to }: Round): KeyedBox {
  const r = shape === 'hexagon' ? diameter / Math.sqrt(3) : diameter / 2
  const at = (low: boolean): Vec3 => {
    const s = low ? -r : r
    const along = low ? from : to
    if (axis === 'x') return { x: along, y: p + s, z: q + s }
    return axis === 'y' ? { x: p + s, y: along, z: q + s } : { x: p + s, y: q + s, z: along }
  }
  return { key, min: at(true), max: at(false) }
}

const overlap = (a: Box, b: Box): boolean =>
  (['x', 'y', 'z'] as const).every(
    (axis) => a.min[axis] < b.max[axis] - 1e-9 && b.min[axis] < a.max[axis] - 1e-9,
  )

/** How far a point is from a box. */
const reach = ({ min, max }: Box, point: Vec3): number =>
  Math.max(
    ...(['x', 'y', 'z'] as const).map((axis) => Math.max(min[axis] - point[axis], point[axis] - max[axis])),
  )

/** Piece of the ray (x + t, y - t, z + t) that lies in a box, by slabs. */
function inBox({ min, max }: Box, { x, y, z }: Vec3): readonly [number, number] {
  return [Math.max(min.x - x, y - max.y, min.z - z), Math.min(max.x - x, y - min.y, max.z - z)]
}

/** The same for a true cylinder or a hexagonal prism along y. */
function inRound(
  { shape, centre: [p, q], diameter, from, to }: Round,
  { x, y, z }: Vec3,
): readonly [number, number] {
  const [u, v] = [x - p, z - q]
  let [low, high] = [y - to, y - from]
  if (shape === 'circle') {
    // (u + t)^2 + (v + t)^2 = r^2
    const half = (u + v) / 2
    const root = half * half - (u * u + v * v - (diameter / 2) ** 2) / 2
    if (root <= 0) return [0, -1]
    low = Math.max(low, -half - Math.sqrt(root))
    high = Math.min(high, -half + Math.sqrt(root))
  } else
    for (const degrees of [30, 90, 150]) {
      const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)]
      // |c (u + t) + s (v + t)| <= apothem
      const base = c * u + s * v
      const ends = [(-diameter / 2 - base) / (c + s), (diameter / 2 - base) / (c + s)].sort((a, b) => a - b)
      low = Math.max(low, ends[0]!)
      high = Math.min(high, ends[1]!)
    }
  return [low, high]
}

const meetings = (scene: Scene, point: Vec3) => [
  ...scene.boxes.map((one) => ({ key: one.key, span: inBox(one, point) })),
  ...scene.rounds.map((one) => ({ key: one.key, span: inRound(one, point) })),
]

/** The longest piece of anything on the way from a point to the viewer. */
const rayDepth = (scene: Scene, point: Vec3): number =>
  Math.max(...meetings(scene, point).map(({ span: [from, to] }) => to - Math.max(0, from)))

/** What the viewer sees in the direction of a point. */
function firstMet(scene: Scene, point: Vec3): string | undefined {
  const met = meetings(scene, point).filter(({ span: [from, to] }) => to - from > 1e-6)
  return met.sort((a, b) => b.span[1] - a.span[1])[0]?.key
}

/** Whether some visible edge lies on the same place of the paper as a hidden point. */
function coincides(scene: Scene, point: Vec3): boolean {
  const seen = isometric(point)
  return scene.edges.some(({ a, b }) => {
    const [p, q] = [isometric(a), isometric(b)]
    if (pointDistance(seen, { a: p, b: q }) > 1e-6) return false
    const share = Math.hypot(seen.x - p.x, seen.y - p.y) / Math.hypot(q.x - p.x, q.y - p.y)
    return rayDepth(scene, between(a, b, share)) < 1e-5
  })
}
