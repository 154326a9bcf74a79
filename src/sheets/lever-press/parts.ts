/** What a lever press is made from. */
import type { BoundLeverPress } from '../../binder/bind-lever-press.ts'
import { PRESS_NUMBERED } from '../../drawing/lever-press/press-drawings.ts'
import { smallItems } from '../../drawing/small/small-apart.ts'
import { box, empty, maker, number, words } from '../compose.ts'
import { buyTable, type HardwareRow, type PartList } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Table } from '../model.ts'

export const pressPartList = ({ press, panelNames }: BoundLeverPress): PartList => ({
  parts: press.parts,
  items: smallItems(press.parts, press.rounds, PRESS_NUMBERED),
  panelNames,
  cutLater: () => undefined,
})

export const pressHardwareRows = ({ say }: Frame, { press }: BoundLeverPress): readonly HardwareRow[] =>
  PRESS_NUMBERED.map((key) => ({
    key,
    count: press.rounds.filter((round) => round.key === key).length,
    made: say(`press.made.${key}`, { size: press.hardware.find((item) => item.key === key)?.size ?? '' }),
  }))

/** Length of a screw over the thickness of the board that it holds (common practice) */
export const SCREW = 2.5
/** m; lost at each saw cut and at the ends of a board (common practice) */
const CUT = 0.004
const SPARE = 1.1

export const pressBuyTable = (frame: Frame, { press, boards, panelNames }: BoundLeverPress): Table => {
  const { say, show } = frame
  const { lumber } = press.input
  const pieces = press.parts.filter(({ material }) => material === lumber.material)
  const all = pieces.reduce((sum, { count, length }) => sum + count * (length + CUT), 0) * SPARE
  const rows = press.hardware.map((item, index): Cell[] => {
    const name = `press.hardware.${item.key}.${index + 1}`
    return [
      words(
        say(`press.hardware.${item.key}`, {
          thin: show.wholeSize('press.screw.thin', SCREW * press.input.panel.thickness),
          thick: show.wholeSize('press.screw.thick', 2 * lumber.thickness),
        }),
      ),
      item.length === undefined
        ? maker(item.size)
        : words(
            say('press.hardware.cut', {
              size: item.size,
              length: show.exactLength(`${name}.length`, item.length),
            }),
          ),
      number(show.count(`${name}.count`, item.count)),
      item.spare > 0 ? number(show.count(`${name}.spare`, item.spare)) : empty,
      box,
    ]
  })
  return {
    ...buyTable(
      frame,
      [
        ...rows,
        [
          words(say('hardware.board', { board: panelNames.get(lumber.material) ?? lumber.material })),
          words(
            say('press.hardware.lumber', {
              width: show.size('press.lumber.width', lumber.width),
              thickness: show.size('press.lumber.thickness', lumber.thickness),
              length: show.coil('press.lumber.length', all),
            }),
          ),
          empty,
          empty,
          box,
        ],
      ],
      { boards, panelNames },
    ),
    caption: say('press.hardware.caption'),
  }
}
