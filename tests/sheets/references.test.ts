/** References from sheet to sheet: each leads to a sheet or an entry that is there, under its own number. */
import { beforeAll, describe, expect, it } from 'vitest'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { PLACES } from '../../src/sheets/places.ts'
import { withLinks } from '../../src/site/markdown.ts'
import { builtPages } from '../sites/built-pages.ts'
import { composeEdited, STATES, type State } from '../sites/edited-demo.ts'
import { type Element, elements, hasClass, textOf } from '../sites/html.ts'

const SHOWN: readonly State[] = ['go', 'superfat under the floor', 'dado too deep', 'the whole demo']

interface Built {
  readonly sheets: readonly Sheet[]
  readonly pages: ReadonlyMap<string, Element>
}
const built = new Map<State, Built>()
beforeAll(async () => {
  for (const state of SHOWN) {
    const binder = await composeEdited(STATES[state])
    built.set(state, { sheets: binder.sheets, pages: (await builtPages(binder)).pages })
  }
}, 120_000)

const idsOf = (root: Element): Set<string> =>
  new Set(elements(root).map(({ attributes }) => attributes.id ?? ''))
const referencesOf = (root: Element): readonly Element[] =>
  elements(root).filter((one) => one.tag === 'a' && hasClass(one, 'reference'))

describe.each(SHOWN)('by hand: references, %s', (state) => {
  const here = (): Built => built.get(state) as Built
  const print = (): Element => here().pages.get('print.html') as Element

  it('lead to something that is printed', () => {
    const ids = idsOf(print())
    const found = referencesOf(print())
    expect(found.length).toBeGreaterThan(70)
    for (const { attributes } of found) expect(ids, attributes.href).toContain(attributes.href?.slice(1))
  })

  it('say the number of the sheet, and of the entry on it, that they lead to', () => {
    for (const link of referencesOf(print())) {
      const to = link.attributes.href?.slice(1) ?? ''
      const sheet = here().sheets.find(({ anchor }) => anchor === to.split('--')[0])
      const text = textOf(link).trim()
      if (to.includes('--')) expect(text, to).toMatch(/^(11\.1, )?[A-E]\d$/)
      else expect(text, to).toBe(sheet?.number)
    }
  })

  it('lead from the pages of the site to a page that is there', () => {
    for (const [path, root] of here().pages) {
      if (path === 'print.html') continue
      for (const { attributes } of referencesOf(root)) {
        const [file = '', id = ''] = (attributes.href ?? '').split('#')
        const page = file === '' ? root : here().pages.get(`sheets/${file}`)
        expect(page, `${path}: ${attributes.href}`).toBeDefined()
        if (id !== '') expect(idsOf(page as Element), `${path}: ${attributes.href}`).toContain(id)
      }
    }
  })

  it('has every sheet that all binders have, under its number', () => {
    for (const { id, number } of Object.values(PLACES))
      expect(here().sheets.find((sheet) => sheet.id === id)?.number, id).toBe(number)
    expect(new Set(here().sheets.map(({ number }) => number)).size).toBe(here().sheets.length)
  })
})

describe('by hand: numbers of sheets and sections that stand in the text', () => {
  const words = readCatalogue('en')
  const texts = [
    ...words.keys.map((key) => words.phrase(key)),
    ...['batch', 'cautions', 'mould', 'recipe', 'trouble', 'release', 'training'].map((name) =>
      words.template(name),
    ),
  ]

  it('name no sheet: a placeholder does, which leads there', () => {
    const typed = (text: string) => /\bsheets? \d+\.\d+/.exec(text)?.[0]
    expect(texts.flatMap((text) => typed(text) ?? [])).toEqual([])
    expect(typed('as sheet 2.1 says')).toBe('sheet 2.1')
  })

  it('name a section of the batch sheet', () => {
    const sections = new Set(
      [...words.template('batch').matchAll(/^## (\d+) /gm)].map((match) => match[1] ?? ''),
    )
    const typed = texts.flatMap((text) =>
      [...text.matchAll(/\bsections? (\d+)/g)].map((match) => match[1] ?? ''),
    )
    expect(typed.length).toBeGreaterThan(10)
    for (const number of typed) expect(sections).toContain(number)
  })
})

describe('by hand: links of a page of the site', () => {
  const link = (to: string): string => withLinks(`<a class="reference" href="#${to}">x</a>`, { a: 'a.html' })
  it('lead to the other page, to a place on it, or stay', () => {
    expect(link('a')).toContain('href="a.html"')
    expect(link('a--b')).toContain('href="a.html#a--b"')
    expect(link('c')).toContain('href="#c"')
  })
})
