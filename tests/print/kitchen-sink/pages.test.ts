import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { OpenBrowser } from '../../../src/print/browser-page.ts'
import type { PrintedBinder } from '../../../src/print/job.ts'
import { printWith } from '../../../src/print/print-binder.ts'
import { kitchenSink, SINK_SHEETS } from './kitchen-sink.ts'
import { type PageRaster, readRaster, readStructure, type StructureRead } from './read-back.ts'
import { startBrowser } from './shared-browser.ts'

let opened: OpenBrowser
beforeAll(async () => {
  opened = await startBrowser()
})
afterAll(() => opened?.end())

/** Points of the two papers: 8.5 × 11 in exactly; 210 × 297 mm. */
const POINTS = { Letter: [612, 792], A4: [595.276, 841.89] } as const

/** Counted by hand: seven sheets, the third and fourth of two pages; with right-hand starts a blank before every odd page that would be even. */
const FIRST_PAGES = {
  running: { contents: 1, plain: 2, batch: 3, wide: 5, cards: 7, 'full-size': 8, last: 9 },
  rightHand: { contents: 1, plain: 3, batch: 5, wide: 7, cards: 9, 'full-size': 11, last: 13 },
} as const
const PAGE_COUNT = { running: 9, rightHand: 13 } as const
const BLANKS = { running: [], rightHand: [2, 4, 10, 12] } as const
const INNER = 25

const combinations = (['Letter', 'A4'] as const).flatMap((paper) =>
  [true, false].flatMap((rightHandStarts) =>
    [true, false].map((mirroredMargins) => ({ paper, rightHandStarts, mirroredMargins })),
  ),
)

describe.each(combinations)(
  'by hand: pages of one of everything, $paper, right-hand starts $rightHandStarts, mirrored $mirroredMargins',
  (settings) => {
    const way = settings.rightHandStarts ? 'rightHand' : 'running'
    const first = FIRST_PAGES[way]
    let binder: PrintedBinder
    let structure: StructureRead
    let pages: PageRaster[]
    beforeAll(async () => {
      binder = await printWith(opened, kitchenSink(settings))
      structure = await readStructure(binder.pdf)
      pages = await readRaster(binder.pdf)
    })

    it('says where each sheet starts and how many pages it takes', () => {
      expect(binder.sheets.map((sheet) => sheet.firstPage)).toEqual(Object.values(first))
      expect(binder.sheets.map((sheet) => sheet.pages)).toEqual([1, 1, 2, 2, 1, 1, 1])
      expect(binder.pageCount).toBe(PAGE_COUNT[way])
    })

    it('has that many pages for both readers, each of the right size', () => {
      expect(structure.pageCount).toBe(PAGE_COUNT[way])
      expect(pages).toHaveLength(PAGE_COUNT[way])
      const [short, long] = POINTS[settings.paper]
      const landscape = [first.wide, first.wide + 1]
      pages.forEach((page, index) => {
        const lies = landscape.includes(index + 1)
        // A4 is given in whole pixels of 1/96 in, so up to half a point may be lost
        expect(Math.abs(page.width - (lies ? long : short))).toBeLessThan(0.5)
        expect(Math.abs(page.height - (lies ? short : long))).toBeLessThan(0.5)
      })
    })

    it('puts every destination where it was counted', () => {
      expect(structure.destinations).toMatchObject({
        contents: first.contents,
        plain: first.plain,
        'batch-two-pages': first.batch,
        weighing: first.batch,
        'second-page': first.batch + 1,
        wide: first.wide,
        'wide-second': first.wide + 1,
        cards: first.cards,
        'full-size': first['full-size'],
        last: first.last,
      })
    })

    it('has bookmarks of two levels with the known titles', () => {
      expect(structure.outline.map((item) => [item.title, item.page])).toEqual(
        SINK_SHEETS.map((sheet, index) => [sheet.title, Object.values(first)[index]]),
      )
      expect(structure.outline[2]?.count).toBe(-2)
      expect(structure.outline[2]?.children).toEqual([
        { title: 'Weighing the oils', page: first.batch, count: 0, children: [] },
        { title: 'Second page', page: first.batch + 1, count: 0, children: [] },
      ])
    })

    it('prints in its contents the pages that the sheets have', () => {
      const numbers = structure.texts[0]?.filter((text) => /^\d+$/.test(text.trim())).map(Number)
      const { contents, plain, batch, wide, cards, last } = first
      expect(numbers).toEqual([
        contents,
        plain,
        batch,
        batch,
        batch + 1,
        wide,
        wide + 1,
        cards,
        first['full-size'],
        last,
      ])
    })

    it('prints page x of y and the page of the binder at the outer end of every foot line', () => {
      const totals = [1, 1, 2, 2, 1, 1, 1]
      Object.values(first).forEach((start, index) => {
        const total = totals[index] as number
        for (let x = 1; x <= total; x += 1) {
          const page = start + x - 1
          const words = `Sheet 1 · page ${x} of ${total}`
          const isLandscape = page === first.wide || page === first.wide + 1
          const isLeft = settings.mirroredMargins && page % 2 === 0 && !isLandscape
          // on a nearly empty page this reader puts a space between any two letters, so none counts
          const line = isLeft ? `${page} · ${words}` : `${words} · ${page}`
          expect(pages[page - 1]?.text.replace(/\s/g, '')).toContain(line.replace(/\s/g, ''))
        }
      })
    })

    it('leaves blank pages blank and the binding margin of every page white', () => {
      const blanks: readonly number[] = BLANKS[way]
      pages.forEach((page, index) => {
        const number = index + 1
        const [width, height] = [(page.width / 72) * 25.4, (page.height / 72) * 25.4]
        const all = page.inkIn(0, 0, width, height)
        if (blanks.includes(number)) {
          expect(all).toBe(0)
          return
        }
        expect(all).toBeGreaterThan(0)
        const isLeft = settings.mirroredMargins && number % 2 === 0
        const isLandscape = page.width > page.height
        // half of a table's outer rule may stand outside the content box
        const strip = INNER - 0.5
        const ink = isLandscape
          ? isLeft
            ? page.inkIn(0, height - strip, width, height)
            : page.inkIn(0, 0, width, strip)
          : isLeft
            ? page.inkIn(width - strip, 0, width, height)
            : page.inkIn(0, 0, strip, height)
        expect(ink, `page ${number}`).toBe(0)
        // and just inside it the content begins, on the pages that are ruled to their edge
        if (number === 1) expect(page.inkIn(INNER - 0.5, 20, INNER + 1, 60)).toBeGreaterThan(0)
      })
    })
  },
)
