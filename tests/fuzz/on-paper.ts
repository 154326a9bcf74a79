/** Sheets of many binders on paper, one after the other in one browser. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { openBrowser } from '../../src/print/browser-page.ts'
import { findBrowser, isRoot, launchArguments } from '../../src/print/find-browser.ts'
import { printWith } from '../../src/print/print-binder.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { buildPages } from '../../src/site/build-pages.ts'
import { printJob } from '../../src/site/print-job.ts'
import { siteData } from '../../src/site/site-data.ts'
import { printStyles } from '../../src/site/styles.ts'
import type { Binder } from '../sites/edited-demo.ts'
import { markup } from './run-one.ts'

export interface Printer {
  /** @returns pages, and what must not be: what the printer’s gates refuse, and markup that was typed */
  readonly print: (
    binder: Binder,
    sheets: readonly Sheet[],
  ) => Promise<{ pages: number; wrong: readonly string[] }>
  readonly end: () => Promise<void>
}

export const openPrinter = async (): Promise<Printer> => {
  const found = findBrowser()
  if (!found.ok) throw new Error(found.message)
  const profileFolder = mkdtempSync(join(tmpdir(), 'fuzz-printed-'))
  const opened = await openBrowser({
    path: found.path,
    arguments: launchArguments({ root: isRoot() }),
    profileFolder,
  })
  return {
    print: async ({ frame, content, language }, sheets) => {
      const data = siteData(frame, sheets, printStyles(), language)
      const [page] = await buildPages(data, new Set(['print.html']))
      if (!page) throw new Error('no print document')
      try {
        const printed = await printWith(opened, printJob(content.shop.value, frame, sheets, page.content))
        const pages = printed.sheets.reduce((sum, sheet) => sum + sheet.pages, 0)
        return { pages, wrong: markup(page.content).map((one) => `on paper: ${one}`) }
      } catch (error) {
        return { pages: 0, wrong: [`not printed: ${(error as Error).message}`] }
      }
    },
    end: async () => {
      await opened.end()
      rmSync(profileFolder, { recursive: true, force: true })
    },
  }
}
