/** The demo built over and over, as different people on different machines would: every file is the same. */
import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, it } from 'vitest'
import { bytesBelow } from '../commands/run-command.ts'
import { isLong } from './minutes.ts'

const root = fileURLToPath(new URL('../../', import.meta.url))
const base = mkdtempSync(join(tmpdir(), 'same-bytes-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))

interface Machine {
  readonly zone: string
  readonly locale: string
}

/** A day ahead of Greenwich and half a day behind, decimals with a comma, another way of sorting and of writing i. */
const EAST: Machine = { zone: 'Pacific/Kiritimati', locale: 'de_DE.UTF-8' }
const WEST: Machine = { zone: 'America/Adak', locale: 'tr_TR.UTF-8' }
const PLAIN: Machine = { zone: 'UTC', locale: 'C' }

/** By turns. */
const MACHINES = [PLAIN, EAST, WEST, EAST, WEST, PLAIN, EAST, WEST, EAST, WEST] as const

/** A build of the demo takes a minute or more: the short soak has three. */
const FOLDERS = [
  { name: 'a small binder', from: 'tests/diagnostics/base', builds: 10, files: 40 },
  { name: 'the demo', from: 'content', builds: isLong ? 10 : 3, files: 50 },
]

/** By a process of its own, since these are read when one starts. @returns of every file its hash */
const built = async (
  from: string,
  { zone, locale }: Machine,
  index: number,
): Promise<ReadonlyMap<string, string>> => {
  const home = join(base, `machine ${index}`)
  const folder = join(home, index % 2 === 0 ? 'content' : 'the shop’s own files')
  cpSync(join(root, from), folder, { recursive: true })
  const out = join(home, 'out')
  const child = spawn(process.execPath, [join(root, 'src/launch.mjs'), 'build', folder, '--out', out], {
    cwd: home,
    env: { ...process.env, TZ: zone, LANG: locale, LC_ALL: locale, LANGUAGE: locale.slice(0, 2) },
    stdio: ['ignore', 'ignore', 'pipe'],
  })
  let err = ''
  child.stderr.on('data', (part) => {
    err += part
  })
  const code = await new Promise<number | null>((done) => child.on('close', done))
  expect(code, err).toBe(0)
  const hashes = new Map(
    [...bytesBelow(out)].map(([name, bytes]) => [name, createHash('sha256').update(bytes).digest('hex')]),
  )
  rmSync(home, { recursive: true, force: true })
  return hashes
}

describe('by hand: a binder that is built again', () => {
  it.each(FOLDERS)(
    'is the same $builds times, in other zones, locales and folders: $name',
    { timeout: 3600_000 },
    async ({ from, builds, files }) => {
      const [first, ...others] = MACHINES.slice(0, builds)
      const once = await built(from, first as Machine, 0)
      expect(once.size).toBeGreaterThan(files)
      for (const [index, machine] of others.entries())
        expect([...(await built(from, machine, index + 1))], JSON.stringify(machine)).toEqual([...once])
    },
  )
})
