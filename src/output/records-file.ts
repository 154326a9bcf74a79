/** Writes a maker's records: whole files or none, one writer at a time, nothing of theirs lost. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import { takeLock } from '../launch/lock.mjs'
import { explainRefusal, OutputError } from './output-error.ts'
import { writeWhole } from './write-to-disk.ts'

/**
 * Adds to a list of records, and keeps files beside it.
 *
 * @param folder of the records, there or not
 * @param kept   by name below the folder; what is there already under this name stays as it is
 * @param list   the list: its name, and its new text from the old one
 * @throws OutputError when somebody else writes, or the place refuses
 */
export const addToRecords = async (
  folder: string,
  kept: ReadonlyMap<string, string | Uint8Array>,
  list: { readonly name: string; readonly text: (before: string | undefined) => string },
): Promise<void> => {
  const path = join(folder, list.name)
  try {
    mkdirSync(folder, { recursive: true })
    const lock = await takeLock(join(folder, '.being-written'))
    if (!lock.held)
      throw new OutputError(
        `${folder} is being written by another run (process ${lock.holder.pid}). Wait until it has ended, then start again.`,
      )
    try {
      sweep(folder)
      const text = list.text(existsSync(path) ? readFileSync(path, 'utf8') : undefined)
      for (const [name, content] of kept)
        if (!existsSync(join(folder, name))) writeWhole(join(folder, name), content)
      // last: what the list names is there
      writeWhole(path, text)
    } finally {
      lock.release()
    }
  } catch (error) {
    throw explainRefusal(error, folder, [folder])
  }
}

/** What runs that were killed were writing: half of a file under a name of its own. The caller holds the lock. */
const sweep = (folder: string): void => {
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' }))
    if (name.endsWith('.yaml.new')) rmSync(join(folder, name), { force: true })
}
