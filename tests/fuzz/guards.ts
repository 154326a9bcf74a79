/** While a folder is composed nothing is written, run or asked for: whatever tries is told of, and does nothing. */
import childProcess from 'node:child_process'
import dgram from 'node:dgram'
import dns from 'node:dns'
import fs from 'node:fs'
import { syncBuiltinESMExports } from 'node:module'
import net from 'node:net'

type Functions = Record<string, unknown>

const WRITES = ['writeFile', 'writeFileSync', 'appendFile', 'appendFileSync', 'rename', 'renameSync', 'rm', 'rmSync', 'unlink', 'unlinkSync', 'symlink', 'symlinkSync', 'link', 'linkSync', 'copyFile', 'copyFileSync', 'cp', 'cpSync', 'createWriteStream', 'truncate', 'truncateSync', 'chmod', 'chmodSync', 'mkdir', 'mkdirSync', 'mkdtemp', 'mkdtempSync'] // biome-ignore format: a list reads better in rows
const RUNS = ['spawn', 'spawnSync', 'exec', 'execSync', 'execFile', 'execFileSync', 'fork']

const GUARDED: readonly (readonly [of: unknown, names: readonly string[]])[] = [
  [fs, WRITES],
  [fs.promises, WRITES.filter((name) => !name.endsWith('Sync'))],
  [childProcess, RUNS],
  [net, ['connect', 'createConnection']],
  [net.Socket.prototype, ['connect']],
  [dns, ['lookup', 'resolve']],
  [dgram, ['createSocket']],
  [globalThis, ['fetch']],
]

/**
 * @returns what the run gave, and what was tried in it
 * @throws whatever the run throws
 */
export const guarded = async <T>(
  run: () => Promise<T>,
): Promise<{ readonly given: T; readonly tried: readonly string[] }> => {
  const tried: string[] = []
  const before = GUARDED.map(([of, names]) => {
    const functions = of as Functions
    const kept = names.map((name) => [name, functions[name] as Function_] as const)
    for (const [name, own] of kept)
      functions[name] = function (this: unknown, ...args: unknown[]) {
        if (isPipe(name, args)) return own.apply(this, args)
        tried.push(`${name}(${String(args[0]).slice(0, 200)})`)
        throw new Error(`${name} is not for a folder that is composed`)
      }
    return [functions, kept] as const
  })
  syncBuiltinESMExports()
  try {
    return { given: await run(), tried }
  } finally {
    for (const [functions, kept] of before) for (const [name, own] of kept) functions[name] = own
    syncBuiltinESMExports()
  }
}

type Function_ = (...all: unknown[]) => unknown

/** Between processes of this machine, which the loader of these sources has: no network. */
const isPipe = (name: string, args: readonly unknown[]): boolean =>
  /^(?:connect|createConnection)$/.test(name) &&
  [args[0], ...args.flat()].some(
    (to) =>
      (typeof to === 'string' && to.startsWith('/')) ||
      (typeof to === 'object' && to !== null && 'path' in to && typeof to.path === 'string'),
  )
