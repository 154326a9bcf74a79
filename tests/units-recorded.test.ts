/**
 * Recorded on 27 November 2026: which spellings of quantities, prices and names were read, and what was said of others, so that
 * nobody changes unseen what a maker may type. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { clockText, dateOf, dayNumber, minutesAt, momentAt, weekday } from '../src/units/civil-day.ts'
import { decimalsOf, moneyText, parseMoney } from '../src/units/money.ts'
import { parseQuantity, quantityInUnit } from '../src/units/parse.ts'
import {
  fromDecimal,
  fromNumber,
  greatestCommonDivisor,
  rational,
  roundHalfAway,
  toNumber,
} from '../src/units/rational.ts'
import { didYouMean } from '../src/units/spelling.ts'
import { KINDS, type QuantityKind, spellingsOf, symbolsOf } from '../src/units/tables.ts'
import { refuseUnit } from '../src/units/unit-refusal.ts'
import { expectRecorded } from './recorded.ts'

const ALL = Object.keys(KINDS) as QuantityKind[]

describe('recorded: quantities', () => {
  test('units', () =>
    expectRecorded(
      ALL.map((kind) => ({
        kind,
        ...KINDS[kind],
        units: KINDS[kind].units.map(({ symbol, factor, offset }) => [
          symbol,
          toNumber(factor),
          offset === undefined ? 0 : toNumber(offset),
          [0, 1, 273.15, 1234.5678].map((value) => quantityInUnit(value, kind, symbol)),
        ]),
        spellings: spellingsOf(kind),
        symbols: symbolsOf(kind),
      })),
      'units',
      import.meta.url,
    ))

  test('as they are typed', () => {
    const texts = [
      ...[
        '',
        '5',
        '5 m',
        '5 mm',
        '-5 °C',
        '-300 °C',
        '5 ft 3 in',
        '5 ft 12 in',
        '5 in 3 ft',
        '1.5 ft 3 in',
        '2 lb 3 oz',
      ],
      ...[
        '1 1/4 in',
        '1 5/4 in',
        '1/0 in',
        '1,5 kg',
        '1,500 kg',
        '1 500 kg',
        '08 g',
        '.5 g',
        '5. g',
        '5-6 g',
        '+5 g',
      ],
      ...[
        '0x10 g',
        '1e3 g',
        'nan',
        '5 oz',
        '5 month',
        '5 "',
        '5 °',
        '5 kilogrm',
        '5 gramm',
        '5 KG',
        '5 qqq',
        '5 k',
        '¾ in',
      ],
      ...[
        '2¼ lb',
        '5 min',
        '5 h 90 min',
        '5 W',
        `${'1'.repeat(39)} g`,
        `${'1'.repeat(38)} g`,
        `${'1'.repeat(41)} g`,
      ],
    ]
    const kinds = ['length', 'mass', 'volume', 'temperature', 'duration'] as const
    expectRecorded(
      texts.map((text) => [
        text,
        ...kinds.map((kind) => {
          const found = parseQuantity(text, kind)
          return found.ok ? `${found.value} in ${found.unit}` : found.code
        }),
      ]),
      'typed-quantities',
      import.meta.url,
    )
  })

  test('what is said of units that are not known', () => {
    const spellings = [
      '',
      'kilogrm',
      'kgg',
      'KG',
      'mtr',
      'inchs',
      'fl',
      'milimetres',
      'c',
      'deg',
      'm',
      'oz',
      'millimmeterss',
      'x',
    ]
    expectRecorded(
      (['length', 'mass', 'volume', 'temperature', 'duration', 'ratio'] as const).map((kind) =>
        spellings.map((spelling) =>
          [kind, spelling, refuseUnit(spelling, kind).advice.slice(0, 60)].join(': '),
        ),
      ),
      'unknown-units',
      import.meta.url,
    )
  })
})

describe('recorded: prices, names and days', () => {
  test('prices', () => {
    const texts = [
      ...[
        '',
        '78.50 USD',
        '78.5 USD',
        '78.505 USD',
        '78 JPY',
        '78.5 JPY',
        '1.234 KWD',
        '1.2345 KWD',
        '78.50',
        '78.50 usd',
      ],
      ...[
        '$78',
        '€ 78.50',
        'USD 78',
        '£1,5',
        '-5 USD',
        '78,50 USD',
        '1000000000000 JPY',
        '1000000000001 JPY',
        '10000000000.01 USD',
      ],
      ...['78.50 dollars', 'abc', `${'7'.repeat(27)} USD`, `${'7'.repeat(26)} USD`],
    ]
    expectRecorded(
      {
        read: texts.map((text) => [text, parseMoney(text)]),
        decimals: ['USD', 'JPY', 'KWD', 'XXX'].map(decimalsOf),
        written: ['USD', 'JPY', 'KWD'].flatMap((currency) =>
          [0, 1, 9, 10, 99, 100, 1234, -5, -12345].map((minor) => moneyText({ currency, minor })),
        ),
      },
      'prices',
      import.meta.url,
    )
  })

  test('names', () => {
    const known = [
      'coconut',
      'coconut-oil',
      'shea-butter',
      'shea',
      'olive oil',
      'castor',
      'palm_kernel',
      'lye',
      'Cocoa',
      'x'.repeat(61),
    ]
    const typed = [
      ...[
        'cocnut',
        'coco',
        'coconuts',
        'shae',
        'sheabutter',
        'butter',
        'oil',
        'ol',
        'olive',
        'kernel',
        'COCOA',
        'lie',
        'ly',
      ],
      ...[
        'coconut-oil-raw',
        'castro',
        'casstoor',
        'cocca',
        'x'.repeat(60),
        'x'.repeat(61),
        'x'.repeat(62),
        '',
        'zzzzzz',
      ],
    ]
    expectRecorded(
      typed.map((name) => [
        name,
        ...[0, 1, 2, 3, 5].map((edits) => didYouMean(name, known, edits) ?? 'nothing'),
      ]),
      'names',
      import.meta.url,
    )
  })

  test('days and fractions', () => {
    const days = [-719468, -719469, -354285, -1, 0, 58, 59, 60, 11016, 20000, 2932896]
    const dates = [
      '0001-01-01',
      '0400-02-29',
      '0999-12-31',
      '1000-01-01',
      '1009-12-31',
      '1900-03-01',
      '2000-02-29',
      '2027-11-27',
    ]
    const numbers = [0, 1e-9, 0.1, 1 / 3, 2.5, 1234567.125, 1e15, 1e21, -0.75]
    expectRecorded(
      {
        days: days.map((day) => [day, dateOf(day), weekday(day)]),
        dates: dates.map((date) => [date, dayNumber(date), minutesAt({ date, minute: 61 })]),
        moments: [-1441, -1440, -1, 0, 1439, 1440, 987654].map(momentAt),
        clocks: [0, 9, 60, 601, 1439].map(clockText),
        numbers: numbers.map((one) => [
          `${fromNumber(one).n}/${fromNumber(one).d}`,
          toNumber(fromNumber(one)),
        ]),
        decimals: ['0', '0.50', '12.40', '1000', '0.000125'].map(
          (text) => `${fromDecimal(text).n}/${fromDecimal(text).d}`,
        ),
        rounded: [-7, -5, -3, 3, 5, 7].flatMap((n) =>
          [2n, 4n].map((d) => String(roundHalfAway(rational(BigInt(n), d)))),
        ),
        divisors: [
          [12n, 18n],
          [0n, 0n],
          [7n, 0n],
          [3n * 10n ** 20n, 9n * 10n ** 18n],
        ].map(([a = 0n, b = 0n]) => String(greatestCommonDivisor(a, b))),
        wide: toNumber(rational(10n ** 40n + 1n, 3n * 10n ** 22n)),
      },
      'days-and-fractions',
      import.meta.url,
    )
  })
})
