/** How the lye of one batch is made: portions, the hottest it gets, how long it cools, what forbids it. */
import { type AddedAcid, type Alkali, hydroxideOfAcid, waterWithAcid } from '../chemistry/alkali.ts'
import { type IceByWater, iceByWater } from '../chemistry/ice-by-water.ts'
import {
  coolingConstantFromReadings,
  coolingTime,
  estimatedCoolingConstant,
} from '../chemistry/lye-cooling.ts'
import { lyeWarming } from '../chemistry/lye-heat-capacity.ts'
import { checkStockIce, type PortionShares, planPortions } from '../chemistry/lye-portions.ts'
import { checkSolubility } from '../chemistry/solubility.ts'
import { type LyeComposition, lyeDensity } from '../chemistry/solution-density.ts'
import {
  checkLyePeak,
  type LyeMixing,
  peakTemperature,
  thinnedStockTemperature,
} from '../chemistry/solution-heat.ts'
import type { Finding } from '../findings.ts'
import { keptByInput } from '../kept-or-made.ts'

/** kg and K throughout. */
export interface LyeRequest {
  readonly alkalis: readonly LyeAlkali[]
  readonly water: number
  readonly ice: number
  /** water that comes in with acids, which are stirred into the water first */
  readonly waterWithAcids?: number
  /** those acids without it: they stand in the pail, too, as what they become */
  readonly acidsWithoutWater?: number
  /** acid groups of those acids [mol] */
  readonly acidGroups?: number
  readonly waterTemperature: number
  readonly roomTemperature: number
  /** what the lye has to come down to before it is used */
  readonly coolTo: number
  readonly hottest: number
  readonly nextPortionBelow: number
  /** two readings of this pail, when the shop has taken them */
  readonly readings?:
    | {
        readonly first: number
        readonly second: number
        readonly timeBetween: number
        readonly room: number
        /** lye in it then [m3] */
        readonly volume: number
      }
    | undefined
}

export interface LyeAlkali {
  readonly kind: Alkali
  readonly weighed: number
  readonly pure: number
  /** of the scale that weighs it */
  readonly division: number
  /** a ready solution: what of it is not pure is water, and its heat is gone already */
  readonly stock?: boolean
}

/** Acids as they are weighed, like all else in the pail: a coarse scale makes little acid much more or less of it. */
export const weighedAcids = (
  additions: readonly {
    readonly acid: AddedAcid['acid'] | undefined
    readonly strength: number | undefined
    readonly plan: { readonly sum: number }
  }[],
): readonly AddedAcid[] =>
  additions.flatMap(({ acid, strength, plan }) =>
    acid ? [{ acid, strength: strength ?? 1, mass: plan.sum }] : [],
  )

/** What acids that are stirred into the water make of a lye. */
export const acidsInPail = (
  acids: readonly AddedAcid[],
): Required<Pick<LyeRequest, 'waterWithAcids' | 'acidsWithoutWater' | 'acidGroups'>> => {
  const waterWithAcids = sum(acids.map(waterWithAcid))
  return {
    waterWithAcids,
    acidsWithoutWater: sum(acids.map(({ mass }) => mass)) - waterWithAcids,
    acidGroups: sum(acids.map(hydroxideOfAcid)),
  }
}

export interface LyePlan {
  readonly portions: readonly {
    readonly number: number
    /** of each alkali, in their order */
    readonly masses: readonly number[]
    /** high and low end [K] */
    readonly peak: number
    readonly peakLow: number
  }[]
  /** of a stock lye that is thinned: no portions then [K] */
  readonly thinned: { readonly peak: number; readonly peakLow: number } | undefined
  /** hottest over all portions, high end [K] */
  readonly peak: number
  /** what it would reach if all went in at once, low and high end [K] */
  readonly atOnce: { readonly low: number; readonly high: number }
  /** if all went in at once: the least ice that holds the limit, for the batch's own water and for other days' */
  readonly byWater: readonly IceByWater[]
  readonly limit: number
  readonly waitBelow: number
  readonly waterTemperature: number
  /** as weighed, in all of the lye [–] */
  readonly concentration: number
  /** all that is in the pail [kg] */
  readonly mass: number
  /** pure alkali in it [–] */
  readonly composition: LyeComposition
  /** [m3], at the hottest */
  readonly volume: number
  /** from the last peak to the temperature of use; undefined when the room is too warm for it [s] */
  readonly coolingTime: number | undefined
  /** whether that time rests on readings of this pail */
  readonly coolingMeasured: boolean
  /** the same in a tub of water at room temperature, an estimate [s] */
  readonly bathTime: number | undefined
  readonly findings: readonly Finding[]
}

/** Lyes that are kept: each is asked for again by every trial of its batch. */
const MOST_KNOWN = 128

export const planLye = keptByInput(MOST_KNOWN, (request: LyeRequest): LyePlan => {
  const pureOf = (kind: Alkali): number =>
    sum(request.alkalis.map((alkali) => (alkali.kind === kind ? alkali.pure : 0)))
  const stock = request.alkalis.find((alkali) => alkali.stock)
  const weighedAlkali = sum(request.alkalis.map(({ weighed }) => weighed))
  const stockWater = stock ? stock.weighed - stock.pure : 0
  const added = request.water + (request.waterWithAcids ?? 0)
  const mixing: LyeMixing = {
    sodiumHydroxide: pureOf('NaOH'),
    potassiumHydroxide: pureOf('KOH'),
    impurities: stock ? 0 : weighedAlkali - pureOf('NaOH') - pureOf('KOH'),
    water: added + stockWater,
    waterTemperature: request.waterTemperature,
    alkaliTemperature: request.roomTemperature,
    ice: request.ice,
    acidGroups: request.acidGroups ?? 0,
  }
  const total = weighedAlkali + added + request.ice
  const share = (mass: number): number => (total === 0 ? 0 : mass / total)
  const composition = { NaOH: share(mixing.sodiumHydroxide), KOH: share(mixing.potassiumHydroxide) }
  const atOnce = peakTemperature(mixing).temperature
  const made = stock ? thin(request, mixing, stockWater) : dissolve(request, mixing, weighedAlkali)
  const peak = Math.max(...made.peaks, request.waterTemperature)
  // What becomes of acids is denser than lye: counted as lye the pail is not found emptier than it is.
  const inPail = total + (request.acidsWithoutWater ?? 0)
  const volume = inPail / lyeDensity(composition, Math.min(peak, HOTTEST_KNOWN_DENSITY))
  const warming = lyeWarming(composition, request.roomTemperature, request.roomTemperature + 1)
  const measured = request.readings && coolingConstantFromReadings(request.readings)
  const estimate = (surroundings: 'still-air' | 'water-bath'): number =>
    estimatedCoolingConstant({ mass: inPail, heatCapacity: warming, area: wettedArea(volume), surroundings })
      .nominal
  const coolingWith = (constant: number) =>
    coolingTime({
      from: made.peaks.at(-1) ?? request.hottest,
      to: request.coolTo,
      room: request.roomTemperature,
      constant,
    })
  // A fuller pail has less surface for each kilogram: heat is lost in proportion to surface over volume.
  const like = (readings: NonNullable<LyeRequest['readings']>): number =>
    wettedArea(volume) / volume / (wettedArea(readings.volume) / readings.volume)
  const constant =
    measured?.constant === undefined || !request.readings
      ? undefined
      : measured.constant * like(request.readings)
  const cooling = coolingWith(constant ?? estimate('still-air'))
  return {
    portions: made.portions,
    thinned: made.thinned,
    peak,
    atOnce,
    byWater: stock
      ? []
      : iceByWater({ ...mixing, water: mixing.water + request.ice, ice: 0 }, request.hottest, [
          request.waterTemperature,
          ...OTHER_DAYS,
        ]),
    limit: request.hottest,
    waitBelow: request.nextPortionBelow,
    waterTemperature: request.waterTemperature,
    concentration: share(stock ? stock.pure : weighedAlkali),
    mass: inPail,
    composition,
    volume,
    coolingTime: cooling.time,
    coolingMeasured: measured?.constant !== undefined,
    bathTime: coolingWith(estimate('water-bath')).time,
    findings: [
      ...made.findings,
      ...checkSolubility(composition, request.roomTemperature).findings,
      ...(measured?.findings ?? []),
      ...cooling.findings,
    ],
  }
})

interface MadeLye {
  readonly portions: LyePlan['portions']
  readonly thinned: LyePlan['thinned']
  /** in the order in which they come; none where no number of portions helps [K] */
  readonly peaks: readonly number[]
  readonly findings: readonly Finding[]
}

/** From dry alkali, in portions as they are really weighed. */
const dissolve = (request: LyeRequest, mixing: LyeMixing, weighed: number): MadeLye => {
  const { alkalis } = request
  const massesFor = (count: number): readonly (readonly number[])[] => roundPortions(count, request)
  const sharesOf = (count: number): readonly PortionShares[] => {
    const masses = massesFor(count)
    const share = (kind: Alkali, upTo: number): number => {
      const index = alkalis.findIndex((one) => one.kind === kind)
      const all = alkalis[index]?.weighed ?? 0
      return all === 0 ? 1 : sum(masses.slice(0, upTo + 1).map((each) => each[index] ?? 0)) / all
    }
    return masses.map((_, i) => ({ sodium: share('NaOH', i), potassium: share('KOH', i) }))
  }
  const plan = planPortions(
    mixing,
    {
      hottest: request.hottest,
      waitFor: request.nextPortionBelow,
      atLeast: Math.min(MOST_BY_HAND, Math.max(1, Math.ceil(weighed / HANDFUL - 1e-9))),
    },
    sharesOf,
  )
  const masses = massesFor(plan.portions.length)
  return {
    portions: plan.portions.map(({ number, peak, peakLow }, i) => ({
      number,
      peak,
      peakLow,
      masses: masses[i] ?? [],
    })),
    thinned: undefined,
    peaks: plan.portions.map(({ peak }) => peak),
    findings: [
      ...plan.findings,
      ...checkStockIce(mixing),
      ...(weighed > MOST_BY_HAND * HANDFUL
        ? [
            {
              code: 'alkali-too-much-by-hand',
              severity: 'stop',
              values: { mass: weighed, capacity: MOST_BY_HAND * HANDFUL },
            } as const,
          ]
        : []),
    ],
  }
}

/** From a ready stock lye, poured into its make-up water. */
const thin = (request: LyeRequest, mixing: LyeMixing, stockWater: number): MadeLye => {
  const { high, low } = thinnedStockTemperature(
    { ...mixing, water: stockWater, ice: 0 },
    { water: mixing.water - stockWater, ice: request.ice },
    request.roomTemperature,
  )
  const inStock = sum([mixing.sodiumHydroxide, mixing.potassiumHydroxide, stockWater])
  const strength = {
    NaOH: inStock === 0 ? 0 : mixing.sodiumHydroxide / inStock,
    KOH: inStock === 0 ? 0 : mixing.potassiumHydroxide / inStock,
  }
  return {
    portions: [],
    thinned: { peak: high, peakLow: low },
    peaks: [high],
    findings: [...checkLyePeak(high, request.hottest), ...checkStock(strength, request.roomTemperature)],
  }
}

/** A stock that has thrown crystals is weaker than its label, and what lies at the bottom stronger. */
const checkStock = (strength: LyeComposition, temperature: number): readonly Finding[] => {
  const { massFraction, limit, findings } = checkSolubility(strength, temperature)
  return massFraction > limit
    ? [{ code: 'stock-crystallises', severity: 'stop', values: { massFraction, limit, temperature } }]
    : findings
}

/** K; from a winter's tap to a summer's shed */
const OTHER_DAYS = [278.15, 285.15, 293.15, 301.15]

/** kg; as much as one person can stir in little by little and watch, however cool the lye stays (common practice) */
const HANDFUL = 0.5
/** A shop that makes more lye than this at once wants another way of making it. */
const MOST_BY_HAND = 20

/** K; the density model is fitted up to 120 °C */
const HOTTEST_KNOWN_DENSITY = 393.15

/** Portions in whole divisions whose sums are exactly what was weighed: all but the last alike, none empty. */
const roundPortions = (count: number, { alkalis }: LyeRequest): readonly (readonly number[])[] =>
  Array.from({ length: count }, (_, index) =>
    alkalis.map(({ weighed, division }) => {
      const whole = Math.round(weighed / division)
      const each = Math.ceil(whole / count)
      // Few divisions among many portions: rounding each up would leave the last ones empty.
      if (each * (count - 1) >= whole) {
        const upTo = (portions: number): number => Math.ceil((whole * portions) / count)
        return (upTo(index + 1) - upTo(index)) * division
      }
      const before = Math.min(whole, each * index)
      return (Math.min(whole, before + each) - before) * division
    }),
  )

const sum = (numbers: readonly number[]): number => numbers.reduce((total, number) => total + number, 0)

/** Bottom, wall and surface of a pail that is as wide as its filling is deep [m2]. */
const wettedArea = (volume: number): number => {
  const diameter = Math.cbrt((4 * volume) / Math.PI)
  return Math.PI * diameter ** 2 * 1.5
}
