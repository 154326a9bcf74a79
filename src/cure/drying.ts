/** What the weigh-ins of a batch say of its bars: their weight on a day to come, and what they lose until then. */
import type { Finding } from '../findings.ts'
import { fitCurve } from '../numerics/least-squares.ts'
import { risingRoot } from '../numerics/root.ts'
import type { Interval } from '../numerics/spread.ts'
import { studentQuantile } from '../numerics/student-t.ts'
import {
  type FormName,
  HALF,
  type LossBetween,
  shareLeft,
  shareSlope,
  type WeightOn,
} from './drying-forms.ts'

export interface WeighIn {
  /** d after the pour */
  readonly days: number
  /** kg, of one bar: the mean when several are weighed together */
  readonly mass: number
}

export interface DryingSetting {
  readonly weighIns: readonly WeighIn[]
  /** d after the pour at which the bars stand free on all faces */
  readonly freeFrom: number
  /** kg, standard deviation of one weigh-in by the scale alone */
  readonly scaleDeviation: number
  /** kg of a bar without its water; it never dries below that. Without it only weights below nothing are ruled out */
  readonly dryMass?: number
}

/** One form as it was fitted. */
export interface FittedForm {
  readonly form: FormName
  /** kg at the end, kg still to lose when the bars stand free, 1/d of the tail */
  readonly plateau: number
  readonly loss: number
  readonly rate: number
  /** standard errors of the three; undefined when a limit of what can be decided the fit */
  readonly errors: { readonly plateau: number; readonly loss: number; readonly rate: number } | undefined
  /** d until half of the loss has left */
  readonly halfTime: number
  /** kg2, and kg of a weigh-in about the curve */
  readonly sumOfSquares: number
  readonly deviation: number
  /** kg of the bars on a day, 95 % */
  readonly weightOn: WeightOn
  /** kg that they may lose at most between two days, 97.5 % */
  readonly lossBetween: LossBetween
  /** true when the weigh-ins leave it open where the drying ends */
  readonly endOpen: boolean
}

/** A weigh-in that does not go with the others. It is told, and stays in the fit. */
export interface Suspect {
  readonly days: number
  /** kg above the form that fits better */
  readonly residual: number
  /** externally studentised residual [–], and the limit it passes */
  readonly studentised: number
  readonly limit: number
}

export interface Drying {
  /** none when the weigh-ins cannot be used: an estimate must do */
  readonly forms: readonly FittedForm[]
  /** kg of the bars on a day after the pour, 95 %, over both forms; undefined without forms */
  readonly weightOn: WeightOn | undefined
  /** kg that one more weigh-in on that day would show, 95 % */
  readonly readingOn: WeightOn | undefined
  /** kg between the middles of the two forms on a day */
  readonly disagreementOn: ((days: number) => number) | undefined
  /** kg that the bars may lose at most between two days, 97.5 %, by the worse of both forms; undefined without forms */
  readonly lossBetween: LossBetween | undefined
  readonly suspects: readonly Suspect[]
  readonly findings: readonly Finding[]
}

/** Weigh-ins on different days: three fix a curve, a fourth says how well. */
const NEEDED = 4
/** d; half times outside of this are no bar of soap */
const HALF_TIMES = { low: 0.25, high: 1000 }
/** Two readings of the same differ by more only once in twenty: 1.96 √2 standard deviations. */
const REPEATABILITY = 2.8 // recalled, ISO 5725-6

/**
 * Weight of curing bars from weigh-ins, by two forms of curve.
 *
 *     m(t) = plateau + loss · g(k t),   g = exp(−k t), and the series of a slab that dries from both faces
 *
 * One exponential reads the plateau too early, since soap has a fast beginning and a long tail; a slab whose faces dry
 * at once has more of a tail. Which of them a batch follows is not known beforehand, so the interval is from the lower
 * of both to the higher of both.
 *
 * Each 95 % interval is a profile: all rates k whose sum of squares is within t² s² of the least, and for each of them
 * the weights that the rest of t² s² allows. It stays honest where a standard error does not, on few weigh-ins that
 * hardly bend. s is the deviation about the curve, never less than the scale's own; t is Student's on n − 3.
 *
 * A weigh-in stands out when its externally studentised residual passes Student's t at 1 − 0.05 / (2 n) about the form
 * that fits better (five weigh-ins or more), and it lies more than two deviations of the scale off. It stays in the fit.
 *
 * Use the days for planning; what stands on a label is weighed when the bar is wrapped.
 *
 * @param setting weigh-ins [d, kg] in the order of time, and what is known of the bars
 * @returns weights [kg] on days after the pour [d] and losses between them, with findings
 * @source crank, bates-watts, cook-weisberg, iso-5725
 */
export function dryingFromWeighIns(setting: DryingSetting): Drying {
  const { weighIns, freeFrom } = setting
  const findings = typingFindings(setting)
  const none: Drying = {
    forms: [],
    weightOn: undefined,
    readingOn: undefined,
    disagreementOn: undefined,
    lossBetween: undefined,
    suspects: [],
    findings,
  }
  if (findings.some(({ severity }) => severity === 'stop')) return none
  // before the bars stand free hardly anything leaves, and all of those readings say the same
  const used = weighIns.filter(({ days }) => days >= freeFrom)
  const days = new Set(used.map((one) => one.days)).size
  if (days < NEEDED) {
    findings.push({ code: 'weigh-ins-too-few', severity: 'warn', values: { have: days, weighIns: NEEDED } })
    return none
  }
  const fits = (['exponential', 'slab'] as const).flatMap((form) => fitForm(form, used, setting) ?? [])
  if (fits.length === 0) {
    findings.push({ code: 'drying-not-seen', severity: 'hold', values: { weighIns: used.length } })
    return none
  }
  const forms = fits.map(({ fitted }) => fitted)
  if (forms.some(({ endOpen }) => endOpen)) {
    findings.push({ code: 'drying-end-open', severity: 'warn', values: { weighIns: used.length } })
  }
  const suspects = suspectsOf(used, fits, setting.scaleDeviation)
  for (const { days: at, residual, studentised, limit } of suspects) {
    findings.push({
      code: 'weigh-in-stands-out',
      severity: 'warn',
      values: { days: at, residual, studentised, limit },
    })
  }
  const weightOn: WeightOn = (at) => widest(forms.map((form) => form.weightOn(at)))
  const readingOn: WeightOn = (at) => widest(fits.map((fit) => fit.readingOn(at)))
  const middles = (at: number): number[] => forms.map((form) => form.weightOn(at).middle)
  return {
    forms,
    weightOn,
    readingOn,
    disagreementOn: (at) => Math.max(...middles(at)) - Math.min(...middles(at)),
    lossBetween: (from, to) => Math.max(...forms.map((form) => form.lossBetween(from, to))),
    suspects,
    findings,
  }
}

/** What is wrong with the list itself. */
function typingFindings({ weighIns, scaleDeviation }: DryingSetting): Finding[] {
  const findings: Finding[] = []
  for (const { days } of weighIns) {
    if (days < 0)
      findings.push({ code: 'weigh-in-before-pour', severity: 'stop', values: { days, early: -days } })
  }
  for (const [i, { days, mass }] of weighIns.entries()) {
    const before = weighIns[i - 1]
    if (before === undefined) continue
    if (days < before.days) {
      findings.push({
        code: 'weigh-ins-out-of-order',
        severity: 'stop',
        values: { days, before: before.days },
      })
    }
    const gain = mass - before.mass
    const noise = REPEATABILITY * scaleDeviation
    if (gain > noise) {
      findings.push({ code: 'weigh-in-gains', severity: 'warn', values: { days, gain, noise } })
    }
  }
  return findings
}

/** A straight line through mass against share left, at one rate. */
interface Line {
  readonly plateau: number
  readonly loss: number
  readonly sum: number
  /** variance of the line on a day, in units of the variance of a weigh-in */
  readonly varianceOn: (days: number) => number
  /** variance of the loss, in the same units */
  readonly lossVariance: number
}

interface Fit {
  readonly fitted: FittedForm
  readonly residuals: readonly number[]
  readonly leverages: readonly number[]
  readonly curve: (days: number) => number
  readonly readingOn: WeightOn
}

function fitForm(form: FormName, used: readonly WeighIn[], setting: DryingSetting): Fit | undefined {
  const dryMass = setting.dryMass ?? 0
  const since = (days: number): number => days - setting.freeFrom
  const count = used.length
  const freedom = count - 3
  const meanMass = mean(used.map(({ mass }) => mass))
  const lineAt = (logRate: number): Line => {
    const rate = Math.exp(logRate)
    const shares = used.map(({ days }) => shareLeft(form, rate, since(days)))
    const meanShare = mean(shares)
    let spread = 0
    let along = 0
    for (const [i, { mass }] of used.entries()) {
      const off = (shares[i] ?? 0) - meanShare
      spread += off * off
      along += off * (mass - meanMass)
    }
    const loss = spread > 0 ? along / spread : 0
    const plateau = meanMass - loss * meanShare
    let sum = 0
    for (const [i, { mass }] of used.entries()) sum += (mass - plateau - loss * (shares[i] ?? 0)) ** 2
    return {
      plateau,
      loss,
      sum,
      varianceOn: (days) =>
        spread > 0
          ? 1 / count + (shareLeft(form, rate, since(days)) - meanShare) ** 2 / spread
          : Number.POSITIVE_INFINITY,
      lossVariance: spread > 0 ? 1 / spread : Number.POSITIVE_INFINITY,
    }
  }
  const bounds = { low: Math.log(HALF[form] / HALF_TIMES.high), high: Math.log(HALF[form] / HALF_TIMES.low) }
  const allowed = (line: Line): boolean => line.loss > 0 && line.plateau >= dryMass

  // The curve is straight in plateau and loss, so that a walk over the rates alone finds the deepest valley.
  const walk = Array.from({ length: 241 }, (_, i) => {
    const at = bounds.low + ((bounds.high - bounds.low) * i) / 240
    return { at, line: lineAt(at) }
  })
  const least = lowest(walk)
  const leastAllowed = lowest(walk.filter(({ line }) => allowed(line)))
  if (least === undefined || leastAllowed === undefined) return undefined
  const first = least.line
  const fit = fitCurve({
    x: used.map(({ days }) => since(days)),
    y: used.map(({ mass }) => mass),
    curve: (x, [plateau = 0, loss = 0, log = 0]) => plateau + loss * shareLeft(form, Math.exp(log), x),
    slopes: (x, [, loss = 0, log = 0]) => [
      1,
      shareLeft(form, Math.exp(log), x),
      loss * shareSlope(form, Math.exp(log), x),
    ],
    start: [first.plateau, first.loss, least.at],
  })
  const found = fit.parameters[2] ?? 0
  const free =
    fit.converged && found > bounds.low && found < bounds.high && allowed(lineAt(found)) && freedom > 0
  const logRate = free ? found : leastAllowed.at
  const line = lineAt(logRate)
  const rate = Math.exp(logRate)

  const deviation = Math.sqrt(line.sum / freedom)
  const counted = Math.max(deviation, setting.scaleDeviation)
  const room = (studentQuantile(0.975, freedom) * counted) ** 2
  const inside = (at: number): boolean => {
    const other = lineAt(at)
    return allowed(other) && other.sum <= line.sum + room
  }
  const edge = (limit: number): number => {
    if (inside(limit)) return limit
    const share = risingRoot((part) => (inside(logRate + part * (limit - logRate)) ? 0 : 1), 0.5, {
      low: 0,
      high: 1,
      tolerance: 1e-6,
    })
    return logRate + Math.max(0, share - 1e-6) * (limit - logRate)
  }
  const low = edge(bounds.low)
  const high = edge(bounds.high)
  const profile = [...Array.from({ length: 61 }, (_, i) => low + ((high - low) * i) / 60), logRate]
    .map((at) => ({ rate: Math.exp(at), line: lineAt(at) }))
    .filter((one) => allowed(one.line))
  const curve = (days: number): number => line.plateau + line.loss * shareLeft(form, rate, since(days))
  const band = (days: number, more: number): Interval => {
    const middle = curve(days)
    let lowest = middle
    let highest = middle
    for (const { rate: other, line: at } of profile) {
      const value = at.plateau + at.loss * shareLeft(form, other, since(days))
      const left = Math.max(0, line.sum + room - at.sum)
      const half = Math.sqrt(left * (at.varianceOn(days) + more))
      lowest = Math.min(lowest, value - half)
      highest = Math.max(highest, value + half)
    }
    return { low: Math.max(dryMass, lowest), middle, high: highest }
  }
  const lossBetween = (from: number, to: number): number => {
    let most = 0
    for (const { rate: other, line: at } of profile) {
      const share = shareLeft(form, other, since(from)) - shareLeft(form, other, since(to))
      const left = Math.max(0, line.sum + room - at.sum)
      most = Math.max(most, share * (at.loss + Math.sqrt(left * at.lossVariance)))
    }
    // no bar loses more than what it has above its dry mass
    return Math.min(most, band(from, 0).high - dryMass)
  }
  const [plateauError = 0, lossError = 0, logError = 0] = fit.errors
  return {
    fitted: {
      form,
      plateau: line.plateau,
      loss: line.loss,
      rate,
      errors: free ? { plateau: plateauError, loss: lossError, rate: rate * logError } : undefined,
      halfTime: HALF[form] / rate,
      sumOfSquares: line.sum,
      deviation,
      weightOn: (days) => band(days, 0),
      lossBetween,
      endOpen: !free || low <= bounds.low || lineAt(low - 1e-3).plateau < dryMass,
    },
    residuals: fit.residuals,
    leverages: fit.leverages,
    curve,
    readingOn: (days) => band(days, 1),
  }
}

function suspectsOf(used: readonly WeighIn[], fits: readonly Fit[], scaleDeviation: number): Suspect[] {
  const count = used.length
  const freedom = count - 3
  if (freedom < 2) return []
  const limit = studentQuantile(1 - 0.05 / (2 * count), freedom - 1)
  const better = fits.reduce((one, other) =>
    other.fitted.sumOfSquares < one.fitted.sumOfSquares ? other : one,
  )
  return used.flatMap(({ days }, i) => {
    const studentised = outside(better, i, freedom)
    const residual = better.residuals[i] ?? 0
    const far = Math.abs(residual) > 2 * scaleDeviation
    return studentised > limit && far ? [{ days, residual, studentised, limit }] : []
  })
}

/** Size of a residual against the spread of all the others. */
function outside({ residuals, leverages }: Fit, i: number, freedom: number): number {
  const sum = residuals.reduce((total, one) => total + one * one, 0)
  const open = 1 - (leverages[i] ?? 1)
  // A point that alone decides its place on the curve cannot be judged.
  if (open < 1e-9 || sum === 0) return 0
  const own = (residuals[i] ?? 0) ** 2 / open
  const others = (sum - own) / (freedom - 1)
  return others > 0 ? Math.sqrt(own / others) : Number.POSITIVE_INFINITY
}

const widest = (intervals: readonly Interval[]): Interval => ({
  low: Math.min(...intervals.map(({ low }) => low)),
  middle: mean(intervals.map(({ middle }) => middle)),
  high: Math.max(...intervals.map(({ high }) => high)),
})

const mean = (values: readonly number[]): number =>
  values.reduce((total, value) => total + value, 0) / values.length

interface Place {
  /** logarithm of the rate */
  readonly at: number
  readonly line: Line
}

const lowest = (places: readonly Place[]): Place | undefined =>
  places.reduce<Place | undefined>(
    (best, one) => (best === undefined || one.line.sum < best.line.sum ? one : best),
    undefined,
  )
