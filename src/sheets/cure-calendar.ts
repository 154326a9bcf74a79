/** Dates of all batches as a calendar file, for a phone or a desk. */
import type { BoundBinder } from '../binder/bind.ts'
import type { BoundCure } from '../binder/bind-cure.ts'
import { type CalendarEvent, calendarText, editionNumber } from '../cure/icalendar.ts'
import { isStopped } from '../findings.ts'
import { type Fill, inlineWords } from './compose.ts'
import type { Frame } from './frame.ts'

/**
 * What a calendar program reads. The same binder gives the same bytes; a later edition of it replaces the events of the
 * one before, since they keep their names.
 * @param frame with words
 * @param binder of which nothing that is stopped gets a date
 * @param edition date that stamps and numbers every event
 * @returns text of a file that ends in .ics
 */
export const cureCalendar = (frame: Frame, binder: BoundBinder, edition: string): string =>
  calendarText({
    name: frame.shopName,
    edition,
    sequence: editionNumber(edition),
    events: binder.cures
      .filter(({ findings }) => !isStopped(findings))
      .flatMap((cure) => eventsOf(frame, cure)),
  })

const eventsOf = ({ say, show }: Frame, cure: BoundCure): CalendarEvent[] => {
  const { batch, dates, plan, weighIns } = cure
  const words = (key: string, fill: Fill = {}): string =>
    inlineWords(say(`calendar.${key}`, { recipe: batch.recipeTitle, ...fill }))
  const heat = batch.blockHeat?.heat
  const hours = (time: number | undefined) => (time === undefined ? '' : show.hours('', time).shown)
  const event = (task: string, date: string, summary: string, days = 1): CalendarEvent => ({
    batch: batch.key,
    task,
    date,
    summary,
    days,
  })
  const weighed = new Set(weighIns.map(({ date }) => date))
  return [
    event('pour', batch.date, words('pour')),
    ...(dates.strip
      ? [event('strip', dates.strip, words('strip', { after: hours(heat?.strip.nominal) }))]
      : []),
    ...(dates.cut
      ? [
          event(
            'cut',
            dates.cut.from,
            words('cut', { after: hours(heat?.earliestCut.nominal), latest: hours(heat?.latestCut.nominal) }),
            dates.cut.days,
          ),
        ]
      : []),
    ...plan
      .filter(({ date }) => !weighed.has(date))
      .map(({ date, days, low, high }) =>
        event(
          `weigh-in-${days}`,
          date,
          words('weigh', {
            low: show.weight('', low, 0.001).shown,
            high: show.weight('', high, 0.001).shown,
          }),
        ),
      ),
    ...(dates.label ? [event('label', dates.label, words('label'))] : []),
  ]
}
