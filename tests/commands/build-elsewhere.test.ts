/** Builds of other folders and into other places, and builds that must leave everything as it was. */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { run } from '../../src/commands/build.ts'
import type { BinderData } from '../../src/sheets/binder-data.ts'
import { BATCH, type Edits, editedDemo, STATES, withoutCutters } from '../sites/edited-demo.ts'
import { bytesBelow, type Ran, runCommand } from './run-command.ts'

const base = mkdtempSync(join(tmpdir(), 'build-test-'))
const out = join(base, 'demo')
/** A binder that is soon made: what is in it is tested elsewhere. */
const small = fileURLToPath(new URL('../diagnostics/base/', import.meta.url))
beforeAll(async () => {
  await build([small, '--out', 'demo'])
})
afterAll(() => rmSync(base, { recursive: true, force: true }))

const build = (args: string[], cwd = base): Promise<Ran> => runCommand(run, args, cwd)
interface Stopped extends Ran {
  readonly place: string
  readonly names: readonly string[]
  readonly data: BinderData
}
let stoppedOnce: Promise<Stopped> | undefined
/** A build with a stop and a page of its own, made when it is first asked for. */
const stoppedBuild = (): Promise<Stopped> => {
  const made = async (): Promise<Stopped> => {
    const { folder, remove } = editedDemo({
      ...withoutCutters(STATES['superfat under the floor']),
      'pages/note.md': '# A note\n\nText.\n',
    })
    const place = join(base, 'stopped')
    try {
      const ran = await build([folder, '--out', place])
      return { ...ran, place, names: [...bytesBelow(place).keys()], data: dataIn(place) }
    } finally {
      remove()
    }
  }
  stoppedOnce ??= made()
  return stoppedOnce
}
const dataIn = (folder: string): BinderData =>
  JSON.parse(readFileSync(join(folder, 'binder.json'), 'utf8')) as BinderData
const fingerprint = (folder: string): string[] =>
  [...bytesBelow(folder)].map(
    ([name, bytes]) => `${name} ${createHash('sha256').update(bytes).digest('hex')}`,
  )

describe('by hand: other folders, other places', () => {
  it("writes into the folder's own output, and says how it was typed", async () => {
    const { folder, remove } = editedDemo(withoutCutters(STATES['oils by weight, own page']))
    try {
      const built = await build(['shop'], dirname(folder))
      expect(built.code).toBe(0)
      // what the demo leaves for its maker to write, and nothing else
      expect(built.err).toMatch(/^(to write: shop\/\S+:[\d, ]+ {2}[a-z]+: write [a-z ]+\n){2}$/)
      const own = dataIn(join(folder, 'output'))
      expect(own.sheets.map(({ id }) => id)).toContain('page/reminder')
      const page = own.sheets.find(({ id }) => id === 'page/reminder')
      const batch = own.sheets.find(({ id }) => id === BATCH)
      expect(page?.values[`${BATCH}:naoh.mass`]).toEqual(batch?.values['naoh.mass'])
    } finally {
      remove()
    }
  })

  it('prints a stop in place of a batch, ends with 0, and says so on standard error', async () => {
    const stopped = await stoppedBuild()
    expect(stopped.code).toBe(0)
    expect(stopped.err).toContain(`stopped: ${BATCH}  superfat-under-floor`)
    const said = stopped.data
    expect(said.stopped.map(({ sheet, code }) => [sheet, code])).toEqual([
      [BATCH, 'superfat-under-floor'],
      [BATCH, 'superfat-lower-bound-negative'],
    ])
    for (const { reason } of said.stopped) expect(reason).toMatch(/^[A-Z].*\.$/)
  })
})

describe('by hand: when something is wrong', () => {
  const WRONG: Edits = { 'recipes/hearth.yaml': [['  olive: 38 %', '  oliv: 38 %']] }

  it('ends with 1, names the place, and leaves the binder from before as it was', async () => {
    const { folder, remove } = editedDemo(WRONG)
    try {
      const before = fingerprint(out)
      expect(before).toContainEqual(expect.stringMatching(/^binder\.pdf /))
      const failed = await build([folder, '--out', out])
      expect(failed.code).toBe(1)
      expect(failed.out).toBe('')
      expect(failed.err).toMatch(/recipes\/hearth\.yaml:\d+:\d+/)
      expect(failed.err).toContain('olive')
      expect(fingerprint(out)).toEqual(before)
      const fresh = await build([folder, '--out', join(base, 'never')])
      expect(fresh.code).toBe(1)
      expect(readdirSync(base).filter((name) => /never|building|previous|lock/.test(name))).toEqual([])
    } finally {
      remove()
    }
  })

  it.each([
    ['a folder that is not there', ['nowhere'], 'There is no folder nowhere'],
    ['an option that does not exist', ['--outt', 'x'], '--outt'],
    ['two folders', ['a', 'b'], 'Name one folder'],
    ['a file for a folder', ['file.txt'], 'file.txt is a file'],
  ])('ends with 2 and a plain sentence for %s', async (_what, args, message) => {
    writeFileSync(join(base, 'file.txt'), '')
    const failed = await build(args)
    expect(failed.code).toBe(2)
    expect(failed.out).toBe('')
    expect(failed.err).toContain(message)
    expect(failed.err).not.toMatch(/\n\s+at /)
  })

  it('ends the process with the same number and the same sentence when started as people start it', () => {
    const launcher = fileURLToPath(new URL('../../src/launch.mjs', import.meta.url))
    const env = { ...process.env, INIT_CWD: base }
    const started = spawnSync(process.execPath, [launcher, 'build', 'nowhere'], { env, encoding: 'utf8' })
    expect(started.status).toBe(2)
    expect(started.stdout).toBe('')
    expect(started.stderr).toContain('There is no folder nowhere')
    expect(started.stderr).not.toMatch(/\n\s+at /)
  })

  it('does not write over a folder that it did not make', async () => {
    const theirs = join(base, 'theirs')
    mkdirSync(theirs)
    writeFileSync(join(theirs, 'letter.txt'), 'keep me')
    const failed = await build([small, '--out', 'theirs'])
    expect(failed.code).toBe(2)
    expect(readdirSync(theirs)).toEqual(['letter.txt'])
  })

  it('ends with 2 when no browser can be found, and leaves the binder from before as it was', async () => {
    const before = fingerprint(out)
    const named = process.env.KETTLE_BROWSER
    process.env.KETTLE_BROWSER = join(base, 'no-browser-here')
    try {
      const failed = await build([small, '--out', out])
      expect(failed.code).toBe(2)
      expect(failed.err).toContain('no-browser-here')
      expect(fingerprint(out)).toEqual(before)
    } finally {
      if (named === undefined) delete process.env.KETTLE_BROWSER
      else process.env.KETTLE_BROWSER = named
    }
  })

  it('makes the binder again where one of its own stands, with nothing of the old left', async () => {
    const { place, names } = await stoppedBuild()
    expect(names).toContain('sheets/page-note.html')
    await build([small, '--out', place])
    expect(fingerprint(place)).toEqual(fingerprint(out))
    // two whole builds, on a machine that may be busy
  }, 90_000)

  it('explains itself and writes nothing when asked for help', async () => {
    const helped = await build(['--help'], join(base))
    expect(helped).toMatchObject({ code: 0, err: '' })
    for (const word of ['FOLDER', '--out', 'binder.pdf', '0', '1', '2']) expect(helped.out).toContain(word)
  })
})
