/** The build sheet of a grid cutter: for a woodworker who has nothing else, and for whoever cuts the first block with it. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import type { BoundWires } from '../../binder/bind-wires.ts'
import { STAND_SCREW } from '../../binder/grid-stand.ts'
import type { Projection } from '../../drawing/types.ts'
import { inlineWords, nothing } from '../compose.ts'
import { asBuiltLink, buildSheet, fact } from '../fixture/build-sheet.ts'
import { channelTable, holeSchedule } from '../fixture/features.ts'
import type { FixtureNumbers } from '../fixture/fixture-numbers.ts'
import { cutList, partsTable } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Block, Sheet, Step } from '../model.ts'
import { tuningTable } from '../wires/tuning.ts'
import { buildingSteps } from './building.ts'
import { careSteps, changeSteps, replaceWhen, wireLog } from './care.ts'
import { gridDrawingPages, handsFigure, strokeFigure, usePicture } from './drawings.ts'
import { gridInspection } from './inspection.ts'
import { gridGluedTable, gridScrewTable, standPlaces } from './joints.ts'
import { hungOn, judgedTable } from './judged.ts'
import { gridBuyTable, gridHardwareRows, gridPartList, wireLengthTable } from './parts.ts'
import { gridProof, gridReasons, wireChoices } from './proof.ts'
import { gridRounding } from './rounding.ts'
import { stringingSteps, trialSteps } from './stringing.ts'
import { driverLength, gridCautions, marksTable, troubleTable, usingSteps } from './using.ts'

/** Along sides and ends a groove is the kerf of a rod; a recess is that of a screw's head. */
const OWN_WORDS = {
  caption: 'grid.feature.caption',
  'groove.upper.length': 'grid.feature.kerf',
  recess: 'grid.holes.recess',
  scribe: 'grid.feature.scribe',
  'recess-head': 'grid.holes.recess-head',
} as const

const steps = (items: readonly Step[]): Block => ({ kind: 'steps', first: 1, items })

/** @param numbers of the sheets of its fixture; its own among them */
export const gridCutterSheet = (
  frame: Frame,
  bound: BoundGridCutter,
  wires: BoundWires | undefined,
  numbers: FixtureNumbers & { readonly gridCutter: string },
  projection: Projection,
): Sheet => {
  const { say, show } = frame
  const { cutter } = bound
  const { parts, input } = cutter
  const list = gridPartList(bound)
  const drawingTitle = inlineWords(say('grid.drawing-title', { title: bound.title }))
  return buildSheet(frame, {
    numbers,
    template: 'grid-cutter',
    id: `grid-cutter/${bound.key}`,
    number: numbers.gridCutter,
    title: say('grid.title', { title: bound.title }),
    parts,
    templated: parts.filter(({ key }) => key !== 'stand-board'),
    drawings: gridDrawingPages(frame, bound, drawingTitle, numbers.gridCutter, projection),
    blocks: {
      'use-picture': usePicture(frame, bound),
      'at-a-glance': atAGlance(frame, bound),
      cautions: gridCautions(frame, bound),
      parts: partsTable(frame, list, gridHardwareRows(frame, bound)),
      hardware: gridBuyTable(frame, bound, wires),
      cuts: cutList(frame, list),
      channels: channelTable(frame, parts, OWN_WORDS),
      holes: holeSchedule(frame, parts, OWN_WORDS),
      rounding: gridRounding(frame, cutter),
      glued: gridGluedTable(frame, bound),
      'stand-places': standPlaces(frame, bound),
      screws: gridScrewTable(frame, bound),
      proof: gridProof(frame, bound),
      reasons: gridReasons(frame, bound),
      choices: wireChoices(frame, bound),
      building: steps(buildingSteps(frame, bound, numbers)),
      marks: marksTable(frame, bound),
      'wire-lengths': wireLengthTable(frame, bound),
      'wire-table': wires ? tuningTable(frame, wires, 'grid-cutter') : nothing,
      judged: judgedTable(frame, bound),
      stringing: steps(stringingSteps(frame, bound)),
      trial: steps(trialSteps(frame, bound)),
      stroke: strokeFigure(frame, bound),
      hands: handsFigure(frame, bound),
      using: steps(usingSteps(frame, bound, numbers, wires?.loads.from === 'estimate')),
      trouble: troubleTable(frame, bound),
      care: steps(careSteps(frame, bound)),
      replace: replaceWhen(frame),
      change: steps(changeSteps(frame)),
      log: wireLog(frame, bound),
      inspection: gridInspection(frame, bound),
    },
    fill: {
      'readings-sheet': asBuiltLink(bound.key, numbers),
      mould: numbers.mould,
      'stand-screw': STAND_SCREW,
      eye: show.millimetres('anchor.diameter', input.anchor.diameter),
      hung: show.heavy('judged.mass', hungOn(bound)),
      driver: driverLength(frame, cutter),
      'long-bit': show.exactLength('tools.long-bit', longBit(cutter)),
      besides: say(numbers.gauge === undefined ? 'grid.besides' : 'grid.besides-gauge', {
        mould: numbers.mould,
        ...(numbers.gauge === undefined ? {} : { gauge: numbers.gauge }),
      }),
      pricked: numbers.gauge === undefined ? '' : say('grid.templates-pricked'),
      ...standSize(frame, bound),
      'wires-on': numbers.wires ? say('grid.wires-on', { sheet: numbers.wires }) : '',
      'dado-width': show.millimetres('dado.width', input.panels.end.thickness + input.dado.fitAllowance),
    },
    sources: ['shigley'],
  })
}

/** Beside a handle no chuck passes: its whole length, and the pilot hole behind the stop block. */
const longBit = ({ input, screws }: BoundGridCutter['cutter']): number =>
  input.handle + (screws.joints.find(({ head }) => head === 'stop-block')?.pilot.depth ?? 0)

/** What the stand has to carry. */
const standSize = ({ show }: Frame, { cutter }: BoundGridCutter) => ({
  'board-length': show.exactLength('stand.board.length', cutter.stand.board.length),
  'board-width': show.exactLength('stand.board.width', cutter.stand.board.width),
})

const atAGlance = ({ say, show }: Frame, { cutter }: BoundGridCutter): Block => {
  const { inside, outside, layers, hands, input } = cutter
  const size = (key: string, name: string, length: number) =>
    fact(say(`grid.glance.${key}`), show.exactLength(name, length))
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      size('inside-length', 'grid.inside.length', inside.length),
      size('inside-width', 'grid.inside.width', inside.width),
      size('outside-length', 'grid.outside.length', outside.length),
      size('outside-width', 'grid.outside.width', outside.width + 2 * input.shelfDepth),
      size('height', 'grid.outside.height', outside.height),
      fact(say('grid.glance.mass'), show.heavy('grid.mass', cutter.mass)),
      ...layers.map(({ layer, count }) =>
        fact(say(`grid.glance.${layer}`), show.count(`grid.wires.${layer}`, count)),
      ),
      size('stroke', 'grid.stroke', cutter.stroke),
      size('hands-start', 'hands.start', hands.start),
      size('hands-end', 'hands.end', hands.end),
      size('knuckles', 'knuckles', cutter.edgeAtEnd),
    ],
  }
}
