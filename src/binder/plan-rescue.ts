/** What a weighing that went wrong does to a batch, and what puts it right. */
import type { Fill } from '../batch/fill.ts'
import { hydroxideOfAcid } from '../chemistry/alkali.ts'
import { type Mistake, rescues } from '../chemistry/rescue.ts'
import { SOFT_LIMIT, type SuperfatMargin } from '../chemistry/superfat-interval.ts'
import type { ShopFile } from '../schema/shop.ts'
import type { Formula } from './formula.ts'
import type { LyePlan } from './plan-lye.ts'
import type { WeighedOut } from './weigh-out.ts'

/**
 * What each missed or doubled draw would do; a batch that would be in doubt afterwards is put right in any case, as far as
 * the kettle takes it. The mould is no bound: what is over its line goes into a loaf mould.
 *
 * @param kettleRoom from the batter as planned to what the kettle may be filled to [m3]
 */
export const mistakesOf = (
  formula: Formula,
  { fats, oils, alkalis, additions }: WeighedOut,
  lye: LyePlan,
  superfat: SuperfatMargin,
  fill: Fill,
  kettleRoom: number,
  shop: ShopFile,
): readonly Mistake[] => {
  const value = (key: string): number => formula.fats.find((fat) => fat.key === key)?.value.nominal ?? 0
  const massOf = (key: string): number => fats.find((fat) => fat.key === key)?.plan.sum ?? 0
  return rescues({
    fats: oils.map(({ key, fats: inIt, plan }) => ({
      key,
      mass: plan.sum,
      saponificationValue:
        inIt.reduce((sum, fat) => sum + massOf(fat.key) * value(fat.key), 0) / (plan.sum || 1),
      draws: plan.draws.map(({ target }) => target),
    })),
    alkalis: alkalis.map(({ kind, purity, plan }, index) => ({
      alkali: kind,
      mass: plan.sum,
      purity,
      portions: lye.portions.map(({ masses }) => masses[index] ?? 0).filter((mass) => mass > 0),
    })),
    hydroxideForAcids: additions.reduce((sum, addition) => {
      const acid = formula.additions.find(({ key }) => key === addition.key)?.acid
      return acid ? sum + hydroxideOfAcid({ ...acid, mass: addition.plan.sum }) : sum
    }, 0),
    concentration: lye.concentration,
    floor: Math.max(shop.limits['least-superfat'], superfat.nominal - superfat.worst.low),
    softLimit: SOFT_LIMIT,
    roomLeft: kettleRoom * fill.batterDensity,
  })
}
