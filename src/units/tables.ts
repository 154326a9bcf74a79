/** The units that a file may use: for each kind of quantity its symbols, other spellings and exact factors. */
import type { Rational } from './rational.ts'
import { divide, fromDecimal, multiply, rational } from './rational.ts'

export type QuantityKind =
  | 'length'
  | 'area'
  | 'volume'
  | 'mass'
  | 'density'
  | 'duration'
  | 'temperature'
  | 'temperatureDifference'
  | 'ratio'
  | 'power'
  | 'force'
  | 'forcePerLength'
  | 'pressure'
  | 'thermalConductivity'
  | 'heatCapacity'

export interface Unit {
  /** the spelling used in advice and in print */
  readonly symbol: string
  /** other spellings that are read without complaint */
  readonly also: readonly string[]
  /** base units in one of this unit, exact */
  readonly factor: Rational
  /** added before the factor is applied; only the temperature scales have it */
  readonly offset?: Rational
}

export interface Kind {
  /** "length", as a sentence says it */
  readonly noun: string
  /** the unit in which calculators get the value */
  readonly base: string
  readonly units: readonly Unit[]
  /** a value as a maker would write it, for advice */
  readonly example: string
  readonly mayBeNegative: boolean
}

const number = (text: string): Rational => fromDecimal(text)
const unit = (symbol: string, factor: Rational, ...also: string[]): Unit => ({ symbol, factor, also })
const cube = (value: Rational): Rational => multiply(value, multiply(value, value))
const square = (value: Rational): Rational => multiply(value, value)

// Exact by definition, international yard and pound of 1959. Read: inch, foot. From memory: the pound.
const INCH = number('0.0254') // m
const FOOT = number('0.3048') // m
const POUND = number('0.45359237') // kg
const STANDARD_GRAVITY = number('9.80665') // m/s2, exact by definition; from memory
const POUND_FORCE = multiply(POUND, STANDARD_GRAVITY) // N, 4.4482216152605, computed
const US_GALLON = multiply(rational(231n), cube(INCH)) // m3: 231 cubic inches, exact; from memory
const LITRE = number('0.001') // m3, exact
const ONE = rational(1n)
const HUNDREDTH = number('0.01')
const FIVE_NINTHS = rational(5n, 9n)

/**
 * Every kind of quantity with its units, the usual one first; all factors are exact by definition or exact products.
 * @source nist-sp-811
 */
export const KINDS: Readonly<Record<QuantityKind, Kind>> = {
  length: {
    noun: 'length',
    base: 'm',
    example: '57 mm',
    mayBeNegative: false,
    units: [
      unit('mm', number('0.001'), 'millimetre', 'millimetres', 'millimeter', 'millimeters'),
      unit('cm', HUNDREDTH, 'centimetre', 'centimetres', 'centimeter', 'centimeters'),
      unit('m', ONE, 'metre', 'metres', 'meter', 'meters'),
      unit('in', INCH, '"', '\u2033', '\u201d', 'inch', 'inches'),
      unit('ft', FOOT, "'", '\u2032', '\u2019', 'foot', 'feet'),
    ],
  },
  area: {
    noun: 'area',
    base: 'm2',
    example: '1200 cm2',
    mayBeNegative: false,
    units: [
      unit('mm2', square(number('0.001')), 'mm²'),
      unit('cm2', square(HUNDREDTH), 'cm²'),
      unit('m2', ONE, 'm²'),
      unit('in2', square(INCH), 'in²', 'sq in'),
      unit('ft2', square(FOOT), 'ft²', 'sq ft'),
    ],
  },
  volume: {
    noun: 'volume',
    base: 'm3',
    example: '1.5 l',
    mayBeNegative: false,
    units: [
      unit('ml', number('0.000001'), 'mL', 'millilitre', 'millilitres', 'milliliter', 'milliliters'),
      unit('l', LITRE, 'L', 'litre', 'litres', 'liter', 'liters'),
      unit('cm3', number('0.000001'), 'cm³'),
      unit('m3', ONE, 'm³'),
      unit('in3', cube(INCH), 'in³', 'cu in'),
      unit('fl oz', divide(US_GALLON, rational(128n)), 'US fl oz'),
      unit('pt', divide(US_GALLON, rational(8n)), 'US pt', 'pint', 'pints'),
      unit('qt', divide(US_GALLON, rational(4n)), 'US qt', 'quart', 'quarts'),
      unit('gal', US_GALLON, 'US gal', 'gallon', 'gallons'),
    ],
  },
  mass: {
    noun: 'mass',
    base: 'kg',
    example: '450 g',
    mayBeNegative: false,
    units: [
      unit('g', number('0.001'), 'gram', 'grams'),
      unit('kg', ONE, 'kilogram', 'kilograms'),
      unit('mg', number('0.000001'), 'milligram', 'milligrams'),
      unit('oz', divide(POUND, rational(16n)), 'ounce', 'ounces'),
      unit('lb', POUND, 'lbs', 'pound', 'pounds'),
    ],
  },
  density: {
    noun: 'density',
    base: 'kg/m3',
    example: '680 kg/m3',
    mayBeNegative: false,
    units: [
      unit('kg/m3', ONE, 'kg/m³'),
      unit('g/cm3', number('1000'), 'g/cm³'),
      unit('g/ml', number('1000'), 'g/mL'),
      unit('kg/l', number('1000'), 'kg/L'),
      unit('lb/ft3', divide(POUND, cube(FOOT)), 'lb/ft³'),
    ],
  },
  duration: {
    noun: 'time',
    base: 's',
    example: '4 weeks',
    mayBeNegative: false,
    units: [
      unit('s', ONE, 'sec', 'second', 'seconds'),
      unit('min', number('60'), 'minute', 'minutes'),
      unit('h', number('3600'), 'hr', 'hrs', 'hour', 'hours'),
      unit('days', number('86400'), 'day', 'd'),
      unit('weeks', number('604800'), 'week', 'wk', 'wks'),
    ],
  },
  temperature: {
    noun: 'temperature',
    base: 'K',
    example: '43 °C',
    mayBeNegative: true,
    units: [
      // Celsius: 273.15 K at 0, exact by definition; Fahrenheit: 459.67 steps of 5/9 K, exact. From memory.
      { symbol: '°C', factor: ONE, offset: number('273.15'), also: ['C', '\u2103', 'ºC'] },
      { symbol: '°F', factor: FIVE_NINTHS, offset: number('459.67'), also: ['F', '\u2109', 'ºF'] },
      unit('K', ONE),
    ],
  },
  temperatureDifference: {
    noun: 'temperature difference',
    base: 'K',
    example: '5 °C',
    mayBeNegative: true,
    units: [
      unit('K', ONE),
      unit('°C', ONE, 'C', '\u2103', 'ºC'),
      unit('°F', FIVE_NINTHS, 'F', '\u2109', 'ºF'),
    ],
  },
  ratio: {
    noun: 'share',
    base: '1',
    example: '5 %',
    mayBeNegative: true,
    units: [unit('%', HUNDREDTH, 'percent', 'per cent')],
  },
  power: {
    noun: 'power',
    base: 'W',
    example: '900 W',
    mayBeNegative: false,
    units: [unit('W', ONE, 'watt', 'watts'), unit('kW', number('1000'))],
  },
  force: {
    noun: 'force',
    base: 'N',
    example: '120 N',
    mayBeNegative: false,
    units: [unit('N', ONE), unit('kN', number('1000')), unit('lbf', POUND_FORCE)],
  },
  forcePerLength: {
    noun: 'force per length',
    base: 'N/m',
    example: '100 N/m',
    mayBeNegative: false,
    units: [
      unit('N/m', ONE),
      unit('N/cm', number('100')),
      unit('lbf/in', divide(POUND_FORCE, INCH)),
      unit('lbf/ft', divide(POUND_FORCE, FOOT)),
    ],
  },
  pressure: {
    noun: 'pressure or stress',
    base: 'Pa',
    example: '8 GPa',
    mayBeNegative: false,
    units: [
      unit('Pa', ONE),
      unit('kPa', number('1000')),
      unit('MPa', number('1000000')),
      unit('GPa', number('1000000000')),
      unit('psi', divide(POUND_FORCE, square(INCH))),
      unit('ksi', multiply(number('1000'), divide(POUND_FORCE, square(INCH)))),
    ],
  },
  thermalConductivity: {
    noun: 'thermal conductivity',
    base: 'W/(m K)',
    example: '0.13 W/(m K)',
    mayBeNegative: false,
    units: [unit('W/(m K)', ONE, 'W/(m·K)', 'W/(m*K)', 'W/mK')],
  },
  heatCapacity: {
    noun: 'heat capacity',
    base: 'J/(kg K)',
    example: '2100 J/(kg K)',
    mayBeNegative: false,
    units: [
      unit('J/(kg K)', ONE, 'J/(kg·K)', 'J/(kg*K)'),
      unit('kJ/(kg K)', number('1000'), 'kJ/(kg·K)', 'kJ/(kg*K)'),
    ],
  },
}

/** Symbols of a kind as advice lists them: "mm, cm, m, in, ft". */
export const symbolsOf = (kind: QuantityKind): readonly string[] =>
  KINDS[kind].units.map((each) => each.symbol)

/** The unit of a kind that a spelling stands for, or nothing. */
export const findUnit = (kind: QuantityKind, spelling: string): Unit | undefined =>
  SPELLINGS[kind].get(spelling)

/** Every spelling of a kind that is read without complaint. */
export const spellingsOf = (kind: QuantityKind): readonly string[] => [...SPELLINGS[kind].keys()]

const SPELLINGS = Object.fromEntries(
  Object.entries(KINDS).map(([kind, { units }]) => [
    kind,
    new Map(
      units.flatMap((each) => [each.symbol, ...each.also].map((spelling) => [spelling, each] as const)),
    ),
  ]),
) as unknown as Readonly<Record<QuantityKind, ReadonlyMap<string, Unit>>>
