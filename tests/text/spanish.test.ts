/** Numbers, dates and times in Spanish, and with either decimal mark. */
import { describe, expect, test } from 'vitest'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { showIn } from '../../src/sheets/shown.ts'
import {
  dateShown,
  durationShown,
  formatNumber,
  moneyShown,
  monthShown,
  narrowDateShown,
  shortDateShown,
  timeShown,
} from '../../src/text/format.ts'
import { asInFiles, withDecimalMark } from '../../src/text/locale.ts'
import { english } from './in-english.ts'

const spanish = readCatalogue('es').locale
const mexican = withDecimalMark(spanish, 'point')
const plain = (text: string): string => text.replaceAll('\u00a0', ' ')
const units = { length: 'mm', denominator: 16, temperature: 'C', clock: 'am-pm' } as const

describe('by hand: Spanish', () => {
  test('has the comma and spaces between thousands', () => {
    expect(plain(formatNumber(1234567.5, { decimals: 2 }, spanish))).toBe('1 234 567,50')
    expect(plain(moneyShown({ currency: 'USD', minor: 125_000 }, spanish))).toBe('1 250,00 USD')
    expect(plain(formatNumber(1234567.5, { decimals: 2 }, mexican))).toBe('1 234 567.50')
  })

  test('has days, months and hours of its own', () => {
    expect(plain(dateShown('2027-03-14', spanish))).toBe('14 de marzo de 2027')
    expect(plain(shortDateShown('2027-03-14', spanish))).toBe('do 14 mar')
    expect(plain(narrowDateShown('2027-09-01', spanish))).toBe('1 sep 2027')
    expect(plain(monthShown('2027-08-31', spanish))).toBe('agosto de 2027')
    expect(plain(timeShown(510, 'am-pm', spanish))).toBe('8:30 am')
    expect(plain(timeShown(1230, 'am-pm', spanish))).toBe('8:30 pm')
    expect(timeShown(720, 'am-pm', spanish)).toBe('mediodía')
    expect(timeShown(0, 'am-pm', spanish)).toBe('medianoche')
    expect(plain(durationShown(86_400, { smallest: 'h' }, spanish))).toBe('1 día')
    expect(plain(durationShown(4 * 604_800, { smallest: 'day' }, spanish))).toBe('4 semanas')
    const { moment } = showIn(units, spanish)
    expect(plain(moment('', { date: '2027-03-14', minute: 510 }).shown)).toBe('do 14 mar, 8:30 am')
  })

  test('has no comma between numbers that have one in them', () => {
    expect(spanish.numbersMark).toBe('; ')
    expect(mexican.numbersMark).toBe(', ')
    expect(english.numbersMark).toBe(', ')
    expect(withDecimalMark(english, 'comma').numbersMark).toBe('; ')
    expect(withDecimalMark(spanish, undefined)).toBe(spanish)
  })

  test('types numbers into files as every language does', () => {
    expect(asInFiles(spanish).decimalMark).toBe('.')
    const show = showIn(units, spanish)
    expect(plain(show.millimetres('', 0.0575).shown)).toBe('57,5 mm')
    expect(plain(show.inFiles.millimetres('', 0.0575).shown)).toBe('57.5 mm')
    expect(show.inFiles.inFiles.numbersMark).toBe(', ')
  })
})
