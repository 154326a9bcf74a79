/** How far under its nominal content one pack of a lot may be. */

export interface TolerableError {
  /** kg under the nominal content; no more than a small share of a lot may be further under it */
  readonly error: number
  /** kg, twice that: no pack at all may be further under it */
  readonly twice: number
}

/** A step of the table: up to this content [kg] either a share of it [–] or a fixed mass [kg]. */
type Step = { readonly upTo: number } & ({ readonly share: number } | { readonly mass: number })

/** Nominal contents from 5 g to 10 kg, read. */
const LEAST = 0.005
const STEPS: readonly Step[] = [
  { upTo: 0.05, share: 0.09 },
  { upTo: 0.1, mass: 0.0045 },
  { upTo: 0.2, share: 0.045 },
  { upTo: 0.3, mass: 0.009 },
  { upTo: 0.5, share: 0.03 },
  { upTo: 1, mass: 0.015 },
  { upTo: 10, share: 0.015 },
]

/** Errors that come from a share are rounded up to a tenth of a gram [kg]. */
const TENTH_OF_A_GRAM = 1e-4

/** Tenths of a gram; 4.5 % of 100 g must not become 4.6 g by its last bit. */
const SLACK = 1e-6

/**
 * Tolerable negative error of a pack that is sold by weight.
 *
 *     5–50 g 9 %;  50–100 g 4.5 g;  100–200 g 4.5 %;  200–300 g 9 g;  300–500 g 3 %;  500–1000 g 15 g;  1–10 kg 1.5 %
 *     a share is rounded up to 0.1 g;  twice = 2 · error
 *
 * Where two steps meet they give the same. Valid for nominal contents of 5 g to 10 kg; the table has nothing outside.
 *
 * @param nominal content that the label states [kg]
 * @returns error and twice the error [kg]; undefined outside the table and for what is no number
 * @source directive-76-211
 * @example tolerableNegativeError(0.125)?.error // 0.0057
 */
export function tolerableNegativeError(nominal: number): TolerableError | undefined {
  if (!(nominal >= LEAST)) return undefined
  const step = STEPS.find(({ upTo }) => nominal <= upTo)
  if (!step) return undefined
  const tenths =
    'mass' in step
      ? Math.round(step.mass / TENTH_OF_A_GRAM)
      : Math.ceil((step.share * nominal) / TENTH_OF_A_GRAM - SLACK)
  return { error: tenths / 10_000, twice: (2 * tenths) / 10_000 }
}
