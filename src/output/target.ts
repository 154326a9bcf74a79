/** Decides whether a folder may be written: never one with something in it that was not made here. */

import { lstatSync, readdirSync, realpathSync } from 'node:fs'
import { homedir } from 'node:os'
import { basename, dirname, join, parse, resolve, sep } from 'node:path'
import { isMarked, strangersIn } from './marker.ts'
import { OutputError } from './output-error.ts'

export interface Target {
  /** absolute, with no link in it */
  readonly path: string
  readonly parent: string
  readonly name: string
}

/**
 * The target with its parent resolved.
 *
 * @param typed    what the reader named
 * @param content  the folder that is read, which must not be written over
 * @throws OutputError when the place cannot be an output folder whatever is in it
 */
export const resolveTarget = (typed: string, content?: string): Target => {
  const absolute = resolve(typed)
  if (absolute === parse(absolute).root)
    throw new OutputError(`${absolute} is a whole disk and cannot be the output folder.`)
  const name = basename(absolute)
  const parent = realOrSelf(dirname(absolute))
  const path = join(parent, name)
  const kept: readonly (readonly [string, string])[] = [
    [homedir(), 'your home folder'],
    ...(content === undefined ? [] : [[resolve(content), 'the folder with your recipes'] as const]),
  ]
  for (const [folder, words] of kept) {
    const real = realOrSelf(folder)
    if (real === path || realOrSelf(path) === real)
      throw new OutputError(`${typed} is ${words} and cannot be the output folder.`)
    if (real.startsWith(path + sep))
      throw new OutputError(`${typed} holds ${words} and cannot be the output folder.`)
  }
  return { path, parent, name }
}

/**
 * Refuses a target that holds anything not made here.
 *
 * @throws OutputError in words that say what to do
 */
export const refuseForeign = ({ path }: Target): void => {
  const found = lstatSync(path, { throwIfNoEntry: false })
  if (found === undefined) return
  if (found.isSymbolicLink())
    throw new OutputError(`${path} is a link. Name the folder itself as the output folder.`)
  if (!found.isDirectory())
    throw new OutputError(`${path} is a file, not a folder. Name another output folder.`)
  if (found.dev !== lstatSync(dirname(path)).dev)
    throw new OutputError(
      `${path} is a disk of its own, and the output folder is replaced as a whole. Name a folder on it, for example ${join(path, 'binder')}.`,
    )
  if (readdirSync(path).length === 0) return
  if (!isMarked(path))
    throw new OutputError(
      `${path} holds something that was not made here. Name another output folder, or empty this one yourself.`,
    )
  const strangers = strangersIn(path)
  if (strangers.length > 0) {
    const more = strangers.length > 1 ? ` and ${strangers.length - 1} more` : ''
    throw new OutputError(
      `${join(path, strangers[0] ?? '')}${more} was not made here and would be lost, since the whole folder is replaced. Move it elsewhere.`,
    )
  }
}

const realOrSelf = (path: string): string => {
  try {
    return realpathSync.native(path)
  } catch {
    // Not there yet: its nearest folder that is there decides.
    const parent = dirname(path)
    return parent === path ? path : join(realOrSelf(parent), basename(path))
  }
}
