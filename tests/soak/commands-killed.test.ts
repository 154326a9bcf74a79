/** The other commands that write, killed at random moments and started twice at once: whole files or none, and nothing left. */
import {
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { bytesBelow } from '../commands/run-command.ts'
import { type Ended, endTrial, startCommand, writeSmallBinder } from '../output/build-trial.ts'
import { moments } from '../output/kill-trial.ts'
import { soon, stillRunning, treeOf } from '../processes.ts'
import { isLong, timeLeft } from './minutes.ts'

const SHARE = 0.005
const MOST = 20
const format = (number: number): string => fileURLToPath(new URL(`../formats/${number}/`, import.meta.url))
const CLOCK = new URL('../output/other-clock.mjs', import.meta.url).href

let base: string
let temporary: string
let here = ''
let number = 0
const seed = Number(process.env.KETTLE_KILL_SEED ?? Date.now() % 1_000_000)
const chance = moments(seed)
beforeAll(() => {
  base = mkdtempSync(join(tmpdir(), 'soak-commands-'))
  temporary = join(base, 'temporary')
})
beforeEach(() => {
  number += 1
  here = join(base, String(number))
  mkdirSync(here)
})
afterAll(() => endTrial(base))

const go = (args: readonly string[], env: Readonly<Record<string, string>> = {}, preload?: string) =>
  startCommand(args, temporary, env, preload === undefined ? {} : { preload })

const texts = (folder: string): Record<string, string> =>
  Object.fromEntries([...bytesBelow(folder)].map(([name, bytes]) => [name, bytes.toString('latin1')]))

/** Files and folders that nobody is to see, and that nothing should leave. */
const hidden = (): string[] =>
  [
    ...readdirSync(here, { recursive: true, encoding: 'utf8' }),
    ...readdirSync(temporary).filter((name) => !name.startsWith('tsx-')),
  ].filter((name) => /(^|\/)\.|\.new$|^kettle/.test(name) && !name.endsWith('.kettle-and-kerf-output'))

interface Command {
  /** what it needs, in `here` */
  readonly prepare: () => void
  readonly args: () => readonly string[]
  /** where it writes */
  readonly place: () => string
  /** what may stand there but for the old and the new */
  readonly compared?: (found: Record<string, string>) => unknown
}

const shop = (): string => join(here, 'shop')

const COMMANDS: Readonly<Record<string, Command>> = {
  printed: {
    prepare: () => writeSmallBinder(shop(), 'Alder Yard'),
    args: () => ['printed', shop(), '--sheets', '2.1,2.2', '--where', 'wall', '--date', '2027-01-05'],
    place: () => shop(),
    // what is kept may be there before the list names it
    compared: (found) => found['records/printed.yaml'],
  },
  // a whole folder is worked out for long before it is written; one more file is not
  new: {
    prepare: () => {
      if (!isLong) writeSmallBinder(shop(), 'Alder Yard')
    },
    args: () =>
      isLong
        ? ['new', shop(), '--yes', '--date', '2027-03-14']
        : ['new', shop(), 'recipe', '--title', 'Another', '--name', 'another', '--yes'],
    place: () => shop(),
  },
  upgrade: {
    prepare: () => {
      cpSync(format(1), shop(), { recursive: true })
      // what only a maker can say
      cpSync(join(format(2), 'materials/all.yaml'), join(shop(), 'materials/all.yaml'))
      const fixture = join(shop(), 'fixtures/small.yaml')
      const text = readFileSync(fixture, 'utf8')
      writeFileSync(fixture, text.replace('groove-depth: 9 mm', 'groove-depth: 9 mm, groove-strips: strip'))
    },
    args: () => ['upgrade', shop()],
    place: () => shop(),
  },
  recall: {
    prepare: () =>
      cpSync(fileURLToPath(new URL('../diagnostics/base/', import.meta.url)), shop(), { recursive: true }),
    args: () => ['recall', '2027-02-01-plain', shop(), '--out', join(here, 'recall')],
    place: () => join(here, 'recall'),
  },
}

describe('by hand', () => {
  test.each(Object.entries(COMMANDS))(
    `%s, killed at up to ${MOST} random moments`,
    async (name, { prepare, args, place, compared = (found) => found }) => {
      const state = () => (existsSync(place()) ? compared(texts(place())) : undefined)
      prepare()
      const old = state()
      const whole = await go(args()).ended
      expect([whole.code, whole.complaint.includes('program failed')]).toEqual([0, false])
      const fresh = state()
      expect(fresh).not.toEqual(old)
      const goOn = timeLeft(SHARE)
      const met: string[] = []
      for (let count = 0; count < MOST && (count === 0 || goOn()); count += 1) {
        rmSync(here, { recursive: true })
        mkdirSync(here)
        prepare()
        const { child, ended } = go(args())
        // most of the time it reads: the end, where it writes, is tried more often
        const moment = count % 2 === 0 ? chance() : 0.7 + 0.35 * chance()
        await Promise.race([ended, new Promise((done) => setTimeout(done, moment * whole.seconds * 1000))])
        const tree = treeOf(child.pid ?? 0)
        child.kill('SIGKILL')
        const { code } = await ended
        const at = `seed ${seed}, kill ${count + 1}: ${code}`
        expect(await soon(() => stillRunning(tree).length === 0), at).toBe(true)
        const found = state()
        // away between two renames; the next run puts it back
        const isAway = name === 'upgrade' && found === undefined
        if (!isAway)
          expect(
            [old, fresh].some((one) => JSON.stringify(one) === JSON.stringify(found)),
            at,
          ).toBe(true)
        const isNew = JSON.stringify(found) === JSON.stringify(fresh)
        const again = await go(args()).ended
        if (name === 'new' && isNew) expect(again.complaint, at).toContain('is there already')
        else expect([again.code, again.complaint], at).toEqual([0, whole.complaint])
        if (name !== 'printed' || !isNew) expect(state(), at).toEqual(fresh)
        if (name === 'upgrade')
          expect(
            readdirSync(here).filter((one) => one.startsWith('shop-before')),
            at,
          ).toHaveLength(1)
        if (name !== 'new' || !isNew) expect(hidden(), at).toEqual([])
        met.push(`${(moment * 100).toFixed(0)} %${code === 'SIGKILL' ? '' : ' (over)'}${isNew ? ' new' : ''}`)
      }
      console.log(
        `${name}: ${met.length} kills of ${whole.seconds.toFixed(1)} s, seed ${seed}: ${met.join(', ')}`,
      )
    },
  )

  const twice = (args: readonly string[]): Promise<Ended[]> => Promise.all([go(args).ended, go(args).ended])
  const plain = ({ complaint }: Ended): void =>
    expect(complaint).not.toMatch(/fault of the program|\n\s+at |E[A-Z]{4,}/)

  test('printed twice at once: no entry is lost, and who comes too late is told', async () => {
    const { prepare, args } = COMMANDS.printed as Command
    prepare()
    const ends = await twice(args())
    const entries = readFileSync(join(shop(), 'records/printed.yaml'), 'utf8').match(/how: laminated/g)
    expect(entries).toHaveLength(ends.filter(({ code }) => code === 0).length)
    expect(entries?.length).toBeGreaterThan(0)
    for (const end of ends.filter(({ code }) => code !== 0)) {
      expect(end.code).toBe(2)
      expect(end.complaint).toMatch(/is being written by another run|was changed while this ran/)
      plain(end)
    }
    expect(hidden()).toEqual([])
  })

  test('new twice at once: one of them writes, the other touches nothing', async () => {
    const { prepare, args } = COMMANDS.new as Command
    prepare()
    const ends = await twice(args())
    expect(ends.map(({ code }) => code).sort()).toEqual([0, 2])
    const late = ends.find(({ code }) => code === 2) as Ended
    expect(late.complaint).toContain('is there already')
    plain(late)
    expect((await go(['check', shop()]).ended).code).toBe(0)
    expect(hidden()).toEqual([])
  })

  test('upgrade twice at once: one of them does it, and the folder as it was is kept once', async () => {
    const { prepare, args } = COMMANDS.upgrade as Command
    prepare()
    const old = texts(shop())
    const ends = await twice(args())
    for (const end of ends) {
      expect([0, 2]).toContain(end.code)
      if (end.code === 2) expect(end.complaint).toContain('is being upgraded by another run')
      plain(end)
    }
    expect(ends.some(({ code }) => code === 0)).toBe(true)
    const kept = readdirSync(here).filter((name) => name !== 'shop')
    expect(kept).toHaveLength(1)
    expect(texts(join(here, kept[0] as string))).toEqual(old)
    expect((await go(args()).ended).said).toContain('is up to date')
    expect(hidden()).toEqual([])
  })

  test('a clock that was ahead and is set back: what was written down then is not lost, and words say what to do', async () => {
    writeSmallBinder(shop(), 'Alder Yard')
    const hang = ['printed', shop(), '--sheets', '2.1', '--where', 'wall']
    const ahead = await go(hang, { KETTLE_TEST_CLOCK: '4000,4000,0' }, CLOCK).ended
    expect([ahead.code, ahead.complaint]).toEqual([0, ''])
    const before = texts(shop())
    const late = await go(hang).ended
    expect(late.code).toBe(2)
    expect(late.complaint).toMatch(
      /^The last entry of records\/printed\.yaml is of \d{4}-\d\d-\d\d, and this one would be of \d{4}-\d\d-\d\d\. .*say another --date/,
    )
    expect(texts(shop())).toEqual(before)
    expect((await go(['check', shop()]).ended).code).toBe(0)
    const said = /is of (\S+),/.exec(late.complaint)?.[1] ?? ''
    expect((await go([...hang, '--date', said]).ended).code).toBe(0)
    expect(hidden()).toEqual([])
  })
})
