/**
 * Recorded on 27 November 2026: how hot, how dense and how strong a lye is reckoned to be, and how far a superfat may be
 * off, so that nobody changes it unseen. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { iceByWater } from '../../src/chemistry/ice-by-water.ts'
import {
  coolingConstantFromReadings,
  coolingTime,
  estimatedCoolingConstant,
  temperatureAfter,
} from '../../src/chemistry/lye-cooling.ts'
import {
  lyeHeatCapacity,
  lyeWarming,
  potassiumLyeHeatCapacity,
  waterHeatCapacity,
  waterWarming,
} from '../../src/chemistry/lye-heat-capacity.ts'
import {
  checkStockIce,
  equalPortions,
  iceFor,
  planPortions,
  portionPeaks,
} from '../../src/chemistry/lye-portions.ts'
import {
  solutionBoilingPoint,
  solutionEnthalpy,
  solutionHeatCapacity,
} from '../../src/chemistry/naoh-enthalpy.ts'
import {
  checkSolubility,
  potassiumHydroxideSolubility,
  sodiumHydroxideSolubility,
} from '../../src/chemistry/solubility.ts'
import { lyeComposition, lyeWater, stockLye } from '../../src/chemistry/solution.ts'
import { lyeDensity } from '../../src/chemistry/solution-density.ts'
import {
  checkLyePeak,
  enthalpySurplus,
  heatReleased,
  ICE,
  iceEnthalpy,
  type LyeMixing,
  peakTemperature,
  potassiumHydroxideHeat,
  sodiumHydroxideHeat,
  temperatureHavingLost,
  thinnedStockTemperature,
  waterEnthalpy,
} from '../../src/chemistry/solution-heat.ts'
import { superfatContributions } from '../../src/chemistry/superfat-contributions.ts'
import { drawSuperfats } from '../../src/chemistry/superfat-draws.ts'
import { massDeviation, type SuperfatInput, scaleKeys, scaleOf } from '../../src/chemistry/superfat-input.ts'
import { SOFT_LIMIT, superfatMargin } from '../../src/chemistry/superfat-interval.ts'
import { superfatSpread } from '../../src/chemistry/superfat-spread.ts'
import { expectRecorded } from '../recorded.ts'
import { whatChanges } from '../recorded-changes.ts'

const C = 273.15
const recorded = (name: string, value: unknown): void => expectRecorded(value, name, import.meta.url)
const figures = (...values: readonly number[]): string =>
  values.map((value) => String(Number(value.toPrecision(7)))).join(' ')
const SHARES = [0, 0.03, 0.05, 0.12, 0.2, 0.28, 1 / 3, 0.4, 0.47, 0.52, 0.6, 0.7]
const WARMTHS = [1, 20, 25, 47, 70, 95]

describe('recorded: properties of lye', () => {
  test('enthalpy and heat capacity of sodium hydroxide', () =>
    recorded(
      'lye-enthalpy',
      SHARES.map((w) =>
        [
          figures(w, solutionBoilingPoint(w)),
          ...WARMTHS.map((t) => figures(solutionEnthalpy(w, C + t), solutionHeatCapacity(w, C + t))),
        ].join(', '),
      ),
    ))

  test('heat capacity of potassium hydroxide, of mixed lye and of water', () =>
    recorded('lye-heat-capacity', [
      SHARES.map((w) => WARMTHS.map((t) => figures(potassiumLyeHeatCapacity(w, C + t))).join(' ')),
      WARMTHS.map((t) => figures(t, waterHeatCapacity(C + t), waterWarming(C + 13, C + t))),
      [{ NaOH: 0.2, KOH: 0.1 }, { KOH: 0.3 }, { NaOH: 0.3 }, { NaOH: 0.05, KOH: 0.4 }, {}].map((lye) =>
        WARMTHS.map((t) => figures(lyeHeatCapacity(lye, C + t), lyeWarming(lye, C + 25, C + t))).join(', '),
      ),
    ]))

  test('density', () =>
    recorded(
      'lye-density',
      SHARES.map((w) =>
        WARMTHS.map((t) =>
          figures(
            lyeDensity({ NaOH: w }, C + t),
            lyeDensity({ KOH: w }, C + t),
            lyeDensity({ NaOH: w * 0.6, KOH: w * 0.4 }, C + t),
          ),
        ).join(', '),
      ),
    ))

  test('solubility', () =>
    recorded('lye-solubility', [
      [-5, 0, 3, 10, 17, 20, 26, 30, 38, 44, 50, 57, 60, 73, 80, 86, 90, 99].map((t) =>
        figures(t, sodiumHydroxideSolubility(C + t), potassiumHydroxideSolubility(C + t)),
      ),
      [0, 0.4, 0.5, 0.505, 0.519, 0.523, 0.6].map((w) =>
        checkSolubility({ NaOH: w * 0.8, KOH: w * 0.2 }, C + 20),
      ),
    ]))
})

const MIXING: LyeMixing = {
  sodiumHydroxide: 1,
  potassiumHydroxide: 0.3,
  acidGroups: 0.7,
  impurities: 0.05,
  water: 2.2,
  waterTemperature: C + 18,
  alkaliTemperature: C + 21,
  ice: 0.4,
  iceTemperature: C - 8,
}
const SODIUM: LyeMixing = {
  sodiumHydroxide: 1.4,
  potassiumHydroxide: 0,
  impurities: 0.02,
  water: 2.8,
  waterTemperature: C + 20,
  alkaliTemperature: C + 20,
}

describe('recorded: heat of lye', () => {
  test('heat by strength', () =>
    recorded('lye-heat', [
      SHARES.map((w) =>
        [sodiumHydroxideHeat(w), potassiumHydroxideHeat(w)]
          .map(({ low, nominal, high }) => figures(low, nominal, high))
          .join(', '),
      ),
      ICE,
      [-20, -3, 0, 5].map((t) => figures(iceEnthalpy(C + t), waterEnthalpy(C + t))),
      [349, 353.15, 354].map((peak) => checkLyePeak(peak, 353.15)),
    ]))

  test('peaks as numbers change', () =>
    recorded('lye-peaks', [
      whatChanges(
        MIXING,
        (one) => ({
          ...peakTemperature(one),
          released: heatReleased(one),
          surplus: enthalpySurplus(one, C + 60),
          surplusLow: enthalpySurplus(one, C + 40, 'low'),
          lost: temperatureHavingLost(one, 2e5, 'nominal'),
        }),
        [0.9, 1.1],
      ),
      whatChanges(SODIUM, peakTemperature, [0.5, 0.95, 1.3]),
    ]))

  test('thinned stock', () =>
    recorded(
      'lye-thinned',
      whatChanges(
        { stock: { ...SODIUM, water: 1.5, acidGroups: 0.5 }, makeUp: { water: 1.2, ice: 0.3 }, at: C + 25 },
        ({ stock, makeUp, at }) => thinnedStockTemperature(stock, makeUp, at),
        [0.92, 1.06],
      ),
    ))

  test('portions', () =>
    recorded('lye-portions', [
      planPortions(MIXING, { hottest: C + 45, waitFor: C + 30 }),
      planPortions(SODIUM, { hottest: C + 55, waitFor: C + 15 }),
      planPortions(SODIUM, { hottest: C + 70, waitFor: C + 40, atLeast: 3 }),
      planPortions(SODIUM, { hottest: C + 41, waitFor: C + 40 }),
      equalPortions({ ...MIXING, alkaliTemperature: C + 33 }, 4, C + 28),
      portionPeaks(
        MIXING,
        [
          { sodium: 0.5, potassium: 0 },
          { sodium: 1, potassium: 0 },
          { sodium: 1, potassium: 1 },
        ],
        C + 35,
      ),
      portionPeaks(
        { ...SODIUM, ice: 2, water: 0.8 },
        [0.1, 0.3, 1].map((share) => ({ sodium: share, potassium: share })),
        C + 30,
      ),
    ]))

  test('ice', () =>
    recorded('lye-ice', [
      whatChanges(
        { mixing: SODIUM, hottest: C + 60, ice: C - 5 },
        ({ mixing, hottest, ice }) => iceFor(mixing, hottest, ice),
        [0.95, 1.05],
      ),
      iceFor(MIXING, C + 45),
      iceFor(SODIUM, C - 5),
      iceByWater(
        SODIUM,
        C + 70,
        [2, 8, 15, 20, 26, 33].map((t) => C + t),
      ),
      iceByWater(
        MIXING,
        C + 50,
        [4, 20].map((t) => C + t),
      ),
      [0.2, 0.6, 0.69, 0.8].map((ice) => checkStockIce({ ...SODIUM, water: 1.5 - ice, ice })),
      [1.6, 1.75].map((water) => checkStockIce({ ...SODIUM, water })),
    ]))

  test('cooling', () =>
    recorded('lye-cooling', [
      whatChanges(
        { first: C + 80, second: C + 50, timeBetween: 3600, room: C + 20 },
        coolingConstantFromReadings,
        [-1, 0.95, 1.04],
      ),
      (['still-air', 'water-bath'] as const).map((surroundings) =>
        whatChanges(
          { mass: 4.4, heatCapacity: 3575, area: 0.144, surroundings },
          estimatedCoolingConstant,
          [0.5, 2],
        ),
      ),
      whatChanges(
        { from: C + 80, to: C + 40, room: C + 20, constant: 1.2e-4 },
        coolingTime,
        [-1, 0.93, 1.05, 1.2],
      ),
      whatChanges({ from: C + 80, room: C + 20, constant: 1.2e-4, time: 5000 }, temperatureAfter, [0.9, 1.1]),
    ]))

  test('strength and stock', () =>
    recorded('lye-strength', [
      (['concentration', 'water-to-lye', 'water-share-of-oils'] as const).map((by) =>
        whatChanges(
          { alkali: 1.4, fat: 10, value: 0.4 },
          ({ alkali, fat, value }) => lyeWater(alkali, fat, { by, value }),
          [0.5, 1.2],
        ),
      ),
      whatChanges(
        {
          alkalis: [
            { alkali: 'NaOH' as const, pureMass: 1.1, weighedMass: 1.13 },
            { alkali: 'KOH' as const, pureMass: 0.3, weighedMass: 0.34 },
          ],
          water: 2.8,
        },
        ({ alkalis, water }) => lyeComposition(alkalis, water),
        [0.5, 1.2],
      ),
      whatChanges({ alkali: 1.5, water: 3, stockConcentration: 0.5 }, stockLye, [0.4, 0.9, 1.3]),
    ]))
})

describe('recorded: how far a superfat may be off', () => {
  const weighing = { scale: 'bench', draws: 2 }
  const batch: SuperfatInput = {
    fats: [
      { key: 'first', mass: 6, saponificationValue: { nominal: 0.191, low: 0.184, high: 0.196 }, weighing },
      {
        key: 'second',
        mass: 4,
        saponificationValue: { nominal: 0.256, low: 0.248, high: 0.264, basis: 'middle-of-range' },
        weighing: { scale: 'bench', draws: 3 },
      },
    ],
    alkalis: [
      {
        alkali: 'NaOH',
        mass: 1.3,
        purity: { nominal: 0.985, low: 0.97, high: 0.995 },
        weighing: { scale: 'small', draws: 1 },
      },
      {
        alkali: 'KOH',
        mass: 0.3,
        purity: { nominal: 0.9, low: 0.88, high: 0.95 },
        weighing: { scale: 'small', draws: 1 },
      },
    ],
    acids: [{ key: 'citric', mass: 0.08, hydroxidePerMass: 15.6, weighing: { scale: 'pocket', draws: 1 } }],
    hydroxideForAcids: 0.3,
    scales: {
      bench: { division: 0.005, repeatability: 0.004, span: 0.001 },
      small: { division: 0.001, repeatability: 0.0012, span: 0.002 },
      pocket: { division: 0.0005, repeatability: 0.0001, span: 0.003 },
    },
    floor: 0.02,
    seed: 4,
    draws: 400,
  }

  test('spread and causes as numbers change', () =>
    recorded(
      'superfat',
      whatChanges(
        batch,
        (one) => {
          const { nominal, worst, monteCarlo, rootSumSquare, state } = superfatSpread(one)
          return {
            nominal,
            worst: figures(worst.low, worst.high),
            drawn: figures(monteCarlo.low, monteCarlo.high),
            squares: figures(rootSumSquare.low, rootSumSquare.high),
            state,
            causes: superfatContributions(one)
              .map(({ cause, of, deviation }) => `${cause} ${of} ${figures(deviation)}`)
              .join(', '),
          }
        },
        [0.97, 1.04],
      ),
    ))

  test('drawn', () =>
    recorded('superfat-drawn', [
      drawSuperfats(batch),
      drawSuperfats({ ...batch, seed: 11, draws: 3000 }),
      drawSuperfats({ ...batch, fats: [] }),
      scaleKeys(batch),
      scaleKeys(batch).map((key) => scaleOf(batch, key)),
      scaleOf(batch, 'none'),
      [1, 2, 7].map((draws) => massDeviation(batch, { scale: 'small', draws })),
      SOFT_LIMIT,
    ]))

  const withAlkali = (factor: number, change: Partial<SuperfatInput> = {}): SuperfatInput => ({
    ...batch,
    alkalis: batch.alkalis.map((one) => ({ ...one, mass: one.mass * factor })),
    ...change,
  })
  test.each([
    ['go', batch],
    ['hold', withAlkali(1.045)],
    ['stop', withAlkali(1.085)],
    ['floor', { ...batch, floor: 0.2 }],
    ['soft', withAlkali(0.9, { softLimit: 0.15 })],
    [
      'one-scale',
      withAlkali(1.045, {
        acids: (batch.acids ?? []).map((acid) => ({ ...acid, weighing: { scale: 'bench', draws: 2 } })),
      }),
    ],
  ])('margin: %s', (name, input) => recorded(`superfat-margin-${name}`, superfatMargin(input)))
})
