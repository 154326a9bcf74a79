import { describe, expect, it } from 'vitest'
import { partVolume, woodBoxes } from '../../src/geometry/cells.ts'
import { partEdges } from '../../src/geometry/edges.ts'
import { isSameTurned } from '../../src/geometry/handed.ts'
import type { Part } from '../../src/geometry/part.ts'
import { handOf, identityPlacement, placePoint } from '../../src/geometry/placement.ts'

const plank: Part = {
  key: 'plank',
  count: 1,
  length: 0.5,
  width: 0.3,
  thickness: 0.02,
  material: 'plywood',
  density: 680,
  grain: 'length',
  handed: false,
  placements: [identityPlacement],
  features: [],
}
const dado = {
  kind: 'dado',
  name: 'd',
  face: 'upper',
  runs: 'width',
  at: 0.1,
  size: 0.018,
  depth: 0.006,
} as const
const groove = {
  kind: 'groove',
  name: 'g',
  face: 'upper',
  runs: 'length',
  at: 0.1,
  size: 0.004,
  depth: 0.006,
} as const

describe('by hand', () => {
  it('takes crossing channels out of the volume once', () => {
    // 0.5 x 0.3 x 0.02 = 3000e-6; dado 0.018 x 0.3 x 0.006 = 32.4e-6; groove 0.5 x 0.004 x 0.006 = 12e-6;
    // crossing 0.018 x 0.004 x 0.006 = 0.432e-6 counted twice: 3000 - 32.4 - 12 + 0.432 = 2956.032e-6 m3
    expect(partVolume({ ...plank, features: [dado, groove] })).toBeCloseTo(2956.032e-6, 12)
  })

  it('takes a drilled hole through the thickness', () => {
    const hole = { kind: 'hole', name: 'h', u: 0.2, v: 0.1, diameter: 0.01 } as const
    // pi/4 x 0.01^2 x 0.02 = 1.570796e-6 m3
    expect(partVolume(plank) - partVolume({ ...plank, features: [hole] })).toBeCloseTo(1.570796e-6, 11)
  })

  it('takes every drilled hole, and the step round its mouth', () => {
    const hole = (u: number, more: object = {}) =>
      ({ kind: 'hole', name: 'h', u, v: 0.1, diameter: 0.01, ...more }) as const
    const counterbore = { diameter: 0.02, depth: 0.003, face: 'upper' } as const
    // pi/4 x 0.01^2 x 0.02 = 1.570796e-6 m3 each; the step pi/4 x (0.02^2 - 0.01^2) x 0.003 = 0.706858e-6 m3
    const drilled = { ...plank, features: [hole(0.2), hole(0.3, { counterbore }), hole(0.4)] }
    expect(partVolume(plank) - partVolume(drilled)).toBeCloseTo(3 * 1.570796e-6 + 0.706858e-6, 11)
  })

  it('finds twelve edges on a plain box', () => {
    expect(partEdges(plank)).toHaveLength(12)
  })

  it('finds the edges of a box with one dado right across', () => {
    // an H-less profile of 8 corners pulled along the width: 8 long edges + 2 ends x 8 sides = 24
    expect(partEdges({ ...plank, features: [dado] })).toHaveLength(24)
  })

  it('keeps the edge where two channels from opposite faces meet corner to corner', () => {
    const above = { ...dado, at: 0.1, size: 0.1, depth: 0.01 }
    const below = { ...dado, name: 'e', face: 'lower', at: 0.2, size: 0.1, depth: 0.01 } as const
    // profile: 4 outer corners + 4 of the upper channel + 3 more of the lower one = 11 edges across the width;
    // on each end 2 at the top, 1 in the middle, 2 at the bottom, 5 upright = 10
    expect(partEdges({ ...plank, features: [above, below] })).toHaveLength(31)
  })

  it('leaves wood under a dado', () => {
    const boxes = woodBoxes({ ...plank, features: [dado] })
    expect(boxes.some(({ min, max }) => min.x < 0.1 && max.x > 0.118 && max.z <= 0.0140001)).toBe(true)
  })

  it('turns and mirrors', () => {
    expect(handOf({ ...identityPlacement, u: '-x', v: '+z', w: '+y' })).toBe(1)
    expect(handOf({ ...identityPlacement, u: '-x' })).toBe(-1)
    expect(
      placePoint({ origin: { x: 1, y: 2, z: 3 }, u: '-x', v: '+z', w: '+y' }, { x: 0.5, y: 0.25, z: 0.125 }),
    ).toEqual({ x: 0.5, y: 2.125, z: 3.25 })
  })
})

describe('by hand: a part turned end for end', () => {
  const hole = (u: number, v: number, diameter = 0.005) =>
    ({ kind: 'hole', name: 'h', u, v, diameter }) as const
  const notch = (at: number, size: number, depth = 0.01) =>
    ({ kind: 'notch', name: 'n', at, size, depth, edge: 'near' }) as const
  const same = (...features: Part['features']): boolean => isSameTurned({ length: 0.5, features })

  it('is the same where every cut has its like as far from the other end of 500 mm', () => {
    expect(same()).toBe(true)
    expect(same(hole(0.1, 0.05), hole(0.4, 0.05))).toBe(true)
    expect(same(hole(0.25, 0.05))).toBe(true)
    // 50 to 70 mm, and 430 to 450
    expect(same(notch(0.05, 0.02), notch(0.43, 0.02))).toBe(true)
    expect(same({ ...dado, at: 0.05, size: 0.02 }, { ...dado, at: 0.43, size: 0.02 })).toBe(true)
    expect(same(groove)).toBe(true)
  })

  it('is another one where one of them is elsewhere, deeper or wider', () => {
    expect(same(hole(0.1, 0.05))).toBe(false)
    expect(same(hole(0.1, 0.05), hole(0.41, 0.05))).toBe(false)
    expect(same(hole(0.1, 0.05), hole(0.4, 0.06))).toBe(false)
    expect(same(hole(0.1, 0.05), hole(0.4, 0.05, 0.006))).toBe(false)
    expect(same(notch(0.05, 0.02), notch(0.45, 0.02))).toBe(false)
    expect(same(notch(0.05, 0.02), notch(0.43, 0.02, 0.011))).toBe(false)
    expect(same({ ...dado, at: 0.05, size: 0.02 }, { ...dado, at: 0.45, size: 0.02 })).toBe(false)
    // a notch is no channel
    expect(same(notch(0.05, 0.02), { ...dado, at: 0.43, size: 0.02, depth: 0.01 })).toBe(false)
  })
})
