/** Where everything on a mould's parts is: channels, holes, and what the tape's fractions add up to. */
import type { BlockMould } from '../../fixtures/block-mould.ts'
import {
  type Hole,
  isChamfer,
  isChannel,
  isFold,
  isHole,
  isNotch,
  isScribe,
  type Part,
} from '../../geometry/part.ts'
import { empty, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Table } from '../model.ts'
import { INSPECTION, PLAY } from './inspection.ts'
import { bothSizes, partName } from './parts.ts'

export const channelTable = (frame: Frame, parts: readonly Part[]): Table => {
  const { say } = frame
  const size = (name: string, value: number) => bothSizes(frame, name, value)
  return {
    kind: 'table',
    caption: say('mould.features.caption'),
    columns: [
      { head: say('mould.parts.part'), align: 'left', width: 19 },
      { head: say('mould.features.what'), align: 'left', width: 27 },
      { head: say('mould.features.along'), align: 'right' },
      { head: say('mould.features.across'), align: 'right' },
      { head: say('mould.features.size'), align: 'right' },
      { head: say('mould.features.depth'), align: 'right' },
    ],
    rows: parts.flatMap((part) =>
      part.features.flatMap((feature): Cell[][] => {
        const name = `part.${part.key}.${feature.name}`
        const row = (what: string, at: Cell[]): Cell[][] => [
          [words(partName(frame, part)), words(say(`feature.${what}`)), ...at],
        ]
        if (isChannel(feature)) {
          const along = feature.runs === 'width'
          // A saw is set to the middle of a groove and to the wall of a dado, as on the drawings.
          const at = feature.kind === 'groove' ? feature.at + feature.size / 2 : feature.at
          return row(`${feature.kind}.${feature.face}.${feature.runs}`, [
            along ? size(`${name}.at`, at) : empty,
            along ? empty : size(`${name}.at`, at),
            size(`${name}.size`, feature.size),
            size(`${name}.depth`, feature.depth),
          ])
        }
        if (isNotch(feature))
          return row(`notch.${feature.edge}`, [
            size(`${name}.at`, feature.at),
            empty,
            size(`${name}.size`, feature.size),
            size(`${name}.depth`, feature.depth),
          ])
        if (isFold(feature)) return row('fold', [size(`${name}.at`, feature.at), empty, empty, empty])
        if (isScribe(feature)) return row('scribe', [empty, size(`${name}.at`, feature.at), empty, empty])
        if (isChamfer(feature))
          return row(`chamfer.${feature.edges}`, [empty, empty, size(`${name}.size`, feature.size), empty])
        return []
      }),
    ),
  }
}

/** Every hole from the part's two datum edges, with its drill. */
export const holeSchedule = (frame: Frame, parts: readonly Part[]): Table => {
  const { say, show } = frame
  const size = (name: string, value: number) => bothSizes(frame, name, value)
  const holes = parts.flatMap((part) =>
    part.features.filter(isHole).map((hole): { part: Part; hole: Hole } => ({ part, hole })),
  )
  const recessed = holes.some(({ hole }) => hole.counterbore)
  return {
    kind: 'table',
    caption: say('mould.holes.caption'),
    columns: [
      { head: say('mould.parts.part'), align: 'left', width: 19 },
      { head: say('mould.holes.hole'), align: 'right', width: 9 },
      { head: say('mould.holes.from-left'), align: 'right' },
      { head: say('mould.holes.from-bottom'), align: 'right' },
      { head: say('mould.holes.drill'), align: 'right' },
      { head: say('mould.features.depth'), align: 'right' },
      ...(recessed ? [{ head: say('mould.holes.recess'), align: 'right' as const, width: 20 }] : []),
    ],
    rows: holes.map(({ part, hole }): Cell[] => {
      const name = `part.${part.key}.${hole.name}`
      const nth = part.features.filter(isHole).indexOf(hole) + 1
      const { counterbore } = hole
      return [
        words(partName(frame, part)),
        number(show.count(`${name}.number`, nth)),
        size(`${name}.u`, hole.u),
        size(`${name}.v`, hole.v),
        size(`${name}.diameter`, hole.diameter),
        words(say('feature.through')),
        ...(counterbore
          ? [
              words(
                say('feature.recess', {
                  diameter: show.size(`${name}.recess`, counterbore.diameter),
                  depth: show.size(`${name}.recess-depth`, counterbore.depth),
                }),
              ),
            ]
          : recessed
            ? [empty]
            : []),
      ]
    }),
  }
}

/** Where the pieces are glued that have no dado of their own. */
export const gluedTable = (frame: Frame, mould: BlockMould): Table => {
  const { say } = frame
  const { outside, base, input } = mould
  const place = (key: string, name: string, value: number): Cell[] => [
    words(say(`mould.glued.${key}`)),
    bothSizes(frame, name, value),
  ]
  const places = (key: string) => mould.parts.find((part) => part.key === key)?.placements ?? []
  const rails = places('rail')
  const lid = places('lid')[0]?.origin
  const cleat = places('cleat').at(-1)?.origin
  return {
    kind: 'table',
    caption: say('mould.glued.caption'),
    columns: [
      { head: say('mould.features.what'), align: 'left' },
      { head: say('mould.glued.at'), align: 'right', width: 26 },
    ],
    rows: [
      place('strip', 'glued.strip', (outside.height - input.stripWidth) / 2),
      ...rails.map(({ origin }, index): Cell[] => [
        words(say('mould.glued.rail', { number: String(index + 1) })),
        bothSizes(frame, `glued.rail-${index + 1}`, base.length / 2 + origin.x),
      ]),
      // The lid lies in the middle, so that its right end is as far out as its left one.
      ...(lid && cleat
        ? [
            place('cleat-end', 'glued.cleat.end', -lid.x - cleat.x),
            place('cleat-side', 'glued.cleat.side', cleat.y - lid.y),
          ]
        : []),
    ],
  }
}

/**
 * What fractions of an inch add up to, chain by chain: worth knowing where a part is made by the tape alone. A shop that
 * reads millimetres has no such table.
 */
export const roundingTable = (frame: Frame, mould: BlockMould): Block => {
  const { say, show } = frame
  if (show.lengthUnit !== 'in') return nothing
  const off = (length: number) => Number(show.sizeError('', length).value)
  const tapeOff = (length: number) => Number(show.tapeError('', length).value)
  const { input, parts, inside, base } = mould
  const side = parts.find(({ key }) => key === 'side')
  const end = parts.find(({ key }) => key === 'end')
  const baseTop = parts.find(({ key }) => key === 'base-top')
  const dadoes = side?.features.filter(isChannel) ?? []
  const [first, last] = [dadoes[0], dadoes[dadoes.length - 1]]
  const worstGroove = (baseTop?.features.filter(isChannel) ?? [])
    .map(({ at, size }) => off(at + size / 2))
    .reduce((worst, one) => (Math.abs(one) > Math.abs(worst) ? one : worst), 0)
  const widthOff = tapeOff(end?.length ?? 0) - 2 * off(input.dado.depth)
  const lengthOff = first && last ? off(last.at) + off(last.size) - off(first.at) : 0
  const rows: readonly (readonly [string, number, number])[] = [
    // The outer walls of the dadoes set the inside: far wall of the last less near wall of the first.
    ['inside-length', inside.length, lengthOff],
    ['inside-width', inside.width, widthOff],
    ['base-gap-length', (inside.length - base.length) / 2, (lengthOff - tapeOff(base.length)) / 2],
    ['base-gap-width', (inside.width - base.width) / 2, (widthOff - tapeOff(base.width)) / 2],
    ['groove', 0, worstGroove],
  ]
  return {
    kind: 'table',
    caption: say('mould.rounding.caption'),
    columns: [
      { head: say('mould.rounding.chain'), align: 'left' },
      { head: say('mould.rounding.exact'), align: 'right', width: 16 },
      { head: say('mould.rounding.off'), align: 'right', width: 16 },
      { head: say('mould.inspection.tolerance'), align: 'right', width: 14 },
      { head: say('mould.rounding.verdict'), align: 'left', width: 22 },
    ],
    rows: rows.map(([key, exact, error]): Cell[] => {
      const allowed = key.startsWith('base-gap')
        ? mould.input.base.clearance - mould.input.panels.lining.thickness - PLAY
        : key === 'groove'
          ? INSPECTION.joint
          : INSPECTION.outline
      return [
        words(say(`mould.rounding.${key}`)),
        exact > 0 ? number(show.hundredths(`rounding.${key}.exact`, exact)) : empty,
        number(show.signedHundredths(`rounding.${key}.off`, error)),
        number(show.hundredths(`rounding.${key}.allowed`, allowed)),
        words(say(Math.abs(error) <= allowed + 1e-9 ? 'mould.rounding.fine' : 'mould.rounding.use-mm')),
      ]
    }),
  }
}
