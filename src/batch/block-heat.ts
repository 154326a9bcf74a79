/** Heat in the soap block after the pour: how hot, when it peaks, where it gels, when it may be stripped and cut. */
import type { Finding } from '../findings.ts'
import type { Extent } from '../numerics/conduction.ts'
import type { Band } from './band.ts'
import type { Gelled } from './block-gel.ts'
import { type HeatCase, type HeatRules, type HeatRun, type Resolution, runBlock } from './block-heat-run.ts'
import { gelTemperature, type Reaction } from './block-reaction.ts'
import { type Coverings, resistanceOf } from './block-walls.ts'

/** Fresh soap, for as long as nobody has measured it: handbook ranges from memory, their middles as nominal values. */
export const FRESH_SOAP = {
  heatCapacity: { low: 2300, nominal: 2550, high: 2800 }, // J/(kg K)
  conductivity: { low: 0.25, nominal: 0.3, high: 0.35 }, // W/(m K)
} as const

export interface BlockHeatRequest {
  /** of the batter in the mould [m] */
  readonly block: Extent
  readonly soap: {
    /** kg/m3, as poured */
    readonly density: number
    /** J/(kg K) and W/(m K); of these only the nominal values are reckoned with */
    readonly heatCapacity: Band
    readonly conductivity: Band
    /** water in the batter [–] */
    readonly waterShare: number
  }
  readonly reaction: Reaction
  readonly coverings: Coverings
  /** K */
  readonly room: number
  readonly pour: number
  /** s after the pour; left out: it stays on */
  readonly lidOff?: number
  readonly insulationOff?: number
  /** s after the pour, or as soon as the block may be stripped */
  readonly wallsOff?: number | 'when-held'
  readonly rules?: BlockRules
  readonly resolution?: Resolution
  /** s between the rows of the series, 600 when left out */
  readonly every?: number
}

export interface BlockRules extends HeatRules {
  /** s after the pour, when the block gets too hard to cut */
  readonly latestCut: Band
  /** of the core, above which batter rises and cracks [K] */
  readonly tooHot: number
}

/** The shop's own rules take the place of these. All are estimates or common practice. */
export const USUAL_RULES: BlockRules = {
  pastPeak: 3,
  holdsShape: 0.85,
  // nobody opens a block of a hundred bars on the day of its pour, whatever an estimate says
  stripNotBefore: 18 * 3600,
  cutBelow: 313.15, // 40 °C
  cutBelowCautious: 308.15, // 35 °C
  longest: 120 * 3600,
  latestCut: { low: 24 * 3600, nominal: 48 * 3600, high: 96 * 3600 },
  tooHot: 358.15, // 85 °C
}

/** What the test of convergence shows to be enough: peak within 0.1 K, any core within 0.7 K, gelled share within 0.02. */
export const USUAL_RESOLUTION: Resolution = {
  cells: { length: 7, width: 7, height: 13 },
  longestStep: 600,
  reactedInStep: 0.25,
}

/** For what is read to the half hour or the half kelvin: bounds of the form, hours of the watch, logs of a thermometer. */
export const COARSE_RESOLUTION: Resolution = {
  cells: { length: 4, width: 4, height: 7 },
  longestStep: 600,
  reactedInStep: 0.4,
}

/** When something happens [s after the pour]; undefined: not before the end. */
export interface TimeBand {
  readonly low: number | undefined
  readonly nominal: number | undefined
  readonly high: number | undefined
}

export interface BlockHeat {
  /** of the core [K], [s after the pour] */
  readonly peak: Band
  readonly peakTime: Band
  readonly gelTemperature: Band
  /** of the block's volume [–]; its ends take those of the gel temperature too */
  readonly gelled: { readonly low: Gelled; readonly nominal: Gelled; readonly high: Gelled }
  /** core past its peak, nothing above the gel temperature, every part reacted enough, and not before the shop's own hours */
  readonly strip: TimeBand
  /** stripped, and the core below the shop's limit for good */
  readonly earliestCut: TimeBand
  /** the same with the cautious limit */
  readonly cautiousCut: TimeBand
  /** s after the pour */
  readonly latestCut: Band
  /** least heat at the slowest rate, and most at the fastest */
  readonly runs: { readonly low: HeatRun; readonly nominal: HeatRun; readonly high: HeatRun }
  readonly findings: readonly Finding[]
}

/**
 * Heat of a block, with the bands that heat and rate of its reaction leave.
 *
 *     low = least heat, slowest rate; nominal; high = most heat, fastest rate: three histories by runBlock
 *
 * An estimate. Left out: heat that the walls store (the core hardly notices, edges come out some kelvins too warm and the
 * gel reaches too far), bands of heat capacity and conductivity, water that evaporates, the swelling of gel. A
 * thermometer in the core replaces it, see heat-calibration.ts.
 *
 * When walls may come off rests on estimates alone. So there is a floor below it, 18 h as is common practice, and what
 * follows (the earliest cut) honours it too: the push test decides from then on.
 *
 * @param request plain numbers [SI]
 * @returns bands, events, series and findings; the stops alone when nothing can be reckoned
 * @source patankar, common practice
 */
export function blockHeat(request: BlockHeatRequest): BlockHeat | { readonly findings: readonly Finding[] } {
  const wrong = nonsense(request)
  if (wrong.length > 0) return { findings: wrong }
  const runs = {
    low: runBlock(heatCase(request, 'low')),
    nominal: runBlock(heatCase(request, 'nominal')),
    high: runBlock(heatCase(request, 'high')),
  }
  const rules = request.rules ?? USUAL_RULES
  const strip = timeBand(runs, (run) => run.strip)
  const earliestCut = timeBand(runs, (run) => run.cut)
  const heat = {
    peak: bandOf(runs, (run) => run.peak),
    peakTime: bandOf(runs, (run) => run.peakTime),
    gelTemperature: gelTemperature(request.soap.waterShare),
    gelled: {
      low: runs.low.gelled.high,
      nominal: runs.nominal.gelled.nominal,
      high: runs.high.gelled.low,
    },
    strip,
    earliestCut,
    cautiousCut: timeBand(runs, (run) => run.cutCautious),
    latestCut: rules.latestCut,
    runs,
  }
  return {
    ...heat,
    findings: [
      ...heatFindings(heat, rules),
      ...windowFindings(heat, rules, request.room),
      ...takenOffFindings(request, runs.nominal.held),
    ],
  }
}

/** Whether a block could be reckoned. */
export const isReckoned = (heat: ReturnType<typeof blockHeat>): heat is BlockHeat => 'runs' in heat

/** Numbers of one end of the request, or of its middle. */
export function heatCase(request: BlockHeatRequest, end: keyof Band): HeatCase {
  const { soap, reaction } = request
  return {
    block: request.block,
    density: soap.density,
    heatCapacity: soap.heatCapacity.nominal,
    conductivity: soap.conductivity.nominal,
    reaction: {
      heat: reaction.heat[end],
      rate: reaction.rate[end],
      activationEnergy: reaction.activationEnergy,
      started: reaction.started,
      form: reaction.form ?? 'autocatalytic',
    },
    coverings: request.coverings,
    room: request.room,
    pour: request.pour,
    gel: gelTemperature(soap.waterShare),
    lidOff: request.lidOff,
    insulationOff: request.insulationOff,
    wallsOff: request.wallsOff,
    rules: request.rules ?? USUAL_RULES,
    resolution: request.resolution ?? USUAL_RESOLUTION,
    every: request.every ?? 600,
  }
}

/** What no block can be: the stops that come before any reckoning. */
export function nonsense(request: BlockHeatRequest): Finding[] {
  const { block, soap, reaction, room, pour } = request
  const findings: Finding[] = []
  const positive: Readonly<Record<string, number>> = {
    length: block.length,
    width: block.width,
    height: block.height,
    density: soap.density,
    heatCapacity: soap.heatCapacity.nominal,
    conductivity: soap.conductivity.nominal,
    rate: reaction.rate.low,
    room,
    pour,
    end: resistanceOf(request.coverings.end),
    side: resistanceOf(request.coverings.side),
    top: resistanceOf(request.coverings.top),
    base: resistanceOf(request.coverings.base),
  }
  for (const [what, value] of Object.entries(positive))
    if (!(value > 0))
      findings.push({ code: 'heat-size-not-positive', severity: 'stop', values: { what, value } })
  if (!(reaction.heat.low >= 0))
    findings.push({
      code: 'heat-of-reaction-negative',
      severity: 'stop',
      values: { value: reaction.heat.low },
    })
  if (!(reaction.started > 0 && reaction.started < 1))
    findings.push({ code: 'heat-started-no-share', severity: 'stop', values: { value: reaction.started } })
  if (!(soap.waterShare > 0 && soap.waterShare < 1))
    findings.push({ code: 'heat-water-no-share', severity: 'stop', values: { value: soap.waterShare } })
  const gel = gelTemperature(soap.waterShare).nominal
  if (room > gel)
    findings.push({ code: 'room-hotter-than-gel', severity: 'stop', values: { room, gelTemperature: gel } })
  return findings
}

/**
 * K, above which water leaves the block as steam and nothing here holds. A block that comes there by the middle of the
 * estimate foams out of its mould, hot and caustic: it is not poured. Where only the far end of the estimate does,
 * somebody has to read that and stay with it.
 */
export const STEAM = 373.15
/** less is not seen in a bar, and what is missing to the whole neither (estimate) */
const SEEN = 0.03

function heatFindings(heat: Pick<BlockHeat, 'peak' | 'peakTime' | 'gelled'>, rules: BlockRules): Finding[] {
  const { peak, peakTime, gelled } = heat
  const findings: Finding[] = []
  const values = {
    peak: peak.nominal,
    highest: peak.high,
    temperatureAllowed: rules.tooHot,
    soonest: peakTime.low,
  }
  if (peak.nominal > rules.tooHot) findings.push({ code: 'block-overheats', severity: 'warn', values })
  else if (peak.high > rules.tooHot) findings.push({ code: 'block-may-overheat', severity: 'warn', values })
  if (peak.nominal > STEAM)
    findings.push({
      code: 'block-boils',
      severity: 'stop',
      values: { peak: peak.nominal, temperatureAllowed: STEAM },
    })
  else if (peak.high > STEAM)
    findings.push({
      code: 'block-may-steam',
      severity: 'warn',
      values: { highest: peak.high, temperatureAllowed: STEAM },
    })
  const { share, temperature } = gelled.nominal
  if (share > SEEN && share < 1 - SEEN)
    findings.push({ code: 'block-gels-in-part', severity: 'warn', values: { share, temperature } })
  return findings
}

function windowFindings(
  heat: Pick<BlockHeat, 'strip' | 'earliestCut' | 'latestCut'>,
  rules: BlockRules,
  room: number,
): Finding[] {
  const { earliestCut, latestCut } = heat
  if (heat.strip.nominal === undefined)
    return [{ code: 'block-never-holds', severity: 'warn', values: { longest: rules.longest } }]
  if (earliestCut.nominal === undefined && rules.cutBelow <= room)
    return [
      {
        code: 'room-warmer-than-cut',
        severity: 'warn',
        values: { room, temperatureAllowed: rules.cutBelow },
      },
    ]
  if (earliestCut.nominal === undefined)
    return [
      {
        code: 'core-never-cool',
        severity: 'warn',
        values: { temperatureAllowed: rules.cutBelow, longest: rules.longest },
      },
    ]
  if (earliestCut.nominal > latestCut.nominal)
    return [
      {
        code: 'cut-window-empty',
        severity: 'warn',
        values: { earliest: earliestCut.nominal, latest: latestCut.nominal },
      },
    ]
  if (earliestCut.high === undefined || earliestCut.high > latestCut.low)
    return [
      {
        code: 'cut-window-may-be-empty',
        severity: 'warn',
        values: { earliest: earliestCut.high ?? rules.longest, latest: latestCut.low },
      },
    ]
  return []
}

/** What comes off at a time that the block, or what lies on what, does not allow. */
function takenOffFindings(
  { lidOff, insulationOff, wallsOff }: BlockHeatRequest,
  held: number | undefined,
): Finding[] {
  const findings: Finding[] = []
  if (held === undefined) return findings
  if (typeof wallsOff === 'number' && wallsOff < held)
    findings.push({
      code: 'walls-off-before-held',
      severity: 'warn',
      values: { takenOff: wallsOff, stripped: held },
    })
  if (wallsOff !== 'when-held') return findings
  if (lidOff !== undefined && lidOff > held)
    findings.push({
      code: 'lid-off-after-strip',
      severity: 'warn',
      values: { takenOff: lidOff, stripped: held },
    })
  if (insulationOff !== undefined && insulationOff > held)
    findings.push({
      code: 'insulation-off-after-strip',
      severity: 'warn',
      values: { takenOff: insulationOff, stripped: held },
    })
  return findings
}

type Runs = BlockHeat['runs']

/** The ends need not come in the order of the runs: a hotter block peaks earlier. */
const bandOf = (runs: Runs, of: (run: HeatRun) => number): Band => {
  const [low, nominal, high] = [of(runs.low), of(runs.nominal), of(runs.high)]
  return { low: Math.min(low, nominal, high), nominal, high: Math.max(low, nominal, high) }
}

const timeBand = (runs: Runs, of: (run: HeatRun) => number | undefined): TimeBand => {
  const times = [of(runs.low), of(runs.nominal), of(runs.high)]
  const known = times.filter((time): time is number => time !== undefined)
  return {
    low: known.length > 0 ? Math.min(...known) : undefined,
    nominal: of(runs.nominal),
    high: known.length === times.length ? Math.max(...known) : undefined,
  }
}
