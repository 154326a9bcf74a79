/** Mutants held against the tests that reach them. */

import { createHash } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { basename, join } from 'node:path'
import { deserialize, serialize } from 'node:v8'
import type fastCheck from 'fast-check'
import { bundled, type Folder, type Numbered, type Program, readProgram, testsOf } from './bundles.ts'
import { type TestFile, testFile } from './one-file.ts'

/** A mutant may take as much longer as this, and never less than LEAST, before it is broken off [ms]. */
const PATIENCE = 20
const LEAST = 2_000
/** A test that takes longer than this without a mutant holds none of them [ms]. */
const TOO_LONG = 10_000

interface Reach {
  /** numbers of mutants that are asked for while it loads, ascending */
  readonly loading: Uint32Array
  /** [ms of a processor] */
  readonly loadTime: number
  readonly count: number
  /** tests that take too long, or fail without a mutant */
  readonly leftOut: readonly string[]
  /** quickest first */
  readonly tests: readonly { readonly index: number; readonly time: number; readonly reached: Uint32Array }[]
}

interface Ready extends TestFile, Reach {}

interface State {
  chosen: number
  readonly seen: Uint8Array
}

const numbersIn = (seen: Uint8Array): number[] => {
  const numbers: number[] = []
  for (let number = seen.indexOf(1); number >= 0; number = seen.indexOf(1, number + 1)) numbers.push(number)
  return numbers
}

/** Whether an ascending list has a number. */
const has = (list: Uint32Array, number: number): boolean => {
  let [from, to] = [0, list.length]
  while (from < to) {
    const middle = (from + to) >> 1
    if ((list[middle] as number) < number) from = middle + 1
    else to = middle
  }
  return list[from] === number
}

/** `refused`: by the types, before any test. */
export type Outcome = 'caught' | 'hung' | 'refused' | 'survived' | 'unreached'

export interface Tried {
  readonly mutant: Numbered
  readonly outcome: Outcome
  /** the test that caught it, or how many let it pass */
  readonly by: string
  readonly time: number
}

export interface Bench {
  readonly program: Program
  readonly files: readonly Ready[]
  readonly tryOne: (mutant: Numbered) => Promise<Tried>
}

const told = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).slice(0, 300)
const isHang = (error: unknown): boolean =>
  (error as { code?: string } | undefined)?.code === 'ERR_SCRIPT_EXECUTION_TIMEOUT'

/** Test files of these folders, each run once without a mutant: what it reaches, and how long it takes. */
export const openBench = async (folders: readonly Folder[], most: number): Promise<Bench> => {
  const program = readProgram()
  const state: State = { chosen: 0, seen: new Uint8Array(program.mutants.length + 1) }
  const chosen = (number: number): boolean => {
    state.seen[number] = 1
    return number === state.chosen
  }
  // a counterexample need not be made short
  // (of the copy that test files are handed)
  const fc = createRequire(import.meta.url)('fast-check') as typeof fastCheck
  fc.configureGlobal({ endOnFailure: true })

  const names = [...new Set(folders)].flatMap(testsOf)
  const files: Ready[] = []
  for (const name of names) {
    const body = await bundled(program, name)
    files.push(await ready(testFile(name, body, chosen), state, body))
  }

  const tryOne = async (mutant: Numbered): Promise<Tried> => {
    const start = performance.now()
    const outcome = (outcome: Outcome, by: string): Tried => ({
      mutant,
      outcome,
      by,
      time: performance.now() - start,
    })
    state.chosen = mutant.number
    try {
      let [passed, missed, left] = [0, 0, most]
      for (const file of inOrder(files, mutant)) {
        const isLoaded = has(file.loading, mutant.number)
        const reaching = file.tests.filter(({ reached }) => isLoaded || has(reached, mutant.number))
        // those of its own file are asked in any case
        const isOwn = isNamedAfter(mutant, file)
        const wanted = reaching.filter(({ time }) => {
          left -= isOwn ? 0 : time
          return left > 0
        })
        missed += reaching.length - wanted.length
        if (wanted.length === 0) continue
        const fault = await firstFault(file, wanted)
        if (fault)
          return outcome(fault.hung ? 'hung' : 'caught', `${file.file}: ${fault.test}: ${fault.said}`)
        passed += wanted.length
      }
      return passed + missed === 0
        ? outcome('unreached', '')
        : outcome('survived', `${passed} tests${missed === 0 ? '' : ` of ${passed + missed}`}`)
    } finally {
      state.chosen = 0
    }
  }
  return { program, files, tryOne }
}

/** Of a processor, whoever else wants it [ms]. */
const spentSince = (before: NodeJS.CpuUsage): number => {
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}

/** What a file of tests reaches, measured once without a mutant; kept, where somebody says where, until anything changes. */
const ready = async (file: TestFile, state: State, body: string): Promise<Ready> => {
  const kept = process.env.KETTLE_MUTANT_REACH
  if (kept === undefined) return { ...file, ...(await measured(file, state)) }
  const place = join(kept, createHash('sha256').update(file.file).update(body).digest('hex'))
  if (existsSync(place)) return { ...file, ...(deserialize(readFileSync(place)) as Reach) }
  const reach = await measured(file, state)
  mkdirSync(kept, { recursive: true })
  writeFileSync(place, serialize(reach))
  return { ...file, ...reach }
}

const measured = async (file: TestFile, state: State): Promise<Reach> => {
  const anew = (): Uint32Array => {
    const reached = Uint32Array.from(numbersIn(state.seen))
    state.seen.fill(0)
    return reached
  }
  anew()
  const before = process.cpuUsage()
  const open = file.open(TOO_LONG)
  const loadTime = spentSince(before)
  const loading = anew()
  const tests = []
  const leftOut = []
  for (const [index, name] of open.names.entries()) {
    const before = process.cpuUsage()
    try {
      await open.run(index, TOO_LONG)
    } catch {
      leftOut.push(`${file.file}: ${name}`)
      anew()
      continue
    }
    tests.push({ index, time: spentSince(before), reached: anew() })
  }
  await open.close()
  tests.sort((one, other) => one.time - other.time)
  return { leftOut, loading, loadTime, count: open.names.length, tests }
}

/** A mutant's own tests: of a file that is called as its file is. */
const isNamedAfter = ({ file }: Numbered, tests: TestFile): boolean =>
  basename(tests.file).startsWith(basename(file, '.ts'))

/** The file of its own name first, then those of its folder, then quick ones. */
const inOrder = (files: readonly Ready[], mutant: Numbered): Ready[] => {
  const own = new Set(testsOf(mutant.folder))
  const rank = (ready: Ready): number => {
    if (isNamedAfter(mutant, ready)) return 0
    return own.has(ready.file) ? 1 : 2
  }
  const time = ({ tests, loadTime }: Ready): number => tests.reduce((sum, test) => sum + test.time, loadTime)
  return [...files].sort((one, other) => rank(one) - rank(other) || time(one) - time(other))
}

const firstFault = async (
  file: Ready,
  wanted: Ready['tests'],
): Promise<{ test: string; said: string; hung: boolean } | undefined> => {
  let test = 'loading'
  try {
    const open = file.open(LEAST + PATIENCE * file.loadTime)
    if (open.names.length !== file.count) return { test, said: 'other tests', hung: false }
    for (const { index, time } of wanted) {
      test = open.names[index] as string
      await open.run(index, LEAST + PATIENCE * time)
    }
    await open.close()
  } catch (error) {
    return { test, said: told(error), hung: isHang(error) }
  }
  return undefined
}
