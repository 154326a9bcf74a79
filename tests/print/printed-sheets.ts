/** Some sheets of a binder on paper, without the rest of it. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { findBrowser, isRoot, launchArguments } from '../../src/print/find-browser.ts'
import { printBinder } from '../../src/print/print-binder.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { buildPages } from '../../src/site/build-pages.ts'
import { printJob } from '../../src/site/print-job.ts'
import { siteData } from '../../src/site/site-data.ts'
import { printStyles } from '../../src/site/styles.ts'
import type { Binder } from '../sites/edited-demo.ts'
import { type Element, readHtml } from '../sites/html.ts'

export interface PrintedSheets {
  readonly pdf: Uint8Array
  readonly sheets: readonly {
    readonly sheet: Sheet
    readonly firstPage: number
    readonly pages: number
    readonly root: Element
  }[]
}

export async function printSheets(
  { frame, content }: Binder,
  sheets: readonly Sheet[],
): Promise<PrintedSheets> {
  const browser = findBrowser()
  if (!browser.ok) throw new Error(browser.message)
  const pages = await buildPages(siteData(frame, sheets, printStyles(), 'en'))
  const pageOf = (path: string): string => pages.find((page) => page.path === path)?.content ?? ''
  const profileFolder = mkdtempSync(join(tmpdir(), 'printed-'))
  try {
    const { pdf, sheets: printed } = await printBinder(
      printJob(content.shop.value, frame, sheets, pageOf('print.html')),
      { path: browser.path, arguments: launchArguments({ root: isRoot() }), profileFolder },
    )
    return {
      pdf,
      sheets: sheets.map((sheet) => {
        const place = printed.find(({ id }) => id === sheet.id)
        if (!place) throw new Error(`${sheet.id} was not printed.`)
        return { ...place, sheet, root: readHtml(pageOf(`sheets/${sheet.anchor}.html`)) }
      }),
    }
  } finally {
    rmSync(profileFolder, { recursive: true, force: true })
  }
}
