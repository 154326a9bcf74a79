/** Numbers that change as a person reads them: each once with all of its sheets, what matters most first. */
import type { NamedSheet, NumberDifference, SheetDifference } from './differences.ts'

export interface Row {
  readonly label: string
  readonly unit: string
  readonly before: string
  readonly after: string
  /** every sheet that it stands on, in the order of the binder */
  readonly sheets: readonly NamedSheet[]
  /** numbers of the settings that it hangs on, where that was asked */
  readonly causes: readonly number[]
}

export interface SheetRows {
  readonly sheet: SheetDifference
  /** of those whose first sheet it is */
  readonly rows: readonly Row[]
  /** how many more there are */
  readonly left: number
}

/** What a sheet without a use before or after does not tell number by number. */
export const isToldByNumbers = ({ change, before, after }: SheetDifference): boolean =>
  change === 'other' && before !== 'stopped' && after !== 'stopped'

/**
 * Rows by sheets.
 *
 * What reads the same before and after, on several sheets or several times on one, is one row. Weights, temperatures,
 * times and days come before sizes and costs, and what stands on many sheets before what stands on one. Half of the rows
 * go to as many sheets as can be.
 *
 * @param most    rows in all
 * @param causeOf settings that a number hangs on
 */
export const rowsOf = (
  sheets: readonly SheetDifference[],
  most: number,
  causeOf: (sheet: string, name: string) => readonly number[],
): readonly SheetRows[] => {
  const rows = new Map<string, Gathered>()
  for (const sheet of sheets.filter(isToldByNumbers))
    for (const number of sheet.numbers) {
      const key = keyOf(number)
      const row = rows.get(key) ?? { number, sheets: new Set(), causes: new Set(), order: rows.size }
      rows.set(key, row)
      if (vagueness(number) < vagueness(row.number)) row.number = number
      row.sheets.add(sheet)
      for (const cause of causeOf(sheet.id, number.name)) row.causes.add(cause)
    }
  const bySheet = new Map<SheetDifference, Gathered[]>()
  for (const row of [...rows.values()].sort(byImportance)) {
    const [first] = row.sheets
    if (first) bySheet.set(first, [...(bySheet.get(first) ?? []), row])
  }
  const chosen = chosenOf([...bySheet.values()], most)
  return sheets.flatMap((sheet): SheetRows[] => {
    const own = bySheet.get(sheet) ?? []
    const told = own.filter((row) => chosen.has(row)).sort((a, b) => a.order - b.order)
    const rows = withNames(told)
    return isToldByNumbers(sheet) ? [{ sheet, rows, left: own.length - told.length }] : []
  })
}

interface Gathered {
  /** with the plainest label of those that read alike */
  number: NumberDifference
  readonly sheets: Set<SheetDifference>
  readonly causes: Set<number>
  readonly order: number
}

/** A label that says what the number is called in the program, too, says it; one that was cut says least. */
const vagueness = ({ label, name }: NumberDifference): number => {
  if (label.includes('…')) return 2
  return label.toLowerCase().includes(name.split('.').at(-1) ?? '') ? 0 : 1
}

/** Rows of one label, both ends of a range perhaps, are told apart by their names. */
const withNames = (told: readonly Gathered[]): Row[] =>
  told.map((one) => {
    const { label, name } = one.number
    const alike = told.flatMap(({ number }) => (number.label === label ? [number.name.split('.')] : []))
    if (alike.length === 1) return asRow(one, label)
    const own = name.split('.')
    // what all of them begin and end with tells nothing
    const isShared = (at: (parts: readonly string[]) => string | undefined): boolean =>
      alike.every((parts) => at(parts) !== undefined && at(parts) === at(own))
    let [from, to] = [0, own.length]
    while (from < to && isShared((parts) => parts[from])) from += 1
    while (to > from && isShared((parts) => parts[parts.length - 1 - (own.length - to)])) to -= 1
    const words = own.slice(from, to).join(' ')
    return asRow(one, words === '' ? label : `${label} (${words})`)
  })

const asRow = ({ number: { unit, before, after }, sheets, causes }: Gathered, label: string): Row => ({
  label,
  unit,
  before: before?.shown ?? 'not there',
  after: after?.shown ?? 'gone',
  sheets: [...sheets],
  causes: [...causes].sort((a, b) => a - b),
})

/** So many figures are one thing wherever they stand; 12 → 13 may be bars here and days there. */
const FIGURES = 5
const figuresIn = (text: string): number => text.replace(/^[^1-9]+/, '').replace(/\D/g, '').length

const keyOf = ({ unit, before, after, label }: NumberDifference): string => {
  const [was = '', is = ''] = [before?.shown, after?.shown]
  const isTelling = figuresIn(was) + figuresIn(is) >= FIGURES
  return JSON.stringify([unit, was, is, ...(isTelling ? [] : [label])])
}

/** By what goes wrong when an old one is followed. */
const FIRST = new Set(['kg', 'K', 's', 'date', 'moment', 'time'])
const SECOND = new Set(['m', 'm2', 'm3', 'mm', 'in', 'cent'])
const CURRENCY = /^[A-Z]{3}$/
/** What stands on so many sheets, such as the bars of a batch, goes up by one class each time. */
const MANY = [3, 5]

const classOf = ({ number: { unit }, sheets }: Gathered): number => {
  const own = FIRST.has(unit) ? 2 : SECOND.has(unit) || CURRENCY.test(unit) ? 3 : 4
  return own - MANY.filter((many) => sheets.size >= many).length
}

const amountOf = ({ number: { unit, before, after } }: Gathered): number => {
  const value = after?.value ?? before?.value
  return CURRENCY.test(unit) && typeof value === 'number' ? value : 0
}

/** Of money the sums first, which are what it comes to. */
const byImportance = (a: Gathered, b: Gathered): number =>
  classOf(a) - classOf(b) || b.sheets.size - a.sheets.size || amountOf(b) - amountOf(a) || a.order - b.order

/** @param groups of rows by sheets, each by importance */
const chosenOf = (groups: readonly (readonly Gathered[])[], most: number): ReadonlySet<Gathered> => {
  const chosen = new Set<Gathered>()
  const take = (rows: readonly Gathered[]): void => {
    for (const row of rows) if (chosen.size < most) chosen.add(row)
  }
  const first = groups.flatMap((rows) => rows.slice(0, groups.length > MANY_SHEETS ? 1 : 2))
  // half of the room is for what matters most, wherever it stands
  take(first.sort(byImportance).slice(0, most / 2))
  take(groups.flat().sort(byImportance))
  return chosen
}
const MANY_SHEETS = 12
