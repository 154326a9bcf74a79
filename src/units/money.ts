/** Money as people write it, `78.50 USD`: whole pence or cents inside, so that sums never gain or lose any. */
import { plainNumberText, refuseNumber } from './number-text.ts'
import type { QuantityRefused } from './parse.ts'
import { fromDecimal, multiply, rational } from './rational.ts'

/** An amount of one currency. */
export interface Money {
  /** three capital letters */
  readonly currency: string
  /** in the currency's smallest coin, a whole number */
  readonly minor: number
}

export interface MoneyRead {
  readonly ok: true
  readonly money: Money
}

/**
 * Decimals that prices of a currency have.
 *
 * Formula: 2, save for the currencies without a smaller coin and those with a thousandth. Validity: currencies in use.
 * @param currency three capital letters
 * @returns number of decimals
 * @source iso-4217
 */
export const decimalsOf = (currency: string): number => DECIMALS[currency] ?? 2

/** What is not 2 (from memory: ISO 4217). */
const DECIMALS: Readonly<Record<string, number>> = Object.fromEntries([
  ...['CLP', 'ISK', 'JPY', 'KRW', 'PYG', 'UGX', 'VND', 'XAF', 'XOF', 'XPF'].map((code) => [code, 0]),
  ...['BHD', 'IQD', 'JOD', 'KWD', 'LYD', 'OMR', 'TND'].map((code) => [code, 3]),
])

/**
 * Reads an amount: a decimal number, and after it the three letters of its currency.
 *
 *     minor = number · 10^decimals, exact; what has more decimals than its currency is refused, not rounded
 *
 * @param text as typed, at most 30 characters
 * @returns the amount, or code, message and advice
 * @source iso-4217
 */
export function parseMoney(text: string): MoneyRead | QuantityRefused {
  const refused = (code: string, fault: string, advice: string): QuantityRefused => ({
    ok: false,
    code,
    message: `"${text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text.trim()}" ${fault}`,
    advice,
  })
  const plain = plainNumberText(text)
  if (text.length > LONGEST)
    return refused('quantity-too-long', 'is too long for a price', `Write a price, ${EXAMPLE}.`)
  if (plain === '')
    return {
      ok: false,
      code: 'value-missing',
      message: 'no price is given',
      advice: `Write one, ${EXAMPLE}.`,
    }
  const before = /^(?:[A-Za-z]{3}|\p{Sc}) ?(?=[\d-])/u.exec(plain)
  if (before !== null) {
    const number = plain.slice(before[0].length)
    const code = /^[a-z]{3}/i.test(plain)
      ? plain.slice(0, 3).toUpperCase()
      : (SIGNS[plain.charAt(0)] ?? 'USD')
    return refused(
      'currency-after-number',
      'does not have its currency after the number, in three letters',
      `Write the number and then the currency, for example "${/^\d+(\.\d+)?$/.test(number) ? number : '78'} ${code}".`,
    )
  }
  if (plain.startsWith('-'))
    return refused('negative', 'is below zero, and a price cannot be', 'Leave the minus sign out.')
  const spelling = refuseNumber(plain)
  if (spelling !== undefined) return refused(spelling.code, spelling.fault, spelling.advice)
  const { number, rest = '' } = AMOUNT.exec(plain)?.groups ?? {}
  if (number === undefined)
    return refused('not-a-number', 'is not a price', `Write a number and its currency, ${EXAMPLE}.`)
  if (rest === '')
    return refused(
      'currency-missing',
      'is a price without its currency',
      `Write the currency after the number, in three letters, for example "${number} USD".`,
    )
  if (!/^[A-Z]{3}$/.test(rest)) {
    const meant = /^[a-z]{3}$/i.test(rest) ? ` Did you mean "${number} ${rest.toUpperCase()}"?` : ''
    return refused(
      'currency-unknown',
      `has no currency after its number, but "${rest}"`,
      `Write the currency in three capital letters, for example "${number} USD".${meant}`,
    )
  }
  const decimals = decimalsOf(rest)
  const { n, d } = multiply(fromDecimal(number), rational(10n ** BigInt(decimals)))
  if (d !== 1n)
    return refused(
      'price-too-fine',
      `has more decimals than ${rest} has`,
      decimals === 0 ? 'Write a whole number.' : `Write ${decimals} decimals at most.`,
    )
  if (n > MOST)
    return refused('out-of-range', 'is more than anything here can cost', 'Check the number of digits.')
  return { ok: true, money: { currency: rest, minor: Number(n) } }
}

/**
 * An amount as it is typed, for messages.
 *
 * Formula: minor / 10^decimals, digits moved and nothing rounded. Validity: whole amounts.
 * @param money whole minor units
 * @returns for example `78.50 USD`
 * @source iso-4217
 */
export function moneyText({ currency, minor }: Money): string {
  const decimals = decimalsOf(currency)
  const digits = String(Math.abs(minor)).padStart(decimals + 1, '0')
  const cut = digits.length - decimals
  const tail = decimals === 0 ? '' : `.${digits.slice(cut)}`
  return `${minor < 0 ? '-' : ''}${digits.slice(0, cut)}${tail} ${currency}`
}

/** What a sign most often stands for (common practice); it is asked about, never taken. */
const SIGNS: Readonly<Record<string, string>> = { $: 'USD', '€': 'EUR', '£': 'GBP', '¥': 'JPY' }
const AMOUNT = /^(?<number>\d+(?:\.\d+)?) *(?<rest>.*)$/
const EXAMPLE = 'for example "78.50 USD"'
const LONGEST = 30 // [–] characters; common practice
const MOST = 1_000_000_000_000n // in the smallest coin: sums of many stay whole numbers that a double holds
