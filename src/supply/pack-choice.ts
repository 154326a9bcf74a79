/** Which packs to buy so that every batch has what it wants, at the least cost. */
import type { Finding } from '../findings.ts'
import { byName } from './amounts.ts'
import { type BatchNeed, type LotOnHand, type Pick, proposeLots, type Shortage } from './first-expired.ts'
import { type Answer, type Programme, programmeText, type Row, type Solve, type Term } from './programme.ts'

/** What a supplier sells. */
export interface PackOffer {
  /** differs from every other */
  readonly offer: string
  readonly supplier: string
  readonly material: string
  /** in one pack [kg or pieces] */
  readonly amount: number
  /** of one pack, in the smallest coin; an offer without a price is never bought */
  readonly price: number | undefined
  /** packs that are bought at least, if any; one where it is missing */
  readonly least?: number | undefined
  /** packs that there are; as many as anybody wants where it is missing */
  readonly available?: number | undefined
  /** the day on which it can be in the shop, since 1970-01-01 */
  readonly arrives: number
  /** the last day on which it may be used, since 1970-01-01; undefined when it keeps */
  readonly lastDay?: number | undefined
}

export interface Shopping {
  readonly offers: readonly PackOffer[]
  /** of all batches, stock on hand taken off [kg or pieces] */
  readonly needs: readonly BatchNeed[]
  /** charge for one delivery by supplier, in the smallest coin; none where it is missing */
  readonly deliveries?: ReadonlyMap<string, number> | undefined
}

export interface Order {
  readonly offer: string
  readonly packs: number
  /** in the smallest coin */
  readonly cost: number
}

export interface PackChoice {
  /** in the order of the offers */
  readonly orders: readonly Order[]
  /** suppliers that charge for the delivery, in the smallest coin */
  readonly deliveries: readonly { readonly supplier: string; readonly cost: number }[]
  /** of all, in the smallest coin */
  readonly cost: number
  /** nothing costs less than this, as the solver proved: the cost itself, but for its last digits */
  readonly bound: number
  /** cost is the least there is, and every need is met that can be */
  readonly proved: boolean
  /** which packs each batch takes; lots are named by their offers */
  readonly uses: readonly Pick[]
  /** what is left of what was bought, by offer [kg or pieces] */
  readonly left: ReadonlyMap<string, number>
  /** what no offer covers in time */
  readonly shortages: readonly Shortage[]
  readonly findings: readonly Finding[]
}

/** kg or pieces; needs are rounded up to it and packs down: a tenth of a gram, which no scale of a shop shows for fats */
const STEP = 1e-4
const PER_STEP = 10_000
/** what a sum of doubles may be off, in steps */
const HAIR = 1e-5
/** in the smallest coin; costs are whole, so what is proved to within less than one is proved */
const WHOLE = 0.5

const up = (amount: number): number => Math.ceil(amount / STEP - HAIR) / PER_STEP
const down = (amount: number): number => Math.floor(amount / STEP + HAIR) / PER_STEP

interface Buyable extends PackOffer {
  readonly price: number
  readonly least: number
  /** more of it is never needed */
  readonly most: number
}

/**
 * Packs to buy at the least cost.
 *
 *     minimize Σ price · packs + Σ charge · delivery
 *     each need: Σ taken from offers that are there by its day and not expired = need
 *     each offer: taken ≤ amount · packs;   packs = 0 or least ≤ packs ≤ available
 *
 * Among choices of the same cost one with the fewest packs. Validity: amounts up to 1e5, prices whole and 0 or more. What no offer
 * covers in time is told as short first and the rest is bought. The answer is reckoned again in whole coins and its packs
 * are handed out to the batches, before it is believed.
 * @param shopping offers, needs and charges
 * @param solve    solver of programmes
 * @returns packs, what each batch takes of them, and what is short
 * @source common practice, dantzig1957
 */
export function choosePacks({ offers, needs, deliveries = new Map() }: Shopping, solve: Solve): PackChoice {
  const findings: Finding[] = []
  const wanted = together(needs)
  const buyable = offers.flatMap((one) => buyableOf(one, wanted, findings))
  // first what all offers together could cover, so that the programme always has an answer
  const all = proposeLots(
    buyable.map((one) => lotOf(one, one.most)),
    wanted,
  )
  for (const { batch, material, day, short } of all.shortages)
    findings.push({
      code: 'packs-not-enough',
      severity: 'warn',
      values: { batch, material, day, short },
    })
  const covered = wanted.map((need) => {
    const missing = all.shortages.find(
      ({ batch, material, day }) => batch === need.batch && material === need.material && day === need.day,
    )
    return missing ? { ...need, amount: up(need.amount - missing.short) } : need
  })
  const open = covered.filter(({ amount }) => amount > 0)
  const none = { orders: [], deliveries: [], uses: [], left: new Map<string, number>() }
  if (open.length === 0)
    return { ...none, cost: 0, bound: 0, proved: true, shortages: all.shortages, findings }

  const programme = programmeOf(buyable, alike(buyable, open), deliveries)
  const cheapest = solve(programmeText(programme))
  const first = judge(cheapest, buyable, open, deliveries)
  if (!first) {
    findings.push({ code: 'packs-not-chosen', severity: 'warn', values: { offers: buyable.length } })
    return { ...none, cost: 0, bound: 0, proved: false, shortages: all.shortages, findings }
  }
  const fewest = judge(
    solve(programmeText(fewestPacks(programme, buyable, first.cost))),
    buyable,
    open,
    deliveries,
  )
  const best = fewest && fewest.cost === first.cost ? fewest : first
  const proved = cheapest.optimal && cheapest.bound > best.cost - WHOLE
  if (!proved)
    findings.push({
      code: 'packs-not-proved',
      severity: 'warn',
      values: { cost: best.cost, bound: cheapest.bound },
    })
  return { ...best, bound: cheapest.bound, proved, shortages: all.shortages, findings }
}

/** Each material of a batch on a day once, rounded up. */
const together = (needs: readonly BatchNeed[]): BatchNeed[] => {
  const sums = new Map<string, BatchNeed>()
  for (const need of needs) {
    const key = JSON.stringify([need.batch, need.material, need.day])
    sums.set(key, { ...need, amount: need.amount + (sums.get(key)?.amount ?? 0) })
  }
  return [...sums.values()]
    .map((need) => ({ ...need, amount: up(need.amount) }))
    .filter(({ amount }) => amount > 0)
}

const buyableOf = (one: PackOffer, needs: readonly BatchNeed[], findings: Finding[]): Buyable[] => {
  const { offer, material, price, least = 1 } = one
  const amount = down(one.amount)
  const inTime = needs.filter(
    (need) =>
      need.material === material &&
      need.day >= one.arrives &&
      (one.lastDay === undefined || need.day <= one.lastDay),
  )
  if (inTime.length === 0 || amount <= 0) return []
  if (price === undefined) {
    findings.push({ code: 'pack-without-price', severity: 'warn', values: { offer, material } })
    return []
  }
  const wanted = inTime.reduce((sum, need) => sum + need.amount, 0)
  const enough = Math.max(least, Math.ceil(wanted / amount - HAIR))
  const most = Math.min(one.available ?? enough, enough)
  return most < least ? [] : [{ ...one, amount, price, least, most }]
}

const lotOf = ({ offer, material, amount, arrives, lastDay }: Buyable, packs: number): LotOnHand => ({
  lot: offer,
  material,
  left: amount * packs,
  received: arrives,
  expiry: lastDay,
})

const serves = (offer: Buyable, need: BatchNeed): boolean =>
  offer.material === need.material &&
  offer.arrives <= need.day &&
  (offer.lastDay === undefined || need.day <= offer.lastDay)

/** Needs that the same offers serve are one need to the programme, which is several times as fast with them. */
const alike = (offers: readonly Buyable[], needs: readonly BatchNeed[]): BatchNeed[] => {
  const groups = new Map<string, BatchNeed>()
  for (const need of needs) {
    const key = offers.flatMap((offer, index) => (serves(offer, need) ? [index] : [])).join()
    const sum = need.amount + (groups.get(key)?.amount ?? 0)
    groups.set(key, { ...need, amount: Math.round(sum * PER_STEP) / PER_STEP })
  }
  return [...groups.values()]
}

const packs = (offer: number): string => `x${offer}`

const programmeOf = (
  offers: readonly Buyable[],
  needs: readonly BatchNeed[],
  charges: ReadonlyMap<string, number>,
): Programme => {
  const charged = chargedOf(offers, charges)
  const delivery = (supplier: string): string => `w${charged.indexOf(supplier)}`
  const taken = offers.map((offer, i) =>
    needs.flatMap((need, j) => (serves(offer, need) ? [{ need: j, name: `y${i}n${j}` }] : [])),
  )
  const met = needs.map((need, j): Row => {
    const terms = taken.flatMap((of) => of.flatMap((one): Term[] => (one.need === j ? [[1, one.name]] : [])))
    return { terms, is: '>=', than: need.amount }
  })
  const rows = offers.flatMap(({ amount, least, most, supplier }, i): Row[] => {
    const some = `z${i}`
    return [
      {
        terms: [...(taken[i] ?? []).map(({ name }): Term => [1, name]), [-amount, packs(i)]],
        is: '<=',
        than: 0,
      },
      ...(least > 1
        ? ([
            {
              terms: [
                [1, packs(i)],
                [-least, some],
              ],
              is: '>=',
              than: 0,
            },
            {
              terms: [
                [1, packs(i)],
                [-most, some],
              ],
              is: '<=',
              than: 0,
            },
          ] satisfies Row[])
        : []),
      ...(charged.includes(supplier)
        ? ([
            {
              terms: [
                [1, packs(i)],
                [-most, delivery(supplier)],
              ],
              is: '<=',
              than: 0,
            },
          ] satisfies Row[])
        : []),
    ]
  })
  return {
    objective: [
      ...offers.map(({ price }, i): Term => [price, packs(i)]),
      ...charged.map((supplier): Term => [charges.get(supplier) ?? 0, delivery(supplier)]),
    ],
    rows: [...met, ...rows],
    variables: [
      ...offers.map(({ most }, i) => ({ name: packs(i), from: 0, to: most, whole: true })),
      ...offers.flatMap(({ least }, i) =>
        least > 1 ? [{ name: `z${i}`, from: 0, to: 1, whole: true }] : [],
      ),
      ...charged.map((supplier) => ({ name: delivery(supplier), from: 0, to: 1, whole: true })),
      ...taken.flat().map(({ name }) => ({ name, from: 0, whole: false })),
    ],
  }
}

const fewestPacks = (programme: Programme, offers: readonly Buyable[], cost: number): Programme => ({
  ...programme,
  objective: offers.map((_, i): Term => [1, packs(i)]),
  rows: [...programme.rows, { terms: programme.objective, is: '<=', than: cost }],
})

/** Suppliers that are worth a variable of their own. */
const chargedOf = (offers: readonly Buyable[], charges: ReadonlyMap<string, number>): string[] =>
  [...new Set(offers.map(({ supplier }) => supplier))]
    .filter((supplier) => (charges.get(supplier) ?? 0) > 0)
    .sort(byName)

/** The answer in whole packs and coins; undefined where its packs do not meet all needs or break an offer's limits. */
const judge = (
  { values }: Answer,
  offers: readonly Buyable[],
  needs: readonly BatchNeed[],
  charges: ReadonlyMap<string, number>,
): Judged | undefined => {
  const bought = offers.map((offer, i) => ({ offer, count: Math.round(values.get(packs(i)) ?? 0) }))
  if (bought.some(({ offer, count }) => count !== 0 && (count < offer.least || count > offer.most)))
    return undefined
  const ordered = bought.filter(({ count }) => count > 0)
  const handed = proposeLots(
    ordered.map(({ offer, count }) => lotOf(offer, count)),
    needs,
  )
  if (handed.shortages.length > 0) return undefined
  const orders = ordered.map(({ offer: { offer, price }, count }) => ({
    offer,
    packs: count,
    cost: price * count,
  }))
  const deliveries = chargedOf(
    ordered.map(({ offer }) => offer),
    charges,
  ).map((supplier) => ({ supplier, cost: charges.get(supplier) ?? 0 }))
  const cost = [...orders, ...deliveries].reduce((sum, one) => sum + one.cost, 0)
  return { orders, deliveries, cost, uses: handed.picks, left: handed.left }
}

type Judged = Omit<PackChoice, 'bound' | 'proved' | 'shortages' | 'findings'>
