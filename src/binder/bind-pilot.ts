/** One loaf of a recipe that nobody has tried: the same formula, small enough to lose. */
import { chooseScale, type DrawPlan } from '../batch/draws.ts'
import type { AddedAcidName } from '../chemistry/alkali.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import { checkVessels } from './check-vessels.ts'
import { type Formula, formulaOf } from './formula.ts'
import { acidsInPail, type LyePlan, planLye, weighedAcids } from './plan-lye.ts'
import { hottestLye, pickVessels, scalesOf } from './shop-tools.ts'
import { superfatOf } from './superfat-of.ts'

export interface BoundPilot {
  readonly recipeKey: string
  readonly recipeTitle: string
  readonly formula: Formula
  readonly fats: readonly {
    readonly key: string
    readonly name: string
    readonly share: number
    readonly plan: DrawPlan
  }[]
  readonly alkalis: readonly {
    readonly kind: 'NaOH' | 'KOH'
    readonly name: string
    readonly plan: DrawPlan
  }[]
  readonly additions: readonly {
    readonly key: string
    readonly name: string
    readonly strength: number | undefined
    readonly acid: AddedAcidName | undefined
    readonly colour: string | undefined
    readonly plan: DrawPlan
  }[]
  readonly water: DrawPlan
  readonly lye: LyePlan
  readonly pourTemperature: number
  readonly findings: readonly Finding[]
}

/** kg of fats: one loaf mould as kitchens have them (common practice) */
const LOAF = 0.7
/** kg/m3; whatever is weighed for a loaf fits any jug */
const LIGHTEST = 500
/** K */
const FREEZING = 273.15

/** @returns the pilot, or undefined when the shop lacks a vessel that it needs (told elsewhere) */
export const bindPilot = (content: Content, recipeKey: string): BoundPilot | undefined => {
  const shop = content.shop.value
  const recipe = content.recipes.get(recipeKey)?.value
  const vessels = pickVessels(shop)
  if (!recipe || 'missing' in vessels) return undefined
  const formula = formulaOf(content, recipe)
  const scales = scalesOf(shop)
  const weigh = (mass: number, vessel: typeof vessels.weighing, alkali = false): DrawPlan =>
    chooseScale(
      {
        mass,
        container: {
          name: vessel.key,
          emptyMass: vessel['empty-mass'],
          workingMass: vessel.volume * LIGHTEST,
        },
        alkali,
      },
      scales,
    ).chosen
  const fats = formula.fats.map(({ key, name, share }) => ({
    key,
    name,
    share,
    plan: weigh(share * LOAF, vessels.weighing),
  }))
  const alkalis = formula.alkalis.map(({ kind, name, weighed }) => ({
    kind,
    name,
    plan: weigh(weighed * LOAF, vessels.alkali, true),
  }))
  const additions = formula.additions.map(({ key, name, mass, acid, colour }) => ({
    key,
    name,
    strength: acid?.strength,
    acid: acid?.acid,
    colour,
    plan: weigh(mass * LOAF, vessels.weighing),
  }))
  const water = weigh(formula.water * LOAF, vessels.weighing)
  const lye = planLye({
    alkalis: alkalis.map(({ kind, plan }, index) => ({
      kind,
      weighed: plan.sum,
      pure: plan.sum * (formula.alkalis[index]?.purity.nominal ?? 1),
      division: plan.scale.division,
    })),
    water: water.sum,
    ice: 0,
    ...acidsInPail(weighedAcids(additions)),
    waterTemperature: Math.max(FREEZING, shop.room['usual-temperature']),
    roomTemperature: shop.room['usual-temperature'],
    coolTo: recipe['pour-temperature'],
    hottest: hottestLye(shop, vessels.lye),
    nextPortionBelow: shop.limits['next-portion-below'],
  })
  // nameless, as where a batch is weighed: its words are the catalogue's
  const ofWater = { key: 'water', name: '', plan: water }
  const drawn = [...fats, ...alkalis.map((one) => ({ ...one, key: one.kind })), ...additions, ofWater]
  const batter = formula.parts.reduce((sum, part) => sum + part.massPerOil / part.density, 0) * LOAF
  const room = shop.room['usual-temperature']
  // A loaf is made by the rules of the batch: small is not harmless.
  const uses = checkVessels(vessels, {
    lye: { volume: lye.volume, peak: lye.peak, shopLimit: shop.limits['hottest-lye'] },
    mixing: { volume: batter, peak: recipe['pour-temperature'], melting: recipe['pour-temperature'] },
    pouring: { volume: 0, peak: recipe['pour-temperature'] },
    weighing: { volume: 0, peak: room },
    alkali: { volume: 0, peak: room },
  })
  const superfat = superfatOf(shop, formula, { fats, alkalis, additions }, lye)
  return {
    recipeKey,
    recipeTitle: recipe.title,
    formula,
    fats,
    alkalis,
    additions,
    water,
    lye,
    pourTemperature: recipe['pour-temperature'],
    findings: [
      ...formula.findings,
      ...drawn.flatMap(({ key, name, plan }) =>
        plan.findings.map((finding) => ({ ...finding, values: { ...finding.values, key, what: name } })),
      ),
      ...lye.findings,
      ...superfat.findings,
      ...uses.flatMap((use) => use.findings),
    ],
  }
}

/** Recipes of planned batches that have no trial of their own or of a scent in them, each once. */
export const untriedRecipes = (
  batches: readonly { readonly recipeKey: string; readonly findings: readonly Finding[] }[],
): string[] => [
  ...new Set(
    batches
      .filter(({ findings }) =>
        findings.some(({ code }) => code === 'recipe-untried' || code === 'fragrance-untried'),
      )
      .map(({ recipeKey }) => recipeKey),
  ),
]
