/** A maker's folder with anything in it: told what is wrong, stopped, or a right binder, and never more than that. */
import { describe, expect, it } from 'vitest'
import { randomSource } from '../../src/numerics/random.ts'
import { isSoak } from '../long.ts'
import { timeLeft } from '../soak/minutes.ts'
import { FOLDERS, type FolderName } from './folders.ts'
import { asLineEdits, chanceOf, type Files, mutation, type Splice, spliced } from './mutate.ts'
import { baselineOf, type Outcome, type Ran, runOne } from './run-one.ts'

const SEED = Number(process.env.KETTLE_FUZZ_SEED ?? (isSoak ? Date.now() % 1_000_000_007 : 20_270_401))

interface Folder {
  readonly files: Files
  readonly baseline: ReadonlyMap<string, string>
}

const folders = new Map<FolderName, Promise<Folder>>()
const folderOf = (name: FolderName): Promise<Folder> => {
  const before = folders.get(name)
  if (before) return before
  const files = FOLDERS[name]()
  const made = baselineOf(files).then((baseline) => ({ files, baseline }))
  folders.set(name, made)
  return made
}

/** s of a processor; the first proofs of a fixture's solids take longer than all else */
const LIMIT: Readonly<Record<FolderName, number>> = { small: 5, new: 15, demo: 25 }

const run = async (name: FolderName, splices: readonly Splice[], deep: boolean): Promise<Ran> => {
  const { files, baseline } = await folderOf(name)
  try {
    const ran = await runOne(spliced(files, splices), { baseline, most: 8, deep })
    const slow = ran.seconds > LIMIT[name] ? [`took ${ran.seconds.toFixed(1)} s`] : []
    return { ...ran, wrong: [...ran.wrong, ...slow] }
  } catch (error) {
    const { stack = '' } = error as Error
    return { outcome: 'refused', pages: 0, wrong: [`threw ${stack.slice(0, 1500)}`], seconds: 0, changed: [] }
  }
}

/** The fewest of the splices with which something is still wrong. */
const shrunk = async (name: FolderName, splices: readonly Splice[]): Promise<readonly Splice[]> => {
  for (const one of splices) {
    const rest = splices.filter((other) => other !== one)
    if (rest.length > 0 && (await run(name, rest, true)).wrong.length > 0) return shrunk(name, rest)
  }
  return splices
}

const tally = () => {
  const outcomes: Record<Outcome, number> = { refused: 0, 'refused later': 0, stopped: 0, held: 0, good: 0 }
  return { tried: 0, passed: 0, pages: 0, slowest: 0, outcomes }
}

describe('by hand: whatever stands in a folder', () => {
  it(`is told, stopped or printed right (seed ${SEED})`, { timeout: 24 * 3600 * 1000 }, async () => {
    const chance = chanceOf(randomSource(SEED))
    const counts = tally()
    const wrong: string[] = []
    const goOn = isSoak ? timeLeft(0.35) : () => counts.tried < 150
    while (goOn() && wrong.length < 20) {
      const roll = chance.next()
      const name: FolderName = !isSoak || roll < 0.8 ? 'small' : roll < 0.95 ? 'new' : 'demo'
      const splices = mutation((await folderOf(name)).files, chance)
      // composing takes the time: of those that are sound a part is enough from day to day
      const deep = isSoak || counts.outcomes.good + counts.outcomes.stopped < 12
      const ran = await run(name, splices, deep)
      counts.tried += 1
      counts.pages += ran.pages
      counts.slowest = Math.max(counts.slowest, ran.seconds)
      counts.outcomes[ran.outcome] += 1
      if (ran.outcome !== 'refused') counts.passed += 1
      if (ran.wrong.length === 0) continue
      const few = await shrunk(name, splices)
      const found = {
        folder: name,
        what: ran.wrong.slice(0, 4),
        edits: asLineEdits((await folderOf(name)).files, few),
      }
      wrong.push(JSON.stringify(found, undefined, 2))
    }
    console.log(`seed ${SEED}: ${JSON.stringify(counts)}`)
    expect(wrong.join('\n')).toBe('')
    expect(counts.passed).toBeGreaterThan(counts.tried / 5)
    expect(counts.outcomes.refused).toBeGreaterThan(counts.tried / 10)
  })
})
