/** Wires under tension, with what those of this shop hold. */
import type { BoundBinder } from '../../binder/bind.ts'
import { tightWires } from '../../binder/caution-figures.ts'
import { type Fill, finishSheet, nothing, number, pickSources, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Sheet } from '../model.ts'
import { PLACES } from '../places.ts'
import { cautionBox, under } from './boxes.ts'

const ALL = 'cautions.wire'

export const wireSheet = (frame: Frame, binder: BoundBinder, fill: Fill): Sheet => {
  const { say } = frame
  return finishSheet({
    ...frame.sheet(
      'cautions',
      PLACES.wire.id,
      say('section.cautions'),
      PLACES.wire.number,
      say(`${ALL}.title`),
    ),
    template: frame.template('wire'),
    fill: {},
    blocks: {
      eyes: cautionBox(
        say,
        'danger',
        `${ALL}.eyes.heading`,
        under(`${ALL}.eyes`, ['glasses', 'plane', 'stays']),
        fill,
      ),
      fingers: cautionBox(
        say,
        'warning',
        `${ALL}.fingers.heading`,
        under(`${ALL}.fingers`, ['between', 'hinge', 'push']),
        fill,
      ),
      held: wireTable(frame, binder),
      where: cautionBox(
        say,
        'warning',
        `${ALL}.where.heading`,
        under(`${ALL}.where`, ['bend', 'rust', 'tune', 'margin']),
        fill,
      ),
      store: cautionBox(
        say,
        'caution',
        `${ALL}.store.heading`,
        under(`${ALL}.store`, ['slack', 'tails', 'snaps']),
        fill,
      ),
    },
    sources: pickSources(frame.sources, [
      'elastic-recoil',
      'shigley-springs',
      'astm-a228',
      'cfr-1910-133',
      'common-practice',
    ]),
  })
}

const wireTable = ({ say, show }: Frame, binder: BoundBinder): Block => {
  const wires = tightWires(binder)
  if (wires.length === 0) return nothing
  return {
    kind: 'table',
    caption: say(`${ALL}.table`),
    columns: [
      { head: say(`${ALL}.which`), align: 'left' },
      { head: say(`${ALL}.pull`), align: 'right', width: 9 },
      { head: say(`${ALL}.long`), align: 'right', width: 22 },
      { head: say(`${ALL}.energy`), align: 'right', width: 9 },
      { head: say(`${ALL}.speed`), align: 'right', width: 14 },
    ],
    rows: wires.map(({ key, fixture, kind, tension, length, energy, speed }) => [
      words(say(`${ALL}.of`, { fixture, wire: say(`${ALL}.kind.${kind}`) })),
      number(show.force(`wire.${key}.pull`, tension)),
      number(show.length(`wire.${key}.length`, length)),
      number(show.smallEnergy(`wire.${key}.energy`, energy)),
      number(show.speed(`wire.${key}.speed`, speed)),
    ]),
  }
}
