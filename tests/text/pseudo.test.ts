/** A binder in a made-up language: whatever is not marked on a page did not come from the catalogue. */
import { beforeAll, describe, expect, it } from 'vitest'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { buildPages, type Page } from '../../src/site/build-pages.ts'
import { printJob } from '../../src/site/print-job.ts'
import { siteData } from '../../src/site/site-data.ts'
import { pseudoCatalogue } from '../../src/text/catalogue.ts'
import { type Binder, composeEdited, STATES, type State } from '../sites/edited-demo.ts'
import { type Element, elements, hasClass, readHtml, textNodes } from '../sites/html.ts'

/** Each word of the catalogue ends with this in the made-up language. */
const MARK = '·'
/** letters that stand for a thing, not for words: views of a drawing, keys of a scale */
const SINGLE_LETTER = /^[A-Z]$/

/** Words that carry no mark. */
const unmarked = (text: string): string[] =>
  [...text.matchAll(/\p{L}+/gu)]
    .filter((match) => text[match.index + match[0].length] !== MARK)
    .map((match) => match[0])
    .filter((word) => !SINGLE_LETTER.test(word))

/** Elements that hold what the shop typed, numbers with their units, or names of files. */
const isTheirs = (element: Element): boolean => {
  const known = theirs.get(element) ?? holdsTheirs(element)
  theirs.set(element, known)
  return known
}
/** An element stands round many texts. */
const theirs = new WeakMap<Element, boolean>()
const holdsTheirs = (element: Element): boolean =>
  hasClass(element, 'value') ||
  hasClass(element, 'maker') ||
  hasClass(element, 'sheet-number') ||
  hasClass(element, 'number') ||
  element.tag === 'style' ||
  element.tag === 'title' ||
  hasClass(element, 'dimension-text')

interface Made {
  readonly state: State
  readonly binder: Binder
  readonly pages: readonly { readonly page: Page; readonly root: Element }[]
}

const made: Made[] = []
const STATES_TO_SHOW = ['go', 'worst case below zero', 'superfat under the floor', 'dado too deep'] as const

/** One for all states: a fixture that several of them have is then composed once. */
const madeUp = pseudoCatalogue(readCatalogue('en'))

beforeAll(async () => {
  for (const state of STATES_TO_SHOW) {
    const binder = await composeEdited(STATES[state], () => madeUp)
    const pages = await buildPages(siteData(binder.frame, binder.sheets, '', 'en-x-pseudo'))
    made.push({ state, binder, pages: pages.map((page) => ({ page, root: readHtml(page.content) })) })
  }
})

/** Everything in these sheets that is the shop's own, longest first, so that it can be taken out of a plain text. */
const theirWords = ({ binder }: Made): string[] => {
  const found = new Set<string>([binder.frame.shopName])
  const walk = (thing: unknown): void => {
    if (Array.isArray(thing)) for (const one of thing) walk(one)
    else if (thing instanceof Map) for (const one of thing.values()) walk(one)
    else if (typeof thing === 'object' && thing !== null) {
      if ('shown' in thing && typeof thing.shown === 'string') found.add(thing.shown)
      if ('fill' in thing && typeof thing.fill === 'object' && thing.fill !== null)
        for (const one of Object.values(thing.fill)) if (typeof one === 'string') found.add(one)
      for (const one of Object.values(thing)) walk(one)
    }
  }
  walk(binder.sheets)
  return [...found].filter((text) => text !== '').sort((a, b) => b.length - a.length)
}

const without = (text: string, taken: readonly string[]): string =>
  taken.reduce((left, one) => left.replaceAll(one, ' '), text)

describe('by hand: the check itself', () => {
  it('finds a word without a mark, and passes marked ones, numbers and single letters', () => {
    expect(unmarked('wéígh· 2 óf· thé· pail')).toEqual(['pail'])
    expect(unmarked('Wéígh·: 2 (3), A–A 1:10')).toEqual([])
    expect(unmarked("mákér·'š·")).toEqual([])
    expect(unmarked('Waage')).toEqual(['Waage'])
  })
})

describe.each(STATES_TO_SHOW)('by hand: all words come from the catalogue, %s', (state) => {
  const here = (): Made => made.find((one) => one.state === state) as Made

  it('in the text of every page', () => {
    let looked = 0
    const bare: string[] = []
    for (const { page, root } of here().pages)
      for (const { text, around } of textNodes(root)) {
        if (text.trim() === '' || around.some(isTheirs)) continue
        looked += 1
        for (const word of unmarked(text)) bare.push(`${page.path}: ${word} in ${text.trim()}`)
      }
    expect(bare).toEqual([])
    expect(looked).toBeGreaterThan(300)
  })

  it('in what is said to those who listen instead of looking', () => {
    let labels = 0
    for (const { page, root } of here().pages)
      for (const { tag, attributes } of elements(root))
        for (const name of ['aria-label', 'title', 'alt', 'placeholder', 'aria-description']) {
          const text = attributes[name]
          if (text === undefined) continue
          labels += 1
          expect(unmarked(text), `${page.path} <${tag} ${name}>: ${text}`).toEqual([])
        }
    if (state !== 'dado too deep') expect(labels).toBeGreaterThan(8)
  })

  it('in the sizes on drawings, beside their numbers and units', () => {
    for (const { page, root } of here().pages)
      for (const element of elements(root).filter((one) => hasClass(one, 'dimension-text'))) {
        const text = textNodes(element)
          .map((node) => node.text)
          .join('')
        expect(unmarked(text.replace(/\b(in|mm)\b/g, '')), `${page.path}: ${text}`).toEqual([])
      }
  })

  it('in page titles, beside what the shop typed', () => {
    const theirs = theirWords(here())
    for (const { page, root } of here().pages) {
      const title = elements(root).find(({ tag }) => tag === 'title')
      const text = title
        ? textNodes(title)
            .map((node) => node.text)
            .join('')
        : ''
      expect(text, page.path).not.toBe('')
      expect(unmarked(without(text, theirs)), `${page.path}: ${text}`).toEqual([])
    }
  })

  it('in what the printer puts on every page, and in its bookmarks', () => {
    const theirs = theirWords(here())
    const { binder } = here()
    const job = printJob(binder.content.shop.value, binder.frame, binder.sheets, '')
    const texts = job.sheets.flatMap(({ title, foot, bookmarks }) => [
      title,
      foot.inner,
      foot.middle,
      foot.pageOf.replace(/\{[a-z]\}/g, ''),
      ...bookmarks.map((bookmark) => bookmark.title),
    ])
    expect(texts.length).toBeGreaterThan(20)
    for (const text of [...texts, job.title]) expect(unmarked(without(text, theirs)), text).toEqual([])
  })

  it('names the language of the page', () => {
    for (const { root } of here().pages)
      expect(elements(root).find(({ tag }) => tag === 'html')?.attributes.lang).toBe('en-x-pseudo')
  })
})

describe('by hand: marks stay whole in the made-up language', () => {
  it('keeps as many bold words as the real one has', async () => {
    const real = await composeEdited({})
    const bold = (sheets: readonly Sheet[]): number =>
      sheets.reduce((sum, sheet) => sum + sheet.template.split('**').length, 0)
    expect(bold((made[0] as Made).binder.sheets)).toBe(bold(real.sheets))
  })
})
