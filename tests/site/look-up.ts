/** The page on which a code of a paper is looked up, from its folder: what it says of codes as somebody types them. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { codeOf } from '../../src/papers/revisions.ts'
import { sha256 } from '../../src/papers/shown-sheet.ts'
import type { CodedSheet } from '../../src/site/browser/look-up.ts'
import { dataScript } from '../../src/site/scripts.ts'
import type { OpenSite } from './site-folder.ts'

const ID = 'cautions/lye'
const paper = (id: string, revision: number, content: string) => codeOf(id, revision, sha256(content)).code
const [now, old] = [paper(ID, 2, 'now'), paper(ID, 1, 'before')]

/** One sheet and two papers of it: codes of the demo are others with every change of its words. */
const codes: readonly CodedSheet[] = [
  {
    letters: now.slice(0, 4),
    title: 'Lye',
    now: { number: '2.1', file: 'sheets/cautions-lye.html', code: now, revision: 2, recorded: true },
    papers: [{ code: old, revision: 1, where: 'wall', changes: ['NaOH: 1 652 g, now 1 610 g'] }],
  },
]

export const describeLookUp = (open: () => OpenSite): unknown =>
  describe('by hand: the page that looks up a code', () => {
    let asked: string[] = []
    beforeAll(() => {
      writeFileSync(join(open().site.folder, 'assets/codes-tried.js'), dataScript('kettleCodes', codes))
    })

    const answer = async (typed: string): Promise<{ readonly text: string; readonly links: string[] }> => {
      const page = await open().browser.newPage()
      asked = []
      page.on('request', (request) => asked.push(request.url()))
      await page.goto(open().address('look-up.html'))
      await page.addScriptTag({ url: open().address('assets/codes-tried.js') })
      await page.type('#code', typed)
      await page.keyboard.press('Enter')
      await page.waitForFunction("document.querySelector('.looked-up').textContent !== ''")
      const said = (await page.evaluate(() => ({
        text: document.querySelector('.looked-up')?.textContent ?? '',
        links: [...document.querySelectorAll('.looked-up a')].map((one) => one.getAttribute('href') ?? ''),
      }))) as { text: string; links: string[] }
      await page.close()
      return said
    }

    it('knows the current one, however it is typed, and leads to its sheet', async () => {
      for (const typed of [now, ` ${now.toLowerCase().replaceAll('-', ' ')} `]) {
        const { text, links } = await answer(typed)
        expect(text).toContain('Sheet 2.1 Lye. This paper is the current one.')
        expect(links).toEqual(['sheets/cautions-lye.html'])
      }
      expect(asked.filter((url) => !url.startsWith('file:'))).toEqual([])
    })

    it('says of an old one to take it down, which is current, and what changed', async () => {
      const { text } = await answer(old)
      expect(text).toContain(`Take it down. The current one is ${now}.`)
      expect(text).toContain('NaOH: 1 652 g, now 1 610 g')
    })

    it('names what is wrong with a code that is none', async () => {
      const other = now.endsWith('A') ? 'B' : 'A'
      expect((await answer(`${now.slice(0, -1)}${other}`)).text).toContain('does not fit together')
      expect((await answer(`${now.slice(0, 1)}*${now.slice(2)}`)).text).toContain('Character 2, “*”')
      expect((await answer('H7KQ')).text).toContain('That is no whole code')
    })

    it('does not know a code of another shop, nor a newer paper', async () => {
      expect((await answer(paper('another/sheet', 1, 'x'))).text).toContain('No sheet of this binder')
      expect((await answer(paper(ID, 3, 'later'))).text).toContain('newer than this site')
    })

    it('lists the codes of all its sheets for whoever has no scripts', async () => {
      const page = await open().browser.newPage()
      await page.setJavaScriptEnabled(false)
      await page.goto(open().address('look-up.html'))
      const rows = await page.$$eval('.codes tbody tr', (all) => all.map((one) => one.textContent ?? ''))
      const shown = await page.$eval('.look-up', (one) => one.checkVisibility())
      await page.close()
      const own = open().site.sheets.flatMap(({ code }) => (code ? [code.shown] : []))
      expect(own.length).toBeGreaterThan(10)
      for (const code of own) expect(rows.join('\n')).toContain(code)
      expect(shown).toBe(false)
    })
  })
