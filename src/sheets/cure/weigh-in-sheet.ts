/** The weigh-in log of one batch: dates, what bars ought to weigh beside blanks, and the curve. */
import type { BoundCure } from '../../binder/bind-calendar.ts'
import { axisTicks, chart } from '../../drawing/chart.ts'
import { blank, empty, finishSheet, inlineWords, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Facts, Figure, Inline, Sheet, Table } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'

/** kg; what a weigh-in is given to */
const GRAM = 0.001
const CHART = { width: 172, height: 70 } as const
const WEEK = 7

/** @param sheetNumber of the log, as `logNumber` counts it */
export const cureSheet = (frame: Frame, cure: BoundCure, sheetNumber: string): Sheet => {
  const { say, show } = frame
  const { batch, findings } = cure
  const blocks: Record<string, Block> = {
    facts: cureFacts(frame, cure),
    notes: {
      kind: 'cautions',
      signal: 'notice',
      ...(findings.length > 0 ? { heading: say('cure.notes') } : {}),
      items: findingsWords(frame, findings),
    },
    curve: cureCurve(frame, cure),
    how: {
      kind: 'steps',
      first: 1,
      items: ['pick', 'same', 'room', 'type'].map((key) => ({ text: say(`cure.how.${key}`) })),
    },
    log: cureLog(frame, cure),
  }
  return finishSheet({
    ...frame.sheet(
      'cure',
      `cure/${batch.key}`,
      say('section.cure'),
      sheetNumber,
      say('cure.title', { recipe: batch.recipeTitle, date: show.date('batch.date', batch.date) }),
    ),
    template: frame.template('cure'),
    fill: {},
    blocks,
    sources: pickSources(frame.sources, [
      'crank',
      'bates-watts',
      'cook-weisberg',
      'soap-moisture',
      'common-practice',
    ]),
  })
}

const cureFacts = ({ say, show }: Frame, { barMass, wanted, reached, isFitted, plan }: BoundCure): Facts => {
  const day = (name: string, days: number | undefined): Inline | ReturnType<typeof show.days> =>
    days === undefined ? say('cure.never') : show.days(`cure.${name}`, days)
  const last = plan[plan.length - 1]
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('cure.green'),
        cell: number(show.weight('cure.green', barMass, GRAM)),
        note: say('cure.green-note'),
      },
      ...(last
        ? [
            {
              label: say('cure.later', { days: show.days('cure.last', last.days) }),
              cell: words(
                say('cure.band', {
                  low: show.weight('cure.last.low', last.low, GRAM),
                  high: show.weight('cure.last.high', last.high, GRAM),
                }),
              ),
              note: say(isFitted ? 'cure.by-weighing' : 'cure.by-estimate'),
            },
          ]
        : []),
      ...(wanted !== undefined && reached
        ? [
            {
              label: say('cure.label', { weight: show.weight('cure.wanted', wanted, GRAM) }),
              cell: words(say('cure.on-day', { day: day('reached', reached.middle) })),
              note: say('cure.label-note', {
                earliest: day('reached.earliest', reached.earliest),
                latest: day('reached.latest', reached.latest),
              }),
            },
          ]
        : []),
    ],
  }
}

const cureLog = ({ say, show }: Frame, { plan, weighIns }: BoundCure): Table => ({
  kind: 'table',
  style: 'log',
  caption: say('cure.log.caption'),
  columns: [
    { head: say('cure.log.day'), align: 'right', width: 6 },
    { head: say('cure.log.date'), align: 'left', width: 14 },
    { head: say('cure.log.expected'), align: 'right', width: 17 },
    ...MARKED.map((bar) => ({
      head: say('cure.log.bar', { bar: show.count(`cure.log.bar.${bar}`, bar) }),
      align: 'right' as const,
    })),
    { head: say('cure.log.found'), align: 'right', width: 12 },
    { head: say('cure.log.room'), align: 'left', width: 12 },
    { head: say('cure.log.initials'), align: 'left', width: 9 },
  ],
  rows: [
    ...weighIns.map(({ date, days, mass }, index): Cell[] => [
      number(show.count(`cure.weighed.${index + 1}.days`, days)),
      number(show.shortDate(`cure.weighed.${index + 1}.date`, date)),
      words(say('cure.log.done')),
      ...MARKED.map(() => empty),
      number(show.weight(`cure.weighed.${index + 1}.mass`, mass, GRAM)),
      empty,
      empty,
    ]),
    ...plan
      .filter(({ days }) => days > Math.max(-1, ...weighIns.map((one) => one.days)))
      .map(({ date, days, low, high }): Cell[] => [
        number(show.count(`cure.plan.${days}.days`, days)),
        number(show.shortDate(`cure.plan.${days}.date`, date)),
        words(
          say('cure.band', {
            low: show.weight(`cure.plan.${days}.low`, low, GRAM),
            high: show.weight(`cure.plan.${days}.high`, high, GRAM),
          }),
        ),
        ...MARKED.map(() => empty),
        blank(say('blank.grams')),
        empty,
        empty,
      ]),
  ],
})

/** Bars that are marked and weighed each time: as many as the steps say (common practice) */
const MARKED = [1, 2, 3, 4, 5] as const

/** Weight of a bar against weeks, as estimated or fitted, with every weigh-in as a cross. */
const cureCurve = (
  { say, show }: Frame,
  { weightOn, isFitted, weighIns, barMass, wanted, plan, freeFrom }: BoundCure,
): Figure => {
  const named = (key: string): string => inlineWords(say(`cure.chart.${key}`))
  const last = Math.max(8 * WEEK, ...plan.map(({ days }) => days), ...weighIns.map(({ days }) => days))
  const weeks = Math.ceil(last / WEEK)
  const grams = (mass: number): number => mass * 1000
  const days = daysOfCurve(freeFrom, weeks * WEEK).map((day) => ({ day, ...weightOn(day) }))
  const line = (pick: 'low' | 'middle' | 'high') => days.map((one) => ({ x: one.day, y: grams(one[pick]) }))
  const all = [
    ...days.flatMap(({ low, high }) => [grams(low), grams(high)]),
    grams(barMass),
    ...weighIns.map(({ mass }) => grams(mass)),
    ...(wanted === undefined ? [] : [grams(wanted)]),
  ]
  const step = STEPS.find((one) => (Math.max(...all) - Math.min(...all)) / one <= 8) ?? 100
  const bottom = Math.floor(Math.min(...all) / step) * step
  const top = Math.ceil(Math.max(...all) / step) * step
  const drawn = chart({
    name: 'cure',
    label: named('label'),
    ...CHART,
    x: {
      title: named('weeks'),
      ticks: axisTicks(0, weeks * WEEK, WEEK, (day) => show.plainNumber(day / WEEK)),
    },
    y: { title: named('grams'), ticks: axisTicks(bottom, top, step, show.plainNumber) },
    band: { low: line('low'), high: line('high') },
    curves: [{ name: '', kind: 'visible', points: line('middle') }],
    levels: wanted === undefined ? [] : [{ at: grams(wanted), name: named('wanted') }],
    moments: [],
    crosses: weighIns.map(({ days: x, mass }) => ({ x, y: grams(mass) })),
  })
  const lines = say(isFitted ? 'cure.chart.fitted' : 'cure.chart.estimated')
  return {
    kind: 'figure',
    svg: drawn.svg,
    caption:
      wanted === undefined
        ? lines
        : say('cure.chart.with-label', { lines, weight: show.weight('cure.wanted', wanted, GRAM) }),
    values: [],
  }
}

/** Every day, and in the first week every sixth of one: a bar that stands free loses fastest at once. */
const daysOfCurve = (from: number, to: number): readonly number[] => {
  const finely = Array.from({ length: 6 * WEEK }, (_, sixth) => from + sixth / 6)
  const daily = Array.from({ length: to - from - WEEK + 1 }, (_, day) => from + WEEK + day)
  return [...finely, ...daily]
}

/** g between the lines of the grid */
const STEPS = [1, 2, 5, 10, 20, 50]
