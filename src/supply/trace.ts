/** From a lot to every batch and bar that holds some of it, and from a batch back to every lot, through trim, premixes and rebatches. */
import type { Finding } from '../findings.ts'
import { byName } from './amounts.ts'
import type { Entry } from './ledger.ts'

/** Bars of a batch as far as somebody wrote them down; what is undefined nobody knows. */
export interface BarsOfBatch {
  readonly batch: string
  /** cut and fit for sale */
  readonly made?: number | undefined
  /** sold or given away: out of the shop */
  readonly sold?: number | undefined
  /** kept in the shop */
  readonly kept?: number | undefined
}

/** A lot or a batch, and how the trace came to it. */
export interface Traced {
  readonly name: string
  /** from what was asked for up to here, lots and batches by turns; one of the shortest ways */
  readonly way: readonly string[]
}

export interface Trace {
  /** nearest first, then by name */
  readonly lots: readonly Traced[]
  readonly batches: readonly Traced[]
}

/** Everything to be called back for one lot. */
export interface RecallSet extends Trace {
  /** of every batch in question */
  readonly bars: readonly BarsOfBatch[]
  /** sums of what is written down */
  readonly made: number
  readonly sold: number
  readonly kept: number
  /** batches of which nobody wrote down how many bars were sold */
  readonly unrecorded: readonly string[]
  readonly findings: readonly Finding[]
}

type Node = `lot:${string}` | `batch:${string}`
type Links = ReadonlyMap<Node, readonly Node[]>

/** What went into what, by either end: made once of all entries, however many lots are asked after. */
export interface TraceLinks {
  readonly onward: Links
  readonly back: Links
}

/** Each entry is an arrow: a lot goes into the batch that used it, a batch into the lot that it left behind. */
const arrows = (entries: readonly Entry[]): [Node, Node][] =>
  entries.flatMap((entry): [Node, Node][] => {
    if (entry.kind === 'used') return [[`lot:${entry.lot}`, `batch:${entry.batch}`]]
    if (entry.kind === 'received' && entry.madeBy !== undefined)
      return [[`batch:${entry.madeBy}`, `lot:${entry.lot}`]]
    return []
  })

const linked = (pairs: readonly (readonly [Node, Node])[]): Links => {
  const links = new Map<Node, Node[]>()
  for (const [from, to] of pairs) {
    const ends = links.get(from)
    if (ends) ends.push(to)
    else links.set(from, [to])
  }
  return links
}

/**
 * Links of a ledger.
 *
 * Formula: lot → batch that used it; batch → lot that it left behind. Validity: any records.
 * @param entries of the ledger
 * @returns links, onward and back
 * @source common practice
 */
export const traceLinks = (entries: readonly Entry[]): TraceLinks => {
  const pairs = arrows(entries)
  return { onward: linked(pairs), back: linked(pairs.map(([from, to]) => [to, from])) }
}

/** Ring by ring from the start, nothing twice: a ring of records comes to an end, too. */
const reach = (links: Links, start: Node): Trace => {
  const ways = new Map<Node, readonly Node[]>([[start, [start]]])
  let edge: readonly Node[] = [start]
  const found: Node[] = []
  while (edge.length > 0) {
    const next: Node[] = []
    for (const from of edge) {
      for (const to of links.get(from) ?? []) {
        if (ways.has(to)) continue
        ways.set(to, [...(ways.get(from) ?? []), to])
        next.push(to)
      }
    }
    edge = next.sort(byName)
    found.push(...edge)
  }
  const of = (kind: 'lot:' | 'batch:'): Traced[] =>
    found
      .filter((node) => node.startsWith(kind))
      .map((node) => ({ name: nameOf(node), way: (ways.get(node) ?? []).map(nameOf) }))
  return { lots: of('lot:'), batches: of('batch:') }
}

const nameOf = (node: Node): string => node.slice(node.indexOf(':') + 1)

/**
 * Everything that holds some of a lot.
 *
 * Formula: lot → batches that used it → lots that these left behind → …; each once. Validity: any records, rings too.
 * @param links   of the ledger
 * @param lot     to start from, itself not in the answer
 * @returns lots and batches with their ways
 * @source common practice
 */
export const holdersOfLot = ({ onward }: TraceLinks, lot: string): Trace => reach(onward, `lot:${lot}`)

/**
 * Every lot that is in a batch, and every batch that went into it.
 *
 * Formula: batch → lots that it used → batches that made these → …; each once. Validity: any records, rings too.
 * @param links   of the ledger
 * @param batch   to start from, itself not in the answer
 * @returns lots and batches with their ways, from the batch back
 * @source common practice
 */
export const sourcesOfBatch = ({ back }: TraceLinks, batch: string): Trace => reach(back, `batch:${batch}`)

/**
 * Everything that holds some of a batch: trim that is kept goes on into others.
 *
 * Formula: batch → lots that it left behind → batches that used these → …; each once. Validity: any records, rings too.
 * @param links   of the ledger
 * @param batch   to start from, itself not in the answer
 * @returns lots and batches with their ways
 * @source common practice
 */
export const holdersOfBatch = ({ onward }: TraceLinks, batch: string): Trace =>
  reach(onward, `batch:${batch}`)

/**
 * What to call back for a lot.
 *
 *     all batches that hold it, with made, sold and kept bars added up
 *
 * Validity: what is not written down is named and not guessed.
 * @param links   of the ledger
 * @param lot     in question
 * @param bars    of batches, as far as recorded
 * @returns lots, batches and bars; findings where more bars went out than were made, and where records go round in a ring
 * @source common practice
 */
export function recallSet(links: TraceLinks, lot: string, bars: readonly BarsOfBatch[]): RecallSet {
  return setOf(links, holdersOfLot(links, lot), lot, bars)
}

/**
 * What to call back for a batch.
 *
 *     the batch itself, and all that hold some of it
 *
 * Validity: as for a lot.
 * @param links   of the ledger
 * @param batch   in question
 * @param bars    of batches, as far as recorded
 * @returns as for a lot, the batch itself first
 * @source common practice
 */
export function recallSetOfBatch(links: TraceLinks, batch: string, bars: readonly BarsOfBatch[]): RecallSet {
  const { lots, batches } = holdersOfBatch(links, batch)
  const others = batches.filter(({ name }) => name !== batch)
  return setOf(links, { lots, batches: [{ name: batch, way: [batch] }, ...others] }, batch, bars)
}

const setOf = (links: TraceLinks, trace: Trace, lot: string, bars: readonly BarsOfBatch[]): RecallSet => {
  const recorded = new Map(bars.map((one) => [one.batch, one]))
  const own = trace.batches.map(({ name }): BarsOfBatch => recorded.get(name) ?? { batch: name })
  const sum = (of: (one: BarsOfBatch) => number | undefined): number =>
    own.reduce((total, one) => total + (of(one) ?? 0), 0)
  const findings: Finding[] = []
  for (const { batch, made, sold = 0, kept = 0 } of own)
    if (made !== undefined && sold + kept > made)
      findings.push({ code: 'bars-more-than-made', severity: 'warn', values: { batch, made, sold, kept } })
  for (const batch of ringsIn(links, trace))
    findings.push({ code: 'trace-ring', severity: 'warn', values: { batch, lot } })
  return {
    ...trace,
    bars: own,
    made: sum(({ made }) => made),
    sold: sum(({ sold }) => sold),
    kept: sum(({ kept }) => kept),
    unrecorded: own.filter(({ sold }) => sold === undefined).map(({ batch }) => batch),
    findings,
  }
}

/** Batches that are, by the records, in themselves. */
const ringsIn = ({ back }: TraceLinks, { batches }: Trace): string[] =>
  batches
    .map(({ name }) => name)
    .filter((name) => {
      const used = back.get(`batch:${name}`) ?? []
      return used.some((lot) => reach(back, lot).batches.some((one) => one.name === name))
    })
