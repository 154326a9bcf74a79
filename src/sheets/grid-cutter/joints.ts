/** Where a grid cutter's pieces stand that no dado places, and what its joints are screwed with. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import type { Part } from '../../geometry/part.ts'
import { placeBox } from '../../geometry/placement.ts'
import { empty, nothing, number, words } from '../compose.ts'
import { bothSizes, partName } from '../fixture/part-tables.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Table } from '../model.ts'

/** Pieces whose place no dado gives, or only one way. */
export const gridGluedTable = (frame: Frame, { cutter }: BoundGridCutter): Table => {
  const { say } = frame
  const { parts, edgeAtEnd, outside } = cutter
  const named = (start: string): Part | undefined => parts.find(({ key }) => key.startsWith(start))
  const [side, end] = [named('cutter-side'), named('cutter-end')]
  const place = (key: string, rail: Part | undefined, piece: Part | undefined): Cell[][] =>
    rail && piece
      ? [
          [
            words(say(`grid.glued.${key}`)),
            bothSizes(frame, `glued.${key}`, (rail.length - piece.length) / 2),
          ],
        ]
      : []
  const stop = named('stop-block')
  return {
    kind: 'table',
    caption: say('grid.glued.caption'),
    columns: [
      { head: say('fixture.features.what'), align: 'left' },
      { head: say('mould.glued.at'), align: 'right', width: 26 },
    ],
    rows: [
      ...place('side-shelf', side, named('side-shelf')),
      ...place('end-shelf', end, named('end-shelf')),
      ...(stop
        ? [
            [words(say('grid.glued.stop')), bothSizes(frame, 'glued.stop', edgeAtEnd)],
            [
              words(say('grid.glued.stop-top')),
              bothSizes(frame, 'glued.stop-top', edgeAtEnd + outside.height - stop.length),
            ],
          ]
        : []),
    ],
  }
}

/** Where cleats, base and mark sticks stand on the board of the stand, from its left and its front edge. */
export const standPlaces = (frame: Frame, { cutter }: BoundGridCutter): Block => {
  const { say, show } = frame
  const { parts, input } = cutter
  const boxes = (list: readonly Part[], key: string) =>
    list
      .filter((part) => part.key === key)
      .flatMap(({ placements, length, width, thickness }) =>
        placements.map((placement) =>
          placeBox(placement, { min: { x: 0, y: 0, z: 0 }, max: { x: length, y: width, z: thickness } }),
        ),
      )
  const [board] = boxes(parts, 'stand-board')
  if (!board) return nothing
  const feet = boxes(input.mould.parts, 'rail')
  const base = {
    x: Math.min(...feet.map(({ min }) => min.x)),
    y: Math.min(...feet.map(({ min }) => min.y)),
  }
  const row = (what: string, x: number, y: number): Cell[] => [
    words(say(`grid.stand.${what}`)),
    bothSizes(frame, `stand.${what}.left`, x - board.min.x),
    bothSizes(frame, `stand.${what}.front`, y - board.min.y),
  ]
  const cleats = boxes(parts, 'base-cleat')
  const sticks = boxes(parts, 'mark-stick')
  return {
    kind: 'table',
    caption: say('grid.stand.caption', {
      play: show.millimetres('stand.cleat.play', cutter.stand.cleat.play),
    }),
    columns: [
      { head: say('fixture.features.what'), align: 'left' },
      { head: say('grid.stand.left'), align: 'right', width: 22 },
      { head: say('grid.stand.front'), align: 'right', width: 22 },
    ],
    rows: [
      row('base', base.x, base.y),
      ...['cleat-front', 'cleat-back', 'cleat-left', 'cleat-right'].flatMap((what, index) => {
        const cleat = cleats[index]
        return cleat ? [row(what, cleat.min.x, cleat.min.y)] : []
      }),
      ...['stick-front', 'stick-back'].flatMap((what, index) => {
        const stick = sticks[index === 0 ? 0 : 3]
        return stick
          ? [
              [
                words(say(`grid.stand.${what}`)),
                empty,
                bothSizes(frame, `stand.${what}.front`, stick.min.y - board.min.y),
              ],
            ]
          : []
      }),
    ],
  }
}

/** Each joint with its screws, and the hole that is drilled on into the part behind. */
export const gridScrewTable = (frame: Frame, { cutter }: BoundGridCutter): Block => {
  const { say, show } = frame
  const { joints, clamped } = cutter.screws
  if (joints.length + clamped.length === 0) return nothing
  const joint = (head: string, into: string): Cell =>
    words(
      say('grid.screws.joint', {
        head: partName(frame, { key: head }),
        into: partName(frame, { key: into }),
      }),
    )
  const right = (key: string, width: number) => ({
    head: say(`grid.screws.${key}`),
    align: 'right' as const,
    width,
  })
  return {
    kind: 'table',
    caption: say('grid.screws.caption'),
    columns: [
      { head: say('grid.screws.through'), align: 'left' },
      right('count', 9),
      right('screw', 16),
      right('pilot', 17),
      right('deep', 17),
    ],
    rows: [
      ...joints.map(({ head, into, screw, length, count, pilot }): Cell[] => {
        const name = `screws.${head}.${into}`
        return [
          joint(head, into),
          number(show.count(`${name}.count`, count)),
          words(say('grid.screws.size', { screw, length: show.size(`${name}.length`, length) })),
          bothSizes(frame, `${name}.pilot`, pilot.diameter),
          bothSizes(frame, `${name}.deep`, pilot.depth),
        ]
      }),
      ...clamped.map(({ head, into }): Cell[] => [
        joint(head, into),
        words(say('grid.screws.none')),
        empty,
        empty,
        empty,
      ]),
    ],
  }
}
