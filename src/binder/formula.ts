/** A recipe for each kilogram of its fats: everything about a batch is a multiple of this. */
import type { BatterPart } from '../batch/batter.ts'
import {
  type AddedAcid,
  type Alkali,
  type AlkaliNeed,
  alkaliFor,
  hydroxideOfAcid,
  type Purity,
  waterWithAcid,
} from '../chemistry/alkali.ts'
import { dryPurity, stockStrength } from '../chemistry/purity.ts'
import type { SaponificationValue } from '../chemistry/saponification-value.ts'
import { type LyeStrength, lyeComposition, lyeWater, stockLye } from '../chemistry/solution.ts'
import { type LyeComposition, lyeDensity } from '../chemistry/solution-density.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import type { FatEntry } from '../schema/fats.ts'
import type { AdditiveEntry, CertificateEntry } from '../schema/materials.ts'
import type { RecipeFile } from '../schema/recipe.ts'
import { fatOfLot, pourDensity, usedSaponificationValue } from './fat-figures.ts'
import { scentFindings, scentShares } from './scents.ts'

export interface FormulaFat {
  readonly key: string
  readonly name: string
  readonly share: number
  /** as published, or as the certificate of the lot says */
  readonly entry: FatEntry
  readonly certificate: CertificateEntry | undefined
  readonly value: SaponificationValue
  /** melted, at the pouring temperature [kg/m3] */
  readonly density: number
}

export interface FormulaAlkali {
  readonly key: string
  readonly name: string
  readonly kind: Alkali
  /** share of pure alkali in what is weighed: of dry alkali its purity, of a stock lye its strength */
  readonly purity: Purity
  /** as weighed, and what of it is pure [kg per kg of fats] */
  readonly weighed: number
  readonly pure: number
  /** a ready solution in place of dry alkali */
  readonly stock: boolean
}

export interface FormulaAddition {
  readonly key: string
  /** the maker's key of what it is: the same material may colour two parts */
  readonly material: string
  readonly name: string
  readonly role: 'acid' | 'fragrance' | 'other'
  /** [kg per kg of fats] */
  readonly mass: number
  readonly density: number
  readonly acid?: AddedAcid
  /** water that it brings [kg per kg of fats] */
  readonly water: number
  /** the part of the batter that it colours, by the maker's key */
  readonly colour?: string
}

export interface FormulaColour {
  readonly key: string
  /** of the batter [–] */
  readonly share: number
}

/** The three ways of saying how strong a lye is, all of them [–]. */
export interface StrengthInWords {
  /** the way in which the recipe says it */
  readonly asked: LyeStrength['by']
  readonly concentration: number
  readonly waterToLye: number
  readonly waterShareOfOils: number
}

export interface Formula {
  readonly fats: readonly FormulaFat[]
  readonly alkalis: readonly FormulaAlkali[]
  readonly additions: readonly FormulaAddition[]
  readonly colours: readonly FormulaColour[]
  /** water or other lye liquid to weigh: what acids and a stock lye bring is taken off [kg per kg of fats] */
  readonly water: number
  /** all the water that the lye is to have, whatever brings it [kg per kg of fats] */
  readonly waterInAll: number
  /** water that acids bring into the lye [kg per kg of fats] */
  readonly waterWithAcids: number
  /** of each scent, its share in the bar as it is sold, in the part of the batter that has most of it [–] */
  readonly scents: readonly { readonly key: string; readonly name: string; readonly share: number }[]
  readonly strength: StrengthInWords
  /** named when the lye is not made with water */
  readonly liquid: { readonly key: string; readonly name: string } | undefined
  /** alkali as weighed in all of the lye [–] */
  readonly concentration: number
  readonly composition: LyeComposition
  /** that added acids take [mol per kg of fats] */
  readonly hydroxideForAcids: number
  readonly parts: readonly BatterPart[]
  readonly tried: boolean
  readonly findings: readonly Finding[]
}

/** kg/m3; additions of unknown density count as water: they are a few percent at most (estimate) */
const UNKNOWN_DENSITY = 1000

/**
 * @param stock key of a stock lye to make it with, in place of the dry alkali
 * @throws Error when the recipe names what content lacks: a bug, since load.ts has looked it up
 */
export const formulaOf = (content: Content, recipe: RecipeFile, stock?: string): Formula => {
  const temperature = recipe['pour-temperature']
  const fats = Object.entries(recipe.fats).map(([key, share]): FormulaFat => {
    const certificate = content.certificates.get(key)?.value
    const entry = fatOfLot(must(content.fats.get(key)?.value, key), certificate)
    return {
      key,
      name: entry.names[0] ?? key,
      share,
      entry,
      certificate,
      value: usedSaponificationValue(entry, certificate),
      density: pourDensity(entry, temperature),
    }
  })
  const colours = Object.entries(recipe.colours ?? {}).map(
    ([key, { share }]): FormulaColour => ({ key, share }),
  )
  const additions = [
    ...Object.entries(recipe.additions ?? {}).map(([key, share]) => addition(content, key, share)),
    ...Object.entries(recipe.colours ?? {}).flatMap(([colour, part]) =>
      Object.entries(part.with ?? {}).map(
        ([key, share]): FormulaAddition => ({
          ...addition(content, key, share * part.share),
          key: `${colour}.${key}`,
          colour,
        }),
      ),
    ),
  ]
  const shares: readonly (readonly [string, number])[] = recipe.alkalis
    ? Object.entries(recipe.alkalis)
    : [[recipe.alkali ?? '', 1]]
  const chosen = shares.map(([key, share]) => ({
    key,
    share,
    entry: must(content.alkalis.get(key)?.value, key),
  }))
  const known = chosen.map(({ entry }) => {
    const range = entry['purity-range']
    return {
      kind: entry.kind,
      ...dryPurity({
        name: entry.name,
        kind: entry.kind,
        purity: entry.purity,
        range: range && { low: range.from, high: range.to },
        damp: entry.damp,
      }),
    }
  })
  const purityOf = (kind: Alkali): Purity => {
    const { nominal, low, high } = known.find((one) => one.kind === kind) ?? { nominal: 1, low: 1, high: 1 }
    return { nominal, low, high }
  }
  const acids = additions.flatMap(({ acid }) => (acid ? [acid] : []))
  const purity = { NaOH: purityOf('NaOH'), KOH: purityOf('KOH') }
  const need = alkaliFor({
    fats: fats.map(({ share, value }) => ({ mass: share, saponificationValue: value.nominal })),
    superfat: recipe.superfat,
    potassiumShare: chosen.reduce((sum, { share, entry }) => sum + (entry.kind === 'KOH' ? share : 0), 0),
    purity,
    acids,
  })
  const dry = need.alkalis.map((portion): FormulaAlkali => {
    const one = must(
      chosen.find(({ entry }) => entry.kind === portion.alkali),
      portion.alkali,
    )
    return {
      key: one.key,
      name: one.entry.name,
      kind: portion.alkali,
      purity: purity[portion.alkali],
      weighed: portion.weighedMass,
      pure: portion.pureMass,
      stock: false,
    }
  })
  const weighed = dry.reduce((sum, alkali) => sum + alkali.weighed, 0)
  const asked = strengthOf(recipe)
  const lye = lyeWater(weighed, 1, asked)
  const { waterWithAcids } = need
  const ready = stock === undefined ? undefined : fromStock(content, stock, need, lye.water - waterWithAcids)
  const water = ready?.water ?? Math.max(0, lye.water - waterWithAcids)
  const alkalis = ready?.alkalis ?? dry
  const composition = lyeComposition(need.alkalis, lye.water)
  const lyeMass = alkalis.reduce((sum, alkali) => sum + alkali.weighed, 0) + water
  const liquid = recipe['lye-liquid'] ? content.liquids.get(recipe['lye-liquid'])?.value : undefined
  const parts: BatterPart[] = [
    ...fats.map(
      ({ key, share, density }): BatterPart => ({ name: key, kind: 'fat', massPerOil: share, density }),
    ),
    { name: 'lye', kind: 'lye', massPerOil: lyeMass, density: lyeDensity(composition, temperature) },
    ...additions.map(
      ({ key, mass, density }): BatterPart => ({ name: key, kind: 'additive', massPerOil: mass, density }),
    ),
  ]
  const scents = scentShares(content, additions, colours, parts)
  return {
    fats,
    alkalis,
    additions,
    colours,
    water,
    waterInAll: lye.water,
    waterWithAcids,
    scents,
    strength: {
      asked: asked.by,
      concentration: lye.concentration,
      waterToLye: lye.waterToLye,
      waterShareOfOils: lye.waterShareOfOils,
    },
    liquid: liquid && recipe['lye-liquid'] ? { key: recipe['lye-liquid'], name: liquid.name } : undefined,
    concentration: lye.concentration,
    composition,
    hydroxideForAcids: acids.reduce((sum, acid) => sum + hydroxideOfAcid(acid), 0),
    parts,
    tried: recipe.tried !== undefined,
    findings: [
      ...fats.flatMap(({ value }) => value.findings),
      ...need.findings,
      // Of a stock lye its own strength counts, not the purity of what it was made of.
      ...(ready ? ready.findings : known.flatMap(({ findings }) => findings)),
      ...(lye.water < waterWithAcids ? [noWaterLeft] : []),
      ...scentFindings(content, scents),
      ...(liquid
        ? [{ code: 'lye-liquid-not-water', severity: 'hold', values: { liquid: liquid.name } } as const]
        : []),
      ...(recipe.tried ? [] : [{ code: 'recipe-untried', severity: 'hold', values: {} } as const]),
    ],
  }
}

const noWaterLeft: Finding = { code: 'no-water-left-for-lye', severity: 'stop', values: {} }

interface ReadyLye {
  readonly alkalis: readonly FormulaAlkali[]
  readonly water: number
  readonly findings: readonly Finding[]
}

/** What a stock lye gives in place of dry alkali; a stop where it is of another alkali than the recipe. */
const fromStock = (content: Content, key: string, need: AlkaliNeed, water: number): ReadyLye => {
  const entry = must(content.stockLyes.get(key)?.value, key)
  const pure = need.alkalis.reduce((sum, { pureMass }) => sum + pureMass, 0)
  const range = entry['strength-range']
  const { nominal, low, high, findings } = stockStrength({
    name: entry.name,
    strength: entry.strength,
    range: range && { low: range.from, high: range.to },
  })
  const use = stockLye({ alkali: pure, water: Math.max(0, water), stockConcentration: entry.strength })
  const fits = need.alkalis.every(({ alkali }) => alkali === entry.kind)
  return {
    alkalis: [
      {
        key,
        name: entry.name,
        kind: entry.kind,
        purity: { nominal, low, high },
        weighed: use.stock,
        pure,
        stock: true,
      },
    ],
    water: use.makeUpWater,
    findings: [
      ...findings,
      ...use.findings,
      ...(fits
        ? []
        : [{ code: 'stock-of-another-alkali', severity: 'stop', values: { name: entry.name } } as const]),
    ],
  }
}

const strengthOf = (recipe: RecipeFile): LyeStrength => {
  if (recipe['lye-concentration'] !== undefined)
    return { by: 'concentration', value: recipe['lye-concentration'] }
  if (recipe['water-to-lye'] !== undefined) return { by: 'water-to-lye', value: recipe['water-to-lye'] }
  return { by: 'water-share-of-oils', value: recipe['water-share-of-fats'] ?? 0 }
}

const addition = (content: Content, key: string, share: number): FormulaAddition => {
  const fragrance = content.fragrances.get(key)?.value
  if (fragrance)
    return {
      key,
      material: key,
      name: fragrance.name,
      role: 'fragrance',
      mass: share,
      density: fragrance.density ?? UNKNOWN_DENSITY,
      water: 0,
    }
  const entry = must(content.additives.get(key)?.value, key)
  const base = {
    key,
    material: key,
    name: entry.name,
    mass: share,
    density: entry.density ?? UNKNOWN_DENSITY,
    water: 0,
  }
  const acid = acidOf(entry, share)
  return acid === undefined
    ? { ...base, role: 'other' }
    : { ...base, role: 'acid', acid, water: waterWithAcid(acid) }
}

const acidOf = (entry: AdditiveEntry, mass: number): AddedAcid | undefined =>
  entry.acid === undefined ? undefined : { acid: entry.acid, mass, strength: entry.strength ?? 1 }

const must = <T>(found: T | undefined, key: string): T => {
  if (found === undefined) throw new Error(`Nothing is named "${key}".`)
  return found
}
