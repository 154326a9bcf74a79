/** Words and amounts that the sheets of stock and shopping share. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundStock } from '../../binder/bind-stock.ts'
import type { PlacedFinding } from '../../binder/finding-places.ts'
import { dateOf } from '../../units/civil-day.ts'
import { batchWords } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Sheet, Value } from '../model.ts'

/** kg; what a shop's scale shows of a material */
const GRAM = 0.001

/** What a material is called. */
export const materialName = ({ materials }: BoundStock, key: string): string =>
  materials.get(key)?.name ?? key

/** So much of a material: grams, or pieces of what is counted. */
export const amountValue = (
  { show }: Frame,
  { materials }: BoundStock,
  name: string,
  material: string,
  amount: number,
): Value =>
  materials.get(material)?.counted ? show.count(name, Math.round(amount)) : show.weight(name, amount, GRAM)

/** The same with its word, for sentences. */
export const amountWords = (
  frame: Frame,
  stock: BoundStock,
  name: string,
  material: string,
  amount: number,
): Inline => {
  const value = amountValue(frame, stock, name, material, amount)
  return frame.say(stock.materials.get(material)?.counted ? 'supply.pieces' : 'supply.mass', {
    amount: value,
  })
}

/** Days inside findings are counted; on paper they are dates. */
const DAYS = ['day', 'until', 'expiry', 'received', 'first'] as const
const AMOUNTS = ['short', 'expired', 'taken', 'left', 'excess', 'amount'] as const

/** What was found, in words, each with names of its own for its values. */
const supplyFindingWords = (
  frame: Frame,
  binder: BoundBinder,
  { code, values }: PlacedFinding,
  nth: number,
): Inline => {
  const { say, show } = frame
  const { stock } = binder
  const name = (key: string): string => `${code}.${nth}.${key}`
  const text = (key: string): string => String(values[key] ?? '')
  const material = text('material')
  return say(`finding.${code}`, {
    ...Object.fromEntries(
      DAYS.filter((key) => typeof values[key] === 'number').map((key) => [
        key,
        show.date(name(key), dateOf(Number(values[key]))),
      ]),
    ),
    ...Object.fromEntries(
      AMOUNTS.filter((key) => typeof values[key] === 'number').map((key) => [
        key,
        amountWords(frame, stock, name(key), material, Number(values[key])),
      ]),
    ),
    material: materialName(stock, material),
    lot: text('lot'),
    offer: text('offer'),
    batch: values.batch === undefined ? '' : takerWords(frame, binder, text('batch')),
  })
}

/** A batch by its recipe and sheet; the making of a lot by the lot. */
export const takerWords = (frame: Frame, binder: BoundBinder, batch: string): Inline => {
  const lot = binder.stock.makings.get(batch)
  return lot === undefined ? batchWords(frame, binder, batch) : frame.say('supply.making', { lot })
}

/** Findings in words, for the sheet and for the terminal: each with its place. */
export const toldFindings = (
  frame: Frame,
  binder: BoundBinder,
  findings: readonly PlacedFinding[],
): Required<Pick<Sheet, 'conflicts'>>['conflicts'] =>
  findings.map((finding, index) => ({
    code: finding.code,
    reason: supplyFindingWords(frame, binder, finding, index + 1),
    ...(finding.place ? { place: `${finding.place.file}:${finding.place.line}` } : {}),
  }))
