/** The record of what a finished bar cutter measures. */
import type { BoundBarCutter } from '../../binder/bind-bar-cutter.ts'
import { type InspectionRow, inspectionTable, plusMinus } from '../fixture/inspection.ts'
import type { Frame } from '../frame.ts'
import type { Inline, Table } from '../model.ts'
import { wireReading } from './wire-steps.ts'

/** m; room that may be lost where the frame passes what stands (common practice) */
const PASSING = 0.001

export const barCutterInspection = (frame: Frame, { cutter }: BoundBarCutter): Table => {
  const { say, show } = frame
  const { input, platform, endStop, fence, hinge, wires } = cutter
  const { frontRail } = cutter.frame
  const joint = plusMinus(frame, 'joint')
  const row = (key: string, wanted: number, allowed: Inline = joint): InspectionRow => ({
    what: say(`bar-cutter.inspection.${key}`),
    name: `inspection.${key}`,
    wanted,
    allowed,
  })
  const between = (name: string, least: number, most: number): Inline =>
    say('mould.inspection.between', {
      least: show.millimetres(`inspection.${name}.least`, least),
      most: show.millimetres(`inspection.${name}.most`, most),
    })
  const reading = wireReading(cutter)
  const reads = between('wire', reading.least, reading.most)
  const { clearance } = input.frame
  const passing = between('clearance', clearance - PASSING, clearance + PASSING)
  // The rail comes nearest while it swings past the fence's top; closed it stands farther off, and can be measured.
  const closed = frontRail[0] - fence.y[1]
  const before = between('front-clearance', closed - PASSING, closed + PASSING)
  return inspectionTable(frame, say('bar-cutter.inspection.caption'), [
    row('platform-top', platform.top, plusMinus(frame, 'outline')),
    row('fence-height', fence.height, plusMinus(frame, 'outline')),
    row('end-stop-height', endStop.height, plusMinus(frame, 'outline')),
    row('post-top', hinge.axis - input.hinge.gap / 2),
    row('groove-depth', platform.grooveDepth),
    row('wire-back', reading.wanted, reads),
    row('wire-front', reading.wanted, reads),
    row('wire-drop', input.frame.wireDrop - input.wire.diameter / 2, joint),
    row('front-clearance', closed, before),
    row('end-clearance', clearance, passing),
    ...wires.map(
      ({ x }, index): InspectionRow => ({
        what: say('bar-cutter.inspection.wire', {
          number: show.count(`inspection.number-${index + 1}`, index + 1),
        }),
        name: `inspection.wire-${index + 1}`,
        wanted: x,
        allowed: joint,
      }),
    ),
  ])
}
