/** Whole builds, started as people start them, that are cut off; used by the tests and by the soak. */
import { type ChildProcess, spawn } from 'node:child_process'
import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { withStagedOutput } from '../../src/output/staged-output.ts'
import { bytesBelow } from '../commands/run-command.ts'
import { allRunning, type Running, soon, stillRunning, treeOf } from '../processes.ts'
import { smallBinderFiles } from '../sites/small-binder.ts'

const LAUNCHER = fileURLToPath(new URL('../../src/launch.mjs', import.meta.url))
const WATCHED = new URL('as-watched.mjs', import.meta.url).href

/** A recipe, and the sheets that every binder has: a build of a few seconds. */
const SMALL = /^(shop|sources|recipes|materials)\b/

/** @param name of the shop, which is on every page */
export const writeSmallBinder = (folder: string, name: string): void => {
  for (const [below, text] of smallBinderFiles()) {
    if (!SMALL.test(below)) continue
    const path = join(folder, below)
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, text.replace('name: Alder Yard', `name: ${name}`))
  }
}

export interface Ended {
  /** of a signal: its name */
  readonly code: number | string
  readonly said: string
  readonly complaint: string
  readonly seconds: number
}

export interface Started {
  readonly child: ChildProcess
  readonly ended: Promise<Ended>
  /** what is being done, by what was said so far */
  readonly stage: () => string
}

const STAGES = [
  'start, read, compute',
  'lay out pages',
  'start browser',
  'lay out',
  'first pass',
  'second pass',
  'finish',
  'read back',
  'write',
  'end',
]

/** @param args of the command, its name first */
export const startCommand = (
  args: readonly string[],
  temporary: string,
  env: Readonly<Record<string, string>> = {},
  {
    preload,
    within = (command) => command,
  }: {
    readonly preload?: string
    /** what runs the command, in its place */
    readonly within?: (command: readonly string[]) => readonly string[]
  } = {},
): Started => {
  mkdirSync(temporary, { recursive: true })
  const began = performance.now()
  const preloads = [WATCHED, ...(preload === undefined ? [] : [preload])]
  const [program = '', ...words] = within([
    process.execPath,
    ...preloads.flatMap((one) => ['--import', one]),
    LAUNCHER,
    ...args,
  ])
  const child = spawn(program, words, {
    env: { ...process.env, TMPDIR: temporary, NO_COLOR: '1', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
    detached: true,
  })
  let said = ''
  let complaint = ''
  child.stdout?.on('data', (part) => {
    said += part
  })
  child.stderr?.on('data', (part) => {
    complaint += part
  })
  const ended = new Promise<Ended>((done, fail) => {
    child.on('error', fail)
    // not "close": what it started may hold its standard output
    child.on('exit', (code, name) => {
      setTimeout(
        () =>
          done({
            code: code ?? name ?? 'unknown',
            said,
            complaint,
            seconds: (performance.now() - began) / 1000,
          }),
        50,
      )
    })
  })
  const stage = (): string => STAGES[(said.match(/ \d+\.\d\d s$/gm) ?? []).length] ?? 'end'
  return { child, ended, stage }
}

export const startBuild = (
  folder: string,
  out: string,
  temporary: string,
  env: Readonly<Record<string, string>> = {},
  options: Parameters<typeof startCommand>[3] = {},
): Started => startCommand(['build', folder, '--out', out], temporary, env, options)

/** Two binders, and what a build makes of each. */
export interface Two {
  readonly base: string
  readonly temporary: string
  readonly out: string
  readonly folders: readonly string[]
  readonly whole: readonly Map<string, Buffer>[]
  /** of one build [s] */
  readonly seconds: number
}

/** @param base an empty folder for everything */
export const twoBinders = async (base: string): Promise<Two> => {
  const [temporary, out] = [join(base, 'temporary'), join(base, 'shop', 'output')]
  const folders = [join(base, 'alder'), join(base, 'birch')]
  const whole: Map<string, Buffer>[] = []
  let seconds = 0
  for (const [index, name] of ['Alder Yard', 'Birch Yard'].entries()) {
    writeSmallBinder(folders[index] as string, name)
    // over the one before, so that the second is what a replacement leaves
    const ended = await startBuild(folders[index] as string, out, temporary).ended
    if (ended.code !== 0) throw new Error(`a build failed: ${ended.complaint}`)
    whole.push(bytesBelow(out))
    seconds = ended.seconds
  }
  return { base, temporary, out, folders, whole, seconds }
}

const same = (one: ReadonlyMap<string, Buffer>, other: ReadonlyMap<string, Buffer>): boolean =>
  one.size === other.size && [...one].every(([name, bytes]) => other.get(name)?.equals(bytes))

/** Which of the two lies in the output folder, every file of it; nothing when it is neither. */
export const versionIn = ({ out, whole }: Two): number | undefined => {
  if (!existsSync(out)) return undefined
  const found = bytesBelow(out)
  const index = whole.findIndex((one) => same(one, found))
  return index < 0 ? undefined : index
}

/** What lies beside the output, and among temporary files but for the cache of the reader of TypeScript. */
export const leftBeside = ({ out, temporary }: Pick<Two, 'out' | 'temporary'>): readonly string[] => [
  ...readdirSync(dirname(out)).filter((name) => join(dirname(out), name) !== out),
  ...readdirSync(temporary).filter((name) => !name.startsWith('tsx-')),
]

/** Who is ended: a pulled plug, the program alone, or something that it started. */
export type Who = 'everything' | 'program' | 'browser' | 'one of its processes'

export interface Cut {
  readonly stage: string
  readonly who: Who
  readonly ended: Ended
  /** right after it, or once the next run has put back what was between two renames */
  readonly found: number | undefined
  readonly wasAway: boolean
  /** processes that were not ended and go on */
  readonly running: readonly Running[]
}

/** Puts right what a killed run left, as every run does before anything else, and ends with a failure. */
export const recoverOnly = async ({ out, temporary }: Pick<Two, 'out' | 'temporary'>): Promise<void> => {
  const given = process.env.TMPDIR
  process.env.TMPDIR = temporary
  try {
    await withStagedOutput(out, () => Promise.reject(new Error('the next run'))).catch((error: Error) => {
      if (error.message !== 'the next run') throw error
    })
  } finally {
    if (given === undefined) delete process.env.TMPDIR
    else process.env.TMPDIR = given
  }
}

const LOOK = 15 // [ms] between two looks at what runs

/**
 * Builds a folder over what stands in the output, and ends what is named in the middle.
 *
 * @param moment  when, as a share of a whole build; of a browser, of the time that one runs
 * @param chance  0..1, to choose among processes
 */
export const cutBuild = async (
  two: Two,
  folder: string,
  who: Who,
  moment: number,
  chance: number,
): Promise<Cut> => {
  const { child, ended, stage } = startBuild(folder, two.out, two.temporary)
  const pid = child.pid ?? 0
  const seen = new Map<string, Running>()
  const look = (): readonly Running[] => {
    const all = treeOf(pid)
    for (const one of all) seen.set(`${one.pid} ${one.start}`, one)
    return all
  }
  const isOfBrowser = who === 'browser' || who === 'one of its processes'
  let isOver = false
  ended.then(() => {
    isOver = true
  })
  const isBrowser = ({ words }: Running): boolean => words.includes('--headless')
  if (isOfBrowser) await soon(() => isOver || look().some(isBrowser), 60_000)
  const end = performance.now() + moment * two.seconds * 1000 * (isOfBrowser ? BROWSERS_SHARE : 1)
  while (performance.now() < end && !isOver) {
    look()
    await new Promise((done) => setTimeout(done, LOOK))
  }
  const all = look()
  const at = isOver ? 'after its end' : stage()
  const others = all.filter((one) => one.pid !== pid)
  const killed =
    who === 'everything'
      ? all
      : who === 'program' || others.length === 0
        ? all.slice(0, 1)
        : who === 'browser'
          ? others
          : others.slice(Math.floor(chance * others.length)).slice(0, 1)
  for (const one of killed) {
    try {
      process.kill(one.pid, 'SIGKILL')
    } catch {
      // it has ended meanwhile
    }
  }
  const how = await Promise.race([
    ended,
    new Promise<Ended>((done) =>
      setTimeout(() => done({ code: 'does not end', said: '', complaint: '', seconds: 0 }), PATIENCE),
    ),
  ])
  await soon(() => stillRunning(seen.values()).length === 0, 10_000)
  const running = stillRunning(seen.values())
  const wasAway = !existsSync(two.out)
  if (wasAway) await recoverOnly(two)
  return {
    stage: at,
    who: killed.length === 1 && killed[0]?.pid === pid ? 'program' : who,
    ended: how,
    found: versionIn(two),
    wasAway,
    running,
  }
}

/** Of a build, in which a browser runs. */
const BROWSERS_SHARE = 0.4
const PATIENCE = 60_000 // [ms] for a build to end of itself

/** Takes away all of a trial, and whatever a failure left running. */
export const endTrial = (base: string): void => {
  for (const { pid, words } of allRunning()) {
    if (!words.includes(base)) continue
    try {
      process.kill(pid, 'SIGKILL')
    } catch {
      // it has ended meanwhile
    }
  }
  rmSync(base, { recursive: true, force: true, maxRetries: 5 })
}
