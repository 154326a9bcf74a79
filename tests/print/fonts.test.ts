import { statSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { assertBrowserVersion } from '../../src/print/browser-page.ts'
import { uncoveredCharacters } from '../../src/print/font-coverage.ts'
import { fontFaceCss, fontFiles } from '../../src/print/fonts.ts'

describe('by hand: font files', () => {
  it('are all there: five faces, two files each', () => {
    expect(fontFiles()).toHaveLength(10)
    for (const file of fontFiles()) expect(statSync(file.path).size).toBeGreaterThan(5000)
  })

  it('stand inside the print document, which names no address', () => {
    const css = fontFaceCss({ inline: true })
    const addresses = [...css.matchAll(/url\(([^)]*)\)/g)].map((found) => found[1] ?? '')
    expect(addresses).toHaveLength(10)
    for (const address of addresses) expect(address).toMatch(/^data:font\/woff2;base64,d09GM/)
  })

  it('are named by file for the site, with one slash', () => {
    const names = fontFiles().map((file) => file.name)
    for (const urlPrefix of ['../fonts', '../fonts/']) {
      const css = fontFaceCss({ urlPrefix })
      for (const name of names) expect(css).toContain(`url(../fonts/${name})`)
    }
  })
})

describe('by hand: characters that the fonts lack', () => {
  it('has what a binder in a European language writes', () => {
    expect(uncoveredCharacters('<p>aß é ñ č ł ő — “x” … · × ° µ ½ ¼ € − ±</p>')).toEqual([])
  })

  it('names what must be drawn instead, each once, in tags and styles not at all', () => {
    const html = '<style>.a::before { content: "→" }</style><p title="☐">✓ ✓ &#8804; &#x2300;</p>'
    expect(uncoveredCharacters(html)).toEqual(['✓', '≤', '⌀'])
  })

  it('looks at the sheet that is asked for first', () => {
    const html = '<section id="a"><p>→</p></section><section id="b"><p>✓</p></section>'
    const sheet = {
      id: 'b',
      anchor: 'b',
      title: 'b',
      foot: { inner: '', middle: '', pageOf: '' },
      orientation: 'portrait',
      bookmarks: [],
    } as const
    expect(uncoveredCharacters(html, sheet)).toEqual(['✓'])
  })
})

describe('by hand: version of the browser', () => {
  it.each(['HeadlessChrome/131.0.6778.0', 'Chrome/147.0.7727.0'])('takes %s', (version) => {
    expect(() => assertBrowserVersion(version)).not.toThrow()
  })

  it.each(['HeadlessChrome/130.0.6723.0', 'Firefox', ''])('refuses "%s"', (version) => {
    expect(() => assertBrowserVersion(version)).toThrow('must be version 131 or later')
  })
})
