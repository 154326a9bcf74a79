/** The small good binder of tests/diagnostics/base in memory, and what becomes of it: for tests that try many variants. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { type BoundBinder, bind } from '../../src/binder/bind.ts'
import type { Content } from '../../src/schema/content.ts'
import { type Loaded, loadContent } from '../../src/schema/load.ts'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { binderSheets } from '../../src/sheets/binder-sheets.ts'
import { frameOf } from '../../src/sheets/frame.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { showIn } from '../../src/sheets/shown.ts'

const base = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))
const english = readCatalogue('en')

/** Its files by their path below the folder, fresh each time. */
export const smallBinderFiles = (): Map<string, string> =>
  new Map(
    readdirSync(base, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .map((path) => [relative(base, path).replaceAll('\\', '/'), readFileSync(path, 'utf8')] as const),
  )

/** @param shown what messages put before the path of a file */
export const loadFiles = (files: ReadonlyMap<string, string>, shown = ''): Loaded =>
  loadContent(
    [...files].map(([below, text]) => ({
      file: `${shown}${below}`,
      below,
      bytes: new TextEncoder().encode(text),
    })),
    'binder',
  )

export const bindAndCompose = (content: Content): { binder: BoundBinder; sheets: readonly Sheet[] } => {
  const { binder } = bind(content)
  const show = showIn({ length: 'mm', denominator: 16, temperature: 'C' })
  const frame = frameOf(english, show, 'Alder Yard', { width: 176, height: 267 }, '2027-01-04', new Map())
  return { binder, sheets: binderSheets(frame, binder, 'first-angle').sheets }
}
