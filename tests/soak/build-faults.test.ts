/**
 * What a machine does to a whole build: a full disk, a place that can only be read, a second build, a clock that is set,
 * a terminal that is closed. Each time the binder from before is whole or the new one is, nothing is left, and words say why.
 */
import { spawn } from 'node:child_process'
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { bytesBelow } from '../commands/run-command.ts'
import {
  type Ended,
  endTrial,
  leftBeside,
  startBuild,
  startCommand,
  type Two,
  twoBinders,
  versionIn,
} from '../output/build-trial.ts'
import { moments } from '../output/kill-trial.ts'
import { canMount, onlyRead, smallDisk, withMounts } from '../output/own-mounts.ts'
import { allRunning, signal, soon, stillRunning, treeOf } from '../processes.ts'
import { isLong, timeLeft } from './minutes.ts'

const SHARE = 0.04
const CLOCK = new URL('../output/other-clock.mjs', import.meta.url).href

let base: string
let two: Two
const seed = Number(process.env.KETTLE_FAULT_SEED ?? Date.now() % 1_000_000)
const chance = moments(seed)
beforeAll(async () => {
  base = mkdtempSync(join(tmpdir(), 'soak-build-faults-'))
  two = await twoBinders(base)
})
afterAll(() => endTrial(base))

/** The version that stands in the output, and the other, which is to be built. */
const turn = (): { before: number; after: number; folder: string } => {
  const before = versionIn(two)
  if (before === undefined) throw new Error('The output is neither version.')
  return { before, after: 1 - before, folder: two.folders[1 - before] as string }
}

/** Exit 2, one plain sentence or a few, what was there before whole, and nothing left. */
const expectRefused = (ended: Ended, words: RegExp, before: number): void => {
  expect(ended.complaint).toMatch(words)
  expect(ended.complaint).not.toMatch(/fault of the program|rotocol|\n\s+at |E[A-Z]{4,}/)
  expect(ended.code).toBe(2)
  expect(versionIn(two)).toBe(before)
  expect(leftBeside(two)).toEqual([])
}

const expectBuilt = (ended: Ended, after: number): void => {
  expect([ended.code, ended.complaint]).toEqual([0, ''])
  expect(versionIn(two)).toBe(after)
  expect(leftBeside(two)).toEqual([])
}

const build = (folder: string, env = {}, options: Parameters<typeof startBuild>[4] = {}): Promise<Ended> =>
  startBuild(folder, two.out, two.temporary, env, options).ended

/** A disk that is full is one of our own, or a limit on the size of files where this machine allows no mounts. */
const mounts = canMount()

/** @param room of the output's disk while the binder is written */
const fullOutput = async (room: string): Promise<string> => {
  const { before, folder } = turn()
  const shop = dirname(two.out)
  if (!mounts) {
    const ended = await build(
      folder,
      {},
      { within: (command) => ['sh', '-c', 'ulimit -f 300; exec "$@"', 'sh', ...command] },
    )
    expectRefused(ended, /a file grew larger than is allowed here/, before)
    return 'by a limit on files'
  }
  // a copy of what stands there, on a disk with this much room more
  const kept = join(base, 'kept')
  const result = join(base, 'result')
  mkdirSync(result, { recursive: true })
  const size = [...bytesBelow(two.out).values()].reduce(
    (sum, bytes) => sum + Math.ceil(bytes.length / 4096) * 4,
    0,
  )
  const lines = [
    `cp -a '${shop}' '${kept}'`,
    smallDisk(shop, `${size + 100 + Number(room)}k`),
    `cp -a '${kept}/.' '${shop}/'`,
    `trap 'cp -a "${shop}/." "${result}/"' EXIT`,
  ].join('\n')
  // not "exec", so that what stands on the disk is copied from it before it goes
  const ended = await build(
    folder,
    {},
    {
      within: (command) =>
        withMounts(lines, command).map((word) =>
          word.replace('exec "$@"', 'code=0; "$@" || code=$?; exit $code'),
        ),
    },
  )
  expectRefused(
    ended,
    /output was not written: the disk is full\. What was there before is unchanged\.\n$/,
    before,
  )
  expect(readdirSync(result)).toEqual(['output'])
  expect(versionIn({ ...two, out: join(result, 'output') })).toBe(before)
  for (const folderMade of [kept, result]) rmSync(folderMade, { recursive: true })
  return `${room} kB of room`
}

const fullTemporary = async (room: string): Promise<string> => {
  const { before, after, folder } = turn()
  if (!mounts) {
    // no folder can be made there at all
    const ended = await build(folder, { TMPDIR: join(base, 'none') })
    expectRefused(
      ended,
      /a folder for temporary files is needed in .*none, and there is no such folder/,
      before,
    )
    return 'by a folder that is not there'
  }
  const ended = await build(
    folder,
    {},
    { within: (command) => withMounts(smallDisk(two.temporary, room), command) },
  )
  // what is left of it by the cache of the reader of TypeScript may be enough
  if (ended.code === 0 && room !== '64k') {
    expectBuilt(ended, after)
    return `${room} of room, enough`
  }
  expectRefused(
    ended,
    /The disk for temporary files is full or nearly so|a folder for temporary files is needed in/,
    before,
  )
  expectBuilt(await build(folder), after)
  return `${room} of room`
}

/** Once more in the same temporary folder, whose cache of the reader of TypeScript was cut off by the full disk. */
const fullThenRoom = async (): Promise<string> => {
  const { before, after, folder } = turn()
  if (!mounts) return fullTemporary('')
  const again = join(base, 'again')
  const lines = [
    smallDisk(two.temporary, '2m'),
    '"$@" 2>/dev/null && exit 7',
    `mount -o remount,size=300m '${two.temporary}'`,
  ].join('\n')
  writeFileSync(again, '')
  expectBuilt(await build(folder, {}, { within: (command) => withMounts(lines, command) }), after)
  rmSync(again)
  return `after version ${before}`
}

const onlyReadPlace = async (): Promise<string> => {
  const { before, folder } = turn()
  const shop = dirname(two.out)
  if (mounts) {
    const ended = await build(folder, {}, { within: (command) => withMounts(onlyRead(shop), command) })
    expectRefused(ended, /output was not written: that place can only be read\./, before)
    // the output alone: what stands beside it could be written
    const alone = await build(folder, {}, { within: (command) => withMounts(onlyRead(two.out), command) })
    expectRefused(
      alone,
      /output was not written: something there is open in another program, or a disk of its own/,
      before,
    )
    return 'mounted'
  }
  // who may not mount is not root, and is refused by rights
  const [program = '', ...words] = ['chmod', 'a-w', shop]
  await new Promise((done) => spawn(program, words).on('close', done))
  const ended = await build(folder)
  await new Promise((done) => spawn('chmod', ['u+w', shop]).on('close', done))
  expectRefused(ended, /output was not written: writing there is not allowed/, before)
  return 'by rights'
}

const diskOfItsOwn = async (): Promise<string> => {
  const { before, folder } = turn()
  const stick = join(base, 'stick')
  mkdirSync(stick, { recursive: true })
  if (mounts) {
    const within = (command: readonly string[]) => withMounts(smallDisk(stick, '50m'), command)
    const onTop = await startBuild(folder, stick, two.temporary, {}, { within }).ended
    expectRefused(
      onTop,
      /stick is a disk of its own, and the output folder is replaced as a whole\. Name a folder on it, for example .*stick\/binder\.\n$/,
      before,
    )
    const below = await startBuild(folder, join(stick, 'binder'), two.temporary, {}, { within }).ended
    expect([below.code, below.complaint]).toEqual([0, ''])
  }
  // the shared memory of the machine is a disk of its own, too, and needs no mount
  const other = mkdtempSync('/dev/shm/other-disk-')
  try {
    const there = { ...two, out: join(other, 'shop', 'output') }
    for (const [index, each] of two.folders.entries()) {
      const ended = await startBuild(each, there.out, two.temporary).ended
      expect([ended.code, ended.complaint]).toEqual([0, ''])
      expect(versionIn(there)).toBe(index)
    }
    expect(leftBeside(there)).toEqual([])
  } finally {
    rmSync(other, { recursive: true })
    rmSync(stick, { recursive: true })
  }
  return mounts ? 'mounted and elsewhere' : 'elsewhere'
}

const wrongOutput = async (): Promise<string> => {
  const { before, folder } = turn()
  const file = join(base, 'file')
  writeFileSync(file, 'mine')
  symlinkSync(two.out, join(base, 'link'))
  for (const [out, words] of [
    [file, /file is a file, not a folder\. Name another output folder\.\n$/],
    [join(file, 'output'), /was not written: a part of its path is a file/],
    [join(base, 'link'), /link is a link\. Name the folder itself/],
    [`/proc/${process.pid}/output`, /was not written|Nothing was written/],
  ] as const)
    expectRefused(await startBuild(folder, out, two.temporary).ended, words, before)
  expect(readFileSync(file, 'utf8')).toBe('mine')
  for (const name of ['file', 'link']) rmSync(join(base, name))
  return '4 places'
}

/** Of a person, of the system, of a terminal that is closed. */
const stopped = async (name: 'SIGINT' | 'SIGTERM' | 'SIGHUP', code: number): Promise<string> => {
  const { before, after, folder } = turn()
  const { child, ended, stage } = startBuild(folder, two.out, two.temporary)
  await new Promise((done) => setTimeout(done, two.seconds * 1000 * chance()))
  const tree = treeOf(child.pid ?? 0)
  const at = stage()
  const began = performance.now()
  signal(child.pid ?? 0, name)
  const how = await ended
  const seconds = (performance.now() - began) / 1000
  const where = `${name} at ${at}, ${seconds.toFixed(1)} s to the end, ${how.code} ${how.complaint}`
  expect([0, code, name], where).toContain(how.code)
  if (how.code === code)
    expect(how.complaint, where).toBe('Stopped before the end. What was there before is unchanged.\n')
  expect(seconds, where).toBeLessThan(MOST_SECONDS_TO_STOP)
  expect(await soon(() => stillRunning(tree).length === 0), where).toBe(true)
  expect(versionIn(two), where).toBe(how.code === 0 ? after : before)
  expect(leftBeside(two), where).toEqual([])
  return where
}
const MOST_SECONDS_TO_STOP = 15

/** A terminal of its own, whose window is closed; a build that is not told of that finds nobody who reads, and goes on. */
const closedTerminal = async (goesOn: boolean): Promise<string> => {
  const { before, after, folder } = turn()
  const words = (command: readonly string[]): string => command.map((one) => `'${one}'`).join(' ')
  const { child, ended } = startBuild(
    folder,
    two.out,
    two.temporary,
    {},
    {
      within: (command) => ['script', '-qec', `${goesOn ? 'setsid -w ' : ''}${words(command)}`, '/dev/null'],
    },
  )
  const tree = () => treeOf(child.pid ?? 0)
  await soon(() => tree().some(({ words: own }) => own.includes('--headless')), 60_000)
  const all = tree()
  signal(child.pid ?? 0, 'SIGKILL')
  await ended
  expect(await soon(() => stillRunning(all).length === 0, 60_000)).toBe(true)
  expect(versionIn(two)).toBe(goesOn ? after : before)
  expect(leftBeside(two)).toEqual([])
  return goesOn ? 'went on' : 'stopped'
}

const readerGone = async (): Promise<string> => {
  const { after, folder } = turn()
  // two streams that are closed before anything is said
  const ended = await build(
    folder,
    {},
    {
      within: (command) => ['bash', '-c', 'set -o pipefail; "$@" 2>&1 | true', 'bash', ...command],
    },
  )
  expectBuilt(ended, after)
  return 'built'
}

/** The process that reads the program's own source, and later bundles scripts, is ended at some moment. */
const sourceReaderGone = async (): Promise<string> => {
  const { before, after, folder } = turn()
  const { child, ended, stage } = startBuild(folder, two.out, two.temporary)
  let isOver = false
  ended.then(() => {
    isOver = true
  })
  await new Promise((done) => setTimeout(done, 0.35 * two.seconds * 1000 * chance()))
  const isReader = ({ words }: { readonly words: string }): boolean => /esbuild.*--service/.test(words)
  await soon(() => isOver || treeOf(child.pid ?? 0).some(isReader), 60_000)
  const at = stage()
  for (const { pid } of treeOf(child.pid ?? 0).filter(isReader)) signal(pid, 'SIGKILL')
  const how = await ended
  if (how.code === 0) expectBuilt(how, after)
  else expectRefused(how, /^A process that this program runs beside it was ended from outside/, before)
  return `at ${at}: ${how.code}`
}

const twoAtOnce = async (): Promise<string> => {
  const { before, folder } = turn()
  const other = join(base, 'elsewhere', 'output')
  const all = [
    startBuild(folder, two.out, two.temporary),
    startBuild(two.folders[before] as string, two.out, two.temporary),
    startBuild(folder, other, two.temporary),
  ]
  const [one, second, apart] = (await Promise.all(all.map(({ ended }) => ended))) as [Ended, Ended, Ended]
  const refused = [one, second].filter(({ code }) => code !== 0)
  for (const { code, complaint } of refused) {
    expect(code).toBe(2)
    expect(complaint).toMatch(
      /^\S+output is being written by another run \(process \d+\)\. Wait until it has ended, then start again\.\n$/,
    )
  }
  expect(refused.length).toBeLessThan(2)
  expect(versionIn(two)).toBeDefined()
  expect([apart.code, apart.complaint]).toEqual([0, ''])
  expect(versionIn({ ...two, out: other })).toBe(1 - before)
  expect([...leftBeside(two), ...leftBeside({ out: other, temporary: two.temporary })]).toEqual([])
  rmSync(join(base, 'elsewhere'), { recursive: true })
  return `${refused.length} refused`
}

const besideOthers = async (): Promise<string> => {
  const { after, folder } = turn()
  const files = bytesBelow(folder)
  const preview = startCommand(['preview', folder, '--port', '43917'], two.temporary)
  const building = startBuild(folder, two.out, two.temporary)
  const [check, whatIf] = await Promise.all(
    [
      ['check', folder],
      ['what-if', folder, '--set', 'shop.name=Cherry Yard'],
    ].map((args) => startCommand(args, two.temporary).ended),
  )
  const built = await building.ended
  expect(
    [check?.code, whatIf?.code, built.code],
    `${check?.complaint}${whatIf?.complaint}${built.complaint}`,
  ).toEqual([0, 0, 0])
  const all = treeOf(preview.child.pid ?? 0)
  signal(preview.child.pid ?? 0, 'SIGTERM')
  expect((await preview.ended).code).toBe(0)
  expect(await soon(() => stillRunning(all).length === 0)).toBe(true)
  expect(versionIn(two)).toBe(after)
  expect(bytesBelow(folder)).toEqual(files)
  expect(leftBeside(two)).toEqual([])
  return 'preview, check, what-if'
}

/** @param days from the start, and from some time after it on */
const otherClock = async (from: number, later: number): Promise<string> => {
  const { after, folder } = turn()
  const time = chance() * two.seconds * 1000
  // as a build leaves them that was killed when the clock was ahead
  const ahead = new Date(Date.now() + 9000 * 24 * 3600 * 1000)
  const names = [
    join(dirname(two.out), '.output.lock~1-1-aa-bb-cc+x'),
    join(two.temporary, 'kettle-and-kerf-work+1-1-00000000-00000000-00000000+ahead'),
  ]
  for (const name of names) {
    mkdirSync(name)
    utimesSync(name, ahead, ahead)
  }
  utimesSync(two.out, ahead, ahead)
  const ended = await build(folder, { KETTLE_TEST_CLOCK: `${from},${later},${time}` }, { preload: CLOCK })
  expectBuilt(ended, after)
  return `${from} days, then ${later}`
}

const noBrowser = async (): Promise<string> => {
  const { before, folder } = turn()
  const path = join(base, 'browser')
  for (const [text, words] of [
    ['exit 3', /^The browser that prints did not start \(\S+browser\): it ended at once\.\n$/],
    [
      'sleep 1000',
      /^The browser that prints did not start \(\S+browser\): it did not answer within 60 seconds\.\n$/,
    ],
  ] as const) {
    writeFileSync(path, `#!/bin/sh\ncase "$*" in *--version*) echo 150.0.1.1; exit 0;; esac\n${text}\n`, {
      mode: 0o755,
    })
    const ended = await build(folder, { KETTLE_BROWSER: path })
    expectRefused(ended, words, before)
    expect(ended.seconds).toBeLessThan(60 + two.seconds + 30)
  }
  rmSync(path)
  expect(allRunning().filter(({ words }) => words.includes('sleep 1000'))).toEqual([])
  return 'two'
}

/** All of them, in an order of chance, as far as there is time; a long soak tries all. */
const FAULTS: readonly (readonly [string, () => Promise<string>])[] = [
  ...['20', '400', '900', '1500'].map((room): [string, () => Promise<string>] => [
    `full disk of the output (${room})`,
    () => fullOutput(room),
  ]),
  ...['64k', '6m', '12m'].map((room): [string, () => Promise<string>] => [
    `full temporary folder (${room})`,
    () => fullTemporary(room),
  ]),
  ['full temporary folder, then room', fullThenRoom],
  ['a place that can only be read', onlyReadPlace],
  ['a disk of its own', diskOfItsOwn],
  ['no place for an output', wrongOutput],
  ['SIGINT', () => stopped('SIGINT', 130)],
  ['SIGTERM', () => stopped('SIGTERM', 143)],
  ['SIGHUP', () => stopped('SIGHUP', 129)],
  ['a closed terminal', () => closedTerminal(false)],
  ['a closed terminal, and a build that is not told', () => closedTerminal(true)],
  ['nobody who reads', readerGone],
  ['the reader of its source is ended', sourceReaderGone],
  ['two at once', twoAtOnce],
  ['other commands meanwhile', besideOthers],
  ['a clock two years back', () => otherClock(-730, -730)],
  ['a clock that jumps ahead', () => otherClock(0, 4000)],
  ['a clock that is set back', () => otherClock(4000, -730)],
  ['a browser that does not start', noBrowser],
]

describe('by hand', () => {
  test('whatever happens to a build, its output is whole, nothing is left, and words say why', async () => {
    const only = process.env.KETTLE_FAULT
    const chosen = FAULTS.filter(([name]) => only === undefined || name.includes(only))
      .map((fault) => ({ fault, at: chance() }))
      .sort((one, other) => one.at - other.at)
      .map(({ fault }) => fault)
    const goOn = timeLeft(SHARE)
    const done: string[] = []
    const wrong: string[] = []
    for (const [name, met] of chosen) {
      if (done.length > 0 && !isLong && !goOn()) break
      const began = performance.now()
      try {
        done.push(`${name}: ${await met()} (${((performance.now() - began) / 1000).toFixed(0)} s)`)
      } catch (error) {
        wrong.push(`${name}: ${(error as Error).message}`)
        // the next one begins with whole versions again
        rmSync(dirname(two.out), { recursive: true, force: true })
        if (existsSync(two.temporary))
          for (const name of leftBeside({ ...two, out: join(two.temporary, 'x') }))
            rmSync(join(two.temporary, name), { recursive: true, force: true })
        await build(two.folders[0] as string)
      }
    }
    console.log(`${done.length + wrong.length} of ${FAULTS.length} faults, seed ${seed}\n${done.join('\n')}`)
    expect(wrong).toEqual([])
  })
})
