import { existsSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { type OpenBrowser, openPage, printPage } from '../../../src/print/browser-page.ts'
import { PrintGateError } from '../../../src/print/gate-error.ts'
import { checkContents, checkPageSizes, checkScales } from '../../../src/print/gates.ts'
import { installInPage, type PageInspection } from '../../../src/print/in-page.ts'
import { planPages } from '../../../src/print/page-numbers.ts'
import { pageRulesCss } from '../../../src/print/page-rules.ts'
import { loadPdf } from '../../../src/print/pdf-objects.ts'
import { printBinder, printWith } from '../../../src/print/print-binder.ts'
import { pageSizes, readPages } from '../../../src/print/read-pdf.ts'
import { CHECK_SCALES, kitchenSink, type SinkSettings } from './kitchen-sink.ts'
import { browserSettings, startBrowser } from './shared-browser.ts'

let opened: OpenBrowser
beforeAll(async () => {
  opened = await startBrowser()
})
afterAll(() => opened?.end())

/** Prints and gives the refusal; fails when there is none. */
async function refusal(settings: SinkSettings): Promise<PrintGateError> {
  const outcome = await printWith(opened, kitchenSink(settings)).catch((error: unknown) => error)
  expect(outcome).toBeInstanceOf(PrintGateError)
  return outcome as PrintGateError
}

const PLAIN = 'A plain sheet of one page'

describe('by hand: what must not be printed is refused, in words', () => {
  it.each([
    ['a table', '<table style="width: 200mm"><tr><td>Wide table</td></tr></table>', 'Wide table'],
    ['a word', `<p style="overflow-wrap: normal">${'unbroken'.repeat(30)}</p>`, 'unbrokenunbroken'],
    ['a drawing', '<svg width="185mm" height="5mm" aria-label="Wide drawing"></svg>', 'Wide drawing'],
    ['what hangs out on the left', '<p style="margin-left: -5mm">Hanging words</p>', 'Hanging words'],
  ])('too wide: %s', async (_, extra, words) => {
    const error = await refusal({ extra })
    expect(error.gate).toBe('too-wide')
    expect(error.message).toContain(PLAIN)
    expect(error.message).toContain(words)
  })

  it.each([
    ['a step', '<div class="keep" style="height: 300mm">Long step</div>', 'Long step'],
    ['a drawing', '<svg width="5mm" height="260mm" aria-label="Tall drawing"></svg>', 'Tall drawing'],
  ])('too tall for one piece: %s', async (_, extra, words) => {
    const error = await refusal({ extra })
    expect(error.gate).toBe('too-tall')
    expect(error.message).toContain(PLAIN)
    expect(error.message).toContain(words)
  })

  it('lets through what is long but may be divided', async () => {
    const extra = `<div>${'<p>A line.</p>'.repeat(60)}</div>`
    const printed = await printWith(opened, kitchenSink({ extra }))
    expect(printed.sheets[1]?.pages).toBeGreaterThan(1)
  })

  it('a character that would come from a font of this computer or as an empty box, by its name', async () => {
    const arrow = await refusal({ extra: '<p>From here → there</p>' })
    expect(['font', 'missing-character']).toContain(arrow.gate)
    expect(arrow.message).toContain(`On the sheet “${PLAIN}” (page 3)`)
    expect(arrow.message).toContain('the character “→” (U+2192)')
    // a code point that stands for nothing, among those that our fonts announce
    const nowhere = await refusal({ extra: '<p>\ua7e5</p>' })
    expect(nowhere.gate).toBe('missing-character')
    expect(nowhere.message).toContain(`On the sheet “${PLAIN}” (page 3)`)
    expect(nowhere.message).toContain('the character “\ua7e5” (U+A7E5)')
  })

  it('a font that the binder does not carry', async () => {
    const head = '<style>#plain { font-family: monospace }</style>'
    const error = await refusal({ head })
    expect(error.gate).toBe('font')
    expect(error.message).toContain(PLAIN)
  })

  it('letters as drawings, where a slant is made up', async () => {
    const error = await refusal({ extra: '<p><b><i>bold and slanted</i></b></p>' })
    expect(error.gate).toBe('font')
    expect(error.message).toContain('as drawings')
  })

  it.each([
    ['a picture', '<img src="http://127.0.0.1:9/a.png" alt="">', ''],
    ['a style sheet', '', '<style>@import url("http://127.0.0.1:9/a.css");</style>'],
    ['a file', '<img src="file:///etc/hostname" alt="">', ''],
    ['a frame', '<iframe src="http://127.0.0.1:9/"></iframe>', ''],
  ])('a request: %s', async (_, extra, head) => {
    const error = await refusal({ extra, head })
    expect(error.gate).toBe('request')
    expect(error.message).toContain('Nothing was fetched')
  })

  it('lets no request reach even this computer', async () => {
    let reached = 0
    const server = createServer((_, response) => {
      reached += 1
      response.end()
    })
    await new Promise<void>((ready) => server.listen(0, '127.0.0.1', ready))
    const { port } = server.address() as AddressInfo
    const extra = `<img src="http://127.0.0.1:${port}/a.png" alt="">`
    const error = await refusal({ extra }).finally(() => server.close())
    expect(error.gate).toBe('request')
    expect(reached).toBe(0)
  })

  it('runs no script of the document', async () => {
    const extra = '<script>document.getElementById("plain").remove()</script>'
    await expect(printWith(opened, kitchenSink({ extra }))).resolves.toBeDefined()
  })

  it('a check scale that is not as long as it says', async () => {
    const scale = CHECK_SCALES.replace('width="160mm"', 'width="159mm"')
    const error = await refusal({ scale })
    expect(error.gate).toBe('check-scale')
    // 150 × 159 / 160
    expect(error.message).toContain('says 150 mm, but its longest line is 149.06 mm')
  })

  it('a pointer to nothing, sheets that are not there', async () => {
    const extra = '<a href="#gone" data-page-of="gone"></a>'
    expect((await refusal({ extra })).gate).toBe('document')
    const job = kitchenSink()
    const fewer = { ...job, sheets: job.sheets.slice(0, -1) }
    await expect(printWith(opened, fewer)).rejects.toMatchObject({ gate: 'document' })
  })
})

/** Prints past the looks at the layout, as if they had overlooked something. */
async function printUnchecked(settings: SinkSettings) {
  const job = kitchenSink(settings)
  const { page } = await openPage(opened.browser, job.html)
  const anchors = job.sheets.flatMap((sheet) => [
    sheet.anchor,
    ...sheet.bookmarks.map((bookmark) => bookmark.anchor),
  ])
  await page.evaluate(installInPage, { css: pageRulesCss(job), anchors })
  const document = await loadPdf(await printPage(page, false))
  await page.close()
  const read = readPages(document)
  const plan = planPages({ ...job, duplex: { ...job.duplex, rightHandStarts: false } }, read)
  if (!plan) throw new Error('no plan')
  return { job, document, read, plan }
}

const inspection = (checkScales: PageInspection['checkScales']): PageInspection => ({
  anchors: [],
  hasRules: true,
  missingAnchors: [],
  brokenFonts: [],
  foreignFamilies: [],
  outside: [],
  offenders: [],
  checkScales,
})
const scaleOf = (millimetres: number, across: number, down: number) => [
  { anchor: 'full-size', millimetres, across, down, longest: millimetres },
]

describe('by hand: what the printed file must show', () => {
  it('is true to size when all is well', async () => {
    const { job, plan, document } = await printUnchecked({})
    expect(() =>
      checkScales(job, plan, document, inspection([...scaleOf(150, 1, 0), ...scaleOf(100, 0, 1)])),
    ).not.toThrow()
  })

  it('refuses pages that were shrunk to fit', async () => {
    const extra = '<div style="width: 200mm; background: #000">x</div>'
    const { job, plan, document } = await printUnchecked({ extra })
    expect(() => checkScales(job, plan, document, inspection([]))).toThrow(
      expect.objectContaining({ gate: 'page-scale' }),
    )
  })

  it('refuses a check scale that is another length on paper', async () => {
    const { job, plan, document } = await printUnchecked({})
    const check = (millimetres: number, across: number, down: number) => () =>
      checkScales(job, plan, document, inspection(scaleOf(millimetres, across, down)))
    expect(check(150.05, 1, 0)).not.toThrow()
    expect(check(150.2, 1, 0)).toThrow(expect.objectContaining({ gate: 'check-scale' }))
    expect(check(149.8, 1, 0)).toThrow('the nearest line is 150.00 mm')
    expect(check(150, 0, 1)).toThrow(expect.objectContaining({ gate: 'check-scale' }))
    expect(check(150, 2, 0)).toThrow(expect.objectContaining({ gate: 'check-scale' }))
  })

  it('refuses contents that say another page, and another number of pages', async () => {
    const { job, plan, read } = await printUnchecked({})
    expect(() => checkContents(job, plan, read)).not.toThrow()
    const moved = { ...plan, anchors: { ...plan.anchors, weighing: 9 } }
    expect(() => checkContents(job, moved, read)).toThrow(
      'The contents say page 9 for “Batch sheet of two pages, Weighing the oils”, but it stands on page 3.',
    )
    expect(() => checkContents(job, { ...plan, pageCount: 10 }, read)).toThrow(
      expect.objectContaining({ gate: 'contents' }),
    )
  })

  it('refuses a page of another size', async () => {
    const { job, plan, document } = await printUnchecked({})
    const sizes = pageSizes(document)
    expect(() => checkPageSizes(job, plan, sizes)).not.toThrow()
    const wrong = sizes.map((size, index) => (index === 1 ? { width: 595, height: 842 } : size))
    expect(() => checkPageSizes(job, plan, wrong)).toThrow(
      'On the sheet “A plain sheet of one page” (page 2): the page is 209.9 × 297.0 mm, not Letter portrait.',
    )
  })

  it('refuses sheets that do not follow one another', () => {
    const job = kitchenSink()
    const swapped = new Map(job.sheets.map((sheet, index) => [sheet.anchor, 7 - index]))
    expect(planPages(job, { anchors: swapped, pageCount: 7 })).toBeUndefined()
  })
})

describe('by hand: the browser', () => {
  it('ends when printing takes too long, and leaves no profile folder', async () => {
    const settings = { ...browserSettings(), limitSeconds: 0.02 }
    await expect(printBinder(kitchenSink(), settings)).rejects.toMatchObject({ gate: 'time' })
    expect(existsSync(settings.profileFolder)).toBe(false)
  })

  it('ends after a refusal and after a print', async () => {
    for (const extra of ['<p>→</p>', '']) {
      const settings = browserSettings()
      await printBinder(kitchenSink({ extra }), settings).catch(() => {})
      expect(existsSync(settings.profileFolder)).toBe(false)
    }
  })

  it.each(['/nowhere/browser', fileURLToPath(import.meta.url)])(
    'that cannot be run is refused in words: %s',
    async (path) => {
      const settings = { ...browserSettings(), path }
      await expect(printBinder(kitchenSink(), settings)).rejects.toMatchObject({ gate: 'browser' })
    },
  )

  it('tells its stages', async () => {
    const told: string[] = []
    const printed = await printBinder(kitchenSink(), browserSettings(), (stage) => told.push(stage))
    expect(told).toEqual(printed.stages.map((stage) => stage.name))
    for (const stage of printed.stages) expect(stage.seconds).toBeGreaterThan(0)
  })
})
