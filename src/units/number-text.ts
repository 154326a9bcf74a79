/** Reads a number as a maker writes it (`12.4`, `2 1/4`, `2-1/4`, `2¼`) and says why another spelling is refused. */
import type { Rational } from './rational.ts'
import { add, fromDecimal, rational } from './rational.ts'

export interface NumberRefusal {
  readonly code: string
  /** what is wrong, to follow the quoted text: `has a decimal comma` */
  readonly fault: string
  readonly advice: string
}

export interface LeadingNumber {
  readonly value: Rational
  /** true for a plain whole number without fraction or decimals */
  readonly whole: boolean
  /** what follows the number, without leading spaces */
  readonly rest: string
}

/**
 * Brings the many spaces, minus signs and fraction characters of keyboards and printed sheets to plain ones.
 *
 * @param text  as typed
 * @returns the text with ordinary spaces, `-` and `/`, trimmed; `2¼` becomes `2 1/4`
 * @source common practice
 */
export const plainNumberText = (text: string): string =>
  text
    .replace(/[\u00a0\u2007\u2009\u202f\t]/g, ' ')
    .replace(/\u2212/g, '-')
    .replace(/\u2044/g, '/')
    .replace(
      VULGAR,
      (_, whole: string, sign: string) => `${whole}${whole === '' ? '' : ' '}${FRACTIONS[sign]}`,
    )
    .trim()

/**
 * Says why a text that holds a number is spelled in a way that could be misread.
 *
 * @param plain  text from plainNumberText
 * @returns the first fault found, or undefined if the spelling is fine or no rule knows it
 * @source common practice
 */
export const refuseNumber = (plain: string): NumberRefusal | undefined =>
  REFUSALS.find(({ pattern }) => pattern.test(plain))

/**
 * Takes the number off the front of a text that refuseNumber has passed.
 *
 * @param plain  text from plainNumberText, without a sign
 * @returns the exact number and the rest, a refusal, or undefined if the text does not begin with a number
 * @source common practice
 */
export function takeNumber(plain: string): LeadingNumber | NumberRefusal | undefined {
  const match = NUMBER.exec(plain)
  if (match === null) return undefined
  const { whole, top, bottom, decimal } = match.groups ?? {}
  const rest = plain.slice(match[0].length).trimStart()
  if (decimal !== undefined) return { value: fromDecimal(decimal), whole: !decimal.includes('.'), rest }
  const [numerator, denominator] = [BigInt(top ?? 0), BigInt(bottom ?? 0)]
  if (denominator === 0n) return ZERO_DENOMINATOR
  if (whole === undefined) return { value: rational(numerator, denominator), whole: false, rest }
  if (numerator >= denominator) return IMPROPER
  return { value: add(rational(BigInt(whole)), rational(numerator, denominator)), whole: false, rest }
}

const NUMBER =
  /^(?:(?:(?<whole>\d+)[ -])?(?<top>\d+) ?\/ ?(?<bottom>\d+)(?![\d.])|(?<decimal>\d+(?:\.\d+)?)(?![\d.]))/

const FRACTIONS: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅓': '1/3',
  '⅔': '2/3',
  '⅕': '1/5',
  '⅖': '2/5',
  '⅗': '3/5',
  '⅘': '4/5',
  '⅙': '1/6',
  '⅚': '5/6',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
}
const VULGAR = new RegExp(`(\\d*) *([${Object.keys(FRACTIONS).join('')}])`, 'g')

const ZERO_DENOMINATOR: NumberRefusal = {
  code: 'zero-denominator',
  fault: 'divides by zero',
  advice: 'Write a fraction such as 1/2, with a number other than 0 below the line.',
}
const IMPROPER: NumberRefusal = {
  code: 'improper-fraction',
  fault: 'has a whole number and then a fraction of 1 or more',
  advice: 'Check the fraction: its upper number must be the smaller one, for example 2 1/4.',
}

/** In this order: the first that fits is the most helpful one. */
const REFUSALS: readonly (NumberRefusal & { readonly pattern: RegExp })[] = [
  {
    pattern: /^[+-]?0[xob][\da-f]/i,
    code: 'number-base',
    fault: 'is not a number in ordinary digits',
    advice: 'Write ordinary digits, for example 12.4.',
  },
  {
    pattern: /^[+-]?\d+(?:\.\d+)?e[+-]?\d/i,
    code: 'exponent',
    fault: 'has an exponent',
    advice: 'Write all digits of the number, for example 1200 rather than 1.2e3.',
  },
  {
    pattern: /^[+-]?\.?(?:nan|inf|infinity)\b/i,
    code: 'not-a-number',
    fault: 'is not a number',
    advice: 'Write digits, for example 12.4.',
  },
  {
    pattern: /^[+-]?\d{1,3}(?:,\d{3})+(?!\d)/,
    code: 'thousands-separator',
    fault: 'has a comma that could be a thousands mark or a decimal comma',
    advice: 'Write thousands without a mark (1250) and decimals with a point (1.25).',
  },
  {
    pattern: /\d,\d/,
    code: 'decimal-comma',
    fault: 'has a decimal comma',
    advice: 'Write a point instead of the comma, for example 12.4.',
  },
  {
    pattern: /\d['_\u2019]\d{3}(?!\d)|\d +\d+(?! *[\d/])|\d\.\d{3}\.\d/,
    code: 'thousands-separator',
    fault: 'has a mark or space inside the number',
    advice: 'Write the digits together, for example 1250. A fraction is written like 2 1/4.',
  },
  {
    pattern: /(?:^|[^\d.])0\d/,
    code: 'leading-zero',
    fault: 'begins with a zero that does not belong there',
    advice: 'Leave the zero out, for example 8 rather than 08. Decimals below 1 are written like 0.8.',
  },
  {
    pattern: /(?:^|[^\d])\.\d/,
    code: 'leading-point',
    fault: 'begins with a point, which is easily overlooked',
    advice: 'Write a zero before the point, for example 0.5.',
  },
  {
    pattern: /\d\.(?!\d)/,
    code: 'trailing-point',
    fault: 'ends with a point',
    advice: 'Leave the point out or write the decimals, for example 5 or 5.0.',
  },
  {
    pattern: /\d *(?:-|\u2013|\u2014|to|\.\.+|±|\+\/?-) *\d+(?! *[\d/])|\d *± *\d|\d +- *\d|\d *- +\d/,
    code: 'range-not-allowed',
    fault: 'looks like two numbers, a range or a tolerance',
    advice: 'Write one number.',
  },
  {
    pattern: /^\+/,
    code: 'plus-sign',
    fault: 'begins with a plus sign',
    advice: 'Leave the plus sign out.',
  },
]
