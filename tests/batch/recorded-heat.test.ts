/**
 * Recorded on 27 November 2026: heat of a block of few cells, so that nobody changes unseen what a block is reckoned to
 * do. Whether it is right is asked elsewhere, of cells that are fine enough.
 */
import { describe, test } from 'vitest'
import {
  type BlockHeatRequest,
  blockHeat,
  COARSE_RESOLUTION,
  FRESH_SOAP,
  heatCase,
  isReckoned,
  nonsense,
  USUAL_RESOLUTION,
  USUAL_RULES,
} from '../../src/batch/block-heat.ts'
import { type HeatCase, type HeatRun, runBlock } from '../../src/batch/block-heat-run.ts'
import {
  belowBoiling,
  boundByForm,
  cutWindowWays,
  loafOf,
  mostHeatAt,
  overheatingRemedies,
} from '../../src/batch/block-heat-variants.ts'
import {
  batterHeat,
  fastestAt,
  gelTemperature,
  HEAT_PER_MOLE,
  type RateForm,
  rateConstant,
  reactingCells,
  USUAL_RATE,
} from '../../src/batch/block-reaction.ts'
import {
  coveringsLeft,
  FOAM_CONDUCTIVITY,
  faceResistances,
  PLYWOOD_CONDUCTIVITY,
  STILL_AIR_FILM,
} from '../../src/batch/block-walls.ts'
import { calibratedReaction, calibrateLog, calibrateRate } from '../../src/batch/heat-calibration.ts'
import { expectRecorded } from '../recorded.ts'
import { whatChanges } from '../recorded-changes.ts'
import { BLOCK, C, HOUR, insulated } from './heat-demo.ts'

const recorded = (name: string, value: unknown): void => expectRecorded(value, name, import.meta.url)

const RULES = { ...USUAL_RULES, stripNotBefore: 9 * HOUR, longest: 60 * HOUR }
const FEW: BlockHeatRequest = {
  ...BLOCK,
  rules: RULES,
  resolution: { cells: { length: 2, width: 2, height: 3 }, longestStep: 600, reactedInStep: 0.4 },
  every: 12 * HOUR,
}

const figures = (value: number | undefined): string =>
  value === undefined ? '-' : String(Number(value.toPrecision(7)))
const told = ({ series, ...rest }: HeatRun) => ({
  ...rest,
  series: series.map((row) => Object.values(row).map(figures).join(' ')),
})

describe('recorded: histories of a block', () => {
  const few: HeatCase = {
    ...heatCase(insulated(FEW), 'nominal'),
    resolution: { cells: { length: 3, width: 2, height: 4 }, longestStep: 600, reactedInStep: 0.3 },
    every: 3 * HOUR,
  }
  test.each([
    ['as it is', few],
    ['bare', heatCase({ ...FEW, every: 3 * HOUR }, 'high')],
    [
      'things come off',
      { ...few, lidOff: 1.3 * HOUR, insulationOff: 2.9 * HOUR, wallsOff: 'when-held' as const },
    ],
    ['walls come off early', { ...few, wallsOff: 2 * HOUR }],
    ['walls come off late', { ...few, wallsOff: 31 * HOUR, lidOff: 5000 }],
    ['first order', { ...few, reaction: { ...few.reaction, form: 'first-order' as const } }],
    ['all at once', { ...few, reaction: { ...few.reaction, form: 'all-at-once' as const } }],
    ['whole', { ...few, whole: true, every: 5000, rules: { ...RULES, longest: 70_000 } }],
    [
      'fast',
      {
        ...few,
        every: 700,
        reaction: { ...few.reaction, rate: 0.2 },
        rules: { ...RULES, longest: 4000 },
      },
    ],
    [
      'cold',
      { ...few, pour: C + 25, resolution: { ...few.resolution, cells: { length: 2, width: 3, height: 5 } } },
    ],
  ] satisfies [string, HeatCase][])('%s', (name, heat) =>
    recorded(`history ${name}`.replaceAll(' ', '-'), told(runBlock(heat))),
  )
})

describe('recorded: heat of a block as numbers change', () => {
  const short = (request: BlockHeatRequest) => {
    const heat = blockHeat(request)
    const codes = heat.findings.map(({ code }) => code).join(' ')
    if (!isReckoned(heat)) return codes
    const { peak, peakTime, gelled, strip, earliestCut, cautiousCut, runs } = heat
    const edge = runs.nominal.gelled.nominal.edge
    return {
      peak: [peak.low, peak.nominal, peak.high].map(figures).join(' '),
      at: [peakTime.low, peakTime.nominal, peakTime.high].map(figures).join(' '),
      gelled: [gelled.low.share, gelled.nominal.share, gelled.high.share].map(figures).join(' '),
      edge: edge && Object.values(edge).map(figures).join(' '),
      strip: [strip.low, strip.nominal, strip.high].map(figures).join(' '),
      cut: [earliestCut.low, earliestCut.nominal, earliestCut.high].map(figures).join(' '),
      cautious: [cautiousCut.low, cautiousCut.nominal, cautiousCut.high].map(figures).join(' '),
      codes,
    }
  }

  test('coverings', () =>
    recorded(
      'heat-coverings',
      whatChanges({ coverings: BLOCK.coverings }, (one) => short({ ...FEW, ...one }), [0.6, 1.4]),
    ))

  test('block and reaction', () =>
    recorded(
      'heat-block',
      whatChanges(
        FEW,
        short,
        [0.9, 1.15],
        new Set(['coverings', 'rules', 'resolution', 'every', 'room', 'pour']),
      ),
    ))

  test('room, pour, rules and what comes off', () =>
    recorded('heat-rules', [
      [12, 27, 41].map((celsius) => short({ ...FEW, room: C + celsius })),
      [25, 34, 49].map((celsius) => short({ ...FEW, pour: C + celsius })),
      whatChanges(
        { rules: RULES, lidOff: 12 * HOUR, insulationOff: 16 * HOUR },
        (one) => short({ ...insulated(FEW), ...one, wallsOff: 'when-held' }),
        [0.9, 1.3],
      ),
    ]))

  test('what no block can be', () =>
    recorded(
      'heat-nonsense',
      whatChanges(
        FEW,
        (one) => nonsense(one),
        [-1, 0, 1.2, Number.NaN],
        new Set(['rules', 'resolution', 'every']),
      ),
    ))

  test('what is assumed', () =>
    recorded('heat-assumed', {
      USUAL_RULES,
      USUAL_RESOLUTION,
      COARSE_RESOLUTION,
      FRESH_SOAP,
      HEAT_PER_MOLE,
      USUAL_RATE,
      PLYWOOD_CONDUCTIVITY,
      FOAM_CONDUCTIVITY,
      STILL_AIR_FILM,
      demo: (['low', 'nominal', 'high'] as const).map((end) => heatCase(BLOCK, end)),
      loaf: loafOf(BLOCK),
      bare: faceResistances(insulated(BLOCK).coverings),
      off: [0, 1, 2].map((which) =>
        faceResistances(
          coveringsLeft(insulated(BLOCK).coverings, {
            lid: which === 0,
            insulation: which === 1,
            walls: which === 2,
          }),
        ),
      ),
    }))
})

describe('recorded: the same soap treated otherwise', () => {
  const hot = insulated(FEW, 0.06)

  test('remedies and ways out', () =>
    recorded('heat-variants', [
      overheatingRemedies(hot),
      overheatingRemedies({ ...FEW, pour: C + 26, rules: { ...RULES, tooHot: C + 60 } }),
      cutWindowWays({ ...hot, wallsOff: 50 * HOUR }),
      cutWindowWays({
        ...FEW,
        rules: { ...RULES, latestCut: { low: HOUR, nominal: 16 * HOUR, high: 40 * HOUR } },
      }),
    ]))

  test('what keeps a block from boiling', () => {
    const made = (nominal: number): BlockHeatRequest => ({
      ...hot,
      room: C + 34,
      pour: C + 64,
      reaction: { ...FEW.reaction, heat: { low: nominal, nominal, high: nominal } },
    })
    recorded('heat-below-boiling', [
      belowBoiling({ ...FEW, room: C + 34, pour: C + 90 }),
      belowBoiling({ ...hot, pour: C + 45 }),
      ...[170, 182, 184, 189, 195, 200, 220, 260, 300].map(
        (kilojoules) => belowBoiling(made(kilojoules * 1000)) ?? 'none',
      ),
    ])
  })

  test('bounds, most heat and a loaf', () =>
    recorded('heat-bounds', [
      told(boundByForm(FEW, 'first-order')),
      told(boundByForm(FEW, 'all-at-once')),
      told(mostHeatAt(FEW, 'low')),
      told(mostHeatAt(FEW, 'nominal')),
      told(runBlock(heatCase(loafOf(FEW), 'nominal'))),
    ]))
})

describe('recorded: reaction in cells', () => {
  test.each(['autocatalytic', 'first-order'] as RateForm[])('%s', (form) => {
    const reaction = { heat: 140e3, rate: 2e-4, activationEnergy: 55e3, started: 0.03, form }
    const above = Float64Array.from([-80, -20, 1.1, 17.3, 39.9, 180])
    const soap = reactingCells(reaction, above.length, C + 20, 1010, 2550)
    const rows = Array.from({ length: 14 }, (_, at) => {
      const heat = soap.source(above, 40 * (at + 1))
      return [heat, soap.least(), soap.fastest(above), ...soap.reacted, ...above].map(figures).join(' ')
    })
    recorded(`reaction-${form}`, rows)
  })

  test('laws', () =>
    recorded('reaction-laws', [
      whatChanges(
        { rate: 2e-4, energy: 55e3, kelvins: 325 },
        (one) => rateConstant(one.rate, one.energy, one.kelvins),
        [0.9, 1.1],
      ),
      whatChanges({ rate: 2e-4, started: 0.03 }, (one) => fastestAt(one.rate, one.started), [0.5, 2]),
      [0.05, 0.1, 0.15, 0.19, 0.25, 0.33, 0.35, 0.4].map(gelTemperature),
      batterHeat(2.3),
    ]))
})

describe('recorded: rates from logs', () => {
  const log = (celsius: readonly number[], hours = 1) =>
    celsius.map((one, at) => ({ time: at * hours * HOUR, temperature: C + one }))

  test('by rate', () =>
    recorded('calibration-rate', [
      calibrateRate(BLOCK, log([38, 41, 46, 57, 71])),
      calibrateRate(BLOCK, log([38, 38.9, 40, 41.5, 43])),
      calibrateRate(BLOCK, log([38, 60, 44, 70, 72])),
      calibrateLog(BLOCK, log([38, 39, 48, 56, 70])),
    ]))

  test('beyond rates', () =>
    recorded('calibration-beyond', [
      calibrateRate(BLOCK, log([38, 38.3, 38.5, 38.6, 38.8, 39])),
      calibrateRate(BLOCK, log([38, 100, 101, 100, 99.5, 99], 0.8)),
    ]))

  test('by rate and heat', () =>
    recorded('calibration-both', calibrateRate(BLOCK, log([38, 43, 55, 64, 70, 71]), 'rate and heat')))

  test('bands', () =>
    recorded(
      'calibration-bands',
      whatChanges(
        {
          fits: [
            { rateFactor: 1.3, heatFactor: 0.9 },
            { rateFactor: 0.8, heatFactor: 1.2 },
            { rateFactor: 1.1, heatFactor: 1 },
          ],
          rate: { low: 1e-4, nominal: 2e-4, high: 4e-4 },
          heat: { low: 50e3, nominal: 60e3, high: 80e3 },
        },
        ({ fits, ...estimate }) => calibratedReaction(fits, estimate),
        [0.8, 1.5],
      ),
    ))
})
