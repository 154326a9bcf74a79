// Says which process made a thing, and later whether that very process still runs.
import { createHash } from 'node:crypto'
import { readFileSync, readlinkSync } from 'node:fs'
import { hostname } from 'node:os'

/** Identity of this process, as it is written into names. */
export const ownIdentity = () => ({
  pid: process.pid,
  start: startTicks(process.pid) ?? 'x',
  ...thisPlace(),
})

/** `12-3456-boot-host-space`: plain enough for a file name on every system. */
export const identityToText = ({ pid, start, boot, host, space }) => [pid, start, boot, host, space].join('-')

/** The identity in a text, or undefined when the text is something else. */
export const identityFromText = (text) => {
  const found = /^(\d+)-(\d+|x)-([0-9a-z]+)-([0-9a-z]+)-([0-9a-z]+)$/.exec(text)
  if (!found) return undefined
  const [, pid, start, boot, host, space] = found
  return { pid: Number(pid), start, boot, host, space }
}

/**
 * 'running', 'gone', or 'unknown' where this system cannot tell: another machine or container, or a system
 * that shows a process number but not since when it has been in use.
 */
export const stateOf = (identity) => {
  const here = thisPlace()
  if (identity.host !== here.host) return 'unknown'
  if (identity.boot !== here.boot) return 'gone'
  if (identity.space !== here.space) return 'unknown'
  try {
    process.kill(identity.pid, 0)
  } catch (error) {
    if (error.code === 'ESRCH') return 'gone'
    if (error.code !== 'EPERM') return 'unknown'
  }
  const start = startTicks(identity.pid)
  if (start === 'zombie') return 'gone'
  if (start === undefined || identity.start === 'x') return 'unknown'
  // A process number is used again: the same number with another start is somebody else.
  return start === identity.start ? 'running' : 'gone'
}

const ABANDONED = 24 * 3600 * 1000 // [ms] after which what a process made that cannot be asked after counts as left behind

/**
 * Whether a process made something that nobody will come back for.
 *
 * @param time of the last change of what it made [ms since 1970]
 */
export const isLeftBehind = (identity, time) => {
  const state = stateOf(identity)
  // either way: a clock that was set back leaves times of days to come
  return state === 'gone' || (state === 'unknown' && Math.abs(Date.now() - time) > ABANDONED)
}

const short = (text) => createHash('sha256').update(text).digest('hex').slice(0, 8)

let place
const thisPlace = () => {
  place ??= {
    boot: short(readOr('/proc/sys/kernel/random/boot_id', 'x')),
    host: short(hostname()),
    space: short(linkOr('/proc/self/ns/pid', 'x')),
  }
  return place
}

const readOr = (path, otherwise) => {
  try {
    return readFileSync(path, 'latin1')
  } catch {
    return otherwise
  }
}

const linkOr = (path, otherwise) => {
  try {
    return readlinkSync(path)
  } catch {
    return otherwise
  }
}

/** Start of a process in clock ticks since the machine started (Linux, field 22 of proc(5) stat). */
const startTicks = (pid) => {
  const stat = readOr(`/proc/${pid}/stat`, '')
  // The second field is the program's name in brackets and may itself hold spaces and brackets.
  const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
  if (fields.length < 20) return undefined
  return fields[0] === 'Z' || fields[0] === 'X' ? 'zombie' : fields[19]
}
