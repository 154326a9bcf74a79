/** Kills a writer at a random moment and looks at what the next run finds; used by the tests and by the soak. */
import { spawn } from 'node:child_process'
import { existsSync, mkdirSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { withStagedOutput } from '../../src/output/staged-output.ts'

export const FILES = ['binder.html', 'binder.pdf', 'pages/one.html'] as const

export const textOf = (version: number, name: string): string => `${name} ${version}\n`.repeat(200)

/** The version that a folder holds: 0 when it is not there, undefined when it is not one whole version. */
export const versionIn = (target: string): number | undefined => {
  if (!existsSync(target)) return 0
  const version = Number(/\d+/.exec(readFileSync(join(target, FILES[0]), 'utf8'))?.[0])
  const whole = FILES.every((name) => readFileSync(join(target, name), 'utf8') === textOf(version, name))
  return whole && readdirSync(target).length === 4 ? version : undefined
}

export interface KillTrial {
  /** last version that the writer had reported before it was killed; what was there before when none */
  readonly reported: number
  readonly found: number | undefined
  /** what lies beside the target or in the temporary folder after the next run */
  readonly left: readonly string[]
}

/** When the kill comes: before the writer's n-th file operation, or some time after its first trace. */
export type Moment =
  | { readonly operation: number }
  | {
      /** time from the writer's first trace to the kill [ms] */
      readonly delay: number
      /** pause before each file operation of the writer [ms] */
      readonly slowness: number
    }

/**
 * @param base    folder for everything of this trial
 * @param before  version that is there already
 */
export const killTrial = async (base: string, before: number, moment: Moment): Promise<KillTrial> => {
  const target = join(base, 'shop', 'output')
  const temporary = join(base, 'temporary')
  mkdirSync(temporary, { recursive: true })
  const reported = await writeAndKill(target, temporary, before, moment)
  const given = process.env.TMPDIR
  process.env.TMPDIR = temporary
  try {
    // The next run fails by itself: recovery must not depend on its success.
    await withStagedOutput(target, async () => {
      throw new Error('the next run')
    }).catch((error: Error) => {
      if (error.message !== 'the next run') throw error
    })
  } finally {
    if (given === undefined) delete process.env.TMPDIR
    else process.env.TMPDIR = given
  }
  const left = [
    ...readdirSync(join(base, 'shop')).filter((name) => name !== 'output'),
    ...readdirSync(temporary).filter((name) => name.startsWith('kettle-and-kerf')),
  ]
  return { reported, found: versionIn(target), left }
}

const writeAndKill = (target: string, temporary: string, before: number, moment: Moment): Promise<number> =>
  new Promise((done, fail) => {
    const timed = 'delay' in moment
    const manner = timed ? [moment.slowness, 0] : [0, moment.operation]
    const child = spawn(
      process.execPath,
      ['--import', 'tsx', WRITER, target, ...[before + 1, ...manner].map(String)],
      {
        env: { ...process.env, TMPDIR: temporary },
        stdio: ['ignore', 'pipe', 'pipe'],
      },
    )
    let said = ''
    let complaint = ''
    child.stdout.on('data', (part) => {
      said += part
    })
    child.stderr.on('data', (part) => {
      complaint += part
    })
    // Counted from the writer's first trace, so that its start-up time is no matter.
    const watch = setInterval(() => {
      if (!timed || !hasTrace(join(target, '..'))) return
      clearInterval(watch)
      setTimeout(() => child.kill('SIGKILL'), moment.delay)
    }, 2)
    child.on('error', fail)
    child.on('close', (code, signal) => {
      clearInterval(watch)
      if (signal !== 'SIGKILL') fail(new Error(`the writer ended by itself (${code}): ${complaint}`))
      else done([...said.matchAll(/done (\d+)/g)].map((each) => Number(each[1])).at(-1) ?? before)
    })
  })

const WRITER = fileURLToPath(new URL('endless-writer.ts', import.meta.url))

const hasTrace = (shop: string): boolean =>
  existsSync(shop) && readdirSync(shop).some((name) => name.startsWith('.'))

/** Seeded, so that the moments of a failing trial can be tried again: numbers in 0 to 1 (mulberry32). */
export const moments = (seed: number) => {
  let state = seed
  return (): number => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32
  }
}
