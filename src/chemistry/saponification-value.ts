/** Which saponification value a recipe counts with, and between what limits it lies. */
import type { Finding } from '../findings.ts'
import type { Range } from '../numerics/spread.ts'
import { MOLAR_MASS } from './atomic-weights.ts'
import {
  type Composition,
  saponificationValueOfFreeAcids,
  saponificationValueOfTriglyceride,
} from './composition.ts'

/** What a fat is, as far as lye is concerned. */
export type FatKind = 'triglyceride' | 'wax' | 'fatty-acid'

/** Where the value in use comes from, best first. */
export type SaponificationValueBasis = 'certificate' | 'analysis-of-lot' | 'composition' | 'middle-of-range'

export interface SaponificationValueKnowledge {
  readonly kind: FatKind
  /** published range [kg KOH per kg fat] */
  readonly published: Range
  /** the lot's certificate: value and its ± [kg KOH per kg fat]; tolerance 0.001 where it gives none */
  readonly certificate?: { readonly value: number; readonly tolerance?: number } | undefined
  /** fatty-acid analysis of this very lot; a published mean of other lots does not belong here */
  readonly lotComposition?: Composition | undefined
  /** share that never turns to soap [–] */
  readonly unsaponifiable?: Range | undefined
}

export interface SaponificationValue extends Range {
  readonly nominal: number
  readonly basis: SaponificationValueBasis
  readonly findings: readonly Finding[]
}

/** What a certificate without a stated ± is taken to mean [kg KOH per kg fat]: ± 1 mg/g, common practice. */
export const CERTIFICATE_TOLERANCE = 0.001

/** Uncertainty of a value computed from an analysis of fatty acids [– of the value], estimate. */
const COMPOSITION_TOLERANCE = 0.01

/**
 * The saponification value in use and its limits: certificate, else the lot's analysis, else the middle of the range.
 *
 *     certificate  v ± tolerance
 *     composition  SV(composition) · (1 − u) ± 1 %, u from its lowest to its highest value, nominal at its middle
 *     range        (low + high) / 2, low, high
 *
 * A value outside of the published range is held, one far outside is a stop: more likely a slip of the pen than a lot. A
 * wax cannot be computed from its acids alone and falls through to the range.
 *
 * @param known what is known of the fat [kg KOH per kg fat]
 * @returns nominal, low, high [kg KOH per kg fat], the basis, and findings
 * @source common practice
 */
export function saponificationValue(known: SaponificationValueKnowledge): SaponificationValue {
  const { certificate, published, lotComposition } = known
  if (certificate) {
    const tolerance = certificate.tolerance ?? CERTIFICATE_TOLERANCE
    const range = { low: Math.max(0, certificate.value - tolerance), high: certificate.value + tolerance }
    return withFindings(known, { nominal: certificate.value, ...range, basis: 'certificate' })
  }
  if (lotComposition && known.kind !== 'wax') {
    const unsaponifiable = known.unsaponifiable ?? { low: 0, high: 0 }
    // Of what never turns to soap an analysis of acids says nothing: unknown, it may be as much as the trade has.
    const lowest = known.unsaponifiable ? Number.POSITIVE_INFINITY : published.low
    const whole =
      known.kind === 'fatty-acid'
        ? saponificationValueOfFreeAcids(lotComposition)
        : saponificationValueOfTriglyceride(lotComposition)
    if (whole > 0) {
      return withFindings(known, {
        nominal: whole * (1 - (unsaponifiable.low + unsaponifiable.high) / 2),
        low: Math.min(lowest, whole * (1 - unsaponifiable.high) * (1 - COMPOSITION_TOLERANCE)),
        high: whole * (1 - unsaponifiable.low) * (1 + COMPOSITION_TOLERANCE),
        basis: 'analysis-of-lot',
      })
    }
  }
  return withFindings(known, {
    nominal: (published.low + published.high) / 2,
    low: published.low,
    high: published.high,
    basis: 'middle-of-range',
  })
}

/** Tributyrin, the lightest triglyceride met in food [kg KOH per kg], computed: C15H26O6 is 302.367 g/mol. */
const HIGHEST_OF_ANY_FAT = (3 * MOLAR_MASS.KOH) / 0.302367

/** Below this no common triglyceride lies [kg KOH per kg], common practice. Shea with 19 % unsaponifiable is 0.160. */
const LOWEST_OF_COMMON_TRIGLYCERIDES = 0.155

/**
 * Whether a saponification value can belong to a fat of its kind at all.
 *
 *     stop above 3 M(KOH) / M(tributyrin) = 0.557;  warn below 0.155 for a triglyceride
 *
 * @param kind  triglyceride, wax or free fatty acid
 * @param value kg KOH per kg fat
 * @returns findings
 * @source iupac-atomic-weights
 */
export function plausibleSaponificationValue(kind: FatKind, value: number): readonly Finding[] {
  const values = { saponificationValue: value, limit: HIGHEST_OF_ANY_FAT }
  // Free butyric acid would reach 0.637, but nobody makes soap of it: one limit serves every kind.
  if (value > HIGHEST_OF_ANY_FAT || value <= 0)
    return [{ code: 'saponification-value-impossible', severity: 'stop', values }]
  if (kind === 'triglyceride' && value < LOWEST_OF_COMMON_TRIGLYCERIDES) {
    return [
      {
        code: 'saponification-value-low',
        severity: 'warn',
        values: { ...values, limit: LOWEST_OF_COMMON_TRIGLYCERIDES },
      },
    ]
  }
  return []
}

/**
 * Saponification value by back titration.
 *
 *     SV = (blank − sample) · c(acid) · M(KOH) / m
 *
 * @param titration volumes of acid used [m3], its concentration [mol/m3], mass of fat [kg], > 0, and the molar mass
 *                  to count with [kg/mol] where a source rounds it
 * @returns kg KOH per kg fat
 * @source common practice
 */
export const saponificationValueByTitration = (titration: {
  readonly blankVolume: number
  readonly sampleVolume: number
  readonly acidConcentration: number
  readonly fatMass: number
  readonly potassiumHydroxideMolarMass?: number
}): number =>
  ((titration.blankVolume - titration.sampleVolume) *
    titration.acidConcentration *
    (titration.potassiumHydroxideMolarMass ?? MOLAR_MASS.KOH)) /
  titration.fatMass

/** Beyond the published limits by more than this a value is a slip of the pen or another fat's [– of the value], estimate. */
const FAR_OUTSIDE = 0.03

function withFindings(
  known: SaponificationValueKnowledge,
  value: Omit<SaponificationValue, 'findings'>,
): SaponificationValue {
  const findings: Finding[] = [...plausibleSaponificationValue(known.kind, value.nominal)]
  const { published } = known
  if (value.nominal < published.low || value.nominal > published.high) {
    const far =
      value.nominal < published.low * (1 - FAR_OUTSIDE) || value.nominal > published.high * (1 + FAR_OUTSIDE)
    const outside = {
      saponificationValue: value.nominal,
      publishedLow: published.low,
      publishedHigh: published.high,
      basis: value.basis,
    }
    findings.push(
      far
        ? { code: 'saponification-value-of-another-fat', severity: 'stop', values: outside }
        : { code: 'saponification-value-outside-published', severity: 'hold', values: outside },
    )
  }
  return { ...value, findings }
}
