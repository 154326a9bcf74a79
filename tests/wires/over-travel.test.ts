/** Over-travel, grooves and the gap between layers: states of a cut gone through one by one. */
import { describe, expect, test } from 'vitest'
import { loadWire } from '../../src/wires/loaded-wire.ts'
import {
  breakthrough,
  type CutFrame,
  type CutLayer,
  cutThrough,
  cuttingLoadOfGrooves,
  gapNeeded,
  layerClearance,
} from '../../src/wires/over-travel.ts'
import { wireFigures } from '../../src/wires/strength.ts'

const diameter = 0.02 * 0.0254
const axialStiffness = wireFigures({ material: 'music-wire', diameter }).axialStiffness
const layer = (soapWidth: number, crossings: readonly number[], load = 100): CutLayer => ({
  wire: { length: soapWidth + 0.02, soapWidth, axialStiffness, restTension: 120, load },
  diameter,
  crossings,
})
/** five by three loaves: four short wires, two long ones */
const short = (load = 100) => layer(0.21, [-0.035, 0.035], load)
const long = (load = 100) => layer(0.289, [-0.0867, -0.0289, 0.0289, 0.0867], load)
const frame = (change: Partial<CutFrame> = {}): CutFrame => ({
  leading: short(),
  trailing: long(),
  panel: 0.024,
  grooveWidth: 0.003175,
  ...change,
})
const codes = (change: Partial<CutFrame>): string[] =>
  cutThrough(frame(change)).findings.map(({ code }) => code)

describe('by hand: the last soap', () => {
  test('a taut wire breaks through at q L²/16T with half of its length uncut', () => {
    // so light a load that the tension stays: slope q w/2T times (L − w)/2, greatest at w = L/2
    const wire = { length: 0.3, soapWidth: 0.3, axialStiffness, restTension: 100, load: 0.1 }
    expect(breakthrough(wire) / ((0.1 * 0.3 ** 2) / 1600)).toBeCloseTo(1, 4)
  })

  test('half of the full lag, and a little more: a wire that is partly free is less tight', () => {
    for (const load of [40, 100, 400]) {
      const share = breakthrough(long(load).wire) / loadWire(long(load).wire).lag
      expect(share).toBeGreaterThan(0.5)
      expect(share).toBeLessThan(0.7)
    }
  })

  test('soap narrower than half of the wire: all of it counts', () => {
    const wire = { length: 0.4, soapWidth: 0.1, axialStiffness, restTension: 100, load: 0.1 }
    // 0.1 · 0.1 / 200 · 0.15
    expect(breakthrough(wire) / 7.5e-6).toBeCloseTo(1, 4)
  })
})

describe('by hand: crossing wires', () => {
  const lagShort = loadWire(short().wire).lagAt(0.035)

  test('when short wires lead, the gap must hold what they bow up while they cut alone', () => {
    const clearance = layerClearance(short(), long(), 0.006)
    expect(clearance).toBeCloseTo(0.006 - lagShort - diameter, 9)
    // seen crossing by crossing with both in soap: farther apart
    const upper = loadWire(long().wire)
    for (const x of long().crossings)
      expect(0.006 + upper.lagAt(x) - lagShort - diameter).toBeGreaterThan(clearance)
  })

  test('when long wires lead, they want a wider gap', () => {
    expect(layerClearance(long(), short(), 0.006)).toBeLessThan(layerClearance(short(), long(), 0.006))
    expect(gapNeeded(long(), short()) - gapNeeded(short(), long())).toBeGreaterThan(0.0015)
  })

  test('the gap keeps the rule of the trade, too: difference of the lags + 2 diameters + 1 mm', () => {
    const rule = loadWire(long().wire).lag - loadWire(short().wire).lag + 2 * diameter + 0.001
    expect(gapNeeded(short(), long())).toBeGreaterThanOrEqual(rule)
    expect(gapNeeded(short(), long())).toBeCloseTo(lagShort + diameter + 0.001, 9)
    // short wires so short that they hardly lag: the rule is the wider
    const stub = layer(0.04, [0])
    const difference = loadWire(long().wire).lag - loadWire(stub.wire).lag
    expect(gapNeeded(stub, long())).toBeCloseTo(difference + 2 * diameter + 0.001, 9)
  })
})

describe('by hand: stroke and grooves', () => {
  test('what is needed follows: stroke = gap + long lag + 1.5 mm, grooves half a wire and 1 mm more', () => {
    const found = cutThrough(frame())
    const lag = loadWire(long().wire).lag
    expect(found.stroke).toBeCloseTo(found.gap + lag + 0.0015, 9)
    expect(found.trailing.overTravel).toBeCloseTo(lag + 0.0015, 9)
    expect(found.trailing.grooveDepth).toBeCloseTo(lag + 0.0025 + diameter / 2, 9)
    expect(found.leading.grooveDepth - found.trailing.grooveDepth).toBeCloseTo(found.gap, 9)
    expect(found.web).toBeCloseTo(0.024 - found.leading.grooveDepth, 12)
    expect(found.clearance).toBeCloseTo(0.001, 9)
    expect(found.findings).toEqual([])
  })

  test('leading wires set the stroke where they lag most', () => {
    const found = cutThrough(frame({ leading: long(), trailing: layer(0.05, [0]), gap: 0.001 }))
    expect(found.stroke).toBeCloseTo(loadWire(long().wire).lag + 0.0015, 9)
    expect(found.trailing.overTravel).toBeGreaterThan(found.trailing.needed)
  })

  test('published: common practice, grooves of 12 to 15 mm of an 18 mm top: too much', () => {
    const found = cutThrough(frame({ panel: 0.018 }))
    expect(found.leading.grooveDepth).toBeGreaterThan(0.012)
    expect(found.leading.grooveDepth).toBeLessThan(0.016)
    expect(found.findings).toMatchObject([
      { code: 'groove-web-thin', severity: 'stop', values: { panel: 0.018 } },
    ])
  })
})

describe('by hand: conflicts', () => {
  test('grooves of 9/16 and 3/8 in with a gap of 3/16 in', () => {
    const grooveDepth = { leading: 0.0142875, trailing: 0.009525 }
    const found = cutThrough(frame({ gap: 0.0047625, grooveDepth }))
    // 4.76 − 3.73 − 0.51 mm of clearance: closer than designed for, and not touching
    expect(found.findings.map(({ code, severity }) => [code, severity])).toEqual([
      ['wire-layers-touch', 'warn'],
    ])
    const late = cutThrough(frame({ leading: short(400), trailing: long(400), gap: 0.0047625, grooveDepth }))
    expect(late.findings.map(({ code, severity }) => [code, severity])).toEqual([
      ['wire-layers-touch', 'stop'],
      ['groove-shallow-for-lag', 'stop'],
      ['groove-shallow-for-lag', 'stop'],
    ])
    expect(late.findings[1]?.values.layer).toBe('leading')
  })

  test.each([
    // wire 0.508 mm and 1 mm to each side: 2.508 mm
    [0.003175, []],
    [0.002508, []],
    [0.0025, ['warn', 'warn']],
    [0.0005, ['stop', 'stop']],
  ])('a groove %f m wide', (grooveWidth, severities) => {
    const found = cutThrough(frame({ grooveWidth })).findings
    expect(found.map(({ severity }) => severity)).toEqual(severities)
    expect(found.every(({ code }) => code === 'wire-thick-for-groove')).toBe(true)
  })

  test('web of 6 mm is enough, a hair less is not', () => {
    const depth = cutThrough(frame()).leading.grooveDepth
    expect(codes({ panel: depth + 0.006 })).toEqual([])
    expect(codes({ panel: depth + 0.00599 })).toEqual(['groove-web-thin'])
  })
})

describe('by hand: the soap that grooves are deep enough for', () => {
  const built = {
    ...frame(),
    gap: 0.0047625,
    grooveDepth: { leading: 0.0142875, trailing: 0.009525 },
  }

  test('just under it nothing conflicts, just over it something does', () => {
    const most = cuttingLoadOfGrooves(built)
    const stops = (load: number) =>
      cutThrough({ ...built, leading: short(load), trailing: long(load) }).findings.filter(
        ({ severity }) => severity === 'stop',
      )
    expect(most).toBeGreaterThan(100)
    expect(most).toBeLessThan(400)
    expect(stops(most * 0.999)).toEqual([])
    expect(stops(most * 1.001)).not.toEqual([])
  })

  test('grooves that hold not even a straight wire: no load', () =>
    expect(cuttingLoadOfGrooves({ ...built, grooveDepth: { leading: 0.002, trailing: 0.001 } })).toBe(0))
})
