/** Puts back what a killed run left between two renames, and sweeps what dead runs left behind. */

import { existsSync, lstatSync, mkdirSync, readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { identityFromText, identityToText, isLeftBehind, ownIdentity } from '../launch/process-identity.mjs'
import { isMarked, MARKER } from './marker.ts'
import { temporaryRefusal } from './output-error.ts'
import type { Target } from './target.ts'

/** The hidden names beside a target; whoever uses them holds the target's lock. */
export const namesBeside = ({ parent, name }: Target) => ({
  lock: join(parent, `.${name}.lock`),
  /** new output while it is being built */
  building: join(parent, `.${name}.building-${process.pid}`),
  /** the output before, between the two renames: to be put back after a kill */
  previous: join(parent, `.${name}.previous`),
  /** the output before, once the new one is in place: never to be put back, since half may be gone */
  removing: join(parent, `.${name}.removing`),
})

/** Brings the place beside a target in order; the caller holds its lock. */
export const recover = (target: Target): void => {
  const { previous, removing } = namesBeside(target)
  if (existsSync(previous) && isMarked(previous)) {
    if (!existsSync(target.path)) renameSync(previous, target.path)
    else if (!existsSync(removing)) renameSync(previous, removing)
    else removeOurs(previous)
  }
  removeOurs(removing)
  const start = `.${target.name}.building-`
  for (const name of readdirSync(target.parent)) {
    if (name.startsWith(start) && /^\d+$/.test(name.slice(start.length)))
      removeOurs(join(target.parent, name))
  }
}

/** Removes a folder that carries the marker, or is empty; anything else was not made here. */
export const removeOurs = (folder: string): void => {
  if (!lstatSync(folder, { throwIfNoEntry: false })?.isDirectory()) return
  if (isMarked(folder)) {
    removeMarkerLast(folder)
  } else if (readdirSync(folder).length === 0) {
    rmdirSync(folder)
  }
}

/** A removal that is killed half-way must still be known as ours by the next run. */
const removeMarkerLast = (folder: string): void => {
  for (const name of readdirSync(folder)) {
    if (name !== MARKER) rmSync(join(folder, name), { recursive: true, force: true, maxRetries: 3 })
  }
  rmSync(folder, { recursive: true, force: true, maxRetries: 3 })
}

const WORK = 'kettle-and-kerf-work+'

/** A working folder in the machine's temporary folder, named for this process so that the next run knows whether it lives. */
export const makeWorkFolder = (base: string = tmpdir()): string => {
  const folder = join(
    base,
    `${WORK}${identityToText(ownIdentity())}+${Math.random().toString(36).slice(2, 10)}`,
  )
  try {
    sweepWorkFolders(base)
    mkdirSync(folder, { mode: 0o700 })
  } catch (error) {
    throw temporaryRefusal(error, base)
  }
  return folder
}

/** Working folders, browser profiles in them, of processes that are gone; those of other users stay. */
export const sweepWorkFolders = (base: string): void => {
  for (const name of readdirSync(base)) {
    if (!name.startsWith(WORK)) continue
    const identity = identityFromText(name.slice(WORK.length).split('+')[0] ?? '')
    if (!identity) continue
    const folder = join(base, name)
    const found = lstatSync(folder, { throwIfNoEntry: false })
    if (!found?.isDirectory() || (process.getuid && found.uid !== process.getuid())) continue
    if (!isLeftBehind(identity, found.mtimeMs)) continue
    try {
      rmSync(folder, { recursive: true, force: true, maxRetries: 3 })
    } catch {
      // A browser that is still ending may be writing there; the next run sweeps it.
    }
  }
}
