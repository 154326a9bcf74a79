/**
 * Recorded on 27 November 2026: what a label is reckoned to say, and what becomes of that when one number is another, so
 * that nobody changes it unseen. Whether it is right is asked elsewhere.
 */
import { describe, test } from 'vitest'
import { type AllergenInput, fragranceAllergens } from '../../src/labelling/allergens.ts'
import { maximumAllowableVariation } from '../../src/labelling/allowable-variation.ts'
import { batchCode, CODE_LETTERS, checkCharacter, readBatchCode } from '../../src/labelling/batch-code.ts'
import { ingredientStatement, type StatementInput } from '../../src/labelling/ingredient-statement.ts'
import { labelGates } from '../../src/labelling/label-gates.ts'
import { labelRules } from '../../src/labelling/label-rules.ts'
import { netQuantity, netStatement } from '../../src/labelling/net-quantity.ts'
import { readSheetCode, sheetCode } from '../../src/labelling/paper-code.ts'
import { REGIONS } from '../../src/labelling/regions.ts'
import { tolerableNegativeError } from '../../src/labelling/tolerable-error.ts'
import {
  fitText,
  leastLetterHeight,
  leastTextHeight,
  panelArea,
  type TextFit,
} from '../../src/labelling/type-size.ts'
import { expectRecorded } from '../recorded.ts'
import { whatChanges } from '../recorded-changes.ts'

const recorded = (name: string, value: unknown): void => expectRecorded(value, name, import.meta.url)
const figures = (...values: readonly (number | undefined)[]): string =>
  values.map((value) => (value === undefined ? '-' : String(Number(value.toPrecision(7))))).join(' ')

describe('recorded: ingredients', () => {
  const input = (region: StatementInput['region']): StatementInput => ({
    region,
    fats: [
      {
        kind: 'triglyceride',
        inci: 'Olea Europaea Fruit Oil',
        mass: 0.6,
        saponificationValue: 0.19,
        unsaponifiable: 0.01,
      },
      { kind: 'triglyceride', inci: 'Canola Oil', mass: 0.25, saponificationValue: 0.188 },
      {
        kind: 'wax',
        inci: 'Cera Alba',
        mass: 0.02,
        saponificationValue: 0.0935,
        salts: { sodium: 'Sodium Beeswax', potassium: 'Potassium Beeswax', certain: true },
      },
      { kind: 'fatty-acid', inci: 'Stearic Acid', mass: 0.05, saponificationValue: 0.198 },
    ],
    alkali: { NaOH: 0.09, KOH: 0.03 },
    water: 0.27,
    acids: [
      { acid: 'citric-acid', mass: 0.008, strength: 1 },
      { acid: 'lactic-acid', mass: 0.012, strength: 0.8 },
    ],
    additions: [
      { name: 'White', inci: 'CI 77891', kind: 'colour', mass: 0.014 },
      { name: 'Red', inci: 'CI 77491', kind: 'colour', mass: 0.004, inSomeBars: true },
      { name: 'Meadow', inci: undefined, kind: 'fragrance', mass: 0.03 },
      { name: 'Milk', inci: 'Goat Milk', kind: 'plain', mass: 0.08, water: 0.07 },
      { name: 'Zinc', inci: 'Zinc Oxide', kind: 'plain', mass: 0.013, nano: true },
    ],
    allergens: [
      { name: 'Linalool', mass: 0.0015 },
      { name: 'Citral', mass: 0.0002 },
    ],
    finishedMass: 1.25,
  })
  const short = (convention: 'as-put-in' | 'as-finished') => (one: StatementInput) => {
    const { lines, total, mayContain, findings } = ingredientStatement(convention, one)
    return {
      lines: lines
        .map(({ name, mass, share, group }) => `${name} ${figures(mass, share)} ${group}`)
        .join(', '),
      total,
      may: mayContain.join(),
      codes: findings.map(({ code, severity }) => `${severity} ${code}`).join(', '),
    }
  }

  test.each(REGIONS)('%s', (region) =>
    recorded(`ingredients-${region}`, [
      ingredientStatement('as-put-in', input(region)),
      ingredientStatement('as-finished', input(region)),
    ]),
  )
  test('as numbers change', () =>
    recorded('ingredients-changes', whatChanges(input('EU'), short('as-finished'), [1.3])))

  test('allergens', () => {
    const bars: AllergenInput = {
      region: 'EU',
      fragrances: [
        {
          name: 'Meadow',
          mass: 0.03,
          composition: [
            { name: 'Geraniol', share: 0.004 },
            { name: 'Linalool', share: 0.05 },
            { name: 'Menthol', share: 0.02, addedIn2023: true },
          ],
        },
        { name: 'Hay', mass: 0.012, composition: [{ name: 'geraniol', share: 0.002 }] },
        { name: 'Moss', mass: 0.01, composition: undefined },
      ],
      finishedMass: 1.25,
      placedOnMarket: '2026-07-30',
    }
    recorded('allergens', [
      whatChanges(bars, fragranceAllergens, [0, 0.7, 1.4, 30]),
      REGIONS.flatMap((region) =>
        (['rinse-off', 'leave-on'] as const).map((use) => fragranceAllergens({ ...bars, region, use })),
      ),
    ])
  })
})

describe('recorded: weights', () => {
  test('how far under a weight a bar may be', () =>
    recorded(
      'tolerances',
      [
        0, 0.004, 0.005, 0.03, 0.036, 0.0361, 0.05, 0.0501, 0.054, 0.0541, 0.0777, 0.081, 0.0811, 0.1, 0.1001,
        0.117, 0.1171, 0.125, 0.154, 0.1541, 0.177, 0.2, 0.2001, 0.208, 0.2081, 0.263, 0.2631, 0.3, 0.3001,
        0.317, 0.3171, 0.411, 0.5, 0.5001, 0.77, 1, 1.0001, 2.3456, 9.9, 10, 10.01,
      ].map((mass) => {
        const europe = tolerableNegativeError(mass)
        return figures(mass, maximumAllowableVariation(mass), europe?.error, europe?.twice)
      }),
    ))

  test('declared weights', () => {
    const bars = [126, 124.2, 125.1, 127.7, 119, 125.5, 126.3].map((grams) => grams / 1000)
    recorded('net-quantity', [
      REGIONS.flatMap((region) =>
        (['least', 'average'] as const).flatMap((rule) =>
          [true, false].map((all) => netQuantity({ region, rule, all, bars })),
        ),
      ),
      whatChanges(
        { bars, stillToLose: 0.0031, scaleError: 0.0005 },
        (one) => netQuantity({ ...one, region: 'EU', rule: 'average', all: false }),
        [0.5, 0.93, 1.1],
      ),
      whatChanges(
        { bars, stillToLose: 0.0031 },
        (one) => netQuantity({ ...one, region: 'US', rule: 'average', all: true }),
        [0.9, 1.07],
      ),
    ])
  })

  test('statements', () =>
    recorded(
      'net-statements',
      [
        7, 28.3495231, 99, 120, 453, 453.59237, 454, 999, 1000, 1005, 1234, 1814, 1814.36948, 1815, 9999,
        12345,
      ].map((grams) => [grams, netStatement(grams / 1000, 'US'), netStatement(grams / 1000, 'UK').metric]),
    ))
})

describe('recorded: letters', () => {
  test('least heights', () =>
    recorded('letter-heights', [
      REGIONS.map((region) => [region, leastTextHeight(region)]),
      REGIONS.flatMap((region) =>
        (['soap', 'cosmetic'] as const).map((kind) =>
          [0.001, 0.0032, 0.0033, 0.016, 0.017, 0.06, 0.07, 0.25, 0.26]
            .map((area) =>
              figures(
                leastLetterHeight({ region, area, declared: area, kind }),
                leastLetterHeight({ region, area, declared: 4 * area, kind, moulded: true }),
              ),
            )
            .join(', '),
        ),
      ),
      whatChanges({ shape: 'cylindrical' as const, height: 0.1, circumference: 0.2 }, panelArea, [0.5, 2]),
      panelArea({ shape: 'other', surface: 0.02 }),
    ]))

  test('texts on panels', () => {
    const text: TextFit = {
      letterHeight: 1.5875e-3,
      font: { advance: 0.5, measured: 0.7, capitalN: 0.7 },
      lines: [20, 12],
      leading: 1.2,
      panel: { width: 0.08, height: 0.05 },
    }
    recorded('text-fits', [
      whatChanges({ ...text, netWeightOf: 'US' as const }, fitText, [0.1, 0.6, 1.3, 4]),
      whatChanges(text, fitText, [0.1, 4]),
      fitText({ ...text, lines: [] }),
    ])
  })
})

describe('recorded: codes, rules and gates', () => {
  test('codes of batches', () =>
    recorded('batch-codes', [
      ['2000-01-01', '2000-02-02', '2027-03-14', '2031-12-31', '2064-02-29', '2089-09-17', '2089-09-18'].map(
        (date) =>
          ['A', 'he', 'QZ7', 'ABCDEF', 'ABCDEFG', ' x ', 'A1'].map((key) => {
            const made = batchCode(date, key)
            return made.ok ? made.batch.code : made
          }),
      ),
      ['BQG-HE-2B', 'BQG-HE-2C', 'BQG 2B', 'BQGABCDEFG2B', 'BQ0-HE-2B', ''].map(readBatchCode),
      [...CODE_LETTERS].map((letter) => checkCharacter(`BQG${letter}`)).join(''),
      [1, 2, 34, 35, 36].map((length) => checkCharacter('7'.repeat(length))),
    ]))

  test('codes of papers', () => {
    const hash = (seed: number): string =>
      Array.from({ length: 64 }, (_, at) => ((seed * (at + 3) ** 2) % 16).toString(16)).join('')
    recorded('sheet-codes', [
      [1, 2, 3, 5, 7, 11, 13].flatMap((seed) =>
        [1, 10, 9999].map((revision) => sheetCode(hash(seed), revision, hash(seed + 4)).code),
      ),
      [0, 1.5, 10_000].map((revision) => {
        try {
          return sheetCode(hash(1), revision, hash(5)).code
        } catch (error) {
          return (error as Error).message
        }
      }),
      ['', 'ABCDEFGH', 'ABCD1EFGH', 'ABCD0EFGH', 'ABCDXEFGH', 'AOCD1EFGH', 'ABCD12345EFGH'].map(
        readSheetCode,
      ),
    ])
  })

  test('rules and gates', () =>
    recorded(
      'rules-and-gates',
      REGIONS.flatMap((region) =>
        (['soap', 'cosmetic'] as const).map((soldAs) => [
          labelRules(region, soldAs).map((one) => Object.values(one).join(' ')),
          labelGates({
            region,
            soldAs,
            entered: { precautions: { text: 'none' } },
            wording: ['heals and moisturises'],
          }),
        ]),
      ),
    ))
})
