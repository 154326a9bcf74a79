/** Over-travel, grooves and the gap between layers: states of a cut gone through one by one. */
import { describe, expect, test } from 'vitest'
import { loadWire } from '../../src/wires/loaded-wire.ts'
import {
  bowedLayer,
  breakthrough,
  CUT_MARGINS,
  type CutLayer,
  cuttingLoadOfGrooves,
  gapNeeded,
  grooveDepthFor,
  lagAllowed,
  layerClearance,
  overTravelOf,
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
const bowed = { short: bowedLayer(short()), long: bowedLayer(long()) }

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
    const clearance = layerClearance(bowed.short, bowed.long, 0.006)
    expect(clearance).toBeCloseTo(0.006 - lagShort - diameter, 9)
    // seen crossing by crossing with both in soap: farther apart
    const upper = loadWire(long().wire)
    for (const x of long().crossings)
      expect(0.006 + upper.lagAt(x) - lagShort - diameter).toBeGreaterThan(clearance)
  })

  test('when long wires lead, they want a wider gap', () => {
    expect(layerClearance(bowed.long, bowed.short, 0.006)).toBeLessThan(
      layerClearance(bowed.short, bowed.long, 0.006),
    )
    expect(gapNeeded(bowed.long, bowed.short) - gapNeeded(bowed.short, bowed.long)).toBeGreaterThan(0.0015)
  })

  test('the gap keeps the rule of the trade, too: difference of the lags + 2 diameters + 1 mm', () => {
    const rule = loadWire(long().wire).lag - loadWire(short().wire).lag + 2 * diameter + 0.001
    expect(gapNeeded(bowed.short, bowed.long)).toBeGreaterThanOrEqual(rule)
    expect(gapNeeded(bowed.short, bowed.long)).toBeCloseTo(lagShort + diameter + 0.001, 9)
    // short wires so short that they hardly lag: the rule is the wider
    const stub = layer(0.04, [0])
    const difference = loadWire(long().wire).lag - loadWire(stub.wire).lag
    expect(gapNeeded(bowedLayer(stub), bowed.long)).toBeCloseTo(difference + 2 * diameter + 0.001, 9)
  })
})

describe('by hand: stroke and grooves', () => {
  test('long wires that trail by 6 mm, short ones by 4, layers 5 mm apart: 7.5 and 12.5 mm', () => {
    const ends = overTravelOf({ leading: 0.004, trailing: 0.006 }, 0.005)
    expect(ends.trailing).toBeCloseTo(0.0075, 12)
    expect(ends.leading).toBeCloseTo(0.0125, 12)
    // half a wire and 1 mm below
    expect(grooveDepthFor(ends.leading, 0.0005)).toBeCloseTo(0.01375, 12)
  })

  test('leading wires set the stroke where they lag most: 9 + 1.5 mm, the others 2 mm less', () => {
    const ends = overTravelOf({ leading: 0.009, trailing: 0.001 }, 0.002)
    expect(ends.leading).toBeCloseTo(0.0105, 12)
    expect(ends.trailing).toBeCloseTo(0.0085, 12)
  })

  test('one layer alone, whichever it is', () => {
    expect(overTravelOf({ leading: 0.004 }, 0).leading).toBeCloseTo(0.0055, 12)
    expect(overTravelOf({ trailing: 0.006 }, 0).trailing).toBeCloseTo(0.0075, 12)
    expect(overTravelOf({}, 0)).toEqual({ leading: 0, trailing: 0 })
  })

  const frame = { gap: 0.005, gapSpare: 0, diameter: 0.0005, crossed: 1 }
  const most = (
    leading: number | undefined,
    trailing: number | undefined,
    more: Partial<typeof frame> = {},
  ) => lagAllowed({ ...frame, ...more, grooves: { leading, trailing } })

  test('what may trail in grooves of 14 and 9 mm, layers 5 mm apart: 6.25 mm of the long, 3.5 of the short wires', () => {
    // 9 − 0.25 − 1 = 7.75, and 14 − 1.25 − 5 = 7.75: less 1.5; below the long wires 5 − 0.5 − 1
    expect(most(0.014, 0.009).trailing).toBeCloseTo(0.00625, 12)
    expect(most(0.014, 0.009).leading).toBeCloseTo(0.0035, 12)
    // where they are crossed they trail by seven eighths: 4 mm; a gap that may grow by 0.7 mm gives 4.8
    expect(most(0.014, 0.009, { crossed: 0.875 }).leading).toBeCloseTo(0.004, 12)
    expect(most(0.014, 0.009, { crossed: 0.875, gapSpare: 0.0007 }).leading).toBeCloseTo(0.0048, 12)
    // one layer: 14 − 1.25 − 1.5
    expect(most(0.014, undefined, { gap: 0 }).leading).toBeCloseTo(0.01125, 12)
    // the short wires' grooves are the ones that are too shallow: 12 − 1.25 − 5 − 1.5
    expect(most(0.012, 0.009).trailing).toBeCloseTo(0.00425, 12)
    expect(most(0.002, 0.001)).toEqual({ leading: 0, trailing: 0 })
  })

  test('lag that is allowed and depth that is needed are the same sum', () => {
    const ends = overTravelOf({ leading: 0.003, trailing: 0.006 }, 0.005)
    const depths = [ends.leading, ends.trailing].map((end) => grooveDepthFor(end, 0.0005))
    expect(most(depths[0], depths[1]).trailing).toBeCloseTo(0.006, 12)
  })
})

describe('published: common practice, grooves of 12 to 15 mm', () => {
  test('the short wires of a block of five by three loaves', () => {
    const gap = gapNeeded(bowed.short, bowed.long)
    const ends = overTravelOf(
      { leading: loadWire(short().wire).lag, trailing: loadWire(long().wire).lag },
      gap,
    )
    const depth = grooveDepthFor(ends.leading, diameter)
    expect(depth).toBeGreaterThan(0.012)
    expect(depth).toBeLessThan(0.015)
  })
})

describe('by hand: the soap that grooves are deep enough for', () => {
  const built = {
    leading: short(),
    trailing: long(),
    gap: 0.0047625,
    grooveDepth: { leading: 0.0142875, trailing: 0.009525 },
  }

  test('between the usual block and the late one, and there a wire lies on the bottom of its groove, or two touch', () => {
    const most = cuttingLoadOfGrooves(built)
    expect(most).toBeGreaterThan(100)
    expect(most).toBeLessThan(400)
    const at = (load: number): number => {
      const lags = { leading: loadWire(short(load).wire).lag, trailing: loadWire(long(load).wire).lag }
      const ends = overTravelOf(lags, built.gap)
      return Math.min(
        built.grooveDepth.leading - ends.leading - diameter / 2,
        built.grooveDepth.trailing - ends.trailing - diameter / 2,
        layerClearance(bowedLayer(short(load)), bowedLayer(long(load)), built.gap),
      )
    }
    expect(at(most * 0.999)).toBeGreaterThan(0)
    expect(at(most * 1.001)).toBeLessThan(0)
  })

  test('one layer alone has its own groove only: lag = 9.525 − 0.254 − 1.5 mm', () => {
    const most = cuttingLoadOfGrooves({ trailing: long(), gap: 0, grooveDepth: built.grooveDepth })
    expect(loadWire(long(most).wire).lag).toBeCloseTo(0.009525 - diameter / 2 - CUT_MARGINS.below, 8)
  })

  test('grooves that hold not even a straight wire: no load', () =>
    expect(cuttingLoadOfGrooves({ ...built, grooveDepth: { leading: 0.002, trailing: 0.001 } })).toBe(0))
})
