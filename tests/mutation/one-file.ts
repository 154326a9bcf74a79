/** One test file run again and again, each time as new: as the test runner does, without starting it. */
import { createRequire } from 'node:module'
import { runInThisContext, Script } from 'node:vm'
import { expect } from 'vitest'
import { loadSolids } from '../../src/solids/solids.ts'
import { HANDED } from './bundles.ts'

const solids = await loadSolids()

type Work = () => unknown

interface Test {
  readonly name: string
  readonly run: Work
}

interface Suite {
  readonly before: Work[]
  readonly beforeEach: Work[]
  readonly after: Work[]
  readonly afterEach: Work[]
  readonly above: Suite | undefined
  readonly name: string
}

/** What a test file is handed in the place of the test runner, and what it says to it. */
const collector = () => {
  const tests: (Test & { suite: Suite })[] = []
  const suite = (name: string, above: Suite | undefined): Suite => ({
    before: [],
    beforeEach: [],
    after: [],
    afterEach: [],
    above,
    name,
  })
  let here = suite('', undefined)

  const each =
    (say: (name: string, run: Work) => void) =>
    (rows: readonly unknown[]) =>
    (name: string, run: (...row: unknown[]) => unknown): void => {
      for (const [index, row] of rows.entries())
        say(`${name} [${index}]`, () => (Array.isArray(row) ? run(...row) : run(row)))
    }
  const test = (name: string, run: Work): void => {
    tests.push({ name: here.name === '' ? name : `${here.name} > ${name}`, run, suite: here })
  }
  const describe = (name: string, run: Work): void => {
    const around = here
    here = suite(around.name === '' ? name : `${around.name} > ${name}`, around)
    run()
    here = around
  }
  const both = Object.assign(test, { each: each(test) })
  const testing = {
    describe: Object.assign(describe, { each: each(describe) }),
    test: both,
    it: both,
    expect,
    beforeAll: (run: Work) => here.before.push(run),
    beforeEach: (run: Work) => here.beforeEach.push(run),
    afterAll: (run: Work) => here.after.push(run),
    afterEach: (run: Work) => here.afterEach.push(run),
    solids,
  }
  return { tests, testing }
}

const chainOf = (suite: Suite | undefined): Suite[] => (suite ? [...chainOf(suite.above), suite] : [])

/** Broken off from outside, so that nothing which hangs can hold on to it. */
const within = (limit: number, run: Work): unknown => {
  const scope = globalThis as { __work?: Work }
  scope.__work = run
  return runInThisContext('globalThis.__work()', { timeout: Math.ceil(limit) })
}

export interface TestFile {
  readonly file: string
  /** Loads it as new. Throws what loading throws. */
  readonly open: (limit: number) => OpenFile
}

export interface OpenFile {
  readonly names: readonly string[]
  /** Runs one test with what must come before it. Throws what the test throws. */
  readonly run: (index: number, limit: number) => Promise<void>
  readonly close: () => Promise<void>
}

/**
 * @param body   of a function of `HANDED`
 * @param chosen whether a mutant is the one
 */
export const testFile = (file: string, body: string, chosen: (number: number) => boolean): TestFile => {
  const require = createRequire(import.meta.url)
  const script = new Script(
    `(function (${HANDED.join(', ')}) {\nconst module = { exports: {} }\n${body}\n})`,
    {
      filename: file,
    },
  )
  const open = (limit: number): OpenFile => {
    const { tests, testing } = collector()
    within(limit, () => script.runInThisContext()(chosen, require, testing))
    const begun = new Set<Suite>()
    const run = async (index: number, limit: number): Promise<void> => {
      const { run: work, suite } = tests[index] as (typeof tests)[number]
      const suites = chainOf(suite)
      for (const each of suites) {
        if (begun.has(each)) continue
        begun.add(each)
        for (const before of each.before) await within(limit, before)
      }
      for (const each of suites) for (const before of each.beforeEach) await within(limit, before)
      try {
        await within(limit, work)
      } finally {
        for (const each of suites) for (const after of each.afterEach) await within(limit, after)
      }
    }
    const close = async (): Promise<void> => {
      for (const suite of begun) for (const after of suite.after) await after()
    }
    return { names: tests.map(({ name }) => name), run, close }
  }
  return { file, open }
}
