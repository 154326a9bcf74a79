/** The browser that prints is taken away, breaks down, hangs or does not start: plain words, soon, and nothing of it is left. */
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { PrintBrowser } from '../../src/print/job.ts'
import { PrintGateError, printBinder } from '../../src/print/print-binder.ts'
import { allRunning, type Running, signal, soon, stillRunning, treeOf } from '../processes.ts'
import { kitchenSink } from './kitchen-sink/kitchen-sink.ts'
import { browserSettings } from './kitchen-sink/shared-browser.ts'

let base: string
let number = 0
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'browser-lost-'))
})
afterEach(() => rmSync(base, { recursive: true, force: true }))

const settings = (more: Partial<PrintBrowser> = {}): PrintBrowser => {
  number += 1
  return { ...browserSettings(), profileFolder: join(base, `profile-${number}`), ...more }
}

const processesOf = ({ profileFolder }: PrintBrowser): readonly Running[] => {
  const all = allRunning()
  return all
    .filter(({ words }) => words.includes(`--user-data-dir=${profileFolder}`))
    .flatMap(({ pid }) => treeOf(pid, all))
}

interface Lost {
  readonly said: unknown
  readonly seconds: number
  /** what it had started and still runs, what is in its folder */
  readonly left: readonly unknown[]
  readonly met: number
}

/**
 * @param delay how long after the stage of printing began; where the paper was ready by then, as it is on a machine
 *   with nothing else to do, half of that is tried, down to the very beginning [ms]
 * @param act what is done with the browser's processes
 */
const printAnd = async (
  browser: PrintBrowser,
  stage: string,
  delay: number,
  act: (processes: readonly Running[]) => readonly Running[],
): Promise<Lost> => {
  const seen: Running[] = []
  let met = 0
  let over = false
  const meet = () => {
    const all = processesOf(browser)
    seen.push(...all)
    met = act(all).length
    // a slow machine may not have started it yet
    if (met === 0 && !over) setTimeout(meet, 2)
  }
  const began = performance.now()
  const said = await printBinder(kitchenSink(), browser, (name) => {
    if (name !== stage) return
    if (delay < 1) meet()
    else setTimeout(meet, delay)
  }).catch((error: unknown) => error)
  over = true
  if (!(said instanceof Error) && delay >= 1) {
    expect(await soon(() => stillRunning(seen).length === 0)).toBe(true)
    return printAnd({ ...browser, profileFolder: settings().profileFolder }, stage, delay / 2, act)
  }
  const seconds = (performance.now() - began) / 1000
  await soon(() => stillRunning(seen).length === 0)
  return { said, seconds, met, left: [...stillRunning(seen), ...readdirSync(base)] }
}

const kill = (processes: readonly Running[]): readonly Running[] => {
  for (const { pid } of processes) signal(pid, 'SIGKILL')
  return processes
}
const first = (processes: readonly Running[]): readonly Running[] => processes.slice(0, 1)
const pages = (processes: readonly Running[]): readonly Running[] =>
  processes.filter(({ words }) => words.includes('--type=renderer'))

const expectPlain = (said: unknown, words: RegExp): void => {
  expect(said).toBeInstanceOf(PrintGateError)
  expect(said).toMatchObject({ plain: true, exitCode: 2 })
  expect((said as Error).message).toMatch(words)
  expect((said as Error).message).not.toMatch(/[Pp]rotocol|Target|\n/)
}

describe('by hand: a browser that is taken away while it prints', () => {
  it.each([
    ['all of it', (all: readonly Running[]) => kill(all), 'lay out', 50],
    ['all of it', (all: readonly Running[]) => kill(all), 'first pass', 30],
    ['its first process', (all: readonly Running[]) => kill(first(all)), 'lay out', 0],
    ['its first process', (all: readonly Running[]) => kill(first(all)), 'second pass', 50],
    ['the process of its page', (all: readonly Running[]) => kill(pages(all)), 'lay out', 100],
    ['the process of its page', (all: readonly Running[]) => kill(pages(all)), 'first pass', 20],
  ])(
    '%s is missed at once, in plain words (%#)',
    async (_, act, stage, delay) => {
      const { said, seconds, left, met } = await printAnd(settings(), stage, delay, act)
      expect(met).toBeGreaterThan(0)
      expectPlain(said, /^The browser that prints ended before the paper was ready\./)
      expect(seconds).toBeLessThan(20)
      expect(left).toEqual([])
    },
    60_000,
  )
})

describe('by hand: a browser that hangs', () => {
  const stop = (processes: readonly Running[]): readonly Running[] => {
    for (const { pid } of processes) signal(pid, 'SIGSTOP')
    return processes
  }

  it.each([
    ['all of it', (all: readonly Running[]) => stop(all)],
    ['its first process', (all: readonly Running[]) => stop(first(all))],
    ['the process of its page', (all: readonly Running[]) => stop(pages(all))],
  ])(
    'is given up at its limit and ended with all that it started: %s',
    async (_, act) => {
      const { said, seconds, left, met } = await printAnd(settings({ limitSeconds: 1.5 }), 'lay out', 50, act)
      expect(met).toBeGreaterThan(0)
      expectPlain(said, /^Printing was not ready within 1.5 seconds/)
      expect(seconds).toBeLessThan(20)
      expect(left).toEqual([])
    },
    60_000,
  )
})

describe('by hand: a browser that does not start', () => {
  const script = (text: string): string => {
    const path = join(base, 'browser')
    writeFileSync(path, `#!/bin/sh\n${text}\n`, { mode: 0o755 })
    return path
  }
  const refusal = async (browser: PrintBrowser): Promise<unknown> =>
    printBinder(kitchenSink(), browser).catch((error: unknown) => error)

  it('ends at once', async () => {
    const browser = settings({ path: script('exit 3') })
    expectPlain(
      await refusal(browser),
      /^The browser that prints did not start \(.*browser\): it ended at once\.$/,
    )
    expect(existsSync(browser.profileFolder)).toBe(false)
  })

  it('never answers, and is given up with all that it started', async () => {
    const browser = settings({ path: script('sleep 997.5 &\nsleep 998.5\n'), startSeconds: 1 })
    const began = performance.now()
    expectPlain(await refusal(browser), /it did not answer within 1 seconds\.$/)
    expect(performance.now() - began).toBeLessThan(10_000)
    const asleep = () => allRunning().filter(({ words }) => /^sleep 99[78]\.5$/.test(words))
    expect(await soon(() => asleep().length === 0)).toBe(true)
    expect(existsSync(browser.profileFolder)).toBe(false)
  })

  it('ends while it starts, whenever that is', async () => {
    // the real one, which is ended some time after it was started
    const { path } = browserSettings()
    for (const time of [0.05, 0.1, 0.15, 0.2, 0.3]) {
      const browser = settings({
        path: script(`(sleep ${time}; kill -9 $$) </dev/null 3>&- 4<&- &\nexec '${path}' "$@"`),
        startSeconds: 10,
      })
      const began = performance.now()
      const said = await refusal(browser)
      // a machine with nothing else to do may have printed by then
      if (time > 0.1 && !(said instanceof Error)) continue
      // it may have been ready sooner, and is then missed while it prints
      expectPlain(said, /did not start|ended before the paper was ready/)
      expect(performance.now() - began, `${time}`).toBeLessThan(9000)
    }
  }, 60_000)

  it('is no program, or finds no place for its profile', async () => {
    expectPlain(await refusal(settings({ path: join(base, 'none') })), /did not start/)
    mkdirSync(join(base, 'full'))
    writeFileSync(join(base, 'full', 'file'), '')
    expectPlain(await refusal(settings({ profileFolder: join(base, 'full', 'file', 'x') })), /did not start/)
  })
})
