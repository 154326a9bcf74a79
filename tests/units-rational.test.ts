import fc from 'fast-check'
import Fraction from 'fraction.js'
import { describe, expect, test } from 'vitest'
import {
  add,
  divide,
  fromDecimal,
  fromNumber,
  multiply,
  rational,
  roundHalfAway,
  subtract,
  toNumber,
} from '../src/units/rational.ts'
import { didYouMean } from '../src/units/spelling.ts'

const SEEDED = { seed: 20270314, numRuns: 500 }
const whole = fc.bigInt({ min: -(10n ** 12n), max: 10n ** 12n })
const some = fc.tuple(whole, fc.bigInt({ min: 1n, max: 10n ** 9n })).map(([n, d]) => rational(n, d))

describe('published: fraction.js 5.3.4, exact fractions', () => {
  test('the four operations agree', () => {
    fc.assert(
      fc.property(some, some, (a, b) => {
        const [x, y] = [new Fraction(a.n, a.d), new Fraction(b.n, b.d)]
        const same = (ours: { n: bigint; d: bigint }, theirs: Fraction): void =>
          expect(ours).toEqual({ n: theirs.s * theirs.n, d: theirs.d })
        same(add(a, b), x.add(y))
        same(subtract(a, b), x.sub(y))
        same(multiply(a, b), x.mul(y))
        if (b.n !== 0n) same(divide(a, b), x.div(y))
      }),
      SEEDED,
    )
  })
})

describe('by hand', () => {
  test('decimals come in lowest terms, as a divisor finds them', () => {
    const digits = fc.bigInt({ min: -(10n ** 15n), max: 10n ** 15n })
    fc.assert(
      fc.property(digits, fc.integer({ min: 0, max: 12 }), (n, places) => {
        const sign = n < 0n ? '-' : ''
        const size = String(n < 0n ? -n : n).padStart(places + 1, '0')
        const cut = size.length - places
        const text = `${sign}${size.slice(0, cut)}${places === 0 ? '' : `.${size.slice(cut)}`}`
        expect(fromDecimal(text)).toEqual(rational(n, 10n ** BigInt(places)))
      }),
      SEEDED,
    )
    expect(fromDecimal('0.000')).toEqual({ n: 0n, d: 1n })
    expect(fromDecimal('1000.000')).toEqual({ n: 1000n, d: 1n })
    expect(fromNumber(0.0625)).toEqual({ n: 1n, d: 16n })
    expect(fromNumber(1e-20)).toEqual({ n: 1n, d: 10n ** 20n })
    expect(fromNumber(-2.5e-7)).toEqual({ n: -1n, d: 4_000_000n })
  })
  test('halves go away from zero', () => {
    expect([5n, 3n, 1n, -1n, -3n, -5n].map((n) => roundHalfAway(rational(n, 2n)))).toEqual([
      3n,
      2n,
      1n,
      -1n,
      -2n,
      -3n,
    ])
    expect(roundHalfAway(rational(499n, 1000n))).toBe(0n)
  })
  test('a decimal keeps its value, and noise in the sixteenth digit goes', () => {
    expect(fromDecimal('-12.50')).toEqual({ n: -25n, d: 2n })
    expect(fromNumber(0.1 + 0.2)).toEqual({ n: 3n, d: 10n })
    expect(fromNumber(0.00079375)).toEqual(rational(79375n, 10n ** 8n))
    expect(fromNumber(1.5e20)).toEqual(rational(15n * 10n ** 19n))
    expect(() => fromNumber(Number.NaN)).toThrow(RangeError)
  })
  test('a fraction becomes the nearest number, also with more digits than a number has', () => {
    expect(toNumber(rational(1n, 3n))).toBe(1 / 3)
    expect(toNumber(rational(0n))).toBe(0)
    // exactly between 2^53 and 2^53 + 2: to the even one; a trifle more goes up
    expect(toNumber(rational(2n ** 53n + 1n))).toBe(2 ** 53)
    expect(toNumber(rational((2n ** 53n + 1n) * 10n ** 30n + 1n, 10n ** 30n))).toBe(2 ** 53 + 2)
    expect(toNumber(rational(-1n, 3n * 10n ** 30n))).toBe(Number('-3.3333333333333333333333e-31'))
  })
  test('a decimal of any number of digits becomes the number that the language reads', () => {
    const digits = fc.tuple(fc.bigInt({ min: 0n, max: 10n ** 25n }), fc.integer({ min: 1, max: 24 }))
    fc.assert(
      fc.property(digits, ([value, places]) => {
        const text = String(value).padStart(places + 1, '0')
        const decimal = `${text.slice(0, -places)}.${text.slice(-places)}`
        expect(toNumber(fromDecimal(decimal))).toBe(Number(decimal))
      }),
      SEEDED,
    )
  })
  test('near words are offered, far ones are not', () => {
    expect(didYouMean('mas', ['mass', 'fat'])).toBe('mass')
    expect(didYouMean('MASS', ['fat', 'mass'])).toBe('mass')
    expect(didYouMean('superfatt', ['superfat'])).toBe('superfat')
    expect(didYouMean('wax', ['mass'])).toBeUndefined()
    expect(didYouMean('abcdefgh', ['zzzdefgh', 'abcdzzzz'])).toBe('zzzdefgh')
    expect(didYouMean('abcdefgh', ['abcdzzzz'])).toBeUndefined()
  })
})
