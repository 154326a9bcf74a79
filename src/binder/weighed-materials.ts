/** What is weighed for a batch, thing by thing, with what it is in stock. */
import type { DrawPlan } from '../batch/draws.ts'
import type { BoundBatch } from './bind-batch.ts'
import { PREMIX } from './weigh-out.ts'

export interface WeighedMaterial {
  /** of the thing in stock; nothing for water */
  readonly material: string | undefined
  readonly kind: 'oils' | 'water' | 'ice' | 'later' | 'alkali' | 'addition'
  /** of fats, alkali or addition in the batch */
  readonly key: string
  readonly plan: DrawPlan
}

/** What is weighed, in the order of the batch sheet; what several parts are coloured with stands once. */
export const weighedMaterials = (batch: BoundBatch): WeighedMaterial[] => {
  const { oils, water, ice, alkalis, later, additions, formula, file } = batch
  const liquid = formula.liquid?.key
  const ofAdditions = new Map<string, WeighedMaterial>()
  for (const { key, plan } of additions) {
    const material = formula.additions.find((one) => one.key === key)?.material ?? key
    const before = ofAdditions.get(material)
    ofAdditions.set(material, {
      material,
      kind: 'addition',
      key: before?.key ?? key,
      plan: together(plan, before?.plan),
    })
  }
  return [
    ...oils.map(
      ({ key, plan }): WeighedMaterial => ({
        material: key === PREMIX ? file.value.premix : key,
        kind: 'oils',
        key,
        plan,
      }),
    ),
    ...(liquid === undefined
      ? [
          { material: undefined, kind: 'water', key: 'water', plan: water } as const,
          ...(ice ? [{ material: undefined, kind: 'ice', key: 'ice', plan: ice } as const] : []),
          ...(later ? [{ material: undefined, kind: 'later', key: 'later', plan: later } as const] : []),
        ]
      : // frozen or kept back, it comes out of the same lots
        [{ material: liquid, kind: 'water', key: 'water', plan: together(water, ice, later) } as const]),
    ...alkalis.map(({ key, plan }): WeighedMaterial => ({ material: key, kind: 'alkali', key, plan })),
    ...ofAdditions.values(),
  ]
}

/** Weighings of one thing in several places as one. */
const together = (first: DrawPlan, ...others: readonly (DrawPlan | undefined)[]): DrawPlan => {
  const all = [first, ...others].filter((one) => one !== undefined)
  return {
    ...first,
    sum: all.reduce((total, { sum }) => total + sum, 0),
    draws: all.flatMap(({ draws }) => draws),
  }
}
