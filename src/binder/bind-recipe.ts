/** One recipe to everything that its own sheet says: for the desk, for no batch in particular, without weights. */
import { chooseScale } from '../batch/draws.ts'
import { MOLAR_MASS } from '../chemistry/atomic-weights.ts'
import type { BlendMakeUp, Estimate } from '../chemistry/blend-make-up.ts'
import { meanFattyAcidMolarMass, middleComposition } from '../chemistry/composition.ts'
import { type ReactionProducts, reactionProducts } from '../chemistry/mass-balance.ts'
import { checkSolubility } from '../chemistry/solubility.ts'
import { SOFT_LIMIT, type SuperfatMargin } from '../chemistry/superfat-interval.ts'
import type { Finding } from '../findings.ts'
import type { Range } from '../numerics/spread.ts'
import type { Content } from '../schema/content.ts'
import type { FragranceEntry } from '../schema/materials.ts'
import type { Placed } from '../schema/placed.ts'
import type { RecipeFile } from '../schema/recipe.ts'
import { fattyAcidRanges } from './fat-figures.ts'
import { type Formula, type FormulaFat, formulaOf } from './formula.ts'
import { knownMakeUp } from './known-make-up.ts'
import { knownMargin } from './known-margin.ts'
import { cureLossOf } from './scents.ts'
import {
  BEADS_DENSITY,
  containerFor,
  pickVessels,
  scaleErrorsOf,
  scalesOf,
  uncertainAcid,
} from './shop-tools.ts'

export interface RecipeFat extends FormulaFat {
  /** sodium hydroxide that it could take up [kg per kg of all fats] */
  readonly demand: number
}

export interface BoundRecipe {
  readonly key: string
  readonly title: string
  readonly recipe: RecipeFile
  readonly formula: Formula
  readonly fats: readonly RecipeFat[]
  readonly alkalis: Formula['alkalis']
  /** sodium hydroxide that all fats could take up [kg per kg] */
  readonly demand: number
  readonly makeUp: BlendMakeUp
  /** fats whose acids nobody has published */
  readonly uncovered: readonly RecipeFat[]
  /** share of all fats that never turns to soap [–], and the fats of which it is not known */
  readonly unsaponifiable: Estimate & { readonly unknown: readonly RecipeFat[] }
  /** of fats that are known to be solid in a warm room */
  readonly solid: readonly RecipeFat[]
  /** most that stays clear in this shop's room, and its temperature [–, K] */
  readonly solubility: { readonly limit: number; readonly temperature: number }
  /** of the hydroxide, by number of molecules [–] */
  readonly potassiumShare: number
  /** alkali as weighed that added acids take, of all alkalis together [kg per kg of fats] */
  readonly alkaliForAcids: number
  /** scents by their key */
  readonly fragrances: ReadonlyMap<string, FragranceEntry>
  /** of the batter, until bars are sold [–] */
  readonly cureLoss: number
  /** for BATCH_SIZE of fats on the shop's scales */
  readonly superfat: SuperfatMargin
  /** least superfat that the shop allows [–] */
  readonly floor: number
  /** above this a bar is said to turn soft and rancid early [–] */
  readonly softLimit: number
  /** fats that the superfat was worked out for [kg] */
  readonly batchSize: number
  /** for each kilogram of fats */
  readonly products: ReactionProducts
  readonly stops: readonly Finding[]
}

/** Fats of a batch to judge the recipe by [kg]: about a hundred bars, so that the scales count as they will. */
const BATCH_SIZE = 10
/** For a shop without a weighing vessel: a light pail [kg, m3] (estimate). */
const PAIL = { key: 'pail', 'empty-mass': 0.3, volume: 0.005 }
/** K; a warm room. What is solid here has to be melted. */
const WARM_ROOM = 298.15

export const bindRecipe = (content: Content, file: Placed<RecipeFile>): BoundRecipe => {
  const recipe = file.value
  const formula = formulaOf(content, recipe)
  const fats = formula.fats.map(
    (fat): RecipeFat => ({
      ...fat,
      demand: (fat.share * fat.value.nominal * MOLAR_MASS.NaOH) / MOLAR_MASS.KOH,
    }),
  )
  const makeUp = knownMakeUp(
    fats.map(({ share, entry, value }) => ({
      kind: entry.kind,
      mass: share,
      saponificationValue: value.nominal,
      acids: fattyAcidRanges(entry),
      iodineValue: rangeOf(entry['iodine-value'], 100),
    })),
  )
  const superfat = marginOf(content, formula)
  const room = content.shop.value.room['usual-temperature']
  const moles = formula.alkalis.map(({ kind, pure }) => ({ kind, moles: pure / MOLAR_MASS[kind] }))
  const hydroxide = moles.reduce((sum, one) => sum + one.moles, 0)
  const potassium = moles.reduce((sum, one) => sum + (one.kind === 'KOH' ? one.moles : 0), 0)
  // Acids take every alkali in the share that it has of the hydroxide.
  const weighed = formula.alkalis.reduce((sum, one) => sum + one.weighed, 0)
  const acids = hydroxide > 0 ? (formula.hydroxideForAcids / hydroxide) * weighed : 0
  return {
    key: file.key,
    title: recipe.title,
    recipe,
    formula,
    fats,
    alkalis: formula.alkalis,
    demand: fats.reduce((sum, { demand }) => sum + demand, 0),
    makeUp,
    uncovered: fats.filter(({ entry }) => fattyAcidRanges(entry) === undefined),
    unsaponifiable: unsaponifiableOf(fats),
    solid: fats.filter(({ entry }) => entry.density.state === 'solid' && entry.density.at <= WARM_ROOM),
    solubility: { limit: checkSolubility(formula.composition, room).limit, temperature: room },
    potassiumShare: hydroxide > 0 ? potassium / hydroxide : 0,
    alkaliForAcids: acids,
    fragrances: new Map([...content.fragrances].map(([key, { value }]) => [key, value])),
    cureLoss: cureLossOf(content),
    superfat,
    floor: content.shop.value.limits['least-superfat'],
    softLimit: SOFT_LIMIT,
    batchSize: BATCH_SIZE,
    products: productsOf(formula),
    stops: [...formula.findings, ...superfat.findings].filter(({ severity }) => severity === 'stop'),
  }
}

/** A standard that gives only an upper limit leaves all below it open; one that gives only a lower one says too little. */
const rangeOf = (
  published: { readonly from?: number | undefined; readonly to?: number | undefined } | undefined,
  per: number,
): Range | undefined =>
  published?.to === undefined ? undefined : { low: (published.from ?? 0) / per, high: published.to / per }

const unsaponifiableOf = (fats: readonly RecipeFat[]): BoundRecipe['unsaponifiable'] => {
  const known = fats.map((fat) => ({ fat, range: rangeOf(fat.entry.unsaponifiable, 1000) }))
  const sum = (of: (range: Range) => number): number =>
    known.reduce((total, { fat, range }) => total + (range ? fat.share * of(range) : 0), 0)
  return {
    low: sum(({ low }) => low),
    middle: sum(({ low, high }) => (low + high) / 2),
    high: sum(({ high }) => high),
    unknown: known.filter(({ range }) => range === undefined).map(({ fat }) => fat),
  }
}

const productsOf = (formula: Formula): ReactionProducts => {
  const pure = (kind: 'NaOH' | 'KOH'): number =>
    formula.alkalis.reduce((sum, alkali) => sum + (alkali.kind === kind ? alkali.pure : 0), 0)
  return reactionProducts({
    fats: formula.fats.map(({ share, entry, value }) => {
      const unsaponifiable = rangeOf(entry.unsaponifiable, 1000)
      const acid = rangeOf(entry['acid-value'], 1000)
      const mean = meanFattyAcidMolarMass(middleComposition(fattyAcidRanges(entry) ?? {}))
      return {
        kind: entry.kind,
        mass: share,
        saponificationValue: value.nominal,
        unsaponifiable: unsaponifiable ? (unsaponifiable.low + unsaponifiable.high) / 2 : 0,
        acidValue: acid ? (acid.low + acid.high) / 2 : 0,
        ...(entry.kind === 'wax' && mean > 0 ? { fattyAcidMolarMass: mean } : {}),
      }
    }),
    alkali: { NaOH: pure('NaOH'), KOH: pure('KOH') },
    acids: formula.additions.flatMap(({ acid }) => (acid ? [acid] : [])),
  })
}

/** The superfat of a batch of the usual size, weighed as this shop weighs. */
const marginOf = (content: Content, formula: Formula): SuperfatMargin => {
  const shop = content.shop.value
  const scales = scalesOf(shop)
  const vessels = pickVessels(shop)
  const vessel = 'missing' in vessels ? PAIL : vessels.weighing
  const alkaliVessel = 'missing' in vessels ? PAIL : vessels.alkali
  const weigh = (mass: number, density: number, of: typeof PAIL, alkali = false) => {
    const { chosen } = chooseScale({ mass, container: containerFor(of, density), alkali }, scales)
    return { mass: chosen.sum, weighing: { scale: chosen.scale.name, draws: chosen.draws.length } }
  }
  return knownMargin({
    fats: formula.fats.map(({ key, share, value, density }) => ({
      key,
      saponificationValue: value,
      ...weigh(share * BATCH_SIZE, density, vessel),
    })),
    alkalis: formula.alkalis.map(({ kind, purity, weighed }) => ({
      alkali: kind,
      purity,
      ...weigh(weighed * BATCH_SIZE, BEADS_DENSITY, alkaliVessel, true),
    })),
    acids: formula.additions.flatMap(({ key, mass, density, acid }) => {
      if (!acid) return []
      const { chosen } = chooseScale(
        { mass: mass * BATCH_SIZE, container: containerFor(vessel, density) },
        scales,
      )
      return [uncertainAcid(key, acid, chosen)]
    }),
    scales: scaleErrorsOf(shop),
    floor: shop.limits['least-superfat'],
  })
}
