/** What the press is loaded with, what each of its pieces needs, and where its pin and its hands are in each step. */
import type { BoundLeverPress } from '../../binder/bind-lever-press.ts'
import { nothing, number, words } from '../compose.ts'
import { fact } from '../fixture/build-sheet.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Table, Value } from '../model.ts'

export const forceFacts = (
  { say, show }: Frame,
  { press, load, resistance, held, late }: BoundLeverPress,
): Block => {
  const { forces, geometry, input } = press
  const { limits } = input
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      {
        label: say('press.force.load'),
        cell: number(show.perMetre('press.load', load)),
        note: say(held < late ? 'press.force.load-held' : 'press.force.load-late', {
          held: show.perMetre('press.held', held),
          late: show.perMetre('press.late', late),
        }),
      },
      {
        label: say('press.force.push'),
        cell: number(show.press('press.push', forces.push)),
        note: say('press.force.push-note', { resistance: show.force('press.resistance', resistance) }),
      },
      {
        label: say('press.force.hand'),
        cell: number(show.press('press.hand', forces.hand)),
        note: say('press.force.hand-note', {
          ratio: show.times('press.ratio', geometry.ratio),
          lost: show.percent('press.lost', 1 - limits.efficiency, 0),
          person: show.press('press.person', geometry.personPress),
        }),
      },
      {
        label: say('press.force.uplift'),
        cell: number(show.press('press.uplift', forces.uplift)),
        note: say('press.force.uplift-note'),
      },
      {
        label: say('press.force.clamps'),
        cell: number(show.press('press.clamps', forces.clampNeeded)),
        note: say(forces.clampNeeded > 0 ? 'press.force.clamps-note' : 'press.force.clamps-none', {
          more: show.times('press.overload', limits.overload),
        }),
      },
      {
        label: say('press.force.sideways'),
        cell: number(show.percent('press.sideways', geometry.sideways, 1)),
        note: say('press.force.sideways-note', {
          most: show.percent('press.sideways.most', limits.sideways, 0),
        }),
      },
    ],
  }
}

/** Depths and diameters; all else are forces. */
const SIZES: ReadonlySet<string> = new Set(['lever', 'beam', 'spine', 'board', 'pin-bending'])

export const checkTable = ({ say, show }: Frame, { press }: BoundLeverPress): Table => {
  const { checks, input } = press
  return {
    kind: 'table',
    caption: say('press.check.caption', { more: show.times('press.overload', input.limits.overload) }),
    columns: [
      { head: say('press.check.what'), align: 'left' },
      { head: say('press.check.needed'), align: 'right', width: 18 },
      { head: say('press.check.is'), align: 'right', width: 18 },
      { head: say('press.check.times'), align: 'right', width: 14 },
    ],
    rows: checks.map(({ key, is, needed }): Cell[] => {
      const value = (what: string, size: number): Value =>
        SIZES.has(key)
          ? show.millimetres(`press.check.${key}.${what}`, size)
          : show.force(`press.check.${key}.${what}`, size)
      return [
        words(say(`press.check.${key}`)),
        number(value('needed', needed)),
        number(value('is', is)),
        number(show.times(`press.check.${key}.times`, is / needed)),
      ]
    }),
  }
}

/** Hole by hole: where the pin is, how far the frame has gone, and where the hands begin and end. */
export const stepTable = ({ say, show }: Frame, { press }: BoundLeverPress): Table => ({
  kind: 'table',
  caption: say('press.holes.caption'),
  columns: [
    { head: say('press.holes.hole'), align: 'right', width: 8 },
    { head: say('press.holes.pin'), align: 'right' },
    { head: say('press.holes.start'), align: 'right' },
    { head: say('press.holes.end'), align: 'right' },
    { head: say('press.holes.travel'), align: 'right' },
  ],
  rows: press.geometry.steps.map(({ pin, hands, travel }, index): Cell[] => {
    const name = (what: string) => `press.step.${index + 1}.${what}`
    return [
      number(show.count(name('number'), index + 1)),
      number(show.exactLength(name('pin'), pin)),
      number(show.length(name('start'), hands.start)),
      number(show.length(name('end'), hands.end)),
      number(show.length(name('travel'), travel)),
    ]
  }),
})

export const pressProof = ({ say, show }: Frame, { proof }: BoundLeverPress): Block => {
  if (!proof) return nothing
  const room = (key: string, size: number) =>
    say(`press.proof.${key}`, { room: show.millimetres(`press.proof.${key}`, size) })
  return {
    kind: 'cautions',
    signal: 'notice',
    heading: say('press.proof.heading'),
    items: [
      say('press.proof.pairs', { pairs: show.count('press.proof.pairs', proof.pairs) }),
      say('press.proof.contacts', { contacts: show.count('press.proof.contacts', proof.contacts) }),
      room('swing', proof.swingClearance),
      room('posts', proof.postClearance),
      room('stroke', proof.strokeClearance),
      room('block', proof.blockClearance),
      room('hands', proof.handClearance),
    ],
  }
}

/** The cut in two stages: what each asks for. */
export const stageTable = ({ say, show }: Frame, { stages, press }: BoundLeverPress): Block => {
  if (!stages) return nothing
  const { onePerson } = press.input
  const who = (push: number) => (push <= onePerson ? 'one' : push <= 2 * onePerson ? 'two' : 'nobody')
  const row = (key: string, push: number): Cell[] => [
    words(say(`press.stage.${key}`)),
    number(show.press(`press.stage.${key}`, push)),
    words(say(`press.stage.by.${who(push)}`)),
  ]
  return {
    kind: 'table',
    caption: say('press.stage.caption'),
    columns: [
      { head: say('press.stage.what'), align: 'left' },
      { head: say('press.stage.push'), align: 'right', width: 24 },
      { head: say('press.stage.who'), align: 'left', width: 26 },
    ],
    rows: [row('at-once', stages.atOnce), ...stages.stages.map(({ layer, plan }) => row(layer, plan.push))],
  }
}

export const pressGlance = ({ say, show }: Frame, { press }: BoundLeverPress): Block => {
  const { geometry, outside, forces, standMass, leverMass, standHeight } = press
  return {
    kind: 'facts',
    size: 'plain',
    items: [
      fact(say('press.glance.push'), show.press('press.push', forces.push)),
      fact(say('press.glance.hand'), show.press('press.hand', forces.hand)),
      fact(say('press.glance.lever'), show.exactLength('press.lever', geometry.lever)),
      fact(say('press.glance.arm'), show.exactLength('press.arm', geometry.arm)),
      fact(say('press.glance.holes'), show.count('press.holes', geometry.steps.length)),
      fact(say('press.glance.stand-top'), show.exactLength('press.stand-top', geometry.standTop)),
      fact(
        say('press.glance.under'),
        show.exactLength('press.under', Math.max(0, geometry.standTop - standHeight)),
      ),
      fact(say('press.glance.height'), show.exactLength('press.height', outside.height)),
      fact(say('press.glance.stand-mass'), show.heavy('press.stand.mass', standMass)),
      fact(say('press.glance.lever-mass'), show.heavy('press.lever.mass', leverMass)),
    ],
  }
}
