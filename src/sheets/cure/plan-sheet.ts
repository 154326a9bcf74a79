/** All batches in one table, and where they meet each other, the clock or a rest day. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundCure } from '../../binder/bind-calendar.ts'
import { placesOf } from '../../binder/finding-places.ts'
import { minutesAt, momentAt } from '../../units/civil-day.ts'
import { empty, finishSheet, nothing, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Column, Facts, Sheet, Table } from '../model.ts'
import { batchWords, conflictWords, mouldWords, printedTasks } from './tasks.ts'

/** Where the plan stands in every binder that has one. */
export const PLAN = { id: 'cure/plan', number: '6.1' } as const

export const planSheet = (frame: Frame, binder: BoundBinder): Sheet => {
  const { say } = frame
  const conflicts = conflictWords(frame, binder)
  const blocks: Record<string, Block> = {
    conflicts:
      conflicts.length === 0
        ? { kind: 'cautions', signal: 'notice', items: [say('calendar.no-conflict')] }
        : {
            kind: 'cautions',
            signal: 'warning',
            heading: say('calendar.conflicts'),
            items: conflicts.map((one) => one.words),
          },
    batches: batchTable(frame, binder),
    hours: hoursFacts(frame, binder),
  }
  return {
    ...finishSheet({
      ...frame.sheet('cure', PLAN.id, say('section.cure'), PLAN.number, say('calendar.plan.title')),
      orientation: 'landscape',
      template: frame.template('plan'),
      fill: {},
      blocks,
      sources: pickSources(frame.sources, ['common-practice']),
    }),
    conflicts: conflicts.map(({ finding, batch, words: reason }) => {
      const file = binder.batches.find(({ key }) => key === batch)?.file
      const [place] = file ? placesOf(file, finding) : []
      return { code: finding.code, reason, ...(place ? { place: `${place.file}:${place.line}` } : {}) }
    }),
  }
}

/** Columns of the table: tasks that a day is looked up for. */
const COLUMNS = ['begin', 'pour', 'strip', 'cut', 'latest-cut', 'release-test', 'label', 'sell-by'] as const
const TASK_OF: Readonly<Record<string, string>> = { begin: 'pour', 'latest-cut': 'cut' }

const batchTable = (frame: Frame, binder: BoundBinder): Table | typeof nothing => {
  const { say, show } = frame
  const { edition } = binder.content.shop.value
  // What is no longer sold has no place in a plan.
  const listed = binder.cures.filter(({ planned }) => (dateOf(planned.tasks, 'sell-by') ?? '') >= edition)
  const stopped = binder.batches.filter(({ state, date }) => state === 'stop' && date >= edition)
  if (listed.length + stopped.length === 0) return nothing
  // with one mould there is nothing to tell apart
  const several = new Set(binder.cures.map(({ planned }) => planned.mould)).size > 1
  const cell = (cure: BoundCure, column: (typeof COLUMNS)[number]): Cell => {
    const name = `calendar.${cure.batch.key}.${column}`
    const task = printedTasks(cure).find((one) => one.task === (TASK_OF[column] ?? column))
    if (!task) return words(say('calendar.no-day'))
    if (column === 'latest-cut') return task.closes ? number(show.moment(name, task.closes)) : empty
    if (column === 'begin') return number(show.moment(name, momentAt(minutesAt(task.at) - task.lead)))
    if (column === 'sell-by') return number(show.date(name, task.at.date))
    if (task.wholeDay) return number(show.shortDate(name, task.at.date))
    return number(show.moment(name, task.at))
  }
  return {
    kind: 'table',
    caption: say('calendar.plan.caption'),
    columns: [
      { head: say('calendar.plan.batch'), align: 'left', width: 14 },
      ...(several ? [{ head: say('calendar.plan.mould'), align: 'left' as const, width: 12 }] : []),
      ...COLUMNS.map(
        (column): Column => ({
          head: say(`calendar.plan.${column}`),
          align: 'left',
          // a date with its year does not break
          ...(column === 'sell-by' ? { width: 12 } : {}),
        }),
      ),
    ],
    rows: listed
      .map((cure): Cell[] => [
        words(batchWords(frame, binder, cure.batch.key)),
        ...(several
          ? [
              words(
                cure.planned.mould === undefined
                  ? say('calendar.no-mould')
                  : say('calendar.in-mould', { mould: mouldWords(frame, binder, cure.planned.mould) }),
              ),
            ]
          : []),
        ...COLUMNS.map((column) => cell(cure, column)),
      ])
      .concat(
        stopped.map(({ key }): Cell[] => [
          words(batchWords(frame, binder, key)),
          ...(several ? [empty] : []),
          words(say('calendar.stopped')),
          ...COLUMNS.slice(1).map(() => empty),
        ]),
      ),
  }
}

const dateOf = (tasks: BoundCure['planned']['tasks'], name: string): string | undefined =>
  tasks.find(({ task }) => task === name)?.at.date

const hoursFacts = ({ say, show }: Frame, { calendar }: BoundBinder): Facts => {
  const { opens, closes, restDays, awake } = calendar.hours
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('calendar.hours'),
        cell: words(
          say('calendar.from-to', {
            from: show.time('hours.opens', opens),
            to: show.time('hours.closes', closes),
          }),
        ),
        note: say(calendar.isStated ? 'calendar.hours-note' : 'calendar.hours-estimate'),
      },
      {
        label: say('calendar.awake'),
        cell: words(
          say('calendar.from-to', {
            from: show.time('hours.awakeFrom', awake?.from ?? opens),
            to: show.time('hours.awakeUntil', awake?.until ?? closes),
          }),
        ),
        note: say('calendar.awake-note'),
      },
      {
        label: say('calendar.rest-days'),
        cell: words(
          restDays.length === 0
            ? say('calendar.no-rest-day')
            : restDays
                .map((day) => say(`weekday.${day + 1}`))
                .reduce((before, next) => say('calendar.list', { before, next })),
        ),
        note: say('calendar.rest-days-note'),
      },
    ],
  }
}
