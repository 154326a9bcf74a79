import { unit as mathUnit } from 'mathjs'
import { describe, expect, test } from 'vitest'
import { toNumber } from '../src/units/rational.ts'
import type { QuantityKind } from '../src/units.ts'
import { KINDS, parseQuantity, spellingsOf } from '../src/units.ts'

/** Names that another library of units uses for ours; every unit of every kind must be here. */
const OTHER_NAMES: Readonly<
  Record<QuantityKind, readonly [base: string, names: Readonly<Record<string, string>>]>
> = {
  length: ['m', { mm: 'mm', cm: 'cm', m: 'm', in: 'inch', ft: 'foot' }],
  area: ['m2', { mm2: 'mm2', cm2: 'cm2', m2: 'm2', in2: 'sqin', ft2: 'sqft' }],
  volume: [
    'm3',
    {
      ml: 'ml',
      l: 'l',
      cm3: 'cm^3',
      m3: 'm3',
      in3: 'inch^3',
      'fl oz': 'floz',
      pt: 'pint',
      qt: 'quart',
      gal: 'gallon',
    },
  ],
  mass: ['kg', { g: 'g', kg: 'kg', mg: 'mg', oz: 'ounce', lb: 'poundmass' }],
  density: [
    'kg/m^3',
    { 'kg/m3': 'kg/m^3', 'g/cm3': 'g/cm^3', 'g/ml': 'g/ml', 'kg/l': 'kg/l', 'lb/ft3': 'poundmass/foot^3' },
  ],
  duration: ['s', { s: 's', min: 'minute', h: 'hour', days: 'day', weeks: 'week' }],
  temperature: ['K', { '°C': 'degC', '°F': 'degF', K: 'K' }],
  temperatureDifference: ['K', { K: 'K', '°C': 'K', '°F': 'degR' }],
  ratio: ['', { '%': '' }],
  power: ['W', { W: 'W', kW: 'kW' }],
  force: ['N', { N: 'N', kN: 'kN', lbf: 'poundforce' }],
  forcePerLength: [
    'N/m',
    { 'N/m': 'N/m', 'N/cm': 'N/cm', 'lbf/in': 'poundforce/inch', 'lbf/ft': 'poundforce/foot' },
  ],
  pressure: [
    'Pa',
    { Pa: 'Pa', kPa: 'kPa', MPa: 'MPa', GPa: 'GPa', psi: 'poundforce/inch^2', ksi: '1000 poundforce/inch^2' },
  ],
  thermalConductivity: ['W/(m K)', { 'W/(m K)': 'W/(m K)' }],
  heatCapacity: ['J/(kg K)', { 'J/(kg K)': 'J/(kg K)', 'kJ/(kg K)': 'kJ/(kg K)' }],
}

describe('published: mathjs 15.2.0, its table of units', () => {
  const rows = Object.entries(KINDS).flatMap(([kind, { units }]) =>
    units.map((each) => [kind as QuantityKind, each.symbol] as const),
  )
  test.each(rows.filter(([kind]) => kind !== 'ratio'))('%s: 37.5 %s', (kind, symbol) => {
    const [base, names] = OTHER_NAMES[kind]
    const other = names[symbol]
    expect(other, `no other name for ${symbol}`).toBeDefined()
    const read = parseQuantity(`37.5 ${symbol}`, kind)
    const factor = other?.startsWith('1000 ') ? 1000 : 1
    const theirs = mathUnit(37.5 * factor, other?.replace('1000 ', '') ?? '').toNumber(base)
    // mathjs multiplies floating-point factors; its US measures are printed to four digits (gallon 3.785 l), so they
    // agree to half of the fourth digit only. The exact gallon is checked below.
    const loose = kind === 'volume' && ['fl oz', 'pt', 'qt', 'gal'].includes(symbol) ? 5e-4 : 1e-12
    expect(read.ok && Math.abs(read.value / theirs - 1)).toBeLessThan(loose)
  })
})

describe('published: national standards institute SP 811, exact factors', () => {
  test.each([
    // as printed or defined, all exact: base units in one unit
    ['length', '1 in', 0.0254],
    ['length', '1 ft', 0.3048],
    ['area', '1 in2', 0.00064516],
    ['mass', '1 lb', 0.45359237],
    ['mass', '1 oz', 0.028349523125],
    ['volume', '1 gal', 0.003785411784],
    ['volume', '1 in3', 0.000016387064],
    ['force', '1 lbf', 4.4482216152605],
  ] as const)('%s %s', (kind, text, value) => {
    expect(parseQuantity(text, kind)).toMatchObject({ ok: true, value })
  })
  test.each([
    ['pressure', '1 psi', 6894.757, 0.0005],
    ['density', '1 lb/ft3', 16.0185, 0.00005],
  ] as const)('%s %s to the digits printed', (kind, text, value, half) => {
    const read = parseQuantity(text, kind)
    expect(read.ok && Math.abs(read.value - value)).toBeLessThanOrEqual(half)
  })
})

describe('by hand', () => {
  test('no spelling stands for two units of one kind', () => {
    for (const kind of Object.keys(KINDS) as QuantityKind[]) {
      const all = KINDS[kind].units.flatMap((each) => [each.symbol, ...each.also])
      expect(new Set(all).size, kind).toBe(all.length)
      expect(spellingsOf(kind)).toHaveLength(all.length)
    }
  })
  test('every unit is more than nothing, and every example can be read', () => {
    for (const [kind, { units, example }] of Object.entries(KINDS)) {
      for (const each of units) expect(toNumber(each.factor), each.symbol).toBeGreaterThan(0)
      expect(parseQuantity(example, kind as QuantityKind).ok, example).toBe(true)
    }
  })
})
