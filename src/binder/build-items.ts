/** What is made in one build: of each fixture its pieces, with all that is sawn, bought and done for them. */
import { isStopped } from '../findings.ts'
import { COATS, finishNeed } from '../fixtures/finish.ts'
import { partVolume } from '../geometry/cells.ts'
import type { Part } from '../geometry/part.ts'
import { placeBox } from '../geometry/placement.ts'
import type { Pieces } from '../quote/packs.ts'
import { type Work, workOn } from '../quote/work.ts'
import type { BuildFile, BuildPiece } from '../schema/build.ts'
import { piecesOf } from '../schema/builds.ts'
import type { HardwareKind } from '../schema/materials.ts'
import type { BoundBarCutter } from './bind-bar-cutter.ts'
import type { BoundGridCutter } from './bind-grid-cutter.ts'
import type { BoundLeverPress } from './bind-lever-press.ts'
import type { BoundMould } from './bind-mould.ts'
import type { BoundTrialFrame } from './bind-trial-frame.ts'
import type { BoundWires } from './bind-wires.ts'

/** What a build sheet says of coats is what a quote buys for them. */
export { finishNeed }

/** Everything that is bound of all fixtures. */
export interface BoundFixtures {
  readonly moulds: readonly BoundMould[]
  readonly gridCutters: readonly BoundGridCutter[]
  readonly barCutters: readonly BoundBarCutter[]
  readonly wires: readonly BoundWires[]
  readonly trialFrames: readonly BoundTrialFrame[]
  readonly leverPresses: readonly BoundLeverPress[]
}

/** Hardware of one kind and size that one piece wants. */
export interface HardwareNeed extends Pieces {
  readonly kind: HardwareKind
  readonly size: string
  /** that is used by weight [kg] */
  readonly mass?: number
}

/** What is made: one piece of one fixture, as often as it is wanted. */
export interface BuildItem {
  /** of the fixture, and its title */
  readonly fixture: string
  readonly title: string
  readonly piece: BuildPiece
  readonly count: number
  /** of one of them, over all [m]; [kg] */
  readonly outside: { readonly length: number; readonly width: number; readonly height: number }
  readonly mass: number
  /** of one, sawn from sheets */
  readonly parts: readonly Part[]
  /** of one */
  readonly hardware: readonly HardwareNeed[]
  /** on one, without the saw cuts that take boards apart */
  readonly work: Work
}

/** Asked for, and not made, since it does not stand. */
export interface LeftOut {
  readonly fixture: string
  readonly title: string
  readonly piece: BuildPiece
}

export interface BuildItems {
  readonly items: readonly BuildItem[]
  readonly leftOut: readonly LeftOut[]
}

type Made = Omit<BuildItem, 'fixture' | 'title' | 'piece' | 'count'>

/**
 * What a build makes, in the order of fixtures and then of use.
 *
 * @param build  of the maker's; all of every fixture where there is none
 * @param bound  all fixtures
 */
export const buildItems = (build: BuildFile | undefined, bound: BoundFixtures): BuildItems => {
  const items: BuildItem[] = []
  const leftOut: LeftOut[] = []
  const wanted: BuildFile['fixtures'] =
    build?.fixtures ?? Object.fromEntries(bound.moulds.map(({ key }) => [key, {}]))
  for (const mould of bound.moulds) {
    const asked = wanted?.[mould.key]
    if (!asked) continue
    const has = piecesOf(mould.file.value)
    const pieces = asked.pieces ? has.filter((piece) => asked.pieces?.includes(piece)) : has
    for (const piece of pieces) {
      const made = makers[piece](mould, bound, new Set(pieces))
      const of = { fixture: mould.key, title: mould.title, piece }
      if (made === 'stopped') leftOut.push(of)
      else items.push({ ...of, count: asked['how-many'] ?? 1, ...made })
    }
  }
  return { items, leftOut }
}

type Maker = (mould: BoundMould, all: BoundFixtures, pieces: ReadonlySet<BuildPiece>) => Made | 'stopped'

const of = <T extends { readonly key: string }>(all: readonly T[], { key }: BoundMould): T | undefined =>
  all.find((one) => one.key === key)

const stands = (...bound: readonly { readonly findings: Parameters<typeof isStopped>[0] }[]): boolean =>
  bound.every(({ findings }) => !isStopped(findings))

const makers: Readonly<Record<BuildPiece, Maker>> = {
  'set-up-gauge': (mould) => {
    const part = mould.gauge?.part
    if (!part || !stands(mould)) return 'stopped'
    return {
      outside: { length: part.length, width: part.width, height: part.thickness },
      mass: part.count * partVolume(part) * part.density,
      parts: [part],
      hardware: [],
      work: workOn([part], { joints: 0, screws: 0, fittings: 0, wires: 0, coated: 0 }),
    }
  },
  mould: (bound) => {
    if (!stands(bound)) return 'stopped'
    const { mould } = bound
    const { parts, rods } = mould
    const lengths: Partial<Record<string, number>> = { 'rod-stock': mould.input.rods.stockLength }
    return {
      outside: overBoards(parts),
      mass: mould.mass,
      parts,
      hardware: [
        ...mould.hardware.map(
          ({ key, size, count, spare }): HardwareNeed => ({
            kind: key,
            size,
            count: count + spare,
            ...(lengths[key] === undefined ? {} : { length: lengths[key] }),
          }),
        ),
        ...finish(parts),
      ],
      work: workOn(parts, {
        joints: copies(parts, ({ key }) => GLUED.includes(key)),
        screws: 0,
        fittings: rods.count,
        wires: 0,
        coated: COATS * finishNeed(parts).faces,
      }),
    }
  },
  'grid-cutter': (mould, all) => {
    const bound = of(all.gridCutters, mould)
    if (!bound || !stands(mould, bound)) return 'stopped'
    const { cutter } = bound
    return {
      outside: overBoards(cutter.parts),
      mass: cutter.mass + cutter.stand.mass,
      parts: cutter.parts,
      hardware: [
        ...cutter.hardware.map(plainNeed),
        ...coil(mould, all, (group) => group !== 'bar'),
        ...finish(cutter.parts),
      ],
      work: workOn(cutter.parts, {
        ...screwed(cutter.screws),
        fittings: fittings(cutter.hardware),
        wires: cutter.wireLengths.reduce((sum, { count }) => sum + count, 0),
        coated: COATS * finishNeed(cutter.parts).faces,
      }),
    }
  },
  'bar-cutter': (mould, all) => {
    const bound = of(all.barCutters, mould)
    if (!bound || !stands(mould, bound)) return 'stopped'
    const { cutter } = bound
    const hinges = 2 * cutter.hingeScrews.inEachLeaf
    const { joints, screws } = screwed(cutter.screws)
    return {
      outside: overBoards(cutter.parts),
      mass: cutter.mass,
      parts: cutter.parts,
      hardware: [
        // Its wire is bought by the coil.
        ...cutter.hardware.filter(({ key }) => !key.endsWith('-wire')).map(plainNeed),
        ...coil(mould, all, (group) => group === 'bar'),
        ...finish(cutter.parts),
      ],
      work: workOn(cutter.parts, {
        joints,
        screws: screws + hinges,
        fittings: fittings(cutter.hardware),
        wires: cutter.strings.length,
        coated: COATS * finishNeed(cutter.parts).faces,
      }),
    }
  },
  'trial-frame': (mould, all, pieces) => {
    const bound = of(all.trialFrames, mould)
    if (!bound || !stands(bound)) return 'stopped'
    const { trial } = bound
    // Pegs and anchors of the cutter that is made with it are in use before it is strung.
    const borrows = pieces.has('grid-cutter')
    const own = trial.hardware.filter(({ key }) => !borrows || !BORROWED.includes(key))
    const wire = all.gridCutters.find(({ key }) => key === mould.key)?.wires.groups[0]
    return {
      outside: overBoards(trial.parts),
      mass: trial.mass + trial.baseMass,
      parts: trial.parts,
      hardware: [
        ...own.map(plainNeed),
        ...(wire
          ? [
              {
                kind: WIRES[wire.material],
                size: wireSize(wire.diameter),
                count: trial.input.wires + 1,
                length: trial.wireLength,
              },
            ]
          : []),
        ...finish(trial.parts),
      ],
      work: workOn(trial.parts, {
        joints: copies(trial.parts) - 1,
        screws: counted(trial.hardware, 'wood-screw'),
        fittings: fittings(trial.hardware),
        wires: trial.input.wires,
        coated: COATS * finishNeed(trial.parts).faces,
      }),
    }
  },
  'lever-press': (mould, all) => {
    const bound = of(all.leverPresses, mould)
    const grid = of(all.gridCutters, mould)
    if (!bound || !grid || !stands(mould, grid, bound)) return 'stopped'
    const { press } = bound
    const { lumber } = press.input
    const isLumber = ({ material }: Part): boolean => material === lumber.material
    return {
      outside: press.outside,
      mass: press.standMass + press.leverMass,
      // Lumber is bought by its length, and crosscut.
      parts: press.parts.filter((part) => !isLumber(part)),
      hardware: [
        ...press.hardware.map(plainNeed),
        ...press.parts.filter(isLumber).map(
          ({ count, length, width, grain }): HardwareNeed => ({
            kind: 'lumber',
            size: bound.panelNames.get(lumber.material) ?? lumber.material,
            count,
            length: grain === 'length' ? length : width,
          }),
        ),
        ...finish(press.parts),
      ],
      work: {
        ...workOn(press.parts, {
          joints: copies(press.parts) - 1,
          screws: counted(press.hardware, 'wood-screw'),
          fittings: fittings(press.hardware),
          wires: 0,
          coated: COATS * finishNeed(press.parts).faces,
        }),
        'saw-cut': copies(press.parts, isLumber),
      },
    }
  },
}

/** Parts of the mould that are glued to another; all others are only drawn together. */
const GLUED: readonly string[] = ['strip', 'rail', 'cleat']
/** Of the trial frame what goes into the box of the grid cutter afterwards. */
export const BORROWED: readonly string[] = ['peg', 'anchor-screw', 'anchor-pin']
/** Hardware that is put in by hand, one by one. */
const FITTED: readonly string[] = [
  'peg', 'anchor-screw', 'anchor-pin', 'bridge-rod', 'wire-pin', 'continuous-hinge', 'hook-and-eye', 'screw-eye',
  'press-pin', 'press-bolt', 'hand-bar',
] // biome-ignore format: one line reads better
const WIRES = { 'music-wire': 'music-wire', 'stainless-302': 'stainless-wire' } as const
const INCH = 0.0254

const copies = (parts: readonly Part[], which: (part: Part) => boolean = () => true): number =>
  parts.filter(which).reduce((sum, { count }) => sum + count, 0)

interface Listed {
  readonly key: HardwareKind
  readonly size?: string
  readonly count: number
  readonly spare: number
  readonly length?: number
}

const counted = (hardware: readonly Listed[], kind: string): number =>
  hardware.filter(({ key }) => key === kind).reduce((sum, { count }) => sum + count, 0)

const fittings = (hardware: readonly Listed[]): number =>
  FITTED.reduce((sum, kind) => sum + counted(hardware, kind), 0)

/** Sold as long as it is, save for what is cut from something longer. */
const CUT: readonly string[] = ['bridge-rod', 'continuous-hinge', 'press-pin', 'hand-bar']

const plainNeed = ({ key, size = '', count, spare, length }: Listed): HardwareNeed => {
  const cut = CUT.includes(key)
  const long = length === undefined || cut ? '' : ` × ${Math.round(length * 1000)} mm`
  return {
    kind: key,
    size: `${size}${long}`,
    count: count + spare,
    ...(cut && length !== undefined ? { length } : {}),
  }
}

/** Joints with a head on each copy of a part, and those that are only clamped. */
const screwed = ({
  joints,
  clamped,
}: BoundGridCutter['cutter']['screws']): { joints: number; screws: number } => ({
  joints: joints.reduce((sum, { count, holes }) => sum + count / Math.max(1, holes), 0) + clamped.length,
  screws: joints.reduce((sum, { count }) => sum + count, 0),
})

const wireSize = (diameter: number): string => `${(diameter / INCH).toFixed(3)} in`

const coil = (
  mould: BoundMould,
  { wires }: BoundFixtures,
  which: (group: BoundWires['buy'][number]['pieces'][number]['group']) => boolean,
): readonly HardwareNeed[] =>
  (of(wires, mould)?.buy ?? []).flatMap(({ material, diameter, pieces }) =>
    pieces
      .filter(({ group }) => which(group))
      .map(
        ({ count, spare, length }): HardwareNeed => ({
          kind: WIRES[material],
          size: wireSize(diameter),
          count: count + spare,
          length,
        }),
      ),
  )

const finish = (parts: readonly Part[]): readonly HardwareNeed[] => [
  { kind: 'wood-glue', size: '', count: 1 },
  { kind: 'epoxy', size: '', count: 1, mass: finishNeed(parts).epoxy },
]

/** Over all of its boards as they stand together, with the one below it: what a bench and a car have to take. */
const overBoards = (parts: readonly Part[]): BuildItem['outside'] => {
  const boxes = parts.flatMap(({ length, width, thickness, placements }) =>
    placements.map((placement) =>
      placeBox(placement, { min: { x: 0, y: 0, z: 0 }, max: { x: length, y: width, z: thickness } }),
    ),
  )
  const over = (axis: 'x' | 'y' | 'z'): number =>
    Math.max(...boxes.map(({ max }) => max[axis])) - Math.min(...boxes.map(({ min }) => min[axis]))
  return { length: over('x'), width: over('y'), height: over('z') }
}
