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

/** m; sizes are told to it */
const TENTH = 1e-4

/**
 * By how much the frame may be wider, and the base off either way: half each of what grooves are wider than a wire asks for
 * that stands askew [m].
 */
export const spareOf = ({ layers, input }: Pick<Cutter, 'layers' | 'input'>): number => {
  const spare = Math.min(...layers.map(({ grooveWidth }) => input.mould.input.base.grooveWidth - grooveWidth))
  return Math.max(0, Math.floor(spare / 2 / TENTH + 1e-9) * TENTH)
}

const frameRows = (frame: Frame, cutter: Cutter): readonly InspectionRow[] => {
  const { say, show } = frame
  const { inside, outside, edgeAtEnd, input } = cutter
  const { mould } = input
  // No smaller: the clearance is promised to a block that bows. Larger, as long as a wire stays in its groove askew.
  const clear = say('grid.inspection.wider', {
    more: show.millimetres('inspection.more', spareOf(cutter)),
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
    // as its own sheet has it: wires end deeper below the top of the base than that
    row('base-height', mould.base.height, outline),
  ]
}

const wireRows = (frame: Frame, { layers, wires, inside, gap, input }: Cutter): readonly InspectionRow[] => {
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
        // grooves and holes were marked by one gauge, which may be off by as much
        allowed: say('grid.inspection.groove-place', {
          wander: frame.show.millimetres('inspection.wander', input.limits.wander),
        }),
      }),
    ),
  ]
}
