/** Lots and batches both ways, with the bars that hold them: what nobody wrote down stays open. */

import type { Content } from '../schema/content.ts'
import type { Made } from '../schema/made.ts'
import type { LotState } from '../supply/ledger.ts'
import {
  type BarsOfBatch,
  type RecallSet,
  recallSet,
  recallSetOfBatch,
  sourcesOfBatch,
  type Trace,
  type TraceLinks,
  traceLinks,
} from '../supply/trace.ts'
import { barBalance, barsGone } from './bar-balance.ts'
import type { BoundStock } from './bind-stock.ts'

/** A batch that was made, as its file says it. */
export interface MadeBatch {
  readonly key: string
  readonly made: Made
  readonly bars: BarsOfBatch
  /** every lot that is in it, and every batch that went into it */
  readonly sources: Trace
}

export interface BoundTrace {
  /** of all that is written down of stock */
  readonly links: TraceLinks
  /** in the order of the names of their files */
  readonly batches: readonly MadeBatch[]
  /** every lot that ever came, with what holds it */
  readonly lots: readonly { readonly lot: LotState; readonly holders: RecallSet }[]
}

/** Fit for sale, gone and kept, as far as somebody counted. */
const barsOf = (batch: string, written: Made): BarsOfBatch => {
  const { fit, kept } = barBalance(written)
  return { batch, made: fit, sold: barsGone(written), kept }
}

export const bindTrace = (content: Content, { entries, ledger, makings }: BoundStock): BoundTrace => {
  const links = traceLinks(entries)
  const batches = [...content.batches.values()].flatMap(({ key, value: { made } }): MadeBatch[] =>
    made
      ? [
          {
            key,
            made,
            bars: barsOf(key, made),
            sources: withoutMakings(sourcesOfBatch(links, key), makings),
          },
        ]
      : [],
  )
  const bars = batches.map((one) => one.bars)
  return {
    links,
    batches,
    lots: ledger.lots.map((lot) => ({
      lot,
      holders: realHolders(recallSet(links, lot.lot, bars), makings),
    })),
  }
}

type Makings = BoundStock['makings']

/** The making of a lot stands in the entries like a batch; to a reader it is a step on the way. */
const withoutMakings = <T extends Trace>(trace: T, makings: Makings): T => ({
  ...trace,
  batches: trace.batches.filter(({ name }) => !makings.has(name)).map((one) => plainWay(one, makings)),
  lots: trace.lots.map((one) => plainWay(one, makings)),
})

const plainWay = <T extends { readonly way: readonly string[] }>(one: T, makings: Makings): T => ({
  ...one,
  way: one.way.filter((name) => !makings.has(name)),
})

const realHolders = (set: RecallSet, makings: Makings): RecallSet => ({
  ...withoutMakings(set, makings),
  bars: set.bars.filter(({ batch }) => !makings.has(batch)),
  unrecorded: set.unrecorded.filter((batch) => !makings.has(batch)),
  findings: set.findings.filter(({ values }) => !makings.has(String(values.batch))),
})

/** What is called back: a lot, or a batch with all that holds some of it. */
export type Recalled =
  | { readonly kind: 'lot'; readonly lot: LotState; readonly holders: RecallSet }
  | { readonly kind: 'batch'; readonly batch: string; readonly holders: RecallSet; readonly sources: Trace }

/** @param name of a lot, or else of a batch; nothing where neither is there */
export const recallOf = (
  content: Content,
  stock: BoundStock,
  trace: BoundTrace,
  name: string,
): Recalled | undefined => {
  const found = trace.lots.find(({ lot }) => lot.lot === name)
  if (found) return { kind: 'lot', ...found }
  if (!content.batches.has(name)) return undefined
  const bars = trace.batches.map((one) => one.bars)
  return {
    kind: 'batch',
    batch: name,
    holders: realHolders(recallSetOfBatch(trace.links, name, bars), stock.makings),
    sources: withoutMakings(sourcesOfBatch(trace.links, name), stock.makings),
  }
}
