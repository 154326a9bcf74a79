/** What a bar of each batch costs: of one that was made by its lots, of one to come by the lots and packs that it takes. */
import type { Content } from '../schema/content.ts'
import { type BarCost, barCost, type CostLine, type MaterialUsed } from '../supply/bar-cost.ts'
import { materialsOfBatch } from '../supply/ledger.ts'
import { MARKED } from './batch-plan.ts'
import type { BoundBatch } from './bind-batch.ts'
import type { BoundCure } from './bind-calendar.ts'
import type { BoundShopping } from './bind-shopping.ts'
import type { BoundStock } from './bind-stock.ts'
import { isToBeMade } from './stock-needs.ts'

const GROUPS = ['fats', 'other', 'packaging', 'labour'] as const

export type CostGroupKey = (typeof GROUPS)[number]

export interface CostGroup {
  readonly key: CostGroupKey
  readonly lines: readonly CostLine[]
  /** of a sold bar, in the smallest coin: the sum of its lines */
  readonly bar: number
  /** of the cost [–] */
  readonly share: number
}

export interface BoundCost {
  readonly batch: BoundBatch
  /** it was made: by what was written down; else by the plan */
  readonly isMade: boolean
  /** undefined when no bar of it is sold */
  readonly cost: BarCost | undefined
  /** its lines by what they are for, those without any left out */
  readonly groups: readonly CostGroup[]
  /** materials of which nobody wrote down a price, and that are not in the cost, by their keys */
  readonly unpriced: readonly string[]
}

/** s */
const HOUR = 3600

/**
 * Costs of all batches that are not stopped, in the order of their days.
 *
 * Of planned ones the marked bars are never sold and none is rejected; what stays in the pot and is trimmed is the plan's.
 * @returns none where the shop names no currency: then nothing has a price
 */
export const bindCosts = (
  content: Content,
  batches: readonly BoundBatch[],
  cures: readonly BoundCure[],
  stock: BoundStock,
  shopping: BoundShopping | undefined,
): readonly BoundCost[] => {
  if (content.shop.value.currency === undefined) return []
  const { labour } = content.shop.value
  return batches
    .filter(({ state }) => state !== 'stop')
    .map((batch): BoundCost => {
      const isMade = !isToBeMade(batch)
      const used = !isMade ? plannedUse(batch.key, stock, shopping) : writtenUse(batch.key, stock)
      const isCounted = ({ name }: MaterialUsed): boolean => stock.materials.get(name)?.counted === true
      const bars = barsOf(batch)
      const sold = bars.cut - bars.tests - bars.rejected
      const cost = barCost({
        materials: used.materials.filter((one) => !isCounted(one)),
        packaging: used.materials
          .filter(isCounted)
          .map((one) => ({ ...one, used: sold > 0 ? one.used / sold : 0 })),
        labour: labour && {
          hours: labour['each-batch'] / HOUR,
          perHour: labour['hourly-rate'].minor,
        },
        bars,
        batter: batterOf(batch, cures),
      })
      return {
        batch,
        isMade,
        cost,
        groups: groupsOf(content, cost?.lines ?? []),
        unpriced: used.unpriced,
      }
    })
}

const groupsOf = ({ fats, premixes }: Content, lines: readonly CostLine[]): CostGroup[] => {
  const groupOf = ({ kind, name }: CostLine): CostGroupKey => {
    if (kind !== 'material') return kind
    return fats.has(name) || premixes.has(name) ? 'fats' : 'other'
  }
  return GROUPS.flatMap((key): CostGroup[] => {
    const own = lines.filter((line) => groupOf(line) === key)
    if (own.length === 0) return []
    const sum = (of: (line: CostLine) => number): number => own.reduce((all, line) => all + of(line), 0)
    return [{ key, lines: own, bar: sum(({ bar }) => bar), share: sum(({ share }) => share) }]
  })
}

interface Use {
  readonly materials: readonly MaterialUsed[]
  /** keys of materials */
  readonly unpriced: readonly string[]
}

const writtenUse = (batch: string, { entries, lots }: BoundStock): Use => {
  const { materials, unpriced } = materialsOfBatch(entries, batch)
  const names = unpriced.flatMap((lot) => lots.get(lot)?.material ?? [])
  return { materials, unpriced: [...new Set(names)] }
}

/** Each pick by the price of its lot, the rest by the packs that are bought for it. */
const plannedUse = (
  batch: string,
  { proposal, lots, needs }: BoundStock,
  shopping: BoundShopping | undefined,
): Use => {
  const materials: MaterialUsed[] = []
  const unpriced = new Set<string>()
  for (const { material, lot, amount } of proposal.picks.filter((pick) => pick.batch === batch)) {
    const from = lots.get(lot)
    if (from?.price === undefined || from.bought <= 0) unpriced.add(material)
    else materials.push({ name: material, used: amount, price: from.price, priceFor: from.bought })
  }
  const lines = (shopping?.suppliers ?? []).flatMap((supplier) => supplier.lines)
  for (const { material, lot, amount } of (shopping?.choice.uses ?? []).filter(
    (use) => use.batch === batch,
  )) {
    const line = lines.find(({ offer }) => offer === lot)
    if (line) materials.push({ name: material, used: amount, price: line.price, priceFor: line.each })
    else unpriced.add(material)
  }
  for (const { material } of needs.filter((need) => need.batch === batch))
    if (!materials.some(({ name }) => name === material)) unpriced.add(material)
  for (const { material } of (shopping?.choice.shortages ?? []).filter((one) => one.batch === batch))
    unpriced.add(material)
  return { materials, unpriced: [...unpriced] }
}

/** What is copied from paper comes first; what is missing of it is the plan's. */
const barsOf = ({ file, fill }: BoundBatch) => {
  const bars = file.value.made?.bars
  return bars
    ? { cut: bars.cut, tests: bars.tests ?? 0, rejected: bars.rejected ?? 0 }
    : { cut: fill.bars, tests: Math.min(MARKED, fill.bars), rejected: 0 }
}

const batterOf = (batch: BoundBatch, cures: readonly BoundCure[]) => {
  const { fill, file } = batch
  const { made } = file.value
  const bar = cures.find((cure) => cure.batch === batch)?.barMass
  const inBars = bar === undefined ? fill.pouredMass : Math.min(fill.pouredMass, bar * fill.bars)
  const residue = made?.['left-in-pot'] ?? fill.batterMass - fill.pouredMass
  const trim = made?.trimmed ?? fill.pouredMass - inBars
  // what was written down cannot be more than was mixed; the rest went into bars
  return {
    mixed: fill.batterMass,
    residue: Math.min(residue, fill.batterMass / 2),
    trim: Math.min(trim, fill.batterMass / 2),
  }
}
