/** Puts a changed copy of a maker's folder in its place, and keeps the folder as it was beside it. */
import {
  chmodSync,
  cpSync,
  existsSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readlinkSync,
  realpathSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { basename, dirname, join, resolve } from 'node:path'
import { takeLock } from '../launch/lock.mjs'
import { onInterrupt } from './on-interrupt.ts'
import { explainRefusal, OutputError } from './output-error.ts'
import { writeToDisk, writeWhole } from './write-to-disk.ts'

/** The hidden names beside a folder. */
const namesOf = (path: string) => ({
  lock: join(dirname(path), `.${basename(path)}.upgrading`),
  building: join(dirname(path), `.${basename(path)}.upgraded`),
  /** the folder as it was, between the renames */
  replaced: join(dirname(path), `.${basename(path)}.replaced`),
  /** stands in a folder while it is copied: without it what is there is not ours to remove */
  mark: '.being-upgraded',
})

/** A name that nothing has: the wanted one, or that with a number. */
const freeName = (wanted: string): string => {
  for (let number = 1; ; number += 1) {
    const name = number === 1 ? wanted : `${wanted}-${number}`
    if (!lstatSync(name, { throwIfNoEntry: false })) return name
  }
}

/** The folder itself, whatever link leads to it, and even while it is away between two renames. */
const realFolder = (path: string): string => {
  if (existsSync(path)) return realpathSync(path)
  if (!existsSync(dirname(path))) return path
  const own = join(realpathSync(dirname(path)), basename(path))
  return lstatSync(own, { throwIfNoEntry: false })?.isSymbolicLink()
    ? realFolder(resolve(dirname(own), readlinkSync(own)))
    : own
}

/** Whether a run that was killed left something that `recoverFolder` would put right. */
export const needsRecovery = (folder: string): boolean => {
  // no system has such a name, nor can it be asked for one
  if (folder.includes('\0')) return false
  const path = realFolder(folder)
  const { building, replaced, mark } = namesOf(path)
  return [building, replaced, join(path, mark)].some((name) => existsSync(name))
}

/**
 * Lets nobody else change the folder meanwhile.
 *
 * @throws OutputError when somebody does, or the place refuses
 */
export const whileNobodyElse = async <T>(folder: string, change: () => Promise<T>): Promise<T> => {
  const path = realFolder(folder)
  const { lock: at } = namesOf(path)
  let release: (() => void) | undefined
  try {
    const lock = await takeLock(at)
    if (!lock.held)
      throw new OutputError(
        `${folder} is being upgraded by another run (process ${lock.holder.pid}). Wait until it has ended, then start again.`,
      )
    release = lock.release
  } catch (error) {
    throw explainRefusal(error, folder, [at])
  }
  const settled = onInterrupt(release)
  try {
    return await change()
  } finally {
    settled()
    release()
  }
}

/**
 * Puts back, or takes on, what a run left that was killed between two renames; nobody else may change the folder.
 *
 * @param backup wanted name of the folder as it was
 * @returns what was done, in words; nothing where nothing was to be done
 */
export const recoverFolder = (folder: string, backup: string): string | undefined => {
  const path = realFolder(folder)
  const { building, replaced, mark } = namesOf(path)
  if (existsSync(join(building, mark))) rmSync(building, { recursive: true, force: true })
  rmSync(join(path, mark), { force: true })
  if (!existsSync(replaced)) return undefined
  if (!existsSync(path)) {
    renameSync(replaced, path)
    return `An upgrade was cut off before its end. ${path} is back as it was.`
  }
  const kept = freeName(backup)
  renameSync(replaced, kept)
  return `An upgrade was cut off at its very end. The folder as it was before is ${kept}.`
}

/**
 * The folder with some of its files changed or added; all else in it is copied as it is.
 *
 * The copy is complete and on the disk before anything is renamed. A kill before that leaves the folder as it was; between
 * the two renames that follow it leaves the folder under a hidden name, which the next run puts back.
 *
 * @param folder  absolute
 * @param files   whole texts by their paths below the folder
 * @param backup  wanted name of the folder as it was, beside it; a number is added where the name is taken
 * @returns the name that it got
 * @throws OutputError when the place refuses; the folder is then as it was
 */
export const replaceFolder = (folder: string, files: ReadonlyMap<string, string>, backup: string): string => {
  const path = realpathSync(folder)
  const { building, replaced, mark } = namesOf(path)
  if (existsSync(building))
    throw new OutputError(
      `${building} is in the way, and was not made by this program. Move it elsewhere, then start again.`,
    )
  const tidy = (): void => {
    if (existsSync(join(building, mark))) rmSync(building, { recursive: true, force: true })
  }
  const settled = onInterrupt(tidy)
  try {
    mkdirSync(building)
    writeFileSync(join(building, mark), '')
    for (const name of readdirSync(path))
      cpSync(join(path, name), join(building, name), {
        recursive: true,
        verbatimSymlinks: true,
        preserveTimestamps: true,
        errorOnExist: true,
        force: false,
      })
    for (const [below, text] of files) writeOver(join(building, ...below.split('/')), text)
    renameSync(path, replaced)
    try {
      renameSync(building, path)
    } catch (error) {
      renameSync(replaced, path)
      throw error
    }
    const kept = freeName(backup)
    renameSync(replaced, kept)
    rmSync(join(path, mark))
    return kept
  } catch (error) {
    rmSync(building, { recursive: true, force: true })
    throw explainRefusal(error, path, [path, building, replaced, dirname(path)])
  } finally {
    settled()
  }
}

/** In a copy that nobody reads yet. */
const writeOver = (path: string, text: string): void => {
  mkdirSync(dirname(path), { recursive: true })
  const rights = lstatSync(path, { throwIfNoEntry: false })?.mode
  rmSync(path, { force: true })
  writeToDisk(path, text)
  if (rights !== undefined) chmodSync(path, rights)
}

/**
 * Files of the program's own that lie in a maker's folder, each whole or as it was.
 *
 * @param files by their paths below the folder
 */
export const refreshFiles = (folder: string, files: ReadonlyMap<string, string>): void => {
  try {
    for (const [below, text] of files) writeWhole(join(folder, ...below.split('/')), text)
  } catch (error) {
    throw explainRefusal(error, folder, [folder])
  }
}
