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
  readonly shortMonths: readonly string[]
  /** from Monday */
  readonly weekdays: readonly string[]
  readonly shortWeekdays: readonly string[]
  /** order of `{weekday}`, `{day}` and `{month}` where the year is clear */
  readonly shortDateForm: string
  /** order of `{day}`, `{month}` and `{year}` where a column is narrow */
  readonly narrowDateForm: string
  /** order of `{month}` and `{year}` */
  readonly monthForm: string
  /** before and after noon, on a clock of twelve hours */
  readonly halves: readonly [string, string]
  /** twelve of either half would be read both ways */
  readonly noon: string
  readonly midnight: string
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
  shortMonths: ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'],
  weekdays: ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'],
  shortWeekdays: ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'],
  shortDateForm: `{weekday} {day}${NO_BREAK_SPACE}{month}`,
  narrowDateForm: `{day}${NO_BREAK_SPACE}{month}${NO_BREAK_SPACE}{year}`,
  monthForm: '{month} {year}',
  halves: ['am', 'pm'],
  noon: 'noon',
  midnight: 'midnight',
  dateForm: `{day}${NO_BREAK_SPACE}{month} {year}`,
  units: { day: 'day', days: 'days', week: 'week', weeks: 'weeks' },
}
