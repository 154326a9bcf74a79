/** Push through the block against figures of the trade and arithmetic. */
import { describe, expect, test } from 'vitest'
import { CUTTING_LOAD, cuttingLoadOf } from '../../src/wires/cutting-load.ts'
import {
  LIGHT_PERSON,
  leverPush,
  personPress,
  pushPlan,
  standRange,
  trialCuttingLoad,
  wireInSoap,
} from '../../src/wires/push.ts'

/** 1.15 m: three wires across 0.19 m and two along 0.29 m */
const layers = [
  { count: 3, soapWidth: 0.19 },
  { count: 2, soapWidth: 0.29 },
]
const plan = (load: number, frameMass = 0, handHeight = 0.7) =>
  pushPlan({ layers, load, frameMass, handHeight })

describe('published: common practice, a block with about 1.15 m of wire', () => {
  test.each([
    [40, 46],
    [100, 115],
    [250, 290],
    [400, 460],
  ])('%i N/m: %i N', (load, newtons) => expect(Math.abs(plan(load).push - newtons)).toBeLessThan(3))

  test('one person does it while it is fresh, not late', () => {
    expect(plan(CUTTING_LOAD.fresh).by).toBe('one-person')
    expect(plan(CUTTING_LOAD.usual).by).toBe('one-person')
    expect(plan(CUTTING_LOAD.late).by).not.toBe('one-person')
  })
})

describe('by hand', () => {
  test('wire in soap: 3 · 0.19 + 2 · 0.29 = 1.15 m', () => expect(wireInSoap(layers)).toBeCloseTo(1.15, 12))

  test('from the soap: 20 J/m2 + 1.5 · 100 kPa · 0.5 mm = 95 N/m; half the wire, half of what grows with it', () => {
    const soap = { tearingEnergy: 20, yieldStress: 1e5, friction: 0.5 }
    expect(cuttingLoadOf(soap, 0.0005)).toBeCloseTo(95, 9)
    expect(cuttingLoadOf(soap, 0.00025)).toBeCloseTo(57.5, 9)
  })

  test('the frame helps by its weight: 115 N less 4 kg · 9.80665 = 75.8 N', () => {
    expect(plan(100, 4).push).toBeCloseTo(115 - 39.2266, 9)
    expect(plan(100, 4).resistance).toBeCloseTo(115, 9)
    expect(plan(100, 4).findings).toEqual([])
  })

  test('who presses just as much as it takes is enough: one, two, two in two stages', () => {
    const one = personPress(LIGHT_PERSON, 0.7)
    const by = (load: number, ...lengths: number[]) =>
      pushPlan({
        layers: lengths.map((soapWidth) => ({ count: 1, soapWidth })),
        load,
        frameMass: 0,
        handHeight: 0.7,
      }).by
    // of one metre of wire the load is the push
    expect([by(one, 1), by(one * 1.001, 1)]).toEqual(['one-person', 'two-people'])
    expect([by(2 * one, 1), by(2.002 * one, 1)]).toEqual(['two-people', 'lever-or-screws'])
    expect([by(2 * one, 1, 0.5), by(2.002 * one, 1, 0.5)]).toEqual(['two-stages', 'lever-or-screws'])
  })

  test('a frame heavier than fresh soap resists goes down alone: 46 N against 49 N', () => {
    const found = plan(40, 5)
    expect(found.push).toBe(0)
    expect(found.findings).toMatchObject([{ code: 'frame-sinks-by-itself', severity: 'warn' }])
  })

  test.each([
    // 60 kg, 588.4 N; wrist 0.8003 m, elbow 1.0395 m, shoulder 1.3497 m
    [0.5, 294.2],
    [0.8, 294.2],
    [1.0395, 205.94],
    // half way from elbow to shoulder: a quarter of the weight
    [1.1946, 147.1],
    [1.3497, 88.26],
    [1.6, 88.26],
  ])('hands at %f m: %f N', (height, newtons) =>
    expect(Math.abs(personPress({ mass: 60, height: 1.65 }, height) - newtons)).toBeLessThan(0.2),
  )

  test.each([
    // bench, hands at 1.1946 m: one person 147.1 N, two 294.2 N. Layers 0.57 and 0.58 m
    [100, 'one-person', []],
    [200, 'two-people', ['push-wants-two-people']],
    [400, 'two-stages', ['push-wants-two-stages']],
    [600, 'lever-or-screws', ['push-wants-lever']],
  ])('%i N/m at shoulder height: %s', (load, by, codes) => {
    const found = plan(load, 0, 1.1946)
    expect(found.by).toBe(by)
    expect(found.findings.map(({ code }) => code)).toEqual(codes)
    expect(found.stagePush).toBeCloseTo(load * 0.58, 9)
  })
})

describe('by hand: the lever of a hinged frame', () => {
  const cut = { wires: 7, load: 100, near: 0.11, far: 0.18, handle: 0.35, frameMoment: 0 }

  test('7 wires through 70 mm at 100 N/m: 49 N at 145 mm of the hinge are 20.3 N at 350 mm', () => {
    const found = leverPush(cut)
    expect(found.resistance).toBeCloseTo(49, 9)
    // 49 · 0.145 = 7.105 N m
    expect(found.soapMoment).toBeCloseTo(7.105, 9)
    expect(found.push).toBeCloseTo(20.3, 9)
    expect(found.leverage).toBeCloseTo(0.35 / 0.145, 12)
  })

  test('bit by bit: 700 slices of 0.1 mm at their own arms', () => {
    let moment = 0
    for (let slice = 0; slice < 700; slice += 1) moment += 700 * 0.0001 * (0.11 + (slice + 0.5) * 0.0001)
    expect(moment).toBeCloseTo(leverPush(cut).soapMoment, 9)
  })

  test('a frame of 1.5 kg at 200 mm takes 2.942 N m off: 11.9 N; a heavy one goes down by itself', () => {
    expect(leverPush({ ...cut, frameMoment: 1.5 * 9.80665 * 0.2 }).push).toBeCloseTo(11.8943, 3)
    expect(leverPush({ ...cut, frameMoment: 8 }).push).toBe(0)
  })
})

describe('by hand: the trial frame', () => {
  test('three wires on a cube of 0.1 m, 2.5 kg on the scale and 0.5 kg of frame: 29.42 N / 0.3 m = 98.1 N/m', () => {
    const found = trialCuttingLoad({ readings: [2.5 * 9.80665], frameMass: 0.5, wires: 3, width: 0.1 })
    expect(found.load).toBeCloseTo(98.0665, 9)
    expect([found.low, found.high]).toEqual([found.load, found.load])
    expect(found.findings).toEqual([])
  })

  test('27, 30 and 33 N: 100 ± 4.303 · 10/√3 = 24.8 N/m; 26 and 34 N scatter', () => {
    const found = trialCuttingLoad({ readings: [27, 30, 33], frameMass: 0, wires: 3, width: 0.1 })
    expect(found.load).toBeCloseTo(100, 9)
    expect(found.high - found.load).toBeCloseTo((4.3027 * 10) / Math.sqrt(3), 2)
    expect(found.load - found.low).toBeCloseTo(24.84, 2)
    expect(found.findings).toEqual([])
    const wide = trialCuttingLoad({ readings: [26, 34], frameMass: 0, wires: 3, width: 0.1 })
    expect(wide.findings).toMatchObject([{ code: 'trial-readings-scatter', values: { readings: 2 } }])
    expect(wide.low).toBe(0)
  })

  test.each([5, 150])('%i N is outside of what soap is known for', (reading) =>
    expect(
      trialCuttingLoad({ readings: [reading], frameMass: 0, wires: 3, width: 0.1 }).findings,
    ).toMatchObject([{ code: 'trial-load-out-of-range', values: { loadLow: 40, loadHigh: 400 } }]),
  )

  test('no reading, no result', () =>
    expect(() => trialCuttingLoad({ readings: [], frameMass: 0, wires: 3, width: 0.1 })).toThrow(RangeError))
})

describe('by hand: a stand that keeps backs upright', () => {
  test('1.65 m tall, hands from 373 down to 145 mm above it: 455 to 666 mm', () => {
    // wrist .485 x 1650 = 800.25, less 145 and 200 of bent knees; elbow .63 x 1650 = 1039.5, less 373
    const { low, high } = standRange({ start: 0.373, end: 0.145 })
    expect(low).toBeCloseTo(0.45525, 6)
    expect(high).toBeCloseTo(0.6665, 6)
  })
})
