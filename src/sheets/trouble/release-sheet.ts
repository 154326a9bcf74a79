/** Release: every hold point, and the free-alkali test described once. */

import { cautionBox, under } from '../cautions/boxes.ts'
import { empty, type Fill, finishSheet, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Sheet, Step, Table } from '../model.ts'
import { PLACES } from '../places.ts'

const HOLDS = ['ready', 'kettle', 'pail', 'blend', 'water', 'batch', 'sale'] as const
const COLOURS = ['clear', 'faint', 'red', 'flash', 'one'] as const
/** Where pockets of lye hide in a block; each gives one test bar (common practice) */
export const TEST_BARS = ['core', 'corner', 'top', 'bottom', 'side'] as const

/** @param fill references to other sheets and to entries of trouble */
export const releaseSheet = (frame: Frame, fill: Fill): Sheet => {
  const { say } = frame
  return finishSheet({
    ...frame.sheet(
      'release',
      PLACES.release.id,
      say('section.trouble'),
      PLACES.release.number,
      say('release.title'),
    ),
    template: frame.template('release'),
    fill: {},
    blocks: {
      rule: cautionBox(say, 'warning', undefined, ['release.rule', 'release.tag']),
      holds: rowsOf(frame, 'release.holds', HOLDS, ['where', 'true', 'who'], [36, 0, 20], fill),
      indicator: cautionBox(
        say,
        'warning',
        'release.test.heading',
        under('release.test', ['what', 'hazard', 'never']),
      ),
      steps: { kind: 'steps', first: 1, items: testSteps(frame) },
      colours: rowsOf(frame, 'release.colour', COLOURS, ['seen', 'means', 'do'], [32, 30, 0], fill),
      limits: cautionBox(
        say,
        'notice',
        'release.limits.heading',
        under('release.limits', ['amount', 'place', 'other']),
      ),
      waste: cautionBox(say, 'caution', 'release.waste.heading', under('release.waste', ['keep', 'give'])),
      record: recordTable(frame),
      signed: {
        kind: 'table',
        style: 'log',
        columns: ['batch', 'bottle', 'tested', 'date', 'maker'].map((key) => ({
          head: say(`release.sign.${key}`),
          align: 'left' as const,
          ...(key === 'maker' ? { width: 30 } : {}),
        })),
        rows: [[empty, empty, empty, empty, empty]],
      },
    },
    sources: pickSources(frame.sources, ['indicator-range', 'iso-456', 'common-practice']),
  })
}

/** A table whose heads and rows stand in the catalogue under one start. */
const rowsOf = (
  { say }: Frame,
  start: string,
  rows: readonly string[],
  columns: readonly string[],
  widths: readonly number[],
  fill: Fill,
): Table => ({
  kind: 'table',
  caption: say(`${start}.caption`),
  columns: columns.map((column, index) => ({
    head: say(`${start}.${column}`),
    align: 'left',
    ...(widths[index] ? { width: widths[index] } : {}),
  })),
  rows: rows.map((row) => columns.map((column) => words(say(`${start}.${row}.${column}`, fill)))),
})

const testSteps = ({ say }: Frame): Step[] => [
  { text: say('release.step.prove') },
  { text: say('release.step.bars'), why: say('release.step.bars-why') },
  { text: say('release.step.cut'), why: say('release.step.cut-why') },
  { text: say('release.step.drops') },
  { text: say('release.step.look') },
  { text: say('release.step.write') },
  { text: say('release.step.after') },
  { text: say('release.step.sign'), hold: true },
]

const recordTable = ({ say }: Frame): Table => {
  const blanks: Cell[] = [empty, empty, empty, empty]
  return {
    kind: 'table',
    style: 'log',
    caption: say('release.record.caption'),
    columns: ['bar', 'edge', 'middle', 'odd', 'verdict'].map((key) => ({
      head: say(`release.record.${key}`),
      align: 'left' as const,
      ...(key === 'bar' ? { width: 26 } : {}),
    })),
    rows: TEST_BARS.map((bar) => [words(barWords(say(`release.record.${bar}`))), ...blanks]),
  }
}

const barWords = (bar: Inline): Inline => bar
