/** The site for those who see little, hear it, use no mouse, or hold a phone: by axe, and by what it cannot know. */
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { AxeResults } from 'axe-core'
import { describe, expect, it } from 'vitest'
import { isSoak } from '../long.ts'
import { type OpenSite, PATIENCE } from './site-folder.ts'

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')
const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']

/** px; what a thumb in a glove meets */
const TOUCH = 44
const WIDTHS = isSoak ? [320, 360, 430, 768, 1280] : [360]

export const describeReaders = (open: () => OpenSite): unknown =>
  describe('by hand: the site can be read by everybody', () => {
    it('has nothing that axe finds, on a page of each kind, as wide as a phone', {
      timeout: PATIENCE,
    }, async () => {
      const { site, browser, address } = open()
      const page = await browser.newPage()
      await page.setViewport({ width: 360, height: 740 })
      const found: string[] = []
      const judge = async (): Promise<AxeResults> => {
        await page.evaluate(axe)
        return (await page.evaluate(
          (rules) =>
            (globalThis as unknown as { axe: { run: (...given: unknown[]) => Promise<unknown> } }).axe.run(
              document,
              {
                runOnly: rules,
                preload: false,
                resultTypes: ['violations'],
              },
            ),
          RULES,
        )) as AxeResults
      }
      // each day of every second kind
      const sheets = site.sheets.filter((_, index) => isSoak || index % 2 === 0)
      for (const path of ['index.html', ...sheets.map(({ anchor }) => `sheets/${anchor}.html`)]) {
        await page.goto(address(path))
        const { violations, passes } = await judge()
        expect(passes.length, path).toBeGreaterThan(15)
        for (const { id, nodes } of violations) found.push(`${path}: ${id}: ${nodes[0]?.html}`)
      }
      expect(found).toEqual([])
      // it finds what is wrong, when something is
      await page.evaluate(() => document.querySelector('html')?.removeAttribute('lang'))
      expect((await judge()).violations.map(({ id }) => id)).toEqual(['html-has-lang'])
      await page.close()
    })

    it('never scrolls sideways as a whole; what is wider scrolls in its own box, by keyboard too', {
      timeout: PATIENCE,
    }, async () => {
      const { site, browser, address } = open()
      const page = await browser.newPage()
      const wide: string[] = []
      let boxes = 0
      for (const width of WIDTHS) {
        await page.setViewport({ width, height: 740 })
        for (const path of ['index.html', ...site.sheets.map(({ anchor }) => `sheets/${anchor}.html`)]) {
          await page.goto(address(path))
          const state = await page.evaluate(async () => {
            // those who watch sizes are told after a frame is laid out
            await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)))
            const scrolling = [...document.querySelectorAll<HTMLElement>('.scroller')].filter(
              (box) => box.scrollWidth > box.clientWidth + 1,
            )
            return {
              excess: document.documentElement.scrollWidth - innerWidth,
              scrolling: scrolling.length,
              unreachable: scrolling.filter(
                (box) =>
                  box.tabIndex !== 0 ||
                  box.getAttribute('role') !== 'region' ||
                  !box.getAttribute('aria-label'),
              ).length,
            }
          })
          if (state.excess > 0 || state.unreachable > 0)
            wide.push(`${path} at ${width}: ${JSON.stringify(state)}`)
          boxes += state.scrolling
        }
      }
      await page.close()
      expect(wide).toEqual([])
      expect(boxes).toBeGreaterThan(5)
    })

    it('has places to tap that are large enough, on the first page and in the bar', async () => {
      const { site, browser, address } = open()
      const page = await browser.newPage()
      await page.setViewport({ width: 360, height: 740, isMobile: true, hasTouch: true })
      const small = (selector: string): Promise<string[]> =>
        page.$$eval(
          selector,
          (links, least) =>
            links
              .filter((link) => link.getClientRects().length > 0 && !link.matches('.skip'))
              .filter((link) => link.getBoundingClientRect().height < least)
              .map((link) => link.textContent?.trim() ?? ''),
          TOUCH,
        )
      await page.goto(address('index.html'))
      expect(await small('a, input, summary')).toEqual([])
      expect(await page.$$eval('a', (links) => links.length)).toBeGreaterThan(30)
      await page.goto(address(`sheets/${site.sheets[1]?.anchor}.html`))
      expect(await small('.site-bar :is(a, input), .site-foot :is(a, button)')).toEqual([])
      await page.close()
    })

    it('leads the keyboard past the bar first, and shows where it is', async () => {
      const { site, browser, address } = open()
      const page = await browser.newPage()
      await page.goto(address(`sheets/${site.sheets[1]?.anchor}.html`))
      await page.keyboard.press('Tab')
      const first = await page.evaluate(() => ({
        href: document.activeElement?.getAttribute('href'),
        top: document.activeElement?.getBoundingClientRect().top ?? -1,
        outline: getComputedStyle(document.activeElement as Element).outlineStyle,
      }))
      expect(first.href).toBe('#content')
      expect(first.top).toBeGreaterThanOrEqual(0)
      expect(first.outline).toBe('solid')
      await page.keyboard.press('Enter')
      expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('MAIN')
      await page.close()
    })
  })
