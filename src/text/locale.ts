/** How one language writes numbers and dates, as plain data. */

/** How a language writes numbers and dates. */
export interface Locale {
  readonly language: string
  readonly decimalMark: string
  /** between groups of three digits, from four digits up */
  readonly groupMark: string
  /** between the whole part and the fraction of a shop fraction */
  readonly fractionGap: string
  /** between number and unit */
  readonly unitGap: string
  readonly months: readonly string[]
  /** order of `{day}`, `{month}` and `{year}` */
  readonly dateForm: string
  readonly units: Readonly<Record<'day' | 'days' | 'week' | 'weeks', string>>
}

const NO_BREAK_SPACE = '\u00a0' // in the shipped fonts; the narrower U+202F is not

export const english: Locale = {
  language: 'en',
  decimalMark: '.',
  groupMark: NO_BREAK_SPACE,
  fractionGap: NO_BREAK_SPACE,
  unitGap: NO_BREAK_SPACE,
  months: [
    'January',
    'February',
    'March',
    'April',
    'May',
    'June',
    'July',
    'August',
    'September',
    'October',
    'November',
    'December',
  ],
  dateForm: `{day}${NO_BREAK_SPACE}{month} {year}`,
  units: { day: 'day', days: 'days', week: 'week', weeks: 'weeks' },
}
