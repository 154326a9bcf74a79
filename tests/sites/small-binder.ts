/** The small good binder of tests/diagnostics/base in memory, and what becomes of it: for tests that try many variants. */
import { readdirSync, readFileSync } from 'node:fs'
import { join, relative } from 'node:path'
import { fileURLToPath } from 'node:url'
import { type BoundBinder, bind } from '../../src/binder/bind.ts'
import { keptOrMade } from '../../src/kept-or-made.ts'
import type { Content } from '../../src/schema/content.ts'
import { type Loaded, loadContent } from '../../src/schema/load.ts'
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { asFolderFiles } from '../../src/schema/read-folder.ts'
import { binderSheets } from '../../src/sheets/binder-sheets.ts'
import { type Frame, frameOf, spokenIn } from '../../src/sheets/frame.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { type Show, showIn } from '../../src/sheets/shown.ts'
import type { Catalogue } from '../../src/text/catalogue.ts'

const base = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))

/** Its files by their path below the folder, fresh each time. */
export const smallBinderFiles = (): Map<string, string> =>
  new Map(
    readdirSync(base, { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => join(entry.parentPath, entry.name))
      .map((path) => [relative(base, path).replaceAll('\\', '/'), readFileSync(path, 'utf8')] as const),
  )

/** What stands in one of its files, and what takes its place. */
export type Edit = readonly [file: string, from: string, to: string]

/** Its files with what a test changes in them. @throws Error for a text that is not there */
export const editedFiles = (...edits: readonly Edit[]): Map<string, string> => {
  const files = smallBinderFiles()
  for (const [file, from, to] of edits) {
    const text = files.get(file) ?? ''
    if (!text.includes(from)) throw new Error(`${file} has no "${from}"`)
    files.set(file, text.replace(from, to))
  }
  return files
}

/** Its files with lines added at the end of one. */
export const longerFile = (file: string, more: string): Map<string, string> => {
  const files = smallBinderFiles()
  return files.set(file, `${files.get(file)}${more}`)
}

/** What files say. @throws Error with every message when they cannot be read */
export const contentOf = (files: ReadonlyMap<string, string>): Content => {
  const { content, diagnostics } = loadFiles(files)
  if (!content) throw new Error(diagnostics.map(({ message }) => message).join('; '))
  return content
}

/** @param shown how messages name the folder; without it they name files by their paths alone */
export const loadFiles = (files: ReadonlyMap<string, string>, shown = ''): Loaded =>
  loadContent(asFolderFiles(files, shown), 'binder')

const catalogues = new Map<string, Catalogue>()
const catalogueOf = (language: string): Catalogue =>
  keptOrMade(catalogues, 9, language, () => readCatalogue(language))

const showOf = ({ locale }: Catalogue): Show =>
  showIn({ length: 'mm', denominator: 16, temperature: 'C' }, locale)

/** What its sheets are composed in. */
const frameIn = (words: Catalogue, onLabel: Catalogue): Frame =>
  frameOf(
    words,
    showOf(words),
    'Alder Yard',
    { width: 176, height: 267 },
    '2027-01-04',
    new Map(),
    spokenIn(onLabel, showOf(onLabel)),
  )

export const frame = frameIn(catalogueOf('en'), catalogueOf('en'))

export const bindAndCompose = (content: Content): { binder: BoundBinder; sheets: readonly Sheet[] } => {
  const { binder } = bind(content)
  const { language } = content.shop.value
  const isEnglish = language === 'en' && content.onLabels.language === 'en'
  const own = isEnglish ? frame : frameIn(catalogueOf(language), catalogueOf(content.onLabels.language))
  return { binder, sheets: binderSheets(own, binder, 'first-angle').sheets }
}
