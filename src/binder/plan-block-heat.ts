/** How hot the poured block gets, when somebody must look at it, and when it may be stripped and cut. */

import {
  type BlockHeat,
  type BlockHeatRequest,
  blockHeat,
  FRESH_SOAP,
  heatCase,
  isReckoned,
  USUAL_RULES,
} from '../batch/block-heat.ts'
import { type HeatRun, runBlock } from '../batch/block-heat-run.ts'
import {
  type BelowBoiling,
  belowBoiling,
  boundByForm,
  cutWindowWays,
  loafOf,
  mostHeatAt,
  overheatingRemedies,
  type Remedied,
  type WayOut,
} from '../batch/block-heat-variants.ts'
import { batterHeat, USUAL_RATE } from '../batch/block-reaction.ts'
import {
  type Coverings,
  FOAM_CONDUCTIVITY,
  PLYWOOD_CONDUCTIVITY,
  STILL_AIR_FILM,
} from '../batch/block-walls.ts'
import type { Fill } from '../batch/fill.ts'
import { calibratedReaction } from '../batch/heat-calibration.ts'
import { MOLAR_MASS } from '../chemistry/atomic-weights.ts'
import type { Finding } from '../findings.ts'
import { keptOrMade } from '../kept-or-made.ts'
import type { ShopFile } from '../schema/shop.ts'
import type { BoundMould } from './bind-mould.ts'
import type { HeatFit } from './heat-logs.ts'
import { type WeighedOut, waterSum } from './weigh-out.ts'

export interface BlockHeatPlan {
  readonly heat: BlockHeat
  /** logged batches of the recipe whose readings rate and heat are taken from; none: an estimate */
  readonly logged: readonly HeatFit[]
  /**
   * s after the pour: it may get too hot from the first, a whole half hour, on; nobody stops looking before the second, a
   * whole hour
   */
  readonly watch: { readonly from: number; readonly to: number; readonly mayOverheat: boolean }
  /** K of the room */
  readonly room: number
  /** m of foam; 0 without */
  readonly insulation: number
  /** s after the pour; nothing comes off before it, whatever is reckoned */
  readonly stripNotBefore: number
  /** K in the core, above which batter rises and cracks */
  readonly tooHot: number
  /** s after the pour, before the walls; undefined where it stays on until they come off */
  readonly lidOff: number | undefined
  readonly insulationOff: number | undefined
  /** the same soap in a single loaf mould, nominal */
  readonly loaf: HeatRun
  /** what would keep it cooler, where it may get too hot */
  readonly remedies: readonly Remedied[]
  /** what would be enough, where it boils */
  readonly belowBoiling: BelowBoiling | undefined
  /** what would open its cut window, where that is empty */
  readonly ways: readonly WayOut[]
  readonly findings: readonly Finding[]
}

/** m2 K/W; still air between soap and lid (estimate) */
const AIR_GAP = 0.15
/** W/(m2 K); under a base on its bench hardly any air moves (estimate) */
const UNDER = 5

/** What only the far end of the bands says: of nearly every block, and the sheet shows the bands. */
const IN_THE_BANDS: ReadonlySet<string> = new Set([
  'block-may-overheat',
  'block-may-steam',
  'cut-window-may-be-empty',
])

export interface BlockHeatParts {
  readonly shop: ShopFile
  readonly mould: BoundMould
  readonly fill: Fill
  readonly weighed: Pick<WeighedOut, 'alkalis' | 'water' | 'ice' | 'later'>
  /** K */
  readonly pourTemperature: number
}

/** What came of a block: its plan, or why there is none. */
export type PlannedHeat = BlockHeatPlan | { readonly findings: readonly Finding[] }

export const isPlanned = (planned: PlannedHeat): planned is BlockHeatPlan => 'heat' in planned

/** Blocks that are kept, the oldest given up first. */
const MOST_KNOWN = 100

/**
 * Keeps what was reckoned for equal blocks: several batches of a recipe in one mould are one block, and most blocks of a
 * binder are as they were before an edit.
 * @param known  what it begins with, and adds to
 * @returns a planner; it takes a block and the logs of its recipe
 */
export const blockHeatPlanner = (
  known = new Map<string, PlannedHeat>(),
): ((parts: BlockHeatParts, logged?: readonly HeatFit[]) => PlannedHeat) => {
  return (parts, logged = []) => {
    const request = blockRequest(parts)
    return keptOrMade(known, MOST_KNOWN, JSON.stringify([request, logged]), () => plan(request, logged))
  }
}

const plan = (estimated: BlockHeatRequest, logged: readonly HeatFit[]): PlannedHeat => {
  const { reaction } = estimated
  const request: BlockHeatRequest =
    logged.length === 0
      ? estimated
      : { ...estimated, reaction: { ...reaction, ...calibratedReaction(logged, reaction) } }
  const heat = blockHeat(request)
  if (!isReckoned(heat)) return { findings: heat.findings }
  const found = (...codes: readonly string[]): boolean =>
    heat.findings.some(({ code }) => codes.includes(code))
  // of a block that is not poured nobody reads what would keep it below less than that
  const boils = found('block-boils')
  const { rules = USUAL_RULES } = request
  const isBeforeWalls = (time: number | undefined): boolean =>
    time !== undefined && time < (heat.strip.nominal ?? Infinity)
  return {
    heat,
    logged,
    watch: watchOf(request, heat, logged.length > 0),
    room: request.room,
    insulation: insulationOf(request),
    stripNotBefore: rules.stripNotBefore,
    tooHot: rules.tooHot,
    lidOff: isBeforeWalls(request.lidOff) ? request.lidOff : undefined,
    insulationOff: isBeforeWalls(request.insulationOff) ? request.insulationOff : undefined,
    loaf: runBlock(heatCase(loafOf(request), 'nominal')),
    remedies: !boils && found('block-overheats', 'block-may-overheat') ? overheatingRemedies(request) : [],
    belowBoiling: boils ? belowBoiling(request) : undefined,
    ways: found('cut-window-empty', 'core-never-cool', 'block-never-holds') ? cutWindowWays(request) : [],
    findings: heat.findings.filter(({ code }) => !IN_THE_BANDS.has(code)),
  }
}

/** s */
const HALF_HOUR = 1800
/** s from one look at a block that heats to the next; sheets say it in words (common practice) */
export const LOOK_EVERY = HALF_HOUR
/** s; from ten hours on a sheet shows whole ones */
const HOUR = 2 * HALF_HOUR

/**
 * From the earliest that it may be too hot until no history of it is, the hottest and the slowest alike: every one is then
 * past its peak and below the limit. Histories that stay cool are no reason to stay up; a block that has no other is
 * looked at until the middle one and the hottest are past their peaks.
 */
const watchOf = (request: BlockHeatRequest, heat: BlockHeat, isLogged: boolean): BlockHeatPlan['watch'] => {
  const { tooHot } = request.rules ?? USUAL_RULES
  const later = (['low', 'nominal'] as const).map((rate) => mostHeatAt(request, rate))
  const { nominal, high } = heat.runs
  const hot = [...Object.values(heat.runs), ...later].filter(({ peak }) => peak > tooHot)
  const begins = hot.length > 0 ? hot.map(({ peakTime }) => peakTime) : [heat.peakTime.nominal]
  // A log tells the form of the rate too; of an estimate the form that is fastest at the pour is the earliest.
  const first = isLogged ? [] : [boundByForm(request, 'first-order').peakTime]
  const ends = [nominal.peakTime, high.peakTime, ...hot.map((run) => coolAgain(run, tooHot))]
  return {
    from: Math.floor(Math.min(heat.peakTime.low, ...begins, ...first) / HALF_HOUR) * HALF_HOUR,
    to: Math.ceil(Math.max(...ends) / HOUR) * HOUR,
    mayOverheat: hot.length > 0,
  }
}

/** s after the pour; the first row of a history from which on its core stays below a limit, its end where none does. */
const coolAgain = ({ series, end }: HeatRun, limit: number): number => {
  const last = series.findLastIndex(({ core }) => core >= limit)
  return series[last + 1]?.time ?? end
}

const insulationOf = ({ coverings }: BlockHeatRequest): number => {
  const [foam] = coverings.side.insulation ?? []
  return foam && 'thickness' in foam ? foam.thickness : 0
}

/** The block of a batch as the reckoning of its heat wants it, with rate and heat as estimated. */
export const blockRequest = ({
  shop,
  mould,
  fill,
  weighed,
  pourTemperature,
}: BlockHeatParts): BlockHeatRequest => {
  const { lined, input } = mould.mould
  const { block: rules = {} } = shop
  const conductivity = PLYWOOD_CONDUCTIVITY.nominal
  const cutBelow = rules['cut-below'] ?? USUAL_RULES.cutBelow
  const board = (thickness: number) => ({ thickness, conductivity })
  const { insulation = 0 } = rules
  const foam =
    insulation > 0 ? { insulation: [{ thickness: insulation, conductivity: FOAM_CONDUCTIVITY.nominal }] } : {}
  const film = STILL_AIR_FILM.nominal
  const coverings: Coverings = {
    end: { layers: [board(input.panels.end.thickness)], film, ...foam },
    side: { layers: [board(input.panels.side.thickness)], film, ...foam },
    top: { layers: [{ resistance: AIR_GAP }, board(input.panels.lid.thickness)], film, ...foam },
    base: { layers: [board(input.panels.baseTop.thickness)], film: UNDER },
  }
  const moles = weighed.alkalis.reduce(
    (sum, { kind, purity, plan: { sum: mass } }) => sum + (mass * purity) / MOLAR_MASS[kind],
    0,
  )
  return {
    block: { length: lined.length, width: lined.width, height: fill.pourHeight.nominal },
    soap: { density: fill.batterDensity, ...FRESH_SOAP, waterShare: waterSum(weighed) / fill.batterMass },
    reaction: { heat: batterHeat(moles / fill.batterMass), ...USUAL_RATE },
    coverings,
    room: shop.room['usual-temperature'],
    pour: pourTemperature,
    ...(rules['lid-off'] === undefined ? {} : { lidOff: rules['lid-off'] }),
    ...(rules['insulation-off'] === undefined ? {} : { insulationOff: rules['insulation-off'] }),
    wallsOff: rules['walls-off'] ?? 'when-held',
    rules: {
      ...USUAL_RULES,
      stripNotBefore: rules['strip-not-before'] ?? USUAL_RULES.stripNotBefore,
      cutBelow,
      // the history ends at the cautious limit: it must not end before the shop's own
      cutBelowCautious: Math.min(USUAL_RULES.cutBelowCautious, cutBelow),
    },
  }
}
