/** What was reckoned and proved of a bar cutter before its sheet was printed, and why its sizes are what they are. */
import type { BoundBarCutter } from '../../binder/bind-bar-cutter.ts'
import { type Fill, nothing, number } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Value } from '../model.ts'
import { stopForce } from './use-steps.ts'

/** What was proved with solids; a block with nothing in it where nothing was. */
export const proofFacts = ({ say, show }: Frame, { proof, cutter }: BoundBarCutter): Block => {
  if (!proof) return nothing
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('mould.proof.heading'),
    items: [
      say('bar-cutter.proof.pairs', { pairs: show.count('proof.pairs', proof.pairs) }),
      say('bar-cutter.proof.contacts', { contacts: show.count('proof.contacts', proof.contacts) }),
      say('bar-cutter.proof.swing', {
        steps: show.count('proof.steps', proof.steps),
        room: show.millimetres('proof.frameClearance', proof.frameClearance),
        drawn: show.millimetres('frame.clearance', cutter.input.frame.clearance),
      }),
      say('bar-cutter.proof.wires', {
        room: show.millimetres('proof.wireClearance', proof.wireClearance),
        lag: show.millimetres('wire.lag', cutter.input.wire.lag),
      }),
      say('bar-cutter.proof.out'),
    ],
  }
}

/** N; what a push at the top of the open frame has to be before it comes off its back stop. */
export const fallingPush = ({ balance, swing }: BoundBarCutter['cutter']): number =>
  balance.holdOpen / swing.radius

/** Each choice with its number and its reason. */
export const reckonedFacts = (frame: Frame, bound: BoundBarCutter): Block => {
  const { say, show } = frame
  const { cutter, wires } = bound
  const { input, wire, platform, hinge, fence, balance, grip, swing, strings, backStop } = cutter
  const { limits } = input
  const mm = show.millimetres
  const loaded = wires.groups[0]?.chosen.loaded.usual
  const fact = (key: string, value: Value, fill: Fill = {}) => ({
    label: say(`bar-cutter.reckoned.${key}`),
    cell: number(value),
    note: say(`bar-cutter.reckoned.${key}-note`, fill),
  })
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      fact('depth', mm('wire.depth', wire.depth), {
        lag: mm('wire.lag', input.wire.lag),
        through: mm('wire.through', limits.cutThrough),
      }),
      fact('groove', mm('groove.depth', platform.grooveDepth), {
        room: mm('groove.room', limits.grooveRoom),
        left: mm('groove.left', input.panels.platform.thickness - platform.grooveDepth),
      }),
      fact('axis', mm('hinge.axis', hinge.axis), {
        above: mm('hinge.above-wire', hinge.aboveWire),
        below: mm('hinge.below-platform', platform.top - hinge.axis),
      }),
      fact('slot', mm('slot.width', input.fence.slotWidth), {
        wire: show.thousandths('wire.diameter', input.wire.diameter),
        wander: mm('slot.wander', limits.wander),
      }),
      fact('fence', mm('fence.height', fence.height), {
        share: show.percent('fence.share', input.fence.heightShare, 0),
      }),
      fact('clearance', mm('frame.clearance', input.frame.clearance)),
      fact('press', show.force('balance.press-end', balance.tippingPressEnd), {
        middle: show.force('balance.press', balance.tippingPress),
        needed: show.force('balance.press-needed', limits.press),
      }),
      fact('knock', show.force('balance.knock', balance.tippingPush), {
        needed: show.force('balance.knock-needed', limits.knock),
        brace: mm('stop.brace', backStop.brace),
      }),
      fact('falls', show.force('balance.falls', fallingPush(cutter)), {
        lean: show.count('swing.lean', Math.round((swing.angle * 180) / Math.PI - 90)),
      }),
      fact('knuckles', mm('grip.knuckles', grip.knuckles), {
        needed: mm('grip.knuckles-needed', limits.knuckles),
      }),
      fact('hands', mm('grip.from-wires', grip.fromWires), { apart: mm('grip.apart', grip.apart) }),
      ...(loaded === undefined
        ? []
        : [
            fact('pull', show.force('wire.pull', loaded.tension), {
              rating: show.force('peg.rating', input.peg.rating),
            }),
          ]),
      ...(wires.push
        ? [
            fact('push', show.force('wire.push', Math.max(0, wires.push.at.usual.push)), {
              late: show.force('wire.push-late', Math.max(0, wires.push.at.late.push)),
              most: stopForce(frame, bound),
            }),
          ]
        : []),
      fact('lengths', show.count('wire.lengths', strings.length), {
        pairs: show.count('wire.pairs', strings.filter(({ kind }) => kind === 'pair').length),
        wires: show.count('wire.count', cutter.wires.length),
      }),
    ],
  }
}
