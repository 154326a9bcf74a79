import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { QuantityKind } from '../src/units.ts'
import { KINDS, parseQuantity, quantityInUnit } from '../src/units.ts'
import { lengthShown, massShown, percentShown, temperatureShown } from './text/in-english.ts'

const SEEDED = { seed: 20270314, numRuns: 300 }

const read = (text: string, kind: QuantityKind): number => {
  const result = parseQuantity(text, kind)
  if (!result.ok) throw new Error(`${text}: ${result.code}`)
  return result.value
}

describe('by hand', () => {
  test.each([
    // text, kind, value in SI, unit
    ['2 1/4 in', 'length', 0.05715, 'in'], // 2.25 · 25.4 mm
    ['2-1/4"', 'length', 0.05715, 'in'],
    ['2¼ in', 'length', 0.05715, 'in'],
    ['2 ¼ in', 'length', 0.05715, 'in'],
    ['2 1⁄4 in', 'length', 0.05715, 'in'],
    ['2 1/4”', 'length', 0.05715, 'in'], // curly mark put in by a keyboard
    ['2 1/4″', 'length', 0.05715, 'in'],
    ['½in', 'length', 0.0127, 'in'],
    ['9/4 in', 'length', 0.05715, 'in'],
    ['57 mm', 'length', 0.057, 'mm'],
    ['57mm', 'length', 0.057, 'mm'],
    ['57\u202fmm', 'length', 0.057, 'mm'], // as printed sheets space it
    ['1 ft 3 in', 'length', 0.381, 'in'], // 15 · 25.4 mm
    [`1' 3"`, 'length', 0.381, 'in'],
    [`1'-3 1/2"`, 'length', 0.3937, 'in'], // 15.5 · 25.4 mm
    ['1 m 5 cm', 'length', 1.05, 'cm'],
    ['12.4 kg', 'mass', 12.4, 'kg'],
    ['2 lb 3 oz', 'mass', 0.992233309375, 'oz'], // 35 · 28.349523125 g
    ['110 F', 'temperature', 316.48333333333335, '°F'], // 110 °F = 43 1/3 °C
    ['43 °C', 'temperature', 316.15, '°C'],
    ['43 C', 'temperature', 316.15, '°C'],
    ['−40 °C', 'temperature', 233.15, '°C'],
    ['-40 F', 'temperature', 233.15, '°F'], // the scales meet
    ['-459.67 F', 'temperature', 0, '°F'],
    ['9 °F', 'temperatureDifference', 5, '°F'],
    ['4 weeks', 'duration', 2_419_200, 'weeks'], // 4 · 7 · 86400
    ['1 h 30 min', 'duration', 5400, 'min'],
    ['33 %', 'ratio', 0.33, '%'],
    ['12.5%', 'ratio', 0.125, '%'],
    ['-5 %', 'ratio', -0.05, '%'], // more lye than the fats can take
    ['250 ml', 'volume', 0.00025, 'ml'],
    ['1.5 l', 'volume', 0.0015, 'l'],
    ['1 gal 2 qt', 'volume', 0.005678117676, 'qt'], // 1.5 · 3.785411784 l
    ['900 W', 'power', 900, 'W'],
    ['680 kg/m3', 'density', 680, 'kg/m3'],
    ['0 g', 'mass', 0, 'g'],
  ] as const)('%s (%s) is %d', (text, kind, value, unit) => {
    expect(parseQuantity(text, kind)).toEqual({ ok: true, value, unit })
  })

  test.each([
    ['', 'mass', 'value-missing'],
    ['   ', 'mass', 'value-missing'],
    ['450', 'mass', 'unit-missing'],
    ['5 lb 3', 'mass', 'unit-missing'],
    ['7/8', 'length', 'unit-missing'],
    ['3 mm', 'mass', 'unit-wrong-kind'],
    ['450 g', 'length', 'unit-wrong-kind'],
    ['450 kgs', 'mass', 'unit-unknown'],
    ['450 G', 'mass', 'unit-unknown'],
    ['3 g g', 'mass', 'unit-unknown'],
    ['4 oz', 'volume', 'unit-ambiguous'],
    ['5 "', 'duration', 'unit-ambiguous'],
    ["5 '", 'duration', 'unit-ambiguous'],
    ['90 m', 'duration', 'unit-ambiguous'],
    ['3 months', 'duration', 'unit-ambiguous'],
    ['110 °', 'temperature', 'unit-ambiguous'],
    ['12,4 kg', 'mass', 'decimal-comma'],
    ['1,250 g', 'mass', 'thousands-separator'],
    ['1 250 g', 'mass', 'thousands-separator'],
    ['1\u202f250 g', 'mass', 'thousands-separator'],
    ["1'250 g", 'mass', 'thousands-separator'],
    ['1_250 g', 'mass', 'thousands-separator'],
    ['1.250.000 g', 'mass', 'thousands-separator'],
    ['08 mm', 'length', 'leading-zero'],
    ['2 01/4 in', 'length', 'leading-zero'],
    ['.5 in', 'length', 'leading-point'],
    ['5. in', 'length', 'trailing-point'],
    ['1e3 g', 'mass', 'exponent'],
    ['1.5E-3 kg', 'mass', 'exponent'],
    ['0x1F g', 'mass', 'number-base'],
    ['0b11 g', 'mass', 'number-base'],
    ['NaN g', 'mass', 'not-a-number'],
    ['inf g', 'mass', 'not-a-number'],
    ['-Infinity g', 'mass', 'not-a-number'],
    ['a little', 'mass', 'not-a-number'],
    ['~5 g', 'mass', 'not-a-number'],
    ['5 ± 1 mm', 'length', 'range-not-allowed'],
    ['40-50 g', 'mass', 'range-not-allowed'],
    ['40 to 50 g', 'mass', 'range-not-allowed'],
    ['3 - 1/4 in', 'length', 'range-not-allowed'],
    ['-3 g', 'mass', 'negative'],
    ['−3 g', 'mass', 'negative'],
    ['+3 g', 'mass', 'plus-sign'],
    ['1/0 in', 'length', 'zero-denominator'],
    ['2 5/4 in', 'length', 'improper-fraction'],
    ['2 4/4 in', 'length', 'improper-fraction'],
    ['1 ft 15 in', 'length', 'part-too-large'],
    ['1 ft 12 in', 'length', 'part-too-large'],
    ['2 lb 16 oz', 'mass', 'part-too-large'],
    ['1 ft 3 cm', 'length', 'units-mixed'],
    ['3 in 1 ft', 'length', 'units-mixed'],
    ['1 ft 1 ft', 'length', 'units-mixed'],
    ['1.5 ft 3 in', 'length', 'part-not-whole'],
    ['-300 C', 'temperature', 'below-absolute-zero'],
    ['-459.68 F', 'temperature', 'below-absolute-zero'],
    ['-1 K', 'temperature', 'below-absolute-zero'],
    [`${'1'.repeat(40)} g`, 'mass', 'quantity-too-long'],
  ] as const)('%s (%s) is refused as %s', (text, kind, code) => {
    const read = parseQuantity(text, kind)
    expect(read).toMatchObject({ ok: false, code })
    if (!read.ok) expect(read.advice).not.toBe('')
  })

  test('40 characters are read, 41 are not', () => {
    expect(parseQuantity(`${'1'.repeat(38)} g`, 'mass').ok).toBe(true)
    expect(parseQuantity(`${'1'.repeat(39)} g`, 'mass').ok).toBe(false)
  })
  test('a misspelt unit comes with the one that was meant', () => {
    expect(parseQuantity('450 grm', 'mass')).toMatchObject({
      advice: expect.stringContaining('Did you mean "g'),
    })
    expect(parseQuantity('3 Weeks', 'duration')).toMatchObject({ advice: expect.stringContaining('"weeks"') })
    expect(parseQuantity('3 f', 'temperature')).toMatchObject({ advice: expect.stringContaining('"F"') })
  })
  test('a missing unit is answered with an example and the units', () => {
    expect(parseQuantity('450', 'mass')).toEqual({
      ok: false,
      code: 'unit-missing',
      message: '"450" has no unit',
      advice: 'Write the unit after the number, for example "450 g". Units of mass: g, kg, mg, oz, lb.',
    })
  })
  test('a value is told in another unit', () => {
    expect(quantityInUnit(0.001, 'length', 'in')).toBe('0.03937 in') // 1/25.4
    expect(quantityInUnit(316.15, 'temperature', '°F')).toBe('109.4 °F') // 43 · 1.8 + 32
    expect(() => quantityInUnit(1, 'length', 'kg')).toThrow(RangeError)
  })

  test('a sum of thirds of an inch is rounded once', () => {
    expect(read('1/3 in', 'length')).toBe(Number('0.0084666666666666666666666667'))
    expect(read('12345678901234567890.123 g', 'mass')).toBe(Number('12345678901234567.890123'))
  })
})

describe('by hand: properties', () => {
  const decimals = fc
    .tuple(fc.integer({ min: 0, max: 99_999 }), fc.integer({ min: 0, max: 3 }))
    .map(([digits, places]) => (digits / 10 ** places).toFixed(places))

  test('grams and ounces of one mass give the same kilograms', () => {
    // 1 oz is 28.349523125 g exactly, so n sixty-fourths of an ounce can be written out in grams.
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 10_000 }), (count) => {
        const grams = (BigInt(count) * 28_349_523_125n * 10n ** 3n) / 64n // in 10^-12 g, exact for multiples of 8
        fc.pre((BigInt(count) * 28_349_523_125n * 10n ** 3n) % 64n === 0n)
        const text = `${grams / 10n ** 12n}.${String(grams % 10n ** 12n).padStart(12, '0')} g`
        expect(read(`${count}/64 oz`, 'mass')).toBe(read(text, 'mass'))
      }),
      SEEDED,
    )
  })
  test('pounds and ounces are sixteen to one', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 50 }), fc.integer({ min: 0, max: 15 }), (pounds, ounces) => {
        expect(read(`${pounds} lb ${ounces} oz`, 'mass')).toBe(read(`${16 * pounds + ounces} oz`, 'mass'))
      }),
      SEEDED,
    )
  })
  test('what is printed is read as the same value', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 60_000 }), (count) => {
        const inches = (count / 64) * 0.0254
        const { shown } = lengthShown(inches, { unit: 'in', denominator: 64 })
        fc.pre(count / 64 < 1000) // thousands marks are for print only
        expect(read(shown, 'length')).toBeCloseTo(inches, 12)
      }),
      SEEDED,
    )
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 9999 }), (tenths) => {
        const { shown, rounded } = massShown(tenths / 10_000, { unit: 'g', step: 0.1 })
        expect(read(shown, 'mass')).toBe(rounded)
        expect(
          read(massShown(tenths / 1000, { unit: 'lb-oz', step: 0.1 }).shown.replace(/^0 lb /, ''), 'mass'),
        ).toBeCloseTo(
          tenths / 1000,
          2, // 0.05 oz is 1.4 g
        )
        expect(read(percentShown(tenths / 10_000, { decimals: 2 }), 'ratio')).toBe(tenths / 10_000)
        expect(read(temperatureShown(tenths / 10, { scale: 'C', decimals: 2 }), 'temperature')).toBe(
          tenths / 10,
        )
      }),
      SEEDED,
    )
  })
  test('never throws, never gives anything but a finite number', () => {
    const pieces = fc.constantFrom(...'0123456789./-, "\'°CFgkmlboznft½¼%e+x\u202f\u0000😀')
    const texts = fc.oneof(
      fc.array(pieces, { maxLength: 14 }).map((all) => all.join('')),
      fc.string({ maxLength: 45, unit: 'binary' }),
    )
    fc.assert(
      fc.property(texts, fc.constantFrom(...(Object.keys(KINDS) as QuantityKind[])), (text, kind) => {
        const read = parseQuantity(text, kind)
        if (read.ok) expect(Number.isFinite(read.value)).toBe(true)
        else expect([read.code, read.message, read.advice].every((each) => each.length > 0)).toBe(true)
      }),
      { ...SEEDED, numRuns: 3000 },
    )
  })
  test('every decimal and every unit is the plain product', () => {
    fc.assert(
      fc.property(decimals, (text) => {
        expect(read(`${text} kg`, 'mass')).toBe(Number(text))
        expect(read(`${text} h`, 'duration')).toBeCloseTo(Number(text) * 3600, 6)
      }),
      SEEDED,
    )
  })
})
