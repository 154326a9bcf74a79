/** All wires of one fixture's cutters: how they are tuned, what they bear, what pushes them, what is bought. */
import type { Finding } from '../findings.ts'
import type { FixtureFile } from '../schema/fixture.ts'
import type { Placed } from '../schema/placed.ts'
import { type WireMaterial, wireFigures } from '../wires/strength.ts'
import { gaugeOf } from '../wires/wire-to-buy.ts'
import type { BarPush } from './bar-wires.ts'
import type { BoundBarCutter } from './bind-bar-cutter.ts'
import type { BoundGridCutter } from './bind-grid-cutter.ts'
import { type CuttingLoads, cuttingLoads } from './cutting-loads.ts'
import type { GridPush } from './grid-wires.ts'
import type { WireGroup, WireGroupKey } from './wire-groups.ts'

/** Like pieces that are cut from the coil. */
export interface WirePiece {
  readonly group: WireGroupKey
  /** cuts that one piece makes */
  readonly lines: 1 | 2
  readonly count: number
  /** cut as well, for the day when one breaks */
  readonly spare: number
  /** of each, with what is wound, twisted and held [m] */
  readonly length: number
}

/** Wire of one kind to buy. */
export interface WireToBuy {
  readonly material: WireMaterial
  readonly diameter: number
  /** number of a music wire that has one */
  readonly gauge?: string
  readonly pieces: readonly WirePiece[]
  /** of all pieces with the spare ones [m], [kg] */
  readonly length: number
  readonly mass: number
}

export interface BoundWires {
  /** of the fixture */
  readonly key: string
  readonly title: string
  readonly file: Placed<FixtureFile>
  readonly loads: CuttingLoads
  /** short and long wires of the grid cutter, wires of the bar cutter: those that there are */
  readonly groups: readonly WireGroup[]
  readonly gridPush?: GridPush
  /** the most that soap may resist before the grid cutter's wires trail farther than its grooves take [N/m] */
  readonly gridLoadOfGrooves?: number
  readonly barPush?: BarPush
  readonly buy: readonly WireToBuy[]
  /** of the wires, of their push and of the trial; those of a cutter's own sizes are with the cutter */
  readonly findings: readonly Finding[]
}

/** Wires that are cut in reserve of each layer (common practice). */
const SPARE = 2

/**
 * @param file of the fixture
 * @param grid its grid cutter, @param bar its bar cutter: where it has one
 * @returns its wires, or undefined for a fixture without a cutter
 */
export function bindWires(
  file: Placed<FixtureFile>,
  grid: BoundGridCutter | undefined,
  bar: BoundBarCutter | undefined,
): BoundWires | undefined {
  if (!grid && !bar) return undefined
  const loads = cuttingLoads(file.value)
  const groups = [...(grid?.wires.groups ?? []), ...(bar?.wires.groups ?? [])]
  const gridPush = grid?.wires.push
  const barPush = bar?.wires.push
  return {
    key: file.key,
    title: file.value.title,
    file,
    loads,
    groups,
    ...(grid ? { gridLoadOfGrooves: grid.wires.loadOfGrooves } : {}),
    ...(gridPush ? { gridPush } : {}),
    ...(barPush ? { barPush } : {}),
    buy: toBuy(groups, [...(grid ? gridPieces(grid) : []), ...(bar ? barPieces(bar) : [])]),
    findings: [
      ...loads.findings,
      ...groups.flatMap(({ findings }) => findings),
      ...(gridPush?.at.usual.findings ?? []),
    ],
  }
}

/** Spare ones of each layer are of its longest kind: that makes either. */
const withSpares = (pieces: readonly Omit<WirePiece, 'spare'>[]): readonly WirePiece[] => {
  const longest = Math.max(0, ...pieces.map(({ length }) => length))
  return pieces.map((piece) => ({ ...piece, spare: piece.length === longest ? SPARE : 0 }))
}

const gridPieces = ({ cutter }: BoundGridCutter): readonly WirePiece[] =>
  (['short', 'long'] as const).flatMap((layer) =>
    withSpares(
      cutter.wireLengths
        .filter((one) => one.layer === layer)
        .map(({ lines, count, length }) => ({ group: `grid-${layer}` as const, lines, count, length })),
    ),
  )

const barPieces = ({ cutter }: BoundBarCutter): readonly WirePiece[] =>
  withSpares(
    (['pair', 'single'] as const).flatMap((kind) => {
      const like = cutter.strings.filter((string) => string.kind === kind)
      if (like.length === 0) return []
      return [
        {
          group: 'bar' as const,
          lines: kind === 'pair' ? (2 as const) : (1 as const),
          count: like.length,
          length: Math.max(...like.map(({ length }) => length)),
        },
      ]
    }),
  )

const toBuy = (groups: readonly WireGroup[], pieces: readonly WirePiece[]): readonly WireToBuy[] => {
  const kinds = new Map(
    groups.map(({ material, diameter }) => [`${material} ${diameter}`, { material, diameter }]),
  )
  return [...kinds.values()].map(({ material, diameter }) => {
    const own = pieces.filter(({ group }) =>
      groups.some((one) => one.key === group && one.material === material && one.diameter === diameter),
    )
    const length = own.reduce((sum, piece) => sum + (piece.count + piece.spare) * piece.length, 0)
    const gauge = material === 'music-wire' ? gaugeOf(diameter) : undefined
    return {
      material,
      diameter,
      ...(gauge === undefined ? {} : { gauge }),
      pieces: own,
      length,
      mass: length * wireFigures({ material, diameter }).massPerLength,
    }
  })
}
