/** A recipe for each kilogram of its fats: everything about a batch is a multiple of this. */
import type { BatterPart } from '../batch/batter.ts'
import { type AddedAcid, type Alkali, alkaliFor, hydroxideOfAcid, type Purity } from '../chemistry/alkali.ts'
import type { SaponificationValue } from '../chemistry/saponification-value.ts'
import { type LyeStrength, lyeComposition, lyeWater } from '../chemistry/solution.ts'
import { type LyeComposition, lyeDensity } from '../chemistry/solution-density.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import type { FatEntry } from '../schema/fats.ts'
import type { RecipeFile } from '../schema/recipe.ts'
import { pourDensity, usedSaponificationValue } from './fat-figures.ts'

export interface FormulaFat {
  readonly key: string
  readonly name: string
  readonly share: number
  readonly entry: FatEntry
  readonly value: SaponificationValue
  /** melted, at the pouring temperature [kg/m3] */
  readonly density: number
}

export interface FormulaAlkali {
  readonly key: string
  readonly name: string
  readonly kind: Alkali
  readonly purity: Purity
  /** as weighed, and what of it is pure [kg per kg of fats] */
  readonly weighed: number
  readonly pure: number
}

export interface FormulaAddition {
  readonly key: string
  readonly name: string
  readonly role: 'acid' | 'fragrance' | 'other'
  /** [kg per kg of fats] */
  readonly mass: number
  readonly density: number
  readonly acid?: AddedAcid
}

export interface Formula {
  readonly fats: readonly FormulaFat[]
  readonly alkalis: readonly FormulaAlkali[]
  readonly additions: readonly FormulaAddition[]
  /** water or other lye liquid [kg per kg of fats] */
  readonly water: number
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

/** Water that a bar has lost when it is sold, as a share of its batter; until bars are weighed (estimate: 10 %). */
const CURE_LOSS = 0.1

/** @throws Error when the recipe names what content lacks: a bug, since load.ts has looked it up */
export const formulaOf = (content: Content, recipe: RecipeFile): Formula => {
  const temperature = recipe['pour-temperature']
  const fats = Object.entries(recipe.fats).map(([key, share]): FormulaFat => {
    const entry = must(content.fats.get(key)?.value, key)
    return {
      key,
      name: entry.names[0] ?? key,
      share,
      entry,
      value: usedSaponificationValue(entry, content.certificates.get(key)?.value),
      density: pourDensity(entry, temperature),
    }
  })
  const additions = Object.entries(recipe.additions ?? {}).map(([key, share]) =>
    addition(content, key, share),
  )
  const shares: readonly (readonly [string, number])[] = recipe.alkalis
    ? Object.entries(recipe.alkalis)
    : [[recipe.alkali ?? '', 1]]
  const chosen = shares.map(([key, share]) => ({
    key,
    share,
    entry: must(content.alkalis.get(key)?.value, key),
  }))
  const purityOf = (kind: Alkali): Purity => {
    const entry = chosen.find((one) => one.entry.kind === kind)?.entry
    if (!entry) return { nominal: 1, low: 1, high: 1 }
    const range = entry['purity-range']
    return { nominal: entry.purity, low: range?.from ?? entry.purity, high: range?.to ?? entry.purity }
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
  const alkalis = need.alkalis.map((portion): FormulaAlkali => {
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
    }
  })
  const weighed = alkalis.reduce((sum, alkali) => sum + alkali.weighed, 0)
  const { water, concentration } = lyeWater(weighed, 1, strengthOf(recipe))
  const composition = lyeComposition(need.alkalis, water)
  const liquid = recipe['lye-liquid'] ? content.liquids.get(recipe['lye-liquid'])?.value : undefined
  const parts: BatterPart[] = [
    ...fats.map(
      ({ key, share, density }): BatterPart => ({ name: key, kind: 'fat', massPerOil: share, density }),
    ),
    { name: 'lye', kind: 'lye', massPerOil: weighed + water, density: lyeDensity(composition, temperature) },
    ...additions.map(
      ({ key, mass, density }): BatterPart => ({ name: key, kind: 'additive', massPerOil: mass, density }),
    ),
  ]
  return {
    fats,
    alkalis,
    additions,
    water,
    liquid: liquid && recipe['lye-liquid'] ? { key: recipe['lye-liquid'], name: liquid.name } : undefined,
    concentration,
    composition,
    hydroxideForAcids: acids.reduce((sum, acid) => sum + hydroxideOfAcid(acid), 0),
    parts,
    tried: recipe.tried !== undefined,
    findings: [
      ...fats.flatMap(({ value }) => value.findings),
      ...need.findings,
      ...additionFindings(content, additions, parts),
      ...(liquid
        ? [{ code: 'lye-liquid-not-water', severity: 'hold', values: { liquid: liquid.name } } as const]
        : []),
      ...(recipe.tried ? [] : [{ code: 'recipe-untried', severity: 'hold', values: {} } as const]),
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
      name: fragrance.name,
      role: 'fragrance',
      mass: share,
      density: fragrance.density ?? UNKNOWN_DENSITY,
    }
  const entry = must(content.additives.get(key)?.value, key)
  const base = { key, name: entry.name, mass: share, density: entry.density ?? UNKNOWN_DENSITY }
  if (entry.acid === undefined) return { ...base, role: 'other' }
  return { ...base, role: 'acid', acid: { acid: entry.acid, mass: share, strength: entry.strength ?? 1 } }
}

/** A supplier's limit counts what is in the bar as it is sold, which has lost water since the pour. */
const additionFindings = (
  content: Content,
  additions: readonly FormulaAddition[],
  parts: readonly BatterPart[],
): Finding[] => {
  const batter = parts.reduce((sum, part) => sum + part.massPerOil, 0)
  return additions.flatMap(({ key, name, mass }): Finding[] => {
    const fragrance = content.fragrances.get(key)?.value
    if (!fragrance) return []
    const share = mass / (batter * (1 - CURE_LOSS))
    return [
      ...(share > fragrance.limit
        ? [
            {
              code: 'fragrance-over-limit',
              severity: 'stop',
              values: { name, share, limit: fragrance.limit },
            } as const,
          ]
        : []),
      ...(fragrance.tried
        ? []
        : [{ code: 'fragrance-untried', severity: 'hold', values: { name } } as const]),
    ]
  })
}

const must = <T>(found: T | undefined, key: string): T => {
  if (found === undefined) throw new Error(`Nothing is named "${key}".`)
  return found
}
