/** What gives way first: margins worked by hand from read strengths. */
import { describe, expect, test } from 'vitest'
import { loadWire } from '../../src/wires/loaded-wire.ts'
import {
  bendEfficiency,
  cuttingLoadHeld,
  PEG_RATING,
  TWISTED_EYE,
  tunedWithin,
  usualTension,
  type WireHold,
  wireMargins,
  workingTension,
} from '../../src/wires/margin.ts'
import { wireFigures } from '../../src/wires/strength.ts'

const wire = { material: 'music-wire', diameter: 0.02 * 0.0254 } as const
const hold: WireHold = { peg: PEG_RATING.heavy, anchor: TWISTED_EYE.low, bendRadius: 0.002 }
const strung = { length: 0.309, soapWidth: 0.289, axialStiffness: wireFigures(wire).axialStiffness }

describe('by hand: 0.020 in breaks at 489.1 N (2413 MPa, read)', () => {
  test('at 160 N: peg 200/160 = 1.25, eye 244.6/160 = 1.53, pin 440.2/160 = 2.75, wire 3.06', () => {
    const { links, findings } = wireMargins(wire, hold, 160)
    const margins = Object.fromEntries(links.map(({ link, margin }) => [link, margin]))
    expect(margins.peg).toBeCloseTo(1.25, 9)
    expect(margins.anchor).toBeCloseTo(1.528, 3)
    expect(margins.edge).toBeCloseTo(2.751, 3)
    expect(margins.wire).toBeCloseTo(3.057, 3)
    // beside what is wanted: anchor 1.528/1.25 = 1.22, peg 1.25/1
    expect(links[0]?.link).toBe('anchor')
    expect(findings).toEqual([])
  })

  test.each([
    // tension that each link just bears: 200/1, 244.55/1.25, 440.2/1.25, 489.1/1.5
    ['wire-peg-slips', { ...hold, peg: 150 }, 150],
    ['wire-anchor-gives', { ...hold, peg: 1000 }, 195.6],
    ['wire-breaks-at-edge', { peg: 1000, anchor: 1, bendRadius: 0 }, 195.6],
    ['wire-breaks', { peg: 1000, anchor: 1, bendRadius: 0.002 }, 326.1],
  ] as const)('%s, and only that, from its limit on', (code, held, limit) => {
    const stops = (tension: number) =>
      wireMargins(wire, held, tension)
        .findings.filter(({ severity }) => severity === 'stop')
        .map((finding) => finding.code)
    expect(stops(limit * 0.999)).toEqual([])
    expect(stops(limit * 1.001)).toEqual([code])
  })

  test('the stop names tension, what holds and what is wanted', () => {
    const [finding] = wireMargins(wire, { ...hold, peg: PEG_RATING.light }, 125).findings
    expect(finding).toEqual({
      code: 'wire-peg-slips',
      severity: 'stop',
      values: { pullNeeded: 125, holds: 100, pullAllowed: 100 },
    })
  })

  test('a pin of three diameters in radius, 1.524 mm, keeps nine tenths; a sharper one half, with a warning', () => {
    expect(bendEfficiency(wire.diameter, 0.001524)).toBe(0.9)
    expect(bendEfficiency(wire.diameter, 0.0015)).toBe(0.5)
    const codes = (bendRadius: number) =>
      wireMargins(wire, { ...hold, bendRadius }, 100).findings.map(({ code }) => code)
    expect(codes(0.001524)).toEqual([])
    expect(codes(0.0015)).toEqual(['wire-bend-too-sharp'])
  })
})

describe('by hand: the soap that a wire bears', () => {
  test('peg of 200 N: tuned to 120 N the pins feel 200 N at the load that is told, the eye bears 195.6 N', () => {
    const held = cuttingLoadHeld(strung, wire, hold, 120)
    expect(held.link).toBe('anchor')
    expect(loadWire({ ...strung, restTension: 120, load: held.load }).tension).toBeCloseTo(244.554 / 1.25, 2)
    // between the usual block and the late one
    expect(held.load).toBeGreaterThan(100)
    expect(held.load).toBeLessThan(200)
    const pegs = cuttingLoadHeld(strung, wire, { ...hold, anchor: 1 }, 120)
    expect(pegs.link).toBe('peg')
    expect(loadWire({ ...strung, restTension: 120, load: pegs.load }).tension).toBeCloseTo(200, 4)
  })

  test('a light peg does not hold 120 N at all: no load', () =>
    expect(cuttingLoadHeld(strung, wire, { ...hold, peg: PEG_RATING.light }, 120).load).toBe(0))
})

describe('by hand: tension to tune to', () => {
  test.each([
    // a quarter of 489.1 is 122.3, 0.6 of 200 is 120; of 100 60; of 1000 the wire counts: 120 again
    [200, 120],
    [100, 60],
    [1000, 120],
    [5, 5],
  ])('a peg of %i N: %i N', (rating, tension) => expect(usualTension(wire, rating)).toBe(tension))

  test('outside of its range it is a stop, within it is none, and of no range nothing more is said', () => {
    const range = workingTension(strung, wire, hold, 100, 0.0075)
    expect(tunedWithin(range, 120)).toEqual([])
    for (const tension of [range.low * 0.99, range.high * 1.01])
      expect(tunedWithin(range, tension)).toMatchObject([
        { code: 'wire-tuned-out-of-range', severity: 'stop', values: { tension, tensionLow: range.low } },
      ])
    expect(tunedWithin(workingTension(strung, wire, hold, 400, 0.0075), 10)).toEqual([])
  })

  test('pins that give let it trail more, and are not trusted to take pull off', () => {
    const soft = workingTension({ ...strung, endGive: 1e-6 }, wire, hold, 100, 0.0075)
    const hard = workingTension(strung, wire, hold, 100, 0.0075)
    expect(soft.low).toBeGreaterThan(hard.low)
    expect(soft.high).toBeCloseTo(hard.high, 6)
    const load = (endGive: number) => cuttingLoadHeld({ ...strung, endGive }, wire, hold, 120).load
    expect(load(1e-6)).toBeCloseTo(load(0), 6)
  })

  test('low end lags by what is allowed, high end loads the weakest link to its limit', () => {
    const { low, high, limitedBy, findings } = workingTension(strung, wire, hold, 100, 0.0075)
    expect(findings).toEqual([])
    expect(limitedBy).toBe('anchor')
    expect(loadWire({ ...strung, load: 100, restTension: low }).lag).toBeCloseTo(0.0075, 8)
    expect(loadWire({ ...strung, load: 100, restTension: high }).tension).toBeCloseTo(195.643, 2)
    expect(low).toBeLessThan(120)
    expect(high).toBeGreaterThan(120)
  })

  test('a wire that never lags too much is still tuned until it is straight: a tenth of 489.1 N', () => {
    const { low, findings } = workingTension(
      { ...strung, length: 0.23, soapWidth: 0.21 },
      wire,
      hold,
      100,
      0.007,
    )
    expect(low).toBeCloseTo(48.91, 2)
    expect(findings).toEqual([])
  })

  test.each([
    // nothing fits: late soap, or a lag that only a tighter wire would keep, or a peg that nothing may hang on
    [400, 0.0075, hold],
    [100, 0.005, hold],
    [100, 0.006, hold],
    [100, 0.0075, { ...hold, peg: 0.5 }],
  ])('no tension at %i N/m with %f m of lag: a stop', (load, lag, held) => {
    const [finding] = workingTension(strung, wire, held, load, lag).findings
    expect(finding).toMatchObject({ code: 'wire-no-tension-fits', severity: 'stop' })
    expect(finding?.values).toMatchObject({ cuttingLoad: load, lagMost: lag })
  })
})
