/** The batch sheet: one dated batch, scaled, weighed out in draws, with every step, hold and blank. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { BoundCure } from '../../binder/bind-calendar.ts'
import { isToBeMade } from '../../binder/stock-needs.ts'
import { finishSheet, nothing, pickSources } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { linkTo, type Place } from '../links.ts'
import type { Block, NamedStep, Sheet, Steps } from '../model.ts'
import { fixedLinks } from '../places.ts'
import { typedReadings, withTyped } from '../record/typed.ts'
import { blendSteps, colourTable, heatFacts } from './blend.ts'
import { blockAhead } from './block-ahead.ts'
import { blockClock } from './block-clock.ts'
import { blockHeatFacts, blockHeatFigure, blockSteps } from './block-heat.ts'
import { blockLog } from './block-log.ts'
import { iceTable, lyeDraws, lyeFacts, lyeReadySteps, lyeSteps } from './lye.ts'
import { grossSteps, laterDraws, oilDraws, scaleSteps } from './oils.ts'
import { pourSteps, watchSteps } from './pour.ts'
import { pourToCut } from './pour-to-cut.ts'
import { heightFacts, liftTable, readySteps, vesselTable } from './ready.ts'
import { knownNotice, remedyTable, stateStamp } from './state.ts'
import { rescueTable, troubleTable } from './trouble.ts'
import { allowanceFacts, barTable, fillFacts, weightsTable } from './weights.ts'

/**
 * @param order place among the batch sheets, from 1: its number is 4.order
 * @param cure  its place in the plan of all batches
 * @param record where lots, initials and all that was not as planned are written
 * @param lots  which of the stock to take, in a shop that keeps one
 */
export const batchSheet = (
  frame: Frame,
  batch: BoundBatch,
  order: number,
  cure: BoundCure | undefined,
  record: Place,
  lots: { readonly short: Block; readonly table: Block } = { short: nothing, table: nothing },
): Sheet => {
  const { say, show } = frame
  const links = { ...fixedLinks, record: linkTo(record) }
  const written = typedReadings(frame, batch)
  const title = say('batch.title', { recipe: batch.recipeTitle, date: show.date('batch.date', batch.date) })
  let next = 1
  const numbered = (items: readonly NamedStep[]): Steps => {
    const first = next
    next += items.length
    return { kind: 'steps', first, items: items.map((step) => withTyped(step, written)) }
  }
  // In the order of the template: the numbers of the steps run through.
  const blocks: Record<string, Block> = {
    state: stateStamp(frame, batch),
    weights: weightsTable(frame, batch),
    'lots-short': lots.short,
    known: knownNotice(frame, batch),
    remedies: remedyTable(frame, batch),
    fill: fillFacts(frame, batch),
    sizes: barTable(frame, batch),
    allowances: allowanceFacts(frame, batch),
    heights: heightFacts(frame, batch),
    lifting: liftTable(frame, batch),
    vessels: vesselTable(frame, batch),
    'block-ahead': blockAhead(frame, batch),
    lots: lots.table,
    ready: numbered(readySteps(frame, batch, links)),
    'oils-before': numbered(scaleSteps(frame, batch)),
    oils: oilDraws(frame, batch, links),
    'oils-after': numbered(grossSteps(frame, batch)),
    later: laterDraws(frame, batch),
    'lye-before': numbered(lyeReadySteps(frame, batch)),
    'lye-draws': lyeDraws(frame, batch),
    'lye-facts': lyeFacts(frame, batch),
    'lye-ice': iceTable(frame, batch),
    lye: numbered(lyeSteps(frame, batch)),
    heat: heatFacts(frame, batch),
    blend: numbered(blendSteps(frame, batch)),
    colours: colourTable(frame, batch),
    pour: numbered(pourSteps(frame, batch)),
    watch: numbered(watchSteps(frame, batch)),
    'block-facts': blockHeatFacts(frame, batch),
    'block-clock': blockClock(frame, cure),
    'pour-to-cut': pourToCut(frame, cure),
    'block-curve': blockHeatFigure(frame, batch),
    'block-log': blockLog(frame, batch),
    'block-steps': numbered(blockSteps(frame, batch)),
    trouble: troubleTable(frame, batch),
    rescue: rescueTable(frame, batch),
  }
  return finishSheet({
    ...frame.sheet('batch', `batch/${batch.key}`, say('section.batch'), `4.${order}`, title),
    ...(isToBeMade(batch) ? { atBench: true } : {}),
    template: frame.template('batch'),
    fill: links,
    blocks,
    sources: pickSources(frame.sources, [
      ...batch.fats.flatMap((fat) => fat.sources),
      'iupac-atomic-weights',
      'laliberte2009',
      'olsson1997',
      'felder',
      'choi-okos',
      'ideal-solubility',
      'niosh-94-110',
      'waters1993',
      'patankar',
      'incropera',
      'arrhenius',
      'crc-thermo',
      'soap-handbook',
      'common-practice',
    ]),
  })
}
