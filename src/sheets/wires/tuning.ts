/** What is cut from the coil, and what each wire is tuned to: on the wire sheet and on the sheet of its cutter. */
import type { BoundWires } from '../../binder/bind-wires.ts'
import { nearEnough, TUNED_CENTS } from '../../binder/judged-wires.ts'
import type { WireGroup } from '../../binder/wire-groups.ts'
import { box, empty, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table } from '../model.ts'
import { groupCell, groupColumn, groupName, right, wireName } from './groups.ts'

/** Pieces of wire to cut, with the spare ones. */
export const cutTable = (frame: Frame, wires: BoundWires): Table => {
  const { say, show } = frame
  return {
    kind: 'table',
    caption: say('wires.cut.caption'),
    columns: [
      groupColumn(frame, 30),
      { head: say('wires.cut.wire'), align: 'left' },
      right(frame, 'wires.cut.pieces', 10),
      right(frame, 'wires.cut.spare', 9),
      right(frame, 'wires.cut.length', 20),
      { head: say('wires.cut.done'), align: 'centre', width: 8 },
    ],
    rows: wires.buy.flatMap((kind) =>
      kind.pieces.map((piece): Cell[] => {
        const name = `wire.cut.${piece.group}.${piece.lines}`
        return [
          words(say(`wires.cut.lines-${piece.lines}`, { group: groupName(frame, { key: piece.group }) })),
          words(wireName(frame, kind)),
          number(show.count(`${name}.count`, piece.count)),
          piece.spare > 0 ? number(show.count(`${name}.spare`, piece.spare)) : empty,
          number(show.length(`${name}.length`, piece.length)),
          box,
        ]
      }),
    ),
  }
}

/** Tension, note and order of each group. */
export const tuningTable = (frame: Frame, wires: BoundWires, only?: WireGroup['cutter']): Table => {
  const { say, show } = frame
  const groups = wires.groups.filter(({ cutter }) => only === undefined || cutter === only)
  return {
    kind: 'table',
    style: 'weigh',
    caption: say('wires.tune.caption', { cents: show.count('wire.tuned.cents', TUNED_CENTS) }),
    columns: [
      groupColumn(frame, 17),
      right(frame, 'wires.tune.count', 7),
      right(frame, 'wires.tune.length', 19),
      right(frame, 'wires.tune.tension', 10),
      { head: say('wires.tune.note'), align: 'right', main: true, width: 9 },
      right(frame, 'wires.tune.cents', 8),
      right(frame, 'wires.tune.pitch', 13),
      { head: say('wires.tune.order'), align: 'left' },
    ],
    rows: groups.map((group): Cell[] => {
      const name = (what: string) => `wire.${group.key}.${what}`
      const { tension, pitch, note, tuning } = group.chosen
      return [
        groupCell(frame, group),
        number(show.count(name('count'), group.count)),
        number(show.exactLength(name('length'), group.length)),
        number(show.force(name('tension'), tension)),
        number(show.note(name('note'), note)),
        number(show.cents(name('cents'), note.cents)),
        words(
          say('wires.tune.range', {
            pitch: show.frequency(name('pitch'), pitch),
            low: show.frequency(name('pitch.low'), nearEnough(group.chosen).low),
            high: show.frequency(name('pitch.high'), nearEnough(group.chosen).high),
          }),
        ),
        words(orderWords(frame, group, tuning.wires, tuning.passes)),
      ]
    }),
  }
}

const orderWords = (
  { say, show }: Frame,
  { key, count }: WireGroup,
  order: readonly number[],
  passes: number | undefined,
): Inline => {
  if (count === 1) return say('wires.tune.single')
  const wires = order.map((wire) => String(wire + 1)).join(' – ')
  const from = say(`wires.tune.from.${key}`)
  if (passes === undefined) return say('wires.tune.never', { wires, from })
  return say(passes === 1 ? 'wires.tune.once' : 'wires.tune.passes', {
    wires,
    from,
    passes: show.count(`wire.${key}.passes`, passes),
  })
}
