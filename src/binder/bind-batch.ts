/** One batch of the maker's folder to everything that its sheets say: the calculators run in order, findings kept. */
import { chooseScale, type DrawPlan, type Scale } from '../batch/draws.ts'
import { type Fill, type FillSetting, fillHeightForOils, oilsForFillHeight } from '../batch/fill.ts'
import { barsForOilOnHand } from '../batch/oil-on-hand.ts'
import { checkVessel } from '../batch/pots.ts'
import { type PourPlan, pourPlan } from '../batch/pour.ts'
import { type AcceptBand, grossCheck } from '../batch/weighing-checks.ts'
import type { Alkali } from '../chemistry/alkali.ts'
import { type SuperfatMargin, superfatMargin } from '../chemistry/superfat-interval.ts'
import type { Finding } from '../findings.ts'
import type { BatchFile } from '../schema/batch.ts'
import type { Content, Placed } from '../schema/content.ts'
import { type BoundMould, blockCuts, mouldInside } from './bind-mould.ts'
import { sourcesOf } from './fat-figures.ts'
import { type Formula, formulaOf } from './formula.ts'
import { type LyePlan, planLye } from './plan-lye.ts'
import {
  asVessel,
  BEADS_DENSITY,
  checkOf,
  containerFor,
  pickVessels,
  readingsOf,
  scaleErrorsOf,
  scalesOf,
  type Vessels,
} from './shop-tools.ts'

export interface BoundFat {
  readonly key: string
  readonly name: string
  readonly share: number
  /** as calculated [kg] */
  readonly mass: number
  readonly plan: DrawPlan
  /** keys of the sources of what was used */
  readonly sources: readonly string[]
}

export interface BoundAlkali {
  readonly key: string
  readonly name: string
  readonly kind: Alkali
  readonly purity: number
  readonly plan: DrawPlan
}

export interface BoundAddition {
  readonly key: string
  readonly name: string
  readonly role: 'acid' | 'fragrance' | 'other'
  /** of a scent, when its supplier states one [K] */
  readonly flashPoint: number | undefined
  readonly plan: DrawPlan
}

export interface BoundBatch {
  readonly key: string
  readonly file: Placed<BatchFile>
  readonly recipeKey: string
  readonly recipeTitle: string
  readonly date: string
  readonly mould: BoundMould
  readonly fats: readonly BoundFat[]
  readonly fill: Fill
  readonly alkalis: readonly BoundAlkali[]
  readonly additions: readonly BoundAddition[]
  /** name of what the lye is made with, when it is not water */
  readonly liquid: string | undefined
  readonly formula: Formula
  readonly lye: LyePlan
  readonly water: DrawPlan
  readonly ice: DrawPlan | undefined
  /** water that goes in at the first trace */
  readonly later: DrawPlan | undefined
  readonly superfat: SuperfatMargin
  readonly pourTemperature: number
  readonly pour: PourPlan
  readonly vessels: Vessels
  readonly scales: {
    readonly oils: {
      readonly name: string
      readonly check: AcceptBand | undefined
      readonly checkMass: number | undefined
    }
    readonly gross: { readonly name: string; readonly band: AcceptBand } | undefined
  }
  readonly loadedMould: number
  /** highest stand that keeps the mould's rim at or below the elbow; below 0 where even the floor is too high [m] */
  readonly standHeight: number
  readonly tried: boolean
  readonly state: 'go' | 'hold' | 'stop'
  readonly findings: readonly Finding[]
}

/** kg/m3 */
const WATER_DENSITY = 1000
/** m; height of a mixing vessel that the shop has not measured (estimate) */
const POT_HEIGHT = 0.3

/** @returns the batch, or the roles of vessels that the shop lacks */
export const bindBatch = (
  content: Content,
  file: Placed<BatchFile>,
  mould: BoundMould,
): { readonly batch: BoundBatch } | { readonly missingVessels: readonly string[] } => {
  const shop = content.shop.value
  const recipe = content.recipes.get(file.value.recipe)
  if (!recipe) throw new Error('The batch names a recipe that was not looked up.')
  const vessels = pickVessels(shop)
  if ('missing' in vessels) return { missingVessels: vessels.missing }

  const findings: Finding[] = [...mould.mould.findings]
  const pourTemperature = recipe.value['pour-temperature']
  const formula = formulaOf(content, recipe.value)
  const setting = { parts: formula.parts, mould: mouldInside(mould), cuts: blockCuts(mould) }
  const fill = fillOf(setting, file.value)
  findings.push(...formula.findings, ...fill.findings)

  const scales = scalesOf(shop)
  const weighing = (density: number) => containerFor(vessels.weighing, density)
  const fats = formula.fats.map((fat): BoundFat => {
    const mass = fat.share * fill.oilMass
    const { chosen } = chooseScale({ mass, container: weighing(fat.density) }, scales)
    findings.push(...of(fat, chosen.findings))
    return {
      key: fat.key,
      name: fat.name,
      share: fat.share,
      mass,
      plan: chosen,
      sources: sourcesOf(fat.entry),
    }
  })
  const alkalis = formula.alkalis.map((alkali): BoundAlkali => {
    const { chosen } = chooseScale(
      {
        mass: alkali.weighed * fill.oilMass,
        container: containerFor(vessels.alkali, BEADS_DENSITY),
        alkali: true,
      },
      scales,
    )
    findings.push(...of(alkali, chosen.findings))
    return {
      key: alkali.key,
      name: alkali.name,
      kind: alkali.kind,
      purity: alkali.purity.nominal,
      plan: chosen,
    }
  })
  const additions = formula.additions.map((addition): BoundAddition => {
    const { chosen } = chooseScale(
      { mass: addition.mass * fill.oilMass, container: weighing(addition.density) },
      scales,
    )
    findings.push(...of(addition, chosen.findings))
    return {
      key: addition.key,
      name: addition.name,
      role: addition.role,
      flashPoint: content.fragrances.get(addition.key)?.value['flash-point'],
      plan: chosen,
    }
  })

  // Rounding of the alkali is taken up by nothing: the water stays what the strength asks for.
  const waterMass = formula.water * fill.oilMass
  // What is kept back makes the lye stronger and hotter until it goes in: the lye is planned without it.
  const laterShare = recipe.value['later-liquid'] ?? 0
  const later =
    laterShare > 0
      ? chooseScale({ mass: waterMass * laterShare, container: weighing(WATER_DENSITY) }, scales).chosen
      : undefined
  const lyeWaterMass = waterMass * (1 - laterShare)
  const iceShare = file.value.lye?.ice ?? 0
  const water = chooseScale(
    { mass: lyeWaterMass * (1 - iceShare), container: weighing(WATER_DENSITY) },
    scales,
  ).chosen
  const ice =
    iceShare > 0
      ? chooseScale({ mass: lyeWaterMass * iceShare, container: weighing(WATER_DENSITY / 2) }, scales).chosen
      : undefined
  // Water has no name of the maker's: the sheet says it.
  for (const plan of [water, ...(ice ? [ice] : []), ...(later ? [later] : [])])
    findings.push(...of({ key: 'water', name: '' }, plan.findings))

  const lye = planLye({
    alkalis: alkalis.map(({ kind, purity, plan }) => ({
      kind,
      weighed: plan.sum,
      pure: plan.sum * purity,
      division: plan.scale.division,
    })),
    water: water.sum,
    ice: ice?.sum ?? 0,
    waterTemperature: file.value.lye?.['water-temperature'] ?? shop.room['usual-temperature'],
    roomTemperature: shop.room['usual-temperature'],
    coolTo: pourTemperature,
    hottest: Math.min(shop.limits['hottest-lye'], vessels.lye.rated),
    nextPortionBelow: shop.limits['next-portion-below'],
    readings: readingsOf(vessels.lye),
  })
  findings.push(...lye.findings)

  const superfat = superfatMargin({
    fats: formula.fats.map(({ key, value }, index) => {
      const plan = fats[index]?.plan as DrawPlan
      return {
        key,
        mass: plan.sum,
        saponificationValue: value,
        weighing: { scale: plan.scale.name, draws: plan.draws.length },
      }
    }),
    alkalis: formula.alkalis.map(({ kind, purity }, index) => {
      const plan = alkalis[index]?.plan as DrawPlan
      return {
        alkali: kind,
        mass: plan.sum,
        purity,
        // it is weighed in the portions that go in, not in the fewest draws that the scale could take
        weighing: { scale: plan.scale.name, draws: Math.max(plan.draws.length, lye.portions.length) },
      }
    }),
    hydroxideForAcids: formula.hydroxideForAcids * fill.oilMass,
    scales: scaleErrorsOf(shop),
    floor: shop.limits['least-superfat'],
  })
  findings.push(...superfat.findings)

  findings.push(
    ...checkVessel({
      vessel: asVessel(vessels.lye),
      duty: 'lye',
      contents: lye.volume,
      peakTemperature: lye.peak,
      shopLimit: shop.limits['hottest-lye'],
      ...(vessels.lye.tray === undefined ? {} : { trayVolume: vessels.lye.tray }),
    }).findings,
    ...checkVessel({
      vessel: asVessel(vessels.mixing),
      duty: 'batter',
      contents: fill.batterVolume,
      peakTemperature: pourTemperature,
    }).findings,
    ...checkVessel({
      vessel: asVessel(vessels.pouring),
      duty: 'jug',
      contents: 0,
      peakTemperature: pourTemperature,
    }).findings,
  )
  const pour = pourPlan({
    standHeight: 0,
    rimAboveStand: mould.mould.rimAboveBench,
    elbowHeight: shop.people['elbow-height'],
    shoulderHeight: shop.people['shoulder-height'],
    potMass: vessels.mixing['empty-mass'],
    batterMass: fill.batterMass,
    batterDensity: fill.batterDensity,
    potHeight: vessels.mixing.height ?? POT_HEIGHT,
    potStandHeight: 0.5,
    people: 2,
    potHasValve: vessels.mixing.valve ?? false,
    shopLimit: shop.limits['hot-lift'],
  })
  findings.push(...pour.findings)

  const oilScale = fats[0]?.plan.scale as Scale
  const grossScale = scales.find(
    (scale) => scale.capacity >= (vessels.mixing['empty-mass'] + fill.oilMass) * 1.02,
  )
  const check = checkOf(shop, oilScale, fats)
  const gross =
    grossScale &&
    grossCheck({
      potMass: vessels.mixing['empty-mass'],
      contents: fats.map((fat) => ({ name: fat.name, plan: fat.plan })),
      scale: grossScale,
    })
  findings.push(...(check?.findings ?? []), ...(gross?.findings ?? []))
  return {
    batch: {
      key: file.key,
      file,
      recipeKey: file.value.recipe,
      recipeTitle: recipe.value.title,
      date: file.value.date,
      mould,
      fats,
      fill,
      alkalis,
      additions,
      liquid: formula.liquid?.name,
      formula,
      lye,
      water,
      ice,
      later,
      superfat,
      pourTemperature,
      pour,
      vessels,
      scales: {
        oils: {
          name: oilScale.name,
          checkMass: shop.scales[oilScale.name]?.['check-mass'],
          check,
        },
        gross: grossScale && gross ? { name: grossScale.name, band: gross } : undefined,
      },
      loadedMould: mould.mould.mass + fill.pouredMass,
      standHeight: shop.people['elbow-height'] - mould.mould.rimAboveBench,
      tried: formula.tried,
      state: stateOf(findings),
      findings,
    },
  }
}

/** What a weighing was found to be, with the thing that is weighed: several may have the same trouble. */
const of = (
  { key, name }: { readonly key: string; readonly name: string },
  found: readonly Finding[],
): Finding[] => found.map((finding) => ({ ...finding, values: { ...finding.values, key, what: name } }))

/** Which of the three directions the batch asks for: full height, so much oil, or what is there of a fat. */
const fillOf = (setting: FillSetting, batch: BatchFile): Fill => {
  if (batch.oils !== undefined) return fillHeightForOils(setting, batch.oils)
  const onHand = batch['on-hand']
  if (!onHand) return oilsForFillHeight(setting)
  const bars = barsForOilOnHand(
    setting,
    Object.entries(onHand).map(([name, mass]) => ({ name, mass })),
  )
  // Not one slice: nothing is weighed, and the page says why.
  return bars.fill ?? { ...oilsForFillHeight(setting), findings: bars.findings }
}

const stateOf = (findings: readonly Finding[]): 'go' | 'hold' | 'stop' => {
  if (findings.some(({ severity }) => severity === 'stop')) return 'stop'
  return findings.some(({ severity }) => severity === 'hold') ? 'hold' : 'go'
}
