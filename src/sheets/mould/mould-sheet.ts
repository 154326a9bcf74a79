/** The build sheet of a block mould: for a woodworker who has nothing else. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import type { Projection } from '../../drawing/types.ts'
import { asBuiltLink, buildSheet, fact } from '../fixture/build-sheet.ts'
import { channelTable, holeSchedule } from '../fixture/features.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import { cutList, partsTable } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Sheet } from '../model.ts'
import { gluedTable, roundingTable } from './chains.ts'
import { mouldDrawingPages } from './drawings.ts'
import { gaugeBlocks } from './gauge.ts'
import { asBuiltFacts, mouldInspection } from './inspection.ts'
import { mouldBuyTable, mouldHardwareRows, mouldPartList } from './parts.ts'
import { loadFacts, proofFacts } from './proof.ts'
import { assemblySteps, closingSteps, openingSteps, waterSteps } from './steps.ts'

/** @param numbers of the sheets of its fixture, as they stand in the binder: `7.1` */
export const mouldSheet = (
  frame: Frame,
  bound: BoundMould,
  numbers: FixtureNumbers,
  projection: Projection,
): Sheet => {
  const { say, show } = frame
  const { mould } = bound
  const list = mouldPartList(bound)
  const { gauge } = bound
  return buildSheet(frame, {
    numbers,
    template: 'mould',
    id: `fixture/${bound.key}`,
    number: numbers.mould,
    title: say('mould.title', { title: bound.title }),
    parts: mould.parts,
    templated: [...mould.parts, ...(gauge ? [gauge.part] : [])],
    without: gauge ? [] : ['gauge'],
    drawings: mouldDrawingPages(frame, bound, numbers.mould, projection),
    blocks: {
      'at-a-glance': {
        kind: 'facts',
        size: 'plain',
        items: [
          fact(say('mould.inside-length'), show.exactLength('mould.inside.length', mould.inside.length)),
          fact(say('mould.inside-width'), show.exactLength('mould.inside.width', mould.inside.width)),
          fact(say('mould.inside-height'), show.exactLength('mould.inside.height', mould.inside.height)),
          fact(say('mould.rim'), show.exactLength('mould.rim.height', mould.rimAboveBench)),
          fact(say('mould.block'), show.exactLength('mould.block.height', mould.block.setHeight)),
          fact(say('mould.bars'), show.count('mould.bars', mould.block.barCount)),
          fact(say('mould.mass'), show.heavy('mould.mass', mould.mass)),
          fact(say('mould.gap'), show.millimetres('mould.base.clearance', mould.input.base.clearance)),
        ],
      },
      'as-built': asBuiltFacts(frame, bound),
      parts: partsTable(frame, list, mouldHardwareRows(frame, bound)),
      cuts: cutList(frame, list),
      rounding: roundingTable(frame, mould),
      channels: channelTable(frame, mould.parts),
      glued: gluedTable(frame, mould),
      holes: holeSchedule(frame, list.parts),
      hardware: mouldBuyTable(frame, bound),
      assembly: { kind: 'steps', first: 1, items: assemblySteps(frame, bound) },
      water: { kind: 'steps', first: 1, items: waterSteps(frame, bound) },
      opening: { kind: 'steps', first: 1, items: openingSteps(frame, bound, numbers) },
      closing: { kind: 'steps', first: 1, items: closingSteps(frame, bound) },
      ...gaugeBlocks(frame, gauge),
      inspection: mouldInspection(frame, bound),
      proof: proofFacts(frame, bound),
      loads: loadFacts(frame, bound),
    },
    fill: {
      'readings-sheet': asBuiltLink(bound.key, numbers),
      drill: show.size('rod.hole', mould.rods.thread.holeDiameter),
      'groove-width': show.size('groove.width', mould.input.base.grooveWidth),
      'dado-width': show.millimetres(
        'dado.width',
        mould.input.panels.end.thickness + mould.input.dado.fitAllowance,
      ),
    },
    sources: [
      'timoshenko-plates',
      'shigley',
      'apa-plywood',
      'birch-datasheet',
      'unified-threads',
      'asme-b18-2-8',
    ],
  })
}
