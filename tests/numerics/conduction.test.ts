import { describe, expect, test } from 'vitest'
import { centreLine, MIDDLE, type Place, readAt } from '../../src/numerics/brick-places.ts'
import {
  advance,
  type Extent,
  type FaceResistances,
  type HeatedBrick,
  type HeatSource,
  startBrick,
  storedHeat,
  withFaces,
} from '../../src/numerics/conduction.ts'
import { odeSolver } from './odex.ts'
import { wallCoefficient, wallRoots, wallSeries } from './plane-wall.ts'

const CLOSED: FaceResistances = { end: Infinity, side: Infinity, top: Infinity, base: Infinity }
const CORNER: Place = { length: 'end', width: 'side', height: 'top' }
const END: Place = { ...MIDDLE, length: 'end' }

const run = (heated: HeatedBrick, time: number, steps: number, source?: HeatSource): HeatedBrick => {
  for (let step = 0; step < steps; step += 1) advance(heated, time / steps, source)
  return heated
}

/** A wall of half thickness 1, conductivity 1 and heat capacity 1, so that time is the Fourier number. */
const wall = (n: number, biot: number): HeatedBrick =>
  startBrick(
    {
      size: { length: 2, width: 1, height: 1 },
      cells: { length: n, width: 1, height: 1 },
      conductivity: 1,
      heatCapacity: 1,
    },
    { ...CLOSED, end: 1 / biot },
    1,
  )

/** A wall at a Fourier number, with steps that shrink with the square of the cells. */
const wallAfter = (n: number, biot: number, fourier: number): HeatedBrick =>
  run(wall(n, biot), fourier, Math.ceil((fourier * n * n) / 0.4))

/** x/L of 0, 1/2 or 1 */
const atPlace = (heated: HeatedBrick, place: number): number => {
  if (place === 0) return readAt(heated, MIDDLE)
  if (place === 1) return readAt(heated, END)
  const half = heated.above.length / 2
  const at = (i: number): number => heated.above[half + i] ?? Number.NaN
  return (9 * (at(-1) + at(0)) - at(-2) - at(1)) / 16
}

/** What cells of no size would give, if the error goes with the square of the size. */
const limit = (coarse: number, fine: number): number => fine + (fine - coarse) / 3

const order = (coarse: number, middle: number, fine: number): number =>
  Math.log2(Math.abs((coarse - middle) / (middle - fine)))

// heat-conduction.yaml (computed from the equation; formula of Incropera and DeWitt, Table 5.1, from memory)
const EXACT = [
  // Bi, Fo, x/L, θ*
  [1, 0.05, 0, 0.999751],
  [1, 0.2, 0, 0.950642],
  [1, 0.2, 1, 0.643391],
  [1, 1, 0, 0.533859],
  [0.5, 0.5, 0, 0.864114],
  [10, 0.1, 0, 0.968424],
  [10, 0.5, 0.5, 0.343513],
] as const
const FIRST_ROOT = [
  // Bi, ζ1, C1
  [0.01, 0.0998, 1.0017],
  [0.05, 0.2218, 1.0082],
  [0.1, 0.3111, 1.0161],
  [0.2, 0.4328, 1.0311],
  [0.5, 0.6533, 1.0701],
  [1, 0.8603, 1.1191],
  [2, 1.0769, 1.1785],
  [5, 1.3138, 1.2402],
  [10, 1.4289, 1.262],
  [20, 1.4961, 1.2699],
  [50, 1.54, 1.2727],
  [100, 1.5552, 1.2731],
] as const

describe('published: plane wall that cools on both faces, series of 60 terms (heat-conduction.yaml, computed)', () => {
  test.each(EXACT)('Bi %d, Fo %d, x/L %d: %d', (biot, fourier, place, theta) => {
    const [coarse, fine] = [20, 40].map((n) => atPlace(wallAfter(n, biot, fourier), place))
    expect(Math.abs((fine ?? 0) - theta)).toBeLessThan(5e-4)
    expect(Math.abs(limit(coarse ?? 0, fine ?? 0) - theta)).toBeLessThan(5e-6)
  })

  test.each(EXACT)('the series of these tests at Bi %d, Fo %d, x/L %d: %d', (biot, fourier, place, theta) => {
    expect(wallSeries(biot, fourier, place)).toBeCloseTo(theta, 6)
  })
})

describe('published: one-term coefficients (heat-conduction.yaml, computed; Incropera and DeWitt, Table 5.1, memory)', () => {
  test.each(FIRST_ROOT)('Bi %d: ζ1 %d, C1 %d', (biot, root, coefficient) => {
    // From Fo = 1 on only the first term is left: the wall cools by exp(−ζ² Fo), from C1 at Fo = 0.
    const late = (n: number): { readonly root: number; readonly coefficient: number } => {
      const heated = wallAfter(n, biot, 1)
      const first = readAt(heated, MIDDLE)
      const second = readAt(run(heated, 1, Math.ceil((n * n) / 0.4)), MIDDLE)
      const square = Math.log(first / second)
      return { root: Math.sqrt(square), coefficient: first * Math.exp(square) }
    }
    const [coarse, fine] = [late(12), late(24)]
    expect(Math.abs(limit(coarse.root, fine.root) - root)).toBeLessThan(8e-5)
    expect(Math.abs(limit(coarse.coefficient, fine.coefficient) - coefficient)).toBeLessThan(1.5e-4)
  })

  test.each(FIRST_ROOT)('the roots of these tests at Bi %d: %d, %d', (biot, root, coefficient) => {
    const first = wallRoots(biot, 1)[0] ?? 0
    expect(Math.abs(first - root)).toBeLessThan(5.1e-5)
    expect(Math.abs(wallCoefficient(first) - coefficient)).toBeLessThan(5.1e-5)
  })
})

describe('published: a brick is the product of three walls (heat-conduction.yaml)', () => {
  // halves 1, 0.8 and 0.6; Bi = half/(k R), Fo = t/half²
  const size: Extent = { length: 2, width: 1.6, height: 1.2 }
  const faces = { end: 1, side: 0.4, top: 0.1, base: 0.1 }
  const at = (n: number): HeatedBrick =>
    run(
      startBrick(
        { size, cells: { length: n, width: n, height: 2 * n }, conductivity: 1, heatCapacity: 1 },
        faces,
        1,
      ),
      0.2,
      2 * n,
    )
  const [coarse, fine] = [at(8), at(16)]
  const product = (place: number): number =>
    wallSeries(1 / 1, 0.2, place) *
    wallSeries(0.8 / 0.4, 0.2 / 0.64, place) *
    wallSeries(0.6 / 0.1, 0.2 / 0.36, place)

  test('in the middle and at the corner', () => {
    expect(Math.abs(readAt(fine, MIDDLE) - product(0))).toBeLessThan(1e-3)
    expect(Math.abs(limit(readAt(coarse, MIDDLE), readAt(fine, MIDDLE)) - product(0))).toBeLessThan(1e-4)
    expect(Math.abs(limit(readAt(coarse, CORNER), readAt(fine, CORNER)) - product(1))).toBeLessThan(1e-4)
    expect(product(0)).toBeGreaterThan(10 * product(1))
  })

  test('the faces of top and base are alike where their resistances are', () => {
    const base = readAt(fine, { ...MIDDLE, height: 'base' })
    expect(readAt(fine, { ...MIDDLE, height: 'top' })).toBeCloseTo(base, 12)
  })
})

describe('published: steady wall with an even source, centre above surface q L²/2k (heat-conduction.yaml, computed, exact)', () => {
  // q 1000 W/m3, L 0.1 m, k 0.5 W/(m K): 10.0 K
  const rise = (n: number): number => {
    const heated = startBrick(
      {
        size: { length: 0.2, width: 1, height: 1 },
        cells: { length: n, width: 1, height: 1 },
        conductivity: 0.5,
        heatCapacity: 1,
      },
      { ...CLOSED, end: 0.05 },
      0,
    )
    run(heated, 1, 400, evenSource(1000, 1))
    return readAt(heated, MIDDLE) - readAt(heated, END)
  }

  test('10 K', () => {
    expect(Math.abs(rise(20) - 10)).toBeLessThan(0.01)
    expect(limit(rise(10), rise(20))).toBeCloseTo(10, 6)
  })
})

/** W/m3 in cells of so much heat capacity */
const evenSource =
  (power: number, heatCapacity: number): HeatSource =>
  (above, time) => {
    for (let i = 0; i < above.length; i += 1) above[i] = (above[i] ?? 0) + (power * time) / heatCapacity
    return power * time * above.length
  }

const soapBrick = (n: number, faces: FaceResistances): HeatedBrick =>
  startBrick(
    {
      size: { length: 0.286, width: 0.21, height: 0.216 },
      cells: { length: n, width: n, height: 2 * n },
      conductivity: 0.3,
      heatCapacity: 2.6e6,
    },
    faces,
    20,
  )
const FACES: FaceResistances = { end: 0.27, side: 0.2, top: 0.5, base: 0.4 }

describe('by hand: energy', () => {
  // heat that comes and goes, uneven over the cells
  let clock = 0
  const source: HeatSource = (above, time) => {
    let sum = 0
    for (let i = 0; i < above.length; i += 1) {
      const heat = time * (900 + 700 * Math.sin(clock / 5000 + i))
      above[i] = (above[i] ?? 0) + heat / 2.6e6
      sum += heat
    }
    clock += time
    return sum
  }

  test('stored and lost is what was generated, to 1e-9, with lid and walls taken off on the way', () => {
    let heated: HeatedBrick = { ...soapBrick(5, FACES) }
    const before = storedHeat(heated)
    // 20 K · 2.6e6 J/(m3 K) · 0.286 · 0.21 · 0.216 m3
    expect(before).toBeCloseTo(20 * 2.6e6 * 0.286 * 0.21 * 0.216, 3)
    for (const faces of [FACES, { ...FACES, top: 0.13 }, { end: 0.13, side: 0.13, top: 0.13, base: 0.4 }]) {
      heated = withFaces(heated, faces)
      run(heated, 20_000, 67, source)
    }
    const balance = storedHeat(heated) - before + heated.lost - heated.generated
    expect(heated.generated).toBeGreaterThan(5e5)
    expect(heated.lost).toBeGreaterThan(1e5)
    expect(Math.abs(balance) / heated.generated).toBeLessThan(1e-9)
  })

  test('a brick without resistance to nothing loses nothing', () => {
    const heated = run(soapBrick(3, CLOSED), 1e6, 100)
    expect(heated.lost).toBe(0)
    expect(readAt(heated, MIDDLE)).toBeCloseTo(20, 9)
  })
})

describe('by hand: cells half as large make a quarter of the error', () => {
  test.each([
    ['core', MIDDLE],
    ['corner', CORNER],
    ['middle of the end', END],
  ] as const)('%s, four different faces and a source: order 1.8 to 2.2', (_, place) => {
    const values = [5, 10, 20].map((n) =>
      readAt(run(soapBrick(n, FACES), 36_000, 60 * n, evenSource(1500, 2.6e6)), place),
    )
    const found = order(values[0] ?? 0, values[1] ?? 0, values[2] ?? 0)
    expect(found).toBeGreaterThan(1.8)
    expect(found).toBeLessThan(2.2)
  })

  test('steps half as long too, with the source halved round them', () => {
    const values = [8, 16, 32].map((steps) =>
      readAt(run(soapBrick(4, FACES), 28_800, steps, evenSource(1500, 2.6e6)), CORNER),
    )
    const found = order(values[0] ?? 0, values[1] ?? 0, values[2] ?? 0)
    expect(found).toBeGreaterThan(1.8)
    expect(found).toBeLessThan(2.2)
  })
})

describe('by hand: unlike top and base', () => {
  // θ = −q z²/2k + a z + b;  k θ′(0) = θ(0)/Rb: b = k a Rb;  −k θ′(H) = θ(H)/Rt:
  // a (k Rt + H + k Rb) = q H Rt + q H²/2k.  q 800, k 0.4, H 0.2, Rb 0.3, Rt 0.1:
  // a (0.04 + 0.2 + 0.12) = 16 + 40 → a = 155.5556, b = 18.6667, θ(H) = −40 + 31.1111 + 18.6667 = 9.7778,
  // θ(H/2) = −10 + 15.5556 + 18.6667 = 24.2222
  const steady = (n: number): HeatedBrick =>
    run(
      startBrick(
        {
          size: { length: 1, width: 1, height: 0.2 },
          cells: { length: 2, width: 1, height: n },
          conductivity: 0.4,
          heatCapacity: 1,
        },
        { ...CLOSED, base: 0.3, top: 0.1 },
        0,
      ),
      5,
      500,
      evenSource(800, 1),
    )

  test.each([
    ['base', 18.6667],
    ['middle', 24.2222],
    ['top', 9.7778],
  ] as const)('%s of a steady layer: %d K', (height, kelvins) => {
    const [coarse, fine] = [8, 16].map((n) => readAt(steady(n), { ...MIDDLE, height }))
    expect(limit(coarse ?? 0, fine ?? 0)).toBeCloseTo(kelvins, 4)
  })

  test('an odd number of layers has one in the middle', () => {
    expect(readAt(steady(15), { ...MIDDLE, height: 'middle' })).toBeCloseTo(24.2222, 1)
  })

  test('lines from the middle end at the right face', () => {
    const heated = steady(16)
    const up = centreLine(heated, 'top', heated.above)
    const down = centreLine(heated, 'base', heated.above)
    expect(up[0]).toEqual(down[0])
    // eight cells from the middle to each face, the outermost half a cell of 0.0125 m from it
    expect(up).toHaveLength(9)
    expect(up.at(-1)?.fromFace).toBeCloseTo(0.00625, 12)
    expect(down.at(-1)?.fromFace).toBeCloseTo(0.00625, 12)
    expect(up.at(-1)?.above).toBeCloseTo(heated.above[15 * 2] ?? 0, 12)
    expect(down.at(-1)?.above).toBeCloseTo(heated.above[0] ?? 0, 12)
  })
})

describe('by hand: a wall that is kept closed and then opened', () => {
  test('cools from then on as if it had just begun', () => {
    const closed = run(startBrick(wall(20, 1).brick, CLOSED, 1), 3, 50)
    const opened = run(withFaces(closed, { ...CLOSED, end: 1 }), 0.2, 200)
    expect(readAt(opened, END)).toBeCloseTo(wallSeries(1, 0.2, 1), 3)
    expect(readAt(opened, MIDDLE)).toBeCloseTo(wallSeries(1, 0.2, 0), 3)
  })
})

describe('by hand: a plain explicit reckoning of the whole brick, not of a quarter', () => {
  // 10 × 8 × 7 cells of 2 cm, 12 h in steps of 60 s; each cell exchanges with its neighbours, nothing is split
  const n = [10, 8, 7] as const
  const h = 0.02
  const k = 0.3
  const c = 2.6e6
  const power = (i: number, time: number): number => (time < 20_000 ? 1500 + 200 * i : 0)

  const explicit = (): Float64Array => {
    let above = new Float64Array(n[0] * n[1] * n[2]).fill(20)
    const index = (x: number, y: number, z: number): number => (z * n[1] + y) * n[0] + x
    const leak = (resistance: number): number => h * h * (1 / (h / (2 * k) + resistance))
    for (let time = 0; time < 43_200; time += 60) {
      const next = new Float64Array(above)
      for (let z = 0; z < n[2]; z += 1)
        for (let y = 0; y < n[1]; y += 1)
          for (let x = 0; x < n[0]; x += 1) {
            const own = above[index(x, y, z)] ?? 0
            const to = (inside: boolean, other: number, resistance: number): number =>
              inside ? k * h * ((above[other] ?? 0) - own) : -leak(resistance) * own
            const flow =
              to(x > 0, index(x - 1, y, z), FACES.end) +
              to(x < n[0] - 1, index(x + 1, y, z), FACES.end) +
              to(y > 0, index(x, y - 1, z), FACES.side) +
              to(y < n[1] - 1, index(x, y + 1, z), FACES.side) +
              to(z > 0, index(x, y, z - 1), FACES.base) +
              to(z < n[2] - 1, index(x, y, z + 1), FACES.top) +
              power(z, time) * h ** 3
            next[index(x, y, z)] = own + (60 * flow) / (c * h ** 3)
          }
      above = next
    }
    // the quarter with x and y from the middle outwards
    const quarter = new Float64Array((n[0] * n[1] * n[2]) / 4)
    for (let z = 0; z < n[2]; z += 1)
      for (let y = 0; y < n[1] / 2; y += 1)
        for (let x = 0; x < n[0] / 2; x += 1)
          quarter[(z * (n[1] / 2) + y) * (n[0] / 2) + x] = above[index(x + n[0] / 2, y + n[1] / 2, z)] ?? 0
    return quarter
  }

  test('every cell within 0.01 K', () => {
    const heated = startBrick(
      {
        size: { length: n[0] * h, width: n[1] * h, height: n[2] * h },
        cells: { length: n[0] / 2, width: n[1] / 2, height: n[2] },
        conductivity: k,
        heatCapacity: c,
      },
      FACES,
      20,
    )
    let time = 0
    const source: HeatSource = (above, step) => {
      for (let i = 0; i < above.length; i += 1)
        above[i] = (above[i] ?? 0) + (step * power(Math.floor(i / ((n[0] * n[1]) / 4)), time)) / c
      time += step
      return 0
    }
    run(heated, 43_200, 432, source)
    const other = explicit()
    const apart = Math.max(...heated.above.map((value, i) => Math.abs(value - (other[i] ?? 0))))
    expect(Math.max(...other)).toBeGreaterThan(5)
    expect(apart).toBeLessThan(0.01)
  })
})

describe('published: odex 2.0.4 (Hairer and Wanner, extrapolated midpoint rule), a brick as ordinary differential equations', () => {
  // the quarter of a brick of 24 × 20 × 18 cm in 3 × 2 × 4 cells; walls of symmetry on two faces, the others leak
  const size = { length: 0.24, width: 0.2, height: 0.18 }
  const cells = { length: 3, width: 2, height: 4 }
  const k = 0.3
  const c = 2.6e6
  const edge = [
    size.length / 2 / cells.length,
    size.width / 2 / cells.width,
    size.height / cells.height,
  ] as const
  const [dx, dy, dz] = edge
  const volume = dx * dy * dz
  /** W/m3 of each cell: it dies away, and the upper cells give more */
  const power = (layer: number, time: number): number => (900 + 250 * layer) * Math.exp(-time / 15_000)

  const slope = (time: number, above: number[]): number[] =>
    above.map((own, i) => {
      const x = i % cells.length
      const y = Math.floor(i / cells.length) % cells.width
      const z = Math.floor(i / (cells.length * cells.width))
      const to = (isThere: boolean, other: number, area: number, apart: number): number =>
        isThere ? ((k * area) / apart) * ((above[other] ?? 0) - own) : 0
      const leak = (isFace: boolean, area: number, apart: number, resistance: number): number =>
        isFace ? (-area / (apart / (2 * k) + resistance)) * own : 0
      const row = cells.length
      const layer = cells.length * cells.width
      return (
        (to(x > 0, i - 1, dy * dz, dx) +
          to(x < cells.length - 1, i + 1, dy * dz, dx) +
          to(y > 0, i - row, dx * dz, dy) +
          to(y < cells.width - 1, i + row, dx * dz, dy) +
          to(z > 0, i - layer, dx * dy, dz) +
          to(z < cells.height - 1, i + layer, dx * dy, dz) +
          leak(x === cells.length - 1, dy * dz, dx, FACES.end) +
          leak(y === cells.width - 1, dx * dz, dy, FACES.side) +
          leak(z === 0, dx * dy, dz, FACES.base) +
          leak(z === cells.height - 1, dx * dy, dz, FACES.top) +
          power(z, time) * volume) /
        (c * volume)
      )
    })

  test('every cell within 0.002 K after 3, 8 and 20 hours', () => {
    const solver = odeSolver(cells.length * cells.width * cells.height)
    const heated = startBrick({ size, cells, conductivity: k, heatCapacity: c }, FACES, 20)
    let time = 0
    const source: HeatSource = (above, step) => {
      // the heat of the step, exactly
      const given = 15_000 * (Math.exp(-time / 15_000) - Math.exp(-(time + step) / 15_000))
      for (let i = 0; i < above.length; i += 1) {
        const layer = Math.floor(i / (cells.length * cells.width))
        above[i] = (above[i] ?? 0) + ((900 + 250 * layer) * given) / c
      }
      time += step
      return 0
    }
    let other: number[] = [...heated.above]
    let from = 0
    for (const hours of [3, 8, 20]) {
      const to = hours * 3600
      const solved = solver.solve(slope, from, other, to)
      expect(solved.outcome).toBe(0)
      other = solved.y
      run(heated, to - from, (to - from) / 20, source)
      from = to
      const apart = Math.max(...heated.above.map((value, i) => Math.abs(value - (other[i] ?? 0))))
      expect(apart).toBeLessThan(0.002)
    }
    expect(Math.max(...other)).toBeGreaterThan(1)
  })
})
