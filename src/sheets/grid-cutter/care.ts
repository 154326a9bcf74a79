/** Care after each use, when a wire is replaced and how, with a log of the wires. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { empty, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Step, Table, Value } from '../model.ts'

/** Blocks after which every wire is changed, broken or not, until a shop knows its own number (common practice) */
const BLOCKS = 20
/** Changes of each wire that the log has room for */
const CHANGES = 3

const CARE = ['rinse', 'dry', 'oil', 'slack', 'hang', 'wood'] as const
const CARE_REASONS: readonly string[] = ['rinse', 'dry', 'oil', 'slack']
const REPLACE = ['count', 'rust', 'kink', 'note', 'frayed'] as const
const CHANGE = ['gear', 'slacken', 'out', 'in', 'tune', 'log'] as const

/** m; a stop block hangs free of a batten by this (common practice) */
const FREE = 0.01

/** Between the battens that the handles hang on. */
export const hangApart = ({ show }: Frame, { outside, input }: BoundGridCutter['cutter']): Value =>
  show.exactLength('hang.apart', outside.length - 2 * input.handle + 2 * (input.panels.stop.thickness + FREE))

export const careSteps = (frame: Frame, { cutter }: BoundGridCutter): Step[] =>
  CARE.map(
    (key): Step => ({
      text: frame.say(`grid.care.${key}`, { apart: hangApart(frame, cutter) }),
      ...(CARE_REASONS.includes(key) ? { why: frame.say(`grid.care.${key}-why`) } : {}),
    }),
  )

export const replaceWhen = ({ say, show }: Frame): Block => ({
  kind: 'cautions',
  signal: 'notice',
  heading: say('grid.replace.heading'),
  items: REPLACE.map((key) =>
    say(`grid.replace.${key}`, key === 'count' ? { blocks: show.count('wires.blocks', BLOCKS) } : {}),
  ),
})

export const changeSteps = ({ say }: Frame): Step[] =>
  CHANGE.map((key): Step => ({ text: say(`grid.change.${key}`) }))

/** A row a wire, or a row a pair of lines that share one. */
export const wireLog = ({ say }: Frame, { cutter }: BoundGridCutter): Table => {
  const rows = cutter.layers.flatMap(({ layer }) => {
    const own = cutter.wires.filter((wire) => wire.layer === layer)
    return own
      .map(({ ends }, index) => ({ ends, index }))
      .filter(({ ends }) => ends.includes('peg'))
      .map(({ ends, index }) =>
        ends.includes('turn')
          ? say(`grid.log.${layer}-pair`, { number: String(index + 1), next: String(index + 2) })
          : say(`grid.log.${layer}`, { number: String(index + 1) }),
      )
  })
  const times = Array.from({ length: CHANGES }, (_, index) => index)
  return {
    kind: 'table',
    style: 'log',
    caption: say('grid.log.caption'),
    columns: [
      { head: say('grid.log.wire'), align: 'left' },
      ...times.flatMap(() => [
        { head: say('grid.log.fitted'), align: 'left' as const, width: 13 },
        { head: say('grid.log.blocks'), align: 'left' as const, width: 11 },
      ]),
    ],
    rows: rows.map((name): Cell[] => [words(name), ...times.flatMap(() => [empty, empty])]),
  }
}
