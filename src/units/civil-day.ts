/** Days of the civil calendar as whole numbers: no time zone, no clock. */

/** A minute of a civil day. Wall-clock time: where clocks are moved for summer, a span over that night is an hour off. */
export interface Moment {
  /** 2027-03-14 */
  readonly date: string
  /** min after midnight, 0 to 1439 */
  readonly minute: number
}

export const MINUTES_A_DAY = 1440
const ZERO = 48 // code of the digit
const ERA = 146097 // days in 400 years: 400 · 365 + 97

/**
 * Number of a day.
 *
 *     365 y + ⌊y/4⌋ − ⌊y/100⌋ + ⌊y/400⌋ + day of the year, the year begun in March so that its last day is the leap day
 *
 * @param date year-month-day, 0001-01-01 to 9999-12-31, a day that exists
 * @returns days since 1970-01-01 [d]
 * @source gregorian
 */
export function dayNumber(date: string): number {
  // The calendar asks for hundreds of thousands of days: digits by their places are read ten times as fast as by parts.
  const digit = (at: number): number => date.charCodeAt(at) - ZERO
  const year = 1000 * digit(0) + 100 * digit(1) + 10 * digit(2) + digit(3)
  const month = 10 * digit(5) + digit(6)
  const day = 10 * digit(8) + digit(9)
  const y = month <= 2 ? year - 1 : year
  const monthFromMarch = (month + 9) % 12
  const dayOfYear = Math.floor((153 * monthFromMarch + 2) / 5) + day - 1
  return 365 * y + Math.floor(y / 4) - Math.floor(y / 100) + Math.floor(y / 400) + dayOfYear - 719468
}

/**
 * The day of a number: the inverse of `dayNumber`.
 *
 *     year from the 400 years it lies in, month from the day of the year
 *
 * @param number days since 1970-01-01 [d], whole
 * @returns date, year-month-day
 * @source gregorian
 */
export function dateOf(number: number): string {
  const shifted = number + 719468
  const era = Math.floor(shifted / ERA)
  const ofEra = shifted - era * ERA
  const yearOfEra = Math.floor(
    (ofEra - Math.floor(ofEra / 1460) + Math.floor(ofEra / 36524) - Math.floor(ofEra / 146096)) / 365,
  )
  const dayOfYear = ofEra - (365 * yearOfEra + Math.floor(yearOfEra / 4) - Math.floor(yearOfEra / 100))
  const monthFromMarch = Math.floor((5 * dayOfYear + 2) / 153)
  const day = dayOfYear - Math.floor((153 * monthFromMarch + 2) / 5) + 1
  const month = monthFromMarch < 10 ? monthFromMarch + 3 : monthFromMarch - 9
  const year = yearOfEra + era * 400 + (month <= 2 ? 1 : 0)
  const two = (value: number): string => (value < 10 ? `0${value}` : `${value}`)
  return `${year < 1000 ? String(year).padStart(4, '0') : year}-${two(month)}-${two(day)}`
}

/**
 * Day of the week.
 *
 *     (number + 3) mod 7, since 1970-01-01 was a Thursday
 *
 * @param number days since 1970-01-01 [d]
 * @returns 0 for Monday to 6 for Sunday
 * @source gregorian
 */
export const weekday = (number: number): number => (((number + 3) % 7) + 7) % 7

/**
 * A minute of the day as files write it.
 *
 *     hours : minutes, two digits each
 *
 * @param minute since midnight [min], whole
 * @returns for example `09:05`
 * @source gregorian
 */
export const clockText = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`

/**
 * A moment as one number.
 *
 *     1440 · day + minute
 *
 * @param moment date and minute
 * @returns min since 1970-01-01 at midnight
 * @source gregorian
 */
export const minutesAt = ({ date, minute }: Moment): number => dayNumber(date) * MINUTES_A_DAY + minute

/**
 * The moment of a number of minutes: the inverse of `minutesAt`.
 *
 *     day = ⌊minutes / 1440⌋
 *
 * @param minutes min since 1970-01-01 at midnight
 * @returns date and minute
 * @source gregorian
 */
export const momentAt = (minutes: number): Moment => {
  const day = Math.floor(minutes / MINUTES_A_DAY)
  return { date: dateOf(day), minute: minutes - day * MINUTES_A_DAY }
}
