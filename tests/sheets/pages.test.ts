/** Every page as HTML: valid, with its title block, one main heading, sections that can be linked to. */
import { HtmlValidate } from 'html-validate'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Sheet } from '../../src/sheets/model.ts'
import { buildPages } from '../../src/site/build-pages.ts'
import { sheetBody } from '../../src/site/markdown.ts'
import { siteData } from '../../src/site/site-data.ts'
import { isSoak } from '../long.ts'
import { builtPages } from '../sites/built-pages.ts'
import { composeEdited, STATES, type State, withoutCutters } from '../sites/edited-demo.ts'
import { type Element, elements, hasClass, readHtml, textOf } from '../sites/html.ts'

const SHOWN_STATES: readonly State[] = [
  'go',
  'dado too deep',
  'oils by weight, own page',
  ...(isSoak ? (['untried', 'plain lye, no check weights', 'fixtures that were measured'] as const) : []),
]

const validator = new HtmlValidate({
  extends: ['html-validate:recommended'],
  rules: {
    // the templates leave blanks at line ends; a browser does not see them
    'no-trailing-whitespace': 'off',
    // columns have widths of their own, each from its table
    'no-inline-style': ['error', { allowedProperties: ['width'] }],
    // characters beyond ASCII are written as such; Markdown writes &quot; where " would do
    'no-raw-characters': 'error',
    // the page's name stands before the shop's
    'long-title': 'off',
    // written as HTML has had it from its beginning
    'doctype-style': ['error', { style: 'lowercase' }],
  },
})

interface Built {
  readonly sheets: readonly Sheet[]
  readonly pages: readonly { readonly path: string; readonly content: string; readonly root: Element }[]
}
const built = new Map<State, Built>()
/** All sheets once more, one after the other: looked at in the soak. */
const PRINTED = 'print.html'
/** Pages that another state has to the letter are looked at once. */
const looked = new Set<string>()
beforeAll(async () => {
  for (const state of SHOWN_STATES) {
    const binder = await composeEdited(STATES[state])
    const { texts, pages } = await builtPages(binder)
    built.set(state, {
      sheets: binder.sheets,
      pages: [...pages].map(([path, root]) => ({ path, root, content: texts.get(path) ?? '' })),
    })
  }
})

describe.each(SHOWN_STATES)('by hand: pages, %s', (state) => {
  const here = (): Built => built.get(state) as Built

  it('are valid HTML', async () => {
    for (const { path, content } of here().pages) {
      if (looked.has(content) || (path === PRINTED && !isSoak)) continue
      looked.add(content)
      const report = await validator.validateString(content.trim(), path)
      const said = report.results.flatMap(({ messages }) =>
        messages.map(({ ruleId, message, line }) => `${path}:${line} ${ruleId}: ${message}`),
      )
      expect([...new Set(said)]).toEqual([])
    }
  })

  it('carry number, revision, date and a place for the count of pages at the head of each sheet', () => {
    for (const sheet of here().sheets) {
      const page = here().pages.find(({ path }) => path === `sheets/${sheet.anchor}.html`)
      const sections = elements(page?.root as Element).filter((one) => hasClass(one, 'sheet'))
      expect(sections).toHaveLength(1)
      const section = sections[0] as Element
      expect(section.attributes.id).toBe(sheet.anchor)
      const block = elements(section).find((one) => hasClass(one, 'title-block')) as Element
      const text = textOf(block).replace(/\s+/g, ' ')
      for (const word of [
        'Sheet',
        sheet.number,
        'Revision',
        'Date',
        sheet.issued.shown.replace(/\s/g, ' '),
        'Pages',
      ])
        expect(text, sheet.id).toContain(word)
      expect(elements(block).map(({ attributes }) => attributes['data-pages-of'])).toContain(sheet.anchor)
      expect(elements(section).filter(({ tag }) => tag === 'h1')).toHaveLength(1)
    }
  })

  it('have sections with ids of their own, in the print document as on their page', () => {
    const print = here().pages.find(({ path }) => path === 'print.html')?.root as Element
    const ids = elements(print).flatMap(({ attributes }) =>
      attributes.id === undefined ? [] : [attributes.id],
    )
    expect(new Set(ids).size).toBe(ids.length)
    const headings = here().sheets.flatMap((sheet) => sheetBody(sheet).headings)
    expect(headings.length).toBeGreaterThan(8)
    expect(ids).toEqual(expect.arrayContaining(headings.map(({ anchor }) => anchor)))
    for (const { title } of headings) expect(title.trim()).not.toBe('')
  })

  it('go from one level of heading to the next without a gap', () => {
    for (const { path, root } of here().pages) {
      const levels = elements(root).flatMap(({ tag }) => (/^h[1-6]$/.test(tag) ? [Number(tag[1])] : []))
      for (const [index, level] of levels.entries())
        if (index > 0) expect(level - (levels[index - 1] ?? 0), path).toBeLessThanOrEqual(1)
    }
  })

  it('number the steps of a batch without a gap or a double', () => {
    const page = here().pages.find(({ path }) => path.startsWith('sheets/batch-'))?.root as Element
    const steps = elements(page).filter((one) => hasClass(one, 'step'))
    expect(steps.map(({ attributes }) => Number(attributes.value))).toEqual(
      steps.map((_, index) => index + 1),
    )
  })

  it('have as many cells in a row as columns', () => {
    for (const { path, root } of here().pages)
      for (const table of elements(root).filter(({ tag }) => tag === 'table')) {
        const rows = elements(table).filter(({ tag }) => tag === 'tr')
        const cells = rows.map((row) => row.children.filter((one) => typeof one !== 'string').length)
        expect(new Set(cells).size, path).toBe(1)
      }
  })
})

describe('by hand: what a maker types is text, never markup', () => {
  it('prints angle brackets, quotes, Markdown marks and placeholders as they were typed', async () => {
    const odd = `A <b>bold</b> "shop" & *stars* [[edition]] \\u003c`
    const edits = {
      'shop.yaml': [['name: Withy Corner Soap Shed', `name: '${odd}'`]],
      'recipes/hearth.yaml': [
        ['title: { en: Hearth bar, es: Pastilla del hogar }', `title: 'R <i>x</i> **bold** [[no]]'`],
      ],
    } as const
    // the shop's name stands on every drawing: those of a mould are enough
    const { frame, sheets } = await composeEdited(isSoak ? edits : withoutCutters(edits))
    const pages = await buildPages(siteData(frame, sheets, '', 'en'))
    for (const { path, content } of pages) {
      expect(content, path).not.toMatch(/<b>|<i>x|<strong>bold/)
      const text = textOf(readHtml(content))
      expect(text, path).toContain(odd)
    }
    const contents = pages.find(({ path }) => path === 'sheets/contents.html')?.content ?? ''
    expect(textOf(readHtml(contents))).toContain('R <i>x</i> **bold** [[no]], ')
  })
})
