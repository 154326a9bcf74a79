/**
 * Recorded on 27 November 2026: what was said of wires, rails and pushes as each of their numbers became another, so that
 * nobody changes unseen what a cutter is strung by. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { CUTTING_LOAD, cuttingLoadOf } from '../../src/wires/cutting-load.ts'
import { hungSag, stretchTo } from '../../src/wires/hung-weight.ts'
import { loadOfLag, loadWire, wireEnergy } from '../../src/wires/loaded-wire.ts'
import {
  bendEfficiency,
  cuttingLoadHeld,
  PEG_RATING,
  TWISTED_EYE,
  tunedWithin,
  usualTension,
  wireMargins,
  workingTension,
} from '../../src/wires/margin.ts'
import {
  bowedLayer,
  breakthrough,
  CUT_MARGINS,
  cuttingLoadOfGrooves,
  gapNeeded,
  grooveDepthFor,
  lagAllowed,
  layerClearance,
  overTravelOf,
} from '../../src/wires/over-travel.ts'
import {
  centsBetween,
  centsOfTension,
  noteOf,
  pitchAtShare,
  pitchOfTension,
  stiffening,
  tensionOfPitch,
} from '../../src/wires/pitch.ts'
import { leverPush, personPress, pushPlan, standRange, trialCuttingLoad } from '../../src/wires/push.ts'
import { bestTuning, pinGive, railBow, railGive, tuneInPasses, tuningOrder } from '../../src/wires/rail.ts'
import { boardSection, compositeFigures, compositeSection } from '../../src/wires/rail-section.ts'
import { MUSIC_WIRE, STAINLESS_302, WIRE_RANGE, wireFigures } from '../../src/wires/strength.ts'
import { whipOfWire } from '../../src/wires/wire-energy.ts'
import {
  gaugeDiameter,
  gaugeOf,
  MUSIC_WIRE_GAUGE,
  nearestSizes,
  thinnestFor,
  WIRE_TAILS,
  wirePieces,
  wireSizes,
} from '../../src/wires/wire-to-buy.ts'
import { expectRecorded } from '../recorded.ts'
import { expectChangesRecorded } from '../recorded-changes.ts'

const FACTORS = [0.5, 0.95, 1.05, 2]
const INCH = 0.0254

const keep = <Input extends object>(
  name: string,
  input: Input,
  answers: Readonly<Record<string, (given: Input) => unknown>>,
  factors: readonly number[] = FACTORS,
) => expectChangesRecorded({ name, test: import.meta.url }, input, answers, factors)

const wire = { material: 'music-wire', diameter: 0.02 * INCH } as const
const { axialStiffness, massPerLength, modulus } = wireFigures(wire)
const strung = { length: 0.309, soapWidth: 0.289, axialStiffness, endGive: 1e-6 }
const loaded = { ...strung, restTension: 120, load: 100 }
const hold = { peg: PEG_RATING.heavy, anchor: TWISTED_EYE.low, bendRadius: 0.002 }

describe('recorded: wires', () => {
  test('tables', () => {
    const sizes = (['music-wire', 'stainless-302'] as const).map((material) => [
      ...[...wireSizes(material), { diameter: WIRE_RANGE.low }, { diameter: WIRE_RANGE.high }].map(
        (size) => ({
          ...size,
          figures: wireFigures({ material, diameter: size.diameter }),
        }),
      ),
      ...[0.0103, 0.0175, 0.0325, 0.0327, 0.0441, 0.0622].map((inches) =>
        wireFigures({ material, diameter: inches * INCH }),
      ),
    ])
    const constants = { CUTTING_LOAD, PEG_RATING, TWISTED_EYE, CUT_MARGINS, WIRE_TAILS }
    expectRecorded(
      { MUSIC_WIRE, STAINLESS_302, MUSIC_WIRE_GAUGE, constants, sizes },
      'tables',
      import.meta.url,
    )
  })

  test('under load', () =>
    keep('under-load', loaded, {
      wire: loadWire,
      lags: (given) => [0, 0.05, 0.1, 0.15, 0.2].map(loadWire(given).lagAt),
      through: breakthrough,
    }))
  test('work and lag', () =>
    keep(
      'work-and-lag',
      { wire: loaded, lag: 0.006 },
      { energy: (given) => wireEnergy(given.wire), load: (given) => loadOfLag(given.wire, given.lag) },
      [0.7, 1.2],
    ))
  test('by hand and by ear', () =>
    keep(
      'by-hand-and-by-ear',
      {
        soap: { tearingEnergy: 20, yieldStress: 1e5, friction: 0.5 },
        hung: { length: 0.3, whole: 0.35, tension: 90, axialStiffness },
        force: 5,
        string: { length: 0.309, massPerLength, diameter: wire.diameter, modulus },
        tension: 120,
        pitch: 431,
        share: 0.9,
      },
      {
        load: ({ soap, string }) => cuttingLoadOf(soap, string.diameter),
        sag: ({ hung, force }) => hungSag(hung, force),
        stretch: ({ hung }) => stretchTo(hung),
        pitch: ({ string, tension }) => pitchOfTension(string, tension),
        tension: ({ string, pitch }) => tensionOfPitch(string, pitch),
        stiffening: ({ string, tension }) => stiffening(string, tension),
        note: ({ pitch }) => noteOf(pitch),
        cents: ({ share }) => centsOfTension(share),
        share: ({ pitch, share }) => pitchAtShare(pitch, share),
        between: ({ pitch, tension }) => centsBetween(pitch, tension),
      },
    ))
  test('whip and wire to buy', () =>
    keep(
      'whip-and-wire-to-buy',
      { wire, tension: 120, length: 0.3, pull: 150, margin: 1.5, count: 7, spacing: 0.03, spare: 1 },
      {
        whip: (given) => whipOfWire(given.wire, given.tension, given.length),
        nearest: (given) => nearestSizes(given.wire),
        gauge: (given) => gaugeOf(given.wire.diameter),
        number: (given) => gaugeDiameter(String(Math.round(given.count))),
        'of music wire': (given) => thinnestFor('music-wire', given.pull, given.margin),
        'of stainless': (given) => thinnestFor('stainless-302', given.pull, given.margin),
        'one a piece': (given) => wirePieces({ ...given, count: Math.round(given.count), perPiece: 1 }),
        'two a piece': (given) => wirePieces({ ...given, count: Math.round(given.count), perPiece: 2 }),
      },
    ))
  test('margins', () =>
    keep(
      'margins',
      { strung, wire, hold, tension: 120, load: 100, lag: 0.0075 },
      {
        bend: (given) => bendEfficiency(given.wire.diameter, given.hold.bendRadius),
        margins: (given) => wireMargins(given.wire, given.hold, given.tension),
        usual: (given) => usualTension(given.wire, given.hold.peg),
        held: (given) => cuttingLoadHeld(given.strung, given.wire, given.hold, given.tension),
        range: (given) => workingTension(given.strung, given.wire, given.hold, given.load, given.lag),
        within: (given) =>
          tunedWithin(
            workingTension(given.strung, given.wire, given.hold, given.load, given.lag),
            given.tension,
          ),
      },
    ))
})

describe('recorded: layers', () => {
  const layer = (soapWidth: number, crossings: readonly number[]) => ({
    wire: { length: soapWidth + 0.02, soapWidth, axialStiffness, restTension: 120, load: 100 },
    diameter: wire.diameter,
    crossings,
  })
  const input = {
    leading: layer(0.21, [-0.03, 0.035]),
    trailing: layer(0.289, [-0.09, 0.0289, 0.08]),
    gap: 0.0062,
    gapSpare: 0.002,
    crossed: 0.8,
    grooves: { leading: 0.016, trailing: 0.0105 },
  }
  test('in soap', () =>
    keep('layers', input, {
      lags: ({ leading, trailing }) => [bowedLayer(leading), bowedLayer(trailing)],
      clearance: ({ leading, trailing, gap }) =>
        layerClearance(bowedLayer(leading), bowedLayer(trailing), gap),
      'clearance, the long ones first': ({ leading, trailing, gap }) =>
        layerClearance(bowedLayer(trailing), bowedLayer(leading), gap),
      gap: ({ leading, trailing }) => gapNeeded(bowedLayer(leading), bowedLayer(trailing)),
      'gap, the long ones first': ({ leading, trailing }) =>
        gapNeeded(bowedLayer(trailing), bowedLayer(leading)),
      travel: ({ leading, trailing, gap }) =>
        overTravelOf({ leading: bowedLayer(leading).lag, trailing: bowedLayer(trailing).lag }, gap),
      'travel of the leading ones': ({ leading }) => overTravelOf({ leading: bowedLayer(leading).lag }, 0),
      'travel of the trailing ones': ({ trailing, gap }) =>
        overTravelOf({ trailing: bowedLayer(trailing).lag }, gap),
      groove: ({ leading }) => grooveDepthFor(bowedLayer(leading).lag, leading.diameter),
      allowed: ({ leading, ...frame }) => lagAllowed({ ...frame, diameter: leading.diameter }),
      'allowed the leading ones': ({ leading, grooves, ...frame }) =>
        lagAllowed({ ...frame, grooves: { leading: grooves.leading }, diameter: leading.diameter }),
      'allowed the trailing ones': ({ leading, grooves, ...frame }) =>
        lagAllowed({ ...frame, grooves: { trailing: grooves.trailing }, diameter: leading.diameter }),
    }))
  test('in grooves', () =>
    keep(
      'grooves',
      input,
      {
        both: ({ leading, trailing, gap, grooves }) =>
          cuttingLoadOfGrooves({ leading, trailing, gap, grooveDepth: grooves }),
        leading: ({ leading, grooves }) => cuttingLoadOfGrooves({ leading, gap: 0, grooveDepth: grooves }),
        trailing: ({ trailing, gap, grooves }) =>
          cuttingLoadOfGrooves({ trailing, gap, grooveDepth: grooves }),
      },
      [0.8, 1.3],
    ))
})

describe('recorded: rails', () => {
  const rail = {
    length: 0.31,
    places: [0.03, 0.0775, 0.155, 0.2325],
    board: { width: 0.075, depth: 0.019 },
    shelf: { width: 0.019, depth: 0.05 },
    modulus: { bending: 10e9, shear: 0.6e9 },
    to: 0.2,
    wires: { length: 0.21, axialStiffness, tension: 120 },
    within: 0.01,
  }
  const setOf = ({ length, places, board, shelf, modulus: stiff, to, wires }: typeof rail) => ({
    rail: { length, sections: [compositeSection(board, shelf, stiff, to), boardSection(board, stiff)] },
    places,
    ...wires,
  })
  test('that give', () =>
    keep(
      'rails',
      rail,
      {
        figures: ({ board, shelf }) => compositeFigures(board, shelf),
        sections: (given) => setOf(given).rail.sections,
        usual: ({ board, shelf }) => [boardSection(board), compositeSection(board, shelf)],
        pinned: (given) => railGive(setOf(given).rail, given.places, 'pinned')[1],
        fixed: (given) => railGive(setOf(given).rail, given.places, 'fixed')[2],
        bow: (given) => railBow(setOf(given)),
        'give, pinned': (given) => pinGive(setOf(given), 'pinned'),
        'give, fixed': (given) => pinGive(setOf(given), 'fixed'),
        tuned: (given) => tuneInPasses(setOf(given), 'pinned', [0, 1, 2, 3], given.within),
        best: (given) => {
          const set = setOf(given)
          return bestTuning({ ...set, axialStiffness: 9 * set.axialStiffness }, 'pinned')
        },
      },
      [0.6, 1.6],
    ))
  test('in orders', () =>
    expectRecorded(
      [1, 2, 3, 4, 7].map((count) =>
        (['along', 'middle-out', 'ends-in'] as const).map((order) => tuningOrder(order, count)),
      ),
      'orders',
      import.meta.url,
    ))
})

describe('recorded: pushes', () => {
  test('of a frame and of a lever', () =>
    keep(
      'pushes',
      {
        layers: [
          { count: 3, soapWidth: 0.19 },
          { count: 2, soapWidth: 0.29 },
        ],
        load: 260,
        frameMass: 3,
        handHeight: 1.1,
        person: { mass: 70, height: 1.7 },
        hands: { start: 0.3, end: 0.1 },
        lever: { wires: 7, load: 100, near: 0.1, far: 0.2, handle: 0.6, frameMoment: 3 },
        trial: { readings: [21, 24.5, 23], frameMass: 0.4, wires: 3, width: 0.08 },
      },
      {
        plan: pushPlan,
        'plan of a light one': ({ person: _, ...given }) => pushPlan(given),
        press: ({ person, handHeight }) => personPress(person, handHeight),
        stand: ({ hands, person }) => standRange(hands, person),
        'stand of a light one': ({ hands }) => standRange(hands),
        lever: ({ lever }) => leverPush(lever),
        trial: ({ trial }) => trialCuttingLoad(trial),
      },
      [0.2, 0.6, 1.4, 4],
    ))
})
