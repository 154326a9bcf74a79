import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { dateOf, dayNumber, minutesAt, momentAt, weekday } from '../src/units/civil-day.ts'

const NAMES = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday']

// days of the week known from history books, recalled
describe('published: weekdays of known days', () => {
  test.each([
    ['1969-07-20', 'Sunday'], // first landing on the Moon
    ['1945-05-08', 'Tuesday'], // end of the war in Europe
    ['1582-10-15', 'Friday'], // first day of the Gregorian calendar
    ['2000-01-01', 'Saturday'],
    ['2000-02-29', 'Tuesday'],
    ['1900-01-01', 'Monday'],
    ['2024-02-29', 'Thursday'],
    ['2027-03-14', 'Sunday'],
  ])('%s was a %s', (date, name) => expect(NAMES[weekday(dayNumber(date))]).toBe(name))

  // Unix time 1 000 000 000 s is 2001-09-09, 11574 whole days; recalled
  test('day numbers', () => {
    expect(dayNumber('1970-01-01')).toBe(0)
    expect(dayNumber('2001-09-09')).toBe(11574)
    expect(dayNumber('2000-03-01')).toBe(11017)
  })
})

describe('by hand', () => {
  test('leap days by 4, 100 and 400, and year ends', () => {
    const dayAfter = (date: string): string => dateOf(dayNumber(date) + 1)
    expect(dayAfter('2024-02-28')).toBe('2024-02-29')
    expect(dayAfter('2024-02-29')).toBe('2024-03-01')
    expect(dayAfter('2023-02-28')).toBe('2023-03-01')
    expect(dayAfter('1900-02-28')).toBe('1900-03-01')
    expect(dayAfter('2000-02-28')).toBe('2000-02-29')
    expect(dayAfter('2100-02-28')).toBe('2100-03-01')
    expect(dayAfter('2027-12-31')).toBe('2028-01-01')
    expect(dateOf(dayNumber('2028-03-01') - 1)).toBe('2028-02-29')
    expect(dateOf(dayNumber('0001-01-01'))).toBe('0001-01-01')
    expect(dateOf(dayNumber('9999-12-31'))).toBe('9999-12-31')
  })

  test('400 years are 146097 days, a whole number of weeks', () => {
    expect(dayNumber('2400-06-15') - dayNumber('2000-06-15')).toBe(146097)
    expect(146097 % 7).toBe(0)
  })

  test('every day number from year 1 to 9999 comes back, and agrees with the calendar of the machine', () => {
    const whole = { min: dayNumber('0001-01-01'), max: dayNumber('9999-12-31') }
    fc.assert(
      fc.property(fc.integer(whole), (day) => {
        const date = dateOf(day)
        expect(dayNumber(date)).toBe(day)
        expect(date).toBe(new Date(day * 86_400_000).toISOString().slice(0, 10))
        expect((weekday(day) + 1) % 7).toBe(new Date(day * 86_400_000).getUTCDay())
      }),
      { numRuns: 1000 },
    )
  })

  test('minutes pass midnight', () => {
    const late = minutesAt({ date: '2027-12-31', minute: 1430 })
    expect(momentAt(late + 20)).toEqual({ date: '2028-01-01', minute: 10 })
    expect(momentAt(-1)).toEqual({ date: '1969-12-31', minute: 1439 })
  })
})
