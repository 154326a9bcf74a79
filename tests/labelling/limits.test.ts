/** Limits of labels that are just met: on which side of them a label is then. */
import { describe, expect, test } from 'vitest'
import { fragranceAllergens } from '../../src/labelling/allergens.ts'
import { maximumAllowableVariation } from '../../src/labelling/allowable-variation.ts'
import { batchCode, checkCharacter, checks, readBatchCode } from '../../src/labelling/batch-code.ts'
import { ingredientStatement, type StatementInput } from '../../src/labelling/ingredient-statement.ts'
import { netQuantity, netStatement } from '../../src/labelling/net-quantity.ts'
import { readSheetCode, sheetCode } from '../../src/labelling/paper-code.ts'
import { tolerableNegativeError } from '../../src/labelling/tolerable-error.ts'
import { fitText, leastLetterHeight, type TextFit } from '../../src/labelling/type-size.ts'

const codes = ({ findings }: { readonly findings: readonly { readonly code: string }[] }): string[] =>
  findings.map(({ code }) => code)

describe('by hand: sizes that are sums or products count as what they stand for', () => {
  const INCH = 0.0254

  test('panels of just 25 and 100 square inches, whatever sides they have', () => {
    for (const [width, height, inches] of [
      [5, 5, 1 / 8],
      [2.5, 10, 1 / 8],
      [1.25, 20, 1 / 8],
      [5, 20, 3 / 16],
      [4, 25, 3 / 16],
      [20, 20, 1 / 4],
    ] as const) {
      const area = width * INCH * (height * INCH)
      expect(leastLetterHeight({ region: 'US', area, declared: 0.1, kind: 'soap' })).toBeCloseTo(
        inches * INCH,
        12,
      )
    }
  })

  test('50, 200 and 1000 g, whatever they are a difference of', () => {
    for (const [declared, millimetres] of [
      [1.05 - 1, 2],
      [2.2 - 2, 3],
      [4.1 - 3.1, 4],
      [1.1 - 0.1, 4],
    ] as const)
      expect(leastLetterHeight({ region: 'EU', area: 1, declared, kind: 'soap' })).toBeCloseTo(
        millimetres / 1000,
        12,
      )
    // 1.05 − 1 is more than 0.05 by its last bit, and 2.2 − 2 more than 0.2
    expect(1.05 - 1).toBeGreaterThan(0.05)
    expect(2.2 - 2).toBeGreaterThan(0.2)
  })

  test('a composition of 33, 56 and 11 % is all of it, one of 33, 56 and 11.1 % is more', () => {
    const of = (...shares: readonly number[]) =>
      codes(
        fragranceAllergens({
          region: 'EU',
          fragrances: [
            {
              name: 'Meadow',
              mass: 0.03,
              composition: shares.map((share, at) => ({ name: `a${at}`, share })),
            },
          ],
          finishedMass: 1.25,
        }),
      )
    // their sum is more than 1 by its last bit
    expect(0.33 + 0.56 + 0.11).toBeGreaterThan(1)
    expect(of(0.33, 0.56, 0.11)).toEqual([])
    expect(of(0.33, 0.56, 0.111)).toEqual(['fragrance-above-whole'])
  })

  test('a pound, four of them, and a kilogram', () => {
    expect(netStatement(0.45359237, 'US').avoirdupois).toEqual({ ounces: 16, pounds: 1, remainder: 0 })
    expect(netStatement(4 * 0.45359237, 'US').avoirdupois).toEqual({
      ounces: undefined,
      pounds: 4,
      remainder: 0,
    })
    expect(netStatement(1.814, 'US').avoirdupois).toEqual({ ounces: 63.98, pounds: 3, remainder: 15.98 })
    expect([
      netStatement(0.999, 'US').metric,
      netStatement(1, 'US').metric,
      netStatement(1.009, 'US').metric,
    ]).toEqual([0.999, 1, 1])
    expect([
      netStatement(9.99, 'US').metric,
      netStatement(10, 'US').metric,
      netStatement(12.39, 'US').metric,
    ]).toEqual([9.99, 10, 12.3])
  })

  test('5 g have an error that is allowed, less than 5 g none: 9 % of 5 g is 0.45, 0.5 g', () => {
    expect(tolerableNegativeError(0.005)).toEqual({ error: 0.0005, twice: 0.001 })
    expect(tolerableNegativeError(0.004999)).toBeUndefined()
    expect(tolerableNegativeError(10)?.error).toBeCloseTo(0.15, 12)
    expect(tolerableNegativeError(10.001)).toBeUndefined()
  })
})

describe('by hand: errors that are whole tenths of a gram but for their last bit', () => {
  test.each([
    // share [per mille], from, to and step [g]
    [90, 10, 50, 10],
    [45, 120, 200, 20],
    [30, 310, 500, 10],
    [15, 1020, 2000, 20],
  ])('%d per mille of %d to %d g', (share, from, to, step) => {
    for (let grams = from; grams <= to; grams += step) {
      const { error, twice } = tolerableNegativeError(grams / 1000)!
      // in tenths of a gram
      expect(error * 10_000).toBeCloseTo((share * grams) / 100, 9)
      expect(twice * 10_000).toBeCloseTo((2 * share * grams) / 100, 9)
    }
  })

  test('ends of the steps of the United States, whatever they are a difference of', () => {
    for (const [grams, variation] of [
      [36, 3.6],
      [54, 3.6],
      [81, 5.4],
      [117, 7.2],
      [154, 9],
      [208, 10.8],
      [263, 12.7],
      [317, 14.5],
    ] as const)
      for (const more of [0, 0.5, 1, 3])
        expect((maximumAllowableVariation(more + grams / 1000 - more) ?? 0) * 1000).toBeCloseTo(variation, 9)
    // 1.054 − 1 is more than 0.054 by its last bit
    expect(1.054 - 1).toBeGreaterThan(0.054)
  })

  test('a bar that is just so far under its weight is not further under it', () => {
    for (let grams = 60; grams <= 300; grams += 1) {
      const { error } = tolerableNegativeError(grams / 1000)!
      // in tenths of a gram: sixty bars of 0.2 g more
      const light = (grams * 10 - Math.round(error * 10_000)) / 10_000
      const bars = [...Array.from({ length: 60 }, () => (grams * 10 + 2) / 10_000), light]
      const found = netQuantity({ region: 'EU', rule: 'average', all: true, bars })
      expect([Math.round((found.declared ?? 0) * 1000), found.beyondTolerance]).toEqual([grams, 0])
    }
  })
})

describe('by hand: weights of many bars', () => {
  const europe = { region: 'EU', rule: 'average', all: true } as const
  const lot = (count: number, light: number): number[] =>
    Array.from({ length: count }, (_, at) => (at < light ? 0.1192 : 0.1265))

  test('three of 150 are 2 % and may be beyond the error, three of 149 are more', () => {
    // 125 − 5.7 = 119.3 g
    expect(netQuantity({ ...europe, bars: lot(150, 3) })).toMatchObject({
      declared: 0.126,
      beyondTolerance: 3,
    })
    const { declared, limit } = netQuantity({ ...europe, bars: lot(149, 3) })
    // 4.5 % of 124 g is 5.58, 5.6: 118.4; of 125 g 119.3, which is above 119.2
    expect([declared, limit]).toEqual([0.124, 'tolerable-error'])
  })

  test('five bars of many are enough to say something, four are few', () => {
    const of = (count: number) => codes(netQuantity({ ...europe, all: false, bars: lot(count, 0) }))
    expect(of(5)).toEqual([])
    expect(of(4)).toEqual(['few-bars-weighed'])
  })

  test('of two bars a mean has a low end, of one it has none', () => {
    const of = (...bars: number[]) => netQuantity({ ...europe, all: false, bars })
    // s = 1.41421 g, / √2 = 1 g; t(95 %, 1) = 6.3138: 125 − 6.3138
    expect(of(0.124, 0.126).meanAtLeast * 1000).toBeCloseTo(118.6862, 3)
    expect(of(0.124).meanAtLeast).toBe(0.124)
  })

  test('a bar of nothing was not weighed, one of a gram can be declared', () => {
    expect(codes(netQuantity({ ...europe, rule: 'least', bars: [0.1, 0] }))).toEqual(['bars-not-weighed'])
    expect(netQuantity({ ...europe, rule: 'least', bars: [0.001] })).toMatchObject({
      declared: 0.001,
      findings: [],
    })
    expect(codes(netQuantity({ ...europe, rule: 'least', bars: [0.00099] }))).toEqual(['bars-below-one-gram'])
    // off by all that it weighs
    expect(codes(netQuantity({ ...europe, rule: 'least', bars: [0.1], stillToLose: 0.1 }))).toEqual([
      'bars-not-weighed',
    ])
  })

  test('a bar just at the tolerance is not beyond it', () => {
    // 126 g bars and one of 119.3 = 125 − 5.7; mean (24 · 126 + 119.3)/25 = 125.73
    const bars = (light: number) => [...Array.from({ length: 24 }, () => 0.126), light]
    expect(netQuantity({ ...europe, bars: bars(0.1193) })).toMatchObject({
      declared: 0.125,
      beyondTolerance: 0,
    })
    // one of 25 is 4 %: 124 − 5.6 = 118.4
    expect(netQuantity({ ...europe, bars: bars(0.1192) })).toMatchObject({
      declared: 0.124,
      limit: 'tolerable-error',
    })
  })
})

describe('by hand: texts that just fit', () => {
  // type of 2 mm, letters of 1 mm, N of 1.5 mm
  const text: TextFit = {
    letterHeight: 0.0015,
    font: { advance: 0.5, measured: 0.75, capitalN: 0.75 },
    lines: [20, 12],
    leading: 1.25,
    panel: { width: 0.08, height: 0.06 },
  }
  const on = (width: number, height: number, more: Partial<TextFit> = {}) =>
    fitText({ ...text, ...more, panel: { width, height } })

  test('20 mm by 1.5 and 2.5 mm, and what the United States ask round it', () => {
    expect(codes(on(0.02, 0.004))).toEqual([])
    expect(codes(on(0.01999, 0.004))).toEqual(['label-text-too-wide'])
    expect(codes(on(0.02, 0.00399))).toEqual(['label-text-too-tall'])
    // two N at either side are 6 mm, a letter above and below 3 mm
    const us = { netWeightOf: 'US' } as const
    expect(codes(on(0.026, 0.007, us))).toEqual([])
    expect(codes(on(0.02599, 0.007, us))).toEqual(['label-text-too-wide'])
    expect(codes(on(0.026, 0.00699, us))).toEqual(['label-text-too-tall'])
  })

  test('letters that a line holds: 30 in 30 mm, 24 with the space round it', () => {
    expect(on(0.03, 0.06).lettersALine).toBe(30)
    expect(on(0.0299, 0.06).lettersALine).toBe(29)
    expect(on(0.03, 0.02, { netWeightOf: 'US' }).lettersALine).toBe(24)
    expect(on(0.005, 0.02, { netWeightOf: 'US' }).lettersALine).toBe(0)
    for (let letters = 1; letters <= 90; letters += 1)
      expect(on(letters / 1000, 0.06).lettersALine).toBe(letters)
  })

  test('5 square inches have no lowest part, a hair more has: 30 % of the height', () => {
    const us = { netWeightOf: 'US' } as const
    expect(on(2.5 * 0.0254, 2 * 0.0254, us).zone).toBeUndefined()
    expect(on(5 * 0.0254, 0.0254, us).zone).toBeUndefined()
    expect(on(2.5 * 0.0254, 2.001 * 0.0254, us).zone).toBeCloseTo(0.3 * 2.001 * 0.0254, 12)
  })

  test('letters just three times as tall as wide', () => {
    const narrow = (capitalN: number) =>
      codes(on(0.08, 0.03, { netWeightOf: 'US', font: { ...text.font, capitalN } }))
    expect(narrow(0.25)).toEqual([])
    expect(narrow(0.2499)).toEqual(['label-letters-too-narrow'])
  })

  test('no line is no text', () => {
    expect(on(0.02, 0.004, { lines: [] })).toMatchObject({ width: 0, height: 0, fits: true })
    expect(on(0.02, 0.0015, { lines: [20] })).toMatchObject({ height: 0.0015, fits: true })
  })
})

describe('by hand: ingredients at their limits', () => {
  const base: StatementInput = {
    region: 'EU',
    fats: [{ kind: 'triglyceride', inci: 'Canola Oil', mass: 0.7, saponificationValue: 0.19 }],
    alkali: { NaOH: 0, KOH: 0.12 },
    water: 0.18,
  }
  const plain = (name: string, mass: number) => ({ name, inci: name, kind: 'plain', mass }) as const

  test('a millionth of all is rounding, a little more is an ingredient', () => {
    const names = (mass: number) =>
      ingredientStatement('as-put-in', { ...base, additions: [plain('Gold', mass)] }).lines.map(
        ({ name }) => name,
      )
    expect(names(0.995e-6)).not.toContain('Gold')
    expect(names(1.005e-6)).toContain('Gold')
    expect(names(0)).not.toContain('Gold')
  })

  test('soap of potash is told by its own name where the name is unsure', () => {
    const { findings } = ingredientStatement('as-finished', { ...base, finishedMass: 0.95 })
    expect(findings.find(({ code }) => code === 'soap-name-unsure')?.values).toEqual({
      fat: 'Canola Oil',
      soap: 'Potassium Canolate',
    })
  })

  test('without any alkali all of a fat stays what it is', () => {
    const { lines, findings } = ingredientStatement('as-finished', {
      ...base,
      alkali: { NaOH: 0, KOH: 0 },
      finishedMass: 0.88,
    })
    expect(lines.map(({ name }) => name)).toEqual(['Canola Oil', 'Aqua'])
    expect(lines[0]?.mass).toBeCloseTo(0.7, 12)
    expect(lines[1]?.mass).toBeCloseTo(0.18, 12)
    expect(findings.filter(({ severity }) => severity === 'stop')).toEqual([])
  })

  test('bars just as heavy as all that is dry, or as all that went in', () => {
    // nothing reacts: 700 g are dry, 880 g wet
    const at = (finishedMass: number) =>
      codes(
        ingredientStatement('as-finished', { ...base, alkali: { NaOH: 0, KOH: 0 }, finishedMass }),
      ).filter((code) => code.startsWith('finished'))
    expect([at(0.7), at(0.88)]).toEqual([[], []])
    // a ten-thousandth of a milligram is rounding
    expect([at(0.7 - 1e-10), at(0.88 + 1e-10)]).toEqual([[], []])
    expect(at(0.69999)).toEqual(['finished-mass-below-dry'])
    expect(at(0.88001)).toEqual(['finished-mass-above-wet'])
  })

  test('a wax leaves its alcohol and its unreacted part under its own name', () => {
    // 100 g of a wax at 93.5 mg/g and half of its alkali: 0.0835 mol of 0.16665 mol react with 0.0835 · 39.997 = 3.333 g
    const wax = { kind: 'wax', inci: 'Cera Alba', mass: 0.1, saponificationValue: 0.0935 } as const
    const salts = { sodium: 'Sodium Beeswax', potassium: 'Potassium Beeswax', certain: true }
    const { lines } = ingredientStatement('as-finished', {
      ...base,
      fats: [{ ...wax, salts }],
      alkali: { NaOH: 0.003333, KOH: 0 },
      water: 0,
      finishedMass: 0.103333,
    })
    const soap = lines.find(({ name }) => name === 'Sodium Beeswax')?.mass ?? 0
    // soap of palmitic acid, 256.43 + 21.982 g/mol: 0.083333 · 278.41 = 23.2 g; all else stays wax or its alcohol
    expect(soap * 1000).toBeCloseTo(23.2, 1)
    expect(lines.find(({ name }) => name === 'Cera Alba')?.mass).toBeCloseTo(0.103333 - soap, 9)
    expect(lines).toHaveLength(2)
  })
})

describe('by hand: codes at their limits', () => {
  test('keys of one letter and of six', () => {
    expect(batchCode('2027-03-14', 'ABCDEF').ok).toBe(true)
    expect(batchCode('2027-03-14', 'ABCDEFG')).toEqual({ ok: false, problem: 'code-length' })
    for (const key of ['A', 'ABCDEF']) {
      const made = batchCode('2027-03-14', key)
      expect(made.ok && readBatchCode(made.batch.code)).toMatchObject({ ok: true, batch: { key } })
    }
    expect(readBatchCode('22222')).toEqual({ ok: false, problem: 'code-length' })
    expect(readBatchCode('222222222222')).toEqual({ ok: false, problem: 'code-length' })
  })

  test('a text needs a character beside its check, and an asterisk stands at its end alone', () => {
    // 2: 2 · 2 = 4; 38 − 4 = 34: Y
    expect(checkCharacter('2')).toBe('Y')
    expect(checks('2Y')).toBe(true)
    expect(checks('1')).toBe(false)
    expect(checks('1*')).toBe(true)
    expect(checks('*1')).toBe(false)
  })

  test('revisions from 1 to 9999', () => {
    const hash = '0123456789abcdef'.repeat(4)
    for (const revision of [1, 9999])
      expect(readSheetCode(sheetCode(hash, revision, hash).code)).toMatchObject({ ok: true })
    for (const revision of [0, 10_000, 1.5, -1])
      expect(() => sheetCode(hash, revision, hash)).toThrow(String(revision))
  })

  test('a paper’s letters are told from its figures, each with its place', () => {
    expect(readSheetCode('ABCDEFGH')).toEqual({ ok: false, problem: 'length' })
    expect(readSheetCode('ABCD12345EFGH')).toEqual({ ok: false, problem: 'length' })
    expect(readSheetCode('ABC01EFGH')).toEqual({ ok: false, problem: 'letters', at: 4, letter: '0' })
    expect(readSheetCode('ABCDXEFGH')).toEqual({ ok: false, problem: 'revision', at: 5, letter: 'X' })
    expect(readSheetCode('ABCD12X4EFGH')).toEqual({ ok: false, problem: 'revision', at: 7, letter: 'X' })
    expect(readSheetCode('ABCD05EFGH')).toEqual({ ok: false, problem: 'revision', at: 5, letter: '0' })
    expect(readSheetCode('ABCD1EF1H')).toEqual({ ok: false, problem: 'letters', at: 8, letter: '1' })
  })
})
