/** A recipe bound for its own sheet, worked out a second time by hand. */
import { resolve } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { type BoundRecipe, bindRecipe } from '../../src/binder/bind-recipe.ts'
import type { Content } from '../../src/schema/content.ts'
import { FILE_KINDS } from '../../src/schema/file-kinds.ts'
import { loadContent } from '../../src/schema/load.ts'
import { readFolder } from '../../src/schema/read-folder.ts'
import { type Edits, editedDemo } from '../sites/edited-demo.ts'

const certificates = `certificates:
  olive: { saponification-value: 190, lot: A-1, date: 2027-01-19 }
  coconut: { saponification-value: 256.5, lot: A-2, date: 2027-01-19 }
`
const recipe = (fats: string, more = ''): string => `title: Plain bar
fats: ${fats}
superfat: 5 %
alkali: soda-beads
lye-concentration: 30 %
pour-temperature: 100 F
${more}`

const contentOf = async (edits: Edits): Promise<Content> => {
  const { folder, remove } = editedDemo(edits)
  try {
    const { files } = await readFolder(resolve(folder), 'shop', FILE_KINDS)
    const { content, diagnostics } = loadContent(files, 'shop')
    if (!content) throw new Error(diagnostics.map(({ message }) => message).join('\n'))
    return content
  } finally {
    remove()
  }
}

const boundOf = async (edits: Edits): Promise<BoundRecipe> => {
  const content = await contentOf(edits)
  return bindRecipe(content, content.recipes.get('hearth')!)
}

describe('by hand: 60 % olive at 190, 40 % coconut at 256.5 mg/g, 5 % superfat', () => {
  let bound: BoundRecipe
  beforeAll(async () => {
    bound = await boundOf({
      'recipes/hearth.yaml': recipe('{ olive: 60 %, coconut: 40 % }'),
      'materials/certificates.yaml': certificates,
    })
  })

  it('takes up 154.41 g of sodium hydroxide for each kilogram', () => {
    // 0.6 · 190 + 0.4 · 256.5 = 216.6 g KOH; · 39.997 / 56.105 = 154.413 g NaOH
    expect(bound.demand * 1000).toBeCloseTo(154.413, 2)
    // 114 and 102.6 g KOH
    expect(bound.fats.map(({ demand }) => demand * 1000)).toEqual([
      expect.closeTo(81.27, 2),
      expect.closeTo(73.143, 2),
    ])
  })

  it('becomes 112.6 g of glycerol and 977 g of soap, and leaves 49.6 g of fat', () => {
    // 0.95 · 154.413 / 39.997 = 3.66759 mol; / 3 · 92.094 = 112.588 g
    expect(bound.products.glycerol * 1000).toBeCloseTo(112.588, 2)
    // 0.6 · 7.5 + 0.4 · 7.5 g/kg is the middle of what is published; 5 % of the rest
    expect(bound.products.unsaponifiable * 1000).toBeCloseTo(7.5, 9)
    expect(bound.products.unreactedFat * 1000).toBeCloseTo(49.625, 6)
    // 1000 + 146.692 − 112.588 − 7.5 − 49.625
    expect(bound.products.soap * 1000).toBeCloseTo(976.979, 2)
  })

  it('holds 0 to 15 g/kg that never turns to soap, as both standards say', () => {
    expect(bound.unsaponifiable.low).toBe(0)
    expect(bound.unsaponifiable.middle).toBeCloseTo(0.0075, 12)
    expect(bound.unsaponifiable.high).toBeCloseTo(0.015, 12)
    expect(bound.unsaponifiable.unknown).toEqual([])
  })

  it('has the superfat that it asks for, but for rounding, on 10 kg', () => {
    expect(bound.batchSize).toBe(10)
    // alkali to 1 g in 1.5 kg: 0.5 g is 0.03 % of superfat; four fat draws to 1 g are less
    expect(Math.abs(bound.superfat.nominal - 0.05)).toBeLessThan(0.0005)
    expect(bound.stops).toEqual([])
  })

  it('is all covered, and nothing of it is known to be solid', () => {
    expect(bound.makeUp.covered).toBeCloseTo(1, 12)
    expect(bound.uncovered).toEqual([])
    expect(bound.solid).toEqual([])
  })
})

describe('by hand: wax, and what is not known', () => {
  it('counts beeswax as not covered, solid, and of known iodine value', async () => {
    const bound = await boundOf({ 'recipes/hearth.yaml': recipe('{ olive: 95 %, beeswax: 5 % }') })
    expect(bound.uncovered.map(({ key }) => key)).toEqual(['beeswax'])
    expect(bound.solid.map(({ key }) => key)).toEqual(['beeswax'])
    expect(bound.makeUp.covered).toBeCloseTo(0.95, 12)
    expect(bound.makeUp.iodineCovered).toBeCloseTo(1, 12)
    expect(bound.products.waxAlcohol).toBeGreaterThan(0)
  })

  it('names fats of which nobody says what never turns to soap', async () => {
    const bound = await boundOf({ 'recipes/hearth.yaml': recipe('{ olive: 90 %, stearic-acid: 10 % }') })
    expect(bound.unsaponifiable.unknown.map(({ key }) => key)).toEqual(['stearic-acid'])
    // 0.9 · 15 g/kg
    expect(bound.unsaponifiable.high).toBeCloseTo(0.0135, 12)
  })
})

describe('by hand: what stops a recipe stops its sheet', () => {
  it('a superfat under the floor of the shop', async () => {
    const text = recipe('{ olive: 60 %, coconut: 40 % }').replace('superfat: 5 %', 'superfat: 1 %')
    const bound = await boundOf({
      'recipes/hearth.yaml': text,
      'materials/certificates.yaml': certificates,
    })
    expect(bound.stops.map(({ code }) => code)).toContain('superfat-under-floor')
    expect(bound.floor).toBe(0.02)
  })
})

describe('by hand: a shop that has not written down its vessels', () => {
  it('still gets its recipe explained', async () => {
    const content = await contentOf({})
    const bare = {
      ...content,
      shop: { ...content.shop, value: { ...content.shop.value, vessels: {} } },
    }
    const bound = bindRecipe(bare, content.recipes.get('hearth')!)
    expect(Math.abs(bound.superfat.nominal - 0.06)).toBeLessThan(0.0005)
  })
})
