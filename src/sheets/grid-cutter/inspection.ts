/** The record of what the finished grid cutter measures. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { INSPECTION, type InspectionRow, inspectionTable, plusMinus } from '../fixture/inspection.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Table } from '../model.ts'

export const gridInspection = (frame: Frame, { cutter }: BoundGridCutter): Table =>
  inspectionTable(frame, frame.say('grid.inspection.caption'), [
    ...frameRows(frame, cutter),
    ...wireRows(frame, cutter),
  ])

type Cutter = BoundGridCutter['cutter']

/** m; diagonals of a frame that is square (common practice) */
const ALIKE = 0.001

const frameRows = (
  frame: Frame,
  { inside, outside, edgeAtEnd, input, layers }: Cutter,
): readonly InspectionRow[] => {
  const { say, show } = frame
  const { mould } = input
  // No smaller: the clearance is promised to a block that bows. Larger, as long as a wire stays in its groove askew.
  const spare = Math.min(...layers.map(({ grooveWidth }) => mould.input.base.grooveWidth - grooveWidth))
  const clear = say('grid.inspection.wider', {
    more: show.millimetres('inspection.more', Math.max(0, spare)),
  })
  const row = (key: string, wanted: number, allowed: Inline): InspectionRow => ({
    what: say(`grid.inspection.${key}`),
    name: `inspection.${key}`,
    wanted,
    allowed,
  })
  const joint = plusMinus(frame, 'joint')
  const outline = plusMinus(frame, 'outline')
  return [
    row('inside-length', inside.length, clear),
    row('inside-width', inside.width, clear),
    row(
      'diagonal',
      Math.hypot(inside.length, inside.width),
      say('grid.inspection.alike', { alike: show.millimetres('inspection.alike', ALIKE) }),
    ),
    row('outside-length', outside.length, outline),
    row('height', outside.height, outline),
    row('edge', edgeAtEnd, joint),
    row('base-height', mould.base.height, joint),
  ]
}

const wireRows = (frame: Frame, { layers, wires, inside, gap }: Cutter): readonly InspectionRow[] => {
  const { say } = frame
  const joint = plusMinus(frame, 'joint')
  // what is there is what loaded wires need: no less
  const wider = say('grid.inspection.wider', {
    more: frame.show.size('inspection.tolerance.joint', INSPECTION.joint),
  })
  return [
    ...layers.map(
      ({ layer, plane }): InspectionRow => ({
        what: say(`grid.inspection.plane-${layer}`),
        name: `inspection.plane.${layer}`,
        wanted: plane,
        allowed: joint,
      }),
    ),
    ...(layers.length > 1
      ? [{ what: say('grid.inspection.gap'), name: 'inspection.gap', wanted: gap.is, allowed: wider }]
      : []),
    ...wires.map(
      ({ key, runs, at }): InspectionRow => ({
        what: say(`grid.inspection.wire-${runs}`, { number: key.split('-').at(-1) ?? '' }),
        name: `inspection.wire.${key}`,
        wanted: (runs === 'width' ? inside.length : inside.width) / 2 + at,
        allowed: joint,
      }),
    ),
  ]
}
