/** A site of the demo in a folder, with its paper, as a build leaves it. */
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { browserPath, printSheets } from '../../src/commands/print-sheets.ts'
import type { OpenBrowser } from '../../src/print/browser-page.ts'
import { fontFiles } from '../../src/print/fonts.ts'
import type { PrintedBinder } from '../../src/print/job.ts'
import type { Sheet } from '../../src/sheets/model.ts'
import { siteAssets } from '../../src/site/assets.ts'
import { isSoak } from '../long.ts'
import { composeEdited, WHOLE_DEMO } from '../sites/edited-demo.ts'

/** ms for what looks at many pages, on a busy machine */
export const PATIENCE = isSoak ? 3_600_000 : 300_000

export interface SiteFolder {
  readonly folder: string
  readonly sheets: readonly Sheet[]
  readonly paper: PrintedBinder
  /** files of the site below the folder */
  readonly files: readonly string[]
  readonly remove: () => void
}

/** With the browser that looks at it. */
export interface OpenSite {
  readonly site: SiteFolder
  readonly browser: OpenBrowser['browser']
  /** address of a file of it, in its folder */
  readonly address: (path: string) => string
}

/** It keeps to its page only where it is set narrower. */
const NARROWED = 'records/accidents'

/** Of each kind of sheet the first, and one that is set narrower; the contents name all others and stand only in a whole site. */
const oneOfEachKind = (sheets: readonly Sheet[]): readonly Sheet[] =>
  sheets.filter(
    ({ id, kind }, index) =>
      id === NARROWED ||
      (id !== 'contents' &&
        index === sheets.findIndex((other) => other.kind === kind && other.id !== 'contents')),
  )

/** @param whole all sheets of the demo, or one of each kind */
export const writeSite = async ({ whole }: { readonly whole: boolean }): Promise<SiteFolder> => {
  const binder = await composeEdited(WHOLE_DEMO)
  const sheets = whole ? binder.sheets : oneOfEachKind(binder.sheets)
  const base = mkdtempSync(join(tmpdir(), 'site-'))
  const folder = join(base, 'out')
  const { pages, paper } = await printSheets(binder, sheets, { browser: browserPath(), work: base })
  const files: string[] = []
  const write = (path: string, content: string | Uint8Array): void => {
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), content)
    files.push(path)
  }
  const assets = siteAssets(binder.frame, sheets, pages, undefined, binder.firstPage().same)
  for (const { path, content } of [...pages, ...assets]) write(path, content)
  write('binder.pdf', paper.pdf)
  for (const { path, text } of binder.outputFiles()) if (path === 'cure.ics') write(path, text())
  mkdirSync(join(folder, 'assets/fonts'))
  for (const { path, name } of fontFiles()) copyFileSync(path, join(folder, 'assets/fonts', name))
  return {
    folder,
    sheets,
    paper,
    files,
    remove: () => rmSync(base, { recursive: true, force: true }),
  }
}
