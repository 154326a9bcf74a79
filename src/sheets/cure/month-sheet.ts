/** A month to hang on the wall: every batch's tasks on their days, each with a box to tick. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundCure } from '../../binder/bind-calendar.ts'
import type { PlannedTask } from '../../cure/task-times.ts'
import { dateOf, dayNumber, weekday } from '../../units/civil-day.ts'
import { finishSheet } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Month, MonthDay, Sheet } from '../model.ts'
import { batchWords, printedTasks, taskKind } from './tasks.ts'

const WEEK = 7

interface Dated {
  readonly cure: BoundCure
  readonly task: PlannedTask
}

/**
 * Pages of the months in which anything is done, from that of the edition on.
 * @param first number of the first of them among the sheets of its section
 */
export const monthSheets = (frame: Frame, binder: BoundBinder, first: number): Sheet[] => {
  const dated = binder.cures.flatMap((cure) =>
    printedTasks(cure)
      // the last day of sale stands in the table of the plan: a page a year on would hold nothing else
      .filter(({ task }) => task !== 'sell-by')
      .map((task): Dated => ({ cure, task })),
  )
  const begin = binder.content.shop.value.edition.slice(0, 7)
  const months = [...new Set(dated.map(({ task }) => task.at.date.slice(0, 7)))]
    .filter((month) => month >= begin)
    .sort()
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
    fill: { plan: say('calendar.month.plan') },
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
          groups: groupsOf(frame, binder, date, dated),
        }
      }),
    )
  return {
    kind: 'month',
    weekdays: Array.from({ length: WEEK }, (_, index) => say(`weekday.${((begins + index) % WEEK) + 1}`)),
    weeks,
  }
}

/** What is done on a day: batch by batch in the order of their first hour. */
const groupsOf = (
  frame: Frame,
  binder: BoundBinder,
  date: string,
  dated: readonly Dated[],
): MonthDay['groups'] => {
  const today = dated
    .filter(({ task }) => task.at.date === date)
    .sort((a, b) => a.task.at.minute - b.task.at.minute)
  const cures = [...new Set(today.map(({ cure }) => cure))]
  return cures.map((cure) => {
    const tasks = today.filter((one) => one.cure === cure).map(({ task }) => task)
    const spans = tasks.filter(({ task }) => task === 'hottest')
    const hours = [...new Set(tasks.filter(({ task }) => task !== 'hottest').map(({ at }) => at.minute))]
    const together = hours.map((minute) =>
      tasks.filter(({ task, at }) => task !== 'hottest' && at.minute === minute),
    )
    return {
      of: batchWords(frame, binder, cure.batch.key),
      tasks: [...together, ...spans.map((task) => [task])]
        .sort(([one], [other]) => (one?.at.minute ?? 0) - (other?.at.minute ?? 0))
        .flatMap((same) => entry(frame, cure, same)),
    }
  })
}

/** What is done to one batch at one hour. */
const entry = (
  { say, show }: Frame,
  { batch, planned }: BoundCure,
  tasks: readonly PlannedTask[],
): Inline[] => {
  const [first] = tasks
  if (!first) return []
  const name = `calendar.${batch.key}.${first.task}`
  const what = tasks
    .map(({ task }) => say(`calendar.short.${taskKind(task)}`))
    .reduce((before, next) => say('calendar.list', { before, next }))
  const time = show.time(`${name}.time`, first.at.minute)
  const said =
    first.task === 'hottest' && first.closes
      ? say('calendar.entry-span', { task: what, time, to: show.time(`${name}.to`, first.closes.minute) })
      : say('calendar.entry', { task: what, time })
  // what is found of no task in particular is found of the pour
  const meets = planned.findings.some(({ values }) =>
    tasks.some(({ task }) => task === (values.task ?? 'pour')),
  )
  return [meets ? say('calendar.marked', { entry: said }) : said]
}
