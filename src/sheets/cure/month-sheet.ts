/** A month to hang on the wall: every batch's tasks on their days, each with a box to tick. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundCure } from '../../binder/bind-calendar.ts'
import type { MarketItem } from '../../binder/bind-market.ts'
import type { PlannedTask } from '../../cure/task-times.ts'
import { dateOf, dayNumber, weekday } from '../../units/civil-day.ts'
import { finishSheet } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { linkTo } from '../links.ts'
import type { Inline, Month, MonthDay, Sheet } from '../model.ts'
import { fixedLinks } from '../places.ts'
import { PLAN } from './plan-sheet.ts'
import { logNumber, printedTasks, taskKind } from './tasks.ts'

const WEEK = 7

interface Dated {
  readonly cure: BoundCure
  readonly task: PlannedTask
}

/** The last hour of a cut that may wait for another day: whoever looks at that day sees it. */
const LATEST_CUT = 'latest-cut'
const latestCut = (task: PlannedTask): PlannedTask[] =>
  task.task === 'cut' && task.closes && task.closes.date !== task.at.date
    ? [{ ...task, task: LATEST_CUT, at: task.closes, closes: undefined, lead: 0 }]
    : []

/** Further days on which what was too light is weighed against less. */
const laterLabels = (cure: BoundCure, task: PlannedTask): PlannedTask[] =>
  task.task === 'label'
    ? cure.labelDays
        .filter(({ which }) => which !== 'first')
        .map(({ which, date }) => ({ ...task, task: `label-${which}`, at: { ...task.at, date } }))
    : []

/**
 * Pages of the months in which anything is done, from that of the edition on.
 * @param first number of the first of them among the sheets of its section
 */
export const monthSheets = (frame: Frame, binder: BoundBinder, first: number): Sheet[] => {
  const dated = binder.cures.flatMap((cure) =>
    printedTasks(cure)
      // the last day of sale stands in the table of the plan: a page a year on would hold nothing else
      .filter(({ task }) => task !== 'sell-by')
      .flatMap((task) => [task, ...latestCut(task), ...laterLabels(cure, task)])
      .map((task): Dated => ({ cure, task })),
  )
  const begin = binder.content.shop.value.edition.slice(0, 7)
  const days = [
    ...dated.map(({ task }) => task.at.date),
    ...binder.markets.flatMap((market) => [
      market.date,
      market.readyBy,
      ...market.items.flatMap(({ covered, back, decideBy }) =>
        covered ? (decideBy ? [decideBy] : []) : (back?.pours ?? []).map(({ pour }) => pour.date),
      ),
    ]),
  ]
  const months = [...new Set(days.map((day) => day.slice(0, 7)))].filter((month) => month >= begin).sort()
  return months.map((month, index) => monthSheet(frame, binder, month, dated, first + index))
}

const monthSheet = (
  frame: Frame,
  binder: BoundBinder,
  month: string,
  dated: readonly Dated[],
  order: number,
): Sheet => {
  const { say, show } = frame
  const title = say('calendar.month.title', { month: show.month('calendar.month', `${month}-01`) })
  return finishSheet({
    ...frame.sheet('calendar', `calendar/${month}`, say('section.cure'), `6.${order}`, title),
    orientation: 'landscape',
    template: frame.template('month'),
    fill: { legend: legendWords(frame, binder, dated, month) },
    blocks: { month: monthBlock(frame, binder, month, dated) },
    sources: [],
  })
}

const monthBlock = (frame: Frame, binder: BoundBinder, month: string, dated: readonly Dated[]): Month => {
  const { say, show } = frame
  const { weekBegins, hours } = binder.calendar
  const begins = weekBegins === 'sunday' ? WEEK - 1 : 0
  const first = dayNumber(`${month}-01`)
  const start = first - ((weekday(first) - begins + WEEK) % WEEK)
  const isIn = (day: number): boolean => dateOf(day).startsWith(month)
  const weeks: MonthDay[][] = []
  for (let from = start; from <= first || isIn(from); from += WEEK)
    weeks.push(
      Array.from({ length: WEEK }, (_, index): MonthDay => {
        const day = from + index
        if (!isIn(day)) return { groups: [] }
        const date = dateOf(day)
        const closed = hours.restDays.includes(weekday(day)) || hours.holidays.includes(date)
        return {
          day: show.count(`calendar.day.${date}`, Number(date.slice(8))),
          ...(closed ? { note: say('calendar.closed') } : {}),
          groups: [...groupsOf(frame, binder, date, dated), ...marketGroups(frame, binder, date)],
        }
      }),
    )
  return {
    kind: 'month',
    weekdays: Array.from({ length: WEEK }, (_, index) => say(`weekday.${((begins + index) % WEEK) + 1}`)),
    weeks,
  }
}

/** The mark is explained where it stands. */
const legendWords = (
  { say }: Frame,
  { cures }: BoundBinder,
  dated: readonly Dated[],
  month: string,
): Inline => {
  const marked = cures.some(({ planned }) =>
    dated.some(
      ({ cure, task }) =>
        cure.planned === planned && task.at.date.startsWith(month) && isMet(planned, [task]),
    ),
  )
  return marked
    ? say('calendar.legend-marked', { ...fixedLinks, plan: linkTo(PLAN) })
    : say('calendar.legend', fixedLinks)
}

/** Days that a market wants: its own, the last one for labels, the last hour for each pour, or the day to decide on it. */
const marketGroups = ({ say, show }: Frame, { markets }: BoundBinder, date: string): MonthDay['groups'] =>
  markets.flatMap((market) => {
    const pours = market.items.flatMap(({ recipeKey, recipeTitle, back, covered }) =>
      (covered ? [] : (back?.pours ?? [])).flatMap(({ pour }, index) =>
        pour.date === date
          ? [
              say('calendar.market.pour', {
                recipe: recipeTitle,
                time: show.time(`calendar.${market.key}.${recipeKey}.${index + 1}`, pour.minute),
              }),
            ]
          : [],
      ),
    )
    const tasks = [
      ...market.items.flatMap((item) => decideWords({ say, show }, market.key, item, date)),
      ...pours,
      ...(market.readyBy === date ? [say('calendar.market.ready')] : []),
      ...(market.date === date ? [say('calendar.market.day')] : []),
    ]
    return tasks.length > 0 ? [{ of: say('calendar.market.of', { market: market.title }), tasks }] : []
  })

/** On the day of their label: what others may not have. */
const keepWords = ({ say, show }: Frame, { markets }: BoundBinder, { batch }: BoundCure): Inline[] =>
  markets.flatMap(({ key, items }) =>
    items
      .flatMap(({ planned }) => planned)
      .filter((one) => one.batch === batch.key && one.kept > 0)
      .map(({ kept }) =>
        say('calendar.market.keep', { bars: show.count(`calendar.${key}.${batch.key}.kept`, kept) }),
      ),
  )

/** The day before the latest pour of a batch that is needed only if bars of others fail. */
const decideWords = (
  { say, show }: Pick<Frame, 'say' | 'show'>,
  market: string,
  { recipeKey, recipeTitle, bars, covered, decideBy, back }: MarketItem,
  date: string,
): Inline[] => {
  const first = back?.pours[0]
  if (!covered || decideBy !== date || !first) return []
  const lead = first.plan.rules.find(({ task }) => task === 'pour')?.lead ?? 0
  return [
    say('calendar.market.decide', {
      recipe: recipeTitle,
      bars: show.count(`calendar.${market}.${recipeKey}.wanted`, bars),
      time: show.time(`calendar.${market}.${recipeKey}.begin`, first.pour.minute - lead),
    }),
  ]
}

/** What is done on a day: batch by batch in the order of their first hour. */
const groupsOf = (
  frame: Frame,
  binder: BoundBinder,
  date: string,
  dated: readonly Dated[],
): MonthDay['groups'] => {
  const { say } = frame
  const today = dated
    .filter(({ task }) => task.at.date === date)
    .sort((a, b) => a.task.at.minute - b.task.at.minute)
  // what has an hour comes first: read from above, the day runs on
  const cures = [
    ...new Set([...today.filter(({ task }) => !task.wholeDay), ...today].map(({ cure }) => cure)),
  ]
  return cures.map((cure) => {
    const own = today.filter((one) => one.cure === cure).map(({ task }) => task)
    const ofTheDay = own.filter(({ wholeDay }) => wholeDay)
    return {
      of: say('calendar.batch-and-log', {
        recipe: cure.batch.recipeTitle,
        batch: `4.${binder.batches.indexOf(cure.batch) + 1}`,
        log: logNumber(binder, cure),
      }),
      tasks: [
        ...own.filter(({ wholeDay }) => !wholeDay).flatMap((task) => entriesOf(frame, cure, task)),
        ...[
          ofTheDay.filter(({ task }) => !isMilestone(task)),
          ...ofTheDay.filter(({ task }) => isMilestone(task)).map((task) => [task]),
        ]
          .filter((tasks) => tasks.length > 0)
          .map((tasks) => dayEntry(frame, cure, tasks)),
        ...(own.some(({ task }) => task === 'label') ? keepWords(frame, binder, cure) : []),
      ],
    }
  })
}

/** What gets a box of its own: ticked with something else it would look done. */
const isMilestone = (task: string): boolean => task === 'release-test' || task.startsWith('label')

/** What is done to one batch at an hour. */
const entriesOf = ({ say, show }: Frame, { batch, planned }: BoundCure, task: PlannedTask): Inline[] => {
  const name = `calendar.${batch.key}.${task.task}`
  const what = say(`calendar.short.${taskKind(task.task)}`)
  const time = show.time(`${name}.time`, task.at.minute)
  const to = task.closes
  const said =
    task.task === 'hottest' && to
      ? say('calendar.entry-span', { task: what, time, to: show.time(`${name}.to`, to.minute) })
      : task.task === 'cut' && to
        ? say('calendar.entry-by', { task: what, time, to: show.moment(`${name}.to`, to) })
        : say('calendar.entry', { task: what, time })
  const begin =
    task.lead > 0
      ? [
          say('calendar.entry', {
            task: say('calendar.short.prepare'),
            time: show.time(`${name}.begin`, task.at.minute - task.lead),
          }),
        ]
      : []
  return [...begin, isMet(planned, [task]) ? say('calendar.marked', { entry: said }) : said]
}

/** What is done to one batch some time of the day. */
const dayEntry = (frame: Frame, cure: BoundCure, tasks: readonly PlannedTask[]): Inline => {
  const { say } = frame
  const { planned } = cure
  const said = tasks
    .map(({ task }) =>
      task.startsWith('label') ? labelWords(frame, cure, task) : say(`calendar.short.${taskKind(task)}`),
    )
    .reduce((before, next) => say('calendar.list', { before, next }))
  return isMet(planned, tasks) ? say('calendar.marked', { entry: said }) : said
}

/** With what the scale must show of a bar on that day. */
const labelWords = ({ say, show }: Frame, { batch, labelDays }: BoundCure, task: string): Inline => {
  const day = labelDays.find(({ which }) => task === (which === 'first' ? 'label' : `label-${which}`))
  return day?.least === undefined
    ? say('calendar.short.label')
    : say(day.which === 'first' ? 'calendar.short.label-least' : 'calendar.short.label-again', {
        least: show.weight(`calendar.${batch.key}.${task}.least`, day.least, 0.001),
      })
}

/** What is found of no task in particular is found of the pour. */
const isMet = ({ findings }: BoundCure['planned'], tasks: readonly PlannedTask[]): boolean =>
  findings.some(({ values }) => tasks.some(({ task }) => task === (values.task ?? 'pour')))
