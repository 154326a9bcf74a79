/** How close wires, frame and mould must be for the spread that is wanted, and where closer work gains nothing. */
import type { BoundTolerance, ErrorKey } from '../../binder/bind-tolerance.ts'
import { empty, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Table } from '../model.ts'
import { livingErrors, toleranceValue, whatWords } from './error-words.ts'

/** Nobody builds these: soap is what it is. */
const UNMADE: ReadonlySet<string> = new Set<ErrorKey>(['slice-led', 'wire-led', 'density'])

/** What each must be within, and where it stops to matter. */
export const spacingTable = (frame: Frame, tolerance: BoundTolerance): Table => {
  const { say, show } = frame
  const { needed, wanted } = tolerance
  const errors = livingErrors(tolerance).filter(({ key }) => !UNMADE.has(key))
  const wires = errors.filter(({ key }) => key === 'slice-spacing' || key === 'wire-spacing')
  const within = (name: string, length: number | undefined): Cell =>
    length === undefined
      ? words(say('tolerance.spacing.never'))
      : number(show.thousandths(`spacing.${name}.needed`, length))
  const right = (key: string, width = 21) => ({ head: say(key), align: 'right' as const, width })
  return {
    kind: 'table',
    caption: say('tolerance.spacing.caption', {
      wanted: show.lightWeight('wanted.spread', wanted.spread),
    }),
    columns: [
      { head: say('tolerance.spacing.what'), align: 'left' },
      right('tolerance.spacing.planned'),
      right('tolerance.spacing.needed'),
      right('tolerance.spacing.enough'),
    ],
    rows: [
      // with one cutter there are no two kinds of wires
      ...(wires.length === 2
        ? [[words(say('tolerance.spacing.wires')), empty, within('wires', needed.wires.tolerance), empty]]
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
  { say, show }: Frame,
  { neighbours, centred, barMass }: BoundTolerance,
  sheets: { readonly gauge: string; readonly grid: string; readonly bar: string },
): Block => ({
  kind: 'steps',
  first: 1,
  items: [
    'gauge',
    'check',
    ...(neighbours === undefined ? [] : ['prove']),
    ...(centred ? ['opposite'] : []),
  ].map((key) => ({
    text: say(`tolerance.reach.${key}`, {
      ...sheets,
      ...(key === 'prove'
        ? { apart: show.lightWeight('neighbours.apart', (neighbours ?? 0) * barMass) }
        : {}),
      ...(key === 'opposite' && centred
        ? { opposite: show.lightWeight('centred.opposite', centred.opposite * barMass) }
        : {}),
    }),
  })),
})

/** Nobody measures what the frame is off: gaps are seen. */
export const gapWords = ({ say, show }: Frame, { needed, centred }: BoundTolerance): Inline => {
  const off = needed.each['frame-centred']?.tolerance
  return centred && off !== undefined
    ? say('tolerance.spacing.gaps', {
        gaps: show.thousandths('spacing.frame-centred.gaps', 2 * off),
        difference: show.thousandths('centred.difference', centred.difference),
      })
    : say('tolerance.spacing.no-gaps')
}
