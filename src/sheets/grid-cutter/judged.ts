/** How a wire is judged while it is strung: its note half way, how little it stretches, how far a weight draws it down. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { hungMass, judgedWire } from '../../binder/judged-wires.ts'
import { number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'

/** What is hung on each wire [kg]. */
export const hungOn = ({ cutter, wires }: BoundGridCutter): number => {
  const layer = cutter.layers.find((one) => one.layer === 'long')
  const choice = wires.groups.find(({ key }) => key === 'grid-long')?.chosen
  return hungMass(layer && choice ? { layer, choice } : undefined, {
    gap: cutter.gap.is,
    diameter: cutter.input.wire.diameter,
  })
}

/** A row a layer; a wire that lies off its rods is free from its peg to its anchor. */
export const judgedTable = ({ say, show }: Frame, bound: BoundGridCutter): Table => {
  const { cutter, wires } = bound
  const hung = hungOn(bound)
  const right = (key: string) => ({ head: say(`grid.judged.${key}`), align: 'right' as const, width: 17 })
  return {
    kind: 'table',
    caption: say('grid.judged.caption', { mass: show.heavy('judged.mass', hung) }),
    columns: [
      { head: say('grid.wires.which'), align: 'left' },
      right('half'),
      right('stretch'),
      right('rods'),
      right('off'),
    ],
    rows: cutter.layers.flatMap((one): Cell[][] => {
      const { layer } = one
      const group = wires.groups.find(({ key }) => key === `grid-${layer}`)
      if (!group) return []
      const { half, stretch, sag } = judgedWire(one, group.chosen, hung)
      const name = (what: string) => `judged.${layer}.${what}`
      return [
        [
          words(say(`grid.judged.${layer}`)),
          words(
            say('grid.judged.note', {
              note: show.note(name('note'), half.note),
              cents: show.cents(name('cents'), half.note.cents),
              pitch: show.frequency(name('half'), half.pitch),
            }),
          ),
          number(show.millimetres(name('stretch'), stretch)),
          number(show.millimetres(name('sag'), sag.onRods)),
          number(show.millimetres(name('sag-off'), sag.offRods)),
        ],
      ]
    }),
  }
}
