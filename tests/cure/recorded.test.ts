/**
 * Recorded on 27 November 2026: what was said of drying bars, racks, calendars and markets as each of their numbers became
 * another, so that nobody changes unseen what hangs beside a rack. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { batchTasks } from '../../src/cure/batch-tasks.ts'
import { type BatchPlan, planCalendar } from '../../src/cure/calendar.ts'
import { dryingFromWeighIns } from '../../src/cure/drying.ts'
import { DEFAULT_DRYING, estimateDrying } from '../../src/cure/drying-estimate.ts'
import { HALF, shareLeft, shareSlope, slabLeft, slabSlope } from '../../src/cure/drying-forms.ts'
import { calendarText, editionNumber, escapeText, eventKey, foldLine } from '../../src/cure/icalendar.ts'
import { LIGHTER, labelPlan } from '../../src/cure/label-weight.ts'
import { planBack, soonestReady } from '../../src/cure/market.ts'
import { AIRFLOW_GAP, rackPlaces, rackWeeks } from '../../src/cure/racks.ts'
import {
  dayFrom,
  isAwake,
  isOpen,
  isRestDay,
  openFrom,
  openUntil,
  slotsOf,
} from '../../src/cure/shop-hours.ts'
import { dayNumber, MINUTES_A_DAY } from '../../src/units/civil-day.ts'
import { expectRecorded } from '../recorded.ts'
import { changesBeside, once } from '../recorded-changes.ts'
import { DURATIONS, hour, MEANS } from './a-shop.ts'

const keep = changesBeside(import.meta.url)

const DAYS = [0, 1, 2, 3, 7, 15, 28, 60, 180, 400]

describe('recorded: drying', () => {
  test('forms', () =>
    expectRecorded(
      {
        constants: { HALF, DEFAULT_DRYING, LIGHTER, AIRFLOW_GAP },
        slab: [-1, 0, 1e-6, 0.004, 0.0099, 0.01, 0.011, 0.05, 0.2, 1].map((tau) => [
          slabLeft(tau),
          slabSlope(tau),
        ]),
        days: (['exponential', 'slab'] as const).map((form) =>
          DAYS.map((days) => [shareLeft(form, 0.08, days), shareSlope(form, 0.08, days)]),
        ),
      },
      'drying-forms',
      import.meta.url,
    ))

  // grams of a bar that dries and is weighed a little wrong each time
  const masses = [125, 121.9, 118.2, 115.6, 113.1, 109.5, 107.6, 106.1]
  const weighIns = [2, 4, 7, 10, 14, 21, 28, 35].map((days, at) => ({ days, mass: (masses[at] ?? 0) / 1000 }))
  const dried = once(dryingFromWeighIns)
  test('by weigh-ins', () =>
    keep(
      'drying-by-weigh-ins',
      { weighIns, freeFrom: 2, scaleDeviation: 0.0005, dryMass: 0.09 },
      {
        fits: (given) => dried(given).forms.map(({ weightOn: _, lossBetween: __, ...fit }) => fit),
        weight: (given) => [1, 30, 200].map((day) => dried(given).weightOn?.(day)),
        reading: (given) => [1, 40].map((day) => dried(given).readingOn?.(day)),
        apart: (given) => [20, 200].map((day) => dried(given).disagreementOn?.(day)),
        loss: (given) => dried(given).lossBetween?.(30, 200),
        told: (given) => dried(given).findings,
      },
      [0.97, 1.04],
    ))

  test('by estimate, and the label', () => {
    const input = {
      bar: { mass: 0.125, waterShare: 0.28, thickness: 0.027 },
      freeFrom: 2,
      drying: DEFAULT_DRYING,
      label: { notBefore: 28, until: 400, declared: 0.096 },
    }
    const drying = ({ bar, freeFrom, drying: usual }: typeof input) => estimateDrying(bar, freeFrom, usual)
    keep(
      'drying-by-estimate',
      input,
      {
        plateau: (given) => [drying(given).plateau, drying(given).halfTime, drying(given).findings],
        weight: (given) => DAYS.map(drying(given).weightOn),
        loss: (given) => DAYS.map((day) => drying(given).lossBetween(day, 400)),
        usual: ({ bar, freeFrom }) => estimateDrying(bar, freeFrom).weightOn(30),
        label: (given) => {
          const { weightOn, lossBetween } = drying(given)
          const { leastOn, ...plan } = labelPlan({ ...given.label, weightOn, lossBetween })
          return [plan, DAYS.map(leastOn)]
        },
        'without a label': (given) => {
          const { weightOn, lossBetween } = drying(given)
          return labelPlan({ ...given.label, declared: undefined, weightOn, lossBetween })
        },
      },
      [0.7, 1.02, 1.4],
    )
  })
})

describe('recorded: racks', () => {
  test('places', () =>
    keep(
      'racks',
      {
        rack: { key: 'wall', length: 0.9, width: 0.3, shelves: 4, rating: 5 },
        bar: { length: 0.075, width: 0.05, mass: 0.125 },
        gap: 0.01,
      },
      {
        places: ({ rack, bar, gap }) => rackPlaces(rack, bar, gap),
        unrated: ({ rack, bar }) => rackPlaces({ ...rack, rating: undefined }, bar),
      },
      [0.1, 0.5, 0.9, 1.2, 2],
    ))
  test('weeks', () =>
    keep(
      'rack-weeks',
      {
        stays: [
          { batch: 'a', bars: 60, share: 0.6, from: '2027-03-17', to: '2027-03-30' },
          { batch: 'b', bars: 50, share: 0.5, from: '2027-03-24', to: '2027-04-06' },
          { batch: 'c', bars: 30, share: 0.3, from: '2027-03-29', to: '2027-04-18' },
          { batch: 'd', bars: 10, share: 0.1, from: '2027-03-21', to: '2027-03-21' },
        ],
      },
      { weeks: ({ stays }) => rackWeeks(stays) },
      [0, 0.5, 3],
    ))
})

const INPUT = {
  durations: {
    hottest: { earliest: hour(4), latest: hour(9) },
    ...DURATIONS,
    work: { ...DURATIONS.work, prepare: 30 },
  },
  hours: MEANS.hours,
  racks: [
    { key: 'wall', places: 80 },
    { key: 'door', places: 90 },
  ],
  pours: [hour(9), hour(9), hour(14)],
  bars: 60,
  staying: 20,
}
type Input = typeof INPUT
const NAMES = [
  ['a', '2027-03-15'],
  ['b', '2027-03-16'],
  ['c', '2027-03-24'],
] as const

/** One and a half of a minute or a bar is none. */
const whole = (value: number): number => Math.round(value)
const plansOf = ({ durations, pours, bars, staying }: Input): readonly BatchPlan[] =>
  NAMES.map(([batch, date], at) => ({
    batch,
    pour: { date, minute: whole(pours[at] ?? 0) },
    rules: batchTasks(durations),
    moulds: at === 0 ? ['small'] : ['small', 'large'],
    mouldUntil: 'strip',
    bars: whole(bars),
    racksFrom: 'slice',
    racksTo: 'label',
    staying: { bars: whole(staying), to: 'sell-by' },
  }))
const meansOf = ({ hours, racks }: Input) => ({
  hours,
  racks: racks.map((one) => ({ ...one, places: whole(one.places) })),
})

const planned = once((given: Input) => planCalendar(plansOf(given), meansOf(given)))
/** Of several batches, what each of them meets. */
const met = (at: number) => (given: Input) => {
  const { tasks: _, pour: __, ...rest } = planned(given).batches[at]!
  return rest
}

describe('recorded: calendars', () => {
  test('of one batch', () => {
    const lone = once(({ durations, hours }: Pick<Input, 'durations' | 'hours'>) =>
      planCalendar(plansOf({ ...INPUT, durations }).slice(0, 1), meansOf({ ...INPUT, hours })),
    )
    keep(
      'calendar-of-one',
      { durations: INPUT.durations, hours: INPUT.hours },
      {
        tasks: (given) =>
          lone(given).batches[0]?.tasks.map(
            ({ task, at, opens, closes, wait, moved }) =>
              `${task} ${at.date} ${at.minute}, ${opens.minute} to ${closes?.date} ${closes?.minute}, ${wait} ${moved}`,
          ),
        findings: (given) => lone(given).findings,
        taken: (given) => [lone(given).mouldStays, lone(given).workSpans],
      },
      [0.6, 1.5],
    )
  })

  test('of three batches', () =>
    keep(
      'calendar-of-three',
      INPUT,
      {
        first: met(0),
        second: met(1),
        third: met(2),
        racks: (given) => planned(given).rackStays,
      },
      [0.8, 1.25],
      new Set(['durations', 'restDays']),
    ))

  test('shop hours', () => {
    const monday = dayNumber('2027-03-22') * MINUTES_A_DAY
    const times = [0, 479, 480, 481, 1050, 1079, 1080, 1081, 1439].flatMap((minute) =>
      [0, 3, 4, 5, 6].map((day) => monday + day * MINUTES_A_DAY + minute),
    )
    expectRecorded(
      {
        slots: slotsOf(INPUT.hours),
        times: times.map((at) => {
          const { hours } = INPUT
          const from = [openFrom(at, 0, hours), openFrom(at, 45, hours), dayFrom(at, hours)]
          const until = [openUntil(at, 0, hours), openUntil(at, 45, hours)]
          const is = [
            isRestDay(at, hours),
            isOpen(at, 0, hours),
            isOpen(at, 30, hours),
            isAwake(at, at + 60, hours),
          ]
          const awake = { ...hours, awake: { from: 360, until: 1320 } }
          return [
            at - monday,
            ...is,
            isAwake(at, at + 60, awake),
            ...[...from, ...until].map((one) => (one ?? 0) - monday),
          ]
        }),
      },
      'shop-hours',
      import.meta.url,
    )
  })
})

describe('recorded: markets', () => {
  test('back from a day', () => {
    const told = (given: {
      bars: number
      perBatch: number
      ready: number
      opens: number
      closes: number
    }) => {
      const [own, ...others] = plansOf(INPUT)
      const { pour: _, ...plan } = { ...own!, bars: whole(given.perBatch) }
      const wish = {
        bars: whole(given.bars),
        barsPerBatch: whole(given.perBatch),
        market: '2027-05-08',
        ready: whole(given.ready),
        until: 'label',
        plan,
        notBefore: '2027-03-29',
      }
      const means = meansOf({ ...INPUT, hours: { ...INPUT.hours, opens: given.opens, closes: given.closes } })
      const { batches, pours } = planBack(wish, means, others)
      return [
        batches,
        pours.map(({ batch, pour, reasons }) => [batch, pour, reasons]),
        soonestReady(wish, means, others),
      ]
    }
    keep(
      'markets',
      { bars: 90, perBatch: 50, ready: 2, opens: hour(8), closes: hour(18) },
      { told },
      [0.5, 1.3],
      new Set(['opens']),
    )
  })
})

describe('recorded: calendar files', () => {
  test('of a few events', () =>
    expectRecorded(
      {
        number: ['2019-12-31', '2020-01-01', '2027-03-15'].map(editionNumber),
        keys: [eventKey({ batch: 'a b', task: 'cut/1' }), escapeText('a, b; c\\d\ne\u0007\tf')],
        folds: [60, 74, 75, 76, 150, 151].map((size) => [
          foldLine('x'.repeat(size)),
          foldLine('é€😀'.repeat(size / 5)),
        ]),
        file: calendarText({
          name: 'Shop',
          edition: '2027-03-15',
          sequence: 12,
          events: [
            {
              batch: 'a',
              task: 'pour',
              summary: 'Pour, a',
              date: '2027-03-15',
              time: { minute: 1395, duration: 90 },
            },
            {
              batch: 'a',
              task: 'cut',
              summary: 'Cut',
              date: '2027-12-31',
              time: { minute: 605, duration: 0 },
            },
            {
              batch: 'a',
              task: 'turn',
              summary: 'Turn',
              description: 'all; of them',
              date: '2028-02-28',
              days: 2,
            },
            { batch: 'b', task: 'label', summary: 'Label', date: '2027-03-31' },
          ],
        }).split('\r\n'),
      },
      'calendar-file',
      import.meta.url,
    ))
})
