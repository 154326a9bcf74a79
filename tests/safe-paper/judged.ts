/** Takes folders through the program, and hands what stands on paper to the code that judges it. */
import { load } from 'js-yaml'
import { type BoundBatch, bindBatch } from '../../src/binder/bind-batch.ts'
import { bindMould } from '../../src/binder/bind-mould.ts'
import { keptOrMade } from '../../src/kept-or-made.ts'
import { heatFacts } from '../../src/sheets/batch/blend.ts'
import { lyeDraws, lyeFacts, lyeSteps } from '../../src/sheets/batch/lye.ts'
import { oilDraws } from '../../src/sheets/batch/oils.ts'
import { vesselTable } from '../../src/sheets/batch/ready.ts'
import { stateStamp } from '../../src/sheets/batch/state.ts'
import { fillFacts, weightsTable } from '../../src/sheets/batch/weights.ts'
import type { Sheet, Value } from '../../src/sheets/model.ts'
import { frame, loadFiles } from '../sites/small-binder.ts'
import { judgeBlock } from './again/block.ts'
import { type Judged, judge, type Plain, type Verdict } from './again/judge.ts'
import type { AnyFolder } from './any-folder.ts'

/** What a batch is told to be by the program, and by the other code. */
export interface Trial {
  readonly key: string
  readonly state: BoundBatch['state']
  /** codes of what stops it */
  readonly stops: readonly string[]
  readonly verdict: Verdict
}

export interface FolderTrial {
  /** codes of mistakes, where the folder was refused */
  readonly refused: readonly string[]
  readonly trials: readonly Trial[]
}

/** How things are weighed: on which scale, in how many draws. */
const weighedOf = (batch: BoundBatch): Map<string, { scale: string; draws: number }> => {
  const of = ({ scale, draws }: BoundBatch['water']) => ({ scale: scale.name, draws: draws.length })
  return new Map([
    ...batch.fats.map(({ key, plan }) => [`fat.${key}`, of(plan)] as const),
    ...batch.alkalis.map(({ key, plan }) => [key, of(plan)] as const),
    ...batch.additions.map(({ key, plan }) => [`addition.${key}`, of(plan)] as const),
    ['water', of(batch.water)],
  ])
}

/** Folders of a group have the same materials, and these are long. */
const knownPlain = new Map<string, Plain>()

export const plainFolder = (files: ReadonlyMap<string, string>) => {
  const read = (path: string): Plain => {
    const text = files.get(path) ?? ''
    return path.startsWith('materials/') ? keptOrMade(knownPlain, 4, text, () => load(text)) : load(text)
  }
  return {
    folder: {
      shop: read('shop.yaml'),
      materials: read('materials/all.yaml'),
      fixture: read('fixtures/small.yaml'),
    },
    recipe: (key: string): Plain => read(`recipes/${key}.yaml`),
    batch: (key: string): Plain => read(`batches/${key}.yaml`),
  }
}

type PlainFolder = ReturnType<typeof plainFolder>

/** Text as it is shown, and how things are weighed: nothing else of the program is handed over. */
const judgedOf = (plain: PlainFolder, batch: BoundBatch, sheet: Pick<Sheet, 'values'>): Judged => ({
  folder: plain.folder,
  recipe: plain.recipe(batch.recipeKey),
  batch: plain.batch(batch.key),
  shown: new Map([...sheet.values].map(([name, { shown }]) => [name, shown])),
  weighed: weighedOf(batch),
  state: batch.state,
  ...(process.env.KETTLE_FEWER_DRAWS === '1' ? { draws: 10_000 } : {}),
})

export const judgeSheet = (plain: PlainFolder, batch: BoundBatch, sheet: Pick<Sheet, 'values'>): Verdict =>
  judge(judgedOf(plain, batch, sheet))

export const blockFaults = (plain: PlainFolder, batch: BoundBatch, sheet: Sheet): string[] => {
  const { state } = sheet.blocks
  return judgeBlock(judgedOf(plain, batch, sheet), state?.kind === 'stamp' && (state.ticks?.length ?? 0) > 0)
}

/** Values in blocks, by name, as a sheet gathers them. */
const gather = (thing: unknown, values: Map<string, Value>): void => {
  if (Array.isArray(thing)) for (const one of thing) gather(one, values)
  else if (typeof thing === 'object' && thing !== null) {
    if ('shown' in thing && 'name' in thing) values.set(String(thing.name), thing as Value)
    else for (const one of Object.values(thing)) gather(one, values)
  }
}

/**
 * What the sheet of a batch would show of weights, vessels and temperatures, stopped or not: its own blocks, but those
 * of the block in its mould, which takes a second to reckon.
 */
export const valuesOf = (batch: BoundBatch): Map<string, Value> => {
  const values = new Map<string, Value>()
  for (const block of [
    stateStamp(frame, batch),
    weightsTable(frame, batch),
    fillFacts(frame, batch),
    vesselTable(frame, batch),
    oilDraws(frame, batch, NOWHERE),
    lyeDraws(frame, batch),
    lyeFacts(frame, batch),
    lyeSteps(frame, batch),
    heatFacts(frame, batch),
  ])
    gather(block, values)
  return values
}

/** Where the record stands: here nobody goes there. */
const NOWHERE = { record: '' }

/** Every batch of a folder, without the heat of its block; of those that are stopped what would have been printed. */
export const tryFolder = ({ files }: AnyFolder, alsoStopped: boolean): FolderTrial => {
  const { content, diagnostics } = loadFiles(files)
  if (!content) return { refused: diagnostics.map(({ code }) => code), trials: [] }
  const plain = plainFolder(files)
  const [fixture] = content.fixtures.values()
  if (!fixture) throw new Error('A folder without a mould')
  const mould = bindMould(content, fixture)
  const trials = [...content.batches.values()].flatMap((file): Trial[] => {
    const bound = bindBatch(content, file, mould)
    if (!('batch' in bound)) throw new Error('A shop without vessels')
    const { batch } = bound
    const stops = [
      ...new Set(batch.findings.filter(({ severity }) => severity === 'stop').map(({ code }) => code)),
    ]
    const one = { key: batch.key, state: batch.state, stops }
    if (batch.state === 'stop' && !alsoStopped) return [{ ...one, verdict: { unsafe: [], differs: [] } }]
    return [{ ...one, verdict: judgeSheet(plain, batch, { values: valuesOf(batch) }) }]
  })
  return { refused: [], trials }
}
