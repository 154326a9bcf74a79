/** The record of one batch: planned beside done, for two people at the bench and for whoever lets the bars go. */
import type { BoundRecord } from '../../binder/bind-record.ts'
import { batterMass } from '../batch/weights.ts'
import { type Fill, finishSheet, maker, number, pickSources } from '../compose.ts'
import { belowFolder, filePlaces } from '../file-places.ts'
import type { Frame } from '../frame.ts'
import { linkTo, type Place } from '../links.ts'
import type { Block, Facts, Inline, Sheet } from '../model.ts'
import { fixedLinks } from '../places.ts'
import { findingsWords } from '../stop-sheet.ts'
import { barTable, batterTable, packagingTable } from './balance.ts'
import { clearedTable, hoursTable, peopleTable } from './before.ts'
import { controlTable } from './controls.ts'
import { materialTable } from './materials.ts'
import { cureTable, deviationTable, sampleTable, signedTable } from './release.ts'

/** Sheets that a record points to. */
export interface RecordPlaces {
  readonly own: Place
  readonly batch: Sheet
  readonly recipe: Place
  readonly cure: Place
}

export const recordSheet = (frame: Frame, record: BoundRecord, places: RecordPlaces): Sheet => {
  const { say, show } = frame
  const { batch, made } = record
  const links: Fill = {
    ...fixedLinks,
    batch: linkTo(places.batch),
    recipe: linkTo(places.recipe),
    cure: linkTo(places.cure),
  }
  const blocks: Record<string, Block> = {
    findings: findingsBlock(frame, record),
    what: whatFacts(frame, record, links),
    people: peopleTable(frame, record),
    hours: hoursTable(frame, record),
    cleared: clearedTable(frame, record, places.batch),
    weights: materialTable(frame, record, links),
    readings: controlTable(frame, record, places.batch),
    bars: barTable(frame, record),
    batter: batterTable(frame, record),
    packaging: packagingTable(frame, record),
    deviations: deviationTable(frame, record),
    samples: sampleTable(frame, record),
    cured: cureTable(frame, record, links),
    signed: signedTable(frame, record, links),
  }
  const conflicts = findingsOf(frame, record).filter(({ finding }) => finding.severity === 'hold')
  return finishSheet({
    ...frame.sheet(
      'record',
      places.own.id,
      say('section.records'),
      places.own.number,
      say('record.title', { recipe: batch.recipeTitle, date: show.date('batch.date', batch.date) }),
    ),
    template: frame.template('batch-record'),
    fill: {
      ...links,
      typed: made
        ? say('record.typed-from', { file: belowFolder(batch.file.document.file) })
        : say('record.type-in', { file: belowFolder(batch.file.document.file) }),
      controls: say('record.controls.note', links),
    },
    blocks,
    sources: pickSources(frame.sources, ['iso-22716', 'common-practice']),
    ...(conflicts.length > 0
      ? {
          conflicts: conflicts.map(({ finding, words: reason }) => ({
            code: finding.code,
            reason,
            ...(finding.place ? { place: `${finding.place.file}:${finding.place.line}` } : {}),
          })),
        }
      : {}),
  })
}

const findingsOf = (frame: Frame, { findings }: BoundRecord) => {
  const said = findingsWords(
    frame,
    findings,
    ({ values }): Fill =>
      typeof values.reading === 'string' ? { reading: frame.say(`record.reading.${values.reading}`) } : {},
  )
  return findings.map((finding, index) => ({ finding, words: said[index] as Inline }))
}

/** What does not fit together, and where it was typed; a batch of which nothing was typed has none. */
const findingsBlock = (frame: Frame, record: BoundRecord): Block => ({
  kind: 'cautions',
  signal: record.findings.some(({ severity }) => severity === 'hold') ? 'warning' : 'notice',
  heading: frame.say('record.findings'),
  items: findingsOf(frame, record).map(({ finding, words: said }) =>
    finding.place === undefined
      ? said
      : frame.say('record.finding-in', { said, place: filePlaces(frame.say, [finding.place]) ?? said }),
  ),
})

const whatFacts = (frame: Frame, record: BoundRecord, links: Fill): Facts => {
  const { say, show } = frame
  const { batch, superfat } = record
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('record.what.batch'),
        cell: maker(batch.key),
        note: say('record.what.batch-note', links),
      },
      {
        label: say('record.what.recipe'),
        cell: maker(batch.recipeTitle),
        note: say('record.what.recipe-note', { ...links, edition: frame.issued }),
      },
      {
        label: say('record.what.mould'),
        cell: maker(batch.mould.title),
      },
      { label: say('record.what.batter'), cell: number(batterMass(frame, batch)) },
      { label: say('record.what.bars'), cell: number(show.count('bars', batch.fill.bars)) },
      {
        label: say('record.what.superfat'),
        cell: number(show.percent('superfat.nominal', batch.superfat.nominal, 1)),
        note: say('record.what.superfat-note', {
          low: show.percent('superfat.low', batch.superfat.monteCarlo.low, 1),
          high: show.percent('superfat.high', batch.superfat.monteCarlo.high, 1),
        }),
      },
      ...(superfat
        ? [
            {
              label: say('record.what.weighed-superfat'),
              cell: number(show.percent('made.superfat', superfat.nominal, 1)),
              note: say('record.what.superfat-note', {
                low: show.percent('made.superfat.low', superfat.monteCarlo.low, 1),
                high: show.percent('made.superfat.high', superfat.monteCarlo.high, 1),
              }),
            },
          ]
        : []),
    ],
  }
}
