/** What a label may say that a bar weighs, and in which units. */
import type { Finding } from '../findings.ts'
import { studentQuantile } from '../numerics/student-t.ts'
import { maximumAllowableVariation } from './allowable-variation.ts'
import type { Region } from './regions.ts'
import { tolerableNegativeError } from './tolerable-error.ts'

/** Every bar weighs it at least; or bars weigh it on the average, none of them far less. */
export type WeightRule = 'least' | 'average'

export interface NetQuantityInput {
  readonly region: Region
  readonly rule: WeightRule
  /** as weighed at wrapping [kg] */
  readonly bars: readonly number[]
  /** all bars of the batch were weighed, not some of them */
  readonly all: boolean
  /** of each bar, to its last day of sale [kg] */
  readonly stillToLose?: number
  /** by which the scale may show too much [kg] */
  readonly scaleError?: number
}

/** What kept the weight from being more. */
export type NetLimit =
  | 'lightest-bar'
  | 'mean'
  | 'tolerable-error'
  | 'twice-tolerable-error'
  | 'allowable-variation'

export interface NetQuantity {
  /** whole grams [kg]; undefined: no weight is true of these bars */
  readonly declared: number | undefined
  readonly limit: NetLimit | undefined
  /** of the bars less what they may lose and what the scale may be off [kg] */
  readonly mean: number
  readonly lightest: number
  /** that the mean of all bars is not below, with 95 % confidence where only some were weighed [kg] */
  readonly meanAtLeast: number
  /** how far one bar may be under the weight that is declared [kg] */
  readonly tolerance: number | undefined
  /** bars that are further under it than that */
  readonly beyondTolerance: number
  readonly findings: readonly Finding[]
}

const GRAM = 0.001
/** Of a gram: 120 g must not become 119 g by its last bit. */
const SLACK = 1e-6

/** Of a lot that may be beyond the tolerable error [–]: German FPackV, read; the directive says "small". */
const MAY_BE_BEYOND = 0.02
/** From some bars to all of them [–], common practice. */
const CONFIDENCE = 0.95
/** With fewer the mean of a sample says little, common practice. */
const FEW_BARS = 5

/**
 * The weight to declare.
 *
 *     bar = as weighed − still to lose − scale error
 *     least:    the most whole grams that every bar has
 *     average:  the most whole grams Q with   mean ≥ Q   (of a sample: mean − t(95 %, n − 1) s / √n ≥ Q)
 *               EU, Great Britain:  at most 2 % of bars below Q − error,  none below Q − 2 · error
 *               United States:      none below Q − maximum allowable variation
 *
 * Rounded down always. Where the average rule has no figures (Canada; contents outside of the tables) the least weight
 * is declared, and a finding says so.
 *
 * @param input region, rule, bars [kg], what they lose [kg]
 * @returns declared weight [kg] with what limits it, and findings
 * @source directive-76-211, nist-handbook-133, cfr-16-500
 */
export function netQuantity(input: NetQuantityInput): NetQuantity {
  const off = (input.stillToLose ?? 0) + (input.scaleError ?? 0)
  const bars = input.bars.map((bar) => bar - off)
  const findings: Finding[] = []
  if (bars.length === 0 || !bars.every((bar) => bar > 0 && Number.isFinite(bar))) {
    findings.push({ code: 'bars-not-weighed', severity: 'stop', values: { count: bars.length } })
    return { ...NOTHING, findings }
  }
  const lightest = Math.min(...bars)
  const mean = bars.reduce((sum, bar) => sum + bar, 0) / bars.length
  const meanAtLeast = input.all ? mean : lowEndOfMean(bars, mean)
  if (!input.all && bars.length < FEW_BARS)
    findings.push({ code: 'few-bars-weighed', severity: 'warn', values: { count: bars.length } })
  const found =
    (input.rule === 'average' ? byAverage(input.region, bars, meanAtLeast) : undefined) ?? byLeast(lightest)
  if (input.rule === 'average' && found.limit === 'lightest-bar')
    findings.push({
      code: 'average-rule-unknown',
      severity: 'warn',
      values: { region: input.region, mass: mean },
    })
  if (input.rule === 'least' && !input.all)
    findings.push({ code: 'lightest-not-known', severity: 'warn', values: { count: bars.length } })
  if (found.declared <= 0) {
    findings.push({ code: 'bars-below-one-gram', severity: 'stop', values: { mass: lightest } })
    return { ...NOTHING, mean, lightest, meanAtLeast, findings }
  }
  const { declared, tolerance } = found
  const beyondTolerance =
    tolerance === undefined ? 0 : bars.filter((bar) => isBelow(bar, declared - tolerance)).length
  return { ...found, mean, lightest, meanAtLeast, beyondTolerance, findings }
}

const NOTHING = {
  declared: undefined,
  limit: undefined,
  mean: Number.NaN,
  lightest: Number.NaN,
  meanAtLeast: Number.NaN,
  tolerance: undefined,
  beyondTolerance: 0,
} as const

type Found = { readonly declared: number; readonly limit: NetLimit; readonly tolerance: number | undefined }

const wholeGrams = (mass: number): number => Math.floor(mass / GRAM + SLACK)
const isBelow = (bar: number, line: number): boolean => bar < line - SLACK * GRAM

const byLeast = (lightest: number): Found => ({
  declared: wholeGrams(lightest) / 1000,
  limit: 'lightest-bar',
  tolerance: undefined,
})

/** Down from the mean gram by gram: steps of the tables make no rule that could be turned round. */
function byAverage(region: Region, bars: readonly number[], meanAtLeast: number): Found | undefined {
  let limit: NetLimit = 'mean'
  for (let grams = wholeGrams(meanAtLeast); grams > 0; grams -= 1) {
    const declared = grams / 1000
    const broken = region === 'US' ? brokenInUS(declared, bars) : brokenInEurope(region, declared, bars)
    if (broken === 'no-figure') return undefined
    if (typeof broken === 'number') return { declared, limit, tolerance: broken }
    limit = broken
  }
  return undefined
}

/** The rule that a weight breaks, or how far a bar may be under it if it breaks none. */
function brokenInUS(declared: number, bars: readonly number[]): NetLimit | 'no-figure' | number {
  const variation = maximumAllowableVariation(declared)
  if (variation === undefined) return 'no-figure'
  return bars.some((bar) => isBelow(bar, declared - variation)) ? 'allowable-variation' : variation
}

function brokenInEurope(
  region: Region,
  declared: number,
  bars: readonly number[],
): NetLimit | 'no-figure' | number {
  const tolerable = region === 'CA' ? undefined : tolerableNegativeError(declared)
  if (!tolerable) return 'no-figure'
  if (bars.some((bar) => isBelow(bar, declared - tolerable.twice))) return 'twice-tolerable-error'
  const beyond = bars.filter((bar) => isBelow(bar, declared - tolerable.error)).length
  return beyond > MAY_BE_BEYOND * bars.length ? 'tolerable-error' : tolerable.error
}

function lowEndOfMean(bars: readonly number[], mean: number): number {
  const n = bars.length
  // of a single bar nobody knows how much others differ: the average rule is no use then
  if (n < 2) return mean
  const variance = bars.reduce((sum, bar) => sum + (bar - mean) ** 2, 0) / (n - 1)
  return mean - studentQuantile(CONFIDENCE, n - 1) * Math.sqrt(variance / n)
}

/** Exact, by definition of the pound. */
export const OUNCE = 0.028349523125
const OUNCES_A_POUND = 16
/** Pounds from which the ounces are not given in all any more. */
const POUNDS_ALONE = 4

export interface NetStatement {
  /** kg, in whole grams; of more than 1 kg in the United States three digits */
  readonly metric: number
  /** undefined where the law asks for metric units only */
  readonly avoirdupois:
    | {
        /** all of it in ounces, two decimals, rounded down; from 4 lb on undefined */
        readonly ounces: number | undefined
        /** from 1 lb on: whole pounds, and the ounces left over */
        readonly pounds: number | undefined
        readonly remainder: number | undefined
      }
    | undefined
}

/**
 * A declared weight in the units that a label states it in.
 *
 *     US: ounces = ⌊100 m / 28.349523125 g⌋ / 100;  from 1 lb on with pounds and what is left over;  and grams
 *     elsewhere: grams alone
 *
 * Neither unit overstates the weight. Under 1 lb in ounces; up to 4 lb in ounces with pounds and ounces in brackets; from
 * there on in pounds and ounces (that step from memory). Soap and cosmetics alike: the one must, the other may bear both.
 * No rule that was read says which unit stands first.
 *
 * @param declared weight [kg]
 * @param region whose label it is
 * @returns metric [kg] and avoirdupois [oz, lb]
 * @source cfr-16-500, cfr-21-701-13, nist-handbook-44
 * @example netStatement(0.12, 'US').avoirdupois?.ounces // 4.23
 */
export function netStatement(declared: number, region: Region): NetStatement {
  const grams = wholeGrams(declared)
  if (region !== 'US') return { metric: grams / 1000, avoirdupois: undefined }
  // three digits: whole grams below 1 kg, tens of grams below 10 kg
  const step = grams < 1000 ? 1 : 10 ** (Math.floor(Math.log10(grams)) - 2)
  const hundredths = Math.floor((100 * declared) / OUNCE + SLACK)
  const pounds = Math.floor(hundredths / (100 * OUNCES_A_POUND))
  return {
    metric: (Math.floor(grams / step) * step) / 1000,
    avoirdupois: {
      ounces: pounds < POUNDS_ALONE ? hundredths / 100 : undefined,
      pounds: pounds > 0 ? pounds : undefined,
      remainder: pounds > 0 ? (hundredths - pounds * 100 * OUNCES_A_POUND) / 100 : undefined,
    },
  }
}
