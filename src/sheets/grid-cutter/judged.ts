/** How a wire is judged while it is strung: its note half way, how little it stretches, how far a weight draws it down. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { hungSag, stretchTo } from '../../wires/hung-weight.ts'
import { noteOf, pitchAtShare } from '../../wires/pitch.ts'
import { number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'
import { GRAVITY } from '../shown.ts'

/** kg that is hung on a wire: a litre of water, near enough (common practice) */
export const HUNG = 1
/** Share of the tension that all wires are brought to first (common practice) */
const HALF = 0.5

/** A row a layer; a wire that lies off its rods is free from its peg to its anchor. */
export const judgedTable = ({ say, show }: Frame, { cutter, wires }: BoundGridCutter): Table => {
  const right = (key: string) => ({ head: say(`grid.judged.${key}`), align: 'right' as const, width: 17 })
  return {
    kind: 'table',
    caption: say('grid.judged.caption', { mass: show.heavy('judged.mass', HUNG) }),
    columns: [
      { head: say('grid.wires.which'), align: 'left' },
      right('half'),
      right('stretch'),
      right('rods'),
      right('off'),
    ],
    rows: cutter.layers.flatMap(({ layer, speakingLength, span }): Cell[][] => {
      const group = wires.groups.find(({ key }) => key === `grid-${layer}`)
      if (!group) return []
      const { tension, pitch, figures } = group.chosen
      const name = (what: string) => `judged.${layer}.${what}`
      const half = pitchAtShare(pitch, HALF)
      const note = noteOf(half)
      const wire = { whole: span, tension, axialStiffness: figures.axialStiffness }
      const sag = (length: number) => hungSag({ ...wire, length }, HUNG * GRAVITY)
      return [
        [
          words(say(`grid.judged.${layer}`)),
          words(
            say('grid.judged.note', {
              note: show.note(name('note'), note),
              cents: show.cents(name('cents'), note.cents),
              pitch: show.frequency(name('half'), half),
            }),
          ),
          number(show.millimetres(name('stretch'), stretchTo(wire))),
          number(show.millimetres(name('sag'), sag(speakingLength))),
          number(show.millimetres(name('sag-off'), sag(span))),
        ],
      ]
    }),
  }
}
