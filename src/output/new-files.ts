/** Writes what was not there: a whole folder or none of it, a whole file or none of it, and never over anything. */
import { existsSync, linkSync, lstatSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { identityFromText, identityToText, isLeftBehind, ownIdentity } from '../launch/process-identity.mjs'
import { onInterrupt } from './on-interrupt.ts'
import { explainRefusal, OutputError } from './output-error.ts'
import { writeToDisk } from './write-to-disk.ts'

/** @throws OutputError in words that say what to do, where a folder of this name would take something's place */
export const refuseTaken = (path: string): void => {
  if (!existsSync(dirname(path)))
    throw new OutputError(
      `There is no folder ${dirname(path)} to put it into. Make it first, or choose another place.`,
    )
  const found = lstatSync(path, { throwIfNoEntry: false })
  if (found === undefined) return
  if (!found.isDirectory())
    throw new OutputError(`${path} is there already, and is no folder. Choose another name.`)
  if (readdirSync(path).length > 0)
    throw new OutputError(
      `${path} is there already, with something in it. Nothing of it was touched. Choose another name.`,
    )
}

/** What stands beside a folder or a file while it is written: its name says which run writes it. */
const besideOf = (path: string): string =>
  join(dirname(path), `.${basename(path)}.new-${identityToText(ownIdentity())}`)

/** What runs that were killed left in a folder, under whatever name they were to write. */
const sweep = (folder: string): void => {
  for (const name of readdirSync(folder)) {
    const identity = identityFromText(/^\..+\.new-([^.]+)$/.exec(name)?.[1] ?? '')
    const found = lstatSync(join(folder, name), { throwIfNoEntry: false })
    if (identity && found && isLeftBehind(identity, found.mtimeMs))
      rmSync(join(folder, name), { recursive: true, force: true })
  }
}

/**
 * A new folder with all of its files. It is filled under a hidden name beside its place and then renamed, so that it is
 * there whole or not at all, whenever the program or the machine stops.
 *
 * @param path  absolute; nothing, or an empty folder
 * @param files by their paths below it, with forward slashes
 * @throws OutputError when something is there, or the place refuses
 */
export const writeNewFolder = (path: string, files: ReadonlyMap<string, string | Uint8Array>): void => {
  refuseTaken(path)
  const beside = besideOf(path)
  const tidy = (): void => rmSync(beside, { recursive: true, force: true })
  const settled = onInterrupt(tidy)
  try {
    sweep(dirname(path))
    mkdirSync(beside)
    for (const [below, content] of files) {
      const target = join(beside, ...below.split('/'))
      mkdirSync(dirname(target), { recursive: true })
      writeToDisk(target, content)
    }
    renameOver(beside, path)
  } catch (error) {
    throw explainRefusal(error, path, [path, beside, dirname(path)])
  } finally {
    settled()
    try {
      tidy()
    } catch {
      // The next run sweeps it.
    }
  }
}

/** Onto nothing or an empty folder: the system itself refuses any other. */
const renameOver = (from: string, to: string): void => {
  try {
    renameSync(from, to)
  } catch (error) {
    if (['ENOTEMPTY', 'EEXIST', 'ENOTDIR'].includes((error as NodeJS.ErrnoException).code ?? ''))
      refuseTaken(to)
    throw error
  }
}

/**
 * One new file, whole or not at all.
 *
 * @param path absolute; its folder is made where it is missing
 * @throws OutputError when something of this name is there, or the place refuses
 */
export const writeNewFile = (path: string, content: string): void => {
  const beside = besideOf(path)
  try {
    mkdirSync(dirname(path), { recursive: true })
    sweep(dirname(path))
    writeToDisk(beside, content)
    try {
      linkSync(beside, path)
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException
      if (code === 'EEXIST' || existsSync(path)) throw taken(path)
      // a stick without links: nobody else writes there meanwhile
      if (!['EPERM', 'ENOSYS', 'ENOTSUP', 'EOPNOTSUPP'].includes(code ?? '')) throw error
      renameSync(beside, path)
    }
  } catch (error) {
    throw explainRefusal(error, path, [path, beside, dirname(path)])
  } finally {
    rmSync(beside, { force: true })
  }
}

const taken = (path: string): OutputError =>
  new OutputError(`${path} is there already. Nothing of it was touched. Choose another name with --name.`)
