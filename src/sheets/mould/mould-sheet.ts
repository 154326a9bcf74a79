/** The build sheet of a block mould: for a woodworker who has nothing else. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import type { Projection } from '../../drawing/types.ts'
import { finishSheet, number, pickSources } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Inline, Sheet, Value } from '../model.ts'
import { drawingPages } from './drawings.ts'
import { channelTable, gluedTable, holeSchedule, roundingTable } from './features.ts'
import { asBuiltFacts, inspectionTable } from './inspection.ts'
import { cutList, hardwareTable, partsTable } from './parts.ts'
import { loadFacts, proofFacts } from './proof.ts'
import { assemblySteps, closingSteps, openingSteps, waterSteps } from './steps.ts'
import { templateBlocks } from './templates.ts'

/** Coats of finish, what one takes [kg/m2], and how much more edges and waste take (common practice) */
const COATS = 2
const EPOXY = 0.15
const EDGES = 2

/** @param order place among the fixture sheets, from 1: its number is 7.order */
export const mouldSheet = (frame: Frame, bound: BoundMould, order: number, projection: Projection): Sheet => {
  const { say, show } = frame
  const { mould } = bound
  const sheetNumber = `7.${order}`
  const blocks: Record<string, Block> = {
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
    parts: partsTable(frame, bound),
    cuts: cutList(frame, bound),
    rounding: roundingTable(frame, mould),
    channels: channelTable(frame, mould.parts),
    glued: gluedTable(frame, mould),
    holes: holeSchedule(frame, mould.parts),
    hardware: hardwareTable(frame, bound),
    assembly: { kind: 'steps', first: 1, items: assemblySteps(frame, bound) },
    water: { kind: 'steps', first: 1, items: waterSteps(frame, bound) },
    opening: { kind: 'steps', first: 1, items: openingSteps(frame, bound) },
    closing: { kind: 'steps', first: 1, items: closingSteps(frame, bound) },
    inspection: inspectionTable(frame, bound),
    proof: proofFacts(frame, bound),
    loads: loadFacts(frame, bound),
    saw: {
      kind: 'cautions',
      signal: 'warning',
      heading: say('mould.saw.heading'),
      items: ['dado', 'hands', 'eyes', 'dust', 'rags'].map((key) => say(`mould.saw.${key}`)),
    },
    finish: {
      kind: 'cautions',
      signal: 'notice',
      heading: say('mould.finish.heading'),
      items: ['use', 'not', 'metal', 'cure'].map((key) => say(`mould.finish.${key}`)),
    },
  }
  const wood = mould.parts.filter(({ grainless }) => !grainless)
  const faces = wood.reduce((sum, { count, length, width }) => sum + 2 * count * length * width, 0)
  const pages = drawingPages(frame, bound, sheetNumber, projection)
  // One block for each page of drawings, in the order in which they are read.
  const names = pages.map((_, index) => `drawings-${index + 1}`)
  for (const [index, page] of pages.entries()) blocks[names[index] ?? ''] = page
  const templates = templateBlocks(frame, mould.parts)
  Object.assign(blocks, templates)
  const listed = (keys: readonly string[]) => keys.map((name) => `[[${name}]]`).join('\n\n')
  const template = frame
    .template('mould')
    .replace(/^\[\[drawings\]\]$/m, listed(names))
    .replace(/^\[\[templates\]\]$/m, listed(Object.keys(templates)))
  return finishSheet({
    ...frame.sheet(
      'fixture',
      `fixture/${bound.key}`,
      say('section.fixture'),
      sheetNumber,
      say('mould.title', { title: bound.title }),
    ),
    template,
    fill: {
      faces: show.area('finish.faces', faces),
      epoxy: show.heavy('finish.epoxy', faces * COATS * EPOXY * EDGES),
      drill: show.size('rod.hole', mould.rods.thread.holeDiameter),
      'groove-width': show.size('groove.width', mould.input.base.grooveWidth),
      'dado-width': show.millimetres(
        'dado.width',
        mould.input.panels.end.thickness + mould.input.dado.fitAllowance,
      ),
    },
    blocks,
    sources: pickSources(frame.sources, [
      'international-inch',
      'timoshenko-plates',
      'shigley',
      'apa-plywood',
      'birch-datasheet',
      'dado-practice',
      'unified-threads',
      'asme-b18-2-8',
      'iso-129',
      'iso-7200',
      'common-practice',
    ]),
  })
}

const fact = (label: Inline, value: Value) => ({ label, cell: number(value) })
