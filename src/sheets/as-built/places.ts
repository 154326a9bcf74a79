/** Where tape and rule go. */
import type { BoundAsBuilt } from '../../binder/bind-as-built.ts'
import { tapePlaces } from '../../drawing/as-built/tape-places.ts'
import { inlineWords } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Figure } from '../model.ts'
import type { ReadingGroup } from './as-built-sheet.ts'

/** m; from the inner face of a rail to the middle of its rod: told apart on paper (as drawn) */
const ROD = 0.004

export const placesFigure = (
  frame: Frame,
  { readings, mould, grid, bar }: BoundAsBuilt,
  groups: readonly ReadingGroup[],
): Figure => {
  const { say } = frame
  const letter = (key: string): string => groups.find((one) => one.key === key)?.letter ?? ''
  const drawnOf = (key: string): readonly number[] =>
    readings.filter((one) => one.key === key).map(({ drawn }) => drawn)
  const { inside, input } = mould.mould
  // what sounds is measured along itself
  const own = frame.show.list(groups.flatMap((one) => (one.key.startsWith('speaking-') ? [one.letter] : [])))
  const heading = (key: string): string => inlineWords(say(`as-built.places.${key}`))
  const drawn = tapePlaces({
    name: 'tape-places',
    label: heading('label'),
    width: Math.min(frame.room.width, 176),
    mould: {
      title: heading('mould'),
      inside,
      wall: input.panels.side.thickness,
      height: inside.height,
      below: drawnOf('water-below-rim')[0] ?? 0,
      letters: {
        weighed: letter('water-weighed'),
        below: letter('water-below-rim'),
        length: letter('inside-length'),
        width: letter('inside-width'),
      },
    },
    ...(grid
      ? {
          frame: {
            title: heading('frame'),
            inside: grid.cutter.inside,
            wall: grid.cutter.input.panels.side.thickness,
            across: { length: drawnOf('wires-across-length'), width: drawnOf('wires-across-width') },
            rod: ROD,
            letters: {
              length: letter('frame-length'),
              width: letter('frame-width'),
              acrossLength: letter('wires-across-length'),
              acrossWidth: letter('wires-across-width'),
              ...speakingLetters(grid.cutter.layers, letter),
            },
          },
        }
      : {}),
    ...(bar
      ? {
          bar: {
            title: heading('bar'),
            wires: drawnOf('wires'),
            loaf: { length: bar.cutter.loaf.length, width: bar.cutter.loaf.width },
            speaking: drawnOf('speaking-bar')[0] ?? bar.cutter.loaf.width,
            letters: { wires: letter('wires'), speaking: letter('speaking-bar') },
          },
        }
      : {}),
  })
  return {
    kind: 'figure',
    svg: drawn.svg,
    caption: own === '' ? say('as-built.places.caption') : say('as-built.places.own', { letters: own }),
    values: [],
  }
}

const speakingLetters = (
  layers: readonly { readonly layer: 'short' | 'long'; readonly runs: 'width' | 'length' }[],
  letter: (key: string) => string,
) => {
  const of = (runs: 'width' | 'length'): string => {
    const layer = layers.find((one) => one.runs === runs)?.layer
    return layer ? letter(`speaking-${layer}`) : ''
  }
  return { alongWidth: of('width'), alongLength: of('length') }
}
