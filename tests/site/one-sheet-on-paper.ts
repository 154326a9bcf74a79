/** A sheet that is printed from its page of the site, by itself: the same paper as its pages in the binder. */
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { describe, expect, it } from 'vitest'
import { difference, openPaper } from './paper.ts'
import { type OpenSite, PATIENCE } from './site-folder.ts'

/** mm: layout puts letters to 1/64 px, and drawings at full size are held to 0.1 */
const TEXTS = 0.1
const LINES = 0.1

export const describeOneSheet = (open: () => OpenSite): unknown =>
  describe('by hand: one sheet printed from the site', () => {
    it('is the same paper as in the binder: pages, breaks, words, foot and numbers, places, drawings at full size', {
      timeout: PATIENCE,
    }, async () => {
      const { site, browser } = open()
      const binder = await openPaper(site.paper.pdf)
      const page = await browser.newPage()
      const wrong: string[] = []
      let compared = 0
      let fullSize = 0
      for (const [index, sheet] of site.sheets.entries()) {
        await page.goto(pathToFileURL(join(site.folder, `sheets/${sheet.anchor}.html`)).href)
        await page.evaluate('document.fonts.ready.then(() => 0)')
        fullSize += Number(await page.evaluate('document.querySelectorAll("svg.full-size").length'))
        const alone = await openPaper(await page.pdf({ preferCSSPageSize: true, printBackground: true }))
        const place = site.paper.sheets[index]!
        if (alone.pageCount !== place.pages)
          wrong.push(`${sheet.id}: ${alone.pageCount} pages, not ${place.pages}`)
        else {
          const [here, there] = [
            await alone.pages(1, place.pages),
            await binder.pages(place.firstPage, place.pages),
          ]
          here.forEach((one, at) => {
            const { words, texts, lines } = difference(one, there[at]!)
            compared += 1
            if (words.length > 0 || texts > TEXTS || lines > LINES)
              wrong.push(`${sheet.id}, page ${at + 1}: ${words.join('; ')} ${texts} ${lines}`)
          })
        }
        await alone.close()
      }
      await binder.close()
      await page.close()
      expect(wrong).toEqual([])
      expect(compared).toBeGreaterThan(60)
      expect(fullSize).toBeGreaterThan(4)
    })

    it('would be told from one that stands a millimetre beside, or bears another number', async () => {
      const { site } = open()
      const binder = await openPaper(site.paper.pdf)
      const [page] = await binder.pages(site.paper.sheets[1]!.firstPage, 1)
      await binder.close()
      const one = page!
      expect(difference(one, one)).toEqual({ words: [], texts: 0, lines: 0 })
      const moved = { ...one, texts: one.texts.map((text) => ({ ...text, x: text.x + 1 })) }
      expect(difference(one, moved).texts).toBeCloseTo(1, 6)
      const last = one.texts.at(-1)!
      const renamed = { ...one, texts: [...one.texts.slice(0, -1), { ...last, text: `${last.text}0` }] }
      expect(difference(renamed, one).words).toHaveLength(1)
    })
  })
