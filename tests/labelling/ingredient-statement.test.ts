/** Order and masses of ingredients: three recipes by hand, in both conventions; and that nothing is lost. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import fc from 'fast-check'
import { load } from 'js-yaml'
import { describe, expect, test } from 'vitest'
import { reactionProducts } from '../../src/chemistry/mass-balance.ts'
import {
  type IngredientStatement,
  ingredientStatement,
  type StatementInput,
} from '../../src/labelling/ingredient-statement.ts'
import { saltNamesOf } from '../../src/labelling/salt-names.ts'
import { demo } from '../sites/edited-demo.ts'

const OLIVE = 'Olea Europaea Fruit Oil'
const COCONUT = 'Cocos Nucifera Oil'
const PALM = 'Elaeis Guineensis Oil'
const TALLOW = 'Adeps Bovis'

const fat = (inci: string, grams: number, saponificationValue: number) =>
  ({ kind: 'triglyceride', inci, mass: grams / 1000, saponificationValue }) as const

const rows = ({ lines }: IngredientStatement) =>
  lines.map(({ name, mass, group }) => [name, Math.round(mass * 100_000) / 100, group])
const order = ({ lines }: IngredientStatement) => lines.map(({ name }) => name)
const codes = ({ findings }: IngredientStatement) => findings.map(({ code }) => code)

/** Three fats, scent, clay and a white pigment, for Europe. */
const three: StatementInput = {
  region: 'EU',
  fats: [fat(OLIVE, 450, 0.19), fat(COCONUT, 270, 0.257), fat(PALM, 280, 0.2)],
  alkali: { NaOH: 0.138, KOH: 0 },
  water: 0.307,
  additions: [
    { name: 'White', inci: 'CI 77891', kind: 'colour', mass: 0.016 },
    { name: 'Meadow', inci: undefined, kind: 'fragrance', mass: 0.03 },
    { name: 'Clay', inci: 'Kaolin', kind: 'plain', mass: 0.012 },
    { name: 'Salt', inci: 'Sodium Chloride', kind: 'plain', mass: 0.014 },
  ],
}

/** Olive and coconut with 5 % left free. */
const two: StatementInput = {
  region: 'EU',
  fats: [fat(OLIVE, 600, 0.19), fat(COCONUT, 400, 0.257)],
  alkali: { NaOH: 0.1468263, KOH: 0 },
  water: 0.3,
  finishedMass: 1.25,
}

/** Tallow with both alkalis and citric acid, for the United States. */
const one: StatementInput = {
  region: 'US',
  fats: [fat(TALLOW, 500, 0.197)],
  alkali: { NaOH: 0.06881844, KOH: 0.01072609 },
  water: 0.15,
  acids: [{ acid: 'citric-acid', mass: 0.01, strength: 1 }],
  finishedMass: 0.64,
}

describe('by hand: three recipes as put in', () => {
  test('three fats: the white pigment last, though it is more than 1 %', () => {
    // all: 450 + 270 + 280 + 138 + 307 + 16 + 30 + 12 + 14 = 1517 g; 1 % is 15.17 g
    expect(rows(ingredientStatement('as-put-in', three))).toEqual([
      [OLIVE, 450, 'descending'],
      ['Aqua', 307, 'descending'],
      [PALM, 280, 'descending'],
      [COCONUT, 270, 'descending'],
      ['Sodium Hydroxide', 138, 'descending'],
      ['Parfum', 30, 'descending'],
      ['Sodium Chloride', 14, 'any-order'],
      ['Kaolin', 12, 'any-order'],
      ['CI 77891', 16, 'colours'],
    ])
  })

  test('two fats', () => {
    expect(order(ingredientStatement('as-put-in', two))).toEqual([OLIVE, COCONUT, 'Aqua', 'Sodium Hydroxide'])
  })

  test('one fat, two alkalis and an acid', () => {
    // 500, 150, 68.82, 10.73, 10 of 739.54 g; 1 % is 7.4 g
    expect(rows(ingredientStatement('as-put-in', one))).toEqual([
      [TALLOW, 500, 'descending'],
      ['Water', 150, 'descending'],
      ['Sodium Hydroxide', 68.82, 'descending'],
      ['Potassium Hydroxide', 10.73, 'descending'],
      ['Citric Acid', 10, 'descending'],
    ])
  })
})

describe('by hand: three recipes as finished', () => {
  test('two fats: soap of each, glycerin, water, and 5 % of each fat', () => {
    // sites: 600 · 0.190 / 56.1053 = 2.031894 mol, 400 · 0.257 / 56.1053 = 1.832269 mol; 95 % of both: 3.670955 mol NaOH
    // acids: 600 / 2.031894 − 12.683 = 282.608 g/mol, 400 / 1.832269 − 12.683 = 205.626 g/mol; soaps 21.982 more
    // 1.930299 · 304.590 = 587.95;  1.740656 · 227.607 = 396.19;  3.670955 / 3 · 92.094 = 112.69;  free 30 and 20
    // water: 1250 − 587.95 − 396.19 − 112.69 − 50 = 103.17
    const found = ingredientStatement('as-finished', two)
    expect(rows(found)).toEqual([
      ['Sodium Olivate', 587.95, 'descending'],
      ['Sodium Cocoate', 396.19, 'descending'],
      ['Glycerin', 112.69, 'descending'],
      ['Aqua', 103.17, 'descending'],
      [OLIVE, 30, 'descending'],
      [COCONUT, 20, 'descending'],
    ])
    expect(found.findings).toEqual([])
  })

  test('the same bars less dry: water before glycerin', () => {
    // 1270 − 1146.83 = 123.17 > 112.69
    expect(order(ingredientStatement('as-finished', { ...two, finishedMass: 1.27 })).slice(2, 4)).toEqual([
      'Aqua',
      'Glycerin',
    ])
  })

  test('one fat, two alkalis and an acid: salts by their moles, no free fat', () => {
    // 98.5 / 56.1053 = 1.755628 mol; acid 500 / 1.755628 − 12.683 = 272.115 g/mol; citric 3 · 10 / 192.123 = 0.156150 mol
    // hydroxide 1.911778 mol: 90 % NaOH 68.81844 g, 10 % KOH 10.72609 g
    // 1.580065 · 294.097 = 464.69;  0.1755628 · 310.206 = 54.46;  1.755628 / 3 · 92.094 = 53.89
    // 0.9 (10 + 0.15615 · 21.982) = 12.09;  0.1 (10 + 0.15615 · 38.090) = 1.59;  water 640 − 586.73 = 53.27
    const found = ingredientStatement('as-finished', one)
    expect(rows(found)).toEqual([
      ['Sodium Tallowate', 464.69, 'descending'],
      ['Potassium Tallowate', 54.46, 'descending'],
      ['Glycerin', 53.89, 'descending'],
      ['Water', 53.27, 'descending'],
      ['Sodium Citrate', 12.09, 'descending'],
      ['Potassium Citrate', 1.59, 'any-order'],
    ])
  })

  test('three fats: two soaps of nearly one mass stand by theirs', () => {
    // Sodium Palmate from 280 g at 200 mg/g, Sodium Cocoate from 270 g at 257 mg/g:
    // sites 0.998123 and 1.236782 mol, olive 1.523921: 3.758825 mol; NaOH 138 / 39.99677 = 3.450279 mol: 91.7914 %
    // acids 280 / 0.998123 − 12.683 = 267.844, 270 / 1.236782 − 12.683 = 205.626, olive 282.608 g/mol
    // 0.916191 · 289.826 = 265.54;  1.135259 · 227.607 = 258.39;  1.398829 · 304.590 = 426.07
    // glycerin 3.450279 / 3 · 92.094 = 105.92;  free 8.2086 %: 36.94, 22.16, 22.98
    const found = ingredientStatement('as-finished', { ...three, finishedMass: 1.3 })
    // dry 426.07 + 265.54 + 258.39 + 105.92 + 82.08 + 72 = 1210.00: 1138 of fats and alkali, 72 of additions; water 90
    expect(rows(found)).toEqual([
      ['Sodium Olivate', 426.07, 'descending'],
      ['Sodium Palmate', 265.54, 'descending'],
      ['Sodium Cocoate', 258.39, 'descending'],
      ['Glycerin', 105.92, 'descending'],
      ['Aqua', 90, 'descending'],
      [OLIVE, 36.94, 'descending'],
      ['Parfum', 30, 'descending'],
      [PALM, 22.98, 'descending'],
      [COCONUT, 22.16, 'descending'],
      ['Sodium Chloride', 14, 'descending'],
      ['Kaolin', 12, 'any-order'],
      ['CI 77891', 16, 'colours'],
    ])
  })
})

describe('by hand: names, ties and limits', () => {
  const plain = (name: string, grams: number) =>
    ({ name, inci: name, kind: 'plain', mass: grams / 1000 }) as const

  test('water from several sources is one line, spelled as it came first', () => {
    const found = ingredientStatement('as-put-in', {
      ...two,
      acids: [{ acid: 'citric-acid', mass: 0.01, strength: 0.5 }],
      additions: [plain(' aqua ', 20), plain('Kaolin', 20)],
    })
    // 300 + 5 + 20
    expect(rows(found).find(([name]) => name === 'Aqua')?.[1]).toBe(325)
    expect(order(found).filter((name) => /aqua/i.test(name))).toEqual(['Aqua'])
  })

  test('two oils of one plant are one line, and move up by it', () => {
    const found = ingredientStatement('as-put-in', {
      ...two,
      fats: [fat(OLIVE, 400, 0.19), fat(PALM, 250, 0.2), fat(PALM, 350, 0.2)],
    })
    expect(order(found)[0]).toBe(PALM)
  })

  test('equal masses stand by name, however they were summed', () => {
    const found = ingredientStatement('as-put-in', {
      ...two,
      additions: [plain('Oat', 100), plain('Oat', 200), plain('Honey', 300)],
    })
    // 0.1 + 0.2 is more than 0.3 by its last bit; Aqua has 300 g, too
    expect(order(found).slice(2, 5)).toEqual(['Aqua', 'Honey', 'Oat'])
  })

  test('1 % exactly may stand in any order in the United States and not in Europe', () => {
    // 10 of 1000 g
    const just = (region: 'US' | 'EU') =>
      ingredientStatement('as-put-in', {
        region,
        fats: [fat(OLIVE, 800, 0.19)],
        alkali: { NaOH: 0, KOH: 0 },
        water: 0.19,
        additions: [plain('Kaolin', 10)],
      }).lines.at(-1)?.group
    expect([just('US'), just('EU')]).toEqual(['any-order', 'descending'])
  })

  test('allergens are named and not counted twice', () => {
    const found = ingredientStatement('as-put-in', {
      ...three,
      allergens: [{ name: 'Linalool', mass: 0.0015 }],
    })
    expect(found.total).toBeCloseTo(1.517, 12)
    expect(found.lines.find(({ name }) => name === 'Linalool')?.group).toBe('any-order')
  })

  test('what some bars lack may be named so in the United States only', () => {
    const colour = { name: 'Red', inci: 'CI 77491', kind: 'colour', mass: 0.005, inSomeBars: true } as const
    const us = ingredientStatement('as-put-in', { ...three, region: 'US', additions: [colour] })
    expect([us.mayContain, order(us).includes('CI 77491')]).toEqual([['CI 77491'], false])
    const eu = ingredientStatement('as-put-in', { ...three, additions: [colour] })
    expect([eu.mayContain, order(eu).at(-1), codes(eu)]).toEqual([
      [],
      'CI 77491',
      ['may-contain-not-allowed'],
    ])
  })

  test('fragrance and water by their region; nano in brackets in Europe', () => {
    const additions = [
      { name: 'Meadow', inci: undefined, kind: 'fragrance', mass: 0.03 },
      { name: 'Zinc', inci: 'Zinc Oxide', kind: 'plain', mass: 0.02, nano: true },
    ] as const
    const of = (region: 'US' | 'UK') => order(ingredientStatement('as-put-in', { ...two, region, additions }))
    expect(of('US')).toEqual(expect.arrayContaining(['Water', 'Fragrance', 'Zinc Oxide']))
    expect(of('UK')).toEqual(expect.arrayContaining(['Aqua', 'Parfum', 'Zinc Oxide [nano]']))
  })

  test('what of a fat no lye takes stands with what is left of it: 6 % of 600 g and 5 % of the rest', () => {
    const shea = { ...fat('Butyrospermum Parkii Butter', 600, 0.18), unsaponifiable: 0.06 }
    // 564 g take 600 g · 0.18 / 56.1056 · 39.9971 = 76.992 g of lye; 95 % of it
    const found = ingredientStatement('as-finished', {
      region: 'EU',
      fats: [shea],
      alkali: { NaOH: 0.95 * 0.0769921, KOH: 0 },
      water: 0.2,
      finishedMass: 0.75,
    })
    const left = found.lines.find(({ name }) => name === shea.inci)
    expect(left?.mass).toBeCloseTo(0.036 + 0.05 * 0.564, 5)
  })

  test('milk brings water that dries and solids that stay', () => {
    const milk = { name: 'Milk', inci: 'Goat Milk', kind: 'plain', mass: 0.1, water: 0.087 } as const
    const found = ingredientStatement('as-finished', { ...two, additions: [milk] })
    expect(rows(found).find(([name]) => name === 'Goat Milk')?.[1]).toBe(13)
    // 1250 − 1146.83 − 13
    expect(rows(found).find(([name]) => name === 'Aqua')?.[1]).toBe(90.17)
  })

  test('what cannot be said is found', () => {
    const nameless = { name: 'Leaf powder', inci: undefined, kind: 'plain', mass: 0.02 } as const
    expect(codes(ingredientStatement('as-put-in', { ...two, additions: [nameless] }))).toEqual([
      'ingredient-name-missing',
    ])
    const pigment = { name: 'Ochre', inci: 'Iron Oxides', kind: 'colour', mass: 0.02 } as const
    expect(codes(ingredientStatement('as-put-in', { ...two, additions: [pigment] }))).toEqual([
      'colour-number-missing',
    ])
    const strange = { ...two, fats: [fat(OLIVE, 600, 0.19), fat('Cera Nova', 400, 0.257)] }
    expect(codes(ingredientStatement('as-finished', strange))).toEqual(['soap-name-unknown'])
    const unsure = { ...two, fats: [fat(OLIVE, 600, 0.19), fat('Canola Oil', 400, 0.257)] }
    expect(codes(ingredientStatement('as-finished', unsure))).toEqual(['soap-name-unsure'])
    expect(codes(ingredientStatement('as-finished', { ...two, finishedMass: 1.1 }))).toEqual([
      'finished-mass-below-dry',
    ])
    // 1146.83 + 300
    expect(codes(ingredientStatement('as-finished', { ...two, finishedMass: 1.45 }))).toEqual([
      'finished-mass-above-wet',
    ])
    const { finishedMass: _, ...unweighed } = two
    expect(codes(ingredientStatement('as-finished', unweighed))).toEqual(['finished-mass-missing'])
    expect(codes(ingredientStatement('as-put-in', { ...two, region: 'CA' }))).toEqual(['label-rules-unknown'])
  })

  test('lye that is too much is on the list, and stops it', () => {
    const found = ingredientStatement('as-finished', { ...two, alkali: { NaOH: 0.17, KOH: 0 } })
    // all sites take 3.864163 · 39.99677 = 154.55 g
    expect(rows(found).find(([name]) => name === 'Sodium Hydroxide')?.[1]).toBe(15.45)
    expect(codes(found)).toEqual(['alkali-left-over'])
  })
})

describe('by hand: nothing is lost, order is kept', () => {
  const grams = fc.integer({ min: 20, max: 800 })
  const recipe = fc.record({ olive: grams, coconut: grams, palm: grams, part: fc.double({ min: 0.5, max: 1, noNaN: true }), potash: fc.double({ min: 0, max: 1, noNaN: true }), citric: fc.integer({ min: 0, max: 5 }), clay: fc.integer({ min: 0, max: 50 }) }) // biome-ignore format: one line reads better

  test('both lists weigh what went in, and what came out; parts of each fat make the whole', () => {
    fc.assert(
      fc.property(recipe, ({ olive, coconut, palm, part, potash, citric, clay }) => {
        const fats = [fat(OLIVE, olive, 0.19), fat(COCONUT, coconut, 0.257), fat(PALM, palm, 0.2)]
        const sites = fats.reduce((sum, { mass, saponificationValue }) => sum + mass * saponificationValue, 0)
        const alkali = { NaOH: sites * part * (1 - potash) * 0.7129, KOH: sites * part * potash }
        const acids = [{ acid: 'citric-acid-monohydrate', mass: citric / 1000, strength: 0.99 }] as const
        const additions = [{ name: 'Clay', inci: 'Kaolin', kind: 'plain', mass: clay / 1000 }] as const
        const water = 0.3
        const went = fats.reduce((sum, { mass }) => sum + mass, 0) + alkali.NaOH + alkali.KOH + citric / 1000
        const finishedMass = went + clay / 1000 + 0.05
        const input = { region: 'EU', fats, alkali, acids, additions, water, finishedMass } as const
        const put = ingredientStatement('as-put-in', input)
        const finished = ingredientStatement('as-finished', input)
        expect(put.total).toBeCloseTo(went + water + clay / 1000, 9)
        expect(finished.total).toBeCloseTo(finishedMass, 9)
        for (const { lines, total } of [put, finished]) {
          expect(lines.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(total, 5)
          const shares = lines.map(({ share }) => share)
          for (const [at, share] of shares.slice(1).entries())
            expect(share).toBeLessThanOrEqual(shares[at]! + 1e-8)
          expect(new Set(lines.map(({ name }) => name)).size).toBe(lines.length)
        }
        const products = reactionProducts({ fats, alkali, acids })
        const sum = (key: keyof (typeof products.byFat)[number]) =>
          products.byFat.reduce((all, one) => all + one[key], 0)
        expect(sum('sodiumSoap') + sum('potassiumSoap')).toBeCloseTo(products.soap, 9)
        expect(sum('unreactedFat')).toBeCloseTo(products.unreactedFat, 9)
        expect(products.byAcid[0]!.sodiumSalt + products.byAcid[0]!.potassiumSalt).toBeCloseTo(
          products.acidSalts,
          9,
        )
      }),
      { seed: 701, numRuns: 200 },
    )
  })

  test('every fat of the demo has a name for its soap, but those that are left out', () => {
    const { fats } = load(readFileSync(join(demo, 'materials/fats.yaml'), 'utf8')) as {
      fats: Record<string, { inci: { name: string } }>
    }
    const unnamed = Object.entries(fats).filter(([, { inci }]) => !saltNamesOf(inci.name))
    expect(unnamed.map(([key]) => key)).toEqual(['mutton-tallow', 'jojoba', 'beeswax'])
  })
})

describe('published: names of soaps in cosmetic glossaries, from memory', () => {
  test.each([
    [OLIVE, 'Sodium Olivate', 'Potassium Olivate'],
    [COCONUT, 'Sodium Cocoate', 'Potassium Cocoate'],
    [PALM, 'Sodium Palmate', 'Potassium Palmate'],
    ['Elaeis Guineensis Kernel Oil', 'Sodium Palm Kernelate', 'Potassium Palm Kernelate'],
    [TALLOW, 'Sodium Tallowate', 'Potassium Tallowate'],
    ['Stearic Acid', 'Sodium Stearate', 'Potassium Stearate'],
    ['Ricinus Communis Seed Oil', 'Sodium Castorate', 'Potassium Castorate'],
    ['Butyrospermum Parkii Butter', 'Sodium Shea Butterate', 'Potassium Shea Butterate'],
  ])('%s: %s, %s', (inci, sodium, potassium) =>
    expect(saltNamesOf(inci.toUpperCase())).toEqual({ sodium, potassium, certain: true }),
  )
})
