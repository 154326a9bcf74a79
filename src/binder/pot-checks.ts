/** What proves the weighings: each scale with its check weight on it, and the pots as a whole on a second scale. */
import type { DrawPlan, Scale } from '../batch/draws.ts'
import { type AcceptBand, type GrossCheck, grossCheck, scaleCheck } from '../batch/weighing-checks.ts'
import type { ShopFile } from '../schema/shop.ts'
import type { LyePlan } from './plan-lye.ts'
import { scalesOf, type Vessels } from './shop-tools.ts'
import type { WeighedOut } from './weigh-out.ts'

export interface PotCheck {
  readonly scale: Scale
  readonly band: GrossCheck
  /** what the scale may show of the empty vessel, of a kettle [kg] */
  readonly empty?: { readonly low: number; readonly high: number }
}

/** Room that a scale must have above what is put on it [–] (common practice: a tub, a lid, a thermometer) */
const ROOM = 1.02
/** Divisions that an empty kettle may be off (common practice: rounding of what was entered and of the reading) */
const EMPTY_OFF = 2
/** Share of the water of a hot lye that leaves as steam (estimate) */
const STEAM = 0.01

type Scales = readonly [Scale, ...Scale[]]

const scaleFor = (mass: number, scales: Scales): Scale | undefined =>
  scales.find((scale) => scale.capacity >= mass * ROOM)

/** One kettle with its oils, before lye meets them. */
export const oilCheck = (
  { oils }: WeighedOut,
  kettle: Vessels['mixing'],
  kettles: number,
  scales: Scales,
): PotCheck | undefined => {
  const contents = oils.map(({ fats, plan }) => ({
    name: fats.map(({ name }) => name).join(', '),
    plan: onePart(plan, kettles),
  }))
  const mass = contents.reduce((sum, { plan }) => sum + plan.sum, kettle['empty-mass'])
  const scale = scaleFor(mass, scales)
  if (!scale) return undefined
  // The band of the full kettle holds for this kettle only: another one is told by what it weighs empty.
  const off = EMPTY_OFF * scale.division
  const whole = Math.round(kettle['empty-mass'] / scale.division) * scale.division
  return {
    scale,
    band: grossCheck({ potMass: kettle['empty-mass'], contents, scale }),
    empty: { low: whole - off, high: whole + off },
  }
}

/** The pail in its tub with all of the lye, the scale set to zero with both of them empty; the steam is allowed for. */
export const lyeCheck = (
  { water, ice, alkalis, additions }: WeighedOut,
  pail: Vessels['lye'],
  lye: LyePlan,
  scales: Scales,
): PotCheck | undefined => {
  const plans: readonly { readonly name: string; readonly plan: DrawPlan }[] = [
    { name: '', plan: water },
    ...(ice ? [{ name: '', plan: ice }] : []),
    ...alkalis.map(({ name, plan }) => ({ name, plan })),
    ...additions.filter(({ role }) => role === 'acid').map(({ name, plan }) => ({ name, plan })),
  ]
  const expected = plans.reduce((sum, { plan }) => sum + plan.sum, 0)
  // the tub is of about the pail's own weight
  const scale = scaleFor(2 * pail['empty-mass'] + expected, scales)
  if (!scale) return undefined
  const band = grossCheck({ potMass: 0, contents: plans, scale })
  const steam = STEAM * (water.sum + (ice?.sum ?? 0))
  const low = Math.floor((band.low - steam) / scale.division) * scale.division
  const smallest = Math.min(
    ...(lye.portions.length > 0
      ? lye.portions.flatMap(({ masses }) => masses.filter((mass) => mass > 0))
      : alkalis.map(({ plan }) => plan.sum)),
  )
  // A check that a missing portion would pass is worse than none.
  return band.high - low < smallest ? { scale, band: { ...band, low } } : undefined
}

/**
 * The same pail with its water and ice alone, before any alkali is opened into it: water that was forgotten is found
 * while it harms nobody.
 *
 * @param scale that the pail stands on, set to zero with pail and tub
 * @returns nothing where a draw could be missing unseen
 */
export const waterCheck = ({ water, ice }: WeighedOut, scale: Scale): PotCheck | undefined => {
  const plans = [water, ...(ice ? [ice] : [])]
  const band = grossCheck({ potMass: 0, contents: plans.map((plan) => ({ name: '', plan })), scale })
  const smallest = Math.min(...plans.flatMap(({ draws }) => draws.map(({ target }) => target)))
  return band.high - band.low < smallest ? { scale, band } : undefined
}

/** What one of several equal kettles gets. */
const onePart = (plan: DrawPlan, kettles: number): DrawPlan => ({
  ...plan,
  sum: plan.sum / kettles,
  draws: plan.draws.slice(0, plan.draws.length / kettles),
})

export interface ScaleCheck {
  readonly name: string
  /** undefined where the shop has none for it [kg] */
  readonly checkMass: number | undefined
  readonly band: AcceptBand | undefined
  readonly division: number
}

/** Every scale that a batch uses, in the shop's order, with what it must show with its check weight on it. */
export const scaleChecksOf = (
  shop: ShopFile,
  { oils, alkalis, additions, water, ice, later }: WeighedOut,
  pots: readonly (PotCheck | undefined)[],
): ScaleCheck[] => {
  const plans = [
    ...[...oils, ...alkalis, ...additions].map(({ plan }) => plan),
    ...[water, ice, later].flatMap((plan) => plan ?? []),
  ]
  const largest = new Map<string, number>()
  const note = (name: string, mass: number): void => {
    largest.set(name, Math.max(largest.get(name) ?? 0, mass))
  }
  for (const { scale, draws } of plans) for (const { target } of draws) note(scale.name, target)
  for (const pot of pots) if (pot) note(pot.scale.name, pot.band.expected)
  return scalesOf(shop)
    .filter(({ name }) => largest.has(name))
    .map((scale): ScaleCheck => {
      const checkMass = shop.scales[scale.name]?.['check-mass']
      return {
        name: scale.name,
        checkMass,
        division: scale.division,
        band:
          checkMass === undefined
            ? undefined
            : scaleCheck({ scale, checkMass, largestDraw: largest.get(scale.name) ?? 0 }),
      }
    })
}
