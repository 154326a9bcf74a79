/** The other wire beside the one that is strung. */
import type { BoundWires } from '../../binder/bind-wires.ts'
import type { WireChoice, WireGroup } from '../../binder/wire-groups.ts'
import { number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'
import { groupCell, groupColumn, right } from './groups.ts'

export const optionTable = (frame: Frame, { groups }: BoundWires): Table => {
  const { say } = frame
  return {
    kind: 'table',
    caption: say('wires.option.caption'),
    columns: [
      groupColumn(frame, 18),
      { head: say('wires.option.wire'), align: 'left' },
      right(frame, 'wires.option.breaks', 10),
      right(frame, 'wires.tune.tension', 12),
      right(frame, 'wires.tune.note', 12),
      right(frame, 'wires.tune.pitch', 10),
      right(frame, 'wires.loaded.lag', 12),
      right(frame, 'wires.limit.held', 13),
    ],
    rows: groups.flatMap((group) => [
      row(frame, group, group.chosen, 'chosen'),
      row(frame, group, group.option, 'option'),
    ]),
  }
}

const row = (
  frame: Frame,
  group: WireGroup,
  { material, figures, tension, note, pitch, loaded, held }: WireChoice,
  which: 'chosen' | 'option',
): Cell[] => {
  const { say, show } = frame
  const name = (what: string) => `wire.${group.key}.${which}.${what}`
  return [
    groupCell(frame, group),
    words(
      say(`wires.material.${material}`, { diameter: show.thousandths(name('diameter'), group.diameter) }),
    ),
    number(show.force(name('breaks'), figures.breakingLoad)),
    number(show.force(name('tension'), tension)),
    words(
      say('wires.option.note', {
        note: show.note(name('note'), note),
        cents: show.cents(name('cents'), note.cents),
      }),
    ),
    number(show.frequency(name('pitch'), pitch)),
    number(show.millimetres(name('lag'), loaded.usual.lag)),
    number(show.perMetre(name('held'), held.load)),
  ]
}
