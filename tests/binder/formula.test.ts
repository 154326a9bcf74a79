/** A recipe for each kilogram of its fats, worked out by hand. */
import { describe, expect, test } from 'vitest'
import { usedSaponificationValue } from '../../src/binder/fat-figures.ts'
import { formulaOf } from '../../src/binder/formula.ts'
import type { Content } from '../../src/schema/content.ts'
import type { FatEntry } from '../../src/schema/fats.ts'
import type { RecipeFile } from '../../src/schema/recipe.ts'

const from = { source: 'none', evidence: 'computed' } as const
/** Invented: from 190 to 210 mg KOH per g. */
const PLAIN: FatEntry = {
  names: ['plain fat'],
  inci: { name: 'Plain', ...from },
  kind: 'triglyceride',
  'saponification-value': { from: 190, to: 210, ...from },
  density: { from: 0.91, to: 0.92, at: 293.15, ...from },
}

type Certificate = {
  readonly 'saponification-value': number
  readonly tolerance?: number
  readonly lot: string
}

const content = (more: { certificate?: Certificate; limit?: number } = {}): Content => {
  const placed = (entries: Record<string, unknown>) =>
    new Map(Object.entries(entries).map(([key, value]) => [key, { key, value }]))
  // Only what a formula looks up; the places in files do not matter here.
  return {
    fats: placed({ plain: PLAIN }),
    certificates: placed(more.certificate ? { plain: more.certificate } : {}),
    alkalis: placed({
      soda: { name: 'soda', kind: 'NaOH', purity: 0.98, 'purity-range': { from: 0.97, to: 0.99 } },
      potash: { name: 'potash', kind: 'KOH', purity: 0.9 },
      pure: { name: 'pure soda', kind: 'NaOH', purity: 1 },
    }),
    additives: placed({
      citric: { name: 'citric', acid: 'citric-acid' },
      solution: { name: 'citric solution', acid: 'citric-acid', strength: 0.5 },
      crystals: { name: 'citric crystals', acid: 'citric-acid-monohydrate' },
      clay: { name: 'clay', density: 2500 },
    }),
    fragrances: placed({ scent: { name: 'scent', limit: more.limit ?? 0.05, tried: 'small pot' } }),
    liquids: placed({ whey: { name: 'whey' } }),
  } as unknown as Content
}

const recipe = (more: Partial<RecipeFile> = {}): RecipeFile => ({
  title: 'plain',
  fats: { plain: 1 },
  superfat: 0.05,
  alkali: 'pure',
  'lye-concentration': 1 / 3,
  'pour-temperature': 313.15,
  tried: { where: 'small pot', oils: 0.5, 'minutes-to-thick': 20, behaviour: 'calm' },
  ...more,
})

const codes = (findings: readonly { code: string; severity: string }[]) =>
  findings.map(({ code, severity }) => `${severity} ${code}`)

// K 39.098 + O 15.999 + H 1.008 = 56.105; Na 22.990 + 15.999 + 1.008 = 39.997 g/mol (from memory)
// 200 g KOH for 1 kg · 0.95 = 190 g or 3.38651 mol

describe('by hand: alkali', () => {
  test('one alkali: 3.38651 mol · 39.997 = 135.45 g', () => {
    const { alkalis, water, concentration } = formulaOf(content(), recipe())
    expect(alkalis).toHaveLength(1)
    expect(alkalis[0]?.pure).toBeCloseTo(0.13545, 5)
    expect(water).toBeCloseTo(0.2709, 5)
    expect(concentration).toBeCloseTo(1 / 3, 12)
  })

  test('two by number of molecules: 40 % of them potassium hydroxide', () => {
    const { alkalis } = formulaOf(
      content(),
      recipe({ alkali: undefined, alkalis: { soda: 0.6, potash: 0.4 } }),
    )
    const by = (kind: string) => alkalis.find((one) => one.kind === kind)
    // 0.4 · 190 = 76 g, / 0.9 = 84.444 g; 0.6 · 135.45 = 81.270 g, / 0.98 = 82.929 g
    expect(by('KOH')?.pure).toBeCloseTo(0.076, 7)
    expect(by('KOH')?.weighed).toBeCloseTo(0.084444, 6)
    expect(by('NaOH')?.pure).toBeCloseTo(0.08127, 5)
    expect(by('NaOH')?.weighed).toBeCloseTo(0.082929, 5)
    expect(by('NaOH')?.purity).toEqual({ nominal: 0.98, low: 0.97, high: 0.99 })
    expect(by('KOH')?.purity).toEqual({ nominal: 0.9, low: 0.9, high: 0.9 })
  })

  // citric acid 6 · 12.011 + 8 · 1.008 + 7 · 15.999 = 192.123 g/mol, with its water of crystals 210.138; three groups
  test.each([
    ['citric', 0.15615, 6.2455], // 3 · 10 / 192.123 mol; · 39.997 g
    ['solution', 0.078075, 3.1228], // half
    ['crystals', 0.14276, 5.7101], // 3 · 10 / 210.138 mol
  ])('10 g of %s take alkali of their own', (key, hydroxide, grams) => {
    const plain = formulaOf(content(), recipe())
    const acid = formulaOf(content(), recipe({ additions: { [key]: 0.01 } }))
    expect(acid.hydroxideForAcids).toBeCloseTo(hydroxide, 4)
    const more = ((acid.alkalis[0]?.pure ?? 0) - (plain.alkalis[0]?.pure ?? 0)) * 1000
    expect(Math.abs(more - grams)).toBeLessThan(0.001)
  })

  test('other additions take none', () =>
    expect(formulaOf(content(), recipe({ additions: { clay: 0.01 } })).hydroxideForAcids).toBe(0))

  test('a certificate of 195 in place of the range: 0.95 · 195 / 56.105 · 39.997 = 132.06 g', () => {
    const { alkalis, fats } = formulaOf(
      content({ certificate: { 'saponification-value': 195, tolerance: 0.5, lot: 'A' } }),
      recipe(),
    )
    expect(alkalis[0]?.pure).toBeCloseTo(0.13206, 5)
    expect(fats[0]?.value).toMatchObject({ nominal: 0.195, low: 0.1945, high: 0.1955 })
  })
})

describe('by hand: scent in the bar that is sold', () => {
  // batter 1 + 0.13545 + 0.2709 + 0.04 = 1.44635 kg, less a tenth = 1.30172 kg; 40 g of it are 3.0729 %
  test.each([
    [0.0307, ['stop fragrance-over-limit']],
    [0.0308, []],
  ])('limit %d', (limit, wanted) => {
    const { findings } = formulaOf(content({ limit }), recipe({ additions: { scent: 0.04 } }))
    expect(codes(findings).filter((code) => code.includes('fragrance'))).toEqual(wanted)
  })
})

describe('by hand: holds', () => {
  test('a recipe that nobody has tried, a lye that is not made with water', () => {
    const { findings } = formulaOf(content(), recipe({ tried: undefined, 'lye-liquid': 'whey' }))
    expect(codes(findings)).toEqual(
      expect.arrayContaining(['hold recipe-untried', 'hold lye-liquid-not-water']),
    )
    expect(codes(formulaOf(content(), recipe()).findings)).not.toContain('hold recipe-untried')
  })
})

describe('by hand: value in use of a fat that is all olein', () => {
  // C57H104O6 = 57 · 12.011 + 104 · 1.008 + 6 · 15.999 = 885.453 g/mol; 3 · 56.105 / 885.453 = 0.19009
  const OLEIC = { 'C18:1': [100, 100] } as unknown as NonNullable<FatEntry['fatty-acids']>['percent']
  const olein = (low: number, high: number): FatEntry => ({
    ...PLAIN,
    'saponification-value': { from: low, to: high, ...from },
    'fatty-acids': { percent: OLEIC, ...from },
  })

  test('its make-up gives the nominal where that lies in the range; the limits stay those of the range', () => {
    const value = usedSaponificationValue(olein(184, 196), undefined)
    expect(value.nominal).toBeCloseTo(0.19009, 5)
    expect(value).toMatchObject({ low: 0.184, high: 0.196, basis: 'composition' })
  })

  test('outside of the range the middle counts', () => {
    expect(usedSaponificationValue(olein(191, 197), undefined).nominal).toBeCloseTo(0.194, 9)
    expect(usedSaponificationValue(olein(182, 190), undefined).nominal).toBeCloseTo(0.186, 9)
  })

  test('a certificate comes before all', () =>
    expect(usedSaponificationValue(olein(184, 196), { 'saponification-value': 188, lot: 'A' })).toMatchObject(
      { nominal: 0.188, low: 0.187, high: 0.189 },
    ))
})
