/** How close wires, frame and mould must be for the spread that is wanted, and where closer work gains nothing. */
import type { BoundTolerance, ErrorKey } from '../../binder/bind-tolerance.ts'
import { empty, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Table } from '../model.ts'
import { livingErrors, offValue, toleranceValue, whatWords } from './error-words.ts'

/** Nobody builds these: soap is what it is. */
const UNMADE: ReadonlySet<string> = new Set<ErrorKey>(['slice-led', 'wire-led', 'density'])

/** What each must be within, beside what it is now, and where it stops to matter. */
export const spacingTable = (frame: Frame, tolerance: BoundTolerance): Table => {
  const { say, show } = frame
  const { needed, wanted } = tolerance
  const errors = livingErrors(tolerance).filter(({ key }) => !UNMADE.has(key))
  const wires = errors.filter(({ key }) => key === 'slice-spacing' || key === 'wire-spacing')
  const within = (name: string, length: number | undefined): Cell =>
    length === undefined
      ? words(say('tolerance.spacing.never'))
      : number(show.thousandths(`spacing.${name}.needed`, length))
  const right = (key: string) => ({ head: say(key), align: 'right' as const, width: 20 })
  return {
    kind: 'table',
    caption: say('tolerance.spacing.caption', {
      wanted: show.lightWeight('wanted.spread', wanted.spread),
    }),
    columns: [
      { head: say('tolerance.spacing.what'), align: 'left' },
      right('tolerance.spacing.now'),
      right('tolerance.spacing.needed'),
      right('tolerance.spacing.enough'),
    ],
    rows: [
      // with one cutter there are no two kinds of wires
      ...(wires.length === 2
        ? [
            [
              words(say('tolerance.spacing.wires')),
              number(offValue(frame, 'spacing.wires.now', Math.max(...wires.map((one) => one.tolerance)))),
              within('wires', needed.wires.tolerance),
              empty,
            ],
          ]
        : []),
      ...errors.map((error): Cell[] => [
        words(whatWords(frame, error.key)),
        number(toleranceValue(frame, error)),
        within(error.key, needed.each[error.key]?.tolerance),
        number(show.thousandths(`spacing.${error.key}.enough`, error.goodEnough)),
      ]),
    ],
  }
}

/** How wires come to stand that close. */
export const reachSteps = (
  { say }: Frame,
  sheets: { readonly gauge: string; readonly grid: string; readonly bar: string },
): Block => ({
  kind: 'steps',
  first: 1,
  items: ['zero', 'gauge', 'check', 'prove'].map((key) => ({ text: say(`tolerance.reach.${key}`, sheets) })),
})
