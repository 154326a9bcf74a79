/** What stands on a page and what stands in the numbers are the same, both ways, in every state of a binder. */
import { readdirSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { binderData } from '../../src/sheets/binder-data.ts'
import { catalogueFigures, strayFigures, textsIn } from '../sheets/digits.ts'
import { builtPages } from '../sites/built-pages.ts'
import type { Binder, State } from '../sites/edited-demo.ts'
import { type Element, elements, hasClass, textOf } from '../sites/html.ts'
import { everyState, LOOKED_AT, PATIENCE } from './composed.ts'

interface Built {
  readonly binder: Binder
  readonly data: ReturnType<typeof binderData>
  readonly texts: ReadonlyMap<string, string>
  readonly page: (path: string) => Element
}

const built = new Map<State, Built>()
beforeAll(async () => {
  for (const [state, binder] of await everyState()) {
    const { texts, page } = await builtPages(binder)
    const printed = binder.sheets.map(({ id }, index) => ({ id, firstPage: 2 * index + 1, pages: 1 }))
    const data = binderData(binder.sheets, { browserVersion: 'none', sheets: printed })
    built.set(state, { binder, data, texts, page })
  }
}, PATIENCE)

interface Shown {
  readonly tagged: readonly Element[]
  readonly drawn: readonly Element[]
}
const shown = new WeakMap<Element, Shown>()

/** Texts of pages that another state has to the letter are searched once. */
const sound = new Set<string>()

/** The sheet of a page of the site: what stands round it names other sheets, whose numbers they have. */
const sheetOn = (page: Element): Element => {
  const known = sheetOf.get(page) ?? elements(page).find((one) => hasClass(one, 'sheet'))
  if (!known) throw new Error('No sheet on a page.')
  sheetOf.set(page, known)
  return known
}
const sheetOf = new WeakMap<Element, Element>()

/** Values as the data element and the name in a drawing say them. */
const shownOn = (page: Element): Shown => {
  const known = shown.get(page)
  if (known) return known
  const all = elements(page)
  const found = {
    tagged: all.filter(({ tag }) => tag === 'data'),
    drawn: all.filter(({ tag, attributes }) => tag !== 'data' && attributes['data-name'] !== undefined),
  }
  shown.set(page, found)
  return found
}

/** In a drawing the diameter sign is a shape, and a count may stand before a size. */
const plain = (text: string): string => text.replace(/[\s\u00a0]+/g, ' ').trim()

const pieces = catalogueFigures(
  readdirSync(new URL('../../src/text/en/sheets/', import.meta.url)).map((name) => name.replace(/\.md$/, '')),
)

describe.each(LOOKED_AT)('by hand: %s', (state) => {
  const here = (): Built => built.get(state) as Built
  const data = () => here().data
  const pageOf = (id: string) => sheetOn(here().page(`sheets/${id.replaceAll('/', '-')}.html`))

  it('shows each value as binder.json has it, under the same name', () => {
    let looked = 0
    const wrong: string[] = []
    for (const { id, values } of data().sheets) {
      const page = pageOf(id)
      for (const element of shownOn(page).tagged) {
        const { attributes } = element
        const value = values[attributes['data-name'] ?? '']
        const isSame =
          value !== undefined &&
          textOf(element) === value.shown &&
          attributes.value === String(value.value) &&
          attributes['data-unit'] === value.unit &&
          hasClass(element, 'value')
        if (!isSame)
          wrong.push(`${id}: ${attributes['data-name']}: ${textOf(element)}, not ${JSON.stringify(value)}`)
        looked += 1
      }
    }
    expect(wrong).toEqual([])
    expect(looked).toBeGreaterThan(state === 'dado too deep' ? 10 : 100)
  })

  it('shows every value that binder.json has, and draws every size that it draws', () => {
    const missing: string[] = []
    for (const { id, values } of data().sheets) {
      const { tagged, drawn } = shownOn(pageOf(id))
      const onPage = new Set(tagged.map(({ attributes }) => attributes['data-name']))
      for (const [name, { shown }] of Object.entries(values)) {
        if (!name.startsWith('drawing.')) {
          if (!onPage.has(name)) missing.push(`${id}: ${name}`)
          continue
        }
        const sizes = drawn.filter(({ attributes }) => name.endsWith(`.${attributes['data-name']}`))
        // a size within a note comes in pieces, each with its name
        const text = plain(sizes.map((element) => textOf(element)).join(' '))
        if (sizes.length === 0 || !text.includes(plain(shown))) missing.push(`${id}: ${name}: ${shown}`)
      }
    }
    expect(missing).toEqual([])
  })

  it('draws no size that binder.json lacks', () => {
    for (const { id, values } of data().sheets) {
      const { drawn } = shownOn(pageOf(id))
      const known = Object.keys(values).filter((name) => name.startsWith('drawing.'))
      const sizes = drawn.filter((element) => !hasClass(element, 'note-text') && /\d/.test(textOf(element)))
      const unknown = sizes.filter(
        ({ attributes }) =>
          !known.some((name) =>
            name.endsWith(`.${(attributes['data-name'] ?? '').replace(/\.note$/, '')}`),
          ) &&
          !known.some((name) => name.includes(`.${(attributes['data-name'] ?? '').replace(/\.note$/, '')}.`)),
      )
      expect(unknown.map((element) => `${element.attributes['data-name']}: ${textOf(element)}`)).toEqual([])
    }
  })

  it('says no figure outside of a value, but where the list allows it', () => {
    const own = textsIn([here().binder.content, here().binder.frame.sources])
    const stray = data().sheets.flatMap(({ id, values }) => {
      // lists of numbers of sheets, of pages, of works and of versions; words that a maker wrote for a page
      if (['contents', 'sources', 'colophon'].includes(id) || id.startsWith('page/')) return []
      const page = pageOf(id)
      const shown = new Set(Object.values(values).map((value) => plain(value.shown)))
      return strayFigures(page, own, pieces, shown).map((one) => ({ id, ...one }))
    })
    expect(stray).toEqual([])
  })

  it('holds no number that is none', () => {
    for (const [path, text] of here().texts) {
      if (sound.has(text)) continue
      expect(
        /\bNaN\b|\bundefined\b|\bInfinity\b|\bnull\b|\[object |\[\[|\]\]/.exec(text)?.[0],
        path,
      ).toBeUndefined()
      sound.add(text)
    }
    const wrong: string[] = []
    for (const { id, values } of data().sheets)
      for (const [name, { value, shown }] of Object.entries(values))
        if ((typeof value === 'number' && !Number.isFinite(value)) || !/\d|^noon$|^midnight$/.test(shown))
          wrong.push(`${id}: ${name}: ${value}, ${shown}`)
    expect(wrong).toEqual([])
  })

  it('gives one number the same text wherever it stands under the same name', () => {
    const seen = new Map<string, string>()
    for (const { id, values } of data().sheets)
      for (const [name, { shown }] of Object.entries(values)) {
        if (!/^(edition|mould\.rimAboveBench|mould\.inside\.\w+)$/.test(name)) continue
        expect(seen.get(name) ?? shown, `${id}: ${name}`).toBe(shown)
        seen.set(name, shown)
      }
    expect(seen.size).toBeGreaterThan(0)
  })
})
