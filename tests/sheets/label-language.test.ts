/** A label speaks to its buyer: its language is not that of the binder. */
import { describe, expect, test } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { textsOf } from '../sites/sheet-texts.ts'
import { editedFiles } from '../sites/small-binder.ts'
import { type LabelCase, labelsOf, UNION, US_SOAP, wrapped } from '../sites/small-labels.ts'

const BARS = wrapped([105, 106.2, 104.1, 107, 105.5, 106], '  bars: { cut: 6 }\n')
const inSpanish = (language = 'es'): NonNullable<LabelCase['more']> => {
  const shop = editedFiles(['shop.yaml', 'language: en', `language: ${language}`]).get('shop.yaml') ?? ''
  const recipe = editedFiles([
    'recipes/plain.yaml',
    'title: Plain bar',
    'title: { en: Plain bar, es: Pastilla sencilla }',
  ]).get('recipes/plain.yaml')
  return { 'shop.yaml': shop, 'recipes/plain.yaml': `${recipe}\ncode: PL\n` }
}

const sheetsOf = (selling: string, language?: string) => {
  const more = inSpanish(language)
  const shop = `${more['shop.yaml']}\nselling:\n  region: ${selling}`
  const { sheets } = labelsOf({ batch: BARS, more: { ...more, 'shop.yaml': shop } })
  const one = (id: string): Sheet => {
    const found = sheets.find((sheet) => sheet.id === id)
    if (!found) throw new Error(`No sheet ${id}.`)
    return found
  }
  return {
    rules: textsOf(one('label/rules')),
    data: textsOf(one('label/2027-02-01-plain')),
    page: textsOf(one('labels/2027-02-01-plain')),
  }
}

describe('by hand: a Spanish binder', () => {
  test('prints labels in English for the United States, and says so', () => {
    const { rules, data, page } = sheetsOf(US_SOAP)
    expect(page).toContain('Plain bar')
    expect(page).toContain('Net wt')
    expect(page).toMatch(/Ingredients: Sodium|Ingredients: Olea|Ingredients: /)
    expect(page).not.toContain('Ingredientes:')
    // the sheet about it is the maker's: its heads are Spanish, what it quotes is English
    expect(data).toContain('Pastilla sencilla')
    expect(data).toContain('Net wt')
    expect(data).toContain('Ingredientes')
    expect(rules).toContain('English')
    expect(rules).toContain('Todo lo que lleva una etiqueta está en el idioma de esta')
  })

  test('prints them in Spanish for the Union', () => {
    const { rules, page } = sheetsOf(UNION)
    expect(page).toContain('Pastilla sencilla')
    expect(page).toContain('Ingredientes:')
    expect(page).not.toMatch(/Ingredients:|Best before/)
    expect(rules).toContain('español')
    expect(rules).not.toContain('Todo lo que lleva una etiqueta está en el idioma de esta')
  })

  test('or as the shop says', () => {
    const { page } = sheetsOf(UNION.replace('EU\n', 'EU\n  label-language: en\n'))
    expect(page).toContain('Ingredients:')
    expect(page).toContain('Plain bar')
  })
})

describe('by hand: an English binder', () => {
  test('prints labels in Spanish where the shop says so', () => {
    const { data, page } = sheetsOf(UNION.replace('EU\n', 'EU\n  label-language: es\n'), 'en')
    expect(page).toContain('Ingredientes:')
    expect(page).toContain('Pastilla sencilla')
    expect(data).toContain('Plain bar')
    expect(data).toContain('Ingredients')
  })
})
