/** Dates of all batches as a calendar file, for a phone or a desk. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundCure } from '../../binder/bind-calendar.ts'
import { type CalendarEvent, calendarText, editionNumber } from '../../cure/icalendar.ts'
import type { PlannedTask } from '../../cure/task-times.ts'
import { dayNumber } from '../../units/civil-day.ts'
import { type Fill, inlineWords } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Inline } from '../model.ts'
import { printedTasks, taskKind } from './tasks.ts'

/**
 * What a calendar program reads. The same binder gives the same bytes; a later edition of it replaces the events of the
 * one before, since they keep their names.
 * @param frame with words
 * @param binder of which nothing that is stopped gets a date
 * @param edition date that stamps and numbers every event
 * @returns text of a file that ends in .ics
 */
export const calendarFile = (frame: Frame, binder: BoundBinder, edition: string): string =>
  calendarText({
    name: frame.shopName,
    edition,
    sequence: editionNumber(edition),
    events: binder.cures.flatMap((cure) => printedTasks(cure).map((task) => eventOf(frame, cure, task))),
  })

/** All day: the hour stands in its words, and nobody's phone rings in another time zone. */
const eventOf = (frame: Frame, cure: BoundCure, task: PlannedTask): CalendarEvent => {
  const { batch } = cure
  const { date } = task.at
  const isWindow = task.task === 'cut' && task.closes !== undefined
  return {
    batch: batch.key,
    task: task.task,
    date,
    summary: inlineWords(taskWords(frame, cure, task)),
    days: isWindow ? dayNumber(task.closes.date) - dayNumber(date) + 1 : 1,
  }
}

/** A task in one line, its batch first. */
export const taskWords = (
  { say, show }: Frame,
  { batch, plan }: BoundCure,
  { task, at, closes, lead, wholeDay }: PlannedTask,
): Inline => {
  const kind = taskKind(task)
  const fill: Fill = {
    recipe: batch.recipeTitle,
    task: say(`calendar.task.${kind}`),
    time: show.time('', at.minute),
  }
  const weighed = plan.find(({ date }) => date === at.date)
  if (kind === 'weigh-in' && weighed)
    return say('calendar.event.weigh-in', {
      ...fill,
      low: show.weight('', weighed.low, 0.001),
      high: show.weight('', weighed.high, 0.001),
    })
  if (kind === 'hottest' && closes)
    return say('calendar.event.hottest', { ...fill, to: show.time('', closes.minute) })
  if (kind === 'cut' && closes) return say('calendar.event.cut', { ...fill, latest: show.moment('', closes) })
  if (kind === 'pour') return say('calendar.event.pour', { ...fill, begin: show.time('', at.minute - lead) })
  if (kind === 'label') return say('calendar.event.label', fill)
  if (kind === 'sell-by') return say('calendar.event.sell-by', fill)
  return say(wholeDay ? 'calendar.event.day' : 'calendar.event.at', fill)
}
