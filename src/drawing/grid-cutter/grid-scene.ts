/**
 * The grid cutter over block and base, at any place of its stroke: what its drawings are made from.
 */
import type { GridCutter } from '../../fixtures/grid-cutter/types.ts'
import type { Part, Round } from '../../geometry/part.ts'
import type { Box, Vec3 } from '../../geometry/placement.ts'
import { shifted } from '../exploded/apart.ts'
import { assemblyScene, type Scene } from '../scene.ts'
import type { Span } from '../spans.ts'

/** Of parts that are made once and used at the bench alone. */
const AT_BENCH = 'set-up-gauge'

type Parts = Pick<GridCutter, 'parts' | 'standing'>

/**
 * Parts of the frame, without what it stands on.
 *
 * Formula: all parts but those that stand while it moves. Validity: any cutter.
 * @param cutter as designed
 * @returns parts at the end of the stroke [m]
 * @source common practice
 */
export const frameParts = ({ parts, standing }: Parts): readonly Part[] =>
  parts.filter(({ key }) => key !== AT_BENCH && !standing.includes(key))

/** Parts that the frame does not carry, in their places. */
const standingParts = ({ parts, standing }: Parts): readonly Part[] =>
  parts.filter(({ key }) => standing.includes(key))

/** The base that block and frame stand on, as the mould has it. */
const baseParts = ({ input }: GridCutter): readonly Part[] =>
  input.mould.parts.filter(({ key }) => key === 'base-top' || key === 'rail')

const raised = (part: Part, by: number): Part => ({
  ...part,
  placements: part.placements.map((placement) => shifted(placement, { x: 0, y: 0, z: by })),
})

const raisedRound = (round: Round, by: number): Round =>
  round.axis === 'z'
    ? { ...round, from: round.from + by, to: round.to + by }
    : { ...round, centre: [round.centre[0], round.centre[1] + by] }

/**
 * Frame and hardware, lifted; with base and stand where asked for.
 *
 * Formula: everything of the frame moved up. Validity: any cutter.
 * @param cutter as designed [m]
 * @param options lift above the end of the stroke [m]; what stands under it; with or without its hardware
 * @returns the scene [m]
 * @source common practice
 */
export function gridScene(
  cutter: GridCutter,
  { lift = 0, base = false, hardware = true }: { lift?: number; base?: boolean; hardware?: boolean },
): Scene {
  const frame = frameParts(cutter).map((part) => raised(part, lift))
  const under = base ? [...baseParts(cutter), ...standingParts(cutter)] : []
  return assemblyScene(
    [...frame, ...under],
    hardware ? cutter.rounds.map((round) => raisedRound(round, lift)) : [],
  )
}

/** The block, or one of its loaves, as the walls of the mould leave it [m]. */
export interface Loaf extends Box {
  readonly column: number
  readonly row: number
}

/**
 * The block in loaves.
 *
 * Formula: cut at the wires; outer faces where the lining stood. Validity: wires in ascending order of each direction;
 * soap that is trimmed off counts as loaves.
 * @param cutter wires and block [m]
 * @returns loaves, column by column from the left, in each from the front [m]
 * @source common practice
 */
export function loavesOf({ wires, input }: GridCutter): readonly Loaf[] {
  const { lined, base, block } = input.mould
  const places = (runs: 'width' | 'length', size: number): readonly number[] => [
    -size / 2,
    ...wires.filter((wire) => wire.runs === runs).map(({ at }) => at),
    size / 2,
  ]
  const xs = places('width', lined.length)
  const ys = places('length', lined.width)
  const [low, high] = [base.height, base.height + block.setHeight]
  return xs.slice(1).flatMap((right, column) =>
    ys.slice(1).map(
      (back, row): Loaf => ({
        column,
        row,
        min: { x: xs[column] ?? 0, y: ys[row] ?? 0, z: low },
        max: { x: right, y: back, z: high },
      }),
    ),
  )
}

interface Edge {
  readonly a: Vec3
  readonly b: Vec3
}

/**
 * The twelve edges of a box.
 *
 * Formula: between corners that differ in one direction. Validity: any box.
 * @param box [m]
 * @returns edges [m]
 * @source common practice
 */
export function edgesOf({ min, max }: Box): readonly Edge[] {
  const corner = (right: boolean, back: boolean, up: boolean): Vec3 => ({
    x: right ? max.x : min.x,
    y: back ? max.y : min.y,
    z: up ? max.z : min.z,
  })
  return [false, true].flatMap((one) =>
    [false, true].flatMap((other): Edge[] => [
      { a: corner(false, one, other), b: corner(true, one, other) },
      { a: corner(one, false, other), b: corner(one, true, other) },
      { a: corner(one, other, false), b: corner(one, other, true) },
    ]),
  )
}

/** Pieces that stand for a wire that is bowed. */
const PIECES = 24

/**
 * A wire from rod to rod, seen from the side: places along it, and heights.
 *
 * Formula: height + share x lag x (1 - along2), along from -1 to 1: the parabola of a level load. Validity: rigid ends.
 * @param wire half length, height and lag [m]
 * @param share of its lag: 0 straight, 1 loaded
 * @param lift of the frame [m]
 * @returns straight pieces, along and up [m]
 * @source common practice
 */
export function wireFromSide(
  wire: { readonly half: number; readonly height: number; readonly lag: number },
  share: number,
  lift = 0,
): readonly Span[] {
  const count = share === 0 ? 1 : PIECES
  const point = (index: number) => {
    const along = (2 * index) / count - 1
    return { x: along * wire.half, y: wire.height + lift + share * wire.lag * (1 - along ** 2) }
  }
  return Array.from({ length: count }, (_, index) => ({ a: point(index), b: point(index + 1) }))
}

/**
 * The scene with its length and width exchanged, so that a section along the length is cut like one across it.
 *
 * Formula: x for y; what was seen from the front is seen from the right, not mirrored. Validity: boxes alone.
 * @param scene boxes [m]
 * @returns boxes [m]
 * @source common practice
 */
export const exchanged = ({ boxes }: Scene): Scene => ({
  boxes: boxes.map(({ key, min, max }) => ({
    key,
    min: { x: min.y, y: min.x, z: min.z },
    max: { x: max.y, y: max.x, z: max.z },
  })),
  edges: [],
  bores: [],
  rounds: [],
})
