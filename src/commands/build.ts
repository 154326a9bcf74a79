/** `npm start`: a maker's folder to a site, a PDF binder and every number as data, swapped in when all is well. */
import { copyFileSync, mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { dxfText } from '../dxf/dxf-text.ts'
import { withStagedOutput } from '../output/staged-output.ts'
import { recordedIn } from '../papers/papers.ts'
import { fontFiles } from '../print/fonts.ts'
import { binderData } from '../sheets/binder-data.ts'
import { siteAssets } from '../site/assets.ts'
import type { PapersOfSite } from '../site/codes.ts'
import type { Composed } from './compose.ts'
import { helpRemark } from './help-folder.ts'
import { type Context, readOptions } from './options.ts'
import { browserPath, printSheets } from './print-sheets.ts'
import { composeAndTell, say, stages } from './terminal.ts'

const HELP = `npm start [-- FOLDER] [--out OUTPUT]

Makes the binder of a folder: OUTPUT/index.html, OUTPUT/binder.pdf, OUTPUT/cure.ics for a calendar,
OUTPUT/dxf for a router, OUTPUT/binder.json.
Without FOLDER it makes this program's own demo. Without --out the binder goes into FOLDER/output.
A binder that was there before stays whole until the new one is complete.

It ends with 0 when all is well, 1 when something in the folder is wrong, 2 when the program could not do its work.
`

export const run = async (args: string[], context: Context): Promise<number> => {
  const options = await readOptions(args, context, true)
  if (options.help) {
    process.stdout.write(HELP)
    return 0
  }
  const clock = stages()
  clock.begin('read and compute')
  const binder = await composeAndTell(options, { causes: true })
  if (!binder) return 1

  const browser = browserPath()
  const printed = await withStagedOutput(
    options.out,
    async (staging, work) => {
      clock.begin('lay out pages')
      const { pages, paper } = await printSheets(binder, binder.sheets, {
        browser,
        work,
        report: clock.begin,
      })
      clock.begin('write')
      for (const page of [...pages, ...siteAssets(binder.frame, binder.sheets, pages, papersOf(binder))])
        write(staging, page.path, page.content)
      mkdirSync(join(staging, 'assets/fonts'))
      for (const font of fontFiles()) copyFileSync(font.path, join(staging, 'assets/fonts', font.name))
      write(staging, 'binder.pdf', paper.pdf)
      write(staging, 'cure.ics', binder.calendar)
      for (const { path, file, notes } of binder.routerFiles) write(staging, path, dxfText(file, notes))
      write(
        staging,
        'binder.json',
        `${JSON.stringify(binderData(binder.sheets, paper, binder.papers), null, 1)}\n`,
      )
      return paper
    },
    { content: options.folder },
  )
  clock.end()
  say(
    `${options.out}: ${binder.sheets.length} sheets, ${printed.pageCount} pages. Open index.html, or print binder.pdf at actual size.`,
  )
  const remark = helpRemark(options.folder, options.shown)
  if (remark !== undefined) say(remark)
  return 0
}

/** What the look-up page knows of papers. */
const papersOf = ({ content, papers }: NonNullable<Composed['binder']>): PapersOfSite => ({
  papers: papers ?? { outOfDate: [], right: [] },
  recorded: recordedIn(content.printed?.value).map(({ id, ...rest }) => ({ sheet: id, ...rest })),
})

const write = (folder: string, path: string, content: string | Uint8Array): void => {
  const file = join(folder, path)
  mkdirSync(dirname(file), { recursive: true })
  writeFileSync(file, content)
}
