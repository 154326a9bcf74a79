/** Words that the trace sheet and a recall share. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { MadeBatch } from '../../binder/bind-trace.ts'
import type { RecallSet, Traced } from '../../supply/trace.ts'
import { dateOf } from '../../units/civil-day.ts'
import { inlineList, number, words } from '../compose.ts'
import { batchWords } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline } from '../model.ts'
import { findingsWords } from '../stop-sheet.ts'
import { materialName } from './supply-words.ts'

/** Of a lot: what it is, and who sold it or that it was made here. */
export const lotWords = ({ say }: Frame, { stock }: BoundBinder, lot: string): Inline => {
  const state = stock.lots.get(lot)
  const material = materialName(stock, state?.material ?? '')
  const seller = stock.sellers.get(lot)
  if (seller !== undefined) return say('trace.lot.from', { material, seller })
  return say(state?.madeBy === undefined ? 'trace.lot.unknown' : 'trace.lot.made', { material })
}

export const receivedCell = ({ say, show }: Frame, { stock }: BoundBinder, lot: string): Cell => {
  const state = stock.lots.get(lot)
  return state
    ? number(show.date(`trace.${lot}.received`, dateOf(state.received)))
    : words(say('trace.not-written'))
}

/** What lies between the two ends of a way; nothing where one is in the other. */
const wayWords = (frame: Frame, binder: BoundBinder, { way }: Traced): Inline | undefined => {
  const between = way.slice(1, -1)
  const { batches } = binder.content
  const [first, ...rest] = between.map(
    (name): Inline =>
      batches.has(name) ? batchWords(frame, binder, name) : frame.say('trace.lot-name', { lot: name }),
  )
  if (!first) return undefined
  return rest.reduce((before, next) => frame.say('trace.then', { before, next }), first)
}

export const wayCell = (frame: Frame, binder: BoundBinder, traced: Traced): Cell => {
  const way = wayWords(frame, binder, traced)
  return words(way ?? frame.say('trace.direct'))
}

/** A count that somebody wrote down, or that nobody did. */
export const countCell = ({ say, show }: Frame, name: string, count: number | undefined): Cell =>
  count === undefined ? words(say('trace.not-written')) : number(show.count(name, count))

/** Where bars went, each with its day. */
export const goneWords = (frame: Frame, { key, made }: MadeBatch): Inline => {
  const { say, show } = frame
  return inlineList(
    say,
    (made.went ?? []).map(({ date, bars, to }, index) =>
      say('trace.gone-to', {
        bars: show.count(`trace.${key}.gone.${index + 1}`, bars),
        to,
        date: show.date(`trace.${key}.gone.${index + 1}.date`, date),
      }),
    ),
    say(made.went === undefined ? 'trace.not-written' : 'trace.none'),
  )
}

/** Names of lots one after the other. */
export const listed = ({ say }: Frame, names: readonly string[]): Inline =>
  inlineList(
    say,
    names.map((lot) => say('trace.lot-name', { lot })),
    say('trace.none'),
  )

/** What the records of a trace contradict each other in. */
export const traceFindings = (
  frame: Frame,
  binder: BoundBinder,
  findings: RecallSet['findings'],
): readonly Inline[] =>
  findingsWords(frame, findings, ({ values }) => ({
    batch: batchWords(frame, binder, String(values.batch)),
  }))
