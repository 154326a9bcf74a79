import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { killTrial, type Moment, moments } from '../output/kill-trial.ts'
import { timeLeft } from './minutes.ts'

const STEPS = 80 // file operations: two whole replacements
const KILLS = 100

let base: string
beforeEach(() => {
  base = mkdtempSync(join(tmpdir(), 'soak-killed-'))
})
afterEach(() => rmSync(base, { recursive: true, force: true }))

/** Kills until the time is over; gives how many there were. */
const tryMany = async (share: number, kills: Iterable<Moment>): Promise<number> => {
  const goOn = timeLeft(share)
  let version = 0
  let count = 0
  for (const moment of kills) {
    if (!goOn()) break
    const trial = await killTrial(base, version, moment)
    expect([trial.reported, trial.reported + 1], JSON.stringify(moment)).toContain(trial.found)
    expect(trial.left, JSON.stringify(moment)).toEqual([])
    version = trial.found ?? 0
    count += 1
  }
  return count
}

describe('by hand', () => {
  test('killed before every file operation: the output is always one whole version', async () => {
    const steps = Array.from({ length: STEPS }, (_, index) => ({ operation: index + 1 }))
    const count = await tryMany(0.15, steps)
    console.log(`${count} of ${STEPS} steps`)
    expect(count).toBeGreaterThan(0)
  })

  test(`killed at up to ${KILLS} random moments: the same`, async () => {
    const seed = Date.now() % 1_000_000
    const moment = moments(seed)
    const count = await tryMany(
      0.1,
      Array.from({ length: KILLS }, () => ({ delay: moment() * 600, slowness: moment() * 10 })),
    )
    console.log(`${count} of ${KILLS} kills, seed ${seed}`)
    expect(count).toBeGreaterThan(0)
  })
})
