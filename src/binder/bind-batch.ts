/** One batch of the maker's folder to everything that its sheets say: the calculators run in order, findings kept. */
import type { BatterPart } from '../batch/batter.ts'
import { chooseScale, type DrawPlan, type Scale } from '../batch/draws.ts'
import { type Fill, fillHeightForOils, oilsForFillHeight } from '../batch/fill.ts'
import { checkVessel } from '../batch/pots.ts'
import { type PourPlan, pourPlan } from '../batch/pour.ts'
import { type AcceptBand, grossCheck } from '../batch/weighing-checks.ts'
import { alkaliFor } from '../chemistry/alkali.ts'
import { lyeDensity } from '../chemistry/solution-density.ts'
import { type SuperfatMargin, superfatMargin } from '../chemistry/superfat-interval.ts'
import type { Finding } from '../findings.ts'
import type { BatchFile } from '../schema/batch.ts'
import type { Content, Placed } from '../schema/content.ts'
import { type BoundMould, blockCuts, mouldInside } from './bind-mould.ts'
import { pourDensity, sourcesOf, usedSaponificationValue } from './fat-figures.ts'
import { type LyePlan, planLye } from './plan-lye.ts'
import { asVessel, checkOf, pickVessels, scalesOf, type Vessels } from './shop-tools.ts'

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

export interface BoundBatch {
  readonly key: string
  readonly file: Placed<BatchFile>
  readonly recipeKey: string
  readonly recipeTitle: string
  readonly date: string
  readonly mould: BoundMould
  readonly fats: readonly BoundFat[]
  readonly fill: Fill
  readonly alkali: { readonly name: string; readonly purity: number; readonly plan: DrawPlan }
  readonly lye: LyePlan
  readonly water: DrawPlan
  readonly ice: DrawPlan | undefined
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

/** Span error of a shop scale that nobody has stated: 0.1 %, an estimate; it cancels where one scale weighs all. */
const SPAN_ERROR = 0.001
/** Share of a weighing vessel that is filled (common practice: so that it can be carried without spilling). */
const WEIGHING_FULLNESS = 0.8
/** kg/m3; beads lie loose, with about 40 % of air between them (estimate) */
const BEADS_DENSITY = 1250
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
  const alkaliEntry = recipe && content.alkalis.get(recipe.value.alkali)?.value
  if (!recipe || !alkaliEntry) throw new Error('The batch names a recipe or alkali that was not looked up.')
  const vessels = pickVessels(shop)
  if ('missing' in vessels) return { missingVessels: vessels.missing }

  const findings: Finding[] = [...mould.mould.findings]
  const pourTemperature = recipe.value['pour-temperature']
  const concentration = recipe.value['lye-concentration']

  // For each kilogram of oils; everything about a batch is in proportion to them.
  const fatsPerOil = Object.entries(recipe.value.fats).map(([key, share]) => {
    const fat = content.fats.get(key)
    if (!fat) throw new Error(`No fat "${key}".`)
    return {
      key,
      share,
      fat: fat.value,
      value: usedSaponificationValue(fat.value),
      density: pourDensity(fat.value, pourTemperature),
    }
  })
  const purity = {
    nominal: alkaliEntry.purity,
    low: alkaliEntry['purity-range']?.from ?? alkaliEntry.purity,
    high: alkaliEntry['purity-range']?.to ?? alkaliEntry.purity,
  }
  const need = alkaliFor({
    fats: fatsPerOil.map(({ share, value }) => ({ mass: share, saponificationValue: value.nominal })),
    superfat: recipe.value.superfat,
    potassiumShare: 0,
    purity: { NaOH: purity, KOH: purity },
  })
  const alkaliPerOil = need.alkalis[0]
  if (!alkaliPerOil) throw new Error('No alkali came out.')
  // Strength counts the alkali as it is weighed, as the trade does; what reacts is its pure part.
  const lyePerOil = alkaliPerOil.weighedMass / concentration
  const parts: BatterPart[] = [
    ...fatsPerOil.map(
      ({ key, share, density }): BatterPart => ({ name: key, kind: 'fat', massPerOil: share, density }),
    ),
    {
      name: 'lye',
      kind: 'lye',
      massPerOil: lyePerOil,
      density: lyeDensity({ NaOH: concentration * purity.nominal }, pourTemperature),
    },
  ]

  const setting = { parts, mould: mouldInside(mould), cuts: blockCuts(mould) }
  const fill =
    file.value.oils === undefined ? oilsForFillHeight(setting) : fillHeightForOils(setting, file.value.oils)
  findings.push(...fatsPerOil.flatMap(({ value }) => value.findings), ...need.findings, ...fill.findings)

  const scales = scalesOf(shop)
  const weighing = (density: number) => ({
    name: vessels.weighing.key,
    emptyMass: vessels.weighing['empty-mass'],
    workingMass: vessels.weighing.volume * WEIGHING_FULLNESS * density,
  })
  const fats = fatsPerOil.map(({ key, share, fat, density }): BoundFat => {
    const mass = share * fill.oilMass
    const { chosen } = chooseScale({ mass, container: weighing(density) }, scales)
    findings.push(...chosen.findings)
    return { key, name: fat.names[0] ?? key, share, mass, plan: chosen, sources: sourcesOf(fat) }
  })
  const alkaliPlan = chooseScale(
    {
      mass: alkaliPerOil.weighedMass * fill.oilMass,
      container: {
        name: vessels.alkali.key,
        emptyMass: vessels.alkali['empty-mass'],
        workingMass: vessels.alkali.volume * WEIGHING_FULLNESS * BEADS_DENSITY,
      },
      alkali: true,
    },
    scales,
  ).chosen
  findings.push(...alkaliPlan.findings)

  const waterMass = lyePerOil * fill.oilMass - alkaliPlan.sum
  const iceShare = file.value.lye?.ice ?? 0
  const water = chooseScale(
    { mass: waterMass * (1 - iceShare), container: weighing(WATER_DENSITY) },
    scales,
  ).chosen
  const ice =
    iceShare > 0
      ? chooseScale({ mass: waterMass * iceShare, container: weighing(WATER_DENSITY / 2) }, scales).chosen
      : undefined
  findings.push(...water.findings, ...(ice?.findings ?? []))

  const lye = planLye({
    pureAlkali: alkaliPlan.sum * purity.nominal,
    weighedAlkali: alkaliPlan.sum,
    water: water.sum,
    ice: ice?.sum ?? 0,
    waterTemperature: file.value.lye?.['water-temperature'] ?? shop.room['usual-temperature'],
    roomTemperature: shop.room['usual-temperature'],
    coolTo: pourTemperature,
    hottest: Math.min(shop.limits['hottest-lye'], vessels.lye.rated),
    nextPortionBelow: shop.limits['next-portion-below'],
    division: alkaliPlan.scale.division,
  })
  findings.push(...lye.findings)

  const superfat = superfatMargin({
    fats: fatsPerOil.map(({ key, value }, index) => {
      const plan = fats[index]?.plan as DrawPlan
      return {
        key,
        mass: plan.sum,
        saponificationValue: value,
        weighing: { scale: plan.scale.name, draws: plan.draws.length },
      }
    }),
    alkalis: [
      {
        alkali: 'NaOH',
        mass: alkaliPlan.sum,
        purity,
        // it is weighed in the portions that go in, not in the fewest draws that the scale could take
        weighing: {
          scale: alkaliPlan.scale.name,
          draws: Math.max(alkaliPlan.draws.length, lye.portions.length),
        },
      },
    ],
    scales: Object.fromEntries(
      Object.entries(shop.scales).map(([key, scale]) => [
        key,
        {
          division: scale.division,
          repeatability: scale.repeatability ?? scale.division / 2,
          span: scale['span-error'] ?? SPAN_ERROR,
        },
      ]),
    ),
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
  if (!recipe.value.tried) findings.push({ code: 'recipe-untried', severity: 'hold', values: {} })

  const oilScale = fats[0]?.plan.scale as Scale
  const grossScale = scales.find(
    (scale) => scale.capacity >= (vessels.mixing['empty-mass'] + fill.oilMass) * 1.02,
  )
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
      alkali: { name: alkaliEntry.name, purity: alkaliEntry.purity, plan: alkaliPlan },
      lye,
      water,
      ice,
      superfat,
      pourTemperature,
      pour,
      vessels,
      scales: {
        oils: {
          name: oilScale.name,
          checkMass: shop.scales[oilScale.name]?.['check-mass'],
          check: checkOf(shop, oilScale, fats),
        },
        gross:
          grossScale === undefined
            ? undefined
            : {
                name: grossScale.name,
                band: grossCheck({
                  potMass: vessels.mixing['empty-mass'],
                  contents: fats.map((fat) => ({ name: fat.key, plan: fat.plan })),
                  scale: grossScale,
                }),
              },
      },
      loadedMould: mould.mould.mass + fill.pouredMass,
      standHeight: shop.people['elbow-height'] - mould.mould.rimAboveBench,
      tried: recipe.value.tried !== undefined,
      state: stateOf(findings),
      findings,
    },
  }
}

const stateOf = (findings: readonly Finding[]): 'go' | 'hold' | 'stop' => {
  if (findings.some(({ severity }) => severity === 'stop')) return 'stop'
  return findings.some(({ severity }) => severity === 'hold') ? 'hold' : 'go'
}
