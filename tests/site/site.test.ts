/** The site of the demo in the real browser: of each kind of sheet one page, in the soak all of them. */
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll } from 'vitest'
import type { OpenBrowser } from '../../src/print/browser-page.ts'
import { isSoak } from '../long.ts'
import { startBrowser } from '../print/kitchen-sink/shared-browser.ts'
import { describeFirstPage } from './first-page.ts'
import { describeFolder } from './from-a-folder.ts'
import { describeLookUp } from './look-up.ts'
import { describeOneSheet } from './one-sheet-on-paper.ts'
import { describeReaders } from './readers.ts'
import { describeSearch } from './search.ts'
import { type OpenSite, PATIENCE, type SiteFolder, writeSite } from './site-folder.ts'

let site: SiteFolder | undefined
let browser: OpenBrowser | undefined

beforeAll(async () => {
  site = await writeSite({ whole: isSoak })
  browser = await startBrowser()
}, PATIENCE)
afterAll(async () => {
  await browser?.end()
  site?.remove()
})

const open = (): OpenSite => {
  if (!site || !browser) throw new Error('The site was not made.')
  const { folder } = site
  return {
    site,
    browser: browser.browser,
    address: (path) => pathToFileURL(join(folder, path)).href,
  }
}

describeFolder(open)
describeFirstPage(open)
describeReaders(open)
describeSearch(open)
describeLookUp(open)
describeOneSheet(open)
