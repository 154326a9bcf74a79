/** How one language writes numbers and dates, as plain data: each has a file of it beside its words. */

/** How a language writes numbers and dates. */
export interface Locale {
  /** name of its folder, and language tag of what is printed */
  readonly language: string
  /** as its speakers call it */
  readonly name: string
  readonly decimalMark: string
  /** between groups of three digits, from four digits up */
  readonly groupMark: string
  /** between the whole part and the fraction of a shop fraction */
  readonly fractionGap: string
  /** between number and unit */
  readonly unitGap: string
  /** between two of several words */
  readonly listMark: string
  /** between two of several numbers: not the comma where that is in the numbers themselves */
  readonly numbersMark: string
  readonly months: readonly string[]
  readonly shortMonths: readonly string[]
  /** from Monday */
  readonly shortWeekdays: readonly string[]
  /** order of `{day}`, `{month}` and `{year}` */
  readonly dateForm: string
  /** order of `{weekday}`, `{day}` and `{month}` where the year is clear */
  readonly shortDateForm: string
  /** order of `{day}`, `{month}` and `{year}` where a column is narrow */
  readonly narrowDateForm: string
  /** order of `{month}` and `{year}` */
  readonly monthForm: string
  /** order of `{date}` and `{time}` */
  readonly momentForm: string
  /** before and after noon, on a clock of twelve hours */
  readonly halves: readonly [string, string]
  /** twelve of either half would be read both ways */
  readonly noon: string
  readonly midnight: string
  readonly units: Readonly<Record<'day' | 'days' | 'week' | 'weeks', string>>
}

export type DecimalMark = 'point' | 'comma'

const MARKS: Readonly<Record<DecimalMark, string>> = { point: '.', comma: ',' }

/** A comma that is in numbers cannot stand between them. */
export const numbersMarkOf = (decimalMark: string, listMark: string): string =>
  listMark.trim() === decimalMark ? '; ' : listMark

/** The same language as others of its readers write decimals; as it is where none is wanted. */
export const withDecimalMark = (locale: Locale, mark: DecimalMark | undefined): Locale => {
  if (mark === undefined) return locale
  const decimalMark = MARKS[mark]
  return { ...locale, decimalMark, numbersMark: numbersMarkOf(decimalMark, locale.listMark) }
}

/** Numbers as a maker's file has them, whatever the language. */
export const asInFiles = (locale: Locale): Locale => withDecimalMark(locale, 'point')
