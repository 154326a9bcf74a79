/** Everything that was written down of stock, wherever it stands, as one list of entries with their places. */
import type { Content } from '../schema/content.ts'
import type { Placed } from '../schema/placed.ts'
import { amountOf } from '../schema/supply.ts'
import { grains, ofGrains } from '../supply/amounts.ts'
import type { Entry } from '../supply/ledger.ts'
import { dayNumber } from '../units/civil-day.ts'

export interface EntryPlace {
  readonly document: Placed<unknown>['document']
  /** JSON pointer of the lot's name */
  readonly path: string
}

export interface StockEntries {
  readonly entries: readonly Entry[]
  /** of the entry with the same index */
  readonly places: readonly EntryPlace[]
  /** what was bought, by lot: who sold it */
  readonly sellers: ReadonlyMap<string, string>
  /** lots that the shop made of others, by what stands in the entries as the batch that made them */
  readonly makings: ReadonlyMap<string, string>
}

/** A lot that the shop made of others was made by something of a name that no batch can have, so that a trace goes through it. */
const makingOf = (lot: string): string => `made: ${lot}`

/**
 * Entries of `stock/*.yaml`, then what batches used of lots for bars and their wrapping.
 *
 * A lot that was made of others costs what these cost, water nothing; trim that is kept costs nothing where it is used again.
 */
export const stockEntries = (content: Content): StockEntries => {
  const entries: Entry[] = []
  const places: EntryPlace[] = []
  const sellers = new Map<string, string>()
  const makings = new Map<string, string>()
  const put = (entry: Entry, document: EntryPlace['document'], path: string): void => {
    entries.push(entry)
    places.push({ document, path })
  }
  for (const { value, document, path: file } of content.ledgers.values())
    for (const [index, one] of value.entries.entries()) {
      const path = `${file}/entries/${index}`
      const day = dayNumber(one.date)
      const amount = amountOf(one)
      const { received, made, lost, counted } = one
      const lot = received ?? made
      if (lot !== undefined) {
        const of = one.of ?? []
        for (const [at, part] of of.entries())
          put(
            { kind: 'used', lot: part.lot, day, amount: part.amount, batch: makingOf(lot) },
            document,
            `${path}/of/${at}/lot`,
          )
        put(
          {
            kind: 'received',
            lot,
            day,
            amount,
            material: one.material ?? '',
            price: one.batch === undefined ? one.price?.minor : 0,
            expiry: one['best-before'] === undefined ? undefined : dayNumber(one['best-before']),
            shelfLife: one.keeps === undefined ? undefined : Math.floor(one.keeps / DAY),
            madeBy: made === undefined ? undefined : (one.batch ?? makingOf(made)),
          },
          document,
          `${path}/${received === undefined ? 'made' : 'received'}`,
        )
        if (one.of !== undefined) makings.set(makingOf(lot), lot)
        if (one.from !== undefined) sellers.set(lot, one.from)
      } else if (lost !== undefined) put({ kind: 'lost', lot: lost, day, amount }, document, `${path}/lost`)
      else if (counted !== undefined)
        put({ kind: 'counted', lot: counted, day, amount }, document, `${path}/counted`)
    }
  for (const { key, value, document } of content.batches.values()) {
    const { made, date } = value
    for (const [at, { lot, amount }] of (made?.used ?? []).entries())
      put({ kind: 'used', lot, amount, day: dayNumber(date), batch: key }, document, `/made/used/${at}/lot`)
    const { wrapped } = made ?? {}
    for (const [at, { lot, pieces }] of (wrapped?.packaging ?? []).entries())
      put(
        { kind: 'used', lot, amount: pieces, day: dayNumber(wrapped?.date ?? date), batch: key },
        document,
        `/made/wrapped/packaging/${at}/lot`,
      )
  }
  return { entries: withCosts(entries), places, sellers, makings }
}

const DAY = 86_400

/** Lots made of others get the price of what went into them, in the order of their days; one that is unknown leaves it open. */
const withCosts = (entries: readonly Entry[]): readonly Entry[] => {
  const priced = [...entries]
  const isOpen = (entry: Entry): boolean =>
    entry.kind === 'received' && entry.price === undefined && entry.madeBy !== undefined
  const order = priced
    .map((entry, index) => ({ entry, index }))
    .filter(({ entry }) => isOpen(entry))
    .sort((a, b) => a.entry.day - b.entry.day || a.index - b.index)
  for (const { entry, index } of order) {
    if (entry.kind !== 'received') continue
    const parts = priced.flatMap((one) =>
      one.kind === 'used' && one.batch === entry.madeBy
        ? [{ amount: one.amount, lot: priced.find((lot) => lot.kind === 'received' && lot.lot === one.lot) }]
        : [],
    )
    const costs = parts.map(({ amount, lot }) =>
      lot?.kind === 'received' && lot.price !== undefined && lot.amount > 0
        ? (lot.price * ofGrains(grains(amount))) / lot.amount
        : undefined,
    )
    if (costs.every((cost) => cost !== undefined))
      priced[index] = { ...entry, price: Math.round(costs.reduce((sum, cost) => sum + cost, 0)) }
  }
  return priced
}
