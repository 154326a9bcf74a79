import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { killTrial, type Moment, moments } from './kill-trial.ts'

let base: string
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'output-killed-'))
})
afterEach(() => rmSync(base, { recursive: true, force: true }))

/** One kill after another on the same folder; every time the last version that was reported, or the next, is whole. */
const tryAll = async (kills: readonly Moment[]): Promise<void> => {
  let version = 0
  for (const moment of kills) {
    const trial = await killTrial(base, version, moment)
    expect([trial.reported, trial.reported + 1], JSON.stringify(moment)).toContain(trial.found)
    expect(trial.left, JSON.stringify(moment)).toEqual([])
    version = trial.found ?? 0
  }
  expect(version).toBeGreaterThan(0)
}

describe('by hand', () => {
  // 60 is past the first version; replacing one takes about 35 operations, the swap among them being 12 to 20.
  const STEPS = [60, 1, 4, 8, 11, 13, 14, 15, 16, 17, 19, 22]
  test('killed before a file operation: the output is one whole version, the last or the next', async () => {
    await tryAll(STEPS.map((operation) => ({ operation })))
  }, 120_000)

  test('killed at some moment: the same', async () => {
    const moment = moments(20260101)
    await tryAll([400, 200, 200].map((longest) => ({ delay: 100 + moment() * longest, slowness: 4 })))
  }, 120_000)
})
