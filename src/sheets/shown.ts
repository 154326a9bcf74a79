/** Values as this shop wants to read them: which units, how fine; the words themselves come from text/format.ts. */

import {
  dateShown,
  durationShown,
  formatNumber,
  type LengthStyle,
  lengthShown,
  massShown,
  moneyShown,
  monthShown,
  narrowDateShown,
  percentShown,
  shortDateShown,
  temperatureDegrees,
  temperatureDifferenceShown,
  temperatureShown,
  timeShown,
  volumeShown,
} from '../text/format.ts'
import { asInFiles, type Locale } from '../text/locale.ts'
import { clockText, type Moment } from '../units/civil-day.ts'
import { decimalsOf } from '../units/money.ts'
import type { Value } from './model.ts'

const TENTH_GRAM = 0.0001 // kg
/** m; below this a tape's step is a good part of the size itself */
const SMALL = 0.01
/** m/s2, exact by definition: what a scale that shows kilograms is made for */
export const GRAVITY = 9.80665
export const INCH = 0.0254 // m, exact (international-inch)
/** tenths; float noise that must not make another one */
const COIL_NOISE = 1e-6
const FOOT = 12 * INCH
const POUND = 0.45359237 // kg, exact (international-inch)
/** m; a board that is sold by inches is typed to better than this */
const STOCK_SLACK = 0.00005

export interface ShownUnits {
  readonly length: 'in' | 'mm'
  /** of the tape that the shop reads */
  readonly denominator: 8 | 16 | 32 | 64
  readonly temperature: 'F' | 'C'
  /** how times of day are written; 24 hours where it is left out */
  readonly clock?: '24-hour' | 'am-pm'
}

/** Each makes a value of the given name; the number is SI. */
export interface Show {
  /** tells two ways of writing apart */
  readonly way: string
  /** several words, or several numbers, one after the other */
  readonly list: (words: readonly string[]) => string
  readonly numbersMark: string
  /** as a maker types numbers into a file, in every language the same */
  readonly inFiles: Show
  readonly firstDegrees: 'F' | 'C'
  readonly clock: '24-hour' | 'am-pm'
  readonly lengthUnit: 'in' | 'mm'
  /** to the division of the scale that weighs it [kg] */
  readonly weight: (name: string, mass: number, division: number) => Value
  /** differences of a few grams: to 0.1 g, with ounces beside it */
  readonly lightWeight: (name: string, mass: number) => Value
  /** how far a weighing is from its plan, with its sign */
  readonly weightOff: (name: string, mass: number, division: number) => Value
  /** on a label: hundredths of an ounce, whole pounds; the mass in either */
  readonly ounces: (name: string, ounces: number) => Value
  readonly pounds: (name: string, pounds: number) => Value
  /** what is lifted, to 0.1 kg */
  readonly heavy: (name: string, mass: number) => Value
  /** what is typed in kilograms, to 0.01 kg */
  readonly kilograms: (name: string, mass: number) => Value
  /** in the shop's unit, with the other in brackets */
  readonly length: (name: string, length: number) => Value
  /** as `length`, millimetres to a tenth: for what is built by them */
  readonly exactLength: (name: string, length: number) => Value
  /** from the eye to the paper: whole inches, whole centimetres */
  readonly distance: (name: string, length: number) => Value
  /** what is bought in whole steps, in the shop's unit alone */
  readonly wholeSize: (name: string, length: number) => Value
  readonly inches: (name: string, length: number) => Value
  readonly millimetres: (name: string, length: number) => Value
  /** what is far below any tape */
  readonly hundredths: (name: string, length: number) => Value
  /** what a length gains when it is read off the shop's tape, with its sign */
  readonly tapeError: (name: string, length: number) => Value
  /** what it gains as `size` writes it */
  readonly sizeError: (name: string, length: number) => Value
  /** a difference, with its sign */
  readonly signedHundredths: (name: string, length: number) => Value
  /** in the shop's unit alone, to 1/64 in below an inch and 1/32 in above: for drawings and holes */
  readonly size: (name: string, length: number) => Value
  /** as `size`, without the unit, which a drawing states once */
  readonly bareSize: (length: number) => string
  /** as `millimetres`, without the unit, which is said once */
  readonly bareMillimetres: (length: number) => string
  readonly temperature: (name: string, temperature: number) => Value
  /** a difference of two */
  readonly kelvins: (name: string, difference: number) => Value
  /** of the shop's first scale, on an axis that names it */
  readonly degrees: (temperature: number) => number
  readonly volume: (name: string, volume: number) => Value
  /** what is filled by the spoon, to 1 ml */
  readonly smallVolume: (name: string, volume: number) => Value
  readonly area: (name: string, area: number) => Value
  readonly percent: (name: string, share: number, decimals: number) => Value
  /** parts of one thing for each part of another */
  readonly ratio: (name: string, ratio: number) => Value
  /** mg for 1 g */
  readonly perThousand: (name: string, share: number) => Value
  /** whole days */
  readonly days: (name: string, days: number) => Value
  readonly hours: (name: string, duration: number) => Value
  /** to the minute, to five minutes from an hour on */
  readonly minutes: (name: string, duration: number) => Value
  readonly force: (name: string, force: number) => Value
  /** with what a scale under it shows */
  readonly press: (name: string, force: number) => Value
  /** the same of what is never passed: rounded down */
  readonly pressAtMost: (name: string, force: number) => Value
  /** of what is cut from a coil or a rod: metres and feet, up to the next tenth, so that neither is too little */
  readonly coil: (name: string, length: number) => Value
  /** diameter of a wire, to a thousandth of an inch */
  readonly thousandths: (name: string, diameter: number) => Value
  /** how often one thing goes into another */
  readonly times: (name: string, times: number) => Value
  readonly note: (name: string, note: { readonly name: string }) => Value
  readonly torque: (name: string, torque: number) => Value
  /** of soap on each metre of wire */
  readonly perMetre: (name: string, load: number) => Value
  readonly frequency: (name: string, pitch: number) => Value
  /** hundredths of a semitone, with their sign */
  readonly cents: (name: string, cents: number) => Value
  readonly energy: (name: string, heat: number) => Value
  readonly power: (name: string, power: number) => Value
  /** what a wire holds [J] */
  readonly smallEnergy: (name: string, energy: number) => Value
  readonly speed: (name: string, speed: number) => Value
  /** in the air that is breathed [kg/m3] */
  readonly dust: (name: string, density: number) => Value
  readonly date: (name: string, day: string) => Value
  /** with its weekday and without its year */
  readonly shortDate: (name: string, day: string) => Value
  /** with its year, in a narrow column */
  readonly narrowDate: (name: string, day: string) => Value
  readonly month: (name: string, day: string) => Value
  /** min after midnight */
  readonly time: (name: string, minute: number) => Value
  /** day and time */
  readonly moment: (name: string, moment: Moment) => Value
  readonly count: (name: string, count: number) => Value
  /** a mean of counts, to a tenth */
  readonly meanCount: (name: string, count: number) => Value
  /** whole minor units, shown and kept to the last of them */
  readonly money: (name: string, money: { readonly currency: string; readonly minor: number }) => Value
  /** the same without its currency, which a head states once */
  readonly amount: (name: string, money: { readonly currency: string; readonly minor: number }) => Value
  /** what something is over all, to 1/4 in or 1 cm, in the shop's unit, which a head states once */
  readonly roughSize: (name: string, length: number) => Value
  /** of a board as it is sold: in inches where it is a whole eighth of them and the shop reads inches, else in millimetres */
  readonly stockSize: (name: string, length: number) => Value
  /** whole half hours */
  readonly halfHours: (name: string, halves: number) => Value
  /** on an axis that states its unit */
  readonly plainNumber: (value: number, decimals?: number) => string
}

/** s; what `hours` shows of a duration: half hours, whole ones from ten on */
export const hoursAsShown = (duration: number): number => {
  const half = Math.max(0.5, Math.round(duration / 1800) / 2)
  return (half >= 10 ? Math.round(duration / 3600) : half) * 3600
}

/** s; what `minutes` shows of a duration */
export const minutesAsShown = (duration: number): number => {
  const step = duration >= 3600 ? 300 : 60
  return Math.round(duration / step) * step
}

export const showIn = (units: ShownUnits, locale: Locale): Show => {
  const inchStyle: LengthStyle = { unit: 'in', denominator: units.denominator }
  // Where a dado stands decides whether a box is square: a place is never given coarser than this.
  const fineStyle: LengthStyle = { unit: 'in', denominator: units.denominator === 64 ? 64 : 32 }
  const mmStyle: LengthStyle = { unit: 'mm', step: 1 }
  const tenthsStyle: LengthStyle = { unit: 'mm', step: 0.1 }
  const lengthValue = (name: string, value: number, shown: string): Value => ({
    name,
    value,
    unit: 'm',
    shown,
  })
  // Below an inch it is a drill, a dado or a board: a sixteenth of a tape would name the wrong drill.
  const sizeStyle = (value: number): LengthStyle =>
    units.length !== 'in' ? tenthsStyle : value < INCH ? { unit: 'in', denominator: 64 } : fineStyle
  const finestStyle: LengthStyle = { unit: 'in', denominator: 64 }
  const signed = (name: string, value: number, step: number): Value => {
    const { shown, rounded } = lengthShown(value, { unit: 'mm', step }, locale)
    return lengthValue(name, value, rounded > 0 ? `+${shown}` : shown)
  }
  const gap = locale.unitGap
  const timeOf = (minute: number): string => timeShown(minute, units.clock ?? '24-hour', locale)
  const show: Show = {
    way: JSON.stringify([units, locale]),
    list: (words) => words.join(locale.listMark),
    numbersMark: locale.numbersMark,
    get inFiles() {
      const plain = asInFiles(locale)
      return plain.decimalMark === locale.decimalMark ? show : showIn(units, plain)
    },
    firstDegrees: units.temperature,
    clock: units.clock ?? '24-hour',
    lengthUnit: units.length,
    weight: (name, mass, division) => ({
      name,
      value: mass,
      unit: 'kg',
      shown: massShown(mass, { unit: 'g', step: division * 1000 }, locale).shown,
    }),
    lightWeight: (name, mass) => ({
      name,
      value: mass,
      unit: 'kg',
      // ounces of the grams as shown: one number of grams never has two of ounces
      shown: `${massShown(mass, { unit: 'g', step: 0.1 }, locale).shown} (${massShown(Math.round(mass / TENTH_GRAM) * TENTH_GRAM, { unit: 'oz', step: 0.01 }, locale).shown})`,
    }),
    weightOff: (name, mass, division) => {
      const { shown, rounded } = massShown(mass, { unit: 'g', step: division * 1000 }, locale)
      return { name, value: mass, unit: 'kg', shown: rounded > 0 ? `+${shown}` : shown }
    },
    ounces: (name, ounces) => ({
      name,
      value: (ounces * POUND) / 16,
      unit: 'kg',
      shown: `${formatNumber(ounces, { decimals: 2 }, locale)}${gap}oz`,
    }),
    pounds: (name, pounds) => ({
      name,
      value: pounds * POUND,
      unit: 'kg',
      shown: `${formatNumber(pounds, { decimals: 0 }, locale)}${gap}lb`,
    }),
    heavy: (name, mass) => ({
      name,
      value: mass,
      unit: 'kg',
      shown: massShown(mass, { unit: 'kg', step: 0.1 }, locale).shown,
    }),
    kilograms: (name, mass) => ({
      name,
      value: mass,
      unit: 'kg',
      shown: massShown(mass, { unit: 'kg', step: 0.01 }, locale).shown,
    }),
    length: (name, value) => {
      // Two gaps of half a millimetre and of one must not read alike.
      const isSmall = Math.abs(value) < SMALL
      const inches = lengthShown(value, isSmall ? finestStyle : inchStyle, locale).shown
      const millimetres = lengthShown(value, isSmall ? tenthsStyle : mmStyle, locale).shown
      return lengthValue(
        name,
        value,
        units.length === 'in' ? `${inches} (${millimetres})` : `${millimetres} (${inches})`,
      )
    },
    exactLength: (name, value) => {
      const inches = lengthShown(value, sizeStyle(value), locale).shown
      const millimetres = lengthShown(value, tenthsStyle, locale).shown
      return lengthValue(
        name,
        value,
        units.length === 'in'
          ? `${inches} (${millimetres})`
          : `${millimetres} (${lengthShown(value, inchStyle, locale).shown})`,
      )
    },
    distance: (name, value) => {
      const inches = `${formatNumber(value / INCH, { decimals: 0 }, locale)}${gap}in`
      const centimetres = `${formatNumber(value * 100, { decimals: 0 }, locale)}${gap}cm`
      return lengthValue(
        name,
        value,
        units.length === 'in' ? `${inches} (${centimetres})` : `${centimetres} (${inches})`,
      )
    },
    wholeSize: (name, value) =>
      lengthValue(name, value, lengthShown(value, units.length === 'in' ? inchStyle : mmStyle, locale).shown),
    inches: (name, value) => lengthValue(name, value, lengthShown(value, inchStyle, locale).shown),
    hundredths: (name, value) =>
      lengthValue(name, value, lengthShown(value, { unit: 'mm', step: 0.01 }, locale).shown),
    millimetres: (name, value) => lengthValue(name, value, lengthShown(value, tenthsStyle, locale).shown),
    tapeError: (name, value) =>
      signed(name, lengthShown(value, units.length === 'in' ? inchStyle : tenthsStyle, locale).error, 0.1),
    sizeError: (name, value) => signed(name, lengthShown(value, sizeStyle(value), locale).error, 0.01),
    signedHundredths: (name, value) => signed(name, value, 0.01),
    size: (name, value) => lengthValue(name, value, lengthShown(value, sizeStyle(value), locale).shown),
    plainNumber: (value, decimals = 0) => formatNumber(value, { decimals }, locale),
    bareMillimetres: (value) => lengthShown(value, tenthsStyle, locale).shown.slice(0, -`${gap}mm`.length),
    bareSize: (value) => {
      const { shown } = lengthShown(value, sizeStyle(value), locale)
      return shown.slice(0, -`${gap}${units.length}`.length)
    },
    temperature: (name, value) => {
      const shown = (scale: 'F' | 'C') => temperatureShown(value, { scale, decimals: 0 }, locale)
      const [first, second] = units.temperature === 'F' ? (['F', 'C'] as const) : (['C', 'F'] as const)
      return { name, value, unit: 'K', shown: `${shown(first)} (${shown(second)})` }
    },
    kelvins: (name, value) => {
      const shown = (scale: 'F' | 'C') => temperatureDifferenceShown(value, { scale, decimals: 0 }, locale)
      const [first, second] = units.temperature === 'F' ? (['F', 'C'] as const) : (['C', 'F'] as const)
      return { name, value, unit: 'K', shown: `${shown(first)} (${shown(second)})` }
    },
    degrees: (value) => temperatureDegrees(value, units.temperature),
    volume: (name, volume) => ({
      name,
      value: volume,
      unit: 'm3',
      shown: volumeShown(volume, { unit: 'L', step: 0.1 }, locale).shown,
    }),
    smallVolume: (name, volume) => ({
      name,
      value: volume,
      unit: 'm3',
      shown: volumeShown(volume, { unit: 'ml', step: 1 }, locale).shown,
    }),
    area: (name, area) => ({
      name,
      value: area,
      unit: 'm2',
      shown: `${formatNumber(area, { decimals: 2 }, locale)}${gap}m²`,
    }),
    percent: (name, value, decimals) => ({
      name,
      value,
      unit: '1',
      shown: percentShown(value, { decimals }, locale),
    }),
    ratio: (name, ratio) => ({
      name,
      value: ratio,
      unit: '1',
      shown: `${formatNumber(ratio, { decimals: 2 }, locale)} : 1`,
    }),
    perThousand: (name, value) => ({
      name,
      value,
      unit: 'kg/kg',
      shown: `${formatNumber(value * 1000, { decimals: 1 }, locale)}${gap}mg/g`,
    }),
    days: (name, days) => ({
      name,
      value: days * 86400,
      unit: 's',
      shown: `${formatNumber(days, { decimals: 0 }, locale)}${gap}${days === 1 ? locale.units.day : locale.units.days}`,
    }),
    hours: (name, duration) => {
      const rounded = hoursAsShown(duration)
      const half = rounded / 3600
      return {
        name,
        value: duration,
        unit: 's',
        shown:
          half >= 10
            ? durationShown(rounded, { smallest: 'h' }, locale)
            : `${formatNumber(half, { decimals: half % 1 === 0 ? 0 : 1 }, locale)}${gap}h`,
      }
    },
    minutes: (name, duration) => ({
      name,
      value: duration,
      unit: 's',
      shown: durationShown(minutesAsShown(duration), { smallest: 'min' }, locale),
    }),
    force: (name, force) => ({
      name,
      value: force,
      unit: 'N',
      shown: `${formatNumber(force, { decimals: 0 }, locale)}${gap}N`,
    }),
    press: (name, force) => ({
      name,
      value: force,
      unit: 'N',
      shown: `${formatNumber(force, { decimals: 0 }, locale)}${gap}N (${massShown(force / GRAVITY, { unit: 'kg', step: 0.5 }, locale).shown})`,
    }),
    pressAtMost: (name, force) => ({
      name,
      value: force,
      unit: 'N',
      shown: `${formatNumber(Math.floor(force), { decimals: 0 }, locale)}${gap}N (${massShown(Math.floor((2 * force) / GRAVITY) / 2, { unit: 'kg', step: 0.5 }, locale).shown})`,
    }),
    coil: (name, length) => {
      const enough = (value: number): string =>
        formatNumber(Math.ceil(value * 10 - COIL_NOISE) / 10, { decimals: 1 }, locale)
      const metres = `${enough(length)}${gap}m`
      const feet = `${enough(length / FOOT)}${gap}ft`
      return lengthValue(name, length, units.length === 'in' ? `${feet} (${metres})` : `${metres} (${feet})`)
    },
    thousandths: (name, diameter) => {
      const inches = `${formatNumber(diameter / INCH, { decimals: 3 }, locale)}${gap}in`
      const millimetres = lengthShown(diameter, { unit: 'mm', step: 0.01 }, locale).shown
      const shown = units.length === 'in' ? `${inches} (${millimetres})` : `${millimetres} (${inches})`
      return lengthValue(name, diameter, shown)
    },
    times: (name, times) => ({
      name,
      value: times,
      unit: '1',
      shown: `${formatNumber(times, { decimals: times < 10 ? 2 : 0 }, locale)}${gap}×`,
    }),
    // The names of notes are the trade's own in every language that the catalogue may have.
    note: (name, note) => ({ name, value: note.name, unit: 'note', shown: note.name }),
    perMetre: (name, load) => ({
      name,
      value: load,
      unit: 'N/m',
      shown: `${formatNumber(load, { decimals: 0 }, locale)}${gap}N/m`,
    }),
    frequency: (name, pitch) => ({
      name,
      value: pitch,
      unit: 'Hz',
      shown: `${formatNumber(pitch, { decimals: pitch < 100 ? 1 : 0 }, locale)}${gap}Hz`,
    }),
    cents: (name, cents) => {
      const rounded = Math.round(cents)
      const sign = rounded > 0 ? '+' : ''
      return {
        name,
        value: cents,
        unit: 'cent',
        shown: `${sign}${formatNumber(rounded, { decimals: 0 }, locale)}`,
      }
    },
    torque: (name, torque) => ({
      name,
      value: torque,
      unit: 'N m',
      shown: `${formatNumber(torque, { decimals: 1 }, locale)}${gap}N${gap}m`,
    }),
    energy: (name, heat) => ({
      name,
      value: heat,
      unit: 'J',
      shown: `${formatNumber(heat / 3.6e6, { decimals: 1 }, locale)}${gap}kWh`,
    }),
    power: (name, power) => ({
      name,
      value: power,
      unit: 'W',
      shown: `${formatNumber(power / 1000, { decimals: 1 }, locale)}${gap}kW`,
    }),
    smallEnergy: (name, energy) => ({
      name,
      value: energy,
      unit: 'J',
      shown: `${formatNumber(energy, { decimals: 2 }, locale)}${gap}J`,
    }),
    speed: (name, speed) => ({
      name,
      value: speed,
      unit: 'm/s',
      shown: `${formatNumber(speed, { decimals: 0 }, locale)}${gap}m/s`,
    }),
    dust: (name, density) => ({
      name,
      value: density,
      unit: 'kg/m3',
      shown: `${formatNumber(density * 1e6, { decimals: 0 }, locale)}${gap}mg/m³`,
    }),
    date: (name, day) => ({ name, value: day, unit: 'date', shown: dateShown(day, locale) }),
    narrowDate: (name, day) => ({ name, value: day, unit: 'date', shown: narrowDateShown(day, locale) }),
    shortDate: (name, day) => ({ name, value: day, unit: 'date', shown: shortDateShown(day, locale) }),
    month: (name, day) => ({ name, value: day.slice(0, 7), unit: 'month', shown: monthShown(day, locale) }),
    time: (name, minute) => ({ name, value: clockText(minute), unit: 'time', shown: timeOf(minute) }),
    moment: (name, { date, minute }) => ({
      name,
      value: `${date}T${clockText(minute)}`,
      unit: 'moment',
      shown: locale.momentForm
        .replace('{date}', shortDateShown(date, locale))
        .replace('{time}', timeOf(minute)),
    }),
    money: (name, money) => ({
      name,
      value: money.minor / 10 ** decimalsOf(money.currency),
      unit: money.currency,
      shown: moneyShown(money, locale),
    }),
    amount: (name, money) => ({
      name,
      value: money.minor / 10 ** decimalsOf(money.currency),
      unit: money.currency,
      shown: moneyShown(money, locale).replace(`${gap}${money.currency}`, ''),
    }),
    roughSize: (name, value) => {
      const style: LengthStyle =
        units.length === 'in' ? { unit: 'in', denominator: 4 } : { unit: 'mm', step: 10 }
      const { shown } = lengthShown(value, style, locale)
      return lengthValue(name, value, shown.slice(0, -`${gap}${units.length}`.length))
    },
    stockSize: (name, value) => {
      const eighths = lengthShown(value, { unit: 'in', denominator: 8 }, locale)
      const isInches = units.length === 'in' && Math.abs(eighths.error) < STOCK_SLACK
      return lengthValue(name, value, isInches ? eighths.shown : lengthShown(value, mmStyle, locale).shown)
    },
    halfHours: (name, halves) => ({
      name,
      value: halves * 1800,
      unit: 's',
      shown: `${formatNumber(halves / 2, { decimals: halves % 2 === 0 ? 0 : 1 }, locale)}${gap}h`,
    }),
    meanCount: (name, count) => ({
      name,
      value: count,
      unit: '1',
      shown: formatNumber(count, { decimals: 1 }, locale),
    }),
    count: (name, count) => ({
      name,
      value: count,
      unit: '1',
      shown: formatNumber(count, { decimals: 0 }, locale),
    }),
  }
  return show
}
