/** What is due on which day, for the first page of the site: the same words as in the calendar file. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundCure } from '../../binder/bind-calendar.ts'
import { anchorOf } from '../compose.ts'
import type { TaskDay } from '../first-page.ts'
import type { Frame } from '../frame.ts'
import { taskWords } from './calendar-file.ts'
import { printedTasks, taskKind } from './tasks.ts'

/** Days in order, each with its tasks in the order of their hours. */
export const taskDays = (frame: Frame, binder: BoundBinder): readonly TaskDay[] => {
  const all = binder.cures
    .flatMap((cure) => printedTasks(cure).map((task) => ({ cure, task })))
    .sort(({ task: { at: one } }, { task: { at: other } }) =>
      one.date === other.date ? one.minute - other.minute : one.date < other.date ? -1 : 1,
    )
  return [...new Set(all.map(({ task }) => task.at.date))].map((date) => ({
    // a day of another year says which: bars are sold for long
    day: frame.show[isThisYear(frame, date) ? 'shortDate' : 'date'](`day.${date}`, date),
    tasks: all
      .filter(({ task }) => task.at.date === date)
      .map(({ cure, task }) => ({
        words: taskWords(frame, cure, task),
        sheets: sheetsOf(cure, taskKind(task.task)),
      })),
  }))
}

const isThisYear = ({ issued }: Frame, date: string): boolean =>
  String(issued.value).slice(0, 4) === date.slice(0, 4)

const sheetsOf = ({ batch: { key } }: BoundCure, kind: string): readonly string[] => {
  const batch = anchorOf(`batch/${key}`)
  if (kind === 'weigh-in' || kind === 'turn') return [anchorOf(`cure/${key}`), batch]
  if (kind === 'label' || kind === 'sell-by') return [anchorOf(`label/${key}`), batch]
  return [batch]
}
