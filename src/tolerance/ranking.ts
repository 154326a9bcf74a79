/** Which errors matter for the weight of bars, which do not, and what each kind of loaf comes to. */
import {
  type BlockChain,
  cellChange,
  DIRECTIONS,
  type Direction,
  type DirectionKey,
  LOAF_KINDS,
  type LoafKind,
  loafKind,
  pooledContributions,
  sizeContributions,
  weightContributions,
} from './block-chain.ts'
import { type Stack, stackUp } from './stack.ts'

/** One kind of error over all directions. */
export interface RankedError {
  readonly key: string
  /** greatest of its tolerances [m; of what makes the block heavier –] */
  readonly tolerance: number
  /** greatest change of a bar's size by one such error at its limit [m]; undefined where it changes the weight alone */
  readonly sizeChange: number | undefined
  /** greatest change of a bar's weight by one such error at its limit, as a share of it [–] */
  readonly weightChange: number
  /** of the variance of all bars [0..1] */
  readonly ofVariance: number
  /** of a block that feel it at all */
  readonly bars: number
  /** tolerance up to which it would have no more than the negligible share, all others as they are [unit of its tolerance] */
  readonly goodEnough: number
}

/** Share of the variance up to which an error does not matter: without it the spread is 1 % smaller [–] */
export const NEGLIGIBLE = 0.02

/**
 * Errors by what they do to the weight of all bars, the greatest first.
 *
 *     share = its variance / variance of all bars
 *     good enough: t √(n/(1 − n) · (1 − share)/share),   n = 2 %: a root of squares does not notice less
 *
 * Validity: small, independent errors; a key has one shape of error in all directions.
 * @param chain of the block
 * @returns ranked errors [–, m]
 * @source scholz1995, jcgm100
 */
export function rankedErrors(chain: BlockChain): readonly RankedError[] {
  const pooled = pooledContributions(chain)
  const { shares } = stackUp(pooled)
  const keys = [...new Set(pooled.map(({ key }) => key))]
  return keys
    .map((key): RankedError => {
      const own = pooled.flatMap((one, index) => (one.key === key ? [{ one, share: shares[index] }] : []))
      const ofVariance = own.reduce((sum, { share }) => sum + (share?.ofVariance ?? 0), 0)
      const tolerance = Math.max(...own.map(({ one }) => one.tolerance))
      const sizes = own.filter(({ one }) => one.direction !== 'scale').map(({ one }) => one.change)
      return {
        key,
        tolerance,
        sizeChange: sizes.length === 0 ? undefined : Math.max(...sizes),
        weightChange: Math.max(...own.map(({ one }) => one.weightChange)),
        ofVariance,
        bars: barsThatFeel(chain, key),
        goodEnough:
          ofVariance > 0
            ? tolerance * Math.sqrt((NEGLIGIBLE / (1 - NEGLIGIBLE)) * ((1 - ofVariance) / ofVariance))
            : tolerance,
      }
    })
    .sort((a, b) => b.ofVariance - a.ofVariance)
}

/** Bars that one kind of error changes, in whatever direction. */
function barsThatFeel(chain: BlockChain, key: string): number {
  const { length, width, height } = chain
  const all = length.cells.length * width.cells.length * height.cells.length
  if (chain.scale.some((one) => one.key === key && one.tolerance > 0)) return all
  const spared = ({ cells, sources }: Direction): number =>
    cells.filter((_, cell) =>
      sources.every((one) => one.key !== key || one.tolerance === 0 || cellChange(one, cell) === 0),
    ).length
  return all - spared(length) * spared(width) * spared(height)
}

/**
 * By how much two neighbours of a row differ at the most, as nearly all do.
 *
 *     second less first = far place − 2 · place between them + near place;   3 deviations of that, of the worst pair
 *
 * Validity: small, independent errors; cells drawn alike.
 * @param direction chain
 * @returns difference as a share of the mean cell [–]; undefined of a single cell
 * @source jcgm100
 */
export function neighbourDifference({ cells, sources }: Direction): number | undefined {
  if (cells.length < 2) return undefined
  const mean = cells.reduce((sum, one) => sum + one, 0) / cells.length
  const pairs = cells.slice(1).map((_, cell) => {
    const contributions = sources.map((source) => ({
      ...source,
      sensitivity: cellChange(source, cell + 1) - cellChange(source, cell),
    }))
    return stackUp(contributions).nearlyAll
  })
  return Math.max(...pairs) / mean
}

/** Bars of one kind of loaf, all as shares of the weight of the bar as drawn [–]. */
export interface KindStack {
  readonly kind: LoafKind
  /** in a block */
  readonly bars: number
  /** of its worst bar: every error at its limit */
  readonly worst: number
  /** of its worst bar: root of the sum of squares of the changes at the limits */
  readonly rootSumSquare: number
  /** of all its bars: three deviations, by the shapes of the errors */
  readonly nearlyAll: number
}

/**
 * What bars of each kind of loaf come to.
 *
 *     worst and root-sum-square of its worst bar;   nearly all = 3 √(mean variance of its bars)
 *
 * Validity: as the stack-up.
 * @param chain of the block
 * @returns the kinds that the block has, the inner loaves first [–]
 * @source scholz1995, tolerance-stack-up
 */
export function kindStacks(chain: BlockChain): readonly KindStack[] {
  const bars = chain.length.cells.flatMap((_, length) =>
    chain.width.cells.flatMap((_cell, width) =>
      chain.height.cells.map((_size, height) => ({
        kind: loafKind(chain, { length, width }),
        stack: stackUp(weightContributions(chain, { length, width, height })),
      })),
    ),
  )
  return LOAF_KINDS.flatMap((kind) => {
    const own = bars.filter((bar) => bar.kind === kind).map(({ stack }) => stack)
    if (own.length === 0) return []
    const variance = own.reduce((sum, { deviation }) => sum + deviation ** 2, 0) / own.length
    return [
      {
        kind,
        bars: own.length,
        worst: Math.max(...own.map(({ worst }) => worst)),
        rootSumSquare: Math.max(...own.map(({ rootSumSquare }) => rootSumSquare)),
        nearlyAll: 3 * Math.sqrt(variance),
      },
    ]
  })
}

/** Bars of one direction that are bounded alike. */
export interface SizeStack {
  readonly direction: DirectionKey
  /** how many of their two bounds are faces of the block */
  readonly faces: 0 | 1 | 2
  /** cells of the direction that are so */
  readonly cells: number
  /** of the size [m] */
  readonly stack: Pick<Stack, 'worst' | 'rootSumSquare' | 'nearlyAll'>
  /** errors by their share of the variance of the size, the greatest first */
  readonly shares: readonly { readonly key: string; readonly ofVariance: number }[]
}

/**
 * How far a bar's size is off in each direction, bars between two wires apart from those at a face.
 *
 * Formula: the stack-up of the chain of one cell. Validity: as the stack-up; of cells that are bounded alike the worst one.
 * @param chain of the block
 * @returns stacks [m] with the share of each error
 * @source scholz1995, tolerance-stack-up
 */
export function sizeStacks(chain: BlockChain): readonly SizeStack[] {
  return DIRECTIONS.flatMap((direction) => {
    const { cells, ends } = chain[direction]
    const facesOf = (cell: number): number =>
      (cell === 0 && ends[0] === 'face' ? 1 : 0) + (cell === cells.length - 1 && ends[1] === 'face' ? 1 : 0)
    return ([0, 1, 2] as const).flatMap((faces): SizeStack[] => {
      const own = cells.map((_, cell) => cell).filter((cell) => facesOf(cell) === faces)
      const [worst] = own
        .map((cell) => stackUp(sizeContributions(chain[direction], cell)))
        .sort((a, b) => b.worst - a.worst)
      if (!worst) return []
      const byKey = new Map<string, number>()
      for (const { key, ofVariance } of worst.shares) byKey.set(key, (byKey.get(key) ?? 0) + ofVariance)
      const shares = [...byKey]
        .map(([key, ofVariance]) => ({ key, ofVariance }))
        .sort((a, b) => b.ofVariance - a.ofVariance)
      const { rootSumSquare, nearlyAll } = worst
      return [
        {
          direction,
          faces,
          cells: own.length,
          stack: { worst: worst.worst, rootSumSquare, nearlyAll },
          shares,
        },
      ]
    })
  })
}
