/** A wire under the load of soap: against worked figures, its energy, a string of springs, and loads that turn with the wire. */
import { describe, expect, test } from 'vitest'
import { loadOfLag, loadWire, type WireUnderLoad, wireEnergy } from '../../src/wires/loaded-wire.ts'
import { relaxString } from './relaxed-string.ts'

/** E A of music wire at 203.4 GPa: E π/4 d² */
const stiffness = (inches: number): number => (203.4e9 * Math.PI * (inches * 0.0254) ** 2) / 4

const wire = (change: Partial<WireUnderLoad> = {}): WireUnderLoad => ({
  length: 0.309,
  soapWidth: 0.289,
  axialStiffness: stiffness(0.02),
  restTension: 120,
  load: 100,
  ...change,
})

const cases: readonly WireUnderLoad[] = [
  wire({ load: 40 }),
  wire(),
  wire({ load: 400 }),
  wire({ length: 0.23, soapWidth: 0.21 }),
  wire({ length: 0.23, soapWidth: 0.21, load: 400 }),
  wire({ length: 0.3, soapWidth: 0.3, load: 250 }),
  wire({ length: 0.4, soapWidth: 0.1, load: 400, axialStiffness: stiffness(0.012), restTension: 60 }),
  wire({ endGive: 2e-6 }),
  wire({ endGive: 5e-6, load: 400 }),
]

describe('published: shallow parabolas between rigid pins at 203.4 GPa (computed apart from this program)', () => {
  test.each([
    // in, m, N, N/m: tension in the middle [N], lag [mm]
    [0.016, 0.3, 100, 50, 117.82, 4.774],
    [0.02, 0.3, 150, 100, 191.96, 5.861],
    [0.02, 0.1, 150, 400, 211.46, 2.364],
    [0.024, 0.25, 150, 300, 302.28, 7.754],
  ])('%f in, %f m, %i N under %i N/m: %f N, %f mm', (inches, length, restTension, load, tension, lag) => {
    const found = loadWire({
      length,
      soapWidth: length,
      axialStiffness: stiffness(inches),
      restTension,
      load,
    })
    // shallow theory leaves out the square of the slope: 0.016 in the steepest case
    expect(Math.abs(found.middleTension / tension - 1)).toBeLessThan(0.005)
    expect(Math.abs(found.lag * 1000 - lag)).toBeLessThan(0.005 * lag)
  })
})

describe('published: common practice, 0.020 in at 120 N under 100 N/m', () => {
  test.each([
    // soap to the pins: "about 7 mm" and "about 3 mm" are kept to within a millimetre
    [0.29, 7],
    [0.21, 3],
  ])('%f m lags by about %i mm', (span, millimetres) => {
    const { lag } = loadWire(wire({ length: span, soapWidth: span }))
    expect(Math.abs(lag * 1000 - millimetres)).toBeLessThan(1)
  })
})

describe('by hand', () => {
  test('a feather: q L²/8T, 0.1 · 0.3² / (8 · 100) = 11.25 µm, and no more tension', () => {
    const found = loadWire(wire({ length: 0.3, soapWidth: 0.3, restTension: 100, load: 0.1 }))
    expect(found.lag * 1e6).toBeCloseTo(11.25, 3)
    expect(found.tension).toBeCloseTo(100, 2)
    expect(found.slope).toBeCloseTo((0.1 * 0.3) / 200, 8)
  })

  test('narrow soap is a point: F L/4T, 0.1 N on 0.4 m at 100 N = 0.1 mm', () => {
    const found = loadWire(wire({ length: 0.4, soapWidth: 0.001, restTension: 100, load: 100 }))
    // less w/2 of 0.4 m: one part in 800; and 25 parts in a million of stretch
    expect(found.lag * 1000).toBeCloseTo(0.1, 3)
    expect(found.slope).toBeCloseTo(0.1 / 200, 6)
  })

  test('no load: nothing moves', () => {
    const found = loadWire(wire({ load: 0 }))
    expect(found).toMatchObject({ lag: 0, slope: 0 })
    expect(found.tension).toBeCloseTo(120, 9)
    expect(found.stretch).toBeCloseTo(0, 12)
    expect(found.drawnIn).toBeCloseTo(0, 12)
  })

  test.each(cases)('the pins carry the soap: 2 T sin(slope) = q w, case %#', (one) => {
    const { tension, slope } = loadWire(one)
    expect((2 * tension * Math.sin(slope)) / (one.load * one.soapWidth)).toBeCloseTo(1, 9)
  })

  test.each(cases)('steel stretches by what the tension asks for, case %#', (one) => {
    // between the middle's and the pins' tension: (T − T₀)/EA of the length, with what it was stretched before
    const { middleTension, tension, stretch } = loadWire(one)
    const of = (pull: number): number =>
      (one.length * (pull - one.restTension)) / (one.axialStiffness + one.restTension)
    expect(stretch).toBeGreaterThanOrEqual(of(middleTension) * (1 - 1e-6))
    expect(stretch).toBeLessThanOrEqual(of(tension) * (1 + 1e-6))
  })

  test('lag along the wire: nought at the pins, greatest in the middle, one line through the edge of the soap', () => {
    const one = loadWire(wire())
    expect(one.lagAt(0)).toBe(one.lag)
    expect(one.lagAt(0.1545)).toBeCloseTo(0, 12)
    expect(one.lagAt(-0.1)).toBe(one.lagAt(0.1))
    expect(one.lagAt(0.1445 - 1e-9)).toBeCloseTo(one.lagAt(0.1445 + 1e-9), 9)
    expect(one.lagAt(0.1495)).toBeCloseTo(0.005 * Math.tan(one.slope), 9)
  })

  test('more load lags more, and less than in proportion; more tension lags less; pins that give lag more', () => {
    const lag = (change: Partial<WireUnderLoad>): number => loadWire(wire(change)).lag
    expect(lag({ load: 200 })).toBeGreaterThan(lag({}))
    expect(lag({ load: 200 })).toBeLessThan(2 * lag({}))
    expect(lag({ restTension: 160 })).toBeLessThan(lag({}))
    expect(lag({ endGive: 5e-6 })).toBeGreaterThan(lag({}))
    expect(loadWire(wire({ endGive: 5e-6 })).drawnIn).toBeGreaterThan(0)
  })

  test('the load that was found is found again from the lag', () => {
    for (const load of [40, 100, 400]) {
      const { load: _, ...strung } = wire({ load })
      expect(loadOfLag(strung, loadWire(wire({ load })).lag)).toBeCloseTo(load, 5)
    }
  })

  test('refuses what is no wire in soap', () => {
    for (const change of [
      { soapWidth: 0.4 },
      { soapWidth: 0 },
      { restTension: 0 },
      { load: -1 },
      { axialStiffness: 0 },
      { endGive: -1e-6 },
      { load: Number.NaN },
    ])
      expect(() => loadWire(wire(change))).toThrow(RangeError)
  })
})

describe('by hand: work of the soap is what wire and frame store', () => {
  test.each(cases)('case %#', (one) => {
    const { work, stored } = wireEnergy(one)
    expect(work).toBeGreaterThan(0)
    expect(Math.abs(work / stored - 1)).toBeLessThan(2e-6)
  })

  test('small: F² a/6 … half of load times the area, q² w³ / 24 T', () => {
    // 1 N/m on 0.3 m at 100 N: 1 · 0.027 / 2400 = 11.25 µJ
    const { work } = wireEnergy(wire({ length: 0.3, soapWidth: 0.3, restTension: 100, load: 1 }))
    expect(work * 1e6).toBeCloseTo(11.25, 1)
  })
})

describe('by hand: a string of springs, brought to rest by another method', () => {
  test.each(cases)('case %#', (one) => {
    const { lag, tension } = loadWire(one)
    const relaxed = relaxString(one)
    // chords are shorter than the arc by one part in the square of the number of springs
    expect(Math.abs(relaxed.lag / lag - 1)).toBeLessThan(3e-5)
    // the last spring says the tension of its middle: where soap reaches the pins, half a spring before them
    expect(Math.abs(relaxed.tension / tension - 1)).toBeLessThan(one.soapWidth === one.length ? 2e-4 : 3e-5)
  })

  test('comes nearer as the springs grow shorter', () => {
    const { lag } = loadWire(wire({ load: 400 }))
    const off = (springs: number): number => Math.abs(relaxString(wire({ load: 400 }), springs).lag / lag - 1)
    expect(off(160)).toBeLessThan(off(40) / 8)
  })
})

describe('by hand: what it matters that soap may press square to the wire rather than to the line of its ends', () => {
  /** A load square to the wire everywhere bends it into an arc of one tension: T = q R. */
  const arc = (one: WireUnderLoad): { lag: number; tension: number } => {
    const unstretched = one.length / (1 + one.restTension / one.axialStiffness)
    let [low, high] = [one.length / 2, 1e6]
    for (let step = 0; step < 200; step += 1) {
      const radius = (low + high) / 2
      const long = 2 * radius * Math.asin(one.length / 2 / radius)
      if (long / (1 + (one.load * radius) / one.axialStiffness) > unstretched) low = radius
      else high = radius
    }
    return { lag: low - Math.sqrt(low ** 2 - one.length ** 2 / 4), tension: one.load * low }
  }

  test.each([
    // the square of the slope, 0.083² and 0.17², bounds it
    [40, 0.002],
    [100, 0.007],
    [400, 0.03],
  ])('at %i N/m lag and tension change by less than %f of themselves', (load, share) => {
    const one = wire({ length: 0.29, soapWidth: 0.29, load })
    const found = loadWire(one)
    const turned = arc(one)
    expect(Math.abs(turned.lag / found.lag - 1)).toBeLessThan(share)
    expect(Math.abs(turned.tension / found.tension - 1)).toBeLessThan(share)
  })
})
