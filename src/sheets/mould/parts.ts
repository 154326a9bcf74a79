/** What a mould is made from, for the tables that all fixtures share. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import { itemNumbers } from '../../drawing/exploded/apart.ts'
import { box, empty, maker, number, words } from '../compose.ts'
import { buyTable, type HardwareRow, type PartList } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'
import { cutLater } from './steps.ts'

export const mouldPartList = ({ mould, gauge, panelNames }: BoundMould): PartList => ({
  parts: [...mould.parts, ...(gauge ? [gauge.part] : [])],
  items: itemNumbers(mould),
  panelNames,
  cutLater,
})

export const mouldHardwareRows = ({ say }: Frame, { mould }: BoundMould): readonly HardwareRow[] =>
  ['rod', 'washer', 'nut'].map((key) => ({
    key,
    count: mould.rounds.filter((round) => round.key === key).length,
    made: say('fixture.parts.stainless', { size: mould.rods.thread.key }),
  }))

export const mouldBuyTable = (frame: Frame, { mould, boards, panelNames }: BoundMould): Table => {
  const { say, show } = frame
  return buyTable(
    frame,
    [
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
    ],
    { boards, panelNames },
  )
}
