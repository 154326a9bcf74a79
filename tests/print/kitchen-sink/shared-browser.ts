/** One browser for a file of tests. */
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type OpenBrowser, openBrowser } from '../../../src/print/browser-page.ts'
import { findBrowser, isRoot, launchArguments } from '../../../src/print/find-browser.ts'
import type { PrintBrowser } from '../../../src/print/job.ts'

/** How the tests start a browser, with a new profile folder each time. */
export function browserSettings(): PrintBrowser {
  const found = findBrowser()
  if (!found.ok) throw new Error(found.message)
  return {
    path: found.path,
    arguments: launchArguments({ root: isRoot() }),
    profileFolder: mkdtempSync(join(tmpdir(), 'print-test-')),
  }
}

export const startBrowser = (): Promise<OpenBrowser> => openBrowser(browserSettings())
