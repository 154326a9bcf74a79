/** The kinds of value that a file may hold, as zod schemas from typed text to what calculators take. */
import { Temporal } from 'temporal-polyfill'
import { z } from 'zod'
import { unprintable } from '../text/glyphs.ts'
import { plainNumberText, refuseNumber } from '../units/number-text.ts'
import type { Money, QuantityKind } from '../units.ts'
import { KINDS, parseMoney, parseQuantity, quantityInUnit, symbolsOf } from '../units.ts'
import { LONGEST_NAME, NAME, nameLike } from './names.ts'

/** A field reads one text of the file. */
export type Field<Value> = z.ZodType<Value, string>

/** What is wrong with a value, in words; decode.ts adds the place. */
export interface Fault {
  readonly code: string
  readonly message: string
  readonly advice: string
  /** names and list positions below the value checked, for checks of a whole map or list */
  readonly path?: readonly (string | number)[]
  readonly at?: 'value' | 'key'
}

/** Limits in the words of a file, such as `min: '1 mm'`; `min` and `max` are allowed themselves, `above` and `below` not. */
export interface QuantityLimits {
  readonly min?: string
  readonly max?: string
  readonly above?: string
  readonly below?: string
}

export interface NumberLimits {
  readonly min?: number
  readonly max?: number
}

/**
 * Reports a fault from a check of several values (`superRefine`) so that decode.ts finds code and advice.
 *
 * @param context  what zod hands to the check
 * @param fault    code, words and, if it is not the whole, the place below the value checked
 * @source common practice
 */
export function report(context: z.RefinementCtx, { code, message, advice, path = [], at }: Fault): void {
  context.addIssue({ code: 'custom', message, path: [...path], params: { code, advice, at } })
}

/**
 * A quantity with its unit, such as `2 1/4 in`.
 *
 * @param kind    what it measures
 * @param limits  allowed range, in the words of a file
 * @returns field giving a number [KINDS[kind].base]
 * @throws RangeError if a limit is no quantity of the kind: a bug
 * @source common practice
 */
export function quantity(kind: QuantityKind, limits: QuantityLimits = {}): Field<number> {
  const read = quantityReader(kind, limits)
  return typed({
    examples: [exampleWithin(kind, limits)],
    'x-form': 'quantity',
    'x-quantity': kind,
    'x-units': symbolsOf(kind),
    'x-allowed': rangeWords(limits),
  }).transform(read)
}

/** What a quantity field does with a text, its limits read once. */
const quantityReader = (kind: QuantityKind, limits: QuantityLimits) => {
  const bounds = boundsOf(kind, limits)
  return (text: string, context: z.RefinementCtx): number => {
    const read = parseQuantity(text, kind)
    if (!read.ok) return refuse(context, read)
    const broken = bounds.find(({ allows }) => !allows(read.value))
    if (broken === undefined) return read.value
    const own = quantityInUnit(broken.value, kind, read.unit)
    const also = own === broken.text || read.unit === broken.unit ? '' : ` (${own})`
    return refuse(context, {
      code: 'out-of-range',
      message: `"${text.trim()}" is ${broken.words} ${broken.text}${also}`,
      advice: `Allowed ${rangeWords(limits)}.`,
    })
  }
}

/** A share in percent, from 0 % to 100 % unless the limits say otherwise; gives 0..1. */
export const share = (limits: QuantityLimits = {}): Field<number> =>
  quantity('ratio', { min: '0 %', max: '100 %', ...limits })

/** A share in percent, or one fixed word in place of it. */
export function shareOr<const Word extends string>(word: Word, limits: QuantityLimits): Field<number | Word> {
  const read = quantityReader('ratio', limits)
  return typed({
    examples: [exampleWithin('ratio', limits), word],
    'x-form': 'quantity',
    'x-quantity': 'ratio',
    'x-units': symbolsOf('ratio'),
    'x-allowed': rangeWords(limits),
    'x-or': word,
  }).transform((text, context): number | Word => (text.trim() === word ? word : read(text, context)))
}

/** m/s2, standard gravity, exact by definition: by it a scale turns pull into mass */
const GRAVITY = 9.80665

/** To a millionth, without zeros at the end. */
const plainNewtons = (force: number): string => force.toFixed(6).replace(/\.?0+$/, '')

/**
 * A pull, as a force or as the mass that a luggage scale shows for it.
 *
 *     F = m g
 *
 * @param limits  allowed range, in the words of a file, as forces
 * @returns field giving a force [N]
 * @throws RangeError if a limit is no force: a bug
 * @source common practice
 */
export function pull(limits: QuantityLimits = {}): Field<number> {
  const read = quantityReader('force', limits)
  return typed({
    examples: [exampleWithin('force', limits)],
    'x-form': 'quantity',
    'x-quantity': 'force',
    'x-also': 'mass',
    'x-units': [...symbolsOf('force'), ...symbolsOf('mass')],
    'x-allowed': rangeWords(limits),
  }).transform((text, context): number => {
    const mass = parseQuantity(text, 'mass')
    return read(mass.ok ? `${plainNewtons(mass.value * GRAVITY)} N` : text, context)
  })
}

/**
 * A price, such as `78.50 USD`. That all prices of a folder are in the shop's currency is looked at in prices.ts.
 *
 * @returns field giving an amount in whole minor units
 * @source iso-4217
 */
export const money = (): Field<Money> =>
  typed({ examples: ['78.50 USD'], 'x-form': 'money', 'x-quantity': 'money' }).transform(
    (text, context): Money => {
      const read = parseMoney(text)
      return read.ok ? read.money : refuse(context, read)
    },
  )

/** The three letters of a currency. */
export const currency = (): Field<string> =>
  typed({ examples: ['USD'], 'x-form': 'currency' }).transform((text, context) => {
    const typed = text.trim()
    if (/^[A-Z]{3}$/.test(typed)) return typed
    const near = typed.toUpperCase()
    return refuse(context, {
      code: 'currency-unknown',
      message: `"${clip(typed)}" is not the three letters of a currency`,
      advice: `Write three capital letters, for example "${/^[A-Z]{3}$/.test(near) ? near : 'USD'}".`,
    })
  })

/** A plain whole number without a unit, such as `100`. */
export const count = (limits: NumberLimits = {}): Field<number> =>
  numberField({
    limits: { min: 0, ...limits },
    form: 'whole-number',
    pattern: '^-?(0|[1-9]\\d*)$',
    what: 'a whole number',
    code: 'not-whole',
  })

/** A plain number without a unit, such as `0.188`, for values that have none. */
export const plainNumber = (limits: NumberLimits = {}): Field<number> =>
  numberField({
    limits,
    form: 'plain-number',
    pattern: '^-?(0|[1-9]\\d*)(\\.\\d+)?$',
    what: 'a plain number',
    code: 'not-a-number',
  })

/** Years of four figures leave room for all that is reckoned from a day on. */
const FIRST_DAY = '1900-01-01'
const LAST_DAY = '2999-12-31'

/** A day, written `2027-03-14`, that the calendar has; stays text. */
export const date = (): Field<string> =>
  typed({ examples: ['2027-03-14'], 'x-form': 'date' }).transform((text, context) => {
    const typed = text.trim()
    const shape = /^\d{4}-\d{2}-\d{2}$/.test(typed)
    const isThere = shape && isDay(typed)
    if (isThere && typed >= FIRST_DAY && typed <= LAST_DAY) return typed
    return refuse(context, {
      code: 'not-a-date',
      message: isThere
        ? `"${clip(typed)}" is ${typed < FIRST_DAY ? 'before' : 'after'} all days that a binder has to do with`
        : shape
          ? `"${clip(typed)}" is a day that the calendar does not have`
          : `"${clip(typed)}" is not a date`,
      advice: isThere
        ? `Write a day from ${FIRST_DAY} to ${LAST_DAY}.`
        : 'Write year, month and day, for example 2027-03-14.',
    })
  })

/** A time of day, written `8:30`, `20:30` or `8:30 pm`; gives minutes after midnight, 24:00 for the end of the day. */
export const timeOfDay = (): Field<number> =>
  typed({ examples: ['8:30'], 'x-form': 'time' }).transform((text, context) => {
    const typed = text.trim()
    const [, hour, minutes = '', half = ''] = TIME.exec(typed) ?? []
    const twelve = half.toLowerCase()
    const hours = Number(hour)
    const minute = Number(minutes)
    const isTime =
      hour !== undefined &&
      // "8" might be eight hours: a time shows that it is one
      (minutes !== '' || twelve !== '') &&
      minute < 60 &&
      (twelve === '' ? hours * 60 + minute <= 1440 : hours >= 1 && hours <= 12)
    if (!isTime)
      return refuse(context, {
        code: 'not-a-time',
        message: `"${clip(typed)}" is not a time of day`,
        advice: 'Write hours and minutes, for example 8:30 or 20:30, or 8:30 pm.',
      })
    if (twelve === '') return hours * 60 + minute
    return ((hours % 12) + (twelve === 'pm' ? 12 : 0)) * 60 + minute
  })

const TIME = /^(\d{1,2})(?::(\d{2}))?(?:\s?([ap]m))?$/i

/** Text on one line, the same in every language: names of people, lots, places in a list of the law. */
export const mark = ({ max = 200 }: { readonly max?: number } = {}): Field<string> => textField({ max })

/**
 * The maker's own words on one line, trimmed, of characters that the shipped fonts can print: plain text, or one text
 * for each language. Which of these it is has been settled before this field reads it, see translations.ts.
 */
export const words = ({ max = 200 }: { readonly max?: number } = {}): Field<string> =>
  textField({ max, words: true })

/** The same over several lines. */
export const paragraphs = ({ max = 4000 }: { readonly max?: number } = {}): Field<string> =>
  textField({ max, lines: true, words: true })

/** A name by which other files refer to a thing: small letters, digits and single hyphens. */
export const name = (): Field<string> =>
  typed({
    examples: ['plain-soap'],
    'x-form': 'name',
    pattern: NAME.source,
    maxLength: LONGEST_NAME,
  }).transform((text, context) => {
    if (text.length <= LONGEST_NAME && NAME.test(text)) return text
    const near = nameLike(text)
    return refuse(context, {
      code: 'not-a-name',
      message: `"${clip(text)}" cannot be a name that other files refer to`,
      advice: `Use small letters a to z, digits and single hyphens, at most ${LONGEST_NAME} characters${
        NAME.test(near) ? `, for example "${near}"` : ''
      }.`,
    })
  })

/** Marks a field that may be given in several languages. */
export const WORDS = 'x-words'

/** One of a few fixed words. */
export const oneOf = <const Word extends string>(
  allowed: readonly [Word, ...Word[]],
): z.ZodType<Word, Word> => z.enum(allowed).meta({ examples: [allowed[0]] })

/** `yes` or `no`; gives true or false. */
export const yesOrNo = (): z.ZodType<boolean, 'yes' | 'no'> =>
  z
    .enum(['yes', 'no'])
    .meta({ examples: ['yes'] })
    .transform((text) => text === 'yes')

interface Bound {
  readonly text: string
  readonly value: number
  readonly unit: string
  readonly words: string
  readonly allows: (value: number) => boolean
}

/** What is known of a field stays with the text it begins as, where a description of the file format finds it. */
const typed = (facts: Parameters<z.ZodString['meta']>[0]): z.ZodString => z.string().meta(facts)

const LONGEST_SHOWN = 40 // [–] characters of a wrong text that a message repeats; common practice

const clip = (text: string): string =>
  text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}…` : text

function refuse(context: z.RefinementCtx, fault: Fault): never {
  report(context, fault)
  return z.NEVER
}

function boundsOf(kind: QuantityKind, limits: QuantityLimits): Bound[] {
  const bound = (
    text: string | undefined,
    wording: string,
    test: (value: number, limit: number) => boolean,
  ): Bound[] => {
    if (text === undefined) return []
    const read = parseQuantity(text, kind)
    if (!read.ok) throw new RangeError(`limit of a ${kind}: ${read.message}`)
    const { value, unit } = read
    return [{ text, value, unit, words: wording, allows: (given) => test(given, value) }]
  }
  return [
    ...bound(limits.min, 'less than the smallest allowed,', (value, limit) => value >= limit),
    ...bound(limits.max, 'more than the largest allowed,', (value, limit) => value <= limit),
    ...bound(limits.above, 'not more than', (value, limit) => value > limit),
    ...bound(limits.below, 'not less than', (value, limit) => value < limit),
  ]
}

function rangeWords({ min, max, above, below }: QuantityLimits): string {
  const parts = [
    min === undefined ? '' : `from ${min}`,
    above === undefined ? '' : `more than ${above}`,
    max === undefined ? '' : `up to ${max}`,
    below === undefined ? '' : `less than ${below}`,
  ]
  return parts
    .filter((part) => part !== '')
    .join(' and ')
    .replace(/ and up to/, ' up to')
}

/** The usual example of the kind, or a limit if the example would break one. */
function exampleWithin(kind: QuantityKind, limits: QuantityLimits): string {
  const { example } = KINDS[kind]
  const read = parseQuantity(example, kind)
  const fits = read.ok && boundsOf(kind, limits).every(({ allows }) => allows(read.value))
  return fits ? example : (limits.min ?? limits.max ?? example)
}

interface NumberRule {
  readonly limits: NumberLimits
  readonly form: 'whole-number' | 'plain-number'
  readonly pattern: string
  readonly what: string
  readonly code: string
}

function numberField({ limits, form, pattern, what, code }: NumberRule): Field<number> {
  const { min = Number.NEGATIVE_INFINITY, max = Number.POSITIVE_INFINITY } = limits
  const example = String(Math.min(Math.max(1, min), max))
  const range = rangeWords({
    ...(limits.min === undefined ? {} : { min: String(limits.min) }),
    ...(limits.max === undefined ? {} : { max: String(limits.max) }),
  })
  const allowed = `Allowed ${range}.`
  const shape = new RegExp(pattern)
  return typed({
    examples: [example],
    'x-form': form,
    'x-allowed': range,
    'x-least': limits.min,
    'x-most': limits.max,
    pattern,
  }).transform((text, context) => {
    const plain = plainNumberText(text)
    if (!shape.test(plain) || plain.length > LONGEST_NUMBER) {
      const refusal = refuseNumber(plain)
      return refuse(context, {
        code: refusal?.code ?? code,
        message: `"${clip(text.trim())}" ${refusal?.fault ?? `is not ${what}`}`,
        advice: refusal?.advice ?? `Write ${what} without a unit, for example ${example}.`,
      })
    }
    const value = Number(plain)
    if (value >= min && value <= max) return value === 0 ? 0 : value
    const side =
      value < min ? `less than the smallest allowed, ${min}` : `more than the largest allowed, ${max}`
    return refuse(context, { code: 'out-of-range', message: `"${plain}" is ${side}`, advice: allowed })
  })
}

const LONGEST_NUMBER = 20 // [–] characters; common practice

/** A day past the end of its month would be moved to the end, and then no longer be the text given. */
function isDay(text: string): boolean {
  try {
    return Temporal.PlainDate.from(text).toString() === text
  } catch {
    return false
  }
}

interface TextRule {
  readonly max: number
  readonly lines?: boolean
  /** may be given in several languages */
  readonly words?: boolean
}

function textField({ max, lines = false, words: translated = false }: TextRule): Field<string> {
  return typed({
    maxLength: max,
    'x-form': lines ? 'lines' : 'text',
    ...(translated ? { [WORDS]: true } : {}),
  }).transform((typed, context) => {
    const text = typed.normalize('NFC').replace(/\r\n?/g, '\n').trim()
    const fault = textFault(text, max, lines)
    return fault === undefined ? text : refuse(context, fault)
  })
}

function textFault(text: string, max: number, lines: boolean): Fault | undefined {
  if (text === '')
    return {
      code: 'text-empty',
      message: 'there is no text here',
      advice: 'Write the text, or delete the line.',
    }
  const length = [...text].length
  if (length > max)
    return {
      code: 'text-too-long',
      message: `this text has ${length} characters; there is room for ${max}`,
      advice: 'Shorten it.',
    }
  if (!lines && text.includes('\n'))
    return {
      code: 'text-several-lines',
      message: 'this text goes over several lines',
      advice: 'Put it on one line.',
    }
  const strange = unprintable(text)
  if (strange.length === 0) return undefined
  return {
    code: 'text-not-printable',
    message: `the printing fonts do not have ${strange.slice(0, 5).map(named).join(', ')}`,
    advice: 'Use other characters. Fractions can be written like 3/8.',
  }
}

const named = (character: string): string => {
  const code = `U+${(character.codePointAt(0) ?? 0).toString(16).toUpperCase().padStart(4, '0')}`
  return /[\p{C}\p{Z}\p{M}]/u.test(character) ? code : `${character} (${code})`
}
