/** Solids of parts against volumes, gaps and faces worked out by hand. */
import { afterEach, describe, expect, test } from 'vitest'
import { partVolume } from '../../src/geometry/cells.ts'
import type { Part } from '../../src/geometry/part.ts'
import { identityPlacement } from '../../src/geometry/placement.ts'
import { loadSolids } from '../../src/solids/solids.ts'

const solids = await loadSolids()
afterEach(() => solids.free())

const panel = (more: Partial<Part> = {}): Part => ({
  key: 'panel',
  count: 1,
  length: 0.3,
  width: 0.2,
  thickness: 0.018,
  material: 'birch',
  density: 680,
  grain: 'length',
  features: [],
  placements: [identityPlacement],
  handed: false,
  ...more,
})
/** mm3 */
const volumeOf = (part: Part): number => solids.part(part, identityPlacement).body.volume()
const cube = (x: number, size = 0.1) =>
  solids.box({ min: { x, y: 0, z: 0 }, max: { x: x + size, y: size, z: size } })

describe('by hand: volumes', () => {
  test('300 by 200 by 18 mm are 1 080 000 mm3', () => expect(volumeOf(panel())).toBeCloseTo(1_080_000, 3))

  test('a dado of 18 by 6 mm right across takes 18 · 6 · 200', () => {
    const part = panel({
      features: [
        { kind: 'dado', name: 'd', face: 'upper', runs: 'width', at: 0.04, size: 0.018, depth: 0.006 },
      ],
    })
    expect(volumeOf(part)).toBeCloseTo(1_080_000 - 21_600, 3)
    expect(volumeOf(part)).toBeCloseTo(partVolume(part) * 1e9, 2)
  })

  test('a rebate is open at its edge: 5 · 9 · 300', () => {
    const part = panel({
      features: [
        { kind: 'rebate', name: 'r', face: 'upper', runs: 'length', at: 0.195, size: 0.005, depth: 0.009 },
      ],
    })
    expect(volumeOf(part)).toBeCloseTo(1_080_000 - 13_500, 3)
  })

  test('a hole of 7 mm is a prism inside the circle: never more than π/4 · 49 · 18, and 0.3 % less', () => {
    const part = panel({ features: [{ kind: 'hole', name: 'h', u: 0.1, v: 0.1, diameter: 0.007 }] })
    const drilled = 1_080_000 - volumeOf(part)
    expect(drilled).toBeLessThan((Math.PI / 4) * 49 * 18)
    expect(drilled).toBeGreaterThan((Math.PI / 4) * 49 * 18 * 0.995)
  })

  test('a bevel of 2 mm on both short edges, both faces: four prisms of 2 · 2 / 2 · 200', () => {
    const part = panel({ features: [{ kind: 'chamfer', name: 'c', edges: 'short', size: 0.002 }] })
    expect(volumeOf(part)).toBeCloseTo(1_080_000 - 4 * 400, 3)
    const long = panel({ features: [{ kind: 'chamfer', name: 'c', edges: 'long', size: 0.002 }] })
    expect(volumeOf(long)).toBeCloseTo(1_080_000 - 4 * 600, 3)
  })

  test('a rod is a prism round its circle, a nut has its flats across', () => {
    const rod = solids.round({
      key: 'rod',
      shape: 'circle',
      axis: 'y',
      centre: [0, 0],
      diameter: 0.006,
      from: -0.1,
      to: 0.1,
    })
    expect(rod.body.volume()).toBeGreaterThan(Math.PI * 9 * 200)
    expect(rod.body.volume()).toBeLessThan(Math.PI * 9 * 200 * 1.005)
    expect([rod.bounds.min.y, rod.bounds.max.y]).toEqual([expect.closeTo(-0.1, 9), expect.closeTo(0.1, 9)])
    const nut = solids.round({
      key: 'nut',
      shape: 'hexagon',
      axis: 'y',
      centre: [0, 0],
      diameter: 0.01,
      from: 0,
      to: 0.005,
    })
    // √3/2 · 10² · 5
    expect(nut.body.volume()).toBeCloseTo(433.01, 1)
  })
})

describe('by hand: places, overlaps, gaps, faces', () => {
  test('length along −x and width up: the box turns with it', () => {
    const { bounds } = solids.part(panel(), { origin: { x: 0.3, y: 0, z: 0 }, u: '-x', v: '+z', w: '+y' })
    const round = (value: number): number => Math.round(value * 1e6) / 1e6 + 0
    expect(Object.values(bounds.min).map(round)).toEqual([0, 0, 0])
    expect(Object.values(bounds.max).map(round)).toEqual([0.3, 0.018, 0.2])
  })

  test('cubes of 100 mm that meet share nothing, and 2 mm into each other 20 000 mm3', () => {
    expect(solids.overlap(cube(0), cube(0.1))).toBeUndefined()
    const shared = solids.overlap(cube(0), cube(0.098))
    expect(shared?.volume).toBeCloseTo(2e-5, 9)
    expect((shared?.bounds.max.x ?? 0) - (shared?.bounds.min.x ?? 0)).toBeCloseTo(0.002, 9)
  })

  test('3 mm apart are 3 mm apart, and no more than what was looked for', () => {
    expect(solids.gap(cube(0), cube(0.103), 0.01)).toBeCloseTo(0.003, 9)
    expect(solids.gap(cube(0), cube(0.2), 0.01)).toBe(0.01)
  })

  test('pushed against each other they touch on 100 by 100 mm, sideways not at all', () => {
    expect(solids.contact(cube(0), cube(0.1), { x: 1, y: 0, z: 0 })).toBeCloseTo(0.01, 9)
    expect(solids.contact(cube(0), cube(0.1), { x: -1, y: 0, z: 0 })).toBe(0)
    expect(solids.contact(cube(0), cube(0.101), { x: 1, y: 0, z: 0 })).toBe(0)
  })
})

describe('by hand: wires and ways', () => {
  const rest = { x: 0, y: 0, z: 0 }

  test('a wire is never thinner than it is, and 4 % thicker at most', () => {
    const wire = solids.capsule(rest, { x: 0.1, y: 0, z: 0 }, 0.002)
    // a cylinder of 2 by 100 mm and a ball of 2 mm; of 16 sides with its corners 1 / cos² (π / 16) = 1.04 out: area 1.053
    const exact = Math.PI * 100 + (4 / 3) * Math.PI
    expect(wire.body.volume()).toBeGreaterThan(exact)
    expect(wire.body.volume()).toBeLessThan(exact * 1.06)
    expect(wire.bounds.max.x).toBeGreaterThanOrEqual(0.101)
  })

  test('two wires 3 mm apart, one over the other, have 1 mm between them', () => {
    const low = solids.capsule({ x: -0.05, y: 0, z: 0 }, { x: 0.05, y: 0, z: 0 }, 0.002)
    const high = solids.capsule({ x: 0, y: -0.05, z: 0.003 }, { x: 0, y: 0.05, z: 0.003 }, 0.002)
    const gap = solids.gap(low, high, 0.01)
    expect(gap).toBeLessThanOrEqual(0.001)
    expect(gap).toBeGreaterThan(0.0009)
  })

  test('a cube that goes 50 mm up sweeps a box of 100 by 100 by 150', () => {
    const start = cube(0)
    const up = solids.moved(start, { x: 0, y: 0, z: 0.05 })
    expect(up.bounds.min.z).toBeCloseTo(0.05, 9)
    expect(solids.hull([start, up]).body.volume()).toBeCloseTo(1_500_000, 3)
  })
})
