/** The same soap treated otherwise: what would help a block that gets too hot or stays warm too long, and a loaf. */
import type { Extent } from '../numerics/conduction.ts'
import { narrowed } from '../numerics/root.ts'
import { type BlockHeatRequest, COARSE_RESOLUTION, heatCase, STEAM, USUAL_RULES } from './block-heat.ts'
import { type HeatRun, runBlock } from './block-heat-run.ts'
import type { RateForm } from './block-reaction.ts'
import { type Coverings, PLYWOOD_CONDUCTIVITY, STILL_AIR_FILM } from './block-walls.ts'

/** K, by which a cooler pour is tried (estimate) */
const COOLER = 8
/** of the height, to which a shallower block is tried (estimate) */
const SHALLOWER = 2 / 3

export type Remedy = 'no-insulation' | 'cooler-pour' | 'shallower-block'

export interface Remedied {
  readonly remedy: Remedy
  /** K of the pour or m of the height; nothing for insulation */
  readonly setting: number | undefined
  /** of the core [K, s after the pour] */
  readonly peak: number
  readonly peakTime: number
  /** whether the peak is below the limit */
  readonly enough: boolean
  /** s after the pour */
  readonly earliestCut: number | undefined
}

/**
 * What would keep a block from overheating, each remedy alone and with nominal figures.
 *
 *     no insulation; pour 8 K cooler, but no cooler than the room; two thirds of the height
 *
 * @param request block that gets too hot
 * @returns peak with each remedy that can be taken [K]
 * @source common practice
 */
export function overheatingRemedies(request: BlockHeatRequest): Remedied[] {
  const { block, coverings, pour, room } = request
  const limit = (request.rules ?? USUAL_RULES).tooHot
  const tried = (remedy: Remedy, setting: number | undefined, other: BlockHeatRequest): Remedied => {
    const run = runBlock(heatCase(other, 'nominal'))
    const { peak, peakTime } = run
    return { remedy, setting, peak, peakTime, enough: peak <= limit, earliestCut: run.cut }
  }
  const remedies: Remedied[] = []
  if (isInsulated(coverings))
    remedies.push(tried('no-insulation', undefined, { ...request, insulationOff: 0 }))
  const cooler = Math.max(room, pour - COOLER)
  if (cooler < pour) remedies.push(tried('cooler-pour', cooler, { ...request, pour: cooler }))
  const height = block.height * SHALLOWER
  remedies.push(tried('shallower-block', height, { ...request, block: { ...block, height } }))
  return remedies
}

/** K and share of the height, to which what is enough is found; both lie on the safe side of it */
const FINE = 0.25
const FINE_SHARE = 0.02
/** K; whole degrees of either scale, rounded when they are written down, stay on that side */
const ROUNDED = 0.5
/** m; half a step of the coarsest tape */
const ROUNDED_HEIGHT = 0.002
/** of the height, below which nobody calls it a block */
const LEAST_SHARE = 0.2

/** What lets a block that would boil stay below that. */
export interface BelowBoiling {
  /** foam is to be left out; false: there is none */
  readonly bare: boolean
  /** warmest pour, the planned one where that may stay [K] */
  readonly pour: number
  /** greatest height [m]; undefined: as planned */
  readonly height: number | undefined
  /** of the core with all of that, by the middle of the estimate and at its hottest [K] */
  readonly peak: number
  readonly high: number
  /** the hottest is above 100 °C still */
  readonly maySteam: boolean
}

/**
 * The least that has to change of a block that boils by the middle of the estimate.
 *
 *     without foam; else without it and poured no warmer than found, no cooler than the room; else as cool as the room
 *     and no higher than found: by halving, each with a nominal history
 *
 * @param request block that boils
 * @returns the first of these that keeps its core at 100 °C at most; undefined where a fifth of the height still boils
 * @source common practice
 */
export function belowBoiling(request: BlockHeatRequest): BelowBoiling | undefined {
  const peakOf = (other: BlockHeatRequest, end: 'nominal' | 'high' = 'nominal'): number =>
    runBlock(heatCase(other, end)).peak
  const bare = isInsulated(request.coverings)
  const found = (pour: number, height?: number): BelowBoiling => {
    const other = changed(request, bare, pour, height)
    const high = peakOf(other, 'high')
    return { bare, pour, height, peak: peakOf(other), high, maySteam: high > STEAM }
  }
  const isCool = (pour: number): boolean => peakOf(changed(request, bare, pour + ROUNDED)) <= STEAM
  if (bare && peakOf(changed(request, bare, request.pour)) <= STEAM) return found(request.pour)
  const coolest = Math.min(request.room, request.pour)
  if (isCool(coolest))
    return found(narrowed(isCool, { low: coolest, high: request.pour, tolerance: FINE }).low)
  const { height } = request.block
  const isLowEnough = (lower: number): boolean =>
    peakOf(changed(request, bare, coolest + ROUNDED, lower + ROUNDED_HEIGHT)) <= STEAM
  const low = height * LEAST_SHARE
  if (!isLowEnough(low)) return undefined
  return found(coolest, narrowed(isLowEnough, { low, high: height, tolerance: height * FINE_SHARE }).low)
}

const changed = (
  request: BlockHeatRequest,
  bare: boolean,
  pour: number,
  height = request.block.height,
): BlockHeatRequest => ({
  ...request,
  pour,
  block: { ...request.block, height },
  ...(bare ? { insulationOff: 0 } : {}),
})

const isInsulated = (coverings: Coverings): boolean =>
  Object.values(coverings).some(({ insulation }) => (insulation ?? []).length > 0)

export interface WayOut {
  readonly way: 'strip-when-held' | 'no-insulation' | 'shallower-block'
  /** m of the height; nothing where no size is changed */
  readonly setting: number | undefined
  /** s after the pour */
  readonly strip: number | undefined
  readonly earliestCut: number | undefined
  /** whether it can then be cut before it is too hard */
  readonly enough: boolean
}

/**
 * What would open a cut window that is empty, each way alone and with nominal figures.
 *
 *     walls off as soon as the block may be stripped, where they are planned to stay; no insulation; two thirds of the
 *     height, and stripped when it holds
 *
 * @param request block that stays warm too long, or that is stripped too late
 * @returns when it could be cut by each way that can be taken [s after the pour]
 * @source common practice
 */
export function cutWindowWays(request: BlockHeatRequest): WayOut[] {
  const { block, coverings } = request
  const latest = (request.rules ?? USUAL_RULES).latestCut.nominal
  const way = (name: WayOut['way'], setting: number | undefined, other: BlockHeatRequest): WayOut => {
    const { strip, cut } = runBlock(heatCase(other, 'nominal'))
    return { way: name, setting, strip, earliestCut: cut, enough: cut !== undefined && cut <= latest }
  }
  const ways: WayOut[] = []
  // what is to come off after the walls comes off with them
  const stripped: BlockHeatRequest = { ...request, wallsOff: 'when-held' }
  if (request.wallsOff !== 'when-held') ways.push(way('strip-when-held', undefined, stripped))
  if (isInsulated(coverings)) ways.push(way('no-insulation', undefined, { ...stripped, insulationOff: 0 }))
  const height = block.height * SHALLOWER
  ways.push(way('shallower-block', height, { ...stripped, block: { ...block, height } }))
  return ways
}

/**
 * The same batter by a rate that bounds the usual one.
 *
 *     first order: fastest at the pour, the earliest peak that anybody has to be awake for
 *     all at once: the whole heat at the pour, the hottest core that any rate could make
 *
 * @param request block
 * @param form    of the rate
 * @returns nominal history
 * @source arrhenius
 */
export const boundByForm = (request: BlockHeatRequest, form: Exclude<RateForm, 'autocatalytic'>): HeatRun =>
  runBlock(
    heatCase(
      { resolution: COARSE_RESOLUTION, ...request, reaction: { ...request.reaction, form } },
      'nominal',
    ),
  )

/**
 * The most heat at a rate below the fastest: the last that a block can be dangerously hot.
 *
 *     high end of the heat, low end or middle of the rate
 *
 * @param request block
 * @param rate    end of its band
 * @returns its history
 * @source common practice
 */
export const mostHeatAt = (request: BlockHeatRequest, rate: 'low' | 'nominal'): HeatRun => {
  const { reaction } = request
  const { high } = reaction.heat
  const hottest = { ...reaction, heat: { low: high, nominal: high, high } }
  return runBlock(heatCase({ resolution: COARSE_RESOLUTION, ...request, reaction: hottest }, rate))
}

/** A loaf mould as it is commonly built [m]. */
export const LOAF: Extent = { length: 0.25, width: 0.09, height: 0.075 }
/** m, its boards (common practice) */
const LOAF_BOARD = 0.012

/**
 * A single loaf of the same soap, poured as warm into the same room: wooden mould, open on top, on a bench.
 *
 * @param request the block that it is compared with
 * @param loaf    of the soap in it [m]
 * @returns request for the loaf
 * @source common practice
 */
export function loafOf(request: BlockHeatRequest, loaf: Extent = LOAF): BlockHeatRequest {
  const board = { thickness: LOAF_BOARD, conductivity: PLYWOOD_CONDUCTIVITY.nominal }
  const wall = { layers: [board], film: STILL_AIR_FILM.nominal }
  const coverings: Coverings = {
    end: wall,
    side: wall,
    base: wall,
    top: { layers: [], film: STILL_AIR_FILM.nominal },
  }
  const { lidOff: _lid, insulationOff: _insulation, wallsOff: _walls, ...kept } = request
  return { ...kept, block: loaf, coverings }
}
