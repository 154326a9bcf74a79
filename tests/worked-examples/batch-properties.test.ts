/** What must hold for every batch: twice the fats, finer scales, other units, nothing lost. Bound from files in memory. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type BoundBinder, bind } from '../../src/binder/bind.ts'
import { loadFiles, smallBinderFiles } from '../sites/small-binder.ts'

type Batch = BoundBinder['batches'][number]
type Edit = readonly [file: string, from: string, to: string]

const files = smallBinderFiles()

const bound = (edits: readonly Edit[]): BoundBinder => {
  const edited = new Map(files)
  for (const [file, from, to] of edits) {
    const text = edited.get(file) ?? ''
    if (!text.includes(from)) throw new Error(`${file} has no "${from}"`)
    edited.set(file, text.replace(from, to))
  }
  const { content, diagnostics } = loadFiles(edited)
  if (!content) throw new Error(diagnostics.map(({ message }) => message).join('; '))
  return bind(content).binder
}
const batchOf = (edits: readonly Edit[]): Batch => {
  const [batch] = bound(edits).batches
  if (!batch) throw new Error('no batch')
  return batch
}

const RECIPE = 'recipes/plain.yaml'
const BATCH = 'batches/2027-02-01-plain.yaml'

/** Two alkalis, an acid and a liquid kept back, so that nothing is left out of a sum. */
interface Any {
  readonly olive: number
  readonly superfat: number
  readonly potassium: number
  readonly acid: number
  readonly later: number
  readonly ice: number
}
const any = fc.record({
  olive: fc.integer({ min: 5, max: 95 }),
  superfat: fc.integer({ min: 20, max: 120 }).map((tenths) => tenths / 10),
  potassium: fc.integer({ min: 1, max: 99 }),
  acid: fc.integer({ min: 5, max: 30 }).map((tenths) => tenths / 10),
  later: fc.integer({ min: 1, max: 20 }),
  ice: fc.integer({ min: 5, max: 60 }),
})

const edits = (one: Any, oils: string): readonly Edit[] => [
  [RECIPE, 'superfat: 6 %', `superfat: ${one.superfat} %`],
  [RECIPE, 'olive: 70 %\n  coconut: 30 %', `olive: ${one.olive} %\n  coconut: ${100 - one.olive} %`],
  [
    RECIPE,
    'alkali: beads',
    `alkalis: { beads: ${100 - one.potassium} %, flakes: ${one.potassium} % }\nadditions: { citric: ${one.acid} % }\nlater-liquid: ${one.later} %`,
  ],
  [
    'materials/all.yaml',
    'panels:',
    `  flakes: { name: Potassium hydroxide, kind: KOH, purity: 90 %, purity-range: { from: 88 %, to: 92 % } }

additives:
  citric: { name: Citric acid, acid: citric-acid, strength: 99 % }

panels:`,
  ],
  [BATCH, 'fill: to the line', `oils: ${oils}`],
  [BATCH, 'ice: 40 %', `ice: ${one.ice} %`],
]

/** A large shop with a fine scale: one draw of each, and rounding far from what is looked at. */
const FINE: readonly Edit[] = [
  ['shop.yaml', 'capacity: 5 kg', 'capacity: 500 kg'],
  ['shop.yaml', 'division: 1 g', 'division: 0.01 g'],
  ['shop.yaml', 'use: weighing, material: polypropylene, volume: 3 l', 'use: weighing, material: polypropylene, volume: 400 l'],
  ['shop.yaml', 'use: alkali, material: polypropylene, volume: 1 l', 'use: alkali, material: polypropylene, volume: 100 l'],
  // one kettle: each of several is weighed and rounded by itself
  ['shop.yaml', 'use: mixing, material: stainless-304, volume: 12 l', 'use: mixing, material: stainless-304, volume: 400 l'],
] // biome-ignore format: one edit a line
const DIVISION = 1e-5

/** Everything that is weighed, by name [kg]. */
const masses = (batch: Batch): Record<string, number> =>
  Object.fromEntries([
    ...[...batch.fats, ...batch.alkalis, ...batch.additions].map(({ key, plan }) => [key, plan.sum]),
    ['water', batch.water.sum],
    ['ice', batch.ice?.sum ?? 0],
    ['later', batch.later?.sum ?? 0],
  ])
const total = (weights: Record<string, number>): number =>
  Object.values(weights).reduce((sum, mass) => sum + mass, 0)

describe('by hand: whatever a batch is, twice the fats are twice of everything', () => {
  test('every mass that is weighed, the batter, its volume and its height', () => {
    fc.assert(
      fc.property(any, fc.integer({ min: 1000, max: 30_000 }), (one, grams) => {
        const once = batchOf([...edits(one, `${grams} g`), ...FINE])
        const twice = batchOf([...edits(one, `${2 * grams} g`), ...FINE])
        const [small, large] = [masses(once), masses(twice)]
        expect(Object.keys(large)).toEqual(Object.keys(small))
        expect(Object.keys(small)).toEqual(
          expect.arrayContaining(['olive', 'coconut', 'beads', 'flakes', 'citric', 'water', 'ice', 'later']),
        )
        for (const [key, mass] of Object.entries(small)) {
          expect(mass, key).toBeGreaterThan(0)
          // each is rounded to the scale by itself: half a division, and twice half a division; water follows the
          // alkali and the acid as they were rounded
          expect(Math.abs((large[key] ?? 0) - 2 * mass), key).toBeLessThan(
            (['water', 'ice', 'later'].includes(key) ? 15 : 1.51) * DIVISION,
          )
        }
        for (const key of ['batterMass', 'pouredMass', 'batterVolume', 'oilMass'] as const)
          expect(Math.abs(twice.fill[key] / once.fill[key] / 2 - 1), key).toBeLessThan(1e-6)
        expect(Math.abs(twice.fill.pourHeight.nominal / once.fill.pourHeight.nominal / 2 - 1)).toBeLessThan(
          1e-6,
        )
        expect(Math.abs(twice.superfat.nominal - once.superfat.nominal)).toBeLessThan(1e-4)
      }),
      { seed: 20270301, numRuns: 12 },
    )
  })
})

describe('by hand: nothing is lost and nothing comes from nowhere', () => {
  test('what is weighed is the batter; what reacts comes out again as soap, glycerol, water and the rest', () => {
    fc.assert(
      fc.property(any, fc.integer({ min: 500, max: 30_000 }), (one, grams) => {
        const { batches, recipes } = bound([...edits(one, `${grams} g`), ...FINE])
        const [batch] = batches
        if (!batch) throw new Error('no batch')
        const weights = masses(batch)
        expect(Math.abs(total(weights) - batch.fill.batterMass)).toBeLessThan(20 * DIVISION)
        expect(Math.abs((weights.olive ?? 0) + (weights.coconut ?? 0) - grams / 1000)).toBeLessThan(
          1.01 * DIVISION,
        )
        // every draw of it
        for (const { plan } of [...batch.fats, ...batch.alkalis, ...batch.additions])
          expect(plan.draws.reduce((sum, { target }) => sum + target, 0)).toBeCloseTo(plan.sum, 9)

        const [recipe] = recipes
        if (!recipe) throw new Error('no recipe')
        const { products, alkalis } = recipe
        const pure = alkalis.reduce((sum, alkali) => sum + alkali.pure, 0)
        expect(products.massIn).toBeCloseTo(1 + pure + one.acid / 100, 9)
        expect(products.massOut).toBeCloseTo(products.massIn, 9)
        expect(products.superfat).toBeCloseTo(one.superfat / 100, 9)
      }),
      { seed: 20270302, numRuns: 12 },
    )
  })
})

describe('by hand: superfat and scales', () => {
  test('a finer scale never widens what the superfat may be, and ten times finer makes it narrower', () => {
    fc.assert(
      fc.property(any, fc.integer({ min: 3000, max: 30_000 }), (one, grams) => {
        const spread = (division: string) => {
          const { superfat } = batchOf([
            ...edits(one, `${grams} g`),
            ...FINE.filter(([, from]) => !from.startsWith('division')),
            ['shop.yaml', 'division: 1 g', `division: ${division}`],
          ])
          const { worst, rootSumSquare, monteCarlo } = superfat
          return {
            worst: worst.high - worst.low,
            root: rootSumSquare.high - rootSumSquare.low,
            drawn: monteCarlo.high - monteCarlo.low,
          }
        }
        const [coarse, middle, fine] = [spread('10 g'), spread('1 g'), spread('0.1 g')]
        expect(middle.worst).toBeLessThan(coarse.worst)
        expect(fine.worst).toBeLessThan(middle.worst)
        // rounding to 10 g moves the middle by itself, and a normal spread is cut where the limits are: 0.0005
        expect(middle.root).toBeLessThan(coarse.root + 0.0005)
        expect(fine.root).toBeLessThan(middle.root + 0.0005)
        expect(middle.drawn).toBeLessThan(coarse.drawn + 0.0005)
        expect(fine.drawn).toBeLessThan(middle.drawn + 0.0005)
      }),
      { seed: 20270303, numRuns: 6 },
    )
  })
})

describe('by hand: grams or ounces, pounds or kilograms: one batch', () => {
  // international avoirdupois: 1 oz = 28.349523125 g, 1 lb = 16 oz
  test('every mass, the superfat, the fill and what was found are the same', () => {
    fc.assert(
      fc.property(any, fc.integer({ min: 20, max: 800 }), (one, ounces) => {
        const shop = (metric: boolean): readonly Edit[] => [
          ['shop.yaml', 'division: 1 g', `division: ${metric ? '2.8349523125 g' : '0.1 oz'}`],
          ['shop.yaml', 'capacity: 5 kg', `capacity: ${metric ? '4989.51607 g' : '11 lb'}`],
          ['shop.yaml', 'empty-mass: 200 g', `empty-mass: ${metric ? '198.446661875 g' : '7 oz'}`],
          ['shop.yaml', 'hot-lift: 10 kg', `hot-lift: ${metric ? '9.97903214 kg' : '22 lb'}`],
        ]
        const metric = batchOf([...edits(one, `${(ounces * 28349523125) / 1e9} g`), ...shop(true)])
        const imperial = batchOf([...edits(one, `${ounces} oz`), ...shop(false)])
        const [grams, avoirdupois] = [masses(metric), masses(imperial)]
        for (const [key, mass] of Object.entries(grams))
          expect(Math.abs((avoirdupois[key] ?? -1) - mass), key).toBeLessThan(1e-9)
        expect(imperial.superfat.nominal).toBeCloseTo(metric.superfat.nominal, 9)
        expect(imperial.superfat.worst.low).toBeCloseTo(metric.superfat.worst.low, 9)
        expect(imperial.superfat.monteCarlo.low).toBeCloseTo(metric.superfat.monteCarlo.low, 9)
        expect(imperial.fill.pourHeight.nominal).toBeCloseTo(metric.fill.pourHeight.nominal, 9)
        expect(imperial.lye.peak).toBeCloseTo(metric.lye.peak, 6)
        expect(imperial.state).toBe(metric.state)
        expect(imperial.findings.map(({ code, severity }) => `${severity} ${code}`)).toEqual(
          metric.findings.map(({ code, severity }) => `${severity} ${code}`),
        )
      }),
      { seed: 20270304, numRuns: 12 },
    )
  })
})
