/** What a grid cutter is made from: its parts and hardware, what to buy, wires to cut. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import type { BoundWires } from '../../binder/bind-wires.ts'
import { GEAR, windings } from '../../binder/judged-wires.ts'
import { gridItems } from '../../drawing/grid-cutter/grid-apart.ts'
import { box, empty, type Fill, maker, number, words } from '../compose.ts'
import { buyTable, type HardwareRow, type PartList } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'
import { wireKey, wireName } from '../wires/groups.ts'

/** m; wires of one diameter */
const SAME = 1e-6

/** As it is asked for in a shop. */
const WIRE = {
  'music-wire': 'grid.hardware.wire-music-wire',
  'stainless-302': 'grid.hardware.wire-stainless-302',
} as const

/** The peg is numbered at its housing, and listed as what it is bought as. */
const itemsOf = ({ cutter }: BoundGridCutter): ReadonlyMap<string, number> => {
  const items = gridItems(cutter)
  const peg = items.get('peg-body')
  return peg === undefined ? items : new Map([...items, ['peg', peg]])
}

export const gridPartList = (bound: BoundGridCutter): PartList => ({
  parts: bound.cutter.parts,
  items: itemsOf(bound),
  panelNames: bound.panelNames,
  cutLater: () => undefined,
})

const HARDWARE = {
  'bridge-rod': 'rod',
  peg: 'peg',
  'anchor-screw': 'anchor',
  'anchor-pin': 'anchor',
} as const

export const gridHardwareRows = ({ say }: Frame, { cutter }: BoundGridCutter): readonly HardwareRow[] =>
  (Object.keys(HARDWARE) as (keyof typeof HARDWARE)[]).flatMap((key) => {
    const items = cutter.hardware.filter((item) => item.key === key)
    const count = items.reduce((sum, item) => sum + item.count, 0)
    const size = items[0]?.size ?? ''
    return count === 0 ? [] : [{ key, count, made: say(`grid.made.${HARDWARE[key]}`, { size }) }]
  })

/** @param strung the wires of both cutters, which are bought together */
export const gridBuyTable = (
  frame: Frame,
  { cutter, boards, panelNames, wires }: BoundGridCutter,
  strung: BoundWires | undefined,
): Table => {
  const { say, show } = frame
  const { input } = cutter
  const rods = cutter.hardware
    .filter(({ key }) => key === 'bridge-rod')
    .reduce((sum, { count, length = 0 }) => sum + count * length, 0)
  const hardware = cutter.hardware.map((item, index): Cell[] => {
    const name = `hardware.${item.key}.${index + 1}`
    return [
      words(
        say(`grid.hardware.${item.key}`, {
          bore: show.size('peg.bore', input.peg.bore),
          least: show.millimetres('peg.board.least', input.peg.board.least),
          most: show.millimetres('peg.board.most', input.peg.board.most),
          rating: show.force('peg.rating', input.peg.rating),
          post: show.millimetres('peg.post', input.peg.post.diameter),
          all: show.length('rod.all', rods),
          ...seatOf(frame, cutter),
          body: show.millimetres('peg.body', input.peg.body.diameter),
          button: show.millimetres('peg.button', input.peg.button.diameter),
          from: show.millimetres('peg.button.from', input.peg.button.from),
          to: show.millimetres('peg.button.to', input.peg.button.to),
        }),
      ),
      item.length === undefined
        ? item.key === 'peg'
          ? words(say(`grid.peg.${input.peg.key}`))
          : maker(item.size ?? '')
        : words(
            say('grid.hardware.cut', {
              size: item.size ?? '',
              length: show.exactLength(`${name}.length`, item.length),
            }),
          ),
      number(show.count(`${name}.count`, item.count)),
      item.spare > 0 ? number(show.count(`${name}.spare`, item.spare)) : empty,
      box,
    ]
  })
  const own = wires.groups[0]?.chosen.material ?? 'music-wire'
  const coil = strung?.buy.find(
    ({ material, diameter }) => material === own && Math.abs(diameter - input.wire.diameter) < SAME,
  )
  const table = buyTable(
    frame,
    [
      ...hardware,
      ...(coil
        ? [
            [
              words(say(WIRE[own])),
              words(
                say('grid.hardware.wire-size', {
                  wire: wireName(frame, coil),
                  length: show.coil(`${wireKey(coil)}.length`, coil.length),
                }),
              ),
              empty,
              empty,
              box,
            ],
          ]
        : []),
    ],
    { boards, panelNames },
  )
  return { ...table, caption: say('grid.hardware.caption') }
}

/** What a peg has below its seat, and what a turn of its button does. */
const seatOf = ({ show }: Frame, cutter: BoundGridCutter['cutter']): Fill => {
  const { hole, nut, takes } = windings(cutter)
  const { thickness } = cutter.input.panels.shelf
  return {
    'seat-least': show.millimetres('peg.seat.least', thickness + hole.least),
    'seat-most': show.millimetres('peg.seat.most', thickness + hole.most),
    nut: show.millimetres('peg.nut', nut),
    gear: show.count('peg.gear', GEAR),
    takes: show.millimetres('peg.takes', takes),
  }
}

/** Wires by layer, with all that is twisted and wound. */
export const wireLengthTable = ({ say, show }: Frame, { cutter }: BoundGridCutter): Table => ({
  kind: 'table',
  caption: say('grid.wires.caption'),
  columns: [
    { head: say('grid.wires.which'), align: 'left' },
    { head: say('grid.wires.count'), align: 'right', width: 12 },
    { head: say('grid.wires.length'), align: 'right', width: 24 },
    { head: say('grid.wires.speaking'), align: 'right', width: 24 },
    { head: say('fixture.cuts.cut'), align: 'centre', width: 8 },
  ],
  rows: cutter.wireLengths.map(({ layer, lines, count, length }): Cell[] => {
    const own = cutter.layers.find((one) => one.layer === layer)
    const name = `wires.${layer}.${lines}`
    return [
      words(say(`grid.wires.${layer}-${lines}`)),
      number(show.count(`${name}.count`, count)),
      number(show.length(`${name}.length`, length)),
      number(show.exactLength(`wires.${layer}.speaking`, own?.speakingLength ?? 0)),
      box,
    ]
  }),
})
