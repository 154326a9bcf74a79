/** Prints one document to a finished PDF in two passes, and refuses to hand out one that would be wrong. */

import { type OpenBrowser, openBrowser, openPage, printPage, whileItLives } from './browser-page.ts'
import { finishPdf } from './finish-pdf.ts'
import { type GateName, PrintGateError } from './gate-error.ts'
import {
  checkCharacters,
  checkContents,
  checkFonts,
  checkInspection,
  checkMissingGlyphs,
  checkPageSizes,
  checkRequests,
  checkScales,
} from './gates.ts'
import {
  completeInPage,
  type FootWords,
  fitFootInPage,
  fitInPage,
  inspectInPage,
  installInPage,
} from './in-page.ts'
import type { PrintBrowser, PrintedBinder, PrintJob, PrintSheet } from './job.ts'
import { pdfLibrary } from './libraries.ts'
import { contentSize } from './page-layout.ts'
import { planPages } from './page-numbers.ts'
import { FOOT_FONT_SIZE, FOOT_SHARES, FOOT_SPACER, pageRulesCss, sheetAloneCss } from './page-rules.ts'
import { loadPdf } from './pdf-objects.ts'
import { pageSizes, readPages } from './read-pdf.ts'

export * from './job.ts'
export type { GateName }
export { PrintGateError }

/** Overall limit; a binder of 500 sheets takes about 25 s. [s] */
const LIMIT_SECONDS = 300

/**
 * Prints a binder: starts the browser, lays out, prints twice, finishes, checks, ends the browser.
 *
 * @param job the document and its sheets
 * @param browser path, arguments and profile folder of a Chromium of version 131 or later
 * @param report told the name of each stage as it begins
 * @returns the PDF, where each sheet stands, and how long each stage took
 * @throws PrintGateError when the printed binder would be wrong, or was not ready within the limit
 */
export async function printBinder(
  job: PrintJob,
  browser: PrintBrowser,
  report: (stage: string) => void = () => {},
): Promise<PrintedBinder> {
  const clock = stopwatch(report)
  clock.begin('start browser')
  const starting = openBrowser(browser)
  // loaded while the browser starts
  setTimeout(pdfLibrary, 10)
  const opened = await starting
  try {
    return await withinLimit(printWith(opened, job, clock), browser.limitSeconds ?? LIMIT_SECONDS)
  } finally {
    await opened.end()
  }
}

/**
 * Prints a binder with a browser that already runs, and leaves it running.
 *
 * @throws PrintGateError when the printed binder would be wrong, or the browser ends before it is printed
 */
export const printWith = (
  opened: Omit<OpenBrowser, 'end'>,
  job: PrintJob,
  clock: Stopwatch = stopwatch(() => {}),
): Promise<PrintedBinder> => whileItLives(opened, () => print(opened, job, clock))

async function print(
  opened: Pick<OpenBrowser, 'browser' | 'version'>,
  job: PrintJob,
  clock: Stopwatch,
): Promise<PrintedBinder> {
  clock.begin('lay out')
  const { page, requests } = await openPage(opened.browser, job.html)
  try {
    checkRequests(requests)
    const anchors = anchorsOf(job)
    await page.evaluate(installInPage, { css: pageRulesCss(job), anchors })
    const fitted = fitSheets(
      job,
      await page.evaluate(fitFootInPage, { words: footWords(job), points: FOOT_FONT_SIZE }),
    )
    const sheets = job.sheets.map((sheet) => ({
      anchor: sheet.anchor,
      contentHeight: contentSize(job, sheet).height,
    }))
    const narrower = await page.evaluate(fitInPage, { sheets })
    const inspection = await page.evaluate(inspectInPage, { sheets, anchors })
    checkRequests(inspection.outside)
    checkInspection(job, inspection)

    clock.begin('first pass')
    await page.evaluate(completeInPage, { css: pageRulesCss(fitted), blanks: [], pages: {} })
    const first = readPages(await loadPdf(await printPage(page, false)))
    const plan = planPages(job, first)
    if (!plan) throw new PrintGateError('page-order', orderWords(job, first.anchors))

    clock.begin('second pass')
    await page.evaluate(completeInPage, {
      css: pageRulesCss(
        fitted,
        plan.sheets.map((sheet) => sheet.pages),
      ),
      blanks: plan.blanks,
      pages: plan.anchors,
      counts: Object.fromEntries(
        job.sheets.map(({ anchor }, index) => [anchor, plan.sheets[index]?.pages ?? 0]),
      ),
    })
    const printed = await printPage(page, true)
    checkRequests(requests)

    clock.begin('finish')
    const document = await loadPdf(printed)
    checkFonts(job, plan, document)
    checkMissingGlyphs(job, plan, document)
    checkCharacters(job, plan)
    checkScales(job, plan, document, inspection)
    const pdf = await finishPdf(document, job)

    clock.begin('read back')
    const finished = await loadPdf(pdf)
    checkContents(job, plan, readPages(finished))
    checkPageSizes(job, plan, pageSizes(finished))
    return {
      pdf,
      sheets: plan.sheets,
      anchors: plan.anchors,
      narrower,
      alone: plan.sheets.map(({ pages, firstPage }, index) => sheetAloneCss(fitted, index, pages, firstPage)),
      pageCount: plan.pageCount,
      browserVersion: opened.version,
      stages: clock.end(),
    }
  } finally {
    await page.close().catch(() => {})
  }
}

/** Every id that something will point to. */
const anchorsOf = (job: PrintJob): string[] => [
  ...new Set(
    job.sheets.flatMap((sheet) => [sheet.anchor, ...sheet.bookmarks.map((bookmark) => bookmark.anchor)]),
  ),
]

/** Inner, middle and outer words of each foot line; of the outer ones only what stands before the numbers may be cut. */
function footWords(job: PrintJob): FootWords[] {
  return job.sheets.flatMap((sheet) => {
    const line = contentSize(job, sheet).width
    const end = line * FOOT_SHARES.end - 2
    const [head, tail] = splitPageOf(sheet.foot.pageOf)
    const numbers = tail.replace('{x}', '88').replace('{y}', '88')
    return [
      { head: sheet.foot.inner, tail: '', width: end },
      { head: sheet.foot.middle, tail: '', width: line * FOOT_SHARES.middle - 2 },
      { head, tail: numbers + FOOT_SPACER + job.pageNumberWords.replace('{n}', '888'), width: end },
    ]
  })
}

function fitSheets(job: PrintJob, fitted: readonly string[]): PrintJob {
  const sheets: PrintSheet[] = job.sheets.map((sheet, index) => {
    const [inner = '', middle = '', head = ''] = fitted.slice(index * 3, index * 3 + 3)
    const foot = { inner, middle, pageOf: head + splitPageOf(sheet.foot.pageOf)[1] }
    return { ...sheet, foot }
  })
  return { ...job, sheets }
}

function splitPageOf(words: string): readonly [string, string] {
  const cut = words.search(/\S*\s?\{[xy]\}/)
  return cut < 0 ? [words, ''] : [words.slice(0, cut), words.slice(cut)]
}

function orderWords(job: PrintJob, anchors: ReadonlyMap<string, number>): string {
  const wrong = job.sheets.find((sheet, index) => {
    const before = job.sheets[index - 1]
    const start = anchors.get(sheet.anchor) ?? 0
    return before ? start <= (anchors.get(before.anchor) ?? 0) : start !== 1
  })
  return `The sheet “${wrong?.title ?? ''}” does not start on a page of its own after the sheet before it, so page numbers would be wrong.`
}

/** Fails in words when the work takes too long; whoever waits then ends the browser. */
async function withinLimit<T>(work: Promise<T>, seconds: number): Promise<T> {
  let timer: NodeJS.Timeout | undefined
  const limit = new Promise<never>((_, fail) => {
    timer = setTimeout(() => {
      fail(
        new PrintGateError(
          'time',
          `Printing was not ready within ${seconds} seconds and was given up. Print fewer sheets at a time, or close other programs and try again.`,
        ),
      )
    }, seconds * 1000)
  })
  work.catch(() => {})
  try {
    return await Promise.race([work, limit])
  } finally {
    clearTimeout(timer)
  }
}

export interface Stopwatch {
  begin(stage: string): void
  end(): { name: string; seconds: number }[]
}

function stopwatch(report: (stage: string) => void): Stopwatch {
  const stages: { name: string; seconds: number }[] = []
  let began = 0
  const stop = () => {
    const last = stages.at(-1)
    if (last) last.seconds = (performance.now() - began) / 1000
  }
  return {
    begin(name) {
      stop()
      stages.push({ name, seconds: 0 })
      began = performance.now()
      report(name)
    },
    end() {
      stop()
      return stages
    },
  }
}
