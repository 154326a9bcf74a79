/** How pure an alkali is that nobody has analysed, and what no dry alkali is sold as. */
import type { Finding } from '../findings.ts'
import type { Range } from '../numerics/spread.ts'
import type { Alkali, Purity } from './alkali.ts'

/** What is on the drum or the label; a range where somebody has stated one [–]. */
export interface StatedPurity {
  readonly name: string
  readonly kind: Alkali
  readonly purity: number
  readonly range?: Range | undefined
  /** share of its weight that it may have drawn from the air since it was opened [–] */
  readonly damp?: number | undefined
}

/**
 * How far a stated purity may be off where nobody says [–], estimates. Sodium hydroxide carries up to 3 % of salts, so a
 * label says 97 to 99. Potassium hydroxide is sold as "at least 85" and comes with up to 90.
 */
const UNSTATED: Readonly<Record<Alkali, { readonly under: number; readonly over: number }>> = {
  NaOH: { under: 0.01, over: 0.01 },
  KOH: { under: 0.02, over: 0.05 },
}

/** No dry alkali of the trade is less pure than this [–]: what says so is another thing, or a slip of the pen. */
const LEAST: Readonly<Record<Alkali, number>> = { NaOH: 0.9, KOH: 0.8 }

/** Titrated or by its label, a stock lye is known to this [– of the solution], estimate. */
const UNSTATED_STRENGTH = 0.01

/**
 * Purity of a dry alkali with its limits.
 *
 *     range as stated, else purity − 1 % to + 1 % (NaOH), − 2 % to + 5 % (KOH), at most 100 %;  low end · (1 − damp)
 *
 * A purity below 90 % (NaOH) or 80 % (KOH) is a stop: too high a weight would be printed for what is nearly pure.
 *
 * @param stated purity, range and damp [–]
 * @returns nominal, low, high [–], and findings
 * @source inrs20, inrs35, common practice
 */
export function dryPurity({ name, kind, purity, range, damp = 0 }: StatedPurity): Purity & {
  readonly findings: readonly Finding[]
} {
  const { under, over } = UNSTATED[kind]
  const low = (range?.low ?? purity - under) * (1 - damp)
  const high = range?.high ?? Math.min(1, purity + over)
  const findings: Finding[] = []
  if (purity < LEAST[kind])
    findings.push({
      code: 'purity-too-low',
      severity: 'stop',
      values: { name, share: purity, limit: LEAST[kind] },
    })
  if (!range) findings.push({ code: 'purity-range-missing', severity: 'warn', values: { name, low, high } })
  return { nominal: purity, low, high, findings }
}

/**
 * Strength of a ready stock lye with its limits.
 *
 *     range as stated, else ± 1 %
 *
 * @param stated name, strength and range [–]
 * @returns nominal, low, high [–], and findings
 * @source common practice
 */
export function stockStrength({
  name,
  strength,
  range,
}: {
  readonly name: string
  readonly strength: number
  readonly range?: Range | undefined
}): Purity & { readonly findings: readonly Finding[] } {
  const low = range?.low ?? strength - UNSTATED_STRENGTH
  const high = range?.high ?? strength + UNSTATED_STRENGTH
  return {
    nominal: strength,
    low,
    high,
    findings: range ? [] : [{ code: 'purity-range-missing', severity: 'warn', values: { name, low, high } }],
  }
}
