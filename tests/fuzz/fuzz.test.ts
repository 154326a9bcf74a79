/** A maker's folder with anything in it: told what is wrong, stopped, or a right binder, and never more than that. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { randomSource } from '../../src/numerics/random.ts'
import { isSoak as isAnySoak } from '../long.ts'
import { processorTime } from '../processor-time.ts'
import { loadFiles, smallBinderFiles } from '../sites/small-binder.ts'
import { isLong, timeLeft } from '../soak/minutes.ts'
import { FOLDERS, type FolderName } from './folders.ts'
import { asLineEdits, chanceOf, type Files, inEveryText, LIVE, type LineEdit, mutation, type Splice, spliced, withLineEdits } from './mutate.ts' // biome-ignore format: one line
import { openPrinter, type Printer } from './on-paper.ts'
import { baselineOf, type Outcome, type Ran, runOne } from './run-one.ts'
import { watchdog } from './watchdog.ts'

/** A short soak tries the cases of every day. */
const isSoak = isAnySoak && isLong
/** Another one for each long soak; KETTLE_FUZZ_SEED tries the same cases once more. */
const SEED = Number(process.env.KETTLE_FUZZ_SEED ?? (isSoak ? Date.now() % 1_000_000_007 : 20_270_401))
/** Folders tried from day to day, and how many of them are composed, which takes the time. */
const TRIED = 150
const COMPOSED = 6
/** Of the time of a soak; of this the part that sheets are composed in, and the part that goes on paper: the rest is decoded only. */
const SHARE = 0.3
const COMPOSING = 0.45
const ON_PAPER = 0.35
const MOST_FAULTS = 20
const TOLD_AFTER = 1000

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

/** s of a processor; solids of a new size of cutter are proved for some seconds */
const LIMIT: Readonly<Record<FolderName, number>> = { small: 5, new: 15, demo: 25 }

const run = async (name: FolderName, changed: Files, deep: boolean, most = 8): Promise<Ran> => {
  const { baseline } = await folderOf(name)
  try {
    const ran = await runOne(changed, { baseline, most, deep })
    const limit = ran.outcome === 'refused' ? LIMIT.small : LIMIT[name]
    const slow = ran.seconds > limit ? [`took ${ran.seconds.toFixed(1)} s`] : []
    return { ...ran, wrong: [...ran.wrong, ...slow] }
  } catch (error) {
    const { stack = '' } = error as Error
    return { outcome: 'refused', pages: 0, wrong: [`threw ${stack.slice(0, 1500)}`], seconds: 0, changed: [] }
  }
}

const tally = () => {
  const outcomes: Record<Outcome, number> = { refused: 0, 'refused later': 0, stopped: 0, held: 0, good: 0 }
  return {
    tried: 0,
    passed: 0,
    composed: 0,
    pages: 0,
    printed: 0,
    paperPages: 0,
    slowest: 0,
    outcomes,
    byHow: {} as Record<string, number>,
  }
}

/** What may be wrong with a folder that is only so on paper is looked for in some of them. */
const onPaper = async (
  printer: Printer,
  { binder, changed }: Ran,
): Promise<{ pages: number; wrong: readonly string[] }> => {
  // the list of all sheets leads to those that are not printed here
  const sheets = changed.filter(({ kind }) => kind !== 'contents').slice(0, 5)
  return binder && sheets.length > 0 ? printer.print(binder, sheets) : { pages: 0, wrong: [] }
}

describe('by hand: whatever stands in a folder', () => {
  it(`is told, stopped or printed right (seed ${SEED})`, { timeout: 24 * 3600 * 1000 }, async () => {
    const chance = chanceOf(randomSource(SEED))
    const counts = tally()
    const wrong: string[] = []
    const goOn = isSoak ? timeLeft(SHARE) : () => counts.tried < TRIED
    const dog = isSoak ? watchdog() : undefined
    const printer = isSoak ? await openPrinter() : undefined
    const start = performance.now()
    let [composingTime, paperTime] = [0, 0]
    while (goOn() && wrong.length < MOST_FAULTS) {
      const roll = chance.next()
      const name: FolderName = !isSoak || roll < 0.8 ? 'small' : roll < 0.95 ? 'new' : 'demo'
      const { files } = await folderOf(name)
      const splices = mutation(files, chance)
      const asText = (few: readonly Splice[], what: readonly string[]): string =>
        JSON.stringify({ folder: name, what: what.slice(0, 4), edits: asLineEdits(files, few) }, undefined, 2)
      dog?.begin(asText(splices, []))
      const { outcomes } = counts
      const began = performance.now()
      const deep = isSoak ? composingTime <= COMPOSING * (began - start) : counts.composed < COMPOSED
      const ran = await run(name, spliced(files, splices), deep)
      if (ran.binder) {
        counts.composed += 1
        composingTime += performance.now() - began
      }
      counts.tried += 1
      counts.pages += ran.pages
      // a run of hours that is cut off has said how far it came
      if (counts.tried % TOLD_AFTER === 0) console.log(`so far, seed ${SEED}: ${JSON.stringify(counts)}`)
      counts.slowest = Math.max(counts.slowest, ran.seconds)
      if (ran.binder || ran.outcome.startsWith('refused')) outcomes[ran.outcome] += 1
      if (ran.outcome !== 'refused') {
        counts.passed += 1
        for (const { how } of splices) counts.byHow[how] = (counts.byHow[how] ?? 0) + 1
      }
      let faults = ran.wrong
      const before = performance.now()
      if (printer && faults.length === 0 && paperTime < ON_PAPER * (before - start)) {
        const paper = await onPaper(printer, ran)
        paperTime += performance.now() - before
        counts.printed += paper.pages > 0 ? 1 : 0
        counts.paperPages += paper.pages
        faults = paper.wrong
      }
      if (faults.length === 0) continue
      // looking for the least of it takes as many trials as it has edits
      dog?.begin(undefined)
      const isOnScreen = ran.wrong.length > 0
      wrong.push(asText(isOnScreen ? await shrunk(name, files, splices) : splices, faults))
      if (isSoak) console.log(wrong.at(-1))
    }
    await printer?.end()
    await dog?.end()
    console.log(`seed ${SEED}: ${JSON.stringify(counts)}`)
    expect(wrong.join('\n')).toBe('')
    expect(counts.passed).toBeGreaterThan(counts.tried / 5)
    expect(counts.outcomes.refused).toBeGreaterThan(counts.tried / 10)
  })
})

describe('by hand: what some program would run or follow, in every text of a folder at once', () => {
  it.each(['small', ...(isSoak ? (['new', 'demo'] as const) : [])] as const)(
    '%s',
    { timeout: 24 * 3600 * 1000 },
    async (name) => {
      const { files } = await folderOf(name)
      // each text in each field where there is time
      const rounds = !isSoak ? 1 : name === 'demo' ? 3 : LIVE.length
      for (let round = 0; round < rounds; round += 1) {
        const taken: Splice[] = []
        const all = inEveryText(files, round * (isSoak ? 1 : 7))
        for (const one of all)
          if ((await run(name, spliced(files, [one]), false)).outcome !== 'refused') taken.push(one)
        // of a name twice one is enough
        const ran = await run(name, spliced(files, taken), true, 1000)
        expect(ran.wrong, `round ${round}`).toEqual([])
        expect(ran.outcome, `round ${round}`).not.toBe('refused')
        expect(taken.length).toBeGreaterThan(all.length / 2)
      }
    },
  )
})

/** The fewest of the splices with which something is still wrong. */
const shrunk = async (
  name: FolderName,
  files: Files,
  splices: readonly Splice[],
): Promise<readonly Splice[]> => {
  for (const one of splices) {
    const rest = splices.filter((other) => other !== one)
    if (rest.length > 0 && (await run(name, spliced(files, rest), true)).wrong.length > 0)
      return shrunk(name, files, rest)
  }
  return splices
}

interface Found {
  readonly folder: FolderName
  readonly what: readonly string[]
  readonly edits: readonly LineEdit[]
}

const FOUND = fileURLToPath(new URL('found/', import.meta.url))

describe('by hand: what was wrong once', () => {
  it('three thousand names that are not known are told as fast as they are read', () => {
    const names = Array.from({ length: 3000 }, (_, index) => `k${index}: 1`)
    const files = smallBinderFiles().set('fixtures/small.yaml', `{ ${names.join(', ')} }`)
    let told = 0
    const took = processorTime(() => {
      told = loadFiles(files).diagnostics.filter(({ code }) => code === 'name-unknown').length
    })
    expect(told).toBe(3000)
    expect(took).toBeLessThan(5000)
  })

  it.each(readdirSync(FOUND).filter((name) => name.endsWith('.json')))('%s', async (name) => {
    const { folder, what, edits } = JSON.parse(readFileSync(`${FOUND}${name}`, 'utf8')) as Found
    const ran = await run(folder, withLineEdits((await folderOf(folder)).files, edits), true)
    expect(ran.wrong).toEqual([])
    // printing takes seconds
    if (!isSoak || !ran.binder || !what.some((one) => one.startsWith('not printed'))) return
    const printer = await openPrinter()
    const paper = await onPaper(printer, ran).finally(printer.end)
    expect(paper.wrong).toEqual([])
    expect(paper.pages).toBeGreaterThan(0)
  })
})
