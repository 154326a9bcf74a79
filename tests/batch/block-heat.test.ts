import { describe, expect, test } from 'vitest'
import {
  type BlockHeatRequest,
  blockHeat,
  heatCase,
  USUAL_RESOLUTION,
  USUAL_RULES,
} from '../../src/batch/block-heat.ts'
import { type HeatCase, type HeatRun, runBlock } from '../../src/batch/block-heat-run.ts'
import { loafOf } from '../../src/batch/block-heat-variants.ts'
import { fastestAt, rateConstant } from '../../src/batch/block-reaction.ts'
import { faceResistances } from '../../src/batch/block-walls.ts'
import { odeSolver } from '../numerics/odex.ts'
import { leastProcessorTime } from '../processor-time.ts'
import { BLOCK, C, HOUR, insulated, reckoned } from './heat-demo.ts'

const nominal = (request: BlockHeatRequest): HeatCase => heatCase(request, 'nominal')
/** The rules without the floor that practice puts under the hour of stripping. */
const EARLY = { ...USUAL_RULES, stripNotBefore: 0 }
const codes = (request: BlockHeatRequest): string[] => blockHeat(request).findings.map(({ code }) => code)

/** s after the peak until the core is so warm */
const coolingTo = (run: HeatRun, kelvins: number): number =>
  (run.series.find(({ time, core }) => time > run.peakTime && core < kelvins)?.time ?? Infinity) -
  run.peakTime

describe('published: cooling of a hundred-bar block (trade-notes M5, estimates)', () => {
  const cooled = (wallsOff?: number): HeatRun =>
    runBlock({ ...nominal(BLOCK), wallsOff, whole: true, rules: USUAL_RULES })
  const withWalls = cooled()

  test('with walls on, the core is within 15 K of the room about 20 h after the peak, within 5 K after about 35 h', () => {
    expect(coolingTo(withWalls, C + 35) / HOUR / 20).toBeGreaterThan(0.75)
    expect(coolingTo(withWalls, C + 35) / HOUR / 20).toBeLessThan(1.25)
    expect(coolingTo(withWalls, C + 25) / HOUR / 35).toBeGreaterThan(0.75)
    expect(coolingTo(withWalls, C + 25) / HOUR / 35).toBeLessThan(1.25)
  })

  test('stripping cuts the cooling time by roughly a third: between a fifth and two fifths here', () => {
    const saved = 1 - coolingTo(cooled(withWalls.peakTime), C + 25) / coolingTo(withWalls, C + 25)
    expect(saved).toBeGreaterThan(0.2)
    expect(saved).toBeLessThan(0.4)
  })
})

describe('published: rate of batter (trade-notes M6)', () => {
  test('first order would be fastest at the pour and peak hours early', () => {
    const first = reckoned({ ...BLOCK, reaction: { ...BLOCK.reaction, form: 'first-order' } })
    const usual = reckoned(BLOCK)
    expect(usual.peakTime.nominal - first.peakTime.nominal).toBeGreaterThan(2 * HOUR)
    const early = (run: HeatRun): number => run.series[1]?.reacted ?? 0
    expect(early(first.runs.nominal)).toBeGreaterThan(10 * early(usual.runs.nominal))
  })
})

describe('by hand: a block that conducts so well that it has one temperature', () => {
  // Biot number h·L/k = 4 · 0.1/50,000, near 1e-5: one equation for temperature and one for the reaction, by Runge and Kutta
  const lumped: HeatCase = {
    ...nominal(BLOCK),
    conductivity: 5e4,
    resolution: { cells: { length: 2, width: 2, height: 3 }, longestStep: 60, reactedInStep: 0.02 },
    whole: true,
    rules: { ...USUAL_RULES, longest: 24 * HOUR },
  }
  const { length, width, height } = lumped.block
  const faces = faceResistances(lumped.coverings)
  const leak =
    (2 * width * height) / faces.end +
    (2 * length * height) / faces.side +
    length * width * (1 / faces.top + 1 / faces.base)
  const mass = lumped.density * length * width * height
  const { heat, rate, activationEnergy, started } = lumped.reaction

  test('follows a Runge-Kutta reckoning of two equations within 0.02 K', () => {
    const slope = ([t, x]: readonly [number, number]): readonly [number, number] => {
      const turned = rateConstant(rate, activationEnergy, t) * (started + x) * (1 - x)
      return [
        (heat * (1 - started) * turned) / lumped.heatCapacity -
          (leak * (t - lumped.room)) / (mass * lumped.heatCapacity),
        turned,
      ]
    }
    const along = (
      [t, x]: readonly [number, number],
      [dt, dx]: readonly [number, number],
      time: number,
    ): readonly [number, number] => [t + dt * time, x + dx * time]
    let state: readonly [number, number] = [lumped.pour, 0]
    const { series } = runBlock(lumped)
    expect(series).toHaveLength(145)
    let hottest = 0
    for (const row of series) {
      expect(Math.abs(row.core - state[0])).toBeLessThan(0.02)
      expect(Math.abs(row.corner - state[0])).toBeLessThan(0.02)
      expect(Math.abs(row.reacted - state[1])).toBeLessThan(5e-4)
      hottest = Math.max(hottest, row.core)
      for (let step = 0; step < 60; step += 1) {
        const a = slope(state)
        const b = slope(along(state, a, 5))
        const c = slope(along(state, b, 5))
        const d = slope(along(state, c, 10))
        state = along(
          state,
          [(a[0] + 2 * b[0] + 2 * c[0] + d[0]) / 6, (a[1] + 2 * b[1] + 2 * c[1] + d[1]) / 6],
          10,
        )
      }
    }
    expect(hottest).toBeGreaterThan(C + 50)
  })

  test('follows the same two equations by odex 2.0.4 within 0.02 K', () => {
    const solver = odeSolver(2)
    const { series } = runBlock(lumped)
    const slope = (_time: number, [t = 0, x = 0]: number[]): number[] => {
      const turned = rateConstant(rate, activationEnergy, t) * (started + x) * (1 - x)
      return [
        (heat * (1 - started) * turned) / lumped.heatCapacity -
          (leak * (t - lumped.room)) / (mass * lumped.heatCapacity),
        turned,
      ]
    }
    for (const row of series.filter(({ time }) => time > 0 && time % (2 * HOUR) === 0)) {
      const [t = 0, x = 0] = solver.solve(slope, 0, [lumped.pour, 0], row.time).y
      expect(Math.abs(row.core - t)).toBeLessThan(0.02)
      expect(Math.abs(row.reacted - x)).toBeLessThan(5e-4)
    }
  })

  test('all at once: T = room + (pour + Q (1 − x₀)/c − room) exp(−UA t/mc)', () => {
    const { series } = runBlock({ ...lumped, reaction: { ...lumped.reaction, form: 'all-at-once' } })
    const start = lumped.pour - lumped.room + (heat * (1 - started)) / lumped.heatCapacity
    for (const row of series) {
      const expected = start * Math.exp((-leak * row.time) / (mass * lumped.heatCapacity))
      expect(Math.abs(row.core - lumped.room - expected)).toBeLessThan(0.02)
    }
  })

  test('kept at the pour temperature it reacts fastest when the hand formula says', () => {
    // no heat, and a room as warm as the pour
    const { series } = runBlock({ ...lumped, room: lumped.pour, reaction: { ...lumped.reaction, heat: 0 } })
    const turned = series.slice(1).map((row, i) => row.reacted - (series[i]?.reacted ?? 0))
    const at = (turned.indexOf(Math.max(...turned)) + 0.5) * 600
    const k = rateConstant(rate, activationEnergy, lumped.pour)
    expect(Math.abs(at - fastestAt(k, started))).toBeLessThanOrEqual(600)
  })
})

describe('by hand: energy of a block', () => {
  test.each(['never', 'when-held'] as const)(
    'balances to 1e-9 of what it generates, walls off: %s',
    (walls) => {
      const run = runBlock({
        ...nominal(insulated(BLOCK)),
        wallsOff: walls === 'never' ? undefined : walls,
        lidOff: 5000,
        insulationOff: 12_345,
      })
      const { generated, lost, stored } = run.energy
      expect(Math.abs(stored + lost - generated) / generated).toBeLessThan(1e-9)
      // Q (1 − x₀) for each kilogram when all has reacted
      const mass = 1010 * 0.286 * 0.21 * 0.216
      const whole = mass * BLOCK.reaction.heat.nominal * 0.97
      expect(generated / whole).toBeCloseTo(run.series.at(-1)?.reacted ?? 0, 2)
      expect(generated / whole).toBeGreaterThan(0.97)
    },
  )
})

describe('by hand: cells and steps are fine enough', () => {
  const fine = runBlock({
    ...nominal(BLOCK),
    resolution: { cells: { length: 14, width: 14, height: 27 }, longestStep: 150, reactedInStep: 0.1 },
  })
  const usual = runBlock(nominal(BLOCK))

  test('core as with cells half as large: within 0.7 K on its steepest climb, where it takes a minute, else within 0.2 K', () => {
    for (const [i, row] of usual.series.entries()) {
      const other = fine.series[i]
      const climb = (usual.series[i + 1]?.core ?? row.core) - (usual.series[i - 1]?.core ?? row.core)
      if (other?.time === row.time)
        expect(Math.abs(row.core - other.core)).toBeLessThan(climb > 3 ? 0.7 : 0.2)
    }
  })

  test('peak within 0.1 K and ten minutes', () => {
    expect(Math.abs(usual.peak - fine.peak)).toBeLessThan(0.1)
    expect(Math.abs(usual.peakTime - fine.peakTime)).toBeLessThanOrEqual(600)
  })

  test('cut within six minutes, gelled share within 0.02', () => {
    expect(Math.abs((usual.cut ?? 0) - (fine.cut ?? 0))).toBeLessThan(360)
    expect(Math.abs(usual.gelled.nominal.share - fine.gelled.nominal.share)).toBeLessThan(0.02)
  })

  // From 4, 8 and 16 cells the order is still 1.5 to 1.8, since the reaction runs away along a steep front; from 8, 16
  // and 32 it is 1.95.
  test('6, 12 and 24 cells, even steps: peak, core on its way up and heat lost of order 1.8 to 2.2', () => {
    const runs = [6, 12, 24].map((n) => {
      const cells = { length: n, width: n, height: 2 * n - 1 }
      const resolution = { cells, longestStep: 100, reactedInStep: 9 }
      return runBlock({ ...nominal(BLOCK), resolution, rules: { ...USUAL_RULES, longest: 6 * HOUR } })
    })
    const figures = [
      (run: HeatRun) => run.peak,
      (run: HeatRun) => run.series[18]?.core ?? Number.NaN,
      (run: HeatRun) => run.energy.lost,
    ]
    for (const figure of figures) {
      const [a = 0, b = 0, c = 0] = runs.map(figure)
      expect(Math.log2((b - a) / (c - b))).toBeGreaterThan(1.8)
      expect(Math.log2((b - a) / (c - b))).toBeLessThan(2.2)
    }
  })

  test('three histories in a quarter of a second', () => {
    expect(leastProcessorTime(250, 8, () => reckoned(BLOCK))).toBeLessThan(250)
    expect(USUAL_RESOLUTION.cells).toEqual({ length: 7, width: 7, height: 13 })
  })
})

describe('by hand: what must be so', () => {
  const usual = reckoned(BLOCK)

  test('a warmer pour peaks earlier and hotter', () => {
    const warmer = reckoned({ ...BLOCK, pour: BLOCK.pour + 6 })
    expect(warmer.peak.nominal).toBeGreaterThan(usual.peak.nominal + 1)
    expect(warmer.peakTime.nominal).toBeLessThan(usual.peakTime.nominal - HOUR)
  })

  test('thicker insulation is hotter and cools later', () => {
    const [thin, thick] = [0.02, 0.06].map((thickness) => reckoned(insulated(BLOCK, thickness)))
    expect(thin?.peak.nominal).toBeGreaterThan(usual.peak.nominal)
    expect(thick?.peak.nominal).toBeGreaterThan(thin?.peak.nominal ?? Infinity)
    expect(thick?.earliestCut.nominal).toBeGreaterThan(thin?.earliestCut.nominal ?? Infinity)
    expect(thick?.gelled.nominal.share).toBeGreaterThan(usual.gelled.nominal.share)
  })

  test('a warmer room is hotter, a warmer core is inside', () => {
    expect(reckoned({ ...BLOCK, room: C + 28 }).peak.nominal).toBeGreaterThan(usual.peak.nominal)
    const row = usual.runs.nominal.series[36] // 6 h
    expect(row?.time).toBe(6 * HOUR)
    expect(row?.core).toBeGreaterThan(row?.wallMiddle ?? Infinity)
    expect(row?.core).toBeGreaterThan(row?.topCentre ?? Infinity)
    expect(row?.wallMiddle).toBeGreaterThan(row?.corner ?? Infinity)
    expect(row?.corner).toBeGreaterThan(BLOCK.room)
  })

  test('the series is every ten minutes, from the pour', () => {
    const { series } = usual.runs.nominal
    expect(series.map(({ time }) => time)).toEqual(series.map((_, i) => i * 600))
    expect(series[0]).toMatchObject({ core: expect.closeTo(BLOCK.pour, 9), reacted: 0 })
  })

  test('bands hold their nominal value: more heat and a faster rate are hotter and gel more', () => {
    for (const band of [usual.peak, usual.peakTime]) {
      expect(band.low).toBeLessThan(band.nominal)
      expect(band.high).toBeGreaterThan(band.nominal)
    }
    const { low, nominal: middle, high } = usual.gelled
    expect(low.share).toBeLessThan(middle.share)
    expect(high.share).toBeGreaterThan(middle.share)
    expect(low.edge).toBeUndefined()
    expect(usual.runs.high.peak).toBe(usual.peak.high)
  })

  test('gel reaches less far when it needs more heat', () => {
    const { low, nominal: middle, high } = usual.runs.nominal.gelled
    expect(low.share).toBeGreaterThan(middle.share)
    expect(middle.share).toBeGreaterThan(high.share)
    expect(high.edge?.fromSide).toBeGreaterThan(middle.edge?.fromSide ?? Infinity)
    expect(high.edge?.fromSide).toBeLessThan(0.105)
    // without its lid the top is cooler than the base
    const open = reckoned({ ...BLOCK, lidOff: 0 }).runs.nominal.gelled.high.edge
    expect(open?.fromTop).toBeGreaterThan((open?.fromBase ?? Infinity) + 0.003)
  })
})

describe('by hand: three events', () => {
  const usual = reckoned(BLOCK)

  test('strip after the peak, cut when cool, cautious cut later', () => {
    const { held, cut, cutCautious, peakTime, series } = usual.runs.nominal
    expect(held).toBeGreaterThan(peakTime)
    expect(cut).toBeGreaterThan(held ?? Infinity)
    expect(cutCautious).toBeGreaterThan(cut ?? Infinity)
    const core = (time: number): number => series.find((row) => row.time >= time)?.core ?? Number.NaN
    expect(core(held ?? 0)).toBeLessThan(usual.gelTemperature.nominal)
    expect(Math.abs(core(cut ?? 0) - (C + 40))).toBeLessThan(0.5)
    expect(Math.abs((series.at(-1)?.core ?? 0) - (C + 35))).toBeLessThan(0.5)
  })

  test('a block poured below the limit may not be cut before it has reacted', () => {
    const cold = reckoned({ ...BLOCK, pour: C + 30, room: C + 18 })
    expect(cold.runs.nominal.series[0]?.core).toBeLessThan(C + 40)
    expect(cold.earliestCut.nominal).toBeGreaterThan(cold.peakTime.nominal)
  })

  test('walls stay on until the core is so far past its peak', () => {
    const run = runBlock({ ...nominal(BLOCK), rules: { ...EARLY, pastPeak: 25 } })
    const at = run.series.findIndex(({ time }) => time >= (run.held ?? Infinity))
    expect(run.series[at]?.core).toBeLessThanOrEqual(run.peak - 25)
    expect(run.series[at - 1]?.core).toBeGreaterThan(run.peak - 25)
  })

  test('a loaf that is cool from the start is cut when it holds', () => {
    const { held, cut, series } = reckoned(loafOf(BLOCK)).runs.nominal
    expect(series.every(({ core }) => core < C + 40)).toBe(true)
    expect(held).toBeGreaterThan(10 * HOUR)
    expect(cut).toBe(held)
  })

  test('the slow end is slow by its rate, not only by its heat', () => {
    const { nominal: heat } = BLOCK.reaction.heat
    const same = { ...BLOCK.reaction, heat: { low: heat, nominal: heat, high: heat } }
    const { peakTime } = reckoned({ ...BLOCK, reaction: same })
    expect(peakTime.low).toBeLessThan(peakTime.nominal - HOUR)
    expect(peakTime.high).toBeGreaterThan(peakTime.nominal + HOUR)
  })

  test('a lid that is off from the start is as if it had never been there', () => {
    const open = { ...BLOCK.coverings, top: { layers: [], film: 7.5 } }
    expect(reckoned({ ...BLOCK, lidOff: 0 }).peak).toEqual(reckoned({ ...BLOCK, coverings: open }).peak)
  })

  test('stripped when it holds, it is cut earlier', () => {
    const [stripped, kept] = [
      reckoned({ ...BLOCK, rules: EARLY, wallsOff: 'when-held' }),
      reckoned({ ...BLOCK, rules: EARLY }),
    ]
    expect(stripped.strip.nominal).toBe(kept.strip.nominal)
    expect(stripped.earliestCut.nominal).toBeLessThan((kept.earliestCut.nominal ?? 0) - HOUR)
    expect(stripped.peak).toEqual(kept.peak)
  })

  test('nobody strips before the floor, however early it would hold, and the cut waits for it too', () => {
    // it holds some 11 h after the pour
    const free = reckoned({ ...BLOCK, rules: EARLY, wallsOff: 'when-held' })
    expect(free.strip.nominal).toBeLessThan(13 * HOUR)
    const floored = reckoned({ ...BLOCK, wallsOff: 'when-held' })
    expect(USUAL_RULES.stripNotBefore).toBe(18 * HOUR)
    expect(floored.strip.nominal).toBe(18 * HOUR)
    expect(floored.earliestCut.nominal).toBeGreaterThan(free.earliestCut.nominal ?? Infinity)
    const late = reckoned({ ...BLOCK, rules: { ...USUAL_RULES, stripNotBefore: 40 * HOUR } })
    // by then its core has long been below 40 °C
    expect(late.earliestCut).toEqual({ low: 40 * HOUR, nominal: 40 * HOUR, high: 40 * HOUR })
  })

  test('a block is cut when its walls are off, not before', () => {
    const late = reckoned({ ...BLOCK, wallsOff: 60 * HOUR })
    expect(late.runs.nominal.held).toBe(18 * HOUR)
    expect(late.strip.nominal).toBe(60 * HOUR)
    expect(late.earliestCut.nominal).toBe(60 * HOUR)
    // walls that are off too early do not make it hold
    expect(reckoned({ ...BLOCK, wallsOff: HOUR }).strip.nominal).toBeGreaterThanOrEqual(18 * HOUR)
  })

  test('lid and insulation off at the start are not there', () => {
    const wrapped = insulated(BLOCK)
    expect(reckoned({ ...wrapped, insulationOff: 0 }).peak).toEqual(usual.peak)
    expect(reckoned({ ...BLOCK, lidOff: 0 }).peak.nominal).toBeLessThan(usual.peak.nominal)
    const later = reckoned({ ...wrapped, insulationOff: 4 * HOUR }).earliestCut.nominal ?? 0
    expect(later).toBeLessThan(reckoned(wrapped).earliestCut.nominal ?? 0)
  })

  test('ends after 120 hours at the most', () => {
    const warm = reckoned({ ...BLOCK, room: C + 36 })
    expect(warm.runs.nominal.end).toBe(120 * HOUR)
    expect(warm.cautiousCut.nominal).toBeUndefined()
  })
})

describe('by hand: findings', () => {
  const rules = USUAL_RULES
  const cut = (low: number, middle: number, high: number) => ({
    ...rules,
    latestCut: { low: low * HOUR, nominal: middle * HOUR, high: high * HOUR },
  })

  test('too hot for certain, or perhaps', () => {
    expect(codes({ ...BLOCK, rules: { ...rules, tooHot: C + 75 } })).toContain('block-overheats')
    expect(codes({ ...BLOCK, rules: { ...rules, tooHot: C + 90 } })).toContain('block-may-overheat')
    const calm = codes({ ...BLOCK, rules: { ...rules, tooHot: C + 150 } })
    expect(calm.filter((code) => code.includes('overheat'))).toEqual([])
    expect(codes(BLOCK)).toContain('block-may-steam')
  })

  test('a block is not poured that boils by the middle of the estimate: poured at 75 °C, where at 45 it only may', () => {
    const severities = (pour: number) =>
      (blockHeat({ ...BLOCK, pour: C + pour }).findings ?? [])
        .filter(({ code }) => code === 'block-boils' || code === 'block-may-steam')
        .map(({ code, severity }) => `${severity} ${code}`)
    const peak = (pour: number) => reckoned({ ...BLOCK, pour: C + pour }).peak.nominal - C
    expect(peak(45)).toBeLessThan(100)
    expect(severities(45)).toEqual(['warn block-may-steam'])
    expect(peak(75)).toBeGreaterThan(100)
    expect(severities(75)).toEqual(['stop block-boils'])
  })

  test('the window is empty, perhaps empty, or open', () => {
    expect(codes({ ...BLOCK, rules: cut(10, 20, 30) })).toContain('cut-window-empty')
    expect(codes({ ...BLOCK, rules: cut(24, 48, 96) })).toContain('cut-window-may-be-empty')
    const open = codes({ ...BLOCK, rules: cut(60, 70, 90) })
    expect(open.filter((code) => code.startsWith('cut-window'))).toEqual([])
  })

  test('what comes off at a time that does not fit', () => {
    const taken = (change: Partial<BlockHeatRequest>) =>
      codes({ ...BLOCK, ...change }).filter((code) => /before-held|after-strip/.test(code))
    // it holds at 18 h
    expect(taken({ wallsOff: 17 * HOUR })).toEqual(['walls-off-before-held'])
    expect(taken({ wallsOff: 19 * HOUR })).toEqual([])
    expect(taken({ wallsOff: 'when-held', lidOff: 19 * HOUR, insulationOff: 17 * HOUR })).toEqual([
      'lid-off-after-strip',
    ])
    expect(taken({ wallsOff: 'when-held', lidOff: 17 * HOUR, insulationOff: 19 * HOUR })).toEqual([
      'insulation-off-after-strip',
    ])
  })

  test('gels in part', () => {
    expect(codes(BLOCK)).toContain('block-gels-in-part')
    expect(codes(insulated({ ...BLOCK, pour: C + 45 }))).not.toContain('block-gels-in-part')
  })

  test('never cool, never firm', () => {
    // what cools towards 42 °C is never below 40 °C; towards 39.9 °C through 20 cm of foam not within five days
    expect(codes({ ...BLOCK, room: C + 42 })).toContain('room-warmer-than-cut')
    expect(codes({ ...BLOCK, room: C + 42 })).not.toContain('core-never-cool')
    expect(codes(insulated({ ...BLOCK, room: C + 39.9 }, 0.2))).toContain('core-never-cool')
    const slow = { ...BLOCK.reaction, rate: { low: 1e-9, nominal: 1e-9, high: 1e-9 } }
    expect(codes({ ...BLOCK, reaction: slow })).toContain('block-never-holds')
  })

  test.each([
    ['heat-size-not-positive', { block: { ...BLOCK.block, width: 0 } }],
    ['heat-size-not-positive', { block: { ...BLOCK.block, height: Number.NaN } }],
    ['heat-size-not-positive', { soap: { ...BLOCK.soap, density: -1 } }],
    [
      'heat-size-not-positive',
      { coverings: { ...BLOCK.coverings, end: { layers: [{ resistance: -1 }], film: 8 } } },
    ],
    [
      'heat-of-reaction-negative',
      { reaction: { ...BLOCK.reaction, heat: { low: -1, nominal: 1, high: 2 } } },
    ],
    ['heat-started-no-share', { reaction: { ...BLOCK.reaction, started: 0 } }],
    ['heat-water-no-share', { soap: { ...BLOCK.soap, waterShare: 1.2 } }],
    ['room-hotter-than-gel', { room: C + 80 }],
  ] as const)('%s stops before anything is reckoned', (code, change) => {
    const heat = blockHeat({ ...BLOCK, ...change })
    expect(heat.findings.map((finding) => [finding.code, finding.severity])).toContainEqual([code, 'stop'])
    expect('runs' in heat).toBe(false)
  })

  test('plain data in, plain data out', () => {
    expect(JSON.parse(JSON.stringify(BLOCK))).toEqual(BLOCK)
    const heat = reckoned(BLOCK)
    expect(JSON.parse(JSON.stringify(heat)).peak).toEqual(heat.peak)
    expect(reckoned(BLOCK)).toEqual(heat)
  })
})
