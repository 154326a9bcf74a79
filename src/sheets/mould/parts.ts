/** What a mould is made from: parts with their numbers, what to cut, what to buy. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import { itemNumbers } from '../../drawing/exploded/exploded-scene.ts'
import type { Part } from '../../geometry/part.ts'
import { box, empty, maker, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Table } from '../model.ts'
import { cutLater } from './steps.ts'

export const partName = ({ say }: Frame, part: Pick<Part, 'key'>): Inline => say(`part.${part.key}`)

/** A size in the shop's unit, and beside inches the millimetres that govern, to a tenth. */
export const bothSizes = ({ say, show }: Frame, name: string, value: number): Cell => {
  const size = show.size(name, value)
  if (show.lengthUnit !== 'in') return number(size)
  return words(say('mould.both-sizes', { size, exact: show.millimetres(`${name}.exact`, value) }))
}

/** The numbers are those of the exploded view. */
export const partsTable = (frame: Frame, { mould, panelNames }: BoundMould): Table => {
  const { say, show } = frame
  const items = itemNumbers(mould)
  return {
    kind: 'table',
    caption: say('mould.parts.caption'),
    columns: [
      { head: say('mould.parts.item'), align: 'right', width: 6 },
      { head: say('mould.parts.part'), align: 'left', width: 24 },
      { head: say('mould.parts.count'), align: 'right', width: 9 },
      { head: say('mould.parts.board'), align: 'left' },
      { head: say('mould.parts.what'), align: 'left', width: 30 },
    ],
    rows: [
      ...mould.parts.map((part): Cell[] => [
        number(show.count(`item.${part.key}`, items.get(part.key) ?? 0)),
        words(partName(frame, part)),
        number(show.count(`part.${part.key}.count`, part.count)),
        maker(panelNames.get(part.material) ?? part.material),
        words(say(`part.${part.key}.what`)),
      ]),
      ...['rod', 'washer', 'nut'].map((key): Cell[] => [
        number(show.count(`item.${key}`, items.get(key) ?? 0)),
        words(say(`part.${key}`)),
        number(show.count(`part.${key}.count`, mould.rounds.filter((round) => round.key === key).length)),
        words(say('mould.parts.stainless', { size: mould.rods.thread.key })),
        words(say(`part.${key}.what`)),
      ]),
    ],
  }
}

/** What is fitted to other parts waits for them. */
const inCuttingOrder = (parts: readonly Part[]): readonly Part[] =>
  [...parts].sort((a, b) => (cutLater(a.key) ?? 0) - (cutLater(b.key) ?? 0))

/** In cutting order: long pieces first, so that short ones come from the offcuts. */
export const cutList = (frame: Frame, { mould }: BoundMould): Table => {
  const { say, show } = frame
  const items = itemNumbers(mould)
  const inches = show.lengthUnit === 'in'
  return {
    kind: 'table',
    style: 'weigh',
    caption: say(inches ? 'mould.cuts.caption-inches' : 'mould.cuts.caption'),
    columns: [
      { head: say('mould.parts.item'), align: 'right', width: 5 },
      { head: say('mould.parts.part'), align: 'left' },
      { head: say('mould.parts.count'), align: 'right', width: 7 },
      { head: say('mould.cuts.length'), align: 'right', width: inches ? 12 : 17, main: true },
      { head: say('mould.cuts.width'), align: 'right', width: inches ? 11 : 17, main: true },
      ...(inches
        ? [
            { head: say('mould.cuts.exact'), align: 'right' as const, width: 19 },
            { head: say('mould.cuts.off'), align: 'right' as const, width: 15 },
          ]
        : []),
      { head: say('mould.parts.thickness'), align: 'right', width: inches ? 9 : 12 },
      { head: say('mould.cuts.cut'), align: 'centre', width: 8 },
    ],
    rows: inCuttingOrder(mould.parts).map((part): Cell[] => {
      const later = cutLater(part.key)
      const name = (what: string) => `part.${part.key}.${what}`
      const off = (what: string, length: number) => show.tapeError(name(what), length)
      return [
        number(show.count(`item.${part.key}`, items.get(part.key) ?? 0)),
        words(partName(frame, part)),
        number(show.count(name('count'), part.count)),
        ...(inches
          ? [
              number(show.inches(name('lengthIn'), part.length)),
              number(show.inches(name('widthIn'), part.width)),
              words(
                say('mould.cuts.by', {
                  length: show.millimetres(name('length'), part.length),
                  width: show.millimetres(name('width'), part.width),
                }),
              ),
              words(
                say('mould.cuts.and', {
                  length: off('lengthOff', part.length),
                  width: off('widthOff', part.width),
                }),
              ),
            ]
          : [
              number(show.millimetres(name('length'), part.length)),
              number(show.millimetres(name('width'), part.width)),
            ]),
        number(show.millimetres(name('thickness'), part.thickness)),
        ...(later === undefined
          ? [box]
          : [words(say('mould.cuts.later', { step: show.count(name('step'), later) }))]),
      ]
    }),
  }
}

export const hardwareTable = ({ say, show }: Frame, { mould, boards, panelNames }: BoundMould): Table => ({
  kind: 'table',
  caption: say('mould.hardware.caption'),
  columns: [
    { head: say('mould.hardware.what'), align: 'left' },
    { head: say('mould.hardware.size'), align: 'left', width: 27 },
    { head: say('mould.hardware.needed'), align: 'right', width: 11 },
    { head: say('mould.hardware.spare'), align: 'right', width: 10 },
    { head: say('mould.hardware.got'), align: 'centre', width: 8 },
  ],
  rows: [
    ...mould.hardware.map((item): Cell[] => [
      words(
        say(`hardware.${item.key}`, {
          length: show.length('rod.stock', mould.input.rods.stockLength),
          diameter: show.size('washer.diameter', mould.rods.thread.washer.outsideDiameter),
        }),
      ),
      maker(item.size),
      number(show.count(`hardware.${item.key}.count`, item.count)),
      item.spare > 0 ? number(show.count(`hardware.${item.key}.spare`, item.spare)) : empty,
      box,
    ]),
    [
      words(say('hardware.rod-cut')),
      number(show.length('rod.length', mould.rods.length)),
      number(show.count('rod.count', mould.rods.count)),
      empty,
      box,
    ],
    ...[...boards].map(([material, { length, width }]): Cell[] => {
      return [
        words(say('hardware.board', { board: panelNames.get(material) ?? material })),
        words(
          say('hardware.panel', {
            length: show.wholeSize(`board.${material}.length`, length),
            width: show.wholeSize(`board.${material}.width`, width),
          }),
        ),
        empty,
        empty,
        box,
      ]
    }),
  ],
})
