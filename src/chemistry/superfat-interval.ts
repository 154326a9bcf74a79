/** What the superfat really is once ranges, purity and scales are counted, and what would make it safer. */
import type { Finding } from '../findings.ts'
import { type Contribution, superfatContributions } from './superfat-contributions.ts'
import type { SuperfatInput } from './superfat-input.ts'
import { findRemedies, type Remedy } from './superfat-remedies.ts'
import { type SuperfatSpread, superfatSpread } from './superfat-spread.ts'

export interface SuperfatMargin extends SuperfatSpread {
  /** standard uncertainty of the superfat by cause [–], largest first */
  readonly contributions: readonly Contribution[]
  /** what would bring the batch to go, best first; empty when it is there */
  readonly remedies: readonly Remedy[]
  readonly findings: readonly Finding[]
}

/** Where a bar is commonly said to turn soft and rancid early [–], common practice. */
export const SOFT_LIMIT = 0.1

/**
 * Superfat of what was really weighed, with its margin.
 *
 *     s = 1 − (Σ m p / M − n(acids)) / (Σ m SV / M(KOH))
 *
 * Each saponification value and purity may be anything between its limits, all as likely: nothing but limits is
 * published, and they are the limits of a whole trade, wider than one lot. A weighing errs by half a division at most
 * for each draw, and by its repeatability; the span error of a scale is the same for all on it and cancels where fats
 * and alkali share one. stop: nominal under the floor, or the lower 95 % bound under 0; hold: only the worst case
 * under 0; else go.
 *
 * @param input masses [kg], saponification values [kg KOH per kg], purities [–], scales [kg, –], floor [–]
 * @returns superfats [–], state, causes, remedies, findings
 * @source jcgm100, jcgm101
 */
export function superfatMargin(input: SuperfatInput): SuperfatMargin {
  const spread = superfatSpread(input)
  const softLimit = input.softLimit ?? SOFT_LIMIT
  const findings: Finding[] = []
  const add = (code: string, severity: Finding['severity'], values: Finding['values']) =>
    findings.push({ code, severity, values })
  if (spread.nominal < input.floor)
    add('superfat-under-floor', 'stop', { nominal: spread.nominal, floor: input.floor })
  if (spread.monteCarlo.low < 0)
    add('superfat-lower-bound-negative', 'stop', { lower: spread.monteCarlo.low, nominal: spread.nominal })
  if (spread.state === 'hold')
    add('superfat-worst-case-negative', 'hold', { worst: spread.worst.low, nominal: spread.nominal })
  if (spread.monteCarlo.high > softLimit)
    add('superfat-may-be-soft', 'warn', { upper: spread.monteCarlo.high, limit: softLimit })
  for (const fat of input.fats) {
    if (fat.saponificationValue.basis === 'middle-of-range')
      add('saponification-value-is-middle-of-range', 'warn', {
        fat: fat.key,
        saponificationValue: fat.saponificationValue.nominal,
      })
  }
  return {
    ...spread,
    contributions: superfatContributions(input),
    remedies: spread.state === 'go' ? [] : findRemedies(input, spread),
    findings,
  }
}
