/** A composed binder to its folder: the site, the paper, every number as data, and what its work adds. */
import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { licenceTexts } from '../made-with/made-with.ts'
import { withStagedOutput } from '../output/staged-output.ts'
import { fontFiles, fontPackages } from '../print/fonts.ts'
import type { PrintedBinder } from '../print/job.ts'
import type { ProcessContent } from '../process.ts'
import { binderData } from '../sheets/binder-data.ts'
import { siteAssets } from '../site/assets.ts'
import { bundledPackages } from '../site/scripts.ts'
import type { Binder } from './compose.ts'
import { papersOfSite } from './papers.ts'
import { browserPath, printSheets } from './print-sheets.ts'

/**
 * @param out    the output folder, absolute; what stands there stays whole until the new one is complete
 * @param folder the maker's, which it must not be
 * @param report told the name of each stage as it begins
 */
export const writeBinder = async (
  binder: Binder<ProcessContent, unknown>,
  { out, folder, report }: { out: string; folder: string; report: (stage: string) => void },
): Promise<PrintedBinder> => {
  const browser = browserPath()
  return withStagedOutput(
    out,
    async (staging, work) => {
      report('lay out pages')
      const { pages, paper } = await printSheets(binder, binder.sheets, { browser, work, report })
      report('write')
      const { same } = binder.firstPage()
      const assets = siteAssets(
        binder.frame,
        binder.sheets,
        pages,
        papersOfSite(binder.content, binder.papers),
        same,
      )
      for (const page of [...pages, ...assets]) write(staging, page.path, page.content)
      mkdirSync(join(staging, 'assets/fonts'))
      for (const font of fontFiles()) copyFileSync(font.path, join(staging, 'assets/fonts', font.name))
      write(staging, 'assets/licences.txt', licenceTexts([...bundledPackages(), ...fontPackages()]))
      write(staging, 'binder.pdf', paper.pdf)
      for (const { path, text } of binder.outputFiles()) write(staging, path, text())
      write(
        staging,
        'binder.json',
        `${JSON.stringify(binderData(binder.sheets, paper, binder.papers), null, 1)}\n`,
      )
      return paper
    },
    { content: folder },
  )
}

const write = (folder: string, path: string, content: string | Uint8Array): void => {
  const file = join(folder, path)
  mkdirSync(dirname(file), { recursive: true })
  writeFileSync(file, content)
}
