/**
 * Whether the tests of the calculators notice small faults in them, by a sample of all that there are.
 *
 * By hand, for the big numbers (an hour on a quiet core), what became of each going to a file:
 *     KETTLE_MUTANTS=1300 KETTLE_MUTANT_SEED=1 KETTLE_MUTANTS_TO=/tmp/tried.jsonl nice npm run soak -- --minutes 60 tests/mutation
 * KETTLE_MUTANT_FOLDERS=wires,cure keeps to these; KETTLE_MUTANTS_AGAIN=FILE tries what survived in such a file once
 * more, KETTLE_MUTANT_MOST=20000 with tests for so many milliseconds each; KETTLE_MUTANT_REACH=FOLDER keeps what
 * each test reaches, which takes minutes to find out, for the next time.
 */
import { appendFileSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { isLong, timeLeft } from '../soak/minutes.ts'
import { CALCULATORS, type Folder, type Numbered } from './bundles.ts'
import { isCaught, keysOf, sampleOf, shuffled, tableOf } from './sample.ts'
import { openBench, type Tried } from './trial.ts'
import { refusedByTypes } from './types.ts'

const given = (name: string): string | undefined => process.env[`KETTLE_${name}`]
const SEED = Number(given('MUTANT_SEED') ?? Date.now() % 1_000_000_007)
/** A number that was asked for is tried whatever it takes. */
const ASKED = given('MUTANTS') !== undefined || given('MUTANTS_AGAIN') !== undefined
const COUNT = Number(given('MUTANTS') ?? 10_000)
/** Of the time of a soak. */
const SHARE = 0.1
/** Folders whose tests take seconds: one of them, in a soak that has no time to look for what nobody has met yet. */
const QUICK: readonly Folder[] = ['quote', 'router', 'geometry', 'units']
const FEW = 10
/** Of tests for each mutant [ms of a processor], slowest left out; most are caught by the first. */
const MOST = Number(given('MUTANT_MOST') ?? 1_000)

const foldersOf = (random: () => number): readonly Folder[] => {
  const named = given('MUTANT_FOLDERS')?.split(',')
  if (named) return CALCULATORS.filter((folder) => named.includes(folder))
  if (ASKED) return CALCULATORS
  return shuffled(isLong ? CALCULATORS : QUICK, random).slice(0, 1)
}

/** One of each folder by turns, so that a sample which is broken off is one of all folders. */
const byTurns = (sample: ReadonlyMap<Folder, readonly Numbered[]>): Numbered[] =>
  [...sample.values()]
    .flatMap((list) => list.map((mutant, index) => ({ mutant, turn: (index + 0.5) / list.length })))
    .sort((one, other) => one.turn - other.turn)
    .map(({ mutant }) => mutant)

/** What is listed with its reason; what has none yet is told again. */
const listed = new Set(
  (readFileSync(new URL('survivors.md', import.meta.url), 'utf8').split('\n## Not ')[0] ?? '')
    .split('\n')
    .filter((line) => line.startsWith('- src/'))
    .map((line) => line.slice(2)),
)

describe('by hand: faults in the calculators', () => {
  test('are noticed by narrow tests', async () => {
    const goOn = ASKED ? () => true : timeLeft(SHARE)
    let state = SEED
    const random = () => {
      state = (state * 48_271) % 2_147_483_647
      return state / 2_147_483_647
    }
    const folders = foldersOf(random)
    const bench = await openBench(folders, MOST)
    const { mutants } = bench.program
    const keys = keysOf(mutants)
    const again = given('MUTANTS_AGAIN')
    const survived = again === undefined ? undefined : survivorsIn(again)
    const wanted = survived
      ? mutants.filter((mutant) => survived.has(keys.get(mutant) as string))
      : byTurns(sampleOf(mutants, COUNT, SEED))
    const ran: Tried[] = []
    for (const mutant of wanted.filter(({ folder }) => folders.includes(folder))) {
      if (!goOn() && ran.length >= FEW) break
      const one = await bench.tryOne(mutant)
      ran.push(one)
      write(one, keys.get(mutant) as string)
    }
    const refused = refusedByTypes(ran.filter((one) => !isCaught(one)).map(({ mutant }) => mutant))
    const tried = ran.map(
      (one): Tried => (refused.has(one.mutant) ? { ...one, outcome: 'refused', by: 'types' } : one),
    )
    for (const one of tried) if (one.outcome === 'refused') write(one, keys.get(one.mutant) as string)
    const survivors = tried.filter((one) => !isCaught(one)).map(({ mutant }) => keys.get(mutant) as string)
    const unknown = survivors.filter((key) => !listed.has(key))
    console.log(
      [
        `seed ${SEED}, ${folders.join(', ')}: ${tried.length} tried, ${tried.length - survivors.length} caught`,
        tableOf(mutants, tried),
        `survivors that are not listed: ${unknown.length}`,
        ...unknown.map((key) => `- ${key}`),
      ].join('\n'),
    )
    expect(tried.length).toBeGreaterThan(0)
    // a few of few may well survive; of more than half something is wrong with the trial, or with the tests
    if (!survived) expect(survivors.length).toBeLessThan(tried.length / 2)
  })
})

const write = ({ outcome, by, time }: Tried, key: string): void => {
  const to = given('MUTANTS_TO')
  if (to !== undefined)
    appendFileSync(to, `${JSON.stringify({ outcome, key, by, time: Math.round(time) })}\n`)
}

const survivorsIn = (file: string): Set<string> => {
  // the last word on each counts
  const outcomes = new Map<string, string>()
  for (const line of readFileSync(file, 'utf8').split('\n'))
    if (line !== '') {
      const { key, outcome } = JSON.parse(line) as { key: string; outcome: string }
      outcomes.set(key, outcome)
    }
  return new Set(
    [...outcomes.keys()].filter((key) => ['survived', 'unreached'].includes(outcomes.get(key) as string)),
  )
}
