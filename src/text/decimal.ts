/** Exact values as decimal text, rounded once, halves away from zero. */
import type { Rational } from '../units/rational.ts'
import { fromNumber, multiply, rational, roundHalfAway, subtract, toNumber } from '../units/rational.ts'
import type { Locale } from './locale.ts'

/** A printed value with what printing did to it. */
export interface Shown {
  readonly shown: string
  /** the value as printed, in the SI unit it came in */
  readonly rounded: number
  /** rounded minus exact, in the same unit */
  readonly error: number
}

export const absolute = (value: bigint): bigint => (value < 0n ? -value : value)

/** An exact value as decimal text, rounded once. */
export function decimalText(value: Rational, decimals: number, locale: Locale): string {
  if (!Number.isInteger(decimals) || decimals < 0 || decimals > MOST_DECIMALS)
    throw new RangeError(`cannot show ${decimals} decimals`)
  // rounding asks for no lowest terms
  const scaled = roundHalfAway({ n: value.n * 10n ** BigInt(decimals), d: value.d })
  const digits = absolute(scaled)
    .toString()
    .padStart(decimals + 1, '0')
  const cut = digits.length - decimals
  const whole = digits.slice(0, cut).replace(/\B(?=(\d{3})+$)/g, locale.groupMark)
  const tail = decimals === 0 ? '' : locale.decimalMark + digits.slice(cut)
  return `${scaled < 0n ? MINUS : ''}${whole}${tail}`
}

const MOST_DECIMALS = 12 // more digits than a number carries would be noise

export interface Step {
  readonly factor: Rational
  readonly symbol: string
  readonly step: number
}

export function stepped(value: number, { factor, symbol, step }: Step, locale: Locale): Shown {
  const steps = countSteps(value, factor, step)
  const inUnit = multiply(steps.step, rational(steps.count))
  return report(value, {
    shown: `${decimalText(inUnit, steps.decimals, locale)}${locale.unitGap}${symbol}`,
    exact: multiply(inUnit, factor),
  })
}

/** How many steps of a unit come nearest to a value, and the decimals that such a step needs. */
export function countSteps(
  value: number,
  factor: Rational,
  step: number,
): { count: bigint; step: Rational; decimals: number } {
  const { size, decimals } = stepOf(step)
  const exact = fromNumber(value)
  const count = roundHalfAway({ n: exact.n * factor.d * size.d, d: exact.d * factor.n * size.n })
  return { count, step: size, decimals }
}

/** A step as a fraction, and the decimals that it needs. */
function stepOf(step: number): { readonly size: Rational; readonly decimals: number } {
  const size = fromNumber(step)
  if (size.n <= 0n) throw new RangeError(`a step must be more than zero: ${step}`)
  let decimals = 0
  while (decimals <= MOST_DECIMALS && (size.n * 10n ** BigInt(decimals)) % size.d !== 0n) decimals += 1
  return { size, decimals }
}

export const report = (value: number, { shown, exact }: { shown: string; exact: Rational }): Shown => ({
  shown,
  rounded: toNumber(exact),
  error: toNumber(subtract(exact, fromNumber(value))),
})

export const MINUS = '\u2212' // the minus sign, as wide as a digit; in the shipped fonts
