import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { decimalsOf, type Money, moneyText, parseMoney } from '../src/units.ts'
import { moneyShown } from './text/in-english.ts'

const SEEDED = { seed: 20270301, numRuns: 300 }
const read = (text: string): Money => {
  const result = parseMoney(text)
  if (!result.ok) throw new Error(result.message)
  return result.money
}

describe('by hand: prices as they are typed', () => {
  test.each([
    ['78 USD', 'USD', 7800],
    ['78.5 USD', 'USD', 7850],
    ['78.50 USD', 'USD', 7850],
    ['78.50USD', 'USD', 7850],
    [' 0.05 EUR ', 'EUR', 5],
    ['0 GBP', 'GBP', 0],
    ['1250.00\u00a0USD', 'USD', 125_000],
    // no smaller coin, and a thousandth
    ['940 JPY', 'JPY', 940],
    ['1.250 KWD', 'KWD', 1250],
    ['1.25 KWD', 'KWD', 1250],
    // 0.29 and 1.15 are no exact binary numbers: 100 times them is 28.999… and 114.999…
    ['0.29 USD', 'USD', 29],
    ['1.15 USD', 'USD', 115],
    ['4.35 USD', 'USD', 435],
  ] as const)('%s', (text, currency, minor) => {
    expect(read(text)).toEqual({ currency, minor })
  })

  test.each([
    ['', 'value-missing'],
    ['78', 'currency-missing'],
    ['$78', 'currency-after-number'],
    ['€ 78.50', 'currency-after-number'],
    ['USD 78', 'currency-after-number'],
    ['78 usd', 'currency-unknown'],
    ['78 dollars', 'currency-unknown'],
    ['78 $', 'currency-unknown'],
    ['78.505 USD', 'price-too-fine'],
    ['9.5 JPY', 'price-too-fine'],
    ['1,250 USD', 'thousands-separator'],
    ['78,50 USD', 'decimal-comma'],
    ['-5 USD', 'negative'],
    ['+5 USD', 'plus-sign'],
    ['1/2 USD', 'currency-unknown'],
    ['cheap', 'not-a-number'],
    ['1e3 USD', 'exponent'],
    ['78.50 USD or so, perhaps 80 USD', 'quantity-too-long'],
    ['99999999999999999 USD', 'out-of-range'],
  ] as const)('%s is refused: %s', (text, code) => {
    const result = parseMoney(text)
    expect(result.ok).toBe(false)
    if (!result.ok) {
      expect(result.code).toBe(code)
      expect(result.advice).not.toBe('')
    }
  })

  test('a currency in small letters is understood in the advice, and not taken', () => {
    const result = parseMoney('78 usd')
    expect(result.ok ? '' : result.advice).toContain('"78 USD"')
  })

  test('every amount that is written out is read back, and a thousand of them add without noise', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 10_000_000 }),
        fc.constantFrom('USD', 'EUR', 'JPY', 'KWD'),
        fc.integer({ min: 1, max: 1000 }),
        (minor, currency, times) => {
          const money = { currency, minor }
          expect(read(moneyText(money))).toEqual(money)
          let sum = 0
          for (let made = 0; made < times; made += 1) sum += read(moneyText(money)).minor
          expect(sum).toBe(minor * times)
          expect(Number.isSafeInteger(sum)).toBe(true)
        },
      ),
      SEEDED,
    )
  })
})

describe('by hand: prices as they are printed', () => {
  const plain = (money: Money): string => moneyShown(money).replace(/\u00a0/g, ' ')
  test.each([
    [7800, 'USD', '78.00 USD'],
    [5, 'EUR', '0.05 EUR'],
    [0, 'USD', '0.00 USD'],
    [125_000, 'USD', '1 250.00 USD'],
    [940, 'JPY', '940 JPY'],
    [1250, 'KWD', '1.250 KWD'],
  ] as const)('%d of %s', (minor, currency, shown) => {
    expect(plain({ minor, currency })).toBe(shown)
  })

  test('decimals', () => {
    // from memory: ISO 4217
    expect(['USD', 'JPY', 'KWD'].map(decimalsOf)).toEqual([2, 0, 3])
  })
})
