/** How even the bars of a fixture come out: its own sizes and what a maker can saw, mark and pour, as one chain. */

import { LIGHTER } from '../cure/label-weight.ts'
import type { Finding } from '../findings.ts'
import type { Centring } from '../fixtures/grid-cutter/centring.ts'
import { wirePlaces } from '../fixtures/grid-cutter/wires.ts'
import { keptOrMade } from '../kept-or-made.ts'
import type { FixtureFile } from '../schema/fixture.ts'
import type { Placed } from '../schema/placed.ts'
import {
  type BlockChain,
  chainDirection,
  type Direction,
  type DirectionTolerances,
  pooledContributions,
} from '../tolerance/block-chain.ts'
import {
  type DrawnBlocks,
  type DrawnSpread,
  drawnBlocks,
  type LimitOfSlices,
  type ShareBelow,
} from '../tolerance/monte-carlo.ts'
import { type NeededTolerance, neededTolerance } from '../tolerance/needed-spacing.ts'
import {
  type KindStack,
  kindStacks,
  neighbourDifference,
  type RankedError,
  rankedErrors,
  type SizeStack,
  sizeStacks,
} from '../tolerance/ranking.ts'
import { NEARLY_ALL } from '../tolerance/stack.ts'
import type { BoundBarCutter } from './bind-bar-cutter.ts'
import type { BoundCure } from './bind-calendar.ts'
import type { BoundGridCutter } from './bind-grid-cutter.ts'
import type { BoundMould } from './bind-mould.ts'

/** Share of the spread below which an error is not worth a word. */
export { NEGLIGIBLE } from '../tolerance/ranking.ts'

const INCH = 0.0254 // m, exact

/**
 * What a shop keeps to where its maker says nothing, each to either side (common practice): 1/64 in for joints and what is
 * laid on a line, 1/32 in for outlines, 0.010 in for the pitch of wires, 1/16 in for what is read off a stick.
 */
export const USUAL_TOLERANCES = {
  'wire-spacing': 0.01 * INCH,
  'slice-spacing': 0.01 * INCH,
  // with the wire's own place the half millimetre that a groove leaves a wire to wander (estimate)
  'soap-leads': 0.01 * INCH,
  'mould-inside': INCH / 32,
  'gauge-laid': INCH / 64,
  'end-stop': INCH / 64,
  'fill-height': INCH / 16,
  // batter is mixed from weighed parts; air stirred in makes most of it (estimate)
  density: 0.01,
} as const satisfies Partial<Record<keyof NonNullable<FixtureFile['tolerances']>, number>>

/** kg/m3, of soap as it is cut, where no batch is planned (common practice) */
const USUAL_SOAP = 1050

/** Errors that a reader is told of. */
export type ErrorKey =
  | 'slice-spacing'
  | 'slice-led'
  | 'end-stop'
  | 'fill-height'
  | 'wire-spacing'
  | 'wire-led'
  | 'inside-sawn'
  | 'gauge-laid'
  | 'frame-centred'
  | 'density'

/** Wires of both cutters, marked from one gauge: what is asked to be closer first. */
const WIRES: readonly ErrorKey[] = ['slice-spacing', 'wire-spacing']

/** A weight that bars may fall short of. */
export interface LimitOfBars extends ShareBelow {
  /** of a batch with a label; typed for the fixture; what labels allow the lightest bar */
  readonly of: 'batch' | 'typed' | 'presumed'
  readonly batch: { readonly key: string; readonly recipeTitle: string; readonly date: string } | undefined
  /** on the label; undefined of the other two */
  readonly declared: number | undefined
  /** of a bar as it is cut: with less it is too light in the end [kg] */
  readonly green: number
  /** the same where bars dry as much as the log's range allows */
  readonly dryEnd: (ShareBelow & { readonly green: number }) | undefined
  /** of the lower of these two with the frame centred by eye; undefined without a frame */
  readonly centred: ShareBelow | undefined
  /** of the mean bar as it is cut [kg] */
  readonly mean: number
}

/** What centring by eye keeps, and what shows on a block that was not. */
interface Centred extends Centring {
  readonly nearlyAll: number
  /** of it the gauge's own [m] */
  readonly gaugePart: number
  /** by which outer loaves of opposite sides differ with frame and gauge at their limits [m] */
  readonly card: number
  /** the same as a share of a bar's weight, of the smallest outer bar [–] */
  readonly opposite: number
}

export interface BoundTolerance {
  /** of the fixture */
  readonly key: string
  readonly title: string
  readonly file: Placed<FixtureFile>
  readonly chain: BlockChain
  /** of the mean bar as it is cut [kg], and whether batches say so */
  readonly barMass: number
  readonly isPlanned: boolean
  readonly errors: readonly (RankedError & {
    readonly key: ErrorKey
    readonly isTyped: boolean
    /** ± that nearly all bars keep with this error gone [–] */
    readonly without: number
  })[]
  /** ± of nearly all bars: so many standard deviations of those drawn; as a share of their weight [–] */
  readonly deviations: number
  readonly nearlyAll: number
  /** the frame on the block, and ± that nearly all bars keep where it is centred by eye [–] */
  readonly centred: Centred | undefined
  /** by which two neighbours of a loaf differ at most [–] */
  readonly neighbours: number | undefined
  readonly kinds: readonly KindStack[]
  readonly sizes: readonly SizeStack[]
  readonly drawn: DrawnSpread
  readonly wanted: { readonly spread: number; readonly isTyped: boolean }
  /** tolerance that gives the wanted spread, all else as it is: of all wires together, and of each error alone */
  readonly needed: {
    readonly wires: NeededTolerance
    readonly each: Readonly<Partial<Record<ErrorKey, NeededTolerance>>>
  }
  readonly limits: readonly LimitOfBars[]
  /** of blocks: those whose lightest bar is lighter than labels take it to be [0..1] */
  readonly lighterThanPresumed: number
  /** whether somebody has typed where wires of a finished cutter stand */
  readonly isMeasured: boolean
  /** by which labels take the lightest bar to be below the mean [–] */
  readonly presumed: number
  readonly findings: readonly Finding[]
}

/** Blocks drawn: with them a share of one in a hundred is known to a tenth of itself, were all bars of a block alike. */
const BLOCKS = 20_000
/** Bars drawn at the most, for grids of many bars, and blocks at the least */
const MOST_BARS = 5_000_000
const LEAST_BLOCKS = 2_000
const SEED = 20_270_314
/** What this process has drawn before: most sheets are composed more than once. */
const KNOWN = new Map<string, DrawnBlocks>()
/** each holds a few megabytes */
const MOST_KNOWN = 8

/**
 * @param mould of the fixture
 * @param grid, bar its cutters
 * @param cures bars of all batches that may be made
 * @returns undefined for a fixture without a cutter
 */
export function bindTolerance(
  mould: BoundMould,
  grid: BoundGridCutter | undefined,
  bar: BoundBarCutter | undefined,
  cures: readonly BoundCure[],
): BoundTolerance | undefined {
  if (!grid && !bar) return undefined
  const file = mould.file.value
  const typed = file.tolerances ?? {}
  const chain = blockChain(mould, grid)
  const own = cures.filter(({ batch }) => batch.mould.key === mould.key)
  const { alongLength, alongWidth, thickness } = mould.bar.green
  const asDrawn = alongLength * alongWidth * thickness
  const volume = meanCell(chain.length) * meanCell(chain.width) * meanCell(chain.height)
  const ratio = volume / asDrawn
  const isPlanned = own.length > 0
  const barMass = isPlanned
    ? (own.reduce((sum, cure) => sum + cure.barMass, 0) / own.length) * ratio
    : USUAL_SOAP * volume
  const presumed = LIGHTER
  const asked = limitsOf(own, typed['least-weight'], barMass, ratio, presumed)
  const whole = chain.height.cells.length
  const shares = asked.flatMap(({ green, mean, dryEnd, slices }) =>
    [green, ...(dryEnd === undefined ? [] : [dryEnd])].map((one) => ({ limit: one / mean, slices })),
  )
  shares.push({ limit: 1 - presumed, slices: whole })
  const drawn = drawOnce(chain, shares)
  const ranked = rankedErrors(chain)
  const nearlyAll = NEARLY_ALL * drawn.all.deviation
  const centred = grid && centredOf(grid.centring, chain, ranked, nearlyAll)
  const withCentred = centred && drawOnce(centredChain(chain, centred.off), shares)
  let next = 0
  const below = (): ShareBelow => {
    const found = drawn.below[next]
    next += 1
    if (!found) throw new Error('A limit was not drawn.')
    return found
  }
  const limits = asked.map(({ dryEnd, slices: _slices, ...limit }): LimitOfBars => {
    const first = below()
    return {
      ...limit,
      ...first,
      dryEnd: dryEnd === undefined ? undefined : { ...below(), green: dryEnd },
      // of what was counted last
      centred: withCentred?.below[next - 1],
    }
  })
  const pooled = pooledContributions(chain)
  const wanted = typed['wanted-spread'] ?? presumed * barMass
  const inMass = pooled.map((one) => ({ ...one, sensitivity: one.sensitivity * barMass }))
  const needed = (asks: readonly string[]): NeededTolerance => neededTolerance(inMass, asks, wanted)
  const lighterThanPresumed = below().blocks
  const measured = file['as-built']
  const wires = needed(WIRES)
  const typedErrors = new Set<string>(Object.keys(definedOf(typed)).flatMap((key) => TYPED[key] ?? []))
  return {
    key: mould.key,
    title: mould.title,
    file: mould.file,
    chain,
    barMass,
    isPlanned,
    errors: ranked.map((error) => ({
      ...error,
      key: error.key as ErrorKey,
      isTyped: typedErrors.has(error.key),
      without: nearlyAll * Math.sqrt(1 - error.ofVariance),
    })),
    deviations: NEARLY_ALL,
    nearlyAll,
    centred,
    neighbours: neighbourDifference(chain.height),
    kinds: kindStacks(chain),
    sizes: sizeStacks(chain),
    drawn,
    wanted: { spread: wanted, isTyped: typed['wanted-spread'] !== undefined },
    needed: { wires, each: Object.fromEntries(ranked.map(({ key }) => [key, needed([key])])) },
    limits,
    lighterThanPresumed,
    isMeasured:
      measured?.['bar-cutter']?.wires !== undefined ||
      measured?.['grid-cutter']?.['wires-across-length'] !== undefined ||
      measured?.['grid-cutter']?.['wires-across-width'] !== undefined,
    presumed,
    findings: wires.findings,
  }
}

/** What a key of the file says; errors that follow from a drawing alone have none. */
const TYPED: Readonly<Record<string, readonly ErrorKey[]>> = {
  'slice-spacing': ['slice-spacing'],
  'wire-spacing': ['wire-spacing'],
  'soap-leads': ['slice-led', 'wire-led'],
  'end-stop': ['end-stop'],
  'fill-height': ['fill-height'],
  'mould-inside': ['inside-sawn'],
  'gauge-laid': ['gauge-laid'],
  'frame-centred': ['frame-centred'],
  density: ['density'],
}

const meanCell = ({ cells }: Direction): number => cells.reduce((sum, one) => sum + one, 0) / cells.length

/** What is asked of bars, before anybody has counted how many keep it. */
interface AskedLimit extends Pick<LimitOfBars, 'of' | 'batch' | 'declared' | 'green' | 'mean'> {
  /** of its loaves: a block that is not filled to the line has fewer */
  readonly slices: number
  /** kg of a green bar */
  readonly dryEnd: number | undefined
}

/**
 * A bar that is a little smaller than the mean one loses a little less: what is left of it in the end is the same share,
 * so the weight that it must have as it is cut is that of the label by that share.
 */
function limitsOf(
  cures: readonly BoundCure[],
  typed: number | undefined,
  barMass: number,
  ratio: number,
  presumed: number,
): readonly AskedLimit[] {
  const labelled = cures.flatMap((cure): AskedLimit[] => {
    const { declared, until } = cure.label
    if (declared === undefined) return []
    const { middle, low } = cure.weightOn(until)
    const mean = cure.barMass * ratio
    return [
      {
        of: 'batch',
        batch: { key: cure.batch.key, recipeTitle: cure.batch.recipeTitle, date: cure.batch.date },
        declared,
        green: (declared / middle) * cure.barMass,
        dryEnd: low < middle ? (declared / low) * cure.barMass : undefined,
        mean,
        slices: cure.batch.fill.slices,
      },
    ]
  })
  const plain = (of: 'typed' | 'presumed', green: number): AskedLimit => ({
    of,
    batch: undefined,
    declared: undefined,
    green,
    dryEnd: undefined,
    mean: barMass,
    slices: Number.POSITIVE_INFINITY,
  })
  if (typed !== undefined) return [...labelled, plain('typed', typed)]
  return labelled.length > 0 ? labelled : [plain('presumed', (1 - presumed) * barMass)]
}

/** What the frame is off counts with its square; gauge and frame shift all wires, so one side gains what the other loses. */
function centredOf(
  kept: Centring,
  chain: BlockChain,
  ranked: readonly RankedError[],
  nearlyAll: number,
): BoundTolerance['centred'] {
  const frame = ranked.find(({ key }) => key === 'frame-centred')
  if (!frame || frame.tolerance <= 0) return undefined
  const left = Math.min(1, kept.off / frame.tolerance) ** 2
  const gauge = ranked.find(({ key }) => key === 'gauge-laid')?.tolerance ?? 0
  const card = 2 * (kept.off + gauge)
  const outer = [chain.length, chain.width].flatMap(({ cells, ends }) =>
    ends.includes('face') ? [cells[0] ?? 0, cells.at(-1) ?? 0] : [],
  )
  return {
    ...kept,
    nearlyAll: nearlyAll * Math.sqrt(1 - frame.ofVariance * (1 - left)),
    gaugePart: 2 * gauge,
    card,
    opposite: card / Math.min(...outer),
  }
}

/** The same chain with the frame no farther off than this [m]. */
function centredChain(chain: BlockChain, off: number): BlockChain {
  const within = (direction: Direction): Direction => ({
    ...direction,
    sources: direction.sources.map((one) =>
      one.key === 'frame-centred' ? { ...one, tolerance: Math.min(one.tolerance, off) } : one,
    ),
  })
  return { ...chain, length: within(chain.length), width: within(chain.width) }
}

/** The same chain is drawn once, whatever is asked of its bars. */
function drawOnce(chain: BlockChain, limits: readonly LimitOfSlices[]): DrawnSpread {
  const { spread, below } = keptOrMade(KNOWN, MOST_KNOWN, JSON.stringify(chain), () => {
    const bars = chain.length.cells.length * chain.width.cells.length * chain.height.cells.length
    const blocks = Math.max(LEAST_BLOCKS, Math.min(BLOCKS, Math.floor(MOST_BARS / bars)))
    return drawnBlocks(chain, { blocks, seed: SEED })
  })
  return { ...spread, below: below(limits) }
}

/** Faces and wires where they are drawn or were measured, with all that moves them. */
function blockChain(
  { mould, file: { value: file } }: BoundMould,
  grid: BoundGridCutter | undefined,
): BlockChain {
  const { block, lined } = mould
  const trim = block.trim
  const allowance = file['wire-allowance'] ?? {}
  const off = { ...USUAL_TOLERANCES, ...definedOf(file.tolerances ?? {}) }
  const { 'mould-inside': inside } = off
  const across = (key: 'length' | 'width'): Direction => {
    const wires = wirePlaces({ mould }, key === 'length' ? 'width' : 'length')
    const ends = [trim[key].start > 0 ? 'wire' : 'face', trim[key].end > 0 ? 'wire' : 'face'] as const
    const places = [
      ...(ends[0] === 'face' ? [-lined[key] / 2] : []),
      ...wires,
      ...(ends[1] === 'face' ? [lined[key] / 2] : []),
    ]
    const tolerances: DirectionTolerances = {
      place: { key: 'wire-spacing', tolerance: off['wire-spacing'] },
      led: { key: 'wire-led', tolerance: off['soap-leads'] },
      together: [
        { key: 'gauge-laid', tolerance: off['gauge-laid'], distribution: 'uniform' },
        ...(grid
          ? [
              {
                key: 'frame-centred',
                tolerance: Math.min(
                  framePlay(mould, grid, key),
                  file.tolerances?.['frame-centred'] ?? Infinity,
                ),
                distribution: 'uniform' as const,
              },
            ]
          : []),
      ],
      // A mould that was measured is reckoned as it is: nothing is left to chance there.
      faces: [
        {
          key: 'inside-sawn',
          tolerance: file['as-built']?.[`inside-${key}`] === undefined ? inside : 0,
          distribution: 'uniform',
          at: 'both',
        },
      ],
    }
    return chainDirection(cellsBetween(places, ends, allowance[key] ?? 0), ends, tolerances)
  }
  const standing = [trim.height.start > 0 ? 'wire' : 'face', trim.height.end > 0 ? 'wire' : 'face'] as const
  const heights = [
    ...(standing[0] === 'face' ? [0] : []),
    ...block.cutsAcrossHeight,
    ...(standing[1] === 'face' ? [block.setHeight] : []),
  ]
  return {
    length: across('length'),
    width: across('width'),
    height: chainDirection(cellsBetween(heights, standing, allowance.height ?? 0), standing, {
      place: { key: 'slice-spacing', tolerance: off['slice-spacing'] },
      led: { key: 'slice-led', tolerance: off['soap-leads'] },
      together: [],
      faces: [
        { key: 'end-stop', tolerance: off['end-stop'], distribution: 'uniform', at: 'start' },
        { key: 'fill-height', tolerance: off['fill-height'], distribution: 'uniform', at: 'end' },
      ],
    }),
    scale: [{ key: 'density', tolerance: off.density, distribution: 'uniform' }],
  }
}

/**
 * How far the frame can go to one side of the block, which stands inside it at the first touch as at the end. The base is
 * narrower than the block, so the frame's play there is larger and never used up.
 */
const framePlay = (
  { lined }: BoundMould['mould'],
  { cutter }: BoundGridCutter,
  key: 'length' | 'width',
): number => Math.max(0, (cutter.inside[key] - lined[key]) / 2)

/** What lies between neighbouring places, less half of what each wire beside it takes. */
const cellsBetween = (
  places: readonly number[],
  ends: Direction['ends'],
  allowance: number,
): readonly number[] =>
  places.slice(1).map((far, index) => {
    const wires =
      (index === 0 && ends[0] === 'face' ? 0 : 1) +
      (index === places.length - 2 && ends[1] === 'face' ? 0 : 1)
    return far - (places[index] ?? 0) - (wires * allowance) / 2
  })

/** Keys that were left out must not hide what stands for them. */
const definedOf = <T extends object>(all: T): Partial<T> =>
  Object.fromEntries(Object.entries(all).filter(([, value]) => value !== undefined)) as Partial<T>
