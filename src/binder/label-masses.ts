/** What went into a batch, as a label counts it: by its names on labels, as weighed. */
import type { AddedAcid, Alkali } from '../chemistry/alkali.ts'
import { meanFattyAcidMolarMass, middleComposition } from '../chemistry/composition.ts'
import { reactionProducts } from '../chemistry/mass-balance.ts'
import type { Finding } from '../findings.ts'
import type { DeclaredFragrance } from '../labelling/allergens.ts'
import type { LabelledAddition, LabelledFat, StatementInput } from '../labelling/ingredient-statement.ts'
import type { Region } from '../labelling/regions.ts'
import type { Content } from '../schema/content.ts'
import type { BoundBatch } from './bind-batch.ts'
import type { DryingBars } from './drying-bars.ts'
import { fattyAcidRanges } from './fat-figures.ts'
import { stockLyeWater } from './weigh-out.ts'

export interface LabelMasses {
  readonly statement: Pick<StatementInput, 'fats' | 'alkali' | 'water' | 'acids' | 'additions'>
  readonly fragrances: readonly DeclaredFragrance[]
  /** all that went in, impurities and all [kg] */
  readonly all: number
  /** what becomes soap; all that is neither water nor scent [kg] */
  readonly soap: number
  readonly dry: number
  readonly findings: readonly Finding[]
}

/** Masses are those that the scales are to show: what was drawn is what is listed. */
export const labelMasses = (content: Content, batch: BoundBatch, region: Region): LabelMasses => {
  const { formula } = batch
  const pure = (kind: Alkali): number =>
    batch.alkalis.reduce((sum, one) => sum + (one.kind === kind ? one.plan.sum * one.purity : 0), 0)
  const fats = batch.fats.map((fat, index): LabelledFat => {
    const { entry, value } = formula.fats[index]!
    const mean = meanFattyAcidMolarMass(middleComposition(fattyAcidRanges(entry) ?? {}))
    return {
      inci: entry.inci.name,
      kind: entry.kind,
      mass: fat.plan.sum,
      saponificationValue: value.nominal,
      unsaponifiable: middleOf(entry.unsaponifiable),
      acidValue: middleOf(entry['acid-value']),
      ...(entry.kind === 'wax' && mean > 0 ? { fattyAcidMolarMass: mean } : {}),
      ...(entry.salts ? { salts: { ...entry.salts, certain: true } } : {}),
    }
  })
  const acids: AddedAcid[] = []
  const additions: LabelledAddition[] = []
  const fragrances: DeclaredFragrance[] = []
  for (const [index, { acid, name, strength, plan }] of batch.additions.entries()) {
    const mass = plan.sum
    if (acid !== undefined) {
      acids.push({ acid, mass, strength: strength ?? 1 })
      continue
    }
    const { material } = formula.additions[index]!
    const scent = content.fragrances.get(material)?.value
    if (scent) {
      additions.push({ name, inci: inRegion(scent.inci, region), kind: 'fragrance', mass })
      fragrances.push({
        name,
        mass,
        composition: scent.declares?.map(({ substance, share, 'added-2023': addedIn2023 = false }) => ({
          name: substance,
          share,
          addedIn2023,
        })),
      })
      continue
    }
    const entry = content.additives.get(material)?.value
    additions.push({
      name,
      inci: inRegion(entry?.inci, region),
      kind: entry?.['label-as'] ?? 'plain',
      mass,
      water: mass * (entry?.water ?? 0),
      nano: entry?.nano ?? false,
    })
  }
  const stockWater = stockLyeWater(batch)
  const poured = batch.water.sum + (batch.later?.sum ?? 0)
  const ice = batch.ice?.sum ?? 0
  const liquid = formula.liquid && content.liquids.get(formula.liquid.key)?.value
  if (liquid)
    additions.push({
      name: liquid.name,
      inci: inRegion(liquid.inci, region),
      kind: 'plain',
      mass: poured,
      water: poured * (liquid.water ?? 1),
    })
  const water = stockWater + ice + (liquid ? 0 : poured)
  const alkali = { NaOH: pure('NaOH'), KOH: pure('KOH') }
  const products = reactionProducts({ fats, alkali, acids })
  const scents = fragrances.reduce((sum, { mass }) => sum + mass, 0)
  const others = additions.reduce((sum, one) => sum + one.mass - (one.water ?? 0), 0) - scents
  return {
    statement: { fats, alkali, water, acids, additions },
    fragrances,
    all:
      fats.reduce((sum, { mass }) => sum + mass, 0) +
      batch.alkalis.reduce((sum, { plan }) => sum + plan.sum, 0) -
      stockWater +
      water +
      [...acids, ...additions].reduce((sum, { mass }) => sum + mass, 0),
    soap: products.soap,
    dry:
      products.soap +
      products.glycerol +
      products.acidSalts +
      products.waxAlcohol +
      products.unsaponifiable +
      products.unreactedFat +
      products.freeAlkali +
      others,
    findings:
      liquid && liquid.water === undefined
        ? [{ code: 'liquid-water-unknown', severity: 'hold', values: { name: liquid.name } }]
        : [],
  }
}

const inRegion = (
  inci: string | { readonly US: string; readonly EU: string } | undefined,
  region: Region,
): string | undefined => (typeof inci === 'object' ? inci[region === 'US' ? 'US' : 'EU'] : inci)

/** Of a published range in thousandths; what gives only an upper limit begins at nothing [–]. */
const middleOf = (
  published: { readonly from?: number | undefined; readonly to?: number | undefined } | undefined,
): number => (published?.to === undefined ? 0 : ((published.from ?? 0) + published.to) / 2000)

/** What is left on a day of all that was cut into bars [–]: weights against the bar as it came from the block. */
export const finishedShare = (
  { weightOn, freeFrom }: DryingBars,
  days: number,
): { readonly low: number; readonly middle: number; readonly high: number } => {
  const { middle: green } = weightOn(freeFrom)
  const { low, middle, high } = weightOn(days)
  return { low: low / green, middle: middle / green, high: Math.min(1, high / green) }
}
