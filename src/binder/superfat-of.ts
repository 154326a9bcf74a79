/** The superfat of what is really weighed, with its margin: for a batch and for a pilot loaf alike. */
import type { DrawPlan } from '../batch/draws.ts'
import type { SuperfatMargin } from '../chemistry/superfat-interval.ts'
import type { ShopFile } from '../schema/shop.ts'
import type { Formula } from './formula.ts'
import { knownMargin } from './known-margin.ts'
import type { LyePlan } from './plan-lye.ts'
import { scaleErrorsOf, uncertainAcid } from './shop-tools.ts'

interface Weighed {
  readonly key: string
  readonly plan: DrawPlan
}

/** In the order of the formula. */
export interface WeighedParts {
  readonly fats: readonly Weighed[]
  readonly alkalis: readonly Pick<Weighed, 'plan'>[]
  readonly additions: readonly Weighed[]
}

export const superfatOf = (
  shop: ShopFile,
  formula: Formula,
  { fats, alkalis, additions }: WeighedParts,
  lye: LyePlan,
): SuperfatMargin =>
  knownMargin({
    fats: formula.fats.map(({ key, value }) => {
      const { plan } = weighed(fats.find((fat) => fat.key === key))
      return {
        key,
        mass: plan.sum,
        saponificationValue: value,
        weighing: { scale: plan.scale.name, draws: plan.draws.length },
      }
    }),
    alkalis: formula.alkalis.map(({ kind, purity }, index) => {
      const { plan } = weighed(alkalis[index])
      return {
        alkali: kind,
        mass: plan.sum,
        purity,
        // it is weighed in the portions that go in, not in the fewest draws that the scale could take
        weighing: { scale: plan.scale.name, draws: Math.max(plan.draws.length, lye.portions.length) },
      }
    }),
    acids: formula.additions.flatMap(({ key, acid }) =>
      acid ? [uncertainAcid(key, acid, weighed(additions.find((one) => one.key === key)).plan)] : [],
    ),
    scales: scaleErrorsOf(shop),
    floor: shop.limits['least-superfat'],
  })

const weighed = <T>(found: T | undefined): T => {
  if (found === undefined) throw new Error('Something of the formula was not weighed.')
  return found
}
