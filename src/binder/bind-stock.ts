/** Stock by lots, what the planned batches take of it, and what cannot be as it is written down. */
import type { Diagnostic } from '../diagnostics.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import { type FindingPlace, placeAt } from '../schema/placed.ts'
import { type BatchNeed, firstExpired, type Proposal, proposeLots } from '../supply/first-expired.ts'
import {
  type Entry,
  type Ledger,
  type LotState,
  ledgerOn,
  type StockOfMaterial,
  stockOf,
} from '../supply/ledger.ts'
import { dateOf, dayNumber } from '../units/civil-day.ts'
import { didYouMean } from '../units/spelling.ts'
import type { BoundBatch } from './bind-batch.ts'
import type { BoundCure } from './bind-calendar.ts'
import type { PlacedFinding } from './finding-places.ts'
import { type EntryPlace, type StockEntries, stockEntries } from './stock-entries.ts'
import { isToBeMade, plannedNeeds } from './stock-needs.ts'

/** What is bought, kept and used, by its key. */
export interface StockMaterial {
  readonly name: string
  readonly counted: boolean
}

export interface BoundStock extends StockEntries {
  /** up to which all that is written down was looked at; what is bought is ordered then */
  readonly date: string
  readonly materials: ReadonlyMap<string, StockMaterial>
  readonly ledger: Ledger
  /** every lot by its name */
  readonly lots: ReadonlyMap<string, LotState>
  readonly stock: readonly StockOfMaterial[]
  /** every lot: materials by name, and of each what is opened first, first */
  readonly shelf: readonly LotState[]
  /** of all that has a price, in the smallest coin */
  readonly worth: number
  /** of the batches that are still to be made */
  readonly needs: readonly BatchNeed[]
  readonly proposal: Proposal
  /** what the proposal takes of each lot [kg or pieces] */
  readonly reserved: ReadonlyMap<string, number>
  /** the shop writes down its stock; else nothing is known of it */
  readonly isKept: boolean
  readonly findings: readonly PlacedFinding[]
}

/** Slips that leave no account: a name that nothing has, or two lots of one name. */
const slipOf = ({ code, values }: Finding, lots: readonly string[]): Slip | undefined => {
  const { lot } = values
  const day = (key: string): string => dateOf(Number(values[key]))
  switch (code) {
    case 'lot-unknown': {
      const near = didYouMean(String(lot), lots)
      return {
        code: 'lot-unknown',
        message: `No lot "${lot}" was ever received or made`,
        advice:
          near === undefined
            ? 'Correct its name, or add the line with which it came to a file of the folder "stock".'
            : `Did you mean "${near}"? If not, add the line with which it came to a file of the folder "stock".`,
      }
    }
    case 'lot-received-twice':
      return {
        code: 'lot-received-twice',
        message: `Lot "${lot}" has come already, on ${day('first')}`,
        advice: 'Give each delivery a name of its own, for example with the day behind the lot.',
      }
    case 'lot-before-received':
      return {
        code: 'lot-before-received',
        message: `Lot "${lot}" was taken on ${day('day')}, and came on ${day('received')} only`,
        advice: 'Correct the day that is wrong, or the lot that was taken.',
      }
    default:
      return undefined
  }
}

type Slip = Pick<Diagnostic, 'code' | 'message' | 'advice'>

/**
 * Stock as it is written down, and lots for every batch to come.
 *
 * It stands for the end of the day of the last entry, or of the edition where that is later.
 * @returns the stock; a mistake for each lot that is unknown, came twice or was taken before it came
 */
export const bindStock = (
  content: Content,
  batches: readonly BoundBatch[],
  cures: readonly BoundCure[],
): { readonly stock: BoundStock; readonly diagnostics: readonly Diagnostic[] } => {
  const written = stockEntries(content)
  const { entries, places } = written
  const edition = dayNumber(content.shop.value.edition)
  const day = Math.max(edition, ...entries.map((entry) => entry.day))
  const ledger = ledgerOn(entries, day)
  const perBar = new Map(
    [...content.packaging.values()].map(({ key, value }) => [key, value['for-each-bar'] ?? 1]),
  )
  const needs = plannedNeeds(batches, cures, perBar)
  const proposal = proposeLots(ledger.lots, needs)
  const materials = materialsOf(content)
  const isKept = content.ledgers.size > 0
  const inStock = stockOf(ledger)
  const reserved = new Map<string, number>()
  for (const { lot, amount } of proposal.picks) reserved.set(lot, (reserved.get(lot) ?? 0) + amount)
  return {
    stock: {
      ...written,
      date: dateOf(day),
      materials,
      ledger,
      lots: new Map(ledger.lots.map((lot) => [lot.lot, lot])),
      stock: inStock,
      shelf: shelfOf(ledger.lots, materials),
      worth: inStock.reduce((sum, { value }) => sum + value, 0),
      needs,
      proposal,
      reserved,
      isKept,
      findings: [
        ...ledger.findings
          .filter((finding) => slipOf(finding, []) === undefined)
          .map((finding) => ({ ...finding, place: placeOf(places[Number(finding.values.entry)]) })),
        ...(isKept
          ? batches.filter((batch) => isToBeMade(batch) && dayNumber(batch.date) < day).map(notWritten)
          : []),
        ...(isKept
          ? proposal.findings.map((finding) => ({ ...finding, place: ofBatch(batches, finding) }))
          : []),
      ],
    },
    diagnostics: slips(ledger.findings, entries, places),
  }
}

const shelfOf = (lots: readonly LotState[], materials: ReadonlyMap<string, StockMaterial>): LotState[] => {
  const nameOf = ({ material }: LotState): string => materials.get(material)?.name ?? material
  return [...lots].sort((a, b) => {
    const [one, other] = [nameOf(a), nameOf(b)]
    return one === other ? firstExpired(a, b) : one < other ? -1 : 1
  })
}

/** Everything that stock may be kept of, by its key; of two things of one name the fat counts, then the alkali, and so on. */
const materialsOf = (content: Content): ReadonlyMap<string, StockMaterial> => {
  const weighed = (name: string): StockMaterial => ({ name, counted: false })
  const { alkalis, stockLyes, premixes, additives, fragrances, liquids } = content
  const named = [liquids, fragrances, additives, premixes, stockLyes, alkalis].flatMap(
    (all): { key: string; value: { name: string } }[] => [...all.values()],
  )
  return new Map<string, StockMaterial>([
    ...[...content.packaging.values()].map(
      ({ key, value }) => [key, { name: value.name, counted: true }] as const,
    ),
    ...named.map(({ key, value }) => [key, weighed(value.name)] as const),
    ...[...content.fats.values()].map(({ key, value }) => [key, weighed(value.names[0] ?? key)] as const),
  ])
}

const slips = (
  findings: readonly Finding[],
  entries: readonly Entry[],
  places: readonly EntryPlace[],
): Diagnostic[] => {
  const lots = entries.flatMap((entry) => (entry.kind === 'received' ? [entry.lot] : []))
  return findings.flatMap((finding): Diagnostic[] => {
    const slip = slipOf(finding, lots)
    const place = places[Number(finding.values.entry)]
    if (!slip || !place) return []
    return [{ severity: 'error', ...slip, file: place.document.file, path: place.path, at: 'value' }]
  })
}

const placeOf = (entry: EntryPlace | undefined): FindingPlace | undefined =>
  entry && placeAt(entry.document, entry.path)

const ofBatch = (batches: readonly BoundBatch[], { values }: Finding): FindingPlace | undefined => {
  const file = batches.find(({ key }) => key === values.batch)?.file
  return file && placeAt(file.document, '/date')
}

/** Poured or not, its day is past: the paper on the hook was not copied, or the date has to go on. */
const notWritten = (batch: BoundBatch): PlacedFinding => ({
  code: 'batch-not-written-down',
  severity: 'warn',
  values: { batch: batch.key },
  place: placeAt(batch.file.document, '/date'),
})
