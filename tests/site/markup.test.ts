/** What pages of the site have beyond paper, and what their scripts may not do. */
import { describe, expect, it } from 'vitest'
import { finishedPages } from '../../src/site/finished-pages.ts'
import { withCalls, withScrollers } from '../../src/site/markdown.ts'
import { dataScript, previewScript, siteScripts } from '../../src/site/scripts.ts'
import { columnClass, screenStyles } from '../../src/site/styles.ts'
import { sourceFiles } from '../architecture-rules.ts'

describe('by hand: pages of the site', () => {
  it('put tables and drawings into boxes that scroll, each into one', () => {
    expect(withScrollers('<p>a</p><table class="x"><tr></tr></table>')).toBe(
      '<p>a</p><div class="scroller"><table class="x"><tr></tr></table></div>',
    )
    expect(
      withScrollers('<figure class="drawing" role="group">\n<svg><path/></svg>\n<figcaption>b</figcaption>'),
    ).toBe(
      '<figure class="drawing"><div class="scroller of-drawing"><svg><path/></svg></div>\n<figcaption>b</figcaption>',
    )
  })

  it('call whom a number names, and make no number of words', () => {
    const list = (reach: string): string =>
      `<dl class="first-call"><div><dt>Poison centre</dt><dd><span class="maker">${reach}</span></dd></div></dl>`
    expect(withCalls(list('+49 (30) 555-01'))).toContain('<dd><a class="call" href="tel:+493055501"><span')
    expect(withCalls(list('112'))).toContain('href="tel:112"')
    expect(withCalls(list('write your own number here'))).toBe(list('write your own number here'))
    expect(withCalls('<dd><span class="maker">112</span></dd>')).not.toContain('tel:')
  })

  it('say page numbers once they are known, and nothing that nobody knows', () => {
    const [first, second] = ['cover', 'batch-2027-03-14-hearth']
    const two = [{ anchor: first }, { anchor: second }]
    const paper = {
      sheets: two.map(({ anchor }, index) => ({ id: anchor, firstPage: 1 + index * 2, pages: 2 + index })),
      anchors: { [first]: 1, [second]: 3 },
      alone: ['@page a {}', '@page b {}'],
      narrower: [[], ['tight', 'tighter']],
    }
    const content = `<span data-pages-of="${second}">–</span><a class="page-number" data-page-of="${first}">–</a><a href="../binder.pdf#of=${second}"><span data-page-range="${first} ${second}">–</span><span data-page-range="${second} ${second}">–</span>`
    const pages = finishedPages([{ path: 'a.html', content }], two, paper)
    expect(pages[0]?.content).toBe(
      `<span data-pages-of="${second}">3</span><a class="page-number" data-page-of="${first}">1</a><a href="../binder.pdf#page=3"><span data-page-range="${first} ${second}">1-5</span><span data-page-range="${second} ${second}">3-5</span>`,
    )
    expect(pages.slice(1)).toEqual([
      { path: `assets/paper/${first}.css`, content: '@page a {}\n' },
      { path: `assets/paper/${second}.css`, content: '@page b {}\n' },
    ])
    expect(() => finishedPages([{ path: 'a.html', content: '<a data-page-of="no">' }], two, paper)).toThrow(
      'no',
    )
  })

  it('are set as narrow as they were printed', () => {
    const section = (anchor: string, classes: string) => `<section class="sheet ${classes}" id="${anchor}">`
    const paper = { sheets: [], anchors: {}, alone: [], narrower: [[], ['tight', 'tighter']] }
    const content = section('wide', 'portrait') + section('narrow', 'portrait kind-card')
    const [page] = finishedPages(
      [{ path: 'a.html', content }],
      [{ anchor: 'wide' }, { anchor: 'narrow' }],
      paper,
    )
    expect(page?.content).toBe(
      section('wide', 'portrait') + section('narrow', 'portrait kind-card tight tighter'),
    )
  })

  it('have a class for each width of a column, and refuse one that has none', () => {
    const styles = screenStyles()
    for (const percent of [0.5, 8.5, 12, 99.5])
      expect(styles).toContain(`.${columnClass(percent)} { width: ${percent}% }`)
    expect(() => columnClass(8.3)).toThrow('8.3 %')
  })
})

describe('by hand: scripts of the site', () => {
  const sources = sourceFiles().filter(({ path }) => path.startsWith('site/browser/'))

  it('are classic ones, the same each time, one for each entry', () => {
    const scripts = siteScripts()
    expect(siteScripts()).toBe(scripts)
    // that of a preview is in no binder
    expect([...scripts.map(({ path }) => path), previewScript().path].sort()).toEqual(
      sources
        .filter(({ path }) => path.endsWith('.page.ts'))
        .map(({ path }) => path.replace('site/browser/', 'assets/').replace('.page.ts', '.js'))
        .sort(),
    )
    expect(scripts).not.toContain(previewScript())
    for (const { content } of [...scripts, previewScript()]) {
      expect(content).toMatch(/^"use strict";\(\(\)=>|^\(\(\)=>/)
      expect(content).not.toMatch(/\bimport\b\s*[({*"']|\bexport\b|\brequire\(/)
    }
  })

  it('say no word of their own, and make no page out of text', () => {
    expect(sources.length).toBeGreaterThan(4)
    const own = /\b(textContent|innerText|placeholder|title|ariaLabel)\s*\+?=\s*['"`][^'"`]*[a-z]{2}/i
    const unsafe = /\binnerHTML\b|\bouterHTML\b|insertAdjacentHTML|document\.write|\beval\(|new Function/
    const asks = /\bfetch\(|XMLHttpRequest|WebSocket|sendBeacon|EventSource|https?:/
    // a preview asks its own server what is new, and is no part of a binder
    for (const { path, text } of sources)
      for (const rule of path.endsWith('/preview.page.ts') ? [own, unsafe] : [own, unsafe, asks])
        expect(rule.exec(text)?.[0], path).toBeUndefined()
    expect(own.test("told.textContent = 'Today'")).toBe(true)
    expect(asks.test("fetch('a')")).toBe(true)
  })

  it('get data that cannot end their script', () => {
    const text = dataScript('kettleWords', { a: '</script>\u2028' })
    expect(text).toBe('globalThis.kettleWords={"a":"\\u003c/script>\\u2028"};\n')
    expect(JSON.parse(text.slice('globalThis.kettleWords='.length, -2))).toEqual({ a: '</script>\u2028' })
  })
})
