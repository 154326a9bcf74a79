/** `npm start`: a maker's folder to a site, a PDF binder and every number as data, swapped in when all is well. */
import { helpRemark } from './help-folder.ts'
import { type Context, readOptions } from './options.ts'
import { say } from './say.ts'
import { composeAndTell, stages } from './terminal.ts'
import { writeBinder } from './write-binder.ts'

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

  const printed = await writeBinder(binder, { ...options, report: clock.begin })
  clock.end()
  say(
    `${options.out}: ${binder.sheets.length} sheets, ${printed.pageCount} pages. Open index.html, or print binder.pdf at actual size.`,
  )
  const remark = helpRemark(options.folder, options.shown)
  if (remark !== undefined) say(remark)
  return 0
}
