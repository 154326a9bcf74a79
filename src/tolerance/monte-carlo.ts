/** Bars as chance makes them: whole blocks drawn, every face and wire once, all bars of a block from the same draw. */
import { normalSource, randomSource } from '../numerics/random.ts'
import {
  type BlockChain,
  cellChange,
  type Direction,
  type DirectionKey,
  deviationOf,
  LOAF_KINDS,
  type LoafKind,
  loafKind,
} from './block-chain.ts'
import { type Distribution, NEARLY_ALL } from './stack.ts'

/** Draws an error of a shape: within ± 1, a normal one with a third as its deviation. */
export type ErrorDraw = (distribution: Distribution) => number

/**
 * Draws errors of any shape from one seed.
 *
 *     normal n / 3      uniform 2 v − 1      triangular v − v′
 *
 * Validity: v uniform in 0 ≤ v < 1, n normal with a deviation of 1.
 * @param seed any whole number [–]
 * @returns draw of an error as a share of its tolerance [–]; only normal ones leave −1 … 1
 * @source jcgm101, box-muller, blackman-vigna
 */
export function errorDraw(seed: number): ErrorDraw {
  const uniform = randomSource(seed)
  const normal = normalSource(uniform)
  return (distribution) => {
    if (distribution === 'normal') return normal() / 3
    if (distribution === 'uniform') return 2 * uniform() - 1
    return uniform() - uniform()
  }
}

/** One block as it was drawn: sizes of its cells [m], and how much heavier all of it is [–]. */
export interface DrawnBlock {
  readonly length: Float64Array
  readonly width: Float64Array
  readonly height: Float64Array
  readonly scale: number
}

/**
 * Draws blocks.
 *
 *     place = Σ movement · error;   cell = as drawn + far place − near place
 *
 * Validity: as the chain. The block that is handed out is the same record each time, filled anew.
 * @param chain  of the block
 * @param blocks how many, > 0
 * @param draw   of one error
 * @param visit  is called with each block
 * @source jcgm101
 */
export function drawBlocks(
  chain: BlockChain,
  blocks: number,
  draw: ErrorDraw,
  visit: (block: DrawnBlock) => void,
): void {
  const drawn = {
    length: new Float64Array(chain.length.cells.length),
    width: new Float64Array(chain.width.cells.length),
    height: new Float64Array(chain.height.cells.length),
    scale: 1,
  }
  for (let index = 0; index < blocks; index++) {
    drawCells(chain.length, draw, drawn.length)
    drawCells(chain.width, draw, drawn.width)
    drawCells(chain.height, draw, drawn.height)
    drawn.scale = 1
    for (const { tolerance, distribution } of chain.scale) drawn.scale += tolerance * draw(distribution)
    visit(drawn)
  }
}

function drawCells({ cells, sources }: Direction, draw: ErrorDraw, into: Float64Array): void {
  into.set(cells)
  const count = cells.length
  // Millions of errors are drawn: plain loops take half the time of destructured ones.
  for (let source = 0; source < sources.length; source++) {
    const one = sources[source]!
    const error = one.tolerance * draw(one.distribution)
    const { moves } = one
    // A place is the far one of the cell before it and the near one of the cell after it.
    for (let index = 0; index < moves.length; index++) {
      const move = moves[index]!
      const place = move[0]
      const by = move[1] * error
      if (place > 0) into[place - 1] = into[place - 1]! + by
      if (place < count) into[place] = into[place]! - by
    }
  }
}

/** How the weights of many bars lie, as shares of the bar as drawn [–]. */
export interface WeightSpread {
  /** bars of one block */
  readonly bars: number
  readonly mean: number
  readonly deviation: number
  /** share of bars farther from the mean than three deviations [0..1]: 0.0027 of a normal spread */
  readonly outside: number
}

/** A weight, as a share of the bar as drawn [–], that only bars of the lowest slices are held against. */
export interface LimitOfSlices {
  readonly limit: number
  readonly slices: number
}

/** Bars below a weight. */
export interface ShareBelow {
  /** as a share of the bar as drawn [–] */
  readonly limit: number
  /** of a block that are counted */
  readonly bars: number
  /** of these bars [0..1], and the standard error of that from the number of blocks drawn */
  readonly share: number
  readonly standardError: number
  /** of all blocks: those with at least one bar below [0..1] */
  readonly blocks: number
}

export interface DrawnSpread {
  readonly blocks: number
  /** bars drawn in all */
  readonly draws: number
  readonly all: WeightSpread
  readonly kinds: readonly (WeightSpread & { readonly kind: LoafKind })[]
  readonly below: readonly ShareBelow[]
  /** lightest bar of a block: mean over the blocks [–] */
  readonly lightest: number
}

/** Bins of a histogram, and how many deviations it reaches to either side: a bin is 0.004 of a deviation */
const BINS = 4096
const REACH = 8

/** Blocks that were drawn once, to be asked about any weight. */
export interface DrawnBlocks {
  /** how the weights lie, whatever anybody asks of them */
  readonly spread: Omit<DrawnSpread, 'below'>
  /** share of bars and of blocks with bars below each weight */
  readonly below: (limits: readonly (number | LimitOfSlices)[]) => readonly ShareBelow[]
}

/**
 * Spread of the weights of all bars, not linearised.
 *
 *     m = ρ L W T of each bar of each block drawn, as a share of the bar as drawn
 *     share below x = bars below x / all bars;   its standard error = deviation of the blocks' own shares / √blocks
 *
 * Bars of one block share wires, faces and soap, so the standard error is that of blocks, not of bars. Validity: cells
 * stay larger than nothing; what is outside to 0.004 of a deviation.
 * @param chain  of the block
 * @param drawn  how many blocks, > 1; the seed; weights to count below, as shares of the mean bar as drawn [–], of all bars
 *   or of the lowest slices of a block that is not filled to its line
 * @returns spread of all bars and of each kind of loaf, shares below each weight [–]
 * @source jcgm101
 */
export function drawnSpread(
  chain: BlockChain,
  drawn: {
    readonly blocks: number
    readonly seed: number
    readonly limits: readonly (number | LimitOfSlices)[]
  },
): DrawnSpread {
  const { spread, below } = drawnBlocks(chain, drawn)
  return { ...spread, below: below(drawn.limits) }
}

/** The same in two steps: blocks hang on the fixture alone, weights that are asked about on what is poured. */
export function drawnBlocks(
  chain: BlockChain,
  { blocks, seed }: { readonly blocks: number; readonly seed: number },
): DrawnBlocks {
  const reference = meanVolume(chain)
  const width = REACH * Math.max(largestDeviation(chain), 1e-9)
  const [columns, rows, slices] = [
    chain.length.cells.length,
    chain.width.cells.length,
    chain.height.cells.length,
  ]
  const loaves = columns * rows
  const bars = loaves * slices
  const present = LOAF_KINDS.filter((kind) => kindCount(chain, kind) > 0)
  const tallies = present.map((kind) => ({ kind, ...newTally() }))
  const of = Array.from({ length: loaves }, (_, index) => {
    const kind = loafKind(chain, { length: Math.floor(index / rows), width: index % rows })
    return present.indexOf(kind)
  })
  // of each block drawn: what a slice of each loaf would weigh were it as thick as one, and how thick its slices are
  const areas = new Float64Array(blocks * loaves)
  const heights = new Float64Array(blocks * slices)
  let lightestSum = 0
  let drawn = 0
  drawBlocks(chain, blocks, errorDraw(seed), (block) => {
    let lightest = Number.POSITIVE_INFINITY
    heights.set(block.height, drawn * slices)
    for (let column = 0; column < columns; column++)
      for (let row = 0; row < rows; row++) {
        const loaf = column * rows + row
        const area = ((block.length[column] ?? 0) * (block.width[row] ?? 0) * block.scale) / reference
        areas[drawn * loaves + loaf] = area
        const tally = tallies[of[loaf] ?? 0]
        if (!tally) continue
        for (let slice = 0; slice < slices; slice++) {
          const weight = area * (block.height[slice] ?? 0)
          tally.sum += weight - 1
          tally.squares += (weight - 1) * (weight - 1)
          const bin = Math.floor(((weight - 1) / width + 1) * (BINS / 2))
          const at = bin < 0 ? 0 : bin >= BINS ? BINS - 1 : bin
          tally.bins[at] = (tally.bins[at] ?? 0) + 1
          if (weight < lightest) lightest = weight
        }
      }
    lightestSum += lightest
    drawn += 1
  })
  const all = newTally()
  for (const tally of tallies) {
    all.sum += tally.sum
    all.squares += tally.squares
    tally.bins.forEach((count, index) => {
      all.bins[index] = (all.bins[index] ?? 0) + count
    })
  }
  const below = (asked: number | LimitOfSlices): ShareBelow => {
    const { limit, slices: some } = typeof asked === 'number' ? { limit: asked, slices } : asked
    const reached = Math.min(slices, some)
    const counted = loaves * reached
    let [sum, squares, touched] = [0, 0, 0]
    for (let block = 0; block < blocks; block++) {
      let count = 0
      for (let slice = 0; slice < reached; slice++) {
        const height = heights[block * slices + slice]!
        for (let loaf = 0; loaf < loaves; loaf++)
          if (areas[block * loaves + loaf]! * height < limit) count += 1
      }
      const share = count / counted
      sum += share
      squares += share * share
      if (count > 0) touched += 1
    }
    const mean = sum / blocks
    const variance = Math.max(0, squares / blocks - mean * mean) * (blocks / Math.max(1, blocks - 1))
    return {
      limit,
      bars: counted,
      share: mean,
      standardError: Math.sqrt(variance / blocks),
      blocks: touched / blocks,
    }
  }
  return {
    spread: {
      blocks,
      draws: blocks * bars,
      all: spreadOf(all, bars, blocks, width),
      kinds: tallies.map(({ kind, ...tally }) => ({
        kind,
        ...spreadOf(tally, kindCount(chain, kind) * slices, blocks, width),
      })),
      lightest: lightestSum / blocks,
    },
    below: (limits) => limits.map(below),
  }
}

interface Tally {
  sum: number
  squares: number
  readonly bins: Float64Array
}

const newTally = (): Tally => ({ sum: 0, squares: 0, bins: new Float64Array(BINS) })

function spreadOf({ sum, squares, bins }: Tally, bars: number, blocks: number, width: number): WeightSpread {
  const count = bars * blocks
  const mean = sum / count
  const deviation = Math.sqrt(Math.max(0, squares / count - mean * mean))
  const below = (weight: number) => countBelow(bins, ((weight / width + 1) * BINS) / 2)
  const inside = below(mean + NEARLY_ALL * deviation) - below(mean - NEARLY_ALL * deviation)
  return { bars, mean: 1 + mean, deviation, outside: deviation > 0 ? Math.max(0, 1 - inside / count) : 0 }
}

/** What lies below a place among the bins, linear within the bin that it falls into. */
function countBelow(bins: Float64Array, place: number): number {
  let count = 0
  for (let index = 0; index < bins.length && index < place; index++)
    count += (bins[index] ?? 0) * Math.min(1, place - index)
  return count
}

/** Loaves of a kind in a block. */
const kindCount = (chain: BlockChain, kind: LoafKind): number => {
  let count = 0
  chain.length.cells.forEach((_, length) => {
    chain.width.cells.forEach((_cell, width) => {
      if (loafKind(chain, { length, width }) === kind) count += 1
    })
  })
  return count
}

/** Of the mean bar as drawn [m3]: of any grid the mean product is the product of the means. */
const meanVolume = (chain: BlockChain): number => {
  const mean = ({ cells }: Direction): number => cells.reduce((sum, one) => sum + one, 0) / cells.length
  return mean(chain.length) * mean(chain.width) * mean(chain.height)
}

/** Of the bar that spreads most, and how far bars as drawn differ [–]: what a histogram must reach. */
function largestDeviation(chain: BlockChain): number {
  const one = (key: DirectionKey): number => {
    const { cells, sources } = chain[key]
    const mean = cells.reduce((sum, cell) => sum + cell, 0) / cells.length
    return Math.max(
      ...cells.map((cell, at) => {
        const own = sources.reduce((sum, source) => {
          return sum + ((cellChange(source, at) * deviationOf(source)) / mean) ** 2
        }, 0)
        return Math.sqrt(own) + Math.abs(cell / mean - 1)
      }),
    )
  }
  const scale = chain.scale.reduce((sum, source) => sum + deviationOf(source) ** 2, 0)
  return Math.sqrt(one('length') ** 2 + one('width') ** 2 + one('height') ** 2 + scale)
}
