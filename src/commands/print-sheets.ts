/** Sheets to pages and to paper: `build` does it with all of them, `recall` with one. */
import { join } from 'node:path'
import { findBrowser, isRoot, launchArguments } from '../print/find-browser.ts'
import { type PrintedBinder, printBinder } from '../print/print-binder.ts'
import type { ProcessContent } from '../process.ts'
import type { Sheet } from '../sheets/model.ts'
import { buildPages, type Page } from '../site/build-pages.ts'
import { finishedPages } from '../site/finished-pages.ts'
import { printJob } from '../site/print-job.ts'
import { siteData } from '../site/site-data.ts'
import { printStyles } from '../site/styles.ts'
import type { Binder } from './compose.ts'
import { UsageError } from './options.ts'

export interface PrintedSheets {
  /** of the site */
  readonly pages: readonly Page[]
  /** all sheets as one page, as they were printed */
  readonly document: string
  readonly paper: PrintedBinder
}

/** @throws UsageError in plain words where there is none */
export const browserPath = (): string => {
  const browser = findBrowser()
  if (!browser.ok) throw new UsageError(browser.message)
  return browser.path
}

/**
 * @param browser its path
 * @param work    a folder that is thrown away afterwards
 * @param report  told the name of each stage of printing as it begins
 */
export const printSheets = async (
  { content, frame, firstPage }: Pick<Binder<ProcessContent, unknown>, 'content' | 'frame' | 'firstPage'>,
  sheets: readonly Sheet[],
  { browser, work, report }: { browser: string; work: string; report?: (stage: string) => void },
): Promise<PrintedSheets> => {
  const shop = content.shop.value
  const pages = await buildPages(siteData(frame, sheets, printStyles(), shop.language, firstPage()))
  const print = pages.find((page) => page.path === 'print.html')
  if (!print) throw new Error('The print document was not made.')
  const paper = await printBinder(
    printJob(shop, frame, sheets, print.content),
    {
      path: browser,
      arguments: launchArguments({ root: isRoot() }),
      profileFolder: join(work, 'profile'),
    },
    report,
  )
  const site = pages.filter((page) => page !== print)
  return { pages: finishedPages(site, sheets, paper), document: print.content, paper }
}
