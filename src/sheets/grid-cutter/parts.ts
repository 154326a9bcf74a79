/** What a grid cutter is made from: its parts and hardware, what to buy, wires to cut. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { GEAR, windings } from '../../binder/judged-wires.ts'
import { gridItems } from '../../drawing/grid-cutter/grid-apart.ts'
import { box, empty, type Fill, maker, number, words } from '../compose.ts'
import { buyTable, type HardwareRow, type PartList } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'
import { INCH } from '../shown.ts'

/** Wire that is bought over what is strung: a second set, for what breaks and what is twisted wrongly (common practice) */
const WIRE_SPARE = 2

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

export const gridBuyTable = (frame: Frame, { cutter, panelNames, wires }: BoundGridCutter): Table => {
  const { say, show } = frame
  const { input } = cutter
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
          ...seatOf(frame, cutter),
          body: show.millimetres('peg.body', input.peg.body.diameter),
          button: show.millimetres('peg.button', input.peg.button.diameter),
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
  const step = show.lengthUnit === 'in' ? 12 * INCH : 0.1
  const length = cutter.wireLengths.reduce((sum, wire) => sum + wire.count * wire.length, 0)
  const boards = [...panelNames].map(([material, name]): Cell[] => {
    const own = cutter.parts.filter((part) => part.material === material)
    return [
      words(say('hardware.board', { board: name })),
      words(
        say('grid.hardware.parts', {
          area: show.area(
            `board.${material}.area`,
            own.reduce((sum, part) => sum + part.count * part.length * part.width, 0),
          ),
          longest: show.wholeSize(
            `board.${material}.longest`,
            Math.max(0, ...own.map(({ grain, length: long, width }) => (grain === 'length' ? long : width))),
          ),
        }),
      ),
      empty,
      empty,
      box,
    ]
  })
  const table = buyTable(
    frame,
    [
      ...hardware,
      [
        words(say(WIRE[wires.groups[0]?.chosen.material ?? 'music-wire'])),
        words(
          say('grid.hardware.wire-size', {
            diameter: show.hundredths('wire.diameter', input.wire.diameter),
            length: show.wholeSize('wire.bought', Math.ceil((WIRE_SPARE * length) / step) * step),
          }),
        ),
        empty,
        empty,
        box,
      ],
      ...boards,
    ],
    { boards: new Map(), panelNames },
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
