/** What runs on this machine, by /proc: for tests that end processes and look for what is left of them. */
import { readdirSync, readFileSync } from 'node:fs'

export interface Running {
  readonly pid: number
  readonly parent: number
  readonly group: number
  /** since the machine started [clock ticks]: with the number it is this process and no later one */
  readonly start: string
  readonly words: string
}

const running = (pid: number): Running | undefined => {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'latin1')
    // the name in brackets may hold spaces and brackets
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ')
    const [state = '', parent, group] = fields
    if (state === 'Z' || state === 'X') return undefined
    const words = readFileSync(`/proc/${pid}/cmdline`, 'utf8').replaceAll('\0', ' ').trim()
    return { pid, parent: Number(parent), group: Number(group), start: fields[19] ?? '', words }
  } catch {
    return undefined
  }
}

export const allRunning = (): readonly Running[] =>
  readdirSync('/proc').flatMap((name) => (/^\d+$/.test(name) ? (running(Number(name)) ?? []) : []))

/** A process and all that it started, by the parents that they have now. */
export const treeOf = (pid: number, all = allRunning()): readonly Running[] => {
  const own = all.filter((one) => one.pid === pid)
  return [
    ...own,
    ...all.filter((one) => one.parent === pid && one.pid !== pid).flatMap((one) => treeOf(one.pid, all)),
  ]
}

/** Those of them that still run. */
export const stillRunning = (those: Iterable<Running>): readonly Running[] =>
  [...those].filter(({ pid, start }) => running(pid)?.start === start)

/** Ends or stops one that may have ended by itself meanwhile. */
export const signal = (pid: number, name: NodeJS.Signals): void => {
  try {
    process.kill(pid, name)
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ESRCH') throw error
  }
}

const PAUSE = 20 // [ms]

/** Waits until something is so. @returns whether it came to be within the time [ms] */
export const soon = async (isSo: () => boolean, within = 5000): Promise<boolean> => {
  const end = performance.now() + within
  while (!isSo()) {
    if (performance.now() > end) return false
    await new Promise((done) => setTimeout(done, PAUSE))
  }
  return true
}
