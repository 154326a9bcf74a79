/** How far under its stated weight one package may be in the United States. */

/** A step of the table [g]: packages up to this label, and how far under it one may be. */
type Step = { readonly upTo: number } & ({ readonly share: number } | { readonly grams: number })

/** From memory: to be held against the printed table before anybody relies on it. */
const STEPS: readonly Step[] = [
  { upTo: 36, share: 0.1 },
  { upTo: 54, grams: 3.6 },
  { upTo: 81, grams: 5.4 },
  { upTo: 117, grams: 7.2 },
  { upTo: 154, grams: 9 },
  { upTo: 208, grams: 10.8 },
  { upTo: 263, grams: 12.7 },
  { upTo: 317, grams: 14.5 },
]

/** Label weights on a step's end must not fall over it by their last bit [g]. */
const SLACK = 1e-9

/**
 * Maximum allowable variation of a package that is sold by weight.
 *
 *     to 36 g 10 %;  54 g 3.6;  81 g 5.4;  117 g 7.2;  154 g 9.0;  208 g 10.8;  263 g 12.7;  317 g 14.5 g
 *
 * Valid for labels of up to 317 g; the steps above are not in this table.
 *
 * @param label weight that the label states [kg]
 * @returns how far one package may be under it [kg]; undefined outside the table
 * @source nist-handbook-133
 * @example maximumAllowableVariation(0.12) // 0.009
 */
export function maximumAllowableVariation(label: number): number | undefined {
  const grams = label * 1000
  if (!(grams > 0)) return undefined
  const step = STEPS.find(({ upTo }) => grams <= upTo + SLACK)
  if (!step) return undefined
  return ('share' in step ? step.share * grams : step.grams) / 1000
}
