/** Writes an output folder so that the one before stays whole until the new one is complete, whatever happens. */

import { lstatSync, mkdirSync, readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs'
import { takeLock } from '../launch/lock.mjs'
import { markBegun, markFinished } from './marker.ts'
import { onInterrupt } from './on-interrupt.ts'
import { explainRefusal, OutputError } from './output-error.ts'
import { makeWorkFolder, namesBeside, recover, removeOurs } from './recover.ts'
import { refuseForeign, resolveTarget, type Target } from './target.ts'

export interface StagedOutputOptions {
  /** the folder that is read; the output may lie in it, but not be or hold it */
  readonly content?: string
}

/**
 * Lets `write` fill a new folder and swaps it in for the target when `write` has ended well.
 *
 * @param target   the output folder, there or not
 * @param write    gets the folder to fill and a folder for scraps (browser profile, templates); both are empty
 * @param options  see StagedOutputOptions
 * @returns what `write` returned
 * @throws OutputError when the place refuses, is in use, or holds something that was not made here; and whatever
 *   `write` throws. In all cases the target is as it was.
 */
export const withStagedOutput = async <T>(
  target: string,
  write: (stagingDir: string, workDir: string) => Promise<T>,
  options: StagedOutputOptions = {},
): Promise<T> => {
  const place = resolveTarget(target, options.content)
  const names = namesBeside(place)
  const own: string[] = [place.path, ...Object.values(names)]
  try {
    makeParent(place)
    const release = await lockOrRefuse(names.lock, place)
    return await build(place, own, release, write)
  } catch (error) {
    throw explainRefusal(error, place.path, own)
  }
}

const makeParent = ({ path, parent }: Target): void => {
  try {
    mkdirSync(parent, { recursive: true })
  } catch (error) {
    throw explainRefusal(error, path, [(error as NodeJS.ErrnoException).path ?? parent])
  }
}

const lockOrRefuse = async (path: string, place: Target): Promise<() => void> => {
  const lock = await takeLock(path)
  if (lock.held) return lock.release
  throw new OutputError(
    `${place.path} is being written by another run (process ${lock.holder.pid}). Wait until it has ended, then start again.`,
  )
}

const build = async <T>(
  place: Target,
  own: string[],
  release: () => void,
  write: (stagingDir: string, workDir: string) => Promise<T>,
): Promise<T> => {
  const { building } = namesBeside(place)
  let work: string | undefined
  const tidy = () => {
    quietly(() => removeOurs(building))
    quietly(() => work && rmSync(work, { recursive: true, force: true, maxRetries: 3 }))
    release()
  }
  const settled = onInterrupt(tidy)
  try {
    recover(place)
    refuseForeign(place)
    work = makeWorkFolder()
    own.push(work)
    mkdirSync(building)
    markBegun(building)
    const result = await write(building, work)
    markFinished(building)
    refuseForeign(place)
    swap(place)
    return result
  } catch (error) {
    // before there is room again
    throw explainRefusal(error, place.path, own)
  } finally {
    settled()
    tidy()
  }
}

/** Two renames in one go: no signal handler runs between them, and a kill between them is mended by `recover`. */
const swap = (place: Target): void => {
  const { building, previous, removing } = namesBeside(place)
  const before = lstatSync(place.path, { throwIfNoEntry: false })
  if (before === undefined) {
    patiently(() => renameSync(building, place.path))
    return
  }
  if (readdirSync(place.path).length === 0) {
    rmdirSync(place.path)
    patiently(() => renameSync(building, place.path))
    return
  }
  patiently(() => renameSync(place.path, previous))
  try {
    patiently(() => renameSync(building, place.path))
  } catch (error) {
    renameSync(previous, place.path)
    throw error
  }
  renameSync(previous, removing)
  quietly(() => removeOurs(removing))
}

/** Tidying that fails is done by the next run; it must neither hide what went wrong nor spoil what went well. */
const quietly = (tidying: () => void): void => {
  try {
    tidying()
  } catch {
    // Something there is still in use.
  }
}

const ATTEMPTS = 20
const PAUSE = 100 // [ms]

/** Windows refuses to rename what a virus scanner or a viewer has open; most of them let go within a second. */
const patiently = (rename: () => void): void => {
  for (let attempt = 1; ; attempt += 1) {
    try {
      rename()
      return
    } catch (error) {
      const code = (error as NodeJS.ErrnoException).code ?? ''
      if (
        process.platform !== 'win32' ||
        attempt === ATTEMPTS ||
        !['EPERM', 'EACCES', 'EBUSY'].includes(code)
      )
        throw error
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, PAUSE)
    }
  }
}
