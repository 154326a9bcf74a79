/** A binder that is built, and a folder that is begun, where there is no network: nothing is missed, nothing is asked for. */
import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, describe, expect, it } from 'vitest'
import { bytesBelow } from '../commands/run-command.ts'
import { isLong } from './minutes.ts'

const root = fileURLToPath(new URL('../../', import.meta.url))
const small = join(root, 'tests/diagnostics/base')
const base = mkdtempSync(join(tmpdir(), 'no-network-'))
afterAll(() => rmSync(base, { recursive: true, force: true }))

/** Ways to a process that has no network, not even to its own machine; some systems let nobody do so. */
const AWAY = [
  ['unshare', '--net'],
  ['unshare', '--map-root-user', '--net'],
].find(([command = '', ...args]) => spawnSync(command, [...args, 'true']).status === 0)

const asked = join(base, 'asked.txt')

const run = (away: readonly string[], args: readonly string[]): { code: number | null; told: string } => {
  const [command = '', ...rest] = [...away, process.execPath, join(root, 'src/launch.mjs'), ...args]
  const { status, stdout, stderr } = spawnSync(command, rest, {
    cwd: base,
    encoding: 'utf8',
    env: {
      ...process.env,
      // where npm says that somebody typed
      INIT_CWD: base,
      KETTLE_ASKED: asked,
      NODE_OPTIONS: `--import=${new URL('no-network.mjs', import.meta.url)}`,
    },
  })
  return { code: status, told: `${stdout}${stderr}` }
}

describe('by hand: without a network', () => {
  console.log(
    AWAY ? `by ${AWAY.join(' ')}` : 'no process can be kept from the network here: it is only watched',
  )
  const away = AWAY ?? []

  it('what watches sees who asks', () => {
    const script = "fetch('http://192.0.2.1/').catch(() => process.exit(3))"
    const { status } = spawnSync(process.execPath, ['-e', script], {
      env: {
        ...process.env,
        KETTLE_ASKED: asked,
        NODE_OPTIONS: `--import=${new URL('no-network.mjs', import.meta.url)}`,
      },
    })
    expect(status).toBe(3)
    expect(readFileSync(asked, 'utf8')).toContain('192.0.2.1')
    rmSync(asked)
  })

  it('a binder is the same, byte by byte', () => {
    const plain = spawnSync(process.execPath, [
      join(root, 'src/launch.mjs'),
      'build',
      small,
      '--out',
      join(base, 'with'),
    ])
    expect(plain.status, String(plain.stderr)).toBe(0)
    const { code, told } = run(away, ['build', small, '--out', join(base, 'without')])
    expect(code, told).toBe(0)
    const [first, second] = [bytesBelow(join(base, 'with')), bytesBelow(join(base, 'without'))]
    expect(first.size).toBeGreaterThan(40)
    expect([...second.keys()]).toEqual([...first.keys()])
    expect(
      [...first].filter(([name, bytes]) => !bytes.equals(second.get(name)!)).map(([name]) => name),
    ).toEqual([])
  })

  it('a folder is begun and asked about', () => {
    const begun = run(away, ['new', 'mine', '--yes'])
    expect(begun.code, begun.told).toBe(0)
    if (!isLong) return
    const checked = run(away, ['check', 'mine'])
    expect(checked.code, checked.told).toBe(0)
    const told = run(away, ['what-if', 'mine', '--set', 'shop.limits.hot-lift=8 kg'])
    expect(told.code, told.told).toBe(0)
  })

  it('nobody asked for one', () => {
    expect(existsSync(asked) ? readFileSync(asked, 'utf8') : '').toBe('')
  })
})
