/** The demo's numbers worked out a second time, by hand, from what stands in its files. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { load } from 'js-yaml'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Value } from '../../src/sheets/model.ts'
import { BATCH, composeEdited, demo, MOULD, sheetOf, WHOLE_DEMO } from '../sites/edited-demo.ts'

let batch: ReadonlyMap<string, Value>
let mould: ReadonlyMap<string, Value>
/** Certificates at round figures, so that the arithmetic can be followed. mg KOH per g */
const CERTIFIED = { olive: 190, coconut: 256.5, palm: 199.5, 'shea-butter': 177.5, castor: 181.5 } as const
const FATS = Object.keys(CERTIFIED) as (keyof typeof CERTIFIED)[]

let whole: ReadonlyMap<string, Value>
beforeAll(async () => {
  const binder = await composeEdited({
    'materials/certificates.yaml': `certificates:\n${FATS.map(
      (fat) => `  ${fat}: { saponification-value: ${CERTIFIED[fat]}, lot: A-1, date: 2027-01-19 }`,
    ).join('\n')}\n`,
  })
  whole = sheetOf(await composeEdited(WHOLE_DEMO), BATCH).values
  batch = sheetOf(binder, BATCH).values
  mould = sheetOf(binder, MOULD).values
})

const numberOf = (values: ReadonlyMap<string, Value>, name: string): number => {
  const found = values.get(name)
  if (typeof found?.value !== 'number') throw new Error(`No number named ${name}.`)
  return found.value
}
const shownOf = (values: ReadonlyMap<string, Value>, name: string): string =>
  (values.get(name)?.shown ?? '').replaceAll('\u00a0', ' ')

/** What the arithmetic below starts from; when one of these lines changes, so must the arithmetic. */
const LINES: Readonly<Record<string, readonly string[]>> = {
  'recipes/hearth.yaml': [
    'olive: 38 %', 'coconut: 24 %', 'palm: 22 %', 'shea-butter: 10 %', 'castor: 6 %',
    'superfat: 6 %', 'lye-concentration: 33 %', 'pour-temperature: 105 F',
  ],
  'materials/fats.yaml': [
    'from: 0.91, to: 0.916, at: 20 C', 'from: 0.908, to: 0.921, at: 40 C', 'from: 0.891, to: 0.899, at: 50 C',
    'from: 0.89, to: 0.93, at: 40 C', 'from: 0.952, to: 0.965, at: 20 C',
  ],
  'materials/alkalis.yaml': ['purity: 98.5 %'],
  'materials/panels.yaml': ['thickness: 17.8 mm', 'thickness: 23.8 mm', 'thickness: 1 mm'],
  'batches/2027-03-14-hearth.yaml': ['ice: 40 %', 'fill: to the line'],
  'fixtures/five-by-three.yaml': [
    'along-length: 2 1/4 in', 'along-width: 2 3/4 in', 'thickness: 1 1/8 in', 'columns: 5', 'rows: 3', 'slices: 7',
    'top: 5/8 in', 'lining: polypropylene-1', 'depth: 1/4 in', 'lip: 1 1/2 in', 'freeboard: 1 1/2 in', 'height: 3 1/2 in',
    'clearance: 1.3 mm', 'side: birch-18', 'end: birch-18',
  ],
} // biome-ignore format: a table reads better in rows

describe('by hand: the arithmetic is about this demo', () => {
  it.each(Object.entries(LINES))('%s says what is assumed here', (file, lines) => {
    const text = readFileSync(join(demo, file), 'utf8')
    for (const line of lines) expect(text).toContain(line)
  })
})

// Na 22.990 + O 15.999 + H 1.008 = 39.997 g/mol; K 39.098 + 15.999 + 1.008 = 56.105 g/mol (from memory)
const NAOH = 39.997
const KOH = 56.105

describe('by hand: lye of the demo', () => {
  const oils = () => numberOf(batch, 'oils.mass')

  it('weighs the alkali that the certificates, the superfat and the purity ask for', () => {
    // 0.38 · 190 + 0.24 · 256.5 + 0.22 · 199.5 + 0.10 · 177.5 + 0.06 · 181.5
    //   = 72.20 + 61.56 + 43.89 + 17.75 + 10.89 = 206.29 g KOH for 1 kg of fats
    // 206.29 · 39.997 / 56.105 = 147.06 g NaOH;  · 0.94 = 138.24 g;  / 0.985 = 140.35 g as it comes
    // a gram either way: oils and alkali are each rounded to the scale's gram
    expect(Math.abs(numberOf(batch, 'naoh.mass') - 0.14035 * oils())).toBeLessThan(0.001)
  })

  it('shares the fats as the recipe says, to the gram', () => {
    const shares = { olive: 0.38, coconut: 0.24, palm: 0.22, 'shea-butter': 0.1, castor: 0.06 } as const
    for (const fat of FATS)
      expect(Math.abs(numberOf(batch, `fat.${fat}.mass`) - shares[fat] * oils())).toBeLessThan(0.0015)
    expect(FATS.reduce((sum, fat) => sum + numberOf(batch, `fat.${fat}.mass`), 0)).toBeCloseTo(oils(), 9)
  })

  it('leaves the superfat that the rounded weights make', () => {
    let potassiumHydroxide = 0
    for (const fat of FATS) potassiumHydroxide += numberOf(batch, `fat.${fat}.mass`) * CERTIFIED[fat]
    const demand = potassiumHydroxide / KOH // mol
    const alkali = (numberOf(batch, 'naoh.mass') * 1000 * 0.985) / NAOH // mol
    // molar masses above are rounded to 0.001 g/mol: 3e-5 of the ratio
    expect(Math.abs(numberOf(batch, 'superfat.nominal') - (1 - alkali / demand))).toBeLessThan(5e-5)
    expect(shownOf(batch, 'superfat.nominal')).toBe('6.0 %')
  })

  it('takes the water from the strength, two fifths of it as ice', () => {
    const lye = numberOf(batch, 'naoh.mass') / 0.33
    const water = lye - numberOf(batch, 'naoh.mass')
    // each is rounded to the gram
    expect(Math.abs(numberOf(batch, 'water.mass') - 0.6 * water)).toBeLessThan(0.0011)
    expect(Math.abs(numberOf(batch, 'ice.mass') - 0.4 * water)).toBeLessThan(0.0011)
    expect(Math.abs(numberOf(batch, 'lye.mass') - lye)).toBeLessThan(0.0021)
  })

  it('adds up: portions to the alkali, fats and lye to the batter, draws to the kettle', () => {
    const portions = [...batch].filter(([name]) => /^naoh\.portion\.\d+\.mass$/.test(name))
    const sum = portions.reduce((total, [, { value }]) => total + Number(value), 0)
    expect(portions.length).toBe(numberOf(batch, 'portions'))
    expect(sum).toBeCloseTo(numberOf(batch, 'naoh.mass'), 9)
    expect(oils() + numberOf(batch, 'lye.mass')).toBeCloseTo(numberOf(batch, 'batter.mass'), 9)
    const draws = [...batch].filter(([name]) => /^fat\..*\.draw\.\d+\.target$/.test(name))
    expect(draws.reduce((total, [, { value }]) => total + Number(value), 0)).toBeCloseTo(oils(), 9)
    const last = [...batch].filter(([name]) => /\.inKettle$/.test(name)).at(-1)?.[1]
    expect(last?.value).toBeCloseTo(oils(), 9)
  })
})

describe('by hand: lye of the demo as it is', () => {
  /** Carbons and double bonds of an acid, and an oxygen more for ricinoleic acid. */
  const molarMass = (name: string): number => {
    const [, carbons = '', bonds = '', hydroxyl] = /^C(\d+):(\d+)(OH)?/.exec(name) ?? []
    // C 12.011, H 1.008, O 15.999 g/mol: CnH(2n−2b)O2
    return (
      12.011 * Number(carbons) +
      1.008 * (2 * Number(carbons) - 2 * Number(bonds)) +
      15.999 * (hydroxyl === undefined ? 2 : 3)
    )
  }

  interface Published {
    readonly 'saponification-value': { readonly from: number; readonly to: number }
    readonly unsaponifiable?: { readonly from?: number; readonly to?: number }
    readonly 'fatty-acids'?: { readonly percent: Readonly<Record<string, readonly [number, number]>> }
  }

  /** From the middles of the published make-up where that gives a value in the published range, else its middle. */
  const saponificationValue = (fat: Published): number => {
    const { from, to } = fat['saponification-value']
    const acids = Object.entries(fat['fatty-acids']?.percent ?? {})
    let grams = 0
    let moles = 0
    for (const [name, [low, high]] of acids) {
      grams += (low + high) / 2
      moles += (low + high) / 2 / molarMass(name)
    }
    // a triglyceride is three acids on glycerol (92.094 g/mol), less three waters (18.015 g/mol)
    const triglyceride = 3 * (grams / moles) + 92.094 - 3 * 18.015
    const unsaponifiable = ((fat.unsaponifiable?.from ?? 0) + (fat.unsaponifiable?.to ?? 0)) / 2 / 1000
    const value = ((3000 * KOH) / triglyceride) * (1 - unsaponifiable)
    return value >= from && value <= to ? value : (from + to) / 2
  }

  it('rests on the certificate of the coconut oil and the published make-up of the others', () => {
    const file = readFileSync(join(demo, 'materials/fats.yaml'), 'utf8')
    const { fats } = load(file) as { fats: Record<string, Published> }
    expect(readFileSync(join(demo, 'materials/certificates.yaml'), 'utf8')).toContain(
      'saponification-value: 256.8',
    )
    let demand = 0
    for (const fat of FATS) {
      const value = fat === 'coconut' ? 256.8 : saponificationValue(fats[fat] as Published)
      demand += numberOf(whole, `fat.${fat}.mass`) * value
    }
    // as above: g of KOH to kg of soda as it comes, at 6 % superfat
    const expected = ((demand / 1000) * 0.94 * NAOH) / KOH / 0.985
    expect(Math.abs(numberOf(whole, 'naoh.mass') - expected)).toBeLessThan(0.001)
  })
})

describe('by hand: block and fill of the demo', () => {
  it('has the block that bars, grid and trim make', () => {
    // 5 · 2 1/4 = 11 1/4 in = 285.75 mm; 3 · 2 3/4 = 8 1/4 in = 209.55 mm; 7 · 1 1/8 + 5/8 = 8 1/2 in = 215.9 mm
    expect(numberOf(batch, 'block.length')).toBeCloseTo(0.28575, 9)
    expect(numberOf(batch, 'block.width')).toBeCloseTo(0.20955, 9)
    expect(numberOf(batch, 'fill.setHeight')).toBeCloseTo(0.2159, 9)
    expect(shownOf(batch, 'block.length')).toBe('11 1/4 in (286 mm)')
    expect(shownOf(batch, 'block.width')).toBe('8 1/4 in (210 mm)')
    expect(shownOf(batch, 'fill.setHeight')).toBe('8 1/2 in (216 mm)')
    // 5 · 3 · 7
    expect(shownOf(batch, 'bars')).toBe('105')
  })

  it('is poured as much higher as it sinks when it sets', () => {
    // 4 % lower when set: 215.9 / 0.96 = 224.896 mm = 8.854 in, and 0.854 · 32 = 27.3: 8 27/32 in
    expect(numberOf(batch, 'fill.pourHeight')).toBeCloseTo(0.224896, 6)
    expect(shownOf(batch, 'fill.pourHeight')).toBe('8 27/32 in (225 mm)')
    // rim 8 1/2 + 1 1/2 = 10 in = 254 mm above the base: 254 − 224.896 = 29.104 mm
    expect(numberOf(batch, 'fill.belowRim')).toBeCloseTo(0.029104, 6)
    expect(shownOf(batch, 'fill.belowRim')).toBe('1 5/32 in (29 mm)') // 1.1458 in, 0.1458 · 32 = 4.7
  })

  it('needs the batter that fills it', () => {
    // 285.75 · 209.55 mm = 0.0598789 m2; · 0.224896 m = 13.4666 l in the mould
    // 1 % air beaten in, 1 % left in the pot: 13.4666 / 1.01 / 0.99 = 13.4679 l of batter
    expect(Math.abs(numberOf(batch, 'batter.volume') - 0.0134679)).toBeLessThan(2e-7)
  })

  it('needs the oils that make so much batter', () => {
    // Densities at 105 °F = 40.56 °C, from the middle of the published relative densities, water at 20 °C 998.2 kg/m3
    // (from memory), 0.66 kg/m3 less for each kelvin:
    //   olive   0.913  · 998.2 − 0.66 · 20.56 = 897.8    0.38 kg: 0.42326 l
    //   coconut 0.9145 · 998.2 − 0.66 ·  0.56 = 912.5    0.24 kg: 0.26302 l
    //   palm    0.895  · 998.2 + 0.66 ·  9.44 = 899.6    0.22 kg: 0.24455 l
    //   shea    0.91   · 998.2 − 0.66 ·  0.56 = 908.0    0.10 kg: 0.11013 l
    //   castor  0.9585 · 998.2 − 0.66 · 20.56 = 943.2    0.06 kg: 0.06361 l     together 1.10457 l
    // Lye: 140.35 g / 0.33 = 425.3 g; 32.5 % of NaOH at 40 °C: 1.341 kg/l (from memory, a handbook table): 0.3172 l
    // 13.4679 l / (1.10457 + 0.3172) l/kg = 9.4727 kg
    // The lye's density is known from memory to half a percent, a fifth of the volume: 0.1 %, and 0.05 % for the fats.
    const expected = 9.4727
    expect(Math.abs(numberOf(batch, 'oils.mass') / expected - 1)).toBeLessThan(0.0015)
  })
})

describe('by hand: parts of the demo mould', () => {
  it.each([
    // block and 1 mm of lining on both sides
    // 11.3287 in, 0.3287 · 32 = 10.5: 11/32; the width alike
    ['mould.inside.length', 287.75, '11 11/32 in (287.8 mm)'],
    ['mould.inside.width', 211.55, '8 11/32 in (211.6 mm)'],
    // 8 1/2 in of soap and 1 1/2 in of freeboard
    ['mould.inside.height', 254, '10 in (254.0 mm)'],
    // 10 in on a base of 3 1/2 in
    ['mould.rim.height', 342.9, '13 1/2 in (342.9 mm)'],
    // inside, two ends of 17.8 mm, two lips of 38.1 mm: 287.75 + 35.6 + 76.2
    // 15.7303 in, 0.7303 · 32 = 23.4
    ['part.side.lengthIn', 399.55, '15 23/32 in'],
    ['part.side.length', 399.55, '399.6 mm'],
    // an end is as high as the sides, 13 1/2 in exactly, and stands 6.35 mm deep in both: 211.55 + 12.7
    ['part.end.widthIn', 342.9, '13 1/2 in'],
    ['part.end.width', 342.9, '342.9 mm'],
    ['part.end.length', 224.25, '224.3 mm'],
    // inside less 1.3 mm on both sides
    ['part.base-top.length', 285.15, '285.2 mm'],
    ['part.base-top.width', 208.95, '209.0 mm'],
    // base of 88.9 mm less its top of 23.8 mm
    ['part.rail.width', 65.1, '65.1 mm'],
    // the lining covers a side and an end, less a thickness for its neighbour and two of play
    ['part.lining.length', 287.75 + 211.55 - 3, '496.3 mm'],
    ['part.lining.fold.at', 286.75, undefined],
    // a strip is as high as its groove is deep: 5/8 in and 3/8 in
    ['part.groove-strip-short.width', 15.875, '15.9 mm'],
    ['part.groove-strip-long.width', 9.525, '9.5 mm'],
    // the first long groove's middle is 2 3/4 in from the block, 0.3 mm less from the base; a notch begins 3/32 in before
    ['part.groove-strip-short.notch-groove-y-1.at', 69.85 - 0.3 - 2.38125, undefined],
    // across both sides: 211.55 + 35.6
    ['part.lid.width', 247.15, '247.2 mm'],
    // the dado takes an end of 17.8 mm with 0.3 mm to spare
    ['part.side.dado-1.size', 18.1, undefined],
    ['part.side.dado-1.at', 38.1, '1 1/2 in'],
    // from the left: 399.55 − 38.1 − 18.1; 13.5177 in, 0.5177 · 32 = 16.6
    ['part.side.dado-2.at', 343.35, '13 17/32 in'],
  ])('%s is %s mm', (name, millimetres, shown) => {
    expect(numberOf(mould, name) * 1000).toBeCloseTo(millimetres, 6)
    if (shown !== undefined) expect(shownOf(mould, name)).toBe(shown)
  })
})
