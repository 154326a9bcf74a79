/** `npm run upgrade`: a folder of an older version in the format of this one, with the folder as it was beside it. */
import { existsSync } from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { type Diagnostic, hasErrors, renderDiagnostics, type SourceDocument } from '../diagnostics.ts'
import {
  needsRecovery,
  recoverFolder,
  refreshFiles,
  replaceFolder,
  whileNobodyElse,
} from '../output/replace-folder.ts'
import { FILE_KINDS } from '../schema/file-kinds.ts'
import { FORMAT, formatFault, formatOf } from '../schema/format.ts'
import { loadContent } from '../schema/load.ts'
import { readFolder } from '../schema/read-folder.ts'
import { upgradeFiles } from '../schema/upgrade/upgrade.ts'
import { helpOutOfDate } from './help-folder.ts'
import { type Context, parsed, readOptions, UsageError } from './options.ts'
import { colourWanted, say } from './say.ts'

const HELP = `npm run upgrade -- FOLDER [--dry-run]

Brings a folder that an older version of this program was used for up to date: it mends lines that are written otherwise
now, says what only you can know, and puts the pages of this version into FOLDER/help. Your remarks stay where they are.
The folder as it was is kept beside it, as FOLDER-before-format-${FORMAT}.

  --dry-run   says what would be changed, and changes nothing

It ends with 0 when the folder is up to date, 1 when something in it must be put right by you first, 2 when the program
could not do its work. In the last two cases nothing was changed.
`

export const run = async (args: string[], context: Context): Promise<number> => {
  const { values, positionals } = parsed(args, WHAT)
  if (values.help) {
    process.stdout.write(HELP)
    return 0
  }
  const [typed] = positionals
  if (typed === undefined)
    throw new UsageError(
      'Name the folder that is to be brought up to date, for example: npm run upgrade -- my-binder',
    )
  const path = resolve(context.cwd, typed)
  const backup = join(dirname(path), `${basename(path)}-before-format-${FORMAT}`)
  const isDry = values['dry-run'] === true
  const go = (): Promise<number> => upgrade(typed, positionals, context, { backup, isDry })
  if (isDry && !needsRecovery(path)) return go()
  // nothing is made beside what is not there
  if (!existsSync(path) && !needsRecovery(path)) return go()
  return whileNobodyElse(path, async () => {
    const recovered = recoverFolder(path, backup)
    if (recovered !== undefined) say(recovered)
    return go()
  })
}

const upgrade = async (
  typed: string,
  positionals: readonly string[],
  context: Context,
  { backup, isDry }: { backup: string; isDry: boolean },
): Promise<number> => {
  const { folder, shown } = await readOptions(positionals, context, false)
  if (!existsSync(join(folder, 'shop.yaml')))
    throw new UsageError(`There is no shop.yaml in ${typed}. Name the folder that holds it.`)
  const { files } = await readFolder(folder, shown, FILE_KINDS)
  const found = formatOf(files)
  const fault = formatFault(found)
  if (fault) return refuse([fault], new Map(found.document ? [[fault.file, found.document]] : []))
  const help = helpOutOfDate(folder)
  if (found.format >= FORMAT) {
    if (help.size === 0) say(`${shown} is up to date: format ${FORMAT}.`)
    else if (isDry) say(`${shown} is of format ${FORMAT}. Its pages in "help" would be written anew.`)
    else {
      refreshFiles(folder, help)
      say(
        `${shown} is of format ${FORMAT}. Its pages in "help" were of another version and are written anew.`,
      )
    }
    return 0
  }
  const { files: changed, after, told, notes, unknown } = upgradeFiles(files)
  for (const line of [...told, ...notes]) say(line)
  if (unknown.length > 0) return refuse(unknown, loadContent(files, shown).documents)
  // what is wrong with the folder anyway is told before anything is changed
  const loaded = loadContent(after, shown)
  if (hasErrors(loaded.diagnostics)) return refuse(loaded.diagnostics, loaded.documents)
  const isMended = told.length === 0 ? 'No line of yours has to change. ' : ''
  const what = `${isMended}${changed.size} files ${isDry ? 'would get' : 'have'} a first line for editors, shop.yaml "format: ${FORMAT}".`
  if (isDry) {
    say(`${what} Nothing was changed.`)
    return 0
  }
  const kept = replaceFolder(folder, new Map([...changed, ...help]), backup)
  say(what)
  say(`${shown} is of format ${FORMAT} now. As it was it is kept in ${join(dirname(typed), basename(kept))}.`)
  return 0
}

const WHAT = { help: { type: 'boolean', short: 'h' }, 'dry-run': { type: 'boolean' } } as const

const refuse = (
  diagnostics: readonly Diagnostic[],
  documents: ReadonlyMap<string, SourceDocument>,
): number => {
  process.stderr.write(renderDiagnostics(diagnostics, documents, { colour: colourWanted() }))
  say('Nothing was changed. Put this right, then start again.')
  return 1
}
