import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { readMinutes } from '../../src/launch/stages.mjs'
import { makePackages, makeRoot, start } from './small-root.ts'

let root: string
beforeAll(() => {
  root = mkdtempSync(join(tmpdir(), 'launch-'))
  makeRoot(root)
  makePackages(root)
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

const launch = (args: readonly string[], env: Readonly<Record<string, string>> = {}) =>
  start(root, args, env).end

describe('by hand', () => {
  test.each([[[]], [['--help']], [['-h']], [['help']]])('%j lists the commands', async (args) => {
    const { code, out } = await launch(args)
    expect(code).toBe(0)
    for (const name of ['npm start', 'npm run check', 'npm test', 'npm run soak', 'npm run tidy'])
      expect(out).toContain(name)
  })

  test('an unknown command: words and the list', async () => {
    const { code, err } = await launch(['bake'])
    expect(code).toBe(2)
    expect(err).toContain('There is no command "bake".')
    expect(err).toContain('npm start')
    expect(err).not.toContain('.mjs')
  })

  test('a command gets its arguments and where the person stood, and gives the exit code', async () => {
    const { code, out } = await launch(['build', 'my shop', '--draft'], { INIT_CWD: '/where/I/stand' })
    expect(JSON.parse(out)).toEqual({ args: ['my shop', '--draft'], cwd: '/where/I/stand' })
    expect(code).toBe(3)
  })

  test('plain words come out as they are, with their exit code', async () => {
    const { code, err } = await launch(['build', 'plain'])
    expect(err.trim()).toBe('In plain words.')
    expect(code).toBe(1)
  })

  test('a fault shows where only when asked', async () => {
    const { code, err } = await launch(['build', 'fault'])
    expect(code).toBe(2)
    expect(err).toContain('a fault')
    expect(err).not.toContain('build.ts')
    expect((await launch(['build', 'fault'], { KETTLE_DEBUG: '1' })).err).toContain('build.ts')
  })

  test('a command that waits for what never comes ends with 2 and says so', async () => {
    const { code, err } = await launch(['build', 'never'])
    expect(err).toContain('it ended before its work was done')
    expect(code).toBe(2)
  })

  test('an old Node is refused in one sentence, before anything is installed', () => {
    const preload = join(root, 'old.cjs')
    writeFileSync(preload, "Object.defineProperty(process, 'versions', { value: { node: '20.18.9' } })")
    const ended = spawnSync(process.execPath, ['--require', preload, join(root, 'src/launch.mjs'), 'check'], {
      encoding: 'utf8',
    })
    expect(ended.status).toBe(2)
    expect(ended.stderr.trim().split('\n')).toHaveLength(1)
    expect(ended.stderr).toContain('Node 20.19 or later')
    expect(ended.stderr).toContain('20.18.9')
  })

  test('test runs types, style and tests, and hands the rest to the test runner', async () => {
    const { code, out } = await launch(['test', 'tests/units', '-t', 'oil'])
    expect(code).toBe(0)
    expect(out).toContain('"run","--config","tests/vitest.config.ts","tests/units","-t","oil"')
    expect(out).toMatch(/types: fine \([\d.]+ s\), style: fine \([\d.]+ s\), tests: fine \([\d.]+ s\)/)
  })

  test('soak and tidy', async () => {
    expect((await launch(['soak', '--minutes', '3'])).out).toContain('"tests/soak/vitest.config.ts"] 3')
    expect((await launch(['tidy'])).out).toContain('"check","--write"')
    const { code, err } = await launch(['soak', '--minutes', 'long'])
    expect(code).toBe(2)
    expect(err).toContain('--minutes needs a number above 0, not "long".')
  })

  test('minutes: typed, else set, else 10; the rest goes on', () => {
    expect(readMinutes([], {})).toEqual({ minutes: 10, rest: [] })
    expect(readMinutes([], { KETTLE_SOAK_MINUTES: '2' })).toEqual({ minutes: 2, rest: [] })
    expect(readMinutes(['-t', 'x', '--minutes', '0.5', 'a'], {})).toEqual({
      minutes: 0.5,
      rest: ['-t', 'x', 'a'],
    })
    expect(readMinutes(['--minutes=4', '--reporter=json'], {})).toEqual({
      minutes: 4,
      rest: ['--reporter=json'],
    })
    for (const wrong of ['0', '-1', 'ten', ''])
      expect(() => readMinutes([`--minutes=${wrong}`], {})).toThrow('--minutes')
  })

  test('a stage that fails does not keep the others from running, and the first failure decides', async () => {
    const failing = mkdtempSync(join(tmpdir(), 'launch-'))
    makeRoot(failing)
    makePackages(failing, { biome: 4, vitest: 5 })
    const { code, out } = await start(failing, ['test']).end
    rmSync(failing, { recursive: true, force: true })
    expect(code).toBe(4)
    expect(out).toMatch(/types: fine .*style: FAILED .*tests: FAILED/)
    expect(out).toContain('vitest ["run"')
  })

  test('a closed standard input and a reader that goes away are no fault', () => {
    const command = '"$0" "$1" build closed <&-; "$0" "$1" --help | true'
    const ended = spawnSync('sh', ['-c', command, process.execPath, join(root, 'src/launch.mjs')], {
      encoding: 'utf8',
    })
    expect(ended.stdout).toContain('closed')
    expect(ended.stderr).toBe('')
  })
})
