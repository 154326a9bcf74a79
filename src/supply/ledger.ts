/** Stock by lots, from the plain list of what was bought, used, lost and counted. */
import type { Finding } from '../findings.ts'
import { multiply, rational, roundHalfAway } from '../units/rational.ts'
import { byName, grains, ofGrains } from './amounts.ts'
import type { MaterialUsed } from './bar-cost.ts'

/** Days are whole numbers since 1970-01-01; amounts are kg or pieces, whichever the material is counted in. */
interface EntryOfLot {
  readonly day: number
  readonly lot: string
  readonly amount: number
}

/** A lot that comes into the shop, or that a batch leaves behind as stock: trim, a premix, soap to be rebatched. */
export interface Received extends EntryOfLot {
  readonly kind: 'received'
  readonly material: string
  /** of all of it, in the smallest coin; undefined when nobody knows */
  readonly price?: number | undefined
  /** the last day on which it may be used */
  readonly expiry?: number | undefined
  /** days from the day it was received; where both are given, what ends first counts */
  readonly shelfLife?: number | undefined
  /** the batch that made it, where it was not bought */
  readonly madeBy?: string | undefined
}

export interface Used extends EntryOfLot {
  readonly kind: 'used'
  readonly batch: string
}

/** Spilled, spoiled, thrown away. */
export interface Lost extends EntryOfLot {
  readonly kind: 'lost'
}

/** What stock-taking found of a lot, at the end of the day. */
export interface Counted extends EntryOfLot {
  readonly kind: 'counted'
}

export type Entry = Received | Used | Lost | Counted

/** One line of a lot's account. */
export interface Movement {
  /** its place in the list, from 0 */
  readonly entry: number
  readonly kind: Entry['kind']
  readonly day: number
  readonly lot: string
  readonly batch: string | undefined
  /** what came to the lot, or went from it (below 0) [kg or pieces] */
  readonly change: number
  /** what was there afterwards [kg or pieces] */
  readonly left: number
}

/** A lot on the day that was asked for; bought = used + lost + left. */
export interface LotState {
  readonly lot: string
  readonly material: string
  readonly received: number
  /** the last day on which it may be used */
  readonly expiry: number | undefined
  readonly madeBy: string | undefined
  readonly price: number | undefined
  /** kg or pieces, as the next three */
  readonly bought: number
  readonly used: number
  /** what was written down as lost, with what stock-taking missed, less what it found more */
  readonly lost: number
  /** below 0 where more was written down than the lot had */
  readonly left: number
  /** of what is left, in the smallest coin; undefined without a price */
  readonly value: number | undefined
}

export interface Ledger {
  /** on this day, at its end */
  readonly day: number
  /** in the order in which they came */
  readonly lots: readonly LotState[]
  readonly movements: readonly Movement[]
  readonly findings: readonly Finding[]
}

/** Stock of one material. */
export interface StockOfMaterial {
  readonly material: string
  /** kg or pieces that are there, expired or not */
  readonly amount: number
  /** of these, what may still be used on the day */
  readonly usable: number
  /** of lots that have a price, in the smallest coin: the sum of their lines */
  readonly value: number
  /** kg or pieces of lots without a price */
  readonly unpriced: number
}

/** What happens first on a day: a lot is used on the day it comes, and counted in the evening. */
const ORDER: Readonly<Record<Entry['kind'], number>> = { received: 0, used: 1, lost: 1, counted: 2 }

/**
 * Last day on which a lot may be used.
 *
 *     the earlier of the printed day and day received + shelf life
 *
 * @param lot as received
 * @returns day since 1970-01-01, undefined when it keeps
 * @source common practice
 */
export const lastDayOf = ({ day, expiry, shelfLife }: Received): number | undefined => {
  const days = [expiry, shelfLife === undefined ? undefined : day + shelfLife].filter(
    (one) => one !== undefined,
  )
  return days.length === 0 ? undefined : Math.min(...days)
}

interface Account {
  readonly entry: Received
  readonly bought: number
  used: number
  lost: number
}

/**
 * Accounts of all lots at the end of a day.
 *
 *     left = bought − used − lost;   counted: lost grows by what should be there less what is
 *     value = price · left / bought, rounded once, halves away from 0
 *
 * Validity: amounts 0 or more, kept to 1e-6; entries in any order, taken by day: received first, counted last. Entries after the day
 * are not looked at.
 * @param entries as written down, amounts in kg or pieces
 * @param day     since 1970-01-01, at its end
 * @returns lots, every movement, and what cannot be as it is written
 * @source common practice
 */
export function ledgerOn(entries: readonly Entry[], day: number): Ledger {
  const findings: Finding[] = []
  const movements: Movement[] = []
  const accounts = new Map<string, Account>()
  const inOrder = entries
    .map((entry, index) => ({ entry, index }))
    .filter(({ entry }) => entry.day <= day)
    .sort(
      (a, b) => a.entry.day - b.entry.day || ORDER[a.entry.kind] - ORDER[b.entry.kind] || a.index - b.index,
    )
  // a lot is looked up in all of the list, so that use before its arrival is not taken for an unknown lot
  const arrivals = new Map<string, Received>()
  for (const entry of entries)
    if (entry.kind === 'received' && !arrivals.has(entry.lot)) arrivals.set(entry.lot, entry)
  const early: { readonly entry: Used | Lost; readonly index: number }[] = []

  const leftOf = ({ bought, used, lost }: Account): number => bought - used - lost
  const move = (entry: Entry, index: number, change: number, account: Account): void => {
    movements.push({
      entry: index,
      kind: entry.kind,
      day: entry.day,
      lot: entry.lot,
      batch: entry.kind === 'used' ? entry.batch : undefined,
      change: ofGrains(change),
      left: ofGrains(leftOf(account)),
    })
  }
  const take = (entry: Used | Lost, index: number, account: Account): void => {
    const amount = grains(entry.amount)
    const before = leftOf(account)
    if (amount > before)
      findings.push({
        code: 'lot-overdrawn',
        severity: 'warn',
        values: {
          entry: index,
          lot: entry.lot,
          material: account.entry.material,
          taken: entry.amount,
          left: ofGrains(Math.max(0, before)),
          excess: ofGrains(amount - Math.max(0, before)),
        },
      })
    if (entry.kind === 'used') account.used += amount
    else account.lost += amount
    move(entry, index, -amount, account)
  }

  for (const { entry, index } of inOrder) {
    const { lot } = entry
    const account = accounts.get(lot)
    if (entry.kind === 'received') {
      if (account) {
        findings.push({
          code: 'lot-received-twice',
          severity: 'stop',
          values: { entry: index, lot, first: account.entry.day },
        })
        continue
      }
      const opened: Account = { entry, bought: grains(entry.amount), used: 0, lost: 0 }
      accounts.set(lot, opened)
      move(entry, index, opened.bought, opened)
      const held = early.filter((one) => one.entry.lot === lot)
      for (const one of held) take(one.entry, one.index, opened)
      continue
    }
    const arrival = arrivals.get(lot)
    if (!arrival) {
      findings.push({
        code: 'lot-unknown',
        severity: 'stop',
        values: { entry: index, lot, amount: entry.amount },
      })
      continue
    }
    if (!account) {
      findings.push({
        code: 'lot-before-received',
        severity: 'stop',
        values: { entry: index, lot, day: entry.day, received: arrival.day },
      })
      // what was taken is gone all the same; a count of what is not there yet says nothing
      if (entry.kind !== 'counted') early.push({ entry, index })
      continue
    }
    if (entry.kind === 'counted') {
      const missing = leftOf(account) - grains(entry.amount)
      account.lost += missing
      move(entry, index, missing === 0 ? 0 : -missing, account)
      continue
    }
    const last = lastDayOf(account.entry)
    if (entry.kind === 'used' && last !== undefined && entry.day > last)
      findings.push({
        code: 'lot-used-expired',
        severity: 'hold',
        values: {
          entry: index,
          lot,
          material: account.entry.material,
          batch: entry.batch,
          day: entry.day,
          expiry: last,
        },
      })
    take(entry, index, account)
  }

  const lots = [...accounts.values()].map((account): LotState => {
    const { entry, bought, used, lost } = account
    const left = leftOf(account)
    return {
      lot: entry.lot,
      material: entry.material,
      received: entry.day,
      expiry: lastDayOf(entry),
      madeBy: entry.madeBy,
      price: entry.price,
      bought: ofGrains(bought),
      used: ofGrains(used),
      lost: ofGrains(lost),
      left: ofGrains(left),
      value: entry.price === undefined ? undefined : worthOf(entry.price, left, bought),
    }
  })
  return { day, lots, movements, findings }
}

/** Less than nothing is worth nothing, and so is a lot that came without anything in it. */
const worthOf = (price: number, left: number, bought: number): number =>
  left <= 0 || bought <= 0
    ? 0
    : Number(roundHalfAway(multiply(rational(BigInt(price)), rational(BigInt(left), BigInt(bought)))))

/**
 * Stock of each material.
 *
 *     amount = Σ left;   value = Σ of the lots' values as rounded, so that the page adds up
 *
 * Validity: lots that are overdrawn count as empty: what they lack was taken from none of the others.
 * @param ledger on a day
 * @returns materials by name
 * @source common practice
 */
export function stockOf({ lots, day }: Ledger): StockOfMaterial[] {
  const materials = [...new Set(lots.map(({ material }) => material))].sort(byName)
  return materials.map((material) => {
    const own = lots.filter((one) => one.material === material && one.left > 0)
    const sum = (of: readonly LotState[]): number =>
      ofGrains(of.reduce((total, { left }) => total + grains(left), 0))
    return {
      material,
      amount: sum(own),
      usable: sum(own.filter(({ expiry }) => expiry === undefined || expiry >= day)),
      value: own.reduce((total, { value }) => total + (value ?? 0), 0),
      unpriced: sum(own.filter(({ price }) => price === undefined)),
    }
  })
}

/**
 * What a batch's materials cost by the lots that they came from: as `barCost` takes them.
 *
 *     each entry: price of the lot · used / bought
 *
 * Validity: lots without a price cost nothing and are named.
 * @param entries as written down, amounts in kg or pieces
 * @param batch   whose materials are asked for
 * @returns one line for each entry, prices in the smallest coin, and lots without a price
 * @source common practice
 */
export function materialsOfBatch(
  entries: readonly Entry[],
  batch: string,
): { readonly materials: readonly MaterialUsed[]; readonly unpriced: readonly string[] } {
  const materials: MaterialUsed[] = []
  const unpriced = new Set<string>()
  for (const entry of entries) {
    if (entry.kind !== 'used' || entry.batch !== batch) continue
    const lot = entries.find((one): one is Received => one.kind === 'received' && one.lot === entry.lot)
    if (lot?.price === undefined || lot.amount <= 0) unpriced.add(entry.lot)
    else materials.push({ name: lot.material, used: entry.amount, price: lot.price, priceFor: lot.amount })
  }
  return { materials, unpriced: [...unpriced].sort(byName) }
}
