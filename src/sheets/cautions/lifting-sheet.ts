/** Lifting with the masses of this shop, and the block that heats itself. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { heaviestLoads, madeBatches, tightCutters } from '../../binder/caution-figures.ts'
import { howLifted } from '../batch/ready.ts'
import { type Fill, finishSheet, nothing, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Sheet } from '../model.ts'
import { PLACES } from '../places.ts'
import { cautionBox, under } from './boxes.ts'

/** kg; what one carries by two handles, the shop's limit for hot loads being no measure of a cold one */
const FOR_ONE = 10

export const liftingSheet = (frame: Frame, binder: BoundBinder, fill: Fill): Sheet => {
  const { say } = frame
  const all = 'cautions.lifting'
  return finishSheet({
    ...frame.sheet(
      'cautions',
      PLACES.lifting.id,
      say('section.cautions'),
      PLACES.lifting.number,
      say(`${all}.title`),
    ),
    template: frame.template('lifting'),
    fill: {},
    blocks: {
      never: cautionBox(
        say,
        'danger',
        `${all}.never.heading`,
        under(`${all}.never`, ['kettle', 'mould', 'alone']),
        fill,
      ),
      hot: cautionBox(
        say,
        'danger',
        `${all}.hot.heading`,
        under(`${all}.hot`, ['rise', 'watch', 'sheet', 'open']),
        fill,
      ),
      loads: loadTable(frame, binder),
      how: cautionBox(
        say,
        'warning',
        `${all}.how.heading`,
        under(`${all}.how`, ['plan', 'grip', 'stop', 'height']),
      ),
    },
    sources: pickSources(frame.sources, ['niosh-94-110', 'waters1993', 'hse-l23', 'common-practice']),
  })
}

const loadTable = (frame: Frame, binder: BoundBinder): Block => {
  const { say, show } = frame
  const row = (what: string, name: string, mass: number, alone: Cell, how: string): Cell[] => [
    words(say(what)),
    number(show.heavy(`load.${name}.mass`, mass)),
    alone,
    words(say(how)),
  ]
  const none = words(say('batch.lift.none'))
  const empty: Cell = { kind: 'empty' }
  const made = madeBatches(binder)
  const heaviest = (massOf: (batch: BoundBatch) => number): number => Math.max(...made.map(massOf))
  const cold = (what: string, name: string, mass: number): Cell[] =>
    row(what, name, mass, empty, mass > FOR_ONE ? 'cautions.lifting.by.two' : 'cautions.lifting.by.one')
  const rows = [
    ...heaviestLoads(binder).map(({ key, mass, alone, people }) =>
      row(
        `batch.lift.load.${key}`,
        key,
        mass,
        number(show.heavy(`load.${key}.alone`, alone)),
        `batch.lift.by.${howLifted(key, people)}`,
      ),
    ),
    ...(made.length === 0
      ? []
      : [
          row(
            'batch.lift.load.kettle-of-batter',
            'kettle-of-batter',
            heaviest(({ pour }) => pour.loadedMass),
            none,
            'batch.lift.by.never',
          ),
          row(
            'batch.lift.load.mould',
            'mould',
            heaviest(({ loadedMould }) => loadedMould),
            none,
            'batch.lift.by.set',
          ),
        ]),
    ...tightCutters(binder).flatMap(({ grid, bar }) => [
      ...(grid ? [cold('cautions.lifting.grid', `${grid.key}.grid`, grid.cutter.mass)] : []),
      ...(bar ? [cold('cautions.lifting.bar', `${bar.key}.bar`, bar.cutter.mass)] : []),
    ]),
  ]
  if (rows.length === 0) return nothing
  return {
    kind: 'table',
    caption: say('cautions.lifting.table'),
    columns: [
      { head: say('batch.lift.load'), align: 'left', width: 36 },
      { head: say('batch.lift.weighs'), align: 'right', width: 13 },
      { head: say('batch.lift.alone'), align: 'right', width: 19 },
      { head: say('batch.lift.how'), align: 'left' },
    ],
    rows,
  }
}
