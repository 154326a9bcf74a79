/** How close some sizes must be for a wanted spread of the result, all else as it is. */
import type { Finding } from '../findings.ts'
import { type Contribution, NEARLY_ALL, stackUp, TOLERANCE_IN_DEVIATIONS } from './stack.ts'

export interface NeededTolerance {
  /** ± of each of the sizes asked for, in their unit; undefined where all others alone spread more than is wanted */
  readonly tolerance: number | undefined
  /** ± that nearly all results keep with these sizes perfect, in the unit of the result */
  readonly ofTheRest: number
  readonly findings: readonly Finding[]
}

/**
 * The tolerance, the same for all sizes asked for, that gives a wanted spread.
 *
 *     t = √((W²/9 − u_rest²) / Σ (aᵢ / kᵢ)²)      W = wanted, ± of nearly all;   k as in the stack-up
 *
 * Validity: as the stack-up, no shifted means.
 *
 * @param contributions all errors of the result
 * @param asked         keys of those whose tolerance is looked for
 * @param wanted        ± that nearly all results shall keep, in the unit of the result, > 0
 * @returns tolerance in the unit of these errors; a finding where the others alone spread more, or none asked matters
 * @source scholz1995, jcgm100
 */
export function neededTolerance(
  contributions: readonly Contribution[],
  asked: readonly string[],
  wanted: number,
): NeededTolerance {
  const isAsked = ({ key }: Contribution): boolean => asked.includes(key)
  const rest = stackUp(contributions.filter((one) => !isAsked(one)))
  const each = contributions
    .filter(isAsked)
    .reduce(
      (sum, { sensitivity, distribution }) =>
        sum + (sensitivity / TOLERANCE_IN_DEVIATIONS[distribution]) ** 2,
      0,
    )
  const room = (wanted / NEARLY_ALL) ** 2 - rest.deviation ** 2
  const ofTheRest = NEARLY_ALL * rest.deviation
  if (room < 0 || each === 0)
    return {
      tolerance: undefined,
      ofTheRest,
      findings: [
        {
          code: 'wanted-spread-out-of-reach',
          severity: 'warn',
          values: { spreadWanted: wanted, spreadOfRest: ofTheRest },
        },
      ],
    }
  return { tolerance: Math.sqrt(room / each), ofTheRest, findings: [] }
}
