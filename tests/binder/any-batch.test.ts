/** Batches with every way of making one, and the masses on their sheets reckoned again from what stands in the files. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { BoundBatch } from '../../src/binder/bind-batch.ts'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { bindAndCompose, loadFiles, smallBinderFiles } from '../sites/small-binder.ts'

const MORE = `
additives:
  citric: { name: Citric acid, acid: citric-acid-monohydrate, strength: 99 % }
  lactic: { name: Lactic acid, acid: lactic-acid, strength: 80 % }
  clay: { name: Clay, density: 2500 kg/m3 }
  soot: { name: Soot }

fragrances:
  scent: { name: Scent, limit: 100 %, tried: small pot }

stock-lyes:
  half: { name: Half and half, kind: NaOH, strength: 48 %, strength-range: { from: 47 %, to: 49 % } }

certificates:
  coconut: { saponification-value: 255, tolerance: 1, lot: A }

`
const FLAKES =
  '  flakes: { name: Potassium hydroxide, kind: KOH, purity: 90 %, purity-range: { from: 88 %, to: 92 % } }\n'

interface Any {
  readonly olive: number
  readonly superfat: number
  readonly strength: number
  readonly potassium: number
  readonly later: number
  readonly acid: 'citric' | 'lactic' | 'none'
  readonly colours: boolean
  readonly how: 'stock' | 'ice as needed' | 'dry'
  readonly kettle: number
  readonly premix: boolean
  readonly fill: string
  readonly division: number
}

const any: fc.Arbitrary<Any> = fc.record({
  olive: fc.integer({ min: 40, max: 80 }),
  superfat: fc.integer({ min: 4, max: 10 }),
  strength: fc.integer({ min: 26, max: 36 }),
  potassium: fc.constantFrom(0, 0, 10, 30),
  later: fc.constantFrom(0, 0, 5, 15),
  acid: fc.constantFrom('none', 'none', 'citric', 'lactic'),
  colours: fc.boolean(),
  how: fc.constantFrom('stock', 'ice as needed', 'dry'),
  kettle: fc.constantFrom(3, 12),
  premix: fc.boolean(),
  fill: fc.constantFrom('fill: to the line', 'oils: 2.2 kg', 'oils: 3100 g', 'on-hand: { coconut: 800 g }'),
  division: fc.constantFrom(1, 2),
})

const make = (one: Any): { readonly batch: BoundBatch; readonly sheet: Sheet } => {
  const files = smallBinderFiles()
  const edit = (file: string, before: string, after: string): void => {
    const text = files.get(file) ?? ''
    if (!text.includes(before)) throw new Error(`${file} has no "${before}"`)
    files.set(file, text.replace(before, after))
  }
  const recipe = 'recipes/plain.yaml'
  const batch = 'batches/2027-02-01-plain.yaml'
  edit('materials/all.yaml', 'alkalis:\n', `${MORE}alkalis:\n${FLAKES}`)
  edit(
    'materials/all.yaml',
    'purity: 99 %',
    'purity: 99 %, purity-range: { from: 98 %, to: 100 % }, damp: 1 %',
  )
  edit(
    'materials/all.yaml',
    'stock-lyes:',
    `premixes:\n  blend: { name: Blend, fats: { olive: ${one.olive} %, coconut: ${100 - one.olive} % } }\n\nstock-lyes:`,
  )
  edit(recipe, 'olive: 70 %\n  coconut: 30 %', `olive: ${one.olive} %\n  coconut: ${100 - one.olive} %`)
  edit(recipe, 'superfat: 6 %', `superfat: ${one.superfat} %`)
  edit(recipe, 'lye-concentration: 30 %', `lye-concentration: ${one.strength} %`)
  if (one.potassium > 0)
    edit(recipe, 'alkali: beads', `alkalis: { beads: ${100 - one.potassium} %, flakes: ${one.potassium} % }`)
  const additions = ['clay: 3 %', ...(one.acid === 'none' ? [] : [`${one.acid}: 2 %`]), 'scent: 2 %']
  edit(
    recipe,
    'superfat:',
    `additions: { ${additions.join(', ')} }\n${one.later > 0 ? `later-liquid: ${one.later} %\n` : ''}${
      one.colours ? 'colours: { pale: { share: 60 % }, dark: { share: 40 %, with: { soot: 4 % } } }\n' : ''
    }superfat:`,
  )
  edit(batch, 'fill: to the line', `${one.premix ? 'premix: blend\n' : ''}${one.fill}`)
  if (one.how !== 'dry') edit(batch, 'ice: 40 %', one.how === 'stock' ? 'stock: half' : 'ice: as needed')
  edit('shop.yaml', 'volume: 12 l', `volume: ${one.kettle} l, how-many: 3`)
  edit('shop.yaml', 'division: 1 g', `division: ${one.division} g`)
  edit('shop.yaml', 'usual-temperature: 18 C', 'usual-temperature: 20 C')
  edit('shop.yaml', 'scales:\n', 'scales:\n  floor: { capacity: 30 kg, division: 5 g }\n')
  const { content, diagnostics } = loadFiles(files)
  if (!content) throw new Error(diagnostics.map(({ message }) => message).join('; '))
  const { binder, sheets } = bindAndCompose(content)
  const bound = binder.batches[0]
  const sheet = sheets.find(({ id }) => id.startsWith('batch/'))
  if (!bound || !sheet) throw new Error('no batch')
  return { batch: bound, sheet }
}

// g/mol from C 12.011, H 1.008, O 15.999, Na 22.990, K 39.098 (from memory)
const NAOH = 39.997
const KOH = 56.105
const CITRIC = 210.138 // C6H8O7 · H2O, three groups
const LACTIC = 90.078 // C3H6O3, one group
const seen = { several: 0, stock: 0, premix: 0, ice: 0, printed: 0, acid: 0, pail: 0, gross: 0 }

const judge = (one: Any): void => {
  const { batch, sheet } = make(one)
  for (const { name, value, shown } of sheet.values.values()) {
    expect(shown, name).not.toMatch(/NaN|Infinity|undefined|null/)
    if (typeof value === 'number') expect(Number.isFinite(value), name).toBe(true)
  }
  if (batch.state === 'stop') {
    for (const [name, { unit }] of sheet.values)
      expect(/^(finding|remedy)\./.test(name) || unit !== 'kg', `${name} on a stopped sheet`).toBe(true)
    // a stock of soda in a recipe with potash, and batters too large for three small kettles
    return
  }
  seen.printed += 1
  const step = one.division / 1000
  const number = (name: string): number => Number(sheet.values.get(name)?.value ?? Number.NaN)
  const oils = number('oils.mass')
  const share = one.olive / 100
  // several kettles round each by itself; a blend is rounded as one
  const slack = 1.5 * step * batch.kettles
  expect(Math.abs(number('fat.olive.mass') - share * oils)).toBeLessThan(2 * slack)

  // Demand, in mol: middle of 184 to 196 (no make-up stands in that file), coconut by its certificate.
  const value = share * 190 + (1 - share) * 255
  const acidShare = one.acid === 'none' ? 0 : 0.02
  const acidMoles =
    one.acid === 'citric' ? (3 * 0.99 * acidShare * 1000) / CITRIC : (0.8 * acidShare * 1000) / LACTIC
  const moles = (value * (1 - one.superfat / 100)) / KOH + (one.acid === 'none' ? 0 : acidMoles)
  const sodium = (moles * NAOH * (1 - one.potassium / 100)) / 0.99
  const potassium = (moles * KOH * (one.potassium / 100)) / 0.9
  const weighed = sodium + potassium
  const waterInAll = weighed * (100 / one.strength - 1)
  const fromAcid =
    one.acid === 'citric'
      ? acidShare * 1000 * (0.01 + (0.99 * 18.015) / CITRIC)
      : one.acid === 'lactic'
        ? acidShare * 1000 * 0.2
        : 0
  const near = (name: string, grams: number, times = 1): void =>
    expect(Math.abs(number(name) - (grams * oils) / 1000), name).toBeLessThan(
      times * slack + 1e-4 * grams * oils * 1e-3 + oils * 1e-4,
    )
  const later = (waterInAll * one.later) / 100
  if (one.how === 'stock') {
    const stock = (moles * NAOH) / 0.48
    near('naoh.mass', stock)
    near('water.mass', waterInAll - fromAcid - later - stock * 0.52, 2)
    expect(batch.lye.portions).toEqual([])
    seen.stock += 1
  } else {
    near('naoh.mass', sodium)
    if (one.potassium > 0) near('koh.mass', potassium)
    const ice = sheet.values.has('ice.mass') ? number('ice.mass') : 0
    expect(
      Math.abs(number('water.mass') + ice - ((waterInAll - fromAcid - later) * oils) / 1000),
    ).toBeLessThan(2 * slack + oils * 2e-4)
    if (ice > 0) seen.ice += 1
    // portions are what was weighed, and none passes the limit
    const portions = [...sheet.values].filter(([name]) => /^naoh\.portion\.\d+\.mass$/.test(name))
    expect(portions.reduce((sum, [, { value: mass }]) => sum + Number(mass), 0)).toBeCloseTo(
      number('naoh.mass'),
      9,
    )
    for (const { peak, peakLow } of batch.lye.portions) {
      expect(peak).toBeLessThanOrEqual(353.15 + 1e-9)
      expect(peakLow).toBeLessThanOrEqual(peak)
    }
  }
  if (one.later > 0) near('later.mass', later)
  if (one.acid !== 'none') {
    near(`addition.${one.acid}.mass`, 20)
    seen.acid += 1
  }

  // mass in is mass out: everything that is weighed is in the batter
  const parts = [...sheet.values]
    .filter(([name]) => /^(fat\.[a-z]+|naoh|koh|water|ice|later|addition\.[a-z.]+)\.mass$/.test(name))
    .reduce((sum, [, { value: mass }]) => sum + Number(mass), 0)
  expect(parts).toBeCloseTo(number('batter.mass'), 9)

  // draws make up the oils; kettles get the same; the check of one kettle is what it holds
  const draws = [...sheet.values].filter(([name]) => /^fat\..*\.draw\.\d+\.target$/.test(name))
  expect(draws.reduce((sum, [, { value: mass }]) => sum + Number(mass), 0)).toBeCloseTo(oils, 9)
  for (const [, { value: mass }] of draws) expect(Number(mass)).toBeLessThanOrEqual(5 - 0.2 + 1e-9)
  expect(batch.fill.batterVolume / batch.kettles).toBeLessThanOrEqual((one.kettle / 1000) * 0.75 + 1e-12)
  if (batch.kettles > 1) seen.several += 1
  if (one.premix) {
    expect(draws.every(([name]) => name.startsWith('fat.premix.'))).toBe(true)
    seen.premix += 1
  }
  if (batch.scales.gross)
    expect(Math.abs(batch.scales.gross.band.expected - 2 - oils / batch.kettles)).toBeLessThan(
      batch.scales.gross.scale.division,
    )

  // whatever single weighing of lye or oils is missing or doubled, the pot does not pass the second scale
  const { lye: pail, gross } = batch.scales
  if (pail) {
    seen.pail += 1
    for (const { masses } of batch.lye.portions)
      for (const mass of masses.filter((part) => part > 0)) {
        const weighedIn = number('lye.mass') + (one.acid === 'none' ? 0 : number(`addition.${one.acid}.mass`))
        expect(weighedIn - mass).toBeLessThan(pail.band.low)
        expect(weighedIn + mass).toBeGreaterThan(pail.band.high)
      }
  }
  if (gross)
    for (const { plan } of batch.oils)
      for (const { target } of plan.draws)
        if (target >= gross.band.detects) {
          seen.gross += 1
          const holds = 2 + oils / batch.kettles
          expect(holds - target).toBeLessThan(gross.band.low)
          expect(holds + target).toBeGreaterThan(gross.band.high)
        }

  // superfat of what is weighed, and its worst case, by the definition
  const demand = (oils * value) / KOH
  const kind = (name: string, purity: number, mass: number): number =>
    sheet.values.has(name) ? (number(name) * 1000 * purity) / mass : 0
  // acidMoles are of 20 g for each kilogram
  const free = one.acid === 'none' ? 0 : acidMoles * (number(`addition.${one.acid}.mass`) / 0.02)
  const hydroxide =
    one.how === 'stock'
      ? kind('naoh.mass', 0.48, NAOH)
      : kind('naoh.mass', 0.99, NAOH) + kind('koh.mass', 0.9, KOH)
  expect(Math.abs(batch.superfat.nominal - (1 - (hydroxide - free) / demand))).toBeLessThan(8e-4)
  expect(batch.superfat.worst.low).toBeLessThan(batch.superfat.monteCarlo.low)
  expect(batch.superfat.monteCarlo.low).toBeGreaterThanOrEqual(0)
  if (batch.state === 'go') expect(batch.superfat.worst.low).toBeGreaterThanOrEqual(0)

  // where somebody doubled or left out a weighing, the remedy brings the superfat back
  for (const { remedy, superfatAfter, superfat } of batch.mistakes)
    if (remedy.kind !== 'none-small') expect(superfatAfter).toBeCloseTo(batch.superfat.nominal, 6)
    else {
      // what is left alone is as far from the worst case below zero as the batch was planned to be
      expect(superfat).toBeGreaterThanOrEqual(batch.superfat.nominal - batch.superfat.worst.low - 1e-9)
    }
  expect(inlineWords(sheet.title)).toContain('Plain bar')
}

describe('by hand: every way of making a batch', () => {
  test('masses, draws, kettles and superfat are those that other arithmetic finds', () => {
    fc.assert(fc.property(any, judge), { seed: 20270401, numRuns: 70 })
    // the run is worth something only when it meets them all
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThan(4)
  }, 120_000)
})
