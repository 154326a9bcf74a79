/** What a person typed after a command, and where things lie that follow from it. */
import { stat } from 'node:fs/promises'
import { basename, join, relative, resolve } from 'node:path'
import { fileURLToPath } from 'node:url'
import { type ParseArgsConfig, parseArgs } from 'node:util'
import { needsRecovery } from '../output/replace-folder.ts'

export interface Context {
  /** where the person stood when they typed */
  readonly cwd: string
}

export interface Options {
  readonly help: boolean
  /** the maker's folder, absolute */
  readonly folder: string
  /** how messages name it */
  readonly shown: string
  /** the output folder, absolute */
  readonly out: string
}

/** A mistake of the person's in what was typed; its message is all they see. */
export class UsageError extends Error {
  readonly plain = true
  readonly exitCode = 2
}

/** The program's own folder. */
const root = fileURLToPath(new URL('../../', import.meta.url))

/**
 * What was typed, by the options that a command has.
 *
 * @param args    after the command's name
 * @param options as the library wants them
 * @throws UsageError in plain words
 */
export const parsed = <const Options extends NonNullable<ParseArgsConfig['options']>>(
  args: readonly string[],
  options: Options,
) => {
  try {
    return parseArgs({ args: [...args], allowPositionals: true, tokens: true, options })
  } catch (error) {
    throw new UsageError(`${(error as Error).message.split(/[.\n]/)[0]}. Add --help to see what can be said.`)
  }
}

/**
 * @param args     after the command's name
 * @param withOut  whether the command writes
 * @throws UsageError in plain words
 */
export const readOptions = async (
  args: readonly string[],
  context: Context,
  withOut: boolean,
): Promise<Options> => {
  const { values, positionals } = parsed(args, {
    help: { type: 'boolean', short: 'h' },
    out: { type: 'string' },
  })
  if (values.out !== undefined && !withOut)
    throw new UsageError('This command writes nothing, so --out means nothing here.')
  if (positionals.length > 1)
    throw new UsageError(
      `Name one folder, not ${positionals.length}. A folder with spaces in its name goes in quotes.`,
    )
  const typed = positionals[0]
  // Both would mean the folder where the person stands, which an empty name was hardly meant to be.
  if (typed?.trim() === '')
    throw new UsageError('The name of the folder is empty. Name the folder that holds shop.yaml.')
  if (values.out?.trim() === '')
    throw new UsageError('Nothing is given after --out. Name the folder to write to.')
  const folder = typed === undefined ? join(root, 'content') : resolve(context.cwd, typed)
  // The demo's binder goes beside the program's other folders; anyone else's into their own.
  const out =
    values.out !== undefined
      ? resolve(context.cwd, values.out)
      : typed === undefined
        ? join(root, 'output')
        : join(folder, 'output')
  if (values.help !== true) await mustBeFolder(folder, typed ?? 'content')
  const below = relative(context.cwd, folder)
  return {
    help: values.help === true,
    folder,
    shown: below && !below.startsWith('..') ? below : basename(folder) || folder,
    out,
  }
}

const mustBeFolder = async (folder: string, typed: string): Promise<void> => {
  const found = await stat(folder).catch(() => undefined)
  if (found?.isDirectory()) return
  if (!found && needsRecovery(folder))
    throw new UsageError(
      `An upgrade of ${typed} was cut off. Nothing is lost: npm run upgrade -- ${typed} puts it back.`,
    )
  throw new UsageError(
    found
      ? `${typed} is a file. Name the folder that holds shop.yaml.`
      : `There is no folder ${typed}. Name the folder that holds shop.yaml.`,
  )
}
