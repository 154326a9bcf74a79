// A lock that two processes cannot hold at once and that a killed process does not keep.
//
// The lock is a folder with one file in it, and the file's name says who holds it. It comes into being whole, by
// renaming a prepared folder: a rename onto a folder that holds a file fails. A dead holder's lock is opened by
// removing the file of that very name and then the folder if it is empty, so that a slow newcomer who still
// believes in the dead holder cannot take the lock from the next living one.
import {
  mkdirSync,
  readdirSync,
  renameSync,
  rmdirSync,
  rmSync,
  statSync,
  unlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { basename, dirname, join } from 'node:path'
import { identityFromText, identityToText, isLeftBehind, ownIdentity, stateOf } from './process-identity.mjs'

const HEARTBEAT = 1_000 // [ms] between two signs of life of the holder
const SILENCE = 15_000 // [ms] without a sign of life before a holder that cannot be looked up counts as gone
const POLL = 50 // [ms] between two attempts

/**
 * Takes the lock, or reports who holds it.
 *
 * @param path    the folder to make
 * @param wait    how long to wait for a living holder [ms]; 0 gives up at once
 * @param onWait  called once, with the holder, when waiting begins
 * @returns `{ held: true, release }` or `{ held: false, holder }`
 */
export const takeLock = async (path, { wait = 0, onWait = () => {}, silence = SILENCE } = {}) => {
  const token = `${identityToText(ownIdentity())}+${Math.random().toString(36).slice(2, 10)}`
  const prepared = join(dirname(path), `${basename(path)}~${token}`)
  mkdirSync(prepared)
  try {
    writeFileSync(join(prepared, token), '')
    const started = performance.now()
    const watch = { token: undefined, beat: undefined, since: started }
    let told = false
    for (;;) {
      if (renameIntoPlace(prepared, path)) return { held: true, release: hold(path, token) }
      const holder = look(path)
      if (holder === undefined || isGone(holder, watch, silence)) {
        open(path, holder)
        continue
      }
      const living = holder.state === 'running' || watch.alive
      if (living && performance.now() - started >= wait) return { held: false, holder: holder.identity }
      if (!told) onWait(holder.identity)
      told = true
      await new Promise((done) => setTimeout(done, POLL))
    }
  } finally {
    rmSync(prepared, { recursive: true, force: true })
    sweepPrepared(path)
  }
}

const renameIntoPlace = (prepared, path) => {
  try {
    renameSync(prepared, path)
    return true
  } catch (error) {
    // Taken: ENOTEMPTY or EEXIST, on Windows EPERM or EACCES with something there.
    if (error.code === 'ENOTEMPTY' || error.code === 'EEXIST') return false
    if ((error.code === 'EPERM' || error.code === 'EACCES') && process.platform === 'win32' && isThere(path))
      return false
    throw error
  }
}

const isThere = (path) => statSync(path, { throwIfNoEntry: false }) !== undefined

/** The holder's file in the lock; undefined when the lock is open or empty. */
const look = (path) => {
  let names
  try {
    names = readdirSync(path)
  } catch (error) {
    if (error.code === 'ENOENT') return undefined
    throw error
  }
  for (const token of names) {
    const identity = identityFromText(token.split('+')[0])
    if (identity) return { token, identity, state: stateOf(identity), beat: beatOf(join(path, token)) }
  }
  if (names.length > 0) throw new Error(`${path} holds something else than a lock`)
  return undefined
}

const beatOf = (file) => statSync(file, { throwIfNoEntry: false })?.mtimeMs

/**
 * Where the process cannot be looked up, only its signs of life count; clocks are never compared, and time is not taken
 * from one that can be set.
 */
const isGone = (holder, watch, silence) => {
  if (holder.state !== 'unknown') return holder.state === 'gone'
  if (watch.token !== holder.token) {
    Object.assign(watch, { token: holder.token, beat: holder.beat, since: performance.now(), alive: false })
  } else if (watch.beat !== holder.beat) {
    Object.assign(watch, { beat: holder.beat, since: performance.now(), alive: true })
  }
  return performance.now() - watch.since > silence
}

const open = (path, holder) => {
  if (holder) removeFile(join(path, holder.token))
  try {
    rmdirSync(path)
  } catch (error) {
    // Another newcomer was faster: the next attempt shows who.
    if (!['ENOENT', 'ENOTEMPTY', 'EEXIST'].includes(error.code)) throw error
  }
}

const removeFile = (file) => {
  try {
    unlinkSync(file)
  } catch (error) {
    if (error.code !== 'ENOENT') throw error
  }
}

const hold = (path, token) => {
  const file = join(path, token)
  const beat = setInterval(() => {
    try {
      const now = new Date()
      utimesSync(file, now, now)
    } catch {
      // The folder may be gone with everything around it; then there is nothing left to guard.
    }
  }, HEARTBEAT)
  beat.unref()
  let held = true
  return () => {
    if (!held) return
    held = false
    clearInterval(beat)
    open(path, { token })
  }
}

/** Prepared folders of processes that were killed while they waited. */
const sweepPrepared = (path) => {
  const start = `${basename(path)}~`
  try {
    for (const name of readdirSync(dirname(path))) {
      if (!name.startsWith(start)) continue
      const identity = identityFromText(name.slice(start.length).split('+')[0])
      const found = statSync(join(dirname(path), name), { throwIfNoEntry: false })
      if (identity && found && isLeftBehind(identity, found.mtimeMs))
        rmSync(join(dirname(path), name), { recursive: true, force: true })
    }
  } catch {
    // Tidying is not worth a failure.
  }
}
