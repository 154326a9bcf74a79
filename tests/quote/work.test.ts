import { describe, expect, it } from 'vitest'
import type { Part } from '../../src/geometry/part.ts'
import { totalOf } from '../../src/quote/total.ts'
import { costOf, halfHours, timeOf, USUAL_TIMES, type WorkTimes, workOn } from '../../src/quote/work.ts'

/** Two boards of 400 x 200 mm with a dado across, two holes, one of them counterbored, a notch and a chamfer. */
const board: Part = {
  key: 'board',
  count: 2,
  length: 0.4,
  width: 0.2,
  thickness: 0.018,
  material: 'birch',
  density: 680,
  grain: 'length',
  features: [
    { kind: 'dado', name: 'd', face: 'upper', runs: 'width', at: 0.1, size: 0.018, depth: 0.006 },
    { kind: 'groove', name: 'g', face: 'upper', runs: 'length', at: 0.1, size: 0.003, depth: 0.006 },
    { kind: 'hole', name: 'h', u: 0.2, v: 0.1, diameter: 0.006 },
    {
      kind: 'hole',
      name: 'k',
      u: 0.3,
      v: 0.1,
      diameter: 0.006,
      counterbore: { diameter: 0.02, depth: 0.002, face: 'upper' },
    },
    { kind: 'notch', name: 'n', at: 0.05, size: 0.01, depth: 0.01, edge: 'near' },
    { kind: 'chamfer', name: 'c', edges: 'short', size: 0.001 },
    { kind: 'scribe', name: 's', at: 0.05 },
  ],
  placements: [],
  handed: false,
}
const beside = { joints: 3, screws: 4, fittings: 5, wires: 6, coated: 0.5 }

describe('by hand: what is done to two boards', () => {
  const work = workOn([board], beside)

  it('counts every feature on both', () => {
    expect(work).toMatchObject({
      'set-up': 1,
      'saw-cut': 0,
      hole: 4,
      recess: 2,
      notch: 2,
      edge: 6, // a chamfer on two edges and a line, twice
      piece: 2,
      joint: 3,
      screw: 4,
      fitting: 5,
      wire: 6,
      finish: 0.5,
    })
    // 0.2 m across and 0.4 m along, twice
    expect(work['channel-metre']).toBeCloseTo(1.2, 12)
  })

  it('takes so many minutes of each', () => {
    const one: WorkTimes = Object.fromEntries(
      Object.keys(USUAL_TIMES).map((kind) => [kind, { low: 60, high: 120 }]),
    ) as unknown as WorkTimes
    // 1 + 4 + 2 + 2 + 6 + 2 + 3 + 4 + 5 + 6 + 0.5 + 1.2 = 36.7 minutes, and twice that
    expect(timeOf(work, one).low).toBeCloseTo(36.7 * 60, 9)
    expect(timeOf(work, one).high).toBeCloseTo(73.4 * 60, 9)
  })

  it('times are seconds: half an hour to an hour for setting up', () => {
    expect(USUAL_TIMES['set-up']).toEqual({ low: 1800, high: 3600 })
    expect(USUAL_TIMES['saw-cut']).toEqual({ low: 90, high: 180 })
  })

  it('has a low end below the high end for every kind', () => {
    for (const [kind, { low, high }] of Object.entries(USUAL_TIMES)) expect(low, kind).toBeLessThan(high)
  })
})

describe('by hand: hours and what they cost', () => {
  it.each([
    // minutes, whole half hours
    [0, 0, 1, 1], // half an hour at least
    [29, 31, 1, 2],
    [60, 60, 2, 2], // exact hours stay
    [119, 121, 3, 5],
    [599, 601, 19, 22], // from ten hours on in whole hours: 11 h
    [630, 630, 20, 22], // 10.5 h: 10 h and 11 h
  ])('%d to %d min are %d to %d half hours', (low, high, lowHalves, highHalves) => {
    expect(halfHours({ low: low * 60, high: high * 60 })).toEqual({ low: lowHalves, high: highHalves })
  })

  it('multiplies half hours with the rate', () => {
    // 4.5 h and 8.5 h at 30.00
    expect(costOf({ low: 9, high: 17 }, 3000)).toEqual({ low: 13_500, high: 25_500 })
    // half an hour at 30.01 is 15.005
    expect(costOf({ low: 1, high: 2 }, 3001)).toEqual({ low: 1501, high: 3001 })
  })

  it('adds whole coins, and names what it is without', () => {
    const same = (minor: number) => ({ low: minor, high: minor })
    expect(
      totalOf([
        { key: 'a', cost: same(1010) },
        { key: 'b', cost: undefined },
        { key: 'c', cost: { low: 20, high: 2020 } },
        { key: 'd', cost: same(0) },
      ]),
    ).toEqual({ low: 1030, high: 3030, without: ['b'] })
    expect(totalOf([])).toEqual({ low: 0, high: 0, without: [] })
  })
})

describe('recorded: what work takes, unless a shop says otherwise', () => {
  // 27 November 2026: an offer that somebody took was made with these, so that another one has to be meant
  it('is in whole seconds from 24 to 3600', () => {
    expect(Object.values(USUAL_TIMES).flatMap(({ low, high }) => [low, high])).toEqual([
      1800, 3600, 90, 180, 240, 600, 42, 90, 24, 60, 60, 180, 30, 90, 180, 360, 300, 720, 42, 90, 120, 300,
      360, 720, 480, 900,
    ])
  })
})
