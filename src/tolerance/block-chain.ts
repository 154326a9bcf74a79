/**
 * The chain of sizes behind every bar of a block: where faces and wires stand in each direction, what moves them, and what
 * that does to a bar's size and weight.
 *
 * A wire between two bars takes from one what it gives to the other, so errors belong to places, never to bars.
 */
import { type Contribution, type Distribution, TOLERANCE_IN_DEVIATIONS } from './stack.ts'

/** One thing that is off by one amount, and the places that it moves. */
export interface ErrorSource {
  /** what a reader knows it by; several sources share one, as wires do */
  readonly key: string
  /** greatest error to either side [m; of `scale` –] */
  readonly tolerance: number
  readonly distribution: Distribution
  /** places, counted from 0, with their movement for each unit of the error [–] */
  readonly moves: readonly (readonly [place: number, times: number])[]
}

/** One direction of the block, its cells between neighbouring places. */
export interface Direction {
  /** of each cell as drawn, at least one [m] */
  readonly cells: readonly number[]
  /** what bounds the cells, one more than cells: faces at the ends, or wires there too */
  readonly ends: readonly ['face' | 'wire', 'face' | 'wire']
  readonly sources: readonly ErrorSource[]
}

/** A block of bars. */
export interface BlockChain {
  readonly length: Direction
  readonly width: Direction
  readonly height: Direction
  /** what makes all bars of a block heavier or lighter together, as a share */
  readonly scale: readonly Omit<ErrorSource, 'moves'>[]
}

export const DIRECTIONS = ['length', 'width', 'height'] as const
export type DirectionKey = (typeof DIRECTIONS)[number]

/** Tolerances of one direction between two faces, each ± [m]. */
export interface DirectionTolerances {
  /** where each wire stands on its frame; soap that leads each wire aside */
  readonly place: { readonly key: string; readonly tolerance: number }
  readonly led: { readonly key: string; readonly tolerance: number }
  /** what moves all wires together against the faces */
  readonly together: readonly Omit<ErrorSource, 'moves'>[]
  /** what changes the distance between two faces, half to each; of one face, where `at` says so */
  readonly faces: readonly (Omit<ErrorSource, 'moves'> & { readonly at: 'both' | 'start' | 'end' })[]
}

/**
 * One direction with all that moves its places.
 *
 * Formula: each wire moves by its own error of place and its own lead, and with all wires by what moves the frame; two faces
 * part by their error, half each. What moves no cell is left out. Validity: wires ascending, faces at the ends only.
 * @param cells      as drawn [m]
 * @param ends       what bounds the first and the last cell
 * @param tolerances of place, lead, frame and faces [m]
 * @returns the direction
 * @source common practice
 */
export function chainDirection(
  cells: readonly number[],
  ends: Direction['ends'],
  tolerances: DirectionTolerances,
): Direction {
  const last = cells.length
  const places = Array.from({ length: last + 1 }, (_, index) => index)
  const wires = places.filter(
    (place) => (place > 0 || ends[0] === 'wire') && (place < last || ends[1] === 'wire'),
  )
  const own = (['place', 'led'] as const).flatMap((what) =>
    wires.map((wire): ErrorSource => ({ ...tolerances[what], distribution: 'normal', moves: [[wire, 1]] })),
  )
  const together = tolerances.together.map(
    (one): ErrorSource => ({ ...one, moves: wires.map((wire) => [wire, 1] as const) }),
  )
  const faces = tolerances.faces.map(({ at, ...one }): ErrorSource => {
    const times = at === 'both' ? 1 / 2 : 1
    return {
      ...one,
      moves: [
        ...(ends[0] === 'face' && at !== 'end' ? [[0, -times] as const] : []),
        ...(ends[1] === 'face' && at !== 'start' ? [[last, times] as const] : []),
      ],
    }
  })
  const sources = [...own, ...together, ...faces].filter((source) =>
    cells.some((_, cell) => cellChange(source, cell) !== 0),
  )
  return { cells, ends, sources }
}

/** Change of a cell for each unit of a source's error [–]. */
export function cellChange({ moves }: Pick<ErrorSource, 'moves'>, cell: number): number {
  let change = 0
  for (const [place, times] of moves) {
    if (place === cell + 1) change += times
    if (place === cell) change -= times
  }
  return change
}

/**
 * What moves one cell, as a stack.
 *
 * Formula: sensitivity = movement of its far place less that of its near one. Validity: as the chain.
 * @param direction chain
 * @param cell      counted from 0
 * @returns contributions to the size [m]
 * @source common practice
 */
export const sizeContributions = ({ sources }: Direction, cell: number): readonly Contribution[] =>
  sources.flatMap(({ moves, ...source }) => {
    const sensitivity = cellChange({ moves }, cell)
    return sensitivity === 0 ? [] : [{ ...source, sensitivity }]
  })

/** Where a bar stands in its block, each counted from 0. */
export type BarPlace = Readonly<Record<DirectionKey, number>>

/**
 * What makes one bar heavier or lighter, as a stack.
 *
 *     m = ρ L W T:   dm/m = dL/L + dW/W + dT/T + dρ/ρ
 *
 * Validity: errors far smaller than the bar; products of errors are left out (the draws have them).
 * @param chain of the block
 * @param bar   its place
 * @returns contributions to the weight, as a share of it [–]
 * @source jcgm100
 */
export const weightContributions = (chain: BlockChain, bar: BarPlace): readonly Contribution[] => [
  ...DIRECTIONS.flatMap((key) => {
    const size = chain[key].cells[bar[key]] ?? 0
    return sizeContributions(chain[key], bar[key]).map((one) => ({
      ...one,
      sensitivity: one.sensitivity / size,
    }))
  }),
  ...chain.scale.map((one) => ({ ...one, sensitivity: 1 })),
]

/** What one kind of error does to all bars of a block. */
export interface PooledContribution extends Contribution {
  readonly direction: DirectionKey | 'scale'
  /** greatest change of a cell's size at the limit of one error [m; of `scale` –] */
  readonly change: number
  /** greatest change of a bar's weight at the limit of one error, as a share of it [–] */
  readonly weightChange: number
}

/**
 * What makes the bars of all places differ, one contribution for each key and direction.
 *
 *     a² = mean over all bars of Σ aᵢ²
 *
 * so that the stack of these has the mean variance of all bars; its worst case is none of any bar. Validity: as the
 * chain; all sources of a key and direction have one tolerance and shape.
 * @param chain of the block
 * @returns contributions to the weight of the bars, as a share of it [–]
 * @source jcgm100
 */
export function pooledContributions(chain: BlockChain): readonly PooledContribution[] {
  return [
    ...DIRECTIONS.flatMap((key) => {
      const { cells, sources } = chain[key]
      return [...new Set(sources.map((source) => source.key))].map((name): PooledContribution => {
        const own = sources.filter((source) => source.key === name)
        const squares = cells.map((size, cell) =>
          own.reduce((sum, source) => sum + (cellChange(source, cell) / size) ** 2, 0),
        )
        const { tolerance = 0, distribution = 'normal' } = own[0] ?? {}
        const most = Math.max(
          ...own.flatMap((source) => cells.map((_, at) => Math.abs(cellChange(source, at)))),
        )
        return {
          key: name,
          direction: key,
          tolerance,
          distribution,
          sensitivity: Math.sqrt(squares.reduce((sum, one) => sum + one, 0) / cells.length),
          change: most * tolerance,
          weightChange:
            tolerance *
            Math.max(
              ...own.flatMap((source) => cells.map((size, at) => Math.abs(cellChange(source, at)) / size)),
            ),
        }
      })
    }),
    ...chain.scale.map(
      (one): PooledContribution => ({
        ...one,
        direction: 'scale',
        sensitivity: 1,
        change: one.tolerance,
        weightChange: one.tolerance,
      }),
    ),
  ]
}

/** Loaves by how many faces of the block they have, bars of a loaf all together. */
export type LoafKind = 'inner' | 'edge' | 'corner'
export const LOAF_KINDS: readonly LoafKind[] = ['inner', 'edge', 'corner']

/**
 * Which kind a loaf is of.
 *
 * Formula: no face of the block, one direction with faces, or both. Validity: a direction that is trimmed has no faces.
 * @param chain of the block
 * @param bar   its place
 * @returns kind
 * @source common practice
 */
export function loafKind(chain: BlockChain, bar: Pick<BarPlace, 'length' | 'width'>): LoafKind {
  const faced = (['length', 'width'] as const).filter((key) => {
    const { cells, ends } = chain[key]
    return (bar[key] === 0 && ends[0] === 'face') || (bar[key] === cells.length - 1 && ends[1] === 'face')
  }).length
  return LOAF_KINDS[faced] ?? 'corner'
}

/** Tolerance over standard deviation of a source [same unit]. */
export const deviationOf = ({ tolerance, distribution }: Omit<ErrorSource, 'moves'>): number =>
  tolerance / TOLERANCE_IN_DEVIATIONS[distribution]
