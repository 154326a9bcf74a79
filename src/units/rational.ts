/** Exact fractions of whole numbers, turned into a floating-point number by one rounding at the very end. */

/** numerator over denominator; the denominator is always greater than 0 */
export interface Rational {
  readonly n: bigint
  readonly d: bigint
}

/** Builds a fraction in lowest terms from two whole numbers, `d` not 0. */
export const rational = (n: bigint, d = 1n): Rational => {
  if (d === 1n) return { n, d }
  const sign = d < 0n ? -1n : 1n
  const divisor = greatestCommonDivisor(n < 0n ? -n : n, d * sign)
  return { n: (n * sign) / divisor, d: (d * sign) / divisor }
}

export const add = (a: Rational, b: Rational): Rational => rational(a.n * b.d + b.n * a.d, a.d * b.d)
export const subtract = (a: Rational, b: Rational): Rational => rational(a.n * b.d - b.n * a.d, a.d * b.d)
export const multiply = (a: Rational, b: Rational): Rational => rational(a.n * b.n, a.d * b.d)
export const divide = (a: Rational, b: Rational): Rational => rational(a.n * b.d, a.d * b.n)
export const isLess = (a: Rational, b: Rational): boolean => a.n * b.d < b.n * a.d

/**
 * Fraction that a plain decimal such as `-12.50` spells.
 *
 * @param text  optional minus, digits, optional point with digits; nothing else
 * @returns the exact fraction
 * @throws SyntaxError on any other text: a bug, the caller has matched the text first
 * @source common practice
 */
export function fromDecimal(text: string): Rational {
  const [whole = '', digits = ''] = text.split('.')
  return timesTens(BigInt(whole + digits), -digits.length)
}

/** A whole number times a power of ten, in lowest terms: only twos and fives can be shared, which is sooner seen than a divisor. */
function timesTens(value: bigint, power: number): Rational {
  if (power >= 0) return { n: value * 10n ** BigInt(power), d: 1n }
  if (value === 0n) return { n: 0n, d: 1n }
  let [n, twos, fives] = [value, -power, -power]
  while (twos > 0 && fives > 0 && n % 10n === 0n) [n, twos, fives] = [n / 10n, twos - 1, fives - 1]
  while (twos > 0 && (n & 1n) === 0n) [n, twos] = [n >> 1n, twos - 1]
  while (fives > 0 && n % 5n === 0n) [n, fives] = [n / 5n, fives - 1]
  return { n, d: (5n ** BigInt(fives)) << BigInt(twos) }
}

/**
 * Fraction meant by a floating-point number: its decimal of 15 significant digits.
 *
 * Every decimal typed with up to 15 digits survives, and the noise that a few operations leave in the
 * sixteenth digit does not turn an exact tie into a near miss.
 *
 * @param value  any finite number
 * @returns the exact fraction of the decimal
 * @throws RangeError if not finite: a bug upstream
 * @source common practice
 */
export function fromNumber(value: number): Rational {
  if (!Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`)
  const [mantissa = '', exponent = '0'] = value.toExponential(DIGITS - 1).split('e')
  return timesTens(BigInt(mantissa.replace('.', '')), Number(exponent) - (DIGITS - 1))
}

/**
 * Nearest floating-point number to a fraction, ties to even: one rounding in all.
 *
 * @param value  fraction whose size lies between 1e-290 and 1e300, or 0
 * @returns the nearest number
 * @source common practice
 */
export function toNumber(value: Rational): number {
  const { n, d } = value
  const size = n < 0n ? -n : n
  // A division of two exactly representable numbers is itself rounded once.
  if (size <= LARGEST_EXACT && d <= LARGEST_EXACT) return Number(n) / Number(d)
  const shift = BigInt(Math.max(0, KEPT_BITS + bitLength(d) - bitLength(size)))
  const scaled = size << shift
  const quotient = scaled / d
  // The lost rest must still break a tie, so it becomes the last bit.
  const sticky = quotient * d === scaled ? quotient : quotient | 1n
  const result = Number(sticky) / 2 ** Number(shift)
  return n < 0n ? -result : result
}

/**
 * Whole number nearest to a fraction, halves away from zero.
 *
 * @param value  any fraction
 * @returns the whole number
 * @source common practice
 */
export function roundHalfAway(value: Rational): bigint {
  const size = value.n < 0n ? -value.n : value.n
  const rounded = (2n * size + value.d) / (2n * value.d)
  return value.n < 0n ? -rounded : rounded
}

const DIGITS = 15 // of a typed decimal that a floating-point number always gives back; computed
const LARGEST_EXACT = BigInt(Number.MAX_SAFE_INTEGER) // 2^53 − 1, exact
const KEPT_BITS = 64 // more than the 53 of a floating-point number plus two for the tie; computed

const bitLength = (value: bigint): number => value.toString(2).length

export function greatestCommonDivisor(a: bigint, b: bigint): bigint {
  let [x, y] = [a, b]
  if (x <= LARGEST_EXACT && y <= LARGEST_EXACT) return BigInt(smallDivisor(Number(x), Number(y)))
  while (y !== 0n) [x, y] = [y, x % y]
  return x === 0n ? 1n : x
}

/** The same of numbers that a floating-point number holds exactly. */
function smallDivisor(a: number, b: number): number {
  let [x, y] = [a, b]
  while (y !== 0) [x, y] = [y, x % y]
  return x === 0 ? 1 : x
}
