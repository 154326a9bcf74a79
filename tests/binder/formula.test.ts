/** A recipe for each kilogram of its fats, worked out by hand. */
import { describe, expect, test } from 'vitest'
import { fatOfLot, usedSaponificationValue } from '../../src/binder/fat-figures.ts'
import { formulaOf } from '../../src/binder/formula.ts'
import type { Content } from '../../src/schema/content.ts'
import type { FatEntry } from '../../src/schema/fats.ts'
import type { CertificateEntry } from '../../src/schema/materials.ts'
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

type Certificate = CertificateEntry

const content = (
  more: { certificate?: Certificate; limit?: number; loss?: number; damp?: number } = {},
): Content => {
  const placed = (entries: Record<string, unknown>) =>
    new Map(Object.entries(entries).map(([key, value]) => [key, { key, value }]))
  // Only what a formula looks up; the places in files do not matter here.
  return {
    fats: placed({ plain: PLAIN }),
    certificates: placed(more.certificate ? { plain: more.certificate } : {}),
    alkalis: placed({
      soda: { name: 'soda', kind: 'NaOH', purity: 0.98, 'purity-range': { from: 0.97, to: 0.99 } },
      potash: { name: 'potash', kind: 'KOH', purity: 0.9 },
      pure: { name: 'pure soda', kind: 'NaOH', purity: 1, ...(more.damp ? { damp: more.damp } : {}) },
    }),
    additives: placed({
      citric: { name: 'citric', acid: 'citric-acid' },
      solution: { name: 'citric solution', acid: 'citric-acid', strength: 0.5 },
      crystals: { name: 'citric crystals', acid: 'citric-acid-monohydrate' },
      clay: { name: 'clay', density: 2500 },
    }),
    fragrances: placed({ scent: { name: 'scent', limit: more.limit ?? 0.05, tried: 'small pot' } }),
    liquids: placed({ whey: { name: 'whey' } }),
    stockLyes: placed({
      half: {
        name: 'half and half',
        kind: 'NaOH',
        strength: 0.5,
        'strength-range': { from: 0.49, to: 0.51 },
      },
      thin: { name: 'thin', kind: 'NaOH', strength: 0.3 },
      other: { name: 'potash lye', kind: 'KOH', strength: 0.45 },
    }),
    shop: { value: { ...(more.loss === undefined ? {} : { cure: { 'weight-loss': more.loss } }) } },
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
    expect(by('KOH')?.purity).toMatchObject({ nominal: 0.9, low: 0.88, high: expect.closeTo(0.95, 9) })
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
    expect(codes(findings).filter((code) => code.startsWith('stop fragrance'))).toEqual(wanted)
  })
})

describe('by hand: scent in a bar of one colour', () => {
  const halves = (withScent: string) => ({
    colours: { [withScent]: { share: 0.5, with: { scent: 0.04 } }, plain: { share: 0.5 } },
  })

  test('half of the batter has all of it: 20 g to 1.42635 kg, less a tenth, twice over in that half', () => {
    const { scents, additions } = formulaOf(content(), recipe(halves('dark')))
    // batter 1 + 0.13545 + 0.2709 + 0.02 = 1.42635, · 0.9 = 1.28372; 0.04 / 1.28372 = 3.1160 %
    expect(additions[0]?.mass).toBeCloseTo(0.02, 12)
    expect(scents[0]?.share).toBeCloseTo(0.03116, 5)
  })

  test('and is stopped by a limit that the mean would keep', () => {
    const { findings } = formulaOf(content({ limit: 0.03 }), recipe(halves('dark')))
    expect(codes(findings)).toContain('stop fragrance-over-limit')
  })

  test('until bars are weighed they may lose 18 %: 0.04 / (1.44635 · 0.82) = 3.3727 % is warned of', () => {
    const of = (limit: number, loss?: number) =>
      codes(
        formulaOf(content({ limit, ...(loss ? { loss } : {}) }), recipe({ additions: { scent: 0.04 } }))
          .findings,
      ).filter((code) => code.includes('fragrance'))
    expect(of(0.0337)).toEqual(['warn fragrance-near-limit'])
    expect(of(0.0338)).toEqual([])
    // a shop that has weighed its bars knows better
    expect(of(0.0337, 0.1)).toEqual([])
  })

  test('a shop whose bars lose more has more of it in them: 0.04 / (1.44635 · 0.8) = 3.4570 %', () =>
    expect(
      formulaOf(content({ loss: 0.2 }), recipe({ additions: { scent: 0.04 } })).scents[0]?.share,
    ).toBeCloseTo(0.03457, 5))
})

describe('by hand: a stock lye in place of dry alkali', () => {
  test('half and half: 270.9 g of it hold 135.45 g, and water comes to 270.9 − 135.45 g', () => {
    const { alkalis, water, findings } = formulaOf(content(), recipe(), 'half')
    expect(alkalis[0]).toMatchObject({
      key: 'half',
      stock: true,
      purity: { nominal: 0.5, low: 0.49, high: 0.51 },
    })
    expect(alkalis[0]?.weighed).toBeCloseTo(0.2709, 5)
    expect(alkalis[0]?.pure).toBeCloseTo(0.13545, 5)
    expect(water).toBeCloseTo(0.13545, 5)
    expect(codes(findings)).toEqual([])
  })

  test('the batter is the same as from dry alkali', () => {
    const mass = (stock?: string): number =>
      formulaOf(content(), recipe(), stock).parts.reduce((sum, part) => sum + part.massPerOil, 0)
    expect(mass('half')).toBeCloseTo(mass(), 12)
  })

  test('too thin for a lye of a third, and of another alkali: stops', () => {
    expect(codes(formulaOf(content(), recipe(), 'thin').findings)).toContain('stop stock-weaker-than-batch')
    expect(codes(formulaOf(content(), recipe(), 'other').findings)).toContain('stop stock-of-another-alkali')
  })
})

describe('by hand: alkali that has drawn damp, water that acids bring', () => {
  test('damp lowers the low end of the purity and nothing else', () =>
    // nobody says how far 100 % may be off: one per cent less, and of that 98 %
    expect(formulaOf(content({ damp: 0.02 }), recipe()).alkalis[0]?.purity).toEqual({
      nominal: 1,
      low: 0.99 * 0.98,
      high: 1,
    }))

  test('10 g of a half-strong solution bring 5 g, 10 g of crystals 10 · 18.015 / 210.138 = 0.8573 g', () => {
    for (const [key, grams] of [
      ['solution', 5],
      ['crystals', 0.8573],
    ] as const) {
      const { water, waterInAll, waterWithAcids } = formulaOf(
        content(),
        recipe({ additions: { [key]: 0.01 } }),
      )
      expect(waterWithAcids * 1000).toBeCloseTo(grams, 3)
      expect(water + waterWithAcids).toBeCloseTo(waterInAll, 12)
    }
  })
})

describe('by hand: what a certificate says of a lot', () => {
  const lot: CertificateEntry = {
    lot: 'A',
    'iodine-value': 80,
    unsaponifiable: 12,
    density: { value: 0.905, at: 298.15 },
    'fatty-acids': { 'C18:1': 90, 'C18:2': 8 },
  }

  test('takes the place of what is published, and leaves the rest', () => {
    const fat = fatOfLot(PLAIN, lot)
    expect(fat).toMatchObject({
      names: PLAIN.names,
      'saponification-value': PLAIN['saponification-value'],
      'iodine-value': { from: 80, to: 80, source: 'certificate' },
      unsaponifiable: { from: 12, to: 12 },
      density: { from: 0.905, to: 0.905, at: 298.15 },
    })
    // 90 and 8 of 98 that were found
    expect(fat['fatty-acids']?.percent['C18:1']?.[0]).toBeCloseTo(91.8367, 4)
    expect(fat['fatty-acids']?.percent['C18:2']?.[1]).toBeCloseTo(8.1633, 4)
  })

  test('an analysis that says nothing of what never turns to soap may be as low as the trade', () => {
    // whole it would be 190.2 less 1 % = 188.3; a lot with much that is unsaponifiable may have 170, as published
    const { low, high } = usedSaponificationValue(
      fatOfLot(
        { ...PLAIN, 'saponification-value': { from: 170, to: 210, ...from } },
        { lot: 'A', 'fatty-acids': { 'C18:1': 90, 'C18:2': 8 } },
      ),
      {
        lot: 'A',
        'fatty-acids': { 'C18:1': 90, 'C18:2': 8 },
      },
    )
    expect(low).toBeCloseTo(0.17, 9)
    expect(high).toBeCloseTo(0.190195 * 1.01, 5)
  })

  test('an analysis of its acids gives the value, with one per cent either way', () => {
    const { basis, nominal, low, high } = usedSaponificationValue(fatOfLot(PLAIN, lot), lot)
    expect(basis).toBe('analysis-of-lot')
    // M of oleic 282.467 and linoleic 280.451 g/mol: 98 / (90/282.467 + 8/280.451) = 282.301;
    // 3 · 56.105 / (3 · 282.301 + 38.049) = 0.190195, less 1.2 % = 0.187913
    expect(nominal).toBeCloseTo(0.187913, 5)
    expect(low).toBeCloseTo(0.187913 * 0.99, 5)
    expect(high).toBeCloseTo(0.187913 * 1.01, 5)
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
