/** One batch of the maker's folder to everything that its sheets say: the calculators run in order, findings kept. */
import { measured } from '../batch/band.ts'
import type { Scale } from '../batch/draws.ts'
import { type Fill, type FillSetting, oilsForFillHeight, wholeSlicesForOils } from '../batch/fill.ts'
import { DEFAULT_FILL_ALLOWANCES, type FillAllowances } from '../batch/fill-allowances.ts'
import { type BarsOnHand, barsForOilOnHand } from '../batch/oil-on-hand.ts'
import { FULLNESS, potShares } from '../batch/pots.ts'
import { type PourPlan, pourPlan } from '../batch/pour.ts'
import { type TimeBudget, timeBudget } from '../batch/time-budget.ts'
import { hydroxideOfAcid } from '../chemistry/alkali.ts'
import { type Mistake, rescues } from '../chemistry/rescue.ts'
import { SOFT_LIMIT, type SuperfatMargin } from '../chemistry/superfat-interval.ts'
import type { Finding } from '../findings.ts'
import type { BatchFile } from '../schema/batch.ts'
import type { Content, Placed } from '../schema/content.ts'
import type { RecipeFile } from '../schema/recipe.ts'
import type { ShopFile } from '../schema/shop.ts'
import { type BoundMould, blockCuts, mouldInside } from './bind-mould.ts'
import { checkVessels, type VesselUse } from './check-vessels.ts'
import { type Formula, formulaOf } from './formula.ts'
import { type HeatPlan, planHeat } from './plan-heat.ts'
import { type Load, planLifts } from './plan-lifts.ts'
import { type LyePlan, type LyeRequest, planLye } from './plan-lye.ts'
import { lyeCheck, oilCheck, type PotCheck } from './pot-checks.ts'
import {
  BEADS_DENSITY,
  hottestLye,
  pickVessels,
  readingsOf,
  type ScaleCheck,
  scaleChecksOf,
  scalesOf,
  type Vessels,
} from './shop-tools.ts'
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
  readonly time: TimeBudget | undefined
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
  const lyeRequest = (water: number, ice: number, alkalis: LyeRequest['alkalis']): LyeRequest => ({
    alkalis,
    water,
    ice,
    waterWithAcids: formula.waterWithAcids * fill.oilMass,
    acidGroups: formula.hydroxideForAcids * fill.oilMass,
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
    pouring: {
      volume: Math.min(pour.jug.volume, vessels.pouring.volume * FULLNESS.jug),
      peak: pourTemperature,
    },
    weighing: { volume: largestDraw(weighed.oils) / OIL_DENSITY, peak: room },
    alkali: { volume: largestPortion(weighed, lye), peak: room },
  })
  const findings: Finding[] = [
    ...mould.mould.findings,
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
          : mistakesOf(formula, weighed, lye, superfat, fill, shop),
      pourTemperature,
      heat,
      time,
      pour,
      byValve: (vessels.mixing.valve ?? false) && stands >= rim,
      loads,
      vessels,
      uses,
      scales: { oils: mainScale(weighed).name, checks, gross, lye: lyeScale },
      loadedMould: mould.mould.mass + fill.pouredMass,
      standHeight,
      tried: formula.tried,
      state,
      findings,
    },
  }
}

/** What each missed or doubled draw would do; a batch that would be in doubt afterwards is put right in any case. */
const mistakesOf = (
  formula: Formula,
  { fats, oils, alkalis, additions }: WeighedOut,
  lye: LyePlan,
  superfat: SuperfatMargin,
  fill: Fill,
  shop: ShopFile,
): readonly Mistake[] => {
  const value = (key: string): number => formula.fats.find((fat) => fat.key === key)?.value.nominal ?? 0
  const massOf = (key: string): number => fats.find((fat) => fat.key === key)?.plan.sum ?? 0
  const rise =
    fill.pourHeight.nominal * (shop.fill?.['rises-while-hot'] ?? DEFAULT_FILL_ALLOWANCES.rise.nominal)
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
    roomLeft: fill.area * Math.max(0, fill.freeboard - rise) * fill.batterDensity,
  })
}

/** K */
const FREEZING = 273.15

/** Of the water: some of it must be liquid, or nothing dissolves in it [–] (common practice) */
const MOST_ICE = 0.9

/** kg/m3; the lightest fats (common practice) */
const OIL_DENSITY = 890

const largestDraw = (
  weighings: readonly { readonly plan: { readonly draws: readonly { readonly target: number }[] } }[],
): number => Math.max(0, ...weighings.flatMap(({ plan }) => plan.draws.map(({ target }) => target)))

/** Of the alkali that stands in its cup at once, as beads or as stock lye [m3]. */
const largestPortion = ({ alkalis }: WeighedOut, { portions }: LyePlan): number =>
  portions.length > 0
    ? Math.max(0, ...portions.flatMap(({ masses }) => masses)) / BEADS_DENSITY
    : largestDraw(alkalis) / STOCK_DENSITY

/** kg/m3; half-and-half stock lye (laliberte2009) */
const STOCK_DENSITY = 1500

/** The scale of the first draw of oils: where draws need several, the others say so themselves. */
const mainScale = ({ oils }: WeighedOut): Scale => {
  const scale = oils[0]?.plan.scale
  if (!scale) throw new Error('A batch without fats.')
  return scale
}

/** What the shop has measured of its fills takes the place of the trade's estimates. */
const allowancesOf = ({ fill = {} }: ShopFile): FillAllowances => {
  const given = {
    potResidue: fill['left-in-kettle'],
    air: fill.air,
    setShrinkage: fill['sinks-while-setting'],
    rise: fill['rises-while-hot'],
    dish: fill.dish,
    ash: fill.ash,
  }
  const bands = Object.entries(given).flatMap(([key, value]) =>
    value === undefined ? [] : [[key, measured(value)] as const],
  )
  return { ...DEFAULT_FILL_ALLOWANCES, ...Object.fromEntries(bands) }
}

/** Where the shop has not looked at the clock [s] (estimates) */
const PACE = { blend: 300, colour: 180, jug: 30 } as const
/** How much sooner and later than in the trial it may thicken [–] (estimate: a large batch is warmer and blended longer) */
const SOONER = 0.75
const LATER = 1.25

/** Minutes from lye in the fats to too thick, as tried, against those that blending and pouring take here. */
const timeOf = (
  shop: ShopFile,
  tried: NonNullable<RecipeFile['tried']>,
  formula: Formula,
  pour: PourPlan,
): TimeBudget => {
  const pace = shop.pace ?? {}
  const toThick = tried['minutes-to-thick'] * 60
  const toTrace = tried['minutes-to-trace']
  const budget = timeBudget({
    timeToThick: { low: toThick * SOONER, nominal: toThick, high: toThick * LATER },
    // The clock of the trial has counted the rests of the blender.
    blending: toTrace === undefined ? (pace.blend ?? PACE.blend) : toTrace * 60,
    ...(toTrace !== undefined || pace['longest-run'] === undefined
      ? {}
      : { longestRun: pace['longest-run'] }),
    ...(pace.rest === undefined ? {} : { rest: pace.rest }),
    colouring: formula.colours.length * (pace.colour ?? PACE.colour),
    carrying: 0,
    jugs: pour.jug.count,
    timePerJug: pace.jug ?? PACE.jug,
  })
  // Estimates of the trade stop nobody's batch.
  return shop.pace
    ? budget
    : { ...budget, findings: budget.findings.map((finding) => ({ ...finding, severity: 'warn' }) as const) }
}

/** Which of the three directions the batch asks for: full height, so much oil, or what is there of a fat. */
const fillOf = (
  setting: FillSetting,
  batch: BatchFile,
): { readonly fill: Fill; readonly onHand: BoundBatch['onHand'] } => {
  if (batch.oils !== undefined) return { fill: wholeSlicesForOils(setting, batch.oils), onHand: undefined }
  const onHand = batch['on-hand']
  if (!onHand) return { fill: oilsForFillHeight(setting), onHand: undefined }
  const bars = barsForOilOnHand(
    setting,
    Object.entries(onHand).map(([name, mass]) => ({ name, mass })),
  )
  // Not one slice: nothing is weighed, and the page says why.
  return { fill: bars.fill ?? { ...oilsForFillHeight(setting), findings: bars.findings }, onHand: bars }
}

const stateOf = (findings: readonly Finding[]): 'go' | 'hold' | 'stop' => {
  if (findings.some(({ severity }) => severity === 'stop')) return 'stop'
  return findings.some(({ severity }) => severity === 'hold') ? 'hold' : 'go'
}
