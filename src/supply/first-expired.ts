/** Which lots a batch takes: what expires first goes first, and nothing that will have expired. */
import type { Finding } from '../findings.ts'
import { byName, grains, ofGrains } from './amounts.ts'

/** What is there of a lot. */
export interface LotOnHand {
  readonly lot: string
  readonly material: string
  /** kg or pieces; below 0 counts as nothing */
  readonly left: number
  /** day since 1970-01-01 */
  readonly received: number
  /** the last day on which it may be used; undefined when it keeps */
  readonly expiry: number | undefined
}

/** What a batch of the plan wants of a material. */
export interface BatchNeed {
  readonly batch: string
  readonly material: string
  /** on which it is weighed out, since 1970-01-01 */
  readonly day: number
  /** kg or pieces */
  readonly amount: number
  /** the one lot that will do: the amount was reckoned with what its certificate says */
  readonly only?: string
}

export interface Pick {
  readonly batch: string
  readonly material: string
  readonly day: number
  readonly lot: string
  /** kg or pieces */
  readonly amount: number
}

export interface Shortage {
  readonly batch: string
  readonly material: string
  readonly day: number
  /** kg or pieces that nothing covers */
  readonly short: number
  /** of these, what lots would cover that will have expired by then */
  readonly expired: number
  /** the last day on which these might be used; undefined where there are none */
  readonly until: number | undefined
}

export interface Proposal {
  /** in the order of the batches, and of each in the order in which lots are opened */
  readonly picks: readonly Pick[]
  readonly shortages: readonly Shortage[]
  /** what no batch takes [kg or pieces], by lot, in the order of the list */
  readonly left: ReadonlyMap<string, number>
  readonly findings: readonly Finding[]
}

/**
 * Order in which lots are opened.
 *
 * Formula: by last day of use, lots that keep after all others; the same day: what came first, then by name.
 * @param a a lot
 * @param b another
 * @returns below 0 when the first is opened first
 * @source first-expired-first-out
 */
export const firstExpired = (a: LotOnHand, b: LotOnHand): number =>
  lastDay(a) - lastDay(b) || a.received - b.received || byName(a.lot, b.lot)

/** A number that sorts: no day is later. */
const lastDay = ({ expiry }: LotOnHand): number => expiry ?? Number.MAX_SAFE_INTEGER

/**
 * Lots for every need of the plan.
 *
 *     of the lots with received ≤ day ≤ last day, or of the one lot that will do: the first that expires, until the need is met; what is taken is reserved
 *
 * An earlier day takes first, of one day what stands first in the list: so as much as can be is met in all. Validity: lots
 * differ in name; amounts 0 or more, kept to 1e-6.
 * @param lots  on hand [kg or pieces]
 * @param needs of all batches, in any order [kg or pieces]
 * @returns what to take, what is short, what is left over
 * @source first-expired-first-out
 */
export function proposeLots(lots: readonly LotOnHand[], needs: readonly BatchNeed[]): Proposal {
  const rest = new Map(lots.map(({ lot, left }) => [lot, Math.max(0, grains(left))]))
  const picks: Pick[] = []
  const shortages: Shortage[] = []
  const findings: Finding[] = []
  const opened = [...lots].sort(firstExpired)
  const inOrder = needs
    .map((need, index) => ({ need, index }))
    .sort((a, b) => a.need.day - b.need.day || a.index - b.index)
  for (const { need } of inOrder) {
    const { batch, material, day, only } = need
    let open = grains(need.amount)
    let expired = 0
    let until: number | undefined
    for (const one of opened) {
      const there = rest.get(one.lot) ?? 0
      if (one.material !== material || there <= 0 || one.received > day) continue
      if (only !== undefined && one.lot !== only) continue
      if (lastDay(one) < day) {
        expired += there
        until = Math.max(until ?? lastDay(one), lastDay(one))
        continue
      }
      if (open <= 0) break
      const amount = Math.min(open, there)
      open -= amount
      rest.set(one.lot, there - amount)
      picks.push({ batch, material, day, lot: one.lot, amount: ofGrains(amount) })
    }
    if (open <= 0) continue
    const shortage = { short: ofGrains(open), expired: ofGrains(Math.min(open, expired)), until }
    shortages.push({ batch, material, day, ...shortage })
    // nothing that ends too early: then the day itself stands for it
    findings.push({
      code: shortage.expired === shortage.short ? 'stock-only-expired' : 'stock-short',
      severity: 'warn',
      values: {
        batch,
        material,
        day,
        short: shortage.short,
        expired: shortage.expired,
        until: until ?? day,
      },
    })
  }
  const left = new Map(lots.map(({ lot }) => [lot, ofGrains(rest.get(lot) ?? 0)]))
  return { picks, shortages, left, findings }
}
