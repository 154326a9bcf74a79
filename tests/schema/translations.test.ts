/** A maker's words in several languages. */
import { describe, expect, test } from 'vitest'
import { loadContent } from '../../src/schema/load.ts'
import { type Edit, editedFiles, loadFiles } from '../sites/small-binder.ts'

const SPANISH: Edit = ['shop.yaml', 'language: en', 'language: es']
const TITLE: Edit = [
  'recipes/plain.yaml',
  'title: Plain bar',
  'title: { en: Plain bar, es: Pastilla sencilla }',
]
const NAMES: Edit = [
  'materials/all.yaml',
  'names: [Olive oil]',
  'names: [{ en: Olive oil, es: Aceite de oliva }, Oil]',
]

const load = (...edits: readonly Edit[]) => loadFiles(editedFiles(...edits), 'binder')
const told = (...edits: readonly Edit[]): string[] =>
  load(...edits).diagnostics.map(({ code, file, path }) => `${code} ${file} ${path}`)

describe('by hand: words in two languages', () => {
  test('are those of the binder', () => {
    const english = load(TITLE, NAMES).content
    const spanish = load(TITLE, NAMES, SPANISH).content
    expect(english?.recipes.get('plain')?.value.title).toBe('Plain bar')
    expect(spanish?.recipes.get('plain')?.value.title).toBe('Pastilla sencilla')
    expect(english?.fats.get('olive')?.value.names).toEqual(['Olive oil', 'Oil'])
    expect(spanish?.fats.get('olive')?.value.names).toEqual(['Aceite de oliva', 'Oil'])
  })

  test('stand beside plain text, which is every language’s', () => {
    const { content, diagnostics } = load(NAMES, SPANISH)
    expect(diagnostics).toEqual([])
    expect(content?.fats.get('coconut')?.value.names).toEqual(['Coconut oil'])
  })

  test('are missing where the binder’s is not among them, and only there', () => {
    const only: Edit = ['recipes/plain.yaml', 'title: Plain bar', 'title: { en: Plain bar }']
    expect(told(only)).toEqual([])
    expect(told(only, SPANISH)).toEqual(['translation-missing binder/recipes/plain.yaml /title'])
  })

  test('are found where they stand', () => {
    const long = 'x'.repeat(61)
    const edit: Edit = ['recipes/plain.yaml', 'title: Plain bar', `title: { en: Plain bar, es: ${long} }`]
    for (const edits of [[edit], [edit, SPANISH]]) {
      const [one, ...others] = load(...edits).diagnostics
      expect(others).toEqual([])
      expect(one).toMatchObject({ code: 'text-too-long', path: '/title' })
      const document = load(...edits).documents.get('binder/recipes/plain.yaml')
      const [from, to] = one?.range ?? document?.placeOf('/title', 'value') ?? [0, 0]
      expect(document?.text.slice(from, to)).toBe(long)
    }
  })

  test('are none of names of the law, of people, of lots', () => {
    const inci: Edit = [
      'materials/all.yaml',
      'name: Olea Europaea Fruit Oil',
      'name: { en: Olea Europaea Fruit Oil }',
    ]
    expect(told(inci)).toEqual(['text-expected binder/materials/all.yaml /fats/olive/inci/name'])
  })
})

describe('by hand: pages in two languages', () => {
  const pagesOf = (language: string, ...names: readonly string[]) => {
    const files = editedFiles(['shop.yaml', 'language: en', `language: ${language}`])
    for (const name of names) files.set(`pages/${name}.md`, `# ${name}\n`)
    const { content, diagnostics } = loadFiles(files)
    return [
      content?.pages.map(({ key, title }) => `${key}: ${title}`),
      diagnostics.map(({ code, file }) => `${code} ${file}`),
    ]
  }

  test('have the binder’s in the place of the other', () => {
    expect(pagesOf('en', 'before', 'before.es')).toEqual([['before: before'], []])
    expect(pagesOf('es', 'before', 'before.es')).toEqual([['before: before.es'], []])
    expect(pagesOf('es', 'before')).toEqual([['before: before'], []])
  })

  test('are missing where there is neither, and told where nobody speaks their language', () => {
    expect(pagesOf('en', 'before.es')[1]).toEqual(['translation-missing pages/before.es.md'])
    expect(pagesOf('en', 'before', 'before.qq')[1]).toEqual(['translation-unknown pages/before.qq.md'])
  })
})

describe('by hand: words for a label', () => {
  const SELLING = `
selling:
  region: US
  identity: { es: Jabón }
`
  test('are missed in its language alone', () => {
    const files = editedFiles(SPANISH, ['recipes/plain.yaml', 'title: Plain bar', 'title: { es: Pastilla }'])
    files.set('shop.yaml', `${files.get('shop.yaml')}${SELLING}`)
    expect(loadFiles(files).diagnostics.map(({ code, path }) => `${code} ${path}`)).toEqual([
      'translation-missing /selling/identity',
      'translation-missing /title',
    ])
    files.set('shop.yaml', files.get('shop.yaml')?.replace('region: US', 'region: EU') ?? '')
    const { content, diagnostics } = loadFiles(files)
    expect(diagnostics).toEqual([])
    expect(content?.onLabels).toMatchObject({ language: 'es', shop: { selling: { identity: 'Jabón' } } })
  })

  test('are all there are where a binder need not show them', () => {
    const files = editedFiles(SPANISH)
    files.set('shop.yaml', `${files.get('shop.yaml')}${SELLING.replace('es: Jabón', 'en: Soap')}`)
    const { content, diagnostics } = loadFiles(files)
    expect(diagnostics).toEqual([])
    expect(content?.onLabels).toMatchObject({ language: 'en', shop: { selling: { identity: 'Soap' } } })
  })
})

describe('by hand: a language that is not there', () => {
  test('is told wherever it is asked for', () => {
    const files = editedFiles(['shop.yaml', 'language: en', 'language: sw'])
    files.set('shop.yaml', `${files.get('shop.yaml')}\nselling: { region: EU, label-language: qu }\n`)
    const { diagnostics, language, labelLanguage } = loadContent(
      [{ file: 'shop.yaml', below: 'shop.yaml', bytes: new TextEncoder().encode(files.get('shop.yaml')) }],
      'shop',
      ['en', 'es'],
    )
    expect(diagnostics.map(({ code, path, advice }) => [code, path, advice.includes('en, es')])).toEqual([
      ['language-unknown', '/language', true],
      ['language-unknown', '/selling/label-language', true],
    ])
    expect([language, labelLanguage]).toEqual(['en', 'en'])
  })
})
