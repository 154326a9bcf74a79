import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { LengthStyle, Locale } from '../../src/text/format.ts'
import { unprintable } from '../../src/text/glyphs.ts'
import {
  dateShown,
  durationShown,
  english,
  formatNumber,
  lengthShown,
  massShown,
  monthShown,
  percentShown,
  shortDateShown,
  temperatureDifferenceShown,
  temperatureShown,
  timeShown,
  volumeShown,
} from './in-english.ts'

const SEEDED = { seed: 20270314, numRuns: 500 }

/** Printed text with plain spaces and minus signs, as it is easier to write here. */
const plain = (text: string): string => text.replace(/\u00a0/g, ' ').replace(/\u2212/g, '-')
const inches = (millimetres: number, denominator: 16 | 32 | 64): string =>
  plain(lengthShown(millimetres / 1000, { unit: 'in', denominator }).shown).replace(/ in$/, '')

describe('published: drill sizes of mmtoinches.im, nearest 1/32 in', () => {
  test.each([
    // mm, fraction, size of the error [in, four decimals printed, so half of the last is 0.00005]
    [1, '1/32', 0.0081],
    [3, '1/8', 0.0069],
    [6, '1/4', 0.0138],
    [8, '5/16', 0.0025],
    [10, '13/32', 0.0125],
    [12, '15/32', 0.0037],
  ] as const)('%d mm', (mm, fraction, error) => {
    expect(inches(mm, 32)).toBe(fraction)
    const off = Math.abs(lengthShown(mm / 1000, { unit: 'in', denominator: 32 }).error) / 0.0254
    expect(Math.abs(off - error)).toBeLessThanOrEqual(0.00005)
  })
})

describe('by hand: fractions of an inch, by exact arithmetic', () => {
  // mm, nearest 1/16, error, nearest 1/32, error, nearest 1/64, error; errors in thousandths of an inch
  const ROWS = [
    [3, '1/8', 6.89, '1/8', 6.89, '1/8', 6.89],
    [6, '1/4', 13.78, '1/4', 13.78, '15/64', -1.845],
    [8.4, '5/16', -18.209, '11/32', 13.041, '21/64', -2.584],
    [10, '3/8', -18.701, '13/32', 12.549, '25/64', -3.076],
    [12, '1/2', 27.559, '15/32', -3.691, '15/32', -3.691],
    [12.7, '1/2', 0, '1/2', 0, '1/2', 0],
    [15, '9/16', -28.051, '19/32', 3.199, '19/32', 3.199],
    [17.7, '11/16', -9.35, '11/16', -9.35, '45/64', 6.275],
    [18, '11/16', -21.161, '23/32', 10.089, '45/64', -5.536],
    [19.05, '3/4', 0, '3/4', 0, '3/4', 0],
    [20, '13/16', 25.098, '25/32', -6.152, '25/32', -6.152],
    [24, '15/16', -7.382, '15/16', -7.382, '15/16', -7.382],
    [25, '1', 15.748, '31/32', -15.502, '63/64', 0.123],
    [50, '1 15/16', -31.004, '1 31/32', 0.246, '1 31/32', 0.246],
    [76.2, '3', 0, '3', 0, '3', 0],
    [100, '3 15/16', 0.492, '3 15/16', 0.492, '3 15/16', 0.492],
    [100.5, '3 15/16', -19.193, '3 31/32', 12.057, '3 61/64', -3.568],
    [127, '5', 0, '5', 0, '5', 0],
    [150, '5 7/8', -30.512, '5 29/32', 0.738, '5 29/32', 0.738],
    [304.8, '12', 0, '12', 0, '12', 0],
    [1525, '60 1/16', 23.13, '60 1/32', -8.12, '60 3/64', 7.505],
    [2440, '96 1/16', -0.492, '96 1/16', -0.492, '96 1/16', -0.492],
  ] as const
  test.each(ROWS)('%d mm', (mm, at16, error16, at32, error32, at64, error64) => {
    const errorOf = (denominator: 16 | 32 | 64): number =>
      lengthShown(mm / 1000, { unit: 'in', denominator }).error / 0.0000254
    expect([inches(mm, 16), inches(mm, 32), inches(mm, 64)]).toEqual([at16, at32, at64])
    // three decimals of a thousandth of an inch at most, so half of the last digit
    expect(Math.abs(errorOf(16) - error16)).toBeLessThanOrEqual(0.00051)
    expect(Math.abs(errorOf(32) - error32)).toBeLessThanOrEqual(0.00051)
    expect(Math.abs(errorOf(64) - error64)).toBeLessThanOrEqual(0.00051)
  })
  test.each([
    // exact ties go away from zero and carry to the whole
    [0.09375, '1/8'],
    [0.03125, '1/16'],
    [-0.03125, '-1/16'],
    [0.96875, '1'],
    [-0.96875, '-1'],
    [1.96875, '2'],
    [0.031249, '0'],
    [-0.031249, '0'],
    [0, '0'],
    [-2.25, '-2 1/4'],
  ] as const)('%d in to 1/16', (value, shown) => {
    expect(inches(value * 25.4, 16)).toBe(shown)
  })
  test('a tie stays one when the length comes from a sum', () => {
    const sum = 0.1 * 0.0254 + 0.2 * 0.0254 - 0.26875 * 0.0254 // 1/32 in, with noise in the last digit
    expect(plain(lengthShown(sum, { unit: 'in', denominator: 16 }).shown)).toBe('1/16 in')
  })
  test('the error is never more than half a step, and rounding twice changes nothing', () => {
    const styles: LengthStyle[] = [
      { unit: 'in', denominator: 16 },
      { unit: 'in', denominator: 32 },
      { unit: 'in', denominator: 64 },
      { unit: 'mm', step: 0.5 },
    ]
    fc.assert(
      fc.property(
        fc.double({ min: -3, max: 3, noNaN: true }),
        fc.constantFrom(...styles),
        (length, style) => {
          const { shown, rounded, error } = lengthShown(length, style)
          const step = style.unit === 'in' ? 0.0254 / style.denominator : 0.0005
          expect(Math.abs(error)).toBeLessThanOrEqual(step / 2 + 1e-15)
          expect(rounded).toBeCloseTo(length + error, 12)
          expect(lengthShown(rounded, style)).toMatchObject({ shown, rounded })
        },
      ),
      SEEDED,
    )
  })
})

describe('by hand: numbers', () => {
  test.each([
    [0, 0, '0'],
    [0, 2, '0.00'],
    [-0.001, 2, '0.00'], // no minus before nothing
    [1.005, 2, '1.01'], // as on paper
    [2.675, 2, '2.68'],
    [0.5, 0, '1'],
    [-0.5, 0, '-1'],
    [2.5, 0, '3'],
    [999, 0, '999'],
    [1000, 0, '1 000'],
    [999.95, 1, '1 000.0'],
    [1234567.891, 2, '1 234 567.89'],
    [1e21, 0, '1 000 000 000 000 000 000 000'],
    [1e-7, 7, '0.0000001'],
    [1e-9, 3, '0.000'],
    [-12.34, 1, '-12.3'],
  ] as const)('%d to %d decimals', (value, decimals, shown) => {
    expect(plain(formatNumber(value, { decimals }))).toBe(shown)
  })
  test('a decimal comma is a matter of the locale', () => {
    const other: Locale = { ...english, language: 'xx', decimalMark: ',', groupMark: '.' }
    expect(formatNumber(12345.67, { decimals: 1 }, other)).toBe('12.345,7')
    expect(plain(lengthShown(0.0105, { unit: 'mm', step: 0.1 }, other).shown)).toBe('10,5 mm')
  })
  test('what is no number is never printed', () => {
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      expect(() => formatNumber(value, { decimals: 1 })).toThrow(RangeError)
      expect(() => massShown(value, { unit: 'g', step: 1 })).toThrow(RangeError)
      expect(() => lengthShown(value, { unit: 'in', denominator: 16 })).toThrow(RangeError)
      expect(() => temperatureShown(value, { scale: 'both', decimals: 0 })).toThrow(RangeError)
      expect(() => percentShown(value, { decimals: 0 })).toThrow(RangeError)
      expect(() => durationShown(value, { smallest: 'min' })).toThrow(RangeError)
      expect(() => volumeShown(value, { unit: 'L', step: 0.1 })).toThrow(RangeError)
    }
    expect(() => formatNumber(1, { decimals: 1.5 })).toThrow(RangeError)
    expect(() => massShown(1, { unit: 'g', step: 0 })).toThrow(RangeError)
  })
  test('plain decimals agree with the rounding of the language, which is exact', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -999_999, max: 999_999 }),
        fc.integer({ min: 0, max: 3 }),
        (value, decimals) => {
          // sevenths are never ties
          const text = formatNumber(value / 7, { decimals })
          expect(Number(plain(text).replaceAll(' ', ''))).toBeCloseTo(
            Number((value / 7).toFixed(decimals)),
            10,
          )
        },
      ),
      SEEDED,
    )
  })
})

describe('by hand: quantities', () => {
  test.each([
    [0.45, { unit: 'g', step: 1 }, '450 g'],
    [0.4505, { unit: 'g', step: 1 }, '451 g'],
    [0.4503, { unit: 'g', step: 5 }, '450 g'],
    [1.2345, { unit: 'g', step: 0.1 }, '1 234.5 g'],
    [1.2345, { unit: 'kg', step: 0.01 }, '1.23 kg'],
    [1.235, { unit: 'kg', step: 0.01 }, '1.24 kg'],
    [0.45359237, { unit: 'lb', step: 0.01 }, '1.00 lb'],
    [0.45359237, { unit: 'lb-oz', step: 0.1 }, '1 lb 0.0 oz'],
    [0.992233309375, { unit: 'lb-oz', step: 1 }, '2 lb 3 oz'],
    [0.4535, { unit: 'lb-oz', step: 1 }, '1 lb 0 oz'], // 15.997 oz carries
    [0.1, { unit: 'lb-oz', step: 0.1 }, '3.5 oz'], // 3.527 oz
    [-0.992233309375, { unit: 'lb-oz', step: 1 }, '-2 lb 3 oz'],
  ] as const)('%d kg as %o', (mass, style, shown) => {
    expect(plain(massShown(mass, style).shown)).toBe(shown)
  })
  test('the rounding error is told', () => {
    expect(massShown(0.4503, { unit: 'g', step: 1 })).toMatchObject({ rounded: 0.45, error: -0.0003 })
    expect(massShown(0.44, { unit: 'lb-oz', step: 1 })).toMatchObject({
      rounded: 0.45359237,
      error: 0.01359237,
    })
  })
  test.each([
    [316.15, { scale: 'C', decimals: 0 }, '43 °C'],
    [316.15, { scale: 'F', decimals: 1 }, '109.4 °F'],
    [316.15, { scale: 'both', decimals: 0 }, '43 °C (109 °F)'],
    [233.15, { scale: 'both', decimals: 0 }, '-40 °C (-40 °F)'],
    [273.15, { scale: 'C', decimals: 1 }, '0.0 °C'],
  ] as const)('%d K as %o', (temperature, style, shown) => {
    expect(plain(temperatureShown(temperature, style))).toBe(shown)
  })
  test.each([
    [0, 'min', '0 min'],
    [29, 'min', '0 min'],
    [30, 'min', '1 min'],
    [5400, 'min', '1 h 30 min'],
    [3600, 's', '1 h'],
    [3661, 's', '1 h 1 min 1 s'],
    [86_400, 'h', '1 day'],
    [2_419_200, 'day', '4 weeks'],
    [604_800, 'h', '1 week'],
    [2_592_000, 'day', '30 days'],
    [100_000, 'day', '1 day'],
    [0, 'day', '0 days'],
    [3599.6, 's', '1 h'], // carries
  ] as const)('%d s to the %s', (seconds, smallest, shown) => {
    expect(plain(durationShown(seconds, { smallest }))).toBe(shown)
  })
  test('a time below zero is a bug', () => {
    expect(() => durationShown(-1, { smallest: 's' })).toThrow(RangeError)
  })
  test('the others', () => {
    expect(plain(percentShown(0.05, { decimals: 0 }))).toBe('5 %')
    expect(plain(percentShown(0.285, { decimals: 0 }))).toBe('29 %') // a tie, away from zero
    expect(plain(volumeShown(0.01234, { unit: 'L', step: 0.1 }).shown)).toBe('12.3 L')
    expect(plain(volumeShown(0.00025, { unit: 'ml', step: 5 }).shown)).toBe('250 ml')
    expect(plain(temperatureDifferenceShown(5, { scale: 'F', decimals: 0 }))).toBe('9 °F')
    expect(plain(temperatureDifferenceShown(5, { scale: 'C', decimals: 0 }))).toBe('5 °C')
  })

  test('times of day on either clock; noon and midnight are words on the clock of twelve', () => {
    const both = (minute: number) => [timeShown(minute, '24-hour'), timeShown(minute, 'am-pm')].map(plain)
    expect(both(480)).toEqual(['8:00', '8 am'])
    expect(both(1235)).toEqual(['20:35', '8:35 pm'])
    expect(both(720)).toEqual(['12:00', 'noon'])
    expect(both(750)).toEqual(['12:30', '12:30 pm'])
    expect(both(0)).toEqual(['0:00', 'midnight'])
    expect(both(30)).toEqual(['0:30', '12:30 am'])
    expect(both(1440)).toEqual(['24:00', 'midnight'])
  })

  test('days with their weekday, and months', () => {
    // 14 March 2027 was reckoned a Sunday, 29 February 2028 is a Tuesday (common practice: any wall calendar)
    expect(plain(shortDateShown('2027-03-14'))).toBe('Sun 14 Mar')
    expect(plain(shortDateShown('2028-02-29'))).toBe('Tue 29 Feb')
    expect(monthShown('2027-12-01')).toBe('December 2027')
  })

  test('days are told in words, whatever the time zone of the machine', () => {
    expect(plain(dateShown('2027-03-14'))).toBe('14 March 2027')
    expect(plain(dateShown('2027-12-01'))).toBe('1 December 2027')
    for (const wrong of ['2027-13-01', '2027-00-01', '14 March 2027', '2027-3-14', '2027-03-00'])
      expect(() => dateShown(wrong), wrong).toThrow(RangeError)
  })
  test('every sign used is in the shipped fonts', () => {
    const all = [
      formatNumber(-1234.5, { decimals: 1 }),
      lengthShown(0.05715, { unit: 'in', denominator: 16 }).shown,
      temperatureShown(300, { scale: 'both', decimals: 1 }),
      dateShown('2027-03-14'),
      durationShown(5400, { smallest: 'min' }),
    ]
    expect(all.flatMap(unprintable)).toEqual([])
  })
})
