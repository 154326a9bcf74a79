/** What a batch takes of every material that stock is kept of. */
import type { BatchNeed } from '../supply/first-expired.ts'
import { dayNumber } from '../units/civil-day.ts'
import type { BoundBatch } from './bind-batch.ts'
import type { BoundCure } from './bind-calendar.ts'
import { type WeighedMaterial, weighedMaterials } from './weighed-materials.ts'

/** kg or pieces */
export interface MaterialNeed {
  readonly material: string
  readonly amount: number
  /** the lot whose certificate the amount was reckoned with */
  readonly only?: string
}

/** As weighed out, each material once; water is only counted where the recipe takes another liquid in its place. */
export const materialsFor = (batch: BoundBatch): readonly MaterialNeed[] => {
  const rows = weighedMaterials(batch)
  const isLiquid = ({ kind }: WeighedMaterial): boolean => kind === 'water'
  // what the lye is made with is fetched last
  return [...rows.filter((row) => !isLiquid(row)), ...rows.filter(isLiquid)].flatMap(
    ({ material, kind, key, plan }): MaterialNeed[] => {
      if (material === undefined || plan.sum <= 0) return []
      const only = kind === 'oils' ? batch.fats.find((fat) => fat.key === key)?.lot : undefined
      return [{ material, amount: plan.sum, ...(only === undefined ? {} : { only }) }]
    },
  )
}

/**
 * What the batches that are still to be made take: materials on the day of the pour, packaging on that of the label.
 *
 * A batch that is stopped takes nothing: no weight of it stands on any list.
 * @param perBar pieces of packaging for one bar, by material
 */
export const plannedNeeds = (
  batches: readonly BoundBatch[],
  cures: readonly BoundCure[],
  perBar: ReadonlyMap<string, number>,
): readonly BatchNeed[] =>
  batches.filter(isToBeMade).flatMap((batch) => {
    const pour = dayNumber(batch.date)
    const wrap = cures
      .find((cure) => cure.batch === batch)
      ?.planned.tasks.find(({ task }) => task === 'label')?.at.date
    const day = wrap === undefined ? pour : dayNumber(wrap)
    return [
      ...materialsFor(batch).map((need) => ({ batch: batch.key, day: pour, ...need })),
      ...[...perBar].map(([material, pieces]) => ({
        batch: batch.key,
        day,
        material,
        amount: pieces * batch.fill.bars,
      })),
    ]
  })

export const isToBeMade = ({ state, file }: BoundBatch): boolean =>
  state !== 'stop' && file.value.made === undefined
