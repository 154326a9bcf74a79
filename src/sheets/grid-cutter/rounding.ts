/** What fractions of an inch add up to where a grid cutter's sides and ends are made by their drawings alone. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { windings } from '../../binder/judged-wires.ts'
import { isChannel, isHole, type Part } from '../../geometry/part.ts'
import { nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell } from '../model.ts'
import { spareOf } from './inspection.ts'

/**
 * Rods over their wire holes, and the inside between the dadoes. A shop that reads millimetres has no such table.
 *
 * The upper edge of a hole less the lower edge of the rod, which lies in the middle of its kerf; the inner wall of one dado
 * to that of the other; an end less what two dadoes take of it.
 */
export const gridRounding = ({ say, show }: Frame, cutter: BoundGridCutter['cutter']): Block => {
  if (show.lengthUnit !== 'in') return nothing
  const { parts, inside, input } = cutter
  const { rod } = windings(cutter)
  const off = (length: number) => Number(show.sizeError('', length).value)
  const tapeOff = (length: number) => Number(show.tapeError('', length).value)
  const named = (start: string): Part | undefined => parts.find(({ key }) => key.startsWith(start))
  const [side, end] = [named('cutter-side'), named('cutter-end')]
  const hidden = (key: string, part: Part | undefined) => {
    const hole = part?.features.filter(isHole).find(({ name }) => name.startsWith('wire-'))
    const kerf = part?.features.filter(isChannel).find(({ name }) => name === 'rod-kerf')
    if (!hole || !kerf) return []
    const middle = kerf.at + kerf.size / 2
    return [
      {
        label: say(`grid.rounding.${key}`),
        key: `rod.${key}`,
        exact: hole.v + hole.diameter / 2 - (middle - rod.diameter / 2),
        error: off(hole.v) - off(middle),
        least: -rod.play,
        most: rod.play,
      },
    ]
  }
  const dadoes = (side?.features ?? []).filter(isChannel).filter(({ runs }) => runs === 'width')
  const [first, last] = [dadoes[0], dadoes[dadoes.length - 1]]
  const spare = { least: 0, most: spareOf(cutter) }
  const chains = [
    ...hidden('side', side),
    ...hidden('end', end),
    {
      label: say('mould.rounding.inside-length'),
      key: 'inside-length',
      exact: inside.length,
      error: first && last ? off(last.at) - off(first.at) - off(first.size) : 0,
      ...spare,
    },
    {
      label: say('mould.rounding.inside-width'),
      key: 'inside-width',
      exact: inside.width,
      error: tapeOff(end?.length ?? 0) - 2 * off(input.dado.depth),
      ...spare,
    },
  ]
  return {
    kind: 'table',
    caption: say('grid.rounding.caption'),
    columns: [
      { head: say('mould.rounding.chain'), align: 'left' },
      { head: say('mould.rounding.exact'), align: 'right', width: 16 },
      { head: say('mould.rounding.off'), align: 'right', width: 16 },
      { head: say('mould.rounding.verdict'), align: 'left', width: 25 },
    ],
    rows: chains.map(({ label, key, exact, error, least, most }): Cell[] => [
      words(label),
      number(show.hundredths(`rounding.${key}.exact`, exact)),
      number(show.signedHundredths(`rounding.${key}.off`, error)),
      words(
        say(
          error >= least - ROUND && error <= most + ROUND ? 'mould.rounding.fine' : 'mould.rounding.use-mm',
        ),
      ),
    ]),
  }
}

/** m; sums of inches come out a hair off */
const ROUND = 1e-9
