/** The strip that grooves, slots and wires of all three fixtures are marked from. */
import type { SetUpGauge } from '../../fixtures/set-up-gauge.ts'
import { nothing, words } from '../compose.ts'
import { bothSizes } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell } from '../model.ts'

const STEPS = ['cut', 'paste', 'prick', 'prove', 'base', 'keep'] as const

export const gaugeBlocks = (
  frame: Frame,
  gauge: SetUpGauge | undefined,
): Readonly<Record<'gauge' | 'gauge-rows', Block>> =>
  gauge
    ? { gauge: gaugeSteps(frame, gauge), 'gauge-rows': rowsTable(frame, gauge) }
    : { gauge: nothing, 'gauge-rows': nothing }

const gaugeSteps = ({ say, show }: Frame, { input }: SetUpGauge): Block => ({
  kind: 'steps',
  first: 1,
  items: STEPS.map((key) => ({
    text: say(`gauge.steps.${key}`, { hole: show.millimetres('gauge.hole', input.hole) }),
  })),
})

const rowsTable = (frame: Frame, { rows }: SetUpGauge): Block => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('gauge.rows.caption'),
    columns: [
      { head: say('gauge.rows.row'), align: 'left', width: 11 },
      { head: say('gauge.rows.for'), align: 'left', width: 30 },
      { head: say('gauge.rows.zero'), align: 'right', width: 19 },
      { head: say('gauge.rows.places'), align: 'left' },
    ],
    rows: rows.map(({ key, zero, places }): Cell[] => [
      words(say(`gauge.row.${key}`)),
      words(say(`gauge.for.${key}`)),
      bothSizes(frame, `gauge.${key}.zero`, zero),
      words(
        places
          .map(({ name, u }) => say('gauge.rows.place', { place: show.millimetres(`gauge.${name}`, u) }))
          .reduce((before, next) => say('gauge.rows.then', { before, next })),
      ),
    ]),
  }
}
