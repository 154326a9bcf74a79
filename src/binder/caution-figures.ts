/** Numbers of this shop that cautions name: its largest pail, its heaviest loads, its tight wires. */
import { USUAL_RULES } from '../batch/block-heat.ts'
import { FULLNESS } from '../batch/pots.ts'
import { type SpillKit, spillKit } from '../batch/spill-kit.ts'
import { isStopped } from '../findings.ts'
import type { ShopFile } from '../schema/shop.ts'
import { type WhipOfWire, whipOfWire } from '../wires/wire-energy.ts'
import type { BoundBinder } from './bind.ts'
import type { Load, LoadKey } from './plan-lifts.ts'

/** The pail of lye that holds most, in m3. */
export interface LargestPail {
  readonly key: string
  readonly brim: number
  /** as far as a batch may fill it */
  readonly filled: number
  readonly kit: SpillKit
}

export interface TightWire extends WhipOfWire {
  readonly key: string
  readonly fixture: string
  readonly kind: 'short' | 'long' | 'slicing'
  /** while it cuts [N] */
  readonly tension: number
  /** between its rods or pins [m] */
  readonly length: number
}

/** @returns nothing for a shop without a pail for lye */
export const largestPail = ({ content }: BoundBinder): LargestPail | undefined => {
  const pails = [...Object.entries(content.shop.value.vessels)].filter(([, { use }]) => use === 'lye')
  const [largest] = pails.sort(([, a], [, b]) => b.volume - a.volume)
  if (!largest) return undefined
  const [key, { volume }] = largest
  const filled = FULLNESS.lye * volume
  return { key, brim: volume, filled, kit: spillKit(filled) }
}

/** Batches that print weights. */
export const madeBatches = ({ batches }: BoundBinder) => batches.filter(({ state }) => state !== 'stop')

/** Of each thing that is lifted the heaviest among all batches. */
export const heaviestLoads = (binder: BoundBinder): readonly Load[] => {
  const heaviest = new Map<LoadKey, Load>()
  for (const load of madeBatches(binder).flatMap(({ loads }) => loads)) {
    const before = heaviest.get(load.key)
    if (!before || load.mass > before.mass) heaviest.set(load.key, load)
  }
  return [...heaviest.values()]
}

/** Cutters of each fixture, none of a mould or a cutter that is stopped. */
export const tightCutters = ({ moulds, gridCutters, barCutters }: BoundBinder) =>
  moulds
    .filter(({ findings }) => !isStopped(findings))
    .map(({ key }) => ({
      grid: gridCutters.find((one) => one.key === key && !isStopped(one.findings)),
      bar: barCutters.find((one) => one.key === key && !isStopped(one.findings)),
    }))

/** The wires of each kind, of every cutter that stands, while they cut. */
export const tightWires = (binder: BoundBinder): readonly TightWire[] => {
  const standing = new Set(
    tightCutters(binder).flatMap(({ grid, bar }) => [
      ...(grid ? [`grid-cutter ${grid.key}`] : []),
      ...(bar ? [`bar-cutter ${bar.key}`] : []),
    ]),
  )
  return binder.wires.flatMap(({ key, title, groups }) =>
    groups
      .filter(({ cutter }) => standing.has(`${cutter} ${key}`))
      .map((group): TightWire => {
        const kind = KINDS[group.key]
        const { tension } = group.chosen.loaded.usual
        const wire = { material: group.material, diameter: group.diameter }
        return {
          key: `${key}.${kind}`,
          fixture: title,
          kind,
          tension,
          length: group.length,
          ...whipOfWire(wire, tension, group.length),
        }
      }),
  )
}

const KINDS = { 'grid-short': 'short', 'grid-long': 'long', bar: 'slicing' } as const

/** K; of the core of a block that is cut. */
export const cutBelow = ({ block }: ShopFile): number => block?.['cut-below'] ?? USUAL_RULES.cutBelow

/** Scales of the shop with the weight that each is tried with [kg]. */
export const scaleChecks = ({ scales }: ShopFile) =>
  Object.entries(scales).map(([name, scale]) => ({
    name,
    mass: scale['check-mass'],
    division: scale.division,
  }))
