/** The recipe sheet in its states: what it says, what it leaves out, where it stands. */
import { describe, expect, it } from 'vitest'
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { buildPages } from '../../src/site/build-pages.ts'
import { siteData } from '../../src/site/site-data.ts'
import { type Binder, composeEdited, type Edits, STATES, sheetOf, WHOLE_DEMO } from '../sites/edited-demo.ts'
import { readHtml, textOf } from '../sites/html.ts'

const HEARTH = 'recipe/hearth'

const textOfSheet = async (binder: Binder, sheet: Sheet): Promise<string> => {
  const pages = await buildPages(siteData(binder.frame, [sheet], '', 'en'))
  const page = pages.find(({ path }) => path === `sheets/${sheet.anchor}.html`)
  return textOf(readHtml(page?.content ?? '')).replace(/\s+/g, ' ')
}

const made = async (edits: Edits, id = HEARTH) => {
  const binder = await composeEdited(edits)
  const sheet = sheetOf(binder, id)
  return { binder, sheet, text: await textOfSheet(binder, sheet) }
}

/** The demo's first recipe with other fats, and no batch that it would stop. */
const withFats = (fats: string): Edits => ({
  'recipes/other.yaml': `title: Other bar
fats: ${fats}
superfat: 6 %
alkali: soda-beads
lye-concentration: 33 %
pour-temperature: 120 F
`,
})
const OTHER = 'recipe/other'

const percentOf = (sheet: Sheet, name: string): number =>
  Number.parseFloat((sheet.values.get(name)?.shown ?? '').replace('\u2212', '-'))

describe('by hand: where it stands', () => {
  it('after the cautions and before the batches, numbered 3.1 to 3.4', async () => {
    const { sheets } = await composeEdited(WHOLE_DEMO)
    const kinds = sheets.map(({ kind }) => kind)
    expect(kinds.slice(kinds.lastIndexOf('cautions'), kinds.indexOf('batch') + 1)).toEqual([
      'cautions',
      'recipe',
      'recipe',
      'recipe',
      'recipe',
      'batch',
    ])
    const recipes = sheets.filter(({ kind }) => kind === 'recipe')
    expect(recipes.map(({ id, number }) => [id, number])).toEqual([
      ['recipe/hearth', '3.1'],
      ['recipe/lather', '3.2'],
      ['recipe/market', '3.3'],
      ['recipe/pied', '3.4'],
    ])
    expect(recipes.map(({ title }) => inlineWords(title))).toContain('Hearth bar: formula')
  })
})

describe('by hand: a recipe that may be made', () => {
  it('shows the shares of its fats and their saponification values as the trade writes them', async () => {
    const { sheet, text } = await made({})
    expect(sheet.values.get('fat.olive.share')?.shown).toBe('38.0\u00a0%')
    // the standard's 184 to 196 mg/g
    expect(sheet.values.get('fat.olive.saponificationValue.low')).toMatchObject({
      value: 0.184,
      unit: 'kg/kg',
      shown: '184.0',
    })
    expect(sheet.values.get('fat.olive.saponificationValue.high')?.shown).toBe('196.0')
    expect(text).toContain('computed from its acids; range recalled')
    expect(text).toContain('computed from its acids; range read')
  })

  it('has groups of acids that make 100 %, within what rounding to a tenth can do', async () => {
    const { sheet } = await made({})
    const sum = ['saturated', 'oneDoubleBond', 'hydroxy', 'twoOrMoreDoubleBonds'].reduce(
      (total, name) => total + percentOf(sheet, name),
      0,
    )
    // four figures, each off by 0.05 at most
    expect(Math.abs(sum - 100)).toBeLessThanOrEqual(0.2)
    // castor is 6 % of the fats and 87 % ricinoleic: 5.2 % by weight, a little more among acids
    expect(Math.abs(percentOf(sheet, 'hydroxy') - 5.2)).toBeLessThan(0.15)
  })

  it('draws what the table says', async () => {
    const { sheet } = await made({})
    for (const name of ['saturated', 'acid.c18-1.share', 'acid.c12-0.share'])
      expect(sheet.values.get(`drawing.make-up.${name}`)?.shown).toBe(sheet.values.get(name)?.shown)
  })

  it('ranks what makes the superfat unsure; all shares of the spread make 100 %', async () => {
    const { sheet } = await made({})
    const shares = [...sheet.values.entries()].filter(([name]) => /^cause\..*\.share$/.test(name))
    const numbers = shares.map(([, { value }]) => Number(value))
    expect(numbers).toEqual([...numbers].sort((a, b) => b - a))
    const sum = numbers.reduce((total, share) => total + share, 0)
    // causes under half a percent are not listed
    expect(sum).toBeGreaterThan(0.95)
    expect(sum).toBeLessThanOrEqual(1 + 1e-9)
  })

  it('says of a certificate that it is one', async () => {
    const { text, sheet } = await made({
      'materials/certificates.yaml': `certificates:\n  olive: { saponification-value: 189.6, lot: A-1, date: 2027-01-19 }\n`,
    })
    expect(text).toContain('certificate of the lot')
    expect(sheet.values.get('fat.olive.saponificationValue')?.shown).toBe('189.6')
    // ± 1 mg/g where the certificate gives none
    expect(sheet.values.get('fat.olive.saponificationValue.low')?.shown).toBe('188.6')
  })

  it('tells what the trial said, or that there was none', async () => {
    const tried = await made({})
    expect(tried.text).toContain('pilot loaf 4')
    expect(tried.text).toContain('medium trace, no surprise')
    expect(tried.sheet.values.get('tried.oils')?.shown.replace('\u00a0', ' ')).toBe('700 g')
    const untried = await made(STATES.untried)
    expect(untried.text).toContain('no trial on file')
    expect(untried.sheet.values.has('tried.oils')).toBe(false)
  })

  it('lists what would clear a hold, and nothing when there is none', async () => {
    const hold = await made(STATES['worst case below zero'])
    expect(hold.text).toContain('what would clear the hold')
    expect(percentOf(hold.sheet, 'superfat.worstCase')).toBeLessThan(0)
    expect((await made({})).text).not.toContain('what would clear the hold')
  })
})

describe('by hand: a recipe that must not be made', () => {
  it('says why and what to do, and prints no amount of alkali, soap or glycerol', async () => {
    const { sheet, text } = await made(STATES['superfat under the floor'])
    expect(text).toContain('Stop. No batch of this.')
    expect(text).toContain('below this shop')
    expect(text).toContain('Ask for more superfat in the recipe.')
    const names = [...sheet.values.keys()]
    expect(names.filter((name) => /demand|product\./.test(name))).toEqual([])
    expect(text).not.toMatch(/NaOH|Glycerol, g|What it becomes/)
    const go = await made({})
    expect(go.text).toMatch(/NaOH.*Glycerol, g/)
    expect(go.sheet.values.has('fats.demand')).toBe(true)
  })

  it('for a scent over its limit as well', async () => {
    const binder = await composeEdited(WHOLE_DEMO)
    const text = await textOfSheet(binder, sheetOf(binder, 'recipe/market'))
    expect(text).toContain('Stop. No batch of this.')
    expect(text).toContain('Use less of it.')
  })
})

describe('by hand: how it keeps', () => {
  it('warns of much with two or more double bonds, and says what to look for', async () => {
    const { text, sheet } = await made(withFats('{ sunflower: 60 %, coconut: 40 % }'), OTHER)
    // sunflower: 48 to 74 % linoleic, so 60 % of it makes far more than 15 %
    expect(percentOf(sheet, 'twoOrMoreDoubleBonds')).toBeGreaterThan(30)
    expect(text).toMatch(/above 15 % \(common practice\).*take up oxygen first/)
    expect(text).toContain('orange or brown spots')
  })

  it('says that it may be so with the wrong lots', async () => {
    // olive: 3.5 to 21 % linoleic
    const { text } = await made(withFats('{ olive: 95 %, castor: 5 % }'), OTHER)
    expect(text).toMatch(/under 15 % \(common practice\), but up to/)
  })

  it('has no fear where there is next to none', async () => {
    const { text } = await made(withFats('{ coconut: 100 % }'), OTHER)
    expect(text).toMatch(/at most .* with the softest lots: under 15 %/)
  })

  it('warns of a superfat whose upper end is high', async () => {
    const { text } = await made({ 'recipes/hearth.yaml': [['superfat: 6 %', 'superfat: 9 %']] })
    expect(text).toMatch(/The superfat may be as high as 1\d\.\d %, above 10 %/)
  })
})

describe('by hand: fats whose acids nobody has published', () => {
  it('are named, with how much of the formula is missing', async () => {
    const { text, sheet } = await made(withFats('{ olive: 95 %, beeswax: 5 % }'), OTHER)
    expect(text).toContain('No fatty acids are published for Beeswax: 5.0 % of the formula is missing')
    expect(text).toContain('Known to be solid in a warm room: Beeswax')
    expect(sheet.values.get('uncovered')?.shown).toBe('5.0\u00a0%')
  })

  it('leave picture and table out when there is nothing else', async () => {
    const { text, sheet } = await made(withFats('{ beeswax: 100 % }'), OTHER)
    expect(sheet.blocks['make-up']).toBeUndefined()
    expect(text).not.toContain('Share of all fatty acids')
    expect(text).toContain('100.0 % of the formula is missing')
  })
})
