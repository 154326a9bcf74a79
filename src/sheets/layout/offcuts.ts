/** What is left of boards and worth keeping: how large, what to write on it, and how it is typed in as stock. */
import type { SawnMaterial } from '../../binder/plan-sawing.ts'
import { box, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell } from '../model.ts'
import { panelName } from './figures.ts'

const INCH = 0.0254 // m, exact

interface Kept {
  readonly offcut: number
  readonly board: number
  readonly count: number
  /** along the grain and across it, rounded down to what every tape shows [m] */
  readonly length: number
  readonly width: number
}

/** Never larger than it is: a board that is typed in too large is planned too full. */
const downTo = (size: number, step: number): number => Math.floor(size / step + 1e-6) * step

const keptOf = ({ show }: Frame, { boards }: SawnMaterial): readonly Kept[] => {
  const step = show.lengthUnit === 'in' ? INCH / 8 : 0.001
  return boards.flatMap(({ plan, numbers }) =>
    plan.offcuts.map(({ offcut, place }) => ({
      offcut: offcut ?? 0,
      board: numbers[0]!,
      count: numbers.length,
      length: downTo(place.length, step),
      width: downTo(place.width, step),
    })),
  )
}

export const offcutTable = (frame: Frame, material: SawnMaterial): Block => {
  const { say, show } = frame
  const kept = keptOf(frame, material)
  if (kept.length === 0) return nothing
  const name = (offcut: number, what: string) => `${panelName(material)}.offcut.${offcut}.${what}`
  return {
    kind: 'table',
    caption: say('layout.offcuts.caption'),
    columns: [
      { head: say('layout.offcuts.number'), align: 'right', width: 9 },
      { head: say('layout.offcuts.board'), align: 'right', width: 9 },
      { head: say('fixture.parts.count'), align: 'right', width: 8 },
      {
        head: say(material.grain ? 'layout.offcuts.length' : 'fixture.cuts.length'),
        align: 'right',
        width: 14,
      },
      {
        head: say(material.grain ? 'layout.offcuts.width' : 'fixture.cuts.width'),
        align: 'right',
        width: 14,
      },
      { head: say('layout.offcuts.write'), align: 'left' },
      { head: say('layout.offcuts.kept'), align: 'centre', width: 8 },
    ],
    rows: kept.map(({ offcut, board, count, length, width }): Cell[] => [
      number(show.count(name(offcut, 'number'), offcut)),
      number(show.count(`${panelName(material)}.board.${board}`, board)),
      number(show.count(name(offcut, 'count'), count)),
      number(show.wholeSize(name(offcut, 'length'), length)),
      number(show.wholeSize(name(offcut, 'width'), width)),
      words(
        say(material.grain ? 'layout.offcuts.write-it' : 'layout.offcuts.write-any', {
          material: material.panel.material,
        }),
      ),
      box,
    ]),
  }
}

/** As lines of the shop's file. */
export const typedTable = (frame: Frame, material: SawnMaterial): Block => {
  const { say, show } = frame
  const kept = keptOf(frame, material)
  if (kept.length === 0) return nothing
  const name = (offcut: number, what: string) => `${panelName(material)}.offcut.${offcut}.typed.${what}`
  return {
    kind: 'table',
    caption: say('layout.typed.how'),
    columns: [{ head: say('layout.typed.key', { key: 'boards-in-shop:' }), align: 'left' }],
    rows: kept.map(({ offcut, count, length, width }): Cell[] => [
      words(
        say('layout.typed.line', {
          dash: '- {',
          end: '}',
          'panel-key': 'panel:',
          panel: material.panel.material,
          'length-key': 'length:',
          length: show.inFiles.wholeSize(name(offcut, 'length'), length),
          'width-key': 'width:',
          width: show.inFiles.wholeSize(name(offcut, 'width'), width),
          'count-key': 'how-many:',
          count: show.count(name(offcut, 'count'), count),
        }),
      ),
    ]),
  }
}
