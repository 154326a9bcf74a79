/** Layouts and plans in one line each, for what is kept to notice change. */
import { piecesOf } from '../../src/sheet-stock/check-layout.ts'
import type { Placed } from '../../src/sheet-stock/insertion.ts'
import type { Block } from '../../src/sheet-stock/joined-blocks.ts'
import type { SawPlan } from '../../src/sheet-stock/saw-plan.ts'
import type { Place, Region, SheetLayout } from '../../src/sheet-stock/types.ts'

/** mm, to the hundredth. */
const mm = (metres: number): number => Math.round(metres * 1e5) / 100

const placeTold = ({ along, across, length, width }: Place): string =>
  `${mm(length)}x${mm(width)}@${mm(along)},${mm(across)}`

/** Piece by piece, with the cuts between them. */
export const regionTold = (region: Region): string => {
  if (region.kind === 'blank') return `${region.key}${region.turned ? ' turned' : ''} ${placeTold(region)}`
  if (region.kind !== 'cut') return `rest ${placeTold(region)}`
  const sides = region.second ? [region.first, region.second] : [region.first]
  return `${region.cut}(${sides.map(regionTold).join(' | ')})`
}

export const layoutTold = ({ boards, left, bound }: SheetLayout): string =>
  [
    ...boards.map(
      ({ board, region }) =>
        `${board}: ${piecesOf(region)
          .map((piece) => `${piece.key ?? 'rest'} ${mm(piece.length)}x${mm(piece.width)}`)
          .join(', ')}`,
    ),
    `left ${left.map(({ key, count }) => `${count} ${key}`).join(', ') || 'none'}`,
    `bound ${Number(bound.cost.toPrecision(6))} ${bound.boards}`,
  ].join('; ')

/** Item, its place, and the cut beside it. */
export const placedTold = (placed: readonly Placed[]): string =>
  placed
    .map(
      ({ item, turned, board, rest, through }) =>
        `${item}${turned ? 't' : ''} ${board}@${rest.along},${rest.across} of ${rest.length}x${rest.width} ${through}`,
    )
    .join('; ')

export const blockTold = (block: Block | undefined): string =>
  block === undefined
    ? 'none'
    : block.kind === 'item'
      ? `${block.item}${block.turned ? 't' : ''}`
      : `(${blockTold(block.first)} ${block.by === 'length' ? '-' : '/'} ${blockTold(block.second)})${block.length}x${block.width}`

/** A cut a line. */
export const planTold = ({ trimmed, cuts, steps, pieces, settings }: SawPlan): readonly string[] => [
  `trimmed ${trimmed.join(' ') || 'nowhere'}; ${settings} settings; steps of ${steps.map((step) => step.cuts.length).join(' ')}`,
  ...cuts.map((cut) => {
    const [on, kept, falls] = [cut.piece, cut.kept, cut.falls].map((id) => {
      if (id === undefined) return 'dust'
      const { letter, key, kind, place, offcut } = pieces[id]!
      return `${letter ?? key ?? kind}${offcut ?? ''} ${mm(place.length)}x${mm(place.width)}`
    })
    const how = [cut.tool, ...cut.cautions, ...(cut.sameSetting ? ['stands'] : [])].join(' ')
    return `${cut.kind} ${on} from ${cut.from} ${mm(cut.distance)} by ${mm(cut.length)}: ${kept} | ${falls}; ${how}`
  }),
]
