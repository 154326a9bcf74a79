/** One batch of the maker's folder to everything that its sheets say: the calculators run in order, findings kept. */
import type { Scale } from '../batch/draws.ts'
import type { Fill } from '../batch/fill.ts'
import type { FillAllowances } from '../batch/fill-allowances.ts'
import type { CoreReading } from '../batch/heat-calibration.ts'
import type { BarsOnHand } from '../batch/oil-on-hand.ts'
import { FULLNESS, potShares } from '../batch/pots.ts'
import { type PourPlan, pourPlan } from '../batch/pour.ts'
import type { TimeBudget } from '../batch/time-budget.ts'
import type { AddedAcid } from '../chemistry/alkali.ts'
import type { Mistake } from '../chemistry/rescue.ts'
import type { SuperfatMargin } from '../chemistry/superfat-interval.ts'
import type { Finding } from '../findings.ts'
import type { BatchFile } from '../schema/batch.ts'
import type { Content } from '../schema/content.ts'
import type { Placed } from '../schema/placed.ts'
import type { ShopFile } from '../schema/shop.ts'
import { type BoundMould, blockCuts, mouldInside } from './bind-mould.ts'
import { checkVessels, type VesselUse, weighingLoads } from './check-vessels.ts'
import { type Formula, formulaOf } from './formula.ts'
import { readingsOf as coreReadingsOf, type HeatLogs } from './heat-logs.ts'
import { type BlockHeatPlan, type blockHeatPlanner, isPlanned } from './plan-block-heat.ts'
import { allowancesOf, fillOf } from './plan-fill.ts'
import { type HeatPlan, planHeat } from './plan-heat.ts'
import { type Load, planLifts } from './plan-lifts.ts'
import { acidsInPail, type LyePlan, type LyeRequest, planLye, weighedAcids } from './plan-lye.ts'
import { mistakesOf } from './plan-rescue.ts'
import { timeOf } from './plan-time.ts'
import {
  lyeCheck,
  oilCheck,
  type PotCheck,
  type ScaleCheck,
  scaleChecksOf,
  waterCheck,
} from './pot-checks.ts'
import { hottestLye, pickVessels, readingsOf, scalesOf, type Vessels } from './shop-tools.ts'
import { suitability } from './suitability.ts'
import { superfatOf } from './superfat-of.ts'
import { type WeighedOut, weighOut } from './weigh-out.ts'

export interface BoundColour {
  readonly key: string
  readonly share: number
  /** of the batter, in each kettle [kg, m3] */
  readonly mass: number
  readonly volume: number
}

export interface BoundBatch extends Omit<WeighedOut, 'findings'> {
  readonly key: string
  readonly file: Placed<BatchFile>
  /** for the places of what a finding is about */
  readonly shopFile: Placed<ShopFile>
  readonly recipeKey: string
  readonly recipeTitle: string
  readonly date: string
  readonly mould: BoundMould
  readonly fill: Fill
  /** what the fill was reckoned with */
  readonly allowances: FillAllowances
  /** which fat the batch was sized by, and what is left of it, when what is on hand was asked for */
  readonly onHand: Pick<BarsOnHand, 'limitingFat' | 'leftOver'> | undefined
  /** mixed and poured one after the other; each takes an equal part of everything */
  readonly kettles: number
  readonly colours: readonly BoundColour[]
  /** name of what the lye is made with, when it is not water */
  readonly liquid: string | undefined
  readonly formula: Formula
  readonly lye: LyePlan
  readonly superfat: SuperfatMargin
  /** what a weighing that went wrong does, and what puts it right before the pour; none of several kettles or a stock lye */
  readonly mistakes: readonly Mistake[]
  readonly pourTemperature: number
  readonly heat: HeatPlan
  /** of the block in its mould; missing where the batch is stopped */
  readonly blockHeat: BlockHeatPlan | undefined
  /** what was read in the core of the block, and whether the recipe's rate is taken from it */
  readonly coreLog: { readonly readings: readonly CoreReading[]; readonly isUsed: boolean } | undefined
  readonly time: TimeBudget | undefined
  /** of the trial, from the lye in the fats; 0 of what was never tried [s] */
  readonly timeToThick: number
  readonly pour: PourPlan
  /** the kettle stands above the rim of the mould and has a valve: nobody ladles */
  readonly byValve: boolean
  readonly loads: readonly Load[]
  readonly vessels: Vessels
  /** each with what it is to hold, in the order of use */
  readonly uses: readonly VesselUse[]
  readonly scales: {
    /** name of the scale that most of the oils are weighed on */
    readonly oils: string
    /** every scale that is used, with what it must show with its check weight on it */
    readonly checks: readonly ScaleCheck[]
    /** one kettle with its oils on a second scale; undefined where the shop has none for it */
    readonly gross: PotCheck | undefined
    /** the pail with all of the lye, the same way */
    readonly lye: PotCheck | undefined
    /** the pail with water and ice, on the scale of the lye, before any alkali */
    readonly water: PotCheck | undefined
  }
  readonly loadedMould: number
  /** highest stand that keeps the mould's rim at or below the elbow; below 0 where even the floor is too high [m] */
  readonly standHeight: number
  readonly tried: boolean
  readonly state: 'go' | 'hold' | 'stop'
  readonly findings: readonly Finding[]
}

/** m; height of a mixing vessel that the shop has not measured (estimate) */
const POT_HEIGHT = 0.3
/** m; what a kettle stands on where the shop does not say (estimate: a low table) */
const POT_STAND = 0.5

/** @returns the batch, all but the heat of its block; or the roles of vessels that the shop lacks */
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

  const pourTemperature = recipe.value['pour-temperature']
  const lyeTemperature = recipe.value['lye-temperature'] ?? pourTemperature
  const room = shop.room['usual-temperature']
  const formula = formulaOf(content, recipe.value, file.value.lye?.stock)
  const allowances = allowancesOf(shop)
  const setting = {
    parts: formula.parts,
    mould: mouldInside(mould),
    cuts: blockCuts(mould),
    allowances,
  }
  const { fill, onHand } = fillOf(setting, file.value)
  const pots = potShares({
    volume: fill.batterVolume,
    workingVolume: vessels.mixing.volume * FULLNESS.batter,
    potsAtHand: vessels.mixing['how-many'] ?? 1,
  })
  const kettles = Math.max(1, pots.pots.length)

  const scales = scalesOf(shop)
  const laterShare = recipe.value['later-liquid'] ?? 0
  const lyeRequest = (
    water: number,
    ice: number,
    alkalis: LyeRequest['alkalis'],
    acids: readonly AddedAcid[],
  ): LyeRequest => ({
    alkalis,
    water,
    ice,
    ...acidsInPail(acids),
    // in a shed below freezing water is still water
    waterTemperature: file.value.lye?.['water-temperature'] ?? Math.max(FREEZING, room),
    roomTemperature: room,
    coolTo: lyeTemperature,
    hottest: hottestLye(shop, vessels.lye),
    nextPortionBelow: shop.limits['next-portion-below'],
    readings: readingsOf(vessels.lye),
  })
  // What is kept back makes the lye stronger and hotter until it goes in: the lye is planned without it.
  const lyeWater = Math.max(0, formula.water - formula.waterInAll * laterShare) * fill.oilMass
  const iceAsked = file.value.lye?.ice ?? 0
  const iceShare =
    iceAsked === 'as needed'
      ? (planLye(
          lyeRequest(
            lyeWater,
            0,
            formula.alkalis.map(({ kind, weighed, pure, stock }) => ({
              kind,
              weighed: weighed * fill.oilMass,
              pure: pure * fill.oilMass,
              division: scales[0].division,
              stock,
            })),
            formula.additions.flatMap(({ acid }) =>
              acid ? [{ ...acid, mass: acid.mass * fill.oilMass }] : [],
            ),
          ),
        ).byWater[0]?.share ?? 0)
      : iceAsked
  const weighed = weighOut({
    content,
    formula,
    vessels,
    scales,
    oilMass: fill.oilMass,
    kettles,
    premix: file.value.premix,
    laterShare,
    iceShare: Math.min(MOST_ICE, iceShare),
  })
  const { alkalis, additions, water, ice, later } = weighed
  const lye = planLye(
    lyeRequest(
      water.sum,
      ice?.sum ?? 0,
      alkalis.map(({ kind, purity, stock, plan }) => ({
        kind,
        weighed: plan.sum,
        pure: plan.sum * purity,
        division: plan.scale.division,
        stock,
      })),
      weighedAcids(additions),
    ),
  )
  const superfat = superfatOf(shop, formula, weighed, lye)
  const laterAdditions = additions.filter(({ role }) => role !== 'acid')
  const heat = planHeat({
    fats: formula.fats.map((fat) => ({ fat, mass: (fat.share * fill.oilMass) / kettles })),
    lye: { mass: lye.mass / kettles, composition: lye.composition, temperature: lyeTemperature },
    later: (later?.sum ?? 0) / kettles,
    additions: laterAdditions.reduce((sum, { plan }) => sum + plan.sum, 0) / kettles,
    pourTemperature,
    room,
    heater: shop.heater,
  })
  const stands = vessels.mixing.stands ?? POT_STAND
  const potHeight = vessels.mixing.height ?? POT_HEIGHT
  const pour = pourPlan({
    standHeight: 0,
    rimAboveStand: mould.mould.rimAboveBench,
    elbowHeight: shop.people['elbow-height'],
    shoulderHeight: shop.people['shoulder-height'],
    potMass: vessels.mixing['empty-mass'],
    batterMass: fill.batterMass / kettles,
    batterDensity: fill.batterDensity,
    potHeight,
    potStandHeight: stands,
    people: 2,
    jugVolume: vessels.pouring.volume * FULLNESS.jug,
    potHasValve: vessels.mixing.valve ?? false,
    shopLimit: shop.limits['hot-lift'],
  })
  const standHeight = shop.people['elbow-height'] - mould.mould.rimAboveBench
  const rim = mould.mould.rimAboveBench + Math.max(0, standHeight)
  const loads = planLifts({
    kettle: {
      mass: vessels.mixing['empty-mass'] + fill.oilMass / kettles,
      height: potHeight,
      stands,
    },
    pail: { mass: vessels.lye['empty-mass'] + lye.mass },
    jug: { mass: vessels.pouring['empty-mass'] + pour.jug.mass },
    rim,
    shopLimit: shop.limits['hot-lift'],
  })
  const time = recipe.value.tried && timeOf(shop, recipe.value.tried, formula, pour)
  const gross = oilCheck(weighed, vessels.mixing, kettles, scales)
  const lyeScale = lyeCheck(weighed, vessels.lye, lye, scales)
  const checks = scaleChecksOf(shop, weighed, [gross, lyeScale])
  const uses = checkVessels(vessels, {
    lye: { volume: lye.volume, peak: lye.peak, shopLimit: shop.limits['hottest-lye'] },
    mixing: {
      // too many kettles are told as such
      volume: fill.batterVolume / kettles,
      peak: Math.max(pourTemperature, heat.pot),
      melting: Math.max(heat.clearAt ?? 0, heat.fats),
    },
    pouring: { volume: pour.jug.volume, peak: pourTemperature },
    ...weighingLoads(weighed, lye, room),
  })
  const kettle = uses.find(({ role }) => role === 'mixing')
  const kettleRoom = Math.max(0, (kettle?.workingVolume ?? 0) - fill.batterVolume / kettles)
  const findings: Finding[] = [
    ...mould.findings,
    ...formula.findings,
    ...fill.findings,
    ...pots.findings,
    ...weighed.findings,
    ...lye.findings,
    ...superfat.findings,
    ...uses.flatMap((use) => use.findings),
    ...heat.findings,
    ...(time?.findings ?? []),
    ...pour.findings,
    // A pail that is too heavy to lift is emptied with a jug; oils that are too heavy have no such way.
    ...loads.flatMap(({ key, lift }) => (key === 'kettle-of-oils' ? lift.findings : [])),
    ...suitability(content, formula, fill.batterMass),
    ...checks.flatMap(({ band }) => band?.findings ?? []),
    ...(gross?.band.findings ?? []),
  ]
  const state = stateOf(findings)
  return {
    batch: {
      ...weighed,
      key: file.key,
      file,
      shopFile: content.shop,
      recipeKey: file.value.recipe,
      recipeTitle: recipe.value.title,
      date: file.value.date,
      mould,
      fill,
      allowances,
      onHand,
      kettles,
      colours: formula.colours.map(({ key, share }) => ({
        key,
        share,
        mass: (fill.batterMass * share) / kettles,
        volume: (fill.batterVolume * share) / kettles,
      })),
      liquid: formula.liquid?.name,
      formula,
      lye,
      superfat,
      // Of a batch that must not be made nothing can be put right; several kettles and stock lyes are left to the tester.
      mistakes:
        state === 'stop' || kettles > 1 || file.value.lye?.stock
          ? []
          : mistakesOf(formula, weighed, lye, superfat, fill, kettleRoom, shop),
      pourTemperature,
      heat,
      blockHeat: undefined,
      coreLog: undefined,
      time,
      timeToThick: (recipe.value.tried?.['minutes-to-thick'] ?? 0) * 60,
      pour,
      byValve: (vessels.mixing.valve ?? false) && stands >= rim,
      loads,
      vessels,
      uses,
      scales: {
        oils: mainScale(weighed).name,
        checks,
        gross,
        lye: lyeScale,
        water: lyeScale && waterCheck(weighed, lyeScale.scale),
      },
      loadedMould: mould.mould.mass + fill.pouredMass,
      standHeight,
      tried: formula.tried,
      state,
      findings,
    },
  }
}

/** The batch with the heat of its block. One that must not be made has no block to speak of. */
export const withBlockHeat = (
  shop: ShopFile,
  batch: BoundBatch,
  logs: HeatLogs,
  plan: ReturnType<typeof blockHeatPlanner>,
): BoundBatch => {
  if (batch.state === 'stop') return batch
  const planned = plan({ shop, weighed: batch, ...batch }, logs.fits.get(batch.recipeKey))
  const ofLog = logs.findings.get(batch.key) ?? []
  const findings = [...batch.findings, ...planned.findings, ...ofLog]
  const state = stateOf(findings)
  const readings = coreReadingsOf(batch)
  return {
    ...batch,
    mistakes: state === 'stop' ? [] : batch.mistakes,
    blockHeat: isPlanned(planned) ? planned : undefined,
    coreLog: readings.length > 0 ? { readings, isUsed: ofLog.length === 0 } : undefined,
    state,
    findings,
  }
}

/** K */
const FREEZING = 273.15

/** Of the water: some of it must be liquid, or nothing dissolves in it [–] (common practice) */
const MOST_ICE = 0.9

/** The scale of the first draw of oils: where draws need several, the others say so themselves. */
const mainScale = ({ oils }: WeighedOut): Scale => {
  const scale = oils[0]?.plan.scale
  if (!scale) throw new Error('A batch without fats.')
  return scale
}

const stateOf = (findings: readonly Finding[]): 'go' | 'hold' | 'stop' => {
  if (findings.some(({ severity }) => severity === 'stop')) return 'stop'
  return findings.some(({ severity }) => severity === 'hold') ? 'hold' : 'go'
}
