/** The one place where numbers and dates become words: always the same on every machine, never by its own settings. */

import { dayNumber, weekday } from '../units/civil-day.ts'
import { decimalsOf, type Money } from '../units/money.ts'
import type { Rational } from '../units/rational.ts'
import {
  divide,
  fromDecimal,
  fromNumber,
  multiply,
  rational,
  roundHalfAway,
  subtract,
  toNumber,
} from '../units/rational.ts'
import type { Shown } from './decimal.ts'
import { absolute, countSteps, decimalText, MINUS, report, stepped } from './decimal.ts'
import type { Locale } from './locale.ts'

export type { Shown } from './decimal.ts'
export type { Locale } from './locale.ts'

/**
 * A number with a fixed count of decimals.
 *
 *     n = round(value · 10^decimals), halves away from zero
 *
 * The value is taken as its decimal of 15 significant digits, so 1.005 to two decimals is 1.01 as on paper.
 *
 * @param value    any finite number
 * @param options  `decimals` [–] 0 to 12
 * @param locale   how the language writes it
 * @returns for example `1 234.50`; never `-0`
 * @throws RangeError if the value is not finite: a bug upstream
 * @source common practice
 */
export const formatNumber = (
  value: number,
  { decimals }: { readonly decimals: number },
  locale: Locale,
): string => decimalText(fromNumber(value), decimals, locale)

export type MassUnit = 'g' | 'kg' | 'oz' | 'lb' | 'lb-oz'

/**
 * A mass rounded to the step of a scale.
 *
 * @param mass    [kg] finite
 * @param style   unit, and step in that unit (in oz for `lb-oz`), a decimal such as 0.1
 * @param locale  how the language writes it
 * @returns for example `2 lb 3.1 oz`, with the rounding error [kg]
 * @throws RangeError if mass or step cannot be shown: a bug upstream
 * @source common practice
 */
export function massShown(
  mass: number,
  style: { readonly unit: MassUnit; readonly step: number },
  locale: Locale,
): Shown {
  if (style.unit !== 'lb-oz')
    return stepped(mass, { factor: MASS[style.unit], symbol: style.unit, step: style.step }, locale)
  const { count, step, decimals } = countSteps(mass, MASS.oz, style.step)
  const ounces = multiply(step, rational(absolute(count)))
  const pounds = ounces.n / ounces.d / OUNCES_IN_POUND
  const rest = subtract(ounces, rational(pounds * OUNCES_IN_POUND))
  const shownPounds = pounds === 0n ? '' : `${decimalText(rational(pounds), 0, locale)}${locale.unitGap}lb `
  return report(mass, {
    shown: `${count < 0n ? MINUS : ''}${shownPounds}${decimalText(rest, decimals, locale)}${locale.unitGap}oz`,
    exact: multiply(multiply(step, rational(count)), MASS.oz),
  })
}

export type LengthStyle =
  | { readonly unit: 'in'; readonly denominator: 1 | 2 | 4 | 8 | 16 | 32 | 64 }
  | { readonly unit: 'mm' | 'cm' | 'm'; readonly step: number }

/**
 * A length as a shop fraction of an inch or as a decimal of millimetres.
 *
 *     n = round(length / 25.4 mm · denominator), halves away from zero; then lowest terms, a full fraction carries
 *
 * The error is at most 1 / (2 · denominator) inch or half a step.
 *
 * @param length  [m] finite; negative values round on the magnitude
 * @param style   `in` with the denominator of the rule, or a metric unit with its step in that unit
 * @param locale  how the language writes it
 * @returns for example `2 1/4 in`, with the rounding error [m]
 * @throws RangeError if it cannot be shown: a bug upstream
 * @source common practice
 */
export function lengthShown(length: number, style: LengthStyle, locale: Locale): Shown {
  if (style.unit !== 'in')
    return stepped(length, { factor: LENGTH[style.unit], symbol: style.unit, step: style.step }, locale)
  const inches = divide(fromNumber(length), LENGTH.in)
  const denominator = BigInt(style.denominator)
  const count = roundHalfAway(multiply(inches, rational(denominator)))
  const size = absolute(count)
  const whole = size / denominator
  const fraction = rational(size % denominator, denominator)
  const wholeText = whole === 0n && fraction.n > 0n ? '' : decimalText(rational(whole), 0, locale)
  const fractionText = fraction.n === 0n ? '' : `${fraction.n}/${fraction.d}`
  const gap = wholeText !== '' && fractionText !== '' ? locale.fractionGap : ''
  return report(length, {
    shown: `${count < 0n ? MINUS : ''}${wholeText}${gap}${fractionText}${locale.unitGap}in`,
    exact: multiply(rational(count, denominator), LENGTH.in),
  })
}

/**
 * An amount of money, exact: whole minor units are never rounded.
 *
 * @param money   whole minor units of a currency
 * @param locale  how the language writes it
 * @returns for example `1 250.00 USD`
 * @source iso-4217
 */
export const moneyShown = ({ currency, minor }: Money, locale: Locale): string => {
  const decimals = decimalsOf(currency)
  const exact = rational(BigInt(minor), 10n ** BigInt(decimals))
  return `${decimalText(exact, decimals, locale)}${locale.unitGap}${currency}`
}

/** A volume in litres or millilitres, rounded to a step in that unit; value and error in m3. */
export const volumeShown = (
  volume: number,
  { unit, step }: { readonly unit: 'L' | 'ml'; readonly step: number },
  locale: Locale,
): Shown => stepped(volume, { factor: VOLUME[unit], symbol: unit, step }, locale)

/** A share of 0..1 in percent; `0.05` to no decimals is `5 %`. */
export const percentShown = (
  value: number,
  { decimals }: { readonly decimals: number },
  locale: Locale,
): string => `${decimalText(multiply(fromNumber(value), rational(100n)), decimals, locale)}${locale.unitGap}%`

/**
 * A temperature in degrees Celsius, Fahrenheit, or both.
 *
 *     °C = K − 273.15    °F = K · 9/5 − 459.67
 *
 * @param temperature  [K] absolute
 * @param style        scale and number of decimals
 * @param locale       how the language writes it
 * @returns for example `43 °C (109 °F)`
 * @throws RangeError if not finite: a bug upstream
 * @source common practice
 */
export function temperatureShown(
  temperature: number,
  { scale, decimals }: { readonly scale: 'C' | 'F' | 'both'; readonly decimals: number },
  locale: Locale,
): string {
  const kelvin = fromNumber(temperature)
  const celsius = `${decimalText(degrees(kelvin, 'C'), decimals, locale)}${locale.unitGap}°C`
  const fahrenheit = `${decimalText(degrees(kelvin, 'F'), decimals, locale)}${locale.unitGap}°F`
  if (scale === 'both') return `${celsius} (${fahrenheit})`
  return scale === 'C' ? celsius : fahrenheit
}

const degrees = (kelvin: Rational, scale: 'C' | 'F'): Rational =>
  scale === 'C' ? subtract(kelvin, ZERO_CELSIUS) : subtract(multiply(kelvin, NINE_FIFTHS), ZERO_FAHRENHEIT)

/** A temperature [K] as a bare number of degrees, for an axis that names its scale. */
export const temperatureDegrees = (temperature: number, scale: 'C' | 'F'): number =>
  toNumber(degrees(fromNumber(temperature), scale))

/** A difference of temperatures; the scales have no offset here. */
export function temperatureDifferenceShown(
  difference: number,
  { scale, decimals }: { readonly scale: 'C' | 'F'; readonly decimals: number },
  locale: Locale,
): string {
  const kelvin = fromNumber(difference)
  const value = scale === 'C' ? kelvin : multiply(kelvin, NINE_FIFTHS)
  return `${decimalText(value, decimals, locale)}${locale.unitGap}°${scale}`
}

/**
 * A time in the units a person would use, rounded to the smallest one wanted.
 *
 * Whole weeks are weeks, whole days from two up are days, everything else days, hours, minutes and seconds as needed.
 *
 * @param duration  [s] finite, ≥ 0
 * @param smallest  unit to round to
 * @param locale    how the language writes it
 * @returns for example `4 weeks` or `1 h 30 min`
 * @throws RangeError if not finite or below zero: a bug upstream
 * @source common practice
 */
export function durationShown(
  duration: number,
  { smallest }: { readonly smallest: 's' | 'min' | 'h' | 'day' },
  locale: Locale,
): string {
  if (duration < 0) throw new RangeError(`a time cannot be below zero: ${duration}`)
  const step = SECONDS[smallest]
  let left = roundHalfAway(divide(fromNumber(duration), rational(step))) * step
  const { unitGap: gap, units } = locale
  const counted = (count: bigint, one: string, many: string): string =>
    `${decimalText(rational(count), 0, locale)}${gap}${count === 1n ? one : many}`
  if (left === 0n) return smallest === 'day' ? counted(0n, units.day, units.days) : `0${gap}${smallest}`
  if (left % SECONDS.week === 0n) return counted(left / SECONDS.week, units.week, units.weeks)
  const parts: string[] = []
  for (const unit of ['day', 'h', 'min', 's'] as const) {
    const count = left / SECONDS[unit]
    if (count === 0n) continue
    left -= count * SECONDS[unit]
    parts.push(unit === 'day' ? counted(count, units.day, units.days) : counted(count, unit, unit))
  }
  return parts.join(' ')
}

/**
 * A day in words.
 *
 * @param day     `YYYY-MM-DD`, a day that the calendar has
 * @param locale  how the language writes it
 * @returns for example `14 March 2027`
 * @throws RangeError if it is no date: a bug, schema/fields.ts rejects it first
 * @source common practice
 */
export function dateShown(day: string, locale: Locale): string {
  const [, year, month, date] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day) ?? []
  const name = locale.months[Number(month) - 1]
  if (year === undefined || name === undefined || Number(date) < 1 || Number(date) > 31)
    throw new RangeError(`not a date: ${day}`)
  return locale.dateForm
    .replace('{day}', String(Number(date)))
    .replace('{month}', name)
    .replace('{year}', year)
}

/**
 * A day with its weekday, where the year is clear.
 *
 * @param day     `YYYY-MM-DD`, a day that the calendar has
 * @param locale  how the language writes it
 * @returns for example `Sun 14 Mar`
 * @source common practice
 */
export const shortDateShown = (day: string, locale: Locale): string =>
  locale.shortDateForm
    .replace('{weekday}', locale.shortWeekdays[weekday(dayNumber(day))] ?? '')
    .replace('{day}', String(Number(day.slice(8))))
    .replace('{month}', locale.shortMonths[Number(day.slice(5, 7)) - 1] ?? '')

/**
 * A day with its year for a narrow column.
 *
 * @param day     `YYYY-MM-DD`, a day that the calendar has
 * @param locale  how the language writes it
 * @returns for example `14 Mar 2027`
 * @source common practice
 */
export const narrowDateShown = (day: string, locale: Locale): string =>
  locale.narrowDateForm
    .replace('{day}', String(Number(day.slice(8))))
    .replace('{month}', locale.shortMonths[Number(day.slice(5, 7)) - 1] ?? '')
    .replace('{year}', day.slice(0, 4))

/**
 * A month in words.
 *
 * @param day     any day of it, `YYYY-MM-DD`
 * @param locale  how the language writes it
 * @returns for example `March 2027`
 * @source common practice
 */
export const monthShown = (day: string, locale: Locale): string =>
  locale.monthForm
    .replace('{month}', locale.months[Number(day.slice(5, 7)) - 1] ?? '')
    .replace('{year}', day.slice(0, 4))

/**
 * A time of day.
 *
 * @param minute  after midnight, 0 to 1440
 * @param clock   of 24 hours, or of twice twelve
 * @param locale  how the language writes it
 * @returns for example `20:30` or `8:30 pm`; full hours of the twelve without minutes, noon and midnight in words
 * @source common practice
 */
export function timeShown(minute: number, clock: '24-hour' | 'am-pm', locale: Locale): string {
  const hours = Math.floor(minute / 60)
  const minutes = String(minute % 60).padStart(2, '0')
  if (clock === '24-hour') return `${hours}:${minutes}`
  if (minute % 1440 === 0) return locale.midnight
  if (minute === 720) return locale.noon
  const half = locale.halves[Math.floor(hours / 12) % 2] ?? ''
  const twelve = hours % 12 === 0 ? 12 : hours % 12
  return `${twelve}${minutes === '00' ? '' : `:${minutes}`}${locale.unitGap}${half}`
}

const OUNCES_IN_POUND = 16n
const POUND = fromDecimal('0.45359237') // kg, exact by definition; from memory
const MASS: Readonly<Record<Exclude<MassUnit, 'lb-oz'>, Rational>> = {
  g: fromDecimal('0.001'),
  kg: rational(1n),
  oz: divide(POUND, rational(OUNCES_IN_POUND)),
  lb: POUND,
}
const LENGTH = {
  mm: fromDecimal('0.001'),
  cm: fromDecimal('0.01'),
  m: rational(1n),
  in: fromDecimal('0.0254'), // m, exact by definition; read
} as const
const VOLUME = { L: fromDecimal('0.001'), ml: fromDecimal('0.000001') } as const
const ZERO_CELSIUS = fromDecimal('273.15') // K, exact by definition; from memory
const ZERO_FAHRENHEIT = fromDecimal('459.67') // steps of 5/9 K above absolute zero, exact; from memory
const NINE_FIFTHS = rational(9n, 5n)
const SECONDS = { s: 1n, min: 60n, h: 3600n, day: 86_400n, week: 604_800n } as const
