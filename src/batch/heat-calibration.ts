/** Rate of a recipe from the temperatures that a maker logged in the core of a block. */
import type { Finding } from '../findings.ts'
import type { Band } from './band.ts'
import { type BlockHeatRequest, COARSE_RESOLUTION, heatCase, nonsense } from './block-heat.ts'
import { type HeatRow, runBlock } from './block-heat-run.ts'

/** One reading of the thermometer in the core. */
export interface CoreReading {
  /** s after the pour */
  readonly time: number
  /** K */
  readonly temperature: number
}

export interface HeatCalibration {
  /** by which the rate of the request is to be multiplied [–]; undefined when nothing could be fitted; not to be used with findings */
  readonly rateFactor: number | undefined
  /** by which the heat is to be multiplied [–]; 1 unless it was to be fitted too */
  readonly heatFactor: number
  /** median of what the readings miss the reckoned core by [K] */
  readonly residual: number | undefined
  readonly findings: readonly Finding[]
}

/** Rates from a fifth to five times that of the request, in equal ratios. */
const LOWEST = 0.2
const HIGHEST = 5
const COARSE_STEPS = 13
const NARROWINGS = 9
/** K, beyond which a reading that is off counts by its distance, not by its square (estimate) */
const STRAY = 2
/** K, above which the curve does not tell the block's story (estimate) */
const MATCHES = 3
/** readings that a fit of the rate needs, and one of rate and heat */
const ENOUGH = 4
const ENOUGH_FOR_BOTH = 6
/** K, by which the core at one reading at least must change when the rate does by a third (estimate) */
const TELLS = 2
/** by which the rate is tried for that, either way [–] */
const A_THIRD = 4 / 3
/** from which on a rate is another one, that must not match as well [–] (estimate) */
const ANOTHER = 1.7
/** K, by which a core may read colder than the shop's usual room: a cold night, a thermometer that is off (estimate) */
const COLDER_ROOM = 5
/** that heat may be wrong by, tried at both ends and between */
const HEAT_FACTORS = [0.7, 0.8, 0.9, 1, 1.1, 1.2, 1.3] as const

/**
 * Rate factor, and if wanted heat factor, that bring the reckoned core nearest to the logged one.
 *
 *     least Σ ρ(T_log − T_core(t)),   ρ(d) = d²/2 up to 2 K, 2 (|d| − 1) beyond
 *
 * Rates are tried in equal ratios from 1/5 to 5, then the best of them is narrowed down by the golden section. A
 * stray reading counts little. A log whose readings would be the same at another rate (all before anything happened, or
 * all long after) tells nothing of it.
 *
 * @param request  block as it was poured; its rates are the ones to be multiplied
 * @param readings in the core, any order, t ≥ 0
 * @param fitted   what may be changed
 * @returns factors [–], median residual [K] and findings
 * @source huber1964, kiefer1953
 */
export function calibrateRate(
  request: BlockHeatRequest,
  readings: readonly CoreReading[],
  fitted: 'rate' | 'rate and heat' = 'rate',
): HeatCalibration {
  const wrong = nonsense(request)
  const log = readings
    .filter(({ time, temperature }) => time >= 0 && Number.isFinite(time) && temperature > 0)
    .sort((a, b) => a.time - b.time)
  const last = log.at(-1)
  if (wrong.length > 0 || last === undefined || log.length < ENOUGH || last.time <= 0) {
    const short: Finding = {
      code: 'heat-log-too-short',
      severity: 'warn',
      values: { logged: log.length, leastLogged: ENOUGH },
    }
    return {
      rateFactor: undefined,
      heatFactor: 1,
      residual: undefined,
      findings: wrong.length > 0 ? wrong : [short],
    }
  }

  const base = heatCase({ ...request, resolution: COARSE_RESOLUTION, every: 600 }, 'nominal')
  const coresAt = (rate: number, heat: number): number[] => {
    const { series } = runBlock({
      ...base,
      reaction: { ...base.reaction, rate: base.reaction.rate * rate, heat: base.reaction.heat * heat },
      rules: { ...base.rules, longest: last.time },
      whole: true,
    })
    return log.map(({ time }) => coreAt(series, time))
  }
  const misses = (rate: number, heat: number): number[] =>
    coresAt(rate, heat).map((core, i) => Math.abs((log[i]?.temperature ?? core) - core))
  const cost = (rate: number, heat: number): number =>
    misses(rate, heat).reduce((sum, miss) => sum + robust(miss), 0)

  let best: BestRate & { readonly heat: number } = { rate: 1, heat: 1, cost: Infinity, seen: [] }
  for (const heat of fitted === 'rate' ? [1] : HEAT_FACTORS) {
    const found = bestRate((rate) => cost(rate, heat))
    if (found.cost < best.cost) best = { ...found, heat }
  }
  const cores = coresAt(best.rate, best.heat)
  const residual = median(cores.map((core, i) => Math.abs((log[i]?.temperature ?? core) - core)))
  const isSharp = [A_THIRD, 1 / A_THIRD].every((by) =>
    coresAt(best.rate * by, best.heat).some((core, i) => Math.abs(core - (cores[i] ?? core)) > TELLS),
  )
  // half of 1 K squared at every reading
  const asGood = best.cost + log.length / 2
  const isAlone = best.seen.every(
    (other) => Math.abs(Math.log(other.rate / best.rate)) < Math.log(ANOTHER) || other.cost > asGood,
  )
  const findings: Finding[] = []
  if (residual > MATCHES)
    findings.push({
      code: 'heat-log-not-matched',
      severity: 'warn',
      values: { missed: residual, missAllowed: MATCHES },
    })
  else if (isAlone && (best.rate < LOWEST * 1.02 || best.rate > HIGHEST / 1.02))
    findings.push({
      code: 'heat-log-beyond-rates',
      severity: 'warn',
      values: { slowest: LOWEST, fastest: HIGHEST },
    })
  else if (!isSharp || !isAlone)
    findings.push({ code: 'heat-log-tells-nothing', severity: 'warn', values: {} })
  return { rateFactor: best.rate, heatFactor: best.heat, residual, findings }
}

/**
 * What one log of a maker says of his recipe: the rate, and the heat too where no rate alone matches it.
 *
 * A tenth more or less heat is enough for a log of a fast block to be missed by more than 3 K at every rate, and a tenth
 * is less than is known of heat: without the second try most logs would be refused. Nothing is fitted to readings that
 * cannot be true.
 *
 * @param request  block as it was poured
 * @param readings in the core, t ≥ 0
 * @returns factors [–] to be used when there are no findings
 * @source huber1964, kiefer1953
 */
export function calibrateLog(request: BlockHeatRequest, readings: readonly CoreReading[]): HeatCalibration {
  const { room } = request
  const colder = readings.find(({ temperature }) => temperature < room - COLDER_ROOM)
  if (colder)
    return {
      rateFactor: undefined,
      heatFactor: 1,
      residual: undefined,
      findings: [
        {
          code: 'core-colder-than-room',
          severity: 'warn',
          values: { temperature: colder.temperature, after: colder.time, room },
        },
      ],
    }
  const byRate = calibrateRate(request, readings)
  const isMissed = byRate.findings.some(({ code }) => code === 'heat-log-not-matched')
  if (!isMissed || readings.length < ENOUGH_FOR_BOTH) return byRate
  const byBoth = calibrateRate(request, readings, 'rate and heat')
  return byBoth.findings.length === 0 ? byBoth : byRate
}

/** Scatter of ln(rate) between batches of one recipe: with it one log leaves a third either way (estimate) */
const SCATTER = Math.log(A_THIRD) / (2 * Math.SQRT2)
/** logs that this estimate counts as (estimate) */
const COUNTS_AS = 3
/** of the heat, that a log leaves: more is seen as a curve that misses the readings [–] (estimate) */
const HEAT_LEFT = 0.15

/**
 * Bands of rate and heat of a recipe, from all logs of it that could be used.
 *
 *     factor = geometric mean;   width = exp(2 s √(1 + 1/n)),   s² = (3 s₀² + Σ(ln f − mean)²) / (3 + n − 1)
 *
 * The next batch scatters about the mean as the logged ones do: about 95 in 100 within the width. s₀ = 0.10 is an estimate
 * that stands for three logs, so that two logs that agree by luck promise little. One log: rate × ¾ to × 1⅓; five that
 * agree: × 0.86 to × 1.16. The heat keeps 15 % either way, an estimate: by how much a log already misses.
 *
 * @param fits     factors of each log, at least one
 * @param reaction bands that the logs were fitted with
 * @returns bands in place of those of the reaction
 * @source common practice
 */
export function calibratedReaction(
  fits: readonly { readonly rateFactor: number; readonly heatFactor: number }[],
  { rate, heat }: { readonly rate: Band; readonly heat: Band },
): { readonly rate: Band; readonly heat: Band } {
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length
  const logs = fits.map(({ rateFactor }) => Math.log(rateFactor))
  const middle = mean(logs)
  const spread = logs.reduce((sum, value) => sum + (value - middle) ** 2, 0)
  const deviation = Math.sqrt((COUNTS_AS * SCATTER ** 2 + spread) / (COUNTS_AS + logs.length - 1))
  const width = Math.exp(2 * deviation * Math.sqrt(1 + 1 / logs.length))
  const nominalRate = rate.nominal * Math.exp(middle)
  const nominalHeat = heat.nominal * Math.exp(mean(fits.map(({ heatFactor }) => Math.log(heatFactor))))
  return {
    rate: { low: nominalRate / width, nominal: nominalRate, high: nominalRate * width },
    heat: {
      low: nominalHeat * (1 - HEAT_LEFT),
      nominal: nominalHeat,
      high: nominalHeat * (1 + HEAT_LEFT),
    },
  }
}

const robust = (miss: number): number => (miss <= STRAY ? miss ** 2 / 2 : STRAY * (miss - STRAY / 2))

interface BestRate {
  readonly rate: number
  readonly cost: number
  /** of the coarse look */
  readonly seen: readonly { readonly rate: number; readonly cost: number }[]
}

/** Least cost over the rates: a coarse look over all of them, then the golden section round the best. */
function bestRate(cost: (rate: number) => number): BestRate {
  const width = Math.log(HIGHEST / LOWEST) / (COARSE_STEPS - 1)
  const at = (step: number): number => Math.log(LOWEST) + step * width
  let best = { place: at(0), cost: Infinity }
  const see = (place: number): number => {
    const value = cost(Math.exp(place))
    if (value < best.cost) best = { place, cost: value }
    return value
  }
  const seen = Array.from({ length: COARSE_STEPS }, (_, step) => ({
    rate: Math.exp(at(step)),
    cost: see(at(step)),
  }))
  let low = Math.max(at(0), best.place - width)
  let high = Math.min(at(COARSE_STEPS - 1), best.place + width)
  const golden = (Math.sqrt(5) - 1) / 2
  let left = { place: high - golden * (high - low), cost: 0 }
  let right = { place: low + golden * (high - low), cost: 0 }
  left.cost = see(left.place)
  right.cost = see(right.place)
  for (let turn = 0; turn < NARROWINGS; turn += 1) {
    if (left.cost < right.cost) {
      high = right.place
      right = left
      left = { place: high - golden * (high - low), cost: 0 }
      left.cost = see(left.place)
    } else {
      low = left.place
      left = right
      right = { place: low + golden * (high - low), cost: 0 }
      right.cost = see(right.place)
    }
  }
  return { rate: Math.exp(best.place), cost: best.cost, seen }
}

/** K, linear between the rows of a series */
function coreAt(series: readonly HeatRow[], time: number): number {
  const after = series.findIndex((row) => row.time >= time)
  const next = series[after] ?? series.at(-1)
  const before = series[after - 1]
  if (!next) return Number.NaN
  if (after <= 0 || !before) return next.core
  return before.core + ((next.core - before.core) * (time - before.time)) / (next.time - before.time)
}

const median = (values: readonly number[]): number => {
  const sorted = values.toSorted((a, b) => a - b)
  const half = Math.floor(sorted.length / 2)
  const upper = sorted[half] ?? 0
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? upper) + upper) / 2
}
