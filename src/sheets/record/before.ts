/** Who is there, when it began, and that nothing of another batch is left: before anything is opened. */
import type { BoundRecord } from '../../binder/bind-record.ts'
import { minutesAt, momentAt } from '../../units/civil-day.ts'
import { box, empty, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Sheet, Table } from '../model.ts'
import { typedOr } from './cells.ts'
import { stepsWith } from './steps.ts'

export const peopleTable = (frame: Frame, { made }: BoundRecord): Table => {
  const { say } = frame
  const row = (key: string, name: string | undefined): Cell[] => [
    words(say(`record.people.${key}`)),
    typedOr(frame, name),
    empty,
  ]
  return {
    kind: 'table',
    style: 'log',
    caption: say('record.people.caption'),
    columns: [
      { head: say('record.people.does'), align: 'left', width: 40 },
      { head: say('record.people.name'), align: 'left' },
      { head: say('record.initials'), align: 'left', width: 20 },
    ],
    rows: [row('weighed', made?.weighed), row('checked', made?.checked), row('third', undefined)],
  }
}

export const hoursTable = (frame: Frame, { made, cure, batch }: BoundRecord): Table => {
  const { say, show } = frame
  const pour = cure.planned.tasks.find(({ task }) => task === 'pour')
  const begins = pour && momentAt(minutesAt(pour.at) - pour.lead)
  return {
    kind: 'table',
    style: 'log',
    columns: [
      {
        head: begins
          ? say('record.hours.began-planned', { time: show.moment('record.begins', begins) })
          : say('record.hours.began'),
        align: 'left',
      },
      { head: say('record.hours.washed-up'), align: 'left', width: 30 },
      {
        head: say('record.hours.room', {
          planned: show.temperature('room', batch.shopFile.value.room['usual-temperature']),
        }),
        align: 'left',
        width: 34,
      },
    ],
    rows: [
      [
        typedOr(frame, made?.began === undefined ? undefined : show.time('made.began', made.began)),
        typedOr(
          frame,
          made?.['washed-up'] === undefined ? undefined : show.time('made.washed-up', made['washed-up']),
        ),
        typedOr(frame, made?.room === undefined ? undefined : show.temperature('made.room', made.room)),
      ],
    ],
  }
}

const THINGS = ['place', 'papers', 'vessels', 'tools', 'scales', 'mould'] as const

/** What must be found before: of another batch nothing, and each piece of equipment clean and itself. */
export const clearedTable = (frame: Frame, { made, batch }: BoundRecord, sheet: Sheet): Table => {
  const { say } = frame
  const { weighing, alkali, lye, mixing, pouring } = batch.vessels
  const vessels = [...new Set([weighing, alkali, lye, mixing, pouring].map(({ key }) => key))]
  const scales = batch.scales.checks.map(({ name }) => name)
  return {
    kind: 'table',
    style: 'checks',
    caption: say('record.cleared.caption'),
    columns: [
      { head: say('record.cleared.what'), align: 'left', width: 26 },
      { head: say('record.cleared.how'), align: 'left' },
      { head: say('record.cleared.found'), align: 'centre', width: 9 },
      { head: say('record.initials'), align: 'left', width: 16 },
    ],
    rows: THINGS.map((thing, index): Cell[] => [
      words(
        say(`record.cleared.${thing}`, {
          vessels: frame.show.list(vessels.map(frame.vesselName)),
          scales: frame.show.list(scales.map(frame.scaleName)),
          mould: batch.mould.title,
        }),
      ),
      words(
        say(`record.cleared.${thing}.how`, {
          steps: stepsWith(
            frame,
            sheet,
            scales.map((name) => `scale-${name}`),
          ),
        }),
      ),
      box,
      index === 0 ? typedOr(frame, made?.cleared) : empty,
    ]),
  }
}
