/** Turns a quantity as people write it, `2 1/4 in` or `2 lb 3 oz`, into one number in SI units. */
import type { NumberRefusal } from './number-text.ts'
import { plainNumberText, refuseNumber, takeNumber } from './number-text.ts'
import type { Rational } from './rational.ts'
import { add, divide, isLess, multiply, rational, toNumber } from './rational.ts'
import type { QuantityKind, Unit } from './tables.ts'
import { findUnit, KINDS } from './tables.ts'
import { refuseUnit } from './unit-refusal.ts'

export interface QuantityRead {
  readonly ok: true
  /** in the base unit of the kind (KINDS[kind].base) */
  readonly value: number
  /** symbol of the unit used, the smallest one of `2 lb 3 oz` */
  readonly unit: string
}

export interface QuantityRefused {
  readonly ok: false
  readonly code: string
  readonly message: string
  readonly advice: string
}

/**
 * Reads a quantity: a number, its unit, and for lengths, masses, volumes and times also smaller parts (`1 ft 3 in`).
 *
 *     value = (number + offset of the unit) · factor of the unit, summed over the parts
 *
 * All steps are exact fractions; one rounding to the nearest floating-point number ends them. Fractions of an inch
 * may be written `2 1/4`, `2-1/4` or `2¼`. The inch mark may be `"`, `″` or the curly `”`, the foot mark `'`, `′` or `’`,
 * because keyboards put them in unasked and they can mean nothing else in a length. Gallons, quarts, pints and fluid
 * ounces are those of the United States. Whatever could be read in two ways is refused with advice.
 *
 * @param text      as typed, at most 40 characters
 * @param kind      what the number measures
 * @returns the value [KINDS[kind].base] and its unit, or code, message and advice
 * @source common practice
 */
export function parseQuantity(text: string, kind: QuantityKind): QuantityRead | QuantityRefused {
  const shown = quote(text)
  const refused = ({ code, fault, advice }: NumberRefusal): QuantityRefused => ({
    ok: false,
    code,
    message: `${shown} ${fault}`,
    advice,
  })
  const { noun, example, mayBeNegative } = KINDS[kind]
  if (text.length > LONGEST) return refused(TOO_LONG)
  const plain = plainNumberText(text)
  if (plain === '')
    return {
      ok: false,
      code: 'value-missing',
      message: `no ${noun} is given`,
      advice: `Write a ${noun}, ${like(example)}.`,
    }
  const spelling = refuseNumber(plain)
  if (spelling !== undefined) return refused(spelling)
  const negative = plain.startsWith('-')
  const parts = takeParts(negative ? plain.slice(1).trimStart() : plain, kind)
  if ('code' in parts) return refused(parts)
  if (negative && !mayBeNegative)
    return refused({
      code: 'negative',
      fault: `is below zero, and a ${noun} cannot be`,
      advice: 'Leave the minus sign out.',
    })
  const sum = parts.map(inBaseUnit(negative)).reduce(add)
  if (kind === 'temperature' && isLess(sum, rational(0n))) return refused(TOO_COLD)
  return { ok: true, value: toNumber(sum), unit: parts.at(-1)?.unit.symbol ?? '' }
}

/**
 * Writes a value in SI units in a chosen unit of its kind, for messages and advice; sheets use text/format.ts.
 *
 * @param value  [KINDS[kind].base]
 * @param kind   what the number measures
 * @param symbol the unit to use, as in KINDS
 * @returns for example `0.0394 in`, four significant digits
 * @throws RangeError if the kind does not have the unit: a bug
 * @source common practice
 */
export function quantityInUnit(value: number, kind: QuantityKind, symbol: string): string {
  const unit = findUnit(kind, symbol)
  if (unit === undefined) throw new RangeError(`${kind} has no unit ${symbol}`)
  const offset = unit.offset === undefined ? 0 : toNumber(unit.offset)
  const shown = value / toNumber(unit.factor) - offset
  return `${Number(shown.toPrecision(4))} ${symbol}`
}

interface Part {
  readonly number: Rational
  readonly unit: Unit
}

const LONGEST = 40 // [–] characters, more than any quantity needs; common practice
const COMPOUND: ReadonlySet<QuantityKind> = new Set(['length', 'mass', 'volume', 'duration'])

const TOO_LONG: NumberRefusal = {
  code: 'quantity-too-long',
  fault: 'is too long for a quantity',
  advice: `Write only the number and its unit, at most ${LONGEST} characters. Put remarks after a # sign.`,
}
const TOO_COLD: NumberRefusal = {
  code: 'below-absolute-zero',
  fault: 'is colder than anything can be (-273.15 °C)',
  advice: 'Check the number and the scale, °C or °F.',
}

const quote = (text: string): string => `"${text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text}"`
const like = (example: string): string => `for example "${example}"`

const inBaseUnit =
  (negative: boolean) =>
  ({ number, unit }: Part): Rational => {
    const signed = negative ? multiply(rational(-1n), number) : number
    return multiply(unit.offset === undefined ? signed : add(signed, unit.offset), unit.factor)
  }

/** Splits `1 ft 3 1/2 in` into its parts and checks that they belong together. */
function takeParts(plain: string, kind: QuantityKind): Part[] | NumberRefusal {
  const parts: Part[] = []
  let left = plain
  for (;;) {
    const number = takeNumber(left)
    if (number === undefined) return notANumber(kind)
    if ('code' in number) return number
    const { unit, rest } = takeUnit(number.rest, kind)
    if (unit === undefined) return refuseUnit(number.rest, kind)
    const previous = parts.at(-1)
    const fault = previous && refusePart(previous, { number: number.value, unit })
    if (fault) return fault
    parts.push({ number: number.value, unit })
    if (rest === '') return parts
    if (!number.whole) return PART_NOT_WHOLE
    left = rest
  }
}

/** The unit at the front of a text; a compound quantity may go on after it. */
function takeUnit(text: string, kind: QuantityKind): { unit?: Unit | undefined; rest: string } {
  const whole = findUnit(kind, text)
  if (whole !== undefined || !COMPOUND.has(kind)) return { unit: whole, rest: '' }
  const split = /^([^\d-]+?) *-? *(?=\d)/.exec(text)
  if (split === null) return { rest: '' }
  return { unit: findUnit(kind, split[1] ?? ''), rest: text.slice(split[0].length) }
}

/** A smaller part must be a clean division of the part before it, and less than one of it. */
function refusePart(previous: Part, part: Part): NumberRefusal | undefined {
  const ratio = divide(previous.unit.factor, part.unit.factor)
  if (ratio.d !== 1n || ratio.n <= 1n) return UNITS_MIXED
  return isLess(part.number, ratio) ? undefined : PART_TOO_LARGE
}

const PART_NOT_WHOLE: NumberRefusal = {
  code: 'part-not-whole',
  fault: 'has a fraction before a smaller unit',
  advice: 'Use whole numbers for all but the last unit, for example 1 ft 3 1/2 in.',
}
const UNITS_MIXED: NumberRefusal = {
  code: 'units-mixed',
  fault: 'mixes units that do not belong together, or has the smaller one first',
  advice: 'Use one unit, or a larger one and then its parts, for example 2 lb 3 oz.',
}
const PART_TOO_LARGE: NumberRefusal = {
  code: 'part-too-large',
  fault: 'has a smaller part that makes up a whole larger unit or more',
  advice: 'Carry it over to the larger unit: 12 in are 1 ft, and 16 oz are 1 lb.',
}

const notANumber = (kind: QuantityKind): NumberRefusal => ({
  code: 'not-a-number',
  fault: `is not a ${KINDS[kind].noun}`,
  advice: `Write a number and its unit, ${like(KINDS[kind].example)}.`,
})
