import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { findNpm, isInstalled } from '../../src/launch/install.mjs'
import { makePackages, makeRoot, start } from './small-root.ts'

let root: string
beforeEach(() => {
  root = mkdtempSync(join(tmpdir(), 'install-'))
  makeRoot(root)
})
afterEach(() => rmSync(root, { recursive: true, force: true }))

const runsOfNpm = (): string[] =>
  existsSync(join(root, 'npm.log')) ? readFileSync(join(root, 'npm.log'), 'utf8').trim().split('\n') : []
const whole = () => existsSync(join(root, 'node_modules/half/whole'))
const inShop = () => readdirSync(join(root, '.installing'))
// An existing command would need the real packages: the missing one ends right after the installation.
const go = (env: Readonly<Record<string, string>> = {}) => start(root, ['check'], env)

describe('by hand', () => {
  test('installs once, with all that tests need and no foreign scripts', async () => {
    const first = await go({ NODE_ENV: 'production' }).end
    expect(first.err).toContain('Installing')
    expect(whole()).toBe(true)
    expect(isInstalled(root)).toBe(true)
    expect(runsOfNpm()).toHaveLength(1)
    for (const option of ['"ci"', '--ignore-scripts', '--include=dev', '--include=optional'])
      expect(runsOfNpm()[0]).toContain(option)
    expect((await go().end).err).not.toContain('Installing')
    expect(runsOfNpm()).toHaveLength(1)
    expect(inShop()).toEqual([])
  })

  test('installs again when the lock file says something else, whatever the file times', async () => {
    await go().end
    writeFileSync(join(root, 'package-lock.json'), '{ }')
    await go().end
    expect(runsOfNpm()).toHaveLength(2)
  })

  test('two starts at once: one installs, the other waits, both go on', async () => {
    const ends = await Promise.all([go({ TRIAL_TIME: '400' }).end, go({ TRIAL_TIME: '400' }).end])
    expect(runsOfNpm()).toHaveLength(1)
    expect(ends.map(({ err }) => err.includes('missing from this copy'))).toEqual([true, true])
    expect(ends.filter(({ err }) => err.includes('Waiting'))).toHaveLength(1)
  })

  test('no room to unpack the browser: said in words, nothing half is left, and the next start unpacks it', async () => {
    makePackages(root)
    const folder = join(root, 'node_modules/@sparticuz/chromium')
    mkdirSync(folder, { recursive: true })
    writeFileSync(join(folder, 'package.json'), '{"version": "1.0.0", "type": "module", "main": "index.js"}')
    writeFileSync(
      join(folder, 'index.js'),
      `import { writeFileSync } from 'node:fs'
      const executablePath = async () => {
        writeFileSync(process.env.TMPDIR + '/chromium', 'half')
        if (process.env.TRIAL_FULL) throw new Error('ENOSPC: no space left on device, write')
        return process.env.TMPDIR + '/chromium'
      }
      export default { executablePath }`,
    )
    const unpacked = () =>
      readdirSync(join(root, 'node_modules')).filter((name) => name.startsWith('.browser'))
    const full = await go({ TRIAL_FULL: '1' }).end
    const after = await go().end
    // only this system and this processor have a browser of their own
    if (process.platform !== 'linux' || process.arch !== 'x64') {
      expect([full.err, after.err].map((said) => said.includes('unpacked'))).toEqual([false, false])
      return
    }
    expect(full.err).toContain(
      `The browser that comes with the program could not be unpacked: the disk is full (${join(root, 'node_modules')}). Printing needs another one.`,
    )
    expect(after.err).not.toContain('unpacked')
    expect(unpacked()).toEqual(['.browser-1.0.0'])
    expect(inShop()).toEqual([])
  })

  test('a place that can only be read, or is full, is named in words when packages have to go there', async () => {
    const preload = join(root, 'refused.mjs')
    for (const [code, words] of [
      ['EROFS', 'that place can only be read'],
      ['ENOSPC', 'the disk is full'],
    ]) {
      // for every user: root may write where rights forbid it
      writeFileSync(
        preload,
        `import fs from 'node:fs'
        import { syncBuiltinESMExports } from 'node:module'
        const real = fs.mkdirSync
        fs.mkdirSync = (path, ...rest) => {
          if (String(path).includes('.installing')) throw Object.assign(new Error('${code}: refused'), { code: '${code}' })
          return real(path, ...rest)
        }
        syncBuiltinESMExports()`,
      )
      const { code: ended, err } = await go({ NODE_OPTIONS: `--import ${preload}` }).end
      expect(err.trim()).toBe(`Nothing can be installed in ${root}: ${words}.`)
      expect(ended).toBe(2)
    }
    expect(existsSync(join(root, 'node_modules'))).toBe(false)
  })

  test('killed while installing: nothing half is taken for good, and the next start does it', async () => {
    const { child, end } = go({ TRIAL_TIME: '1500' })
    await until(() => runsOfNpm().length === 1)
    child.kill('SIGKILL')
    await end
    expect(existsSync(join(root, 'node_modules'))).toBe(false)
    expect((await go().end).err).toContain('Installing')
    expect(whole()).toBe(true)
  })

  test('stopped while installing: npm stops too', async () => {
    const { child, end } = go({ TRIAL_TIME: '20000' })
    await until(() => runsOfNpm().length === 1)
    child.kill('SIGTERM')
    const { code, err } = await end
    expect(code).toBe(143)
    expect(err).toContain('Stopped before')
    expect(inShop()).toEqual([])
  })

  test.each([
    ['ENOTFOUND', 'no way to the network'],
    ['ENOSPC', 'The disk is full'],
    ['EUSAGE', 'The installation failed'],
  ])('npm fails with %s: plain words, 2, and what was there stays', async (fails, words) => {
    mkdirSync(join(root, 'node_modules/older'), { recursive: true })
    const { code, err } = await go({ TRIAL_FAILS: fails }).end
    expect(err).toContain(words)
    expect(err).toContain('npm: no way to get there')
    expect(err).not.toMatch(/\bat .*\.mjs/)
    expect(code).toBe(2)
    expect(readdirSync(join(root, 'node_modules'))).toEqual(['older'])
    expect(inShop()).toEqual([])
  })

  test('finds npm: what started this, beside Node, through a link on the path, else nothing', () => {
    const real = join(root, 'fake/npm-cli.cjs')
    expect(findNpm({ npm_execpath: real }, '/nowhere/bin/node')).toBe(real)
    for (const folder of ['bin', 'lib/node_modules/npm/bin', 'windows/node_modules/npm/bin', 'path'])
      mkdirSync(join(root, folder), { recursive: true })
    const unix = join(root, 'lib/node_modules/npm/bin/npm-cli.js')
    const windows = join(root, 'windows/node_modules/npm/bin/npm-cli.js')
    for (const file of [unix, windows]) writeFileSync(file, '')
    expect(findNpm({ npm_execpath: '/somewhere/pnpm.cjs' }, join(root, 'bin/node'))).toBe(unix)
    expect(findNpm({}, join(root, 'windows/node.exe'))).toBe(windows)
    symlinkSync(unix, join(root, 'path/npm'))
    expect(findNpm({ PATH: join(root, 'path') }, '/nowhere/bin/node')).toBe(unix)
  })
})

const until = async (holds: () => boolean): Promise<void> => {
  while (!holds()) await new Promise((done) => setTimeout(done, 10))
}
