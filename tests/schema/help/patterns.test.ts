/** Patterns of typed values: whatever the program reads, they let through. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { batchKey } from '../../../src/schema/batch-key.ts'
import { count, currency, date, plainNumber, timeOfDay, words } from '../../../src/schema/fields.ts'
import {
  BATCH_KEY_PATTERN,
  CURRENCY_PATTERN,
  DATE_PATTERN,
  MONEY_PATTERN,
  PLAIN_NUMBER_PATTERN,
  quantityPattern,
  TIME_PATTERN,
  textPattern,
  WHOLE_NUMBER_PATTERN,
} from '../../../src/schema/help/patterns.ts'
import { KINDS, parseMoney, parseQuantity, type QuantityKind, spellingsOf } from '../../../src/units.ts'

const kinds = Object.keys(KINDS) as QuantityKind[]

const two = (number: number): string => String(number).padStart(2, '0')

/** As ajv and editors compile them. */
const compiled = (pattern: string): RegExp => new RegExp(pattern, 'u')

const space = fc.constantFrom('', '', ' ', ' ', '  ', '\u00a0', '\u2009', '\u202f', '\t')
const digits = fc.constantFrom('0', '1', '2', '3', '7', '12', '08', '250', '1000')
const sign = fc.constantFrom('¼', '½', '⅞')
const number = fc.oneof(
  digits,
  fc.tuple(digits, digits).map(([a, b]) => `${a}.${b}`),
  fc
    .tuple(
      fc.constantFrom('', '2 ', '2-', '0 ', '3\u00a0'),
      digits,
      fc.constantFrom('/', ' / ', '\u2044'),
      digits,
    )
    .map((parts) => parts.join('')),
  fc.tuple(fc.constantFrom('', '2', '2 ', '2-', '0'), sign).map((parts) => parts.join('')),
)
const quantityText = (kind: QuantityKind): fc.Arbitrary<string> => {
  const part = fc.tuple(number, space, fc.constantFrom(...spellingsOf(kind))).map((parts) => parts.join(''))
  return fc
    .tuple(
      space,
      fc.constantFrom('', '', '', '-', '\u2212', '- '),
      fc.array(
        fc.tuple(part, fc.constantFrom('', ' ', '-', ' - ')).map((parts) => parts.join('')),
        { maxLength: 2 },
      ),
      part,
      space,
    )
    .map(([before, minus, parts, last, after]) => `${before}${minus}${parts.join('')}${last}${after}`)
}

/** @returns how many of the texts were read; a test of none would prove nothing */
const readAndLetThrough = (
  texts: fc.Arbitrary<string>,
  reads: (text: string) => boolean,
  pattern: string,
): number => {
  const shape = compiled(pattern)
  let read = 0
  fc.assert(
    fc.property(texts, (text) => {
      if (!reads(text)) return true
      read += 1
      return shape.test(text)
    }),
    { numRuns: 300, seed: 26 },
  )
  return read
}

const parsed =
  (field: { safeParse(text: string): { success: boolean } }) =>
  (text: string): boolean =>
    field.safeParse(text).success

describe('by hand: what is read is let through', () => {
  test.each(kinds)('%s', (kind) => {
    expect(
      readAndLetThrough(quantityText(kind), (text) => parseQuantity(text, kind).ok, quantityPattern(kind)),
    ).toBeGreaterThan(30)
  })

  const dates = fc
    .tuple(
      space,
      fc.constantFrom('2027', '2028', '27'),
      fc.integer({ min: 0, max: 13 }),
      fc.integer({ min: 0, max: 32 }),
    )
    .map(([before, year, month, day]) => `${before}${year}-${two(month)}-${two(day)}`)

  const pieces = (...of: readonly string[]): fc.Arbitrary<string> =>
    fc.array(fc.constantFrom(...of), { minLength: 1, maxLength: 6 }).map((all) => all.join(''))

  test.each([
    [
      'a price',
      pieces('1', '78', '0', '.5', '.50', ' ', '\u00a0', 'USD', 'JPY'),
      (text: string) => parseMoney(text).ok,
      MONEY_PATTERN,
    ],
    ['a currency', pieces('USD', 'U', ' ', '\n'), parsed(currency()), CURRENCY_PATTERN],
    [
      'a whole number',
      pieces('0', '1', '23', '-', '\u2212', ' ', '\u2009'),
      parsed(count({ min: -1e9 })),
      WHOLE_NUMBER_PATTERN,
    ],
    [
      'a number',
      pieces('0', '1', '23', '-', '\u2212', '.5', '.', ' '),
      parsed(plainNumber()),
      PLAIN_NUMBER_PATTERN,
    ],
    ['a date', dates, parsed(date()), DATE_PATTERN],
    [
      'a time',
      pieces('8', '20', '24', ':', ':00', ':59', ' ', 'pm', 'AM', '\n'),
      parsed(timeOfDay()),
      TIME_PATTERN,
    ],
    ['a batch key', pieces('H', 'e', '2', '9', ' ', 'O', 'z'), parsed(batchKey()), BATCH_KEY_PATTERN],
    [
      'a text',
      pieces('a', 'é', 'e\u0301', ' ', '\n', '½', 'word'),
      parsed(words({ max: 4 })),
      textPattern(4, false),
    ],
    [
      'a longer text',
      pieces('a', 'e\u0301', ' ', '\n', '\r\n', 'word'),
      parsed(words({ max: 6 })),
      textPattern(6, true),
    ],
  ])('%s', (_, texts, reads, pattern) => {
    expect(
      readAndLetThrough(texts as fc.Arbitrary<string>, reads as (text: string) => boolean, pattern as string),
    ).toBeGreaterThan(3)
  })
})

describe('by hand: what nobody could read is not', () => {
  test.each([
    [
      quantityPattern('length'),
      ['57', '57 kg', '57,5 mm', '57. mm', '.5 mm', '08 mm', '-5 mm', '2 mm or so', 'mm', '1/4'],
    ],
    [quantityPattern('mass'), ['450', '450 mm', '450 grms', '1.2e3 g']],
    [quantityPattern('temperature'), ['43', '43 °', '43 degrees']],
    [quantityPattern('ratio'), ['5', '0.05', '5 parts']],
    [quantityPattern('ratio', undefined, 'as needed'), ['as much as needed', '40']],
    [MONEY_PATTERN, ['78', 'USD 78', '$78', '78 usd', '-78 USD']],
    [DATE_PATTERN, ['14.3.2027', '2027-3-14', '2027-13-01', '2027-01-32', '27-01-02']],
    [TIME_PATTERN, ['8', '8.30', '8:3', '8:60']],
    [textPattern(4, false), ['', ' ', 'fives', 'a\nb']],
  ])('%#', (pattern, texts) => {
    expect(texts.filter((text) => compiled(pattern).test(text))).toEqual([])
  })
})
