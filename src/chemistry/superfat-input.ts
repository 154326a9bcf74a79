/** What is known of a batch's weighings: masses, values with limits, scales. */
import type { Range } from '../numerics/spread.ts'
import type { Alkali, Purity } from './alkali.ts'

export interface ScaleErrors {
  /** smallest step [kg] */
  readonly division: number
  /** standard deviation of one weighing [kg] */
  readonly repeatability: number
  /** largest error of the scale's span [–], common to all that is weighed on it */
  readonly span: number
}

export interface Weighing {
  /** key in `scales` */
  readonly scale: string
  /** number of separate draws */
  readonly draws: number
}

export interface UncertainFat {
  readonly key: string
  readonly mass: number
  /** kg KOH per kg fat */
  readonly saponificationValue: Range & { readonly nominal: number; readonly basis?: string }
  readonly weighing: Weighing
}

export interface UncertainAlkali {
  readonly alkali: Alkali
  /** as weighed out, after rounding to the scale [kg] */
  readonly mass: number
  readonly purity: Purity
  readonly weighing: Weighing
}

/** An added acid: it takes alkali from the fats, so that too little of it leaves alkali over. */
export interface UncertainAcid {
  readonly key: string
  /** as weighed out, after rounding to the scale [kg] */
  readonly mass: number
  /** hydroxide that it takes [mol/kg] */
  readonly hydroxidePerMass: number
  readonly weighing: Weighing
}

export interface SuperfatInput {
  readonly fats: readonly UncertainFat[]
  readonly alkalis: readonly UncertainAlkali[]
  readonly acids?: readonly UncertainAcid[]
  /** hydroxide that acids of exactly known amount take [mol] */
  readonly hydroxideForAcids?: number
  readonly scales: Readonly<Record<string, ScaleErrors>>
  /** the shop's smallest nominal superfat [–] */
  readonly floor: number
  /** above this a bar turns soft and rancid early [–]; 0.10 where the shop sets none (common practice) */
  readonly softLimit?: number
  readonly seed?: number
  readonly draws?: number
}

/** Keys of the scales that anything is weighed on, each once. */
export const scaleKeys = ({ fats, alkalis, acids = [] }: SuperfatInput): string[] => [
  ...new Set([...fats, ...alkalis, ...acids].map((item) => item.weighing.scale)),
]

const EXACT_SCALE: ScaleErrors = { division: 0, repeatability: 0, span: 0 }

/**
 * Errors of the scale with a key; a scale that is not listed counts as exact.
 *
 *     scales[key]
 *
 * @param input batch
 * @param key   of the scale
 * @returns division [kg], repeatability [kg], span [–]
 * @source common practice
 */
export const scaleOf = (input: SuperfatInput, key: string): ScaleErrors => input.scales[key] ?? EXACT_SCALE

/**
 * Standard deviation of a mass that is weighed in several draws.
 *
 *     u = √(n (d² / 12 + r²))
 *
 * @param input    batch
 * @param weighing scale and number of draws
 * @returns deviation [kg]
 * @source jcgm100
 */
export function massDeviation(input: SuperfatInput, weighing: Weighing): number {
  const { division, repeatability } = scaleOf(input, weighing.scale)
  return Math.sqrt(weighing.draws * (division ** 2 / 12 + repeatability ** 2))
}
