/** The batch sheet: one dated batch, scaled, weighed out in draws, with every step, hold and blank. */
import type { BoundBatch } from '../binder/bind-batch.ts'
import { knownNotice, remedyTable, stateStamp } from './batch-state.ts'
import {
  blendSteps,
  grossStep,
  lyeReadySteps,
  lyeSteps,
  pourSteps,
  readySteps,
  scaleCheckStep,
  watchSteps,
} from './batch-steps.ts'
import {
  fillFacts,
  liftFacts,
  lyeDraws,
  oilDraws,
  recordTable,
  troubleTable,
  weightsTable,
} from './batch-tables.ts'
import { finishSheet, pickSources } from './compose.ts'
import type { Frame } from './frame.ts'
import type { Block, Sheet, Step, Steps } from './model.ts'

/** @param order place among the batch sheets, from 1: its number is 4.order */
export const batchSheet = (frame: Frame, batch: BoundBatch, order: number): Sheet => {
  const { say, show } = frame
  const title = say('batch.title', { recipe: batch.recipeTitle, date: show.date('batch.date', batch.date) })
  const ready = readySteps(frame, batch)
  const oilsBefore = scaleCheckStep(frame, batch)
  const oilsAfter = grossStep(frame, batch)
  const beforeLye = lyeReadySteps(frame, batch)
  const lye = lyeSteps(frame, batch)
  const blend = blendSteps(frame, batch)
  const pour = pourSteps(frame, batch)
  const watch = watchSteps(frame)
  let next = 1
  const numbered = (items: readonly Step[]): Steps => {
    const first = next
    next += items.length
    return { kind: 'steps', first, items }
  }
  const blocks: Record<string, Block> = {
    state: stateStamp(frame, batch),
    weights: weightsTable(frame, batch),
    fill: fillFacts(frame, batch),
    ready: numbered(ready),
    lifting: liftFacts(frame, batch),
    'oils-before': numbered(oilsBefore),
    oils: oilDraws(frame, batch),
    'oils-after': numbered(oilsAfter),
    known: knownNotice(frame, batch),
    remedies: remedyTable(frame, batch),
    'lye-draws': lyeDraws(frame, batch),
    'lye-before': numbered(beforeLye),
    lye: numbered(lye),
    blend: numbered(blend),
    pour: numbered(pour),
    watch: numbered(watch),
    trouble: troubleTable(frame),
    record: recordTable(frame),
  }
  return finishSheet({
    ...frame.sheet('batch', `batch/${batch.key}`, say('section.batch'), `4.${order}`, title),
    template: frame.template('batch'),
    fill: {},
    blocks,
    sources: pickSources(frame.sources, [
      ...batch.fats.flatMap((fat) => fat.sources),
      'iupac-atomic-weights',
      'laliberte2009',
      'olsson1997',
      'felder',
      'niosh-94-110',
      'waters1993',
      'common-practice',
    ]),
  })
}
