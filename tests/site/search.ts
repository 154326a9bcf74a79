/** Searching, as somebody types: what is found, where it leads, and what is told to those who listen. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'puppeteer'
import { describe, expect, it } from 'vitest'
import { lineReader, packed, packedLines, unpacked } from '../../src/site/browser/search-data.ts'
import { termsOf } from '../../src/site/browser/search-terms.ts'
import type { OpenSite } from './site-folder.ts'

interface Row {
  readonly title: string
  readonly place: string
  readonly line: string
  readonly marks: readonly string[]
  readonly href: string
}

const type = async (page: Page, query: string): Promise<readonly Row[]> => {
  await page.$eval('#looked-for', (input) => {
    ;(input as HTMLInputElement).value = ''
  })
  await page.type('#looked-for', query)
  await page.waitForFunction('globalThis.kettleSearch !== undefined')
  return page.$$eval('.found li', (rows) =>
    rows.map((row) => ({
      title: row.querySelector('.found-title')?.textContent ?? '',
      place: row.querySelector('.found-place')?.textContent ?? '',
      line: row.querySelector('.found-line')?.textContent ?? '',
      marks: [...row.querySelectorAll('mark')].map((mark) => mark.textContent ?? ''),
      href: row.querySelector('a')?.getAttribute('href') ?? '',
    })),
  )
}

export const describeSearch = (open: () => OpenSite): unknown =>
  describe('by hand: searching', () => {
    const onPage = async (look: (page: Page) => Promise<void>): Promise<void> => {
      const { site, browser, address } = open()
      const page = await browser.newPage()
      await page.goto(address(`sheets/${site.sheets[1]?.anchor}.html`))
      try {
        await look(page)
      } finally {
        await page.close()
      }
    }
    const told = async (page: Page): Promise<string> => {
      await page.waitForFunction('document.querySelector(".found-count").textContent !== ""')
      return page.$eval('.found-count', (one) => one.textContent ?? '')
    }

    it('finds sheets by number and by day, lots, materials, words with slips, and what else they are called', () =>
      onPage(async (page) => {
        const { sheets } = open().site
        const batch = sheets.find(({ kind }) => kind === 'batch')!
        const byNumber = await type(page, batch.number)
        expect(byNumber[0]?.place).toBe(`Batch, sheet ${batch.number}`)
        expect(byNumber[0]?.href).toBe(`../sheets/${batch.anchor}.html#${batch.anchor}`)
        const day = batch.id.slice('batch/'.length, 'batch/2027-01-01'.length)
        expect((await type(page, day)).map(({ href }) => href)).toContain(byNumber[0]?.href)

        for (const [query, mark] of [
          ['C-1187', /^C-1187/],
          ['olive oil', /^olive$/i],
          ['emergncy', /emergency/i],
          ['EMERGE', /emergency/i],
          ['émergency', /emergency/i],
          ['NaOH', /sodium|hydroxide|naoh/i],
        ] as const) {
          const rows = await type(page, query)
          expect(rows.length, query).toBeGreaterThan(0)
          const marks = rows.slice(0, 5).flatMap((row) => row.marks)
          const titles = rows.slice(0, 5).map(({ title }) => title)
          expect(
            marks.some((one) => mark.test(one)) || titles.some((one) => /emergency/i.test(one)),
            query,
          ).toBe(true)
          for (const { line } of rows) expect(line.length, query).toBeLessThan(400)
        }
        expect(await type(page, 'qqqwxyz')).toEqual([])
        expect(await told(page)).toBe('Nothing found for “qqqwxyz”. Try fewer letters, or another word.')
        expect(await type(page, 'lejía')).toEqual([])
      }))

    it('leads to places that are there', () =>
      onPage(async (page) => {
        for (const { href } of await type(page, 'lye')) {
          const [path = '', anchor = ''] = href.replace('../', '').split('#')
          expect(open().site.files).toContain(path)
          expect(readFileSync(join(open().site.folder, path), 'utf8'), href).toContain(`id="${anchor}"`)
        }
      }))

    it('goes by keyboard: a stroke to begin, arrows to choose, Enter to go, Escape to leave', () =>
      onPage(async (page) => {
        const active = (): Promise<string> =>
          page.evaluate(
            () => document.activeElement?.id || document.activeElement?.getAttribute('href') || '',
          )
        await page.keyboard.press('/')
        expect(await active()).toBe('looked-for')
        const rows = await type(page, 'lye')
        expect(rows.length).toBeGreaterThan(3)
        expect(await told(page)).toMatch(/^(The first )?\d+ (of \d+ )?places( found)?$/)
        await page.keyboard.press('ArrowDown')
        expect(await active()).toBe(rows[0]?.href)
        await page.keyboard.press('ArrowDown')
        expect(await active()).toBe(rows[1]?.href)
        await page.keyboard.press('ArrowUp')
        await page.keyboard.press('ArrowUp')
        expect(await active()).toBe('looked-for')
        await page.keyboard.press('ArrowDown')
        await page.keyboard.press('Escape')
        expect(await active()).toBe('looked-for')
        await page.keyboard.press('Escape')
        expect(await page.$eval('.found', (list) => (list as HTMLElement).hidden)).toBe(true)
        await type(page, 'lye')
        await Promise.all([page.waitForNavigation(), page.keyboard.press('Enter')])
        expect(page.url()).toBe(`${open().address('')}/${rows[0]?.href.replace('../', '')}`)
      }))

    it('keeps what it packs', () => {
      const postings = { 0: { 3: 1, 40: 2, 41: 1 }, 3: { 0: 12 } }
      expect(unpacked(packed('n-88', postings))).toEqual(['n-88', postings])
      const lines = ['two of one', 'one of two', 'three']
      const read = lineReader(packedLines(lines))
      expect(lines.map((_line, place) => read(place))).toEqual(lines)
    })

    it.each([
      ['Lot N-88, 2027-03-14', ['lot', 'n-88', '88', '2027-03-14', '2027', '03', '14']],
      ['1\u202f329 g of Señal', ['1329', 'g', 'of', 'senal']],
      ['C18:1 at 4.1', ['c18:1', 'c18', 'at', '4.1']],
    ])('takes %s apart', (text, terms) => {
      expect(termsOf(text)).toEqual(terms)
    })
  })
