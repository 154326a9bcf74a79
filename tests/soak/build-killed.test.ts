/** Whole builds that are killed at random moments: the pages and the paper are the old ones or the new ones, every file. */
import { mkdtempSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import {
  type Cut,
  cutBuild,
  endTrial,
  leftBeside,
  startBuild,
  type Two,
  twoBinders,
  versionIn,
  type Who,
} from '../output/build-trial.ts'
import { moments } from '../output/kill-trial.ts'
import { timeLeft } from './minutes.ts'

const KILLS = 100
const SHARE = 0.3
/** Who is ended, in turn. */
const WHO: readonly Who[] = [
  'everything',
  'program',
  'everything',
  'browser',
  'program',
  'one of its processes',
]

let base: string
let two: Two
beforeAll(async () => {
  base = mkdtempSync(join(tmpdir(), 'soak-build-killed-'))
  two = await twoBinders(base)
})
afterAll(() => endTrial(base))

const tallied = (all: readonly string[]): string =>
  [...new Set(all)].map((one) => `${one} ${all.filter((other) => other === one).length}`).join(', ')

describe('by hand', () => {
  test(`killed at up to ${KILLS} random moments, output and machine are in order after one more build`, async () => {
    const seed = Number(process.env.KETTLE_KILL_SEED ?? Date.now() % 1_000_000)
    const chance = moments(seed)
    const goOn = timeLeft(SHARE)
    const cuts: Cut[] = []
    let before = 1
    const killed = (): number => cuts.filter(({ stage }) => stage !== 'after its end').length
    for (let count = 0; killed() < KILLS && (killed() === 0 || goOn()); count += 1) {
      const after = 1 - before
      const folder = two.folders[after] as string
      const cut = await cutBuild(two, folder, WHO[count % WHO.length] as Who, chance(), chance())
      cuts.push(cut)
      const { stage, who, ended, found, running } = cut
      const at = `kill ${count + 1}, seed ${seed}: ${who} at ${stage}: ${ended.code} ${ended.complaint}`
      expect([before, after], at).toContain(found)
      expect(running, at).toEqual([])
      if (ended.code === 0) expect(found, at).toBe(after)
      else if (ended.code !== 'SIGKILL') {
        expect(ended.code, at).toBe(2)
        expect(found, at).toBe(before)
        expect(ended.complaint, at).toMatch(/^[A-Z][^\n]*\.\n$/)
        expect(ended.complaint, at).not.toMatch(/fault of the program|rotocol/)
        // nothing has to wait for the next run then
        expect(leftBeside(two), at).toEqual([])
      }
      const again = await startBuild(folder, two.out, two.temporary).ended
      expect([again.code, again.complaint], at).toEqual([0, ''])
      expect(versionIn(two), at).toBe(after)
      expect(leftBeside(two), at).toEqual([])
      // a machine that others use is faster or slower a minute later
      two = { ...two, seconds: again.seconds }
      before = after
    }
    console.log(
      [
        `${killed()} of ${KILLS} kills, seed ${seed}, the last build took ${two.seconds.toFixed(1)} s`,
        `where: ${tallied(cuts.map(({ stage }) => stage))}`,
        `who: ${tallied(cuts.map(({ who }) => who))}`,
        `found: ${tallied(cuts.map(({ found, wasAway }) => `${found === undefined ? 'neither' : 'whole'}${wasAway ? ', put back' : ''}`))}`,
        `ended: ${tallied(cuts.map(({ ended }) => String(ended.code)))}`,
      ].join('\n'),
    )
    expect(killed()).toBeGreaterThan(0)
  })
})
