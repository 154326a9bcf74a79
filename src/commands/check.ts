/** `npm run check`: reads and computes everything, prints what is wrong, writes nothing. */
import { helpRemark } from './help-folder.ts'
import { type Context, readOptions } from './options.ts'
import { say } from './say.ts'
import { composeAndTell, verdict } from './terminal.ts'

const HELP = `npm run check [-- FOLDER]

Reads the folder (this program's own demo without one), computes every sheet and says what is wrong.
Writes nothing.

It ends with 0 when all is well, 1 when something in the folder is wrong, 2 when the program could not do its work.
`

export const run = async (args: string[], context: Context): Promise<number> => {
  const options = await readOptions(args, context, false)
  if (options.help) {
    process.stdout.write(HELP)
    return 0
  }
  const binder = await composeAndTell(options)
  if (!binder) return 1
  say(`${options.shown}: ${binder.sheets.length} sheets, ${verdict(binder.sheets)}.`)
  const remark = helpRemark(options.folder, options.shown)
  if (remark !== undefined) say(remark)
  return 0
}
