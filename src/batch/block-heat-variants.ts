/** The same soap treated otherwise: what would help a block that gets too hot or stays warm too long, and a loaf. */
import type { Extent } from '../numerics/conduction.ts'
import { type BlockHeatRequest, heatCase, USUAL_RULES } from './block-heat.ts'
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
  const insulated = Object.values(coverings).some(({ insulation }) => (insulation ?? []).length > 0)
  if (insulated) remedies.push(tried('no-insulation', undefined, { ...request, insulationOff: 0 }))
  const cooler = Math.max(room, pour - COOLER)
  if (cooler < pour) remedies.push(tried('cooler-pour', cooler, { ...request, pour: cooler }))
  const height = block.height * SHALLOWER
  remedies.push(tried('shallower-block', height, { ...request, block: { ...block, height } }))
  return remedies
}

export interface WayOut {
  readonly way: 'as-planned' | 'strip-when-held' | 'shallower-block'
  /** s after the pour */
  readonly strip: number | undefined
  readonly earliestCut: number | undefined
}

/**
 * What would open a cut window that is empty.
 *
 *     as planned; walls off as soon as the block may be stripped; two thirds of the height
 *
 * @param request block that stays warm too long
 * @returns when it could be cut, for each [s after the pour]
 * @source common practice
 */
export function cutWindowWays(request: BlockHeatRequest): WayOut[] {
  const { block } = request
  const way = (name: WayOut['way'], other: BlockHeatRequest): WayOut => {
    const { held, cut } = runBlock(heatCase(other, 'nominal'))
    return { way: name, strip: held, earliestCut: cut }
  }
  return [
    way('as-planned', request),
    way('strip-when-held', { ...request, wallsOff: 'when-held' }),
    way('shallower-block', { ...request, block: { ...block, height: block.height * SHALLOWER } }),
  ]
}

/**
 * The same batter by the two rates that bound the usual one.
 *
 *     first order: fastest at the pour; all at once: the whole heat at the pour
 *
 * @param request block
 * @returns nominal history by each form of the rate
 * @source arrhenius
 */
export const boundsOfForm = (
  request: BlockHeatRequest,
): Readonly<Record<Exclude<RateForm, 'autocatalytic'>, HeatRun>> => {
  const run = (form: RateForm): HeatRun =>
    runBlock(heatCase({ ...request, reaction: { ...request.reaction, form } }, 'nominal'))
  return { 'first-order': run('first-order'), 'all-at-once': run('all-at-once') }
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
