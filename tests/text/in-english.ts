/** The numbers and dates of text/format.ts in English, for tests that are not about languages. */
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import * as format from '../../src/text/format.ts'
import type { Locale } from '../../src/text/locale.ts'

export const english: Locale = readCatalogue('en').locale

/** A way of writing with its last argument, the locale, as English where it is left out. */
const inEnglish =
  <Given extends readonly unknown[], Out>(write: (...given: [...Given, Locale]) => Out) =>
  (...given: [...Given, Locale?]): Out => {
    const last = given.at(-1) as Locale | undefined
    const isLocale = typeof last === 'object' && 'decimalMark' in last
    return write(...(given as unknown as Given), ...((isLocale ? [] : [english]) as unknown as [Locale]))
  }

export const formatNumber = inEnglish(format.formatNumber)
export const massShown = inEnglish(format.massShown)
export const lengthShown = inEnglish(format.lengthShown)
export const moneyShown = inEnglish(format.moneyShown)
export const volumeShown = inEnglish(format.volumeShown)
export const percentShown = inEnglish(format.percentShown)
export const temperatureShown = inEnglish(format.temperatureShown)
export const temperatureDifferenceShown = inEnglish(format.temperatureDifferenceShown)
export const durationShown = inEnglish(format.durationShown)
export const dateShown = inEnglish(format.dateShown)
export const shortDateShown = inEnglish(format.shortDateShown)
export const monthShown = inEnglish(format.monthShown)
export const timeShown = inEnglish(format.timeShown)
