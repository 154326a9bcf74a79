/** How close wires and frame must be for the spread that is wanted, and what need not be any closer. */
import { ASKED, type BoundTolerance } from '../../binder/bind-tolerance.ts'
import { nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Table } from '../model.ts'
import { livingErrors, offValue, toleranceValue, whatWords } from './error-words.ts'

const ASKED_WORDS: Readonly<Record<keyof typeof ASKED, string>> = {
  both: 'tolerance.asked.both',
  slice: 'tolerance.asked.slice',
  wire: 'tolerance.asked.wire',
  frame: 'tolerance.asked.frame',
}

/** What each must be within, beside what it is now. */
export const spacingTable = (frame: Frame, tolerance: BoundTolerance): Table => {
  const { say, show } = frame
  const { needed, errors } = tolerance
  const asked = (Object.keys(ASKED) as (keyof typeof ASKED)[]).filter((key) =>
    ASKED[key].some((name) => errors.some((error) => error.key === name && error.ofVariance > 0)),
  )
  return {
    kind: 'table',
    caption: say('tolerance.spacing.caption', {
      wanted: show.lightWeight('wanted.spread', tolerance.wanted.spread),
    }),
    columns: [
      { head: say('tolerance.spacing.what'), align: 'left' },
      { head: say('tolerance.spacing.now'), align: 'right', width: 20 },
      { head: say('tolerance.spacing.needed'), align: 'right', width: 22 },
      { head: say('tolerance.spacing.rest'), align: 'right', width: 22 },
    ],
    rows: asked.map((key): Cell[] => {
      const { tolerance: within, ofTheRest } = needed[key]
      const now = Math.max(
        ...errors
          .filter((error) => (ASKED[key] as readonly string[]).includes(error.key))
          .map((one) => one.tolerance),
      )
      return [
        words(say(ASKED_WORDS[key])),
        number(offValue(frame, `spacing.${key}.now`, now)),
        within === undefined
          ? words(say('tolerance.spacing.never'))
          : number(show.thousandths(`spacing.${key}.needed`, within)),
        number(show.lightWeight(`spacing.${key}.rest`, ofTheRest)),
      ]
    }),
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

/** What gains nothing when it is done better. */
export const enoughFacts = (frame: Frame, tolerance: BoundTolerance): Block => {
  const { say, show } = frame
  const { enough, barMass, nearlyAll } = tolerance
  if (enough.length === 0) return nothing
  const now = show.lightWeight('spread.nearly-all', nearlyAll * barMass)
  return {
    kind: 'facts',
    size: 'plain',
    items: livingErrors(tolerance).flatMap((error) => {
      const own = enough.find(({ key }) => key === error.key)
      if (!own) return []
      return [
        {
          label: whatWords(frame, error.key),
          cell: words(say('tolerance.enough.is', { tolerance: toleranceValue(frame, error) })),
          note: say('tolerance.enough.note', {
            without: show.lightWeight(`enough.${error.key}.without`, own.without * barMass),
            now,
          }),
        },
      ]
    }),
  }
}
