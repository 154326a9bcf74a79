/**
 * Recorded on 27 November 2026: what a batch is reckoned to be, and what becomes of that when one number is another, so
 * that nobody changes it unseen. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { batterPerOil } from '../../src/batch/batter.ts'
import { chooseScale, type DrawRequest, planDraws, repeatPlan } from '../../src/batch/draws.ts'
import { fatHeat, fatSpecificHeat, HEAT_OF_MELTING } from '../../src/batch/fat-heat.ts'
import { premix } from '../../src/batch/fat-premix.ts'
import {
  type FillSetting,
  fillHeightForOils,
  oilsForFillHeight,
  wholeSlicesForOils,
} from '../../src/batch/fill.ts'
import { DEFAULT_FILL_ALLOWANCES } from '../../src/batch/fill-allowances.ts'
import { assessLift, type LiftingJob } from '../../src/batch/lifting.ts'
import { heatHardFatsTo, mixTemperature, type Stream } from '../../src/batch/mixing.ts'
import { barsForOilOnHand } from '../../src/batch/oil-on-hand.ts'
import { checkVessel, type Duty, meltingTime, potShares } from '../../src/batch/pots.ts'
import { type PourSetting, pourPlan } from '../../src/batch/pour.ts'
import { seedingTemperature } from '../../src/batch/seeding.ts'
import { driedLength } from '../../src/batch/shrinkage.ts'
import { spillKit } from '../../src/batch/spill-kit.ts'
import { timeBudget } from '../../src/batch/time-budget.ts'
import { errorInUse, grossCheck, scaleCheck } from '../../src/batch/weighing-checks.ts'
import { expectRecorded } from '../recorded.ts'
import { whatChanges } from '../recorded-changes.ts'

const C = 273.15
const FACTORS = [0.5, 0.95, 1.05, 2]
const recorded = (name: string, value: unknown): void => expectRecorded(value, name, import.meta.url)

const ALKALI = ((0.195 * 39.997) / 56.105) * 0.95
const SETTING: FillSetting = {
  parts: [
    { name: 'coconut oil', kind: 'fat', massPerOil: 0.3, density: 910 },
    { name: 'palm oil', kind: 'fat', massPerOil: 0.2, density: 900 },
    { name: 'olive oil', kind: 'fat', massPerOil: 0.5, density: 900 },
    { name: 'lye', kind: 'lye', massPerOil: 3 * ALKALI, density: 1350 },
  ],
  mould: { length: 0.4, width: 0.25, height: 0.2 },
  cuts: { columns: 5, rows: 4, slices: 5, slicePitch: 0.025, topTrim: 0.015 },
}

describe('recorded: fill', () => {
  test('height for oils', () =>
    recorded(
      'fill-height',
      whatChanges(
        { ...SETTING, allowances: DEFAULT_FILL_ALLOWANCES, oilMass: 10.5 },
        ({ oilMass, ...setting }) => fillHeightForOils(setting, oilMass),
        [0.5, 1.05, 2],
      ),
    ))

  test('oils for height, whole slices, and oils on hand', () => {
    const short = ({ oilMass, slices, bars, trim, findings }: ReturnType<typeof oilsForFillHeight>) => ({
      oilMass,
      slices,
      bars,
      trim,
      codes: findings.map(({ code }) => code).join(' '),
    })
    recorded(
      'fill-oils',
      whatChanges(
        {
          setting: SETTING,
          oils: 8.2,
          onHand: [
            { name: 'olive oil', mass: 4.6 },
            { name: 'coconut oil', mass: 2.9 },
          ],
        },
        ({ setting, oils, onHand }) => {
          const { fill, ...rest } = barsForOilOnHand(setting, onHand)
          return {
            batter: batterPerOil(setting.parts),
            forHeight: short(oilsForFillHeight(setting)),
            whole: short(wholeSlicesForOils(setting, oils)),
            onHand: { ...rest, fill: fill && short(fill) },
          }
        },
        FACTORS,
      ),
    )
  })
})

describe('recorded: weighings', () => {
  const scale = {
    name: 'kitchen',
    capacity: 5,
    division: 0.001,
    minimumWeighing: 0.03,
    repeatability: 0.0007,
  }
  const request = (mass: number, changed: object = {}): DrawRequest => ({
    mass,
    scale,
    container: { name: 'bowl', emptyMass: 0.5, workingMass: 2 },
    errorLimit: 0.01,
    ...changed,
  })
  const short = ({ draws, scale: _, container: _bowl, ...rest }: ReturnType<typeof planDraws>) => ({
    ...rest,
    draws: draws.map(({ number, target, gross, runningTotal }) =>
      [number, ...[target, gross, runningTotal].map((one) => Number(one.toPrecision(7)))].join(' '),
    ),
  })

  test('draws as numbers change', () =>
    recorded('draws', [
      whatChanges(request(7.456), (one) => short(planDraws(one)), FACTORS),
      whatChanges(request(0.0304), (one) => short(planDraws({ ...one, alkali: true })), FACTORS),
      whatChanges(request(12.3456), (one) => short(repeatPlan(planDraws(one), 3)), [0.7, 1.3]),
    ]))

  test('draws of many masses', () =>
    recorded(
      'draws-masses',
      Array.from({ length: 120 }, (_, at) => {
        const mass = 0.011 * 1.07 ** at
        const { chosen, plans } = chooseScale({ mass, container: request(1).container }, [
          scale,
          { name: 'bench', capacity: 30, division: 0.01 },
          { name: 'pocket', capacity: 0.6, division: 0.0001 },
        ])
        const targets = chosen.draws.slice(0, 9).map(({ target }) => Number(target.toPrecision(6)))
        const names = plans.map((one) => one.scale.name).join(' ')
        const codes = plans.flatMap(({ findings }) =>
          findings.map(({ code, severity }) => `${severity} ${code}`),
        )
        return `${mass.toPrecision(6)}: ${names}: ${targets.join(' ')}: ${codes.join(', ')}`
      }),
    ))

  test('checks', () => {
    const plan = (mass: number) => planDraws(request(mass))
    const bench = { name: 'bench', capacity: 30, division: 0.01, repeatability: 0.004 }
    recorded('weighing-checks', [
      whatChanges({ scale, checkMass: 1, largestDraw: 2 }, scaleCheck, [0.15, ...FACTORS, 6]),
      whatChanges({ scale, load: 0.7 }, (one) => errorInUse(one.scale, one.load), [0.5, 0.72, 2, 2.9]),
      whatChanges(
        { potMass: 2.2, scale: bench, coverage: 2, masses: [4.1, 0.06, 2.35] },
        ({ masses, ...rest }) =>
          grossCheck({
            ...rest,
            contents: masses.map((mass, at) => ({ name: `fat ${at}`, plan: plan(mass) })),
          }),
        FACTORS,
      ),
    ])
  })

  test('premix', () => {
    const fats = [
      { key: 'coconut', mass: 3 },
      { key: 'palm', mass: 2 },
      { key: 'castor', mass: 0.5 },
      { key: 'olive', mass: 5 },
    ]
    recorded(
      'premix',
      whatChanges(
        { fats, blend: { coconut: 0.5, palm: 0.4, castor: 0.1 } },
        (one) => premix(one.fats, new Set(['coconut', 'palm', 'castor']), new Map(Object.entries(one.blend))),
        FACTORS,
      ),
    )
  })
})

describe('recorded: lifts and pours', () => {
  const job: LiftingJob = {
    name: 'pot',
    mass: 9,
    from: { horizontal: 0.3, vertical: 0.75, asymmetry: 0.4 },
    to: { horizontal: 0.4, vertical: 1.3 },
    coupling: 'fair',
    liftsPerMinute: 3,
    hotOrCaustic: true,
  }
  const bench: PourSetting = {
    standHeight: 0.6,
    rimAboveStand: 0.38,
    elbowHeight: 1.05,
    shoulderHeight: 1.4,
    potMass: 2,
    batterMass: 7.5,
    batterDensity: 1000,
    potHeight: 0.3,
    potStandHeight: 0.9,
    jugVolume: 0.0035,
    lowestStand: 0.12,
  }

  test('a lift', () =>
    recorded('lift', [
      whatChanges(job, assessLift, [0.3, 0.9, 1.2, 2]),
      whatChanges(
        { ...job, coupling: 'poor' as const, hotOrCaustic: false, people: 2 as const },
        assessLift,
        [1.7],
      ),
    ]))

  test('a pour', () => {
    const short = ({ lift, liftOnLowStand, options, ...rest }: ReturnType<typeof pourPlan>) => ({
      ...rest,
      lift: [lift.atStart.limit, lift.atEnd.limit],
      low: [liftOnLowStand.atStart.limit, liftOnLowStand.atEnd.limit],
      options: options.map(({ method, because }) => `${method}: ${because.join(' ')}`),
    })
    recorded('pour', [
      whatChanges(bench, (one) => short(pourPlan(one)), [0.5, 0.85, 1.15, 2]),
      whatChanges({ ...bench, people: 2 as const, potHasValve: true }, (one) => short(pourPlan(one)), [1.5]),
    ])
  })
})

describe('recorded: heat of a pot', () => {
  const hard: Stream = {
    name: 'palm',
    mass: 3,
    temperature: C + 24,
    specificHeat: 'fat',
    melting: { point: C + 38, heat: 110e3, solidShare: 0.8 },
  }
  const soft: Stream = {
    ...hard,
    name: 'coconut',
    mass: 2,
    melting: { point: C + 25, heat: 100e3, solidShare: 1 },
  }
  const others: Stream[] = [
    { name: 'olive', mass: 5, temperature: C + 20, specificHeat: 'fat' },
    { name: 'lye', mass: 3.6, temperature: C + 38, specificHeat: 3570 },
  ]

  test('mixing', () => {
    const warm = [hard, soft].map((one) => ({ ...one, temperature: C + 61 })) as [Stream, Stream]
    recorded('mixing', [
      mixTemperature([hard, soft, ...others]),
      whatChanges(
        { streams: [...warm, ...others] },
        ({ streams }) => mixTemperature([streams[0]!, ...streams.slice(1)]),
        [0.5, 0.97, 1.02],
      ),
    ])
  })

  test('heating', () =>
    recorded(
      'heating',
      whatChanges(
        { hardFats: [hard, soft] as const, others, wanted: C + 40, hottest: C + 79 },
        heatHardFatsTo,
        [0.8, 0.98, 1.02],
      ),
    ))

  test('heating with nothing stated', () =>
    recorded(
      'heating-wishes',
      [25, 33, 38, 41, 46, 55, 64].map((wanted) =>
        heatHardFatsTo({ hardFats: [hard, soft], others, wanted: C + wanted }),
      ),
    ))

  test('fats', () =>
    recorded('fat-heat', [
      HEAT_OF_MELTING,
      [-60, -40, -10, 0, 20, 60, 140, 150, 170].map((t) => [
        t,
        fatSpecificHeat(C + t),
        fatHeat(C + 15, C + t),
        fatHeat(C + t, C + 155),
      ]),
      whatChanges(
        {
          fats: [
            { name: 'coconut', mass: 5, temperature: C + 20, heatOfMelting: 110e3, solidShare: 0.9 },
            { name: 'olive', mass: 2, temperature: C + 62, heatOfMelting: 0, solidShare: 0 },
          ],
          target: C + 60,
          power: 1000,
          efficiency: 0.6,
        },
        meltingTime,
        FACTORS,
      ),
      whatChanges(
        { moleShare: 0.25, meltingPoint: 312, heatOfMelting: 110_000 },
        seedingTemperature,
        [0.3, 0.97, 1.02, 5],
      ),
    ]))
})

describe('recorded: vessels, spills, time and shrinking', () => {
  test('vessels', () => {
    const duties: Duty[] = ['oil', 'lye', 'batter', 'jug']
    const pail = (material: 'polypropylene' | 'hdpe' | 'other', duty: Duty) => ({
      vessel: { name: 'pail', material, brimVolume: 0.01, ratedTemperature: C + 95 },
      duty,
      contents: 0.0045,
      peakTemperature: C + 75,
      shopLimit: C + 85,
      trayVolume: 0.005,
    })
    recorded('vessels', [
      duties.map((duty) => whatChanges(pail('polypropylene', duty), checkVessel, [0.9, 1.07, 1.8, 2.3])),
      duties.map((duty) => checkVessel(pail('hdpe', duty))),
      duties.map((duty) => checkVessel(pail('other', duty))),
      whatChanges({ volume: 0.017, workingVolume: 0.009, potsAtHand: 2 }, potShares, [0, 0.5, 0.95, 1.2, 2]),
    ])
  })

  test('spills, time, shrinking', () =>
    recorded('small', [
      whatChanges({ liquid: 0.0045 }, ({ liquid }) => spillKit(liquid), [0.1, 0.4, 0.9, 1.5, 7]),
      whatChanges(
        {
          timeToThick: { low: 600, nominal: 900, high: 1200 },
          colouring: 120,
          carrying: 60,
          jugs: 6,
          timePerJug: 30,
          blending: 150,
          longestRun: 60,
          rest: 30,
        },
        timeBudget,
        [0, 0.4, 1.3, 4],
      ),
      [0, 0.05, 0.13, 0.3].map(driedLength),
    ]))
})
