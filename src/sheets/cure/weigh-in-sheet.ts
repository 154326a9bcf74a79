/** The weigh-in log of one batch: dates, what bars ought to weigh beside blanks, and the curve. */
import { MARKED } from '../../binder/batch-plan.ts'
import type { BoundCure, LabelDay } from '../../binder/bind-calendar.ts'
import { axisTicks, chart } from '../../drawing/chart.ts'
import { blank, empty, finishSheet, inlineWords, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Facts, Figure, Inline, Sheet, Table, Value } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'

/** kg; what a weigh-in is given to */
const GRAM = 0.001
const CHART = { width: 172, height: 62 } as const
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
      items: ['pick', 'same', 'room', 'type'].map((key) => ({
        text: say(`cure.how.${key}`, key === 'type' ? { batch: batch.key } : {}),
      })),
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

const cureFacts = (frame: Frame, cure: BoundCure): Facts => {
  const { say, show } = frame
  const { barMass, isFitted, plan, weightOn, label } = cure
  const grams = (name: string, mass: number) => show.weight(`cure.${name}`, mass, GRAM)
  const band = (name: string, { low, high }: { readonly low: number; readonly high: number }): Inline =>
    say('cure.band', { low: grams(`${name}.low`, low), high: grams(`${name}.high`, high) })
  const note = say(isFitted ? 'cure.by-weighing' : 'cure.by-estimate')
  const last = plan[plan.length - 1]
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('cure.green'),
        cell: number(grams('green', barMass)),
        note: say('cure.green-note'),
      },
      ...(last
        ? [
            {
              label: say('cure.later', { days: show.days('cure.last', last.days) }),
              cell: words(band('last', last)),
              note,
            },
          ]
        : []),
      {
        label: say('cure.end', { days: show.days('cure.until', label.until) }),
        cell: words(band('end', weightOn(label.until))),
        note,
      },
      {
        label: say('cure.most'),
        cell: number(grams('most', label.most)),
        note: say('cure.most-note', { lighter: show.percent('cure.lighter', label.lighter, 0) }),
      },
      ...labelFacts(frame, cure),
    ],
  }
}

/** What a bar must weigh to bear its label, on the first day of labelling and on that of the last weighing. */
const labelFacts = ({ say, show }: Frame, { label, labelDays }: BoundCure): Facts['items'] => {
  const { declared, from, days } = label
  if (declared === undefined)
    return [
      { label: say('cure.label-none'), cell: words(say('cure.label-choose')), note: say('cure.label-file') },
    ]
  const weight = show.weight('cure.declared', declared, GRAM)
  if (from === undefined)
    return [
      {
        label: say('cure.label-never', { weight }),
        cell: words(say('cure.never')),
        note: say('cure.never-note'),
      },
    ]
  const day = (name: string, after: number | undefined): Inline | Value =>
    after === undefined ? say('cure.never') : show.days(`cure.label.${name}`, after)
  const dateOf = ({ which, date }: LabelDay): Value => show.shortDate(`cure.label.${which}.date`, date)
  const leastOf = ({ which, least = declared }: LabelDay): Value =>
    show.weight(`cure.label.${which}.least`, least, GRAM)
  const light = labelDays.find(({ which }) => which === 'light')
  const noteOf = (one: LabelDay): Inline => {
    if (one.which === 'first')
      return say('cure.label-note', {
        earliest: day('earliest', days.earliest),
        middle: day('from', from),
        latest: day('latest', days.latest),
      })
    return one.which === 'later' && light
      ? say('cure.label-then-note', { date: dateOf(light), least: leastOf(light) })
      : say('cure.label-later-note')
  }
  // a light bar's day stands in the note of the day before it, if there is one
  const rows = labelDays.filter(
    ({ which }) => which !== 'light' || !labelDays.some((one) => one.which === 'later'),
  )
  return rows.map((one) => ({
    label: say(one.which === 'first' ? 'cure.label' : 'cure.label-later', {
      ...(one.which === 'first' ? { weight } : {}),
      date: dateOf(one),
    }),
    cell: words(say('cure.least', { least: leastOf(one) })),
    note: noteOf(one),
  }))
}

const cureLog = ({ say, show }: Frame, { plan, weighIns, label, labelDays }: BoundCure): Table => ({
  kind: 'table',
  style: 'log',
  caption: say('cure.log.caption'),
  columns: [
    { head: say('cure.log.day'), align: 'right', width: 6 },
    { head: say('cure.log.date'), align: 'left', width: 14 },
    { head: say('cure.log.expected'), align: 'right', width: 17 },
    ...BARS.map((bar) => ({
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
      ...BARS.map(() => empty),
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
          say(isLabelled(labelDays, date) ? 'cure.log.band-to-label' : 'cure.band', {
            low: show.weight(`cure.plan.${days}.low`, low, GRAM),
            high: show.weight(`cure.plan.${days}.high`, high, GRAM),
            ...(isLabelled(labelDays, date)
              ? { least: show.weight(`cure.plan.${days}.least`, label.leastOn(days) ?? 0, GRAM) }
              : {}),
          }),
        ),
        ...BARS.map(() => empty),
        blank(say('blank.grams')),
        empty,
        empty,
      ]),
  ],
})

/** Whether bars may be labelled on a day, if they weigh enough for a label that is known. */
const isLabelled = ([first]: BoundCure['labelDays'], date: string): boolean =>
  first?.least !== undefined && date >= first.date

/** Bars that are marked and weighed each time: as many as the steps say (common practice) */
const BARS = Array.from({ length: MARKED }, (_, index) => index + 1)

/** Weight of a bar against weeks, as estimated or fitted, with every weigh-in as a cross. */
const cureCurve = (
  { say, show }: Frame,
  { weightOn, isFitted, weighIns, barMass, label: { declared }, plan, freeFrom }: BoundCure,
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
    ...(declared === undefined ? [] : [grams(declared)]),
  ]
  const step = STEPS.find((one) => (Math.max(...all) - Math.min(...all)) / one <= 8) ?? 100
  // below all that is drawn: a line on the axis would not be seen
  const bottom = (Math.ceil(Math.min(...all) / step) - 1) * step
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
    levels: declared === undefined ? [] : [{ at: grams(declared), name: named('declared') }],
    moments: [],
    crosses: weighIns.map(({ days: x, mass }) => ({ x, y: grams(mass) })),
  })
  const lines = say(isFitted ? 'cure.chart.fitted' : 'cure.chart.estimated')
  return {
    kind: 'figure',
    svg: drawn.svg,
    caption:
      declared === undefined
        ? lines
        : say('cure.chart.with-label', { lines, weight: show.weight('cure.declared', declared, GRAM) }),
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
