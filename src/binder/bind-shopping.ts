/** What must be bought for all batches to come, in which packs, at the least cost, and by when it is ordered. */
import type { Content } from '../schema/content.ts'
import type { Placed } from '../schema/placed.ts'
import type { PackEntry } from '../schema/supply.ts'
import { amountOf } from '../schema/supply.ts'
import { grains, ofGrains } from '../supply/amounts.ts'
import { choosePacks, type PackChoice, type PackOffer } from '../supply/pack-choice.ts'
import type { Solve } from '../supply/programme.ts'
import { dateOf, dayNumber } from '../units/civil-day.ts'
import type { BoundStock } from './bind-stock.ts'
import { type PlacedFinding, placeAt } from './finding-places.ts'

/** One kind of pack that is bought. */
export interface ShoppingLine {
  readonly offer: string
  readonly material: string
  readonly packs: number
  /** in one pack, and in all of them [kg or pieces] */
  readonly each: number
  readonly bought: number
  /** that batches take of it [kg or pieces] */
  readonly needed: number
  /** packs that are sold at least */
  readonly least: number
  /** of what is bought, what no batch takes [kg or pieces] */
  readonly over: number
  /** of one pack, and of all, in the smallest coin */
  readonly price: number
  readonly cost: number
  /** batches that take some of it, in the order of their days */
  readonly batches: readonly string[]
}

export interface SupplierOrder {
  readonly key: string
  readonly name: string
  readonly lines: readonly ShoppingLine[]
  /** charge for the delivery, in the smallest coin; nothing where there is none */
  readonly delivery: number | undefined
  readonly cost: number
  /** ordered on this day at the latest, so that what is wanted first is there in time */
  readonly orderBy: string
  /** the day on which something of it is wanted first */
  readonly neededOn: string
}

export interface BoundShopping {
  readonly currency: string | undefined
  readonly choice: PackChoice
  /** those to be written to first, first */
  readonly suppliers: readonly SupplierOrder[]
  readonly findings: readonly PlacedFinding[]
}

const DAY = 86_400

/** Whether there is a list at all: a folder that names neither packs nor stock asks for none. */
export const isShoppingAsked = ({ packs, ledgers }: Content): boolean => packs.size > 0 || ledgers.size > 0

/**
 * The shopping list.
 *
 * @param solve solver of integer programmes, where the caller has loaded it
 * @returns nothing where the folder names neither packs nor stock: nobody asked
 */
export const bindShopping = (
  content: Content,
  stock: BoundStock,
  solve: Solve | undefined,
): BoundShopping | undefined => {
  if (!solve || !isShoppingAsked(content)) return undefined
  const today = dayNumber(stock.date)
  const offers = [...content.packs.values()].map((pack) => offerOf(content, pack, today))
  const needs = stock.proposal.shortages.map(({ batch, material, day, short }) => ({
    batch,
    material,
    day,
    amount: short,
  }))
  const charges = new Map(
    [...content.suppliers.values()].flatMap(({ key, value }) =>
      value.delivery ? [[key, value.delivery.minor] as const] : [],
    ),
  )
  const choice = choosePacks({ offers, needs, deliveries: charges }, solve)
  return {
    currency: content.shop.value.currency,
    choice,
    suppliers: suppliersOf(content, choice, today),
    findings: choice.findings.map((finding) => ({ ...finding, place: placeOf(content, finding.values) })),
  }
}

const leadDays = (content: Content, { value }: Placed<PackEntry>): number =>
  Math.ceil((value['lead-time'] ?? content.suppliers.get(value.supplier)?.value['lead-time'] ?? 0) / DAY)

const offerOf = (content: Content, pack: Placed<PackEntry>, today: number): PackOffer => {
  const { value, key } = pack
  const arrives = today + leadDays(content, pack)
  return {
    offer: key,
    supplier: value.supplier,
    material: value.material,
    amount: amountOf(value),
    price: value.price?.minor,
    least: value['at-least'],
    available: value.available,
    arrives,
    lastDay: value.keeps === undefined ? undefined : arrives + Math.floor(value.keeps / DAY),
  }
}

const suppliersOf = (content: Content, choice: PackChoice, today: number): readonly SupplierOrder[] => {
  const lines = choice.orders.flatMap(({ offer, packs, cost }) => {
    const pack = content.packs.get(offer)
    if (!pack) return []
    const uses = choice.uses.filter(({ lot }) => lot === offer)
    const { supplier, material } = pack.value
    const each = amountOf(pack.value)
    const bought = ofGrains(grains(each) * packs)
    const line: ShoppingLine = {
      offer,
      material,
      packs,
      each,
      bought,
      needed: ofGrains(uses.reduce((sum, { amount }) => sum + grains(amount), 0)),
      least: pack.value['at-least'] ?? 1,
      over: choice.left.get(offer) ?? 0,
      price: pack.value.price?.minor ?? 0,
      cost,
      batches: [...new Set([...uses].sort((a, b) => a.day - b.day).map(({ batch }) => batch))],
    }
    const first = Math.min(...uses.map(({ day }) => day))
    return [{ supplier, line, first, orderBy: Math.max(today, first - leadDays(content, pack)) }]
  })
  return [...new Set(lines.map(({ supplier }) => supplier))]
    .map((key) => {
      const own = lines.filter(({ supplier }) => supplier === key)
      const delivery = choice.deliveries.find(({ supplier }) => supplier === key)?.cost
      return {
        key,
        name: content.suppliers.get(key)?.value.name ?? key,
        lines: own.map(({ line }) => line),
        delivery,
        cost: own.reduce((sum, { line }) => sum + line.cost, delivery ?? 0),
        orderBy: dateOf(Math.min(...own.map(({ orderBy }) => orderBy))),
        neededOn: dateOf(Math.min(...own.map(({ first }) => first))),
      }
    })
    .sort((a, b) => (a.orderBy + a.key < b.orderBy + b.key ? -1 : 1))
}

const placeOf = (content: Content, { offer, batch }: PlacedFinding['values']): PlacedFinding['place'] => {
  const pack = content.packs.get(String(offer ?? ''))
  const file = content.batches.get(String(batch ?? ''))
  if (pack) return placeAt(pack.document, `${pack.path}/material`)
  return file && placeAt(file.document, '/date')
}
