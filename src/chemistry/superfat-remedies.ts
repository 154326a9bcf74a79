/** What would clear a batch that is on hold or stopped: certificates, finer scales, more superfat. */
import { CERTIFICATE_TOLERANCE } from './saponification-value.ts'
import type { SuperfatInput } from './superfat-input.ts'
import { type SuperfatSpread, type SuperfatState, superfatSpread } from './superfat-spread.ts'

export type RemedyKind =
  | 'fat-certificate'
  | 'purity-certificate'
  | 'finer-scale'
  | 'together'
  | 'superfat-at-least'

export interface Remedy {
  readonly kind: RemedyKind
  /** fat, alkali or scale; the measures joined by + where several go together */
  readonly of: string
  /** superfat to ask for [–], or the division of the finer scale [kg] */
  readonly value?: number
  readonly state: SuperfatState
  /** worst case and lower 95 % bound after it [–] */
  readonly worst: number
  readonly lower: number
}

interface Measure {
  readonly kind: RemedyKind
  readonly of: string
  readonly value?: number
  readonly apply: (input: SuperfatInput) => SuperfatInput
}

/** Draws for judging one remedy; good to about 0.0005 in superfat. */
const DRAWS = 10_000

/**
 * Remedies, each with what it would bring, those that bring the batch to go first.
 *
 *     certificate: SV ± 1 mg/g or purity ± 0.5 %;  finer scale: a tenth of the division
 *     superfat-at-least: alkali · 1 / (1 − s_worst), so that the worst case is just 0
 *
 * Where no single measure reaches go, the best are joined until they do, or until there are no more.
 *
 * @param input  batch as it is
 * @param spread its spread
 * @returns remedies, best first
 * @source common practice
 */
export function findRemedies(input: SuperfatInput, spread: SuperfatSpread): readonly Remedy[] {
  // Certificates narrow the spread; they cannot lift a nominal value over the floor.
  if (spread.nominal < input.floor) return [moreSuperfat(input, spread)]
  const measures = possibleMeasures(input)
  const judged = measures
    .map((measure) => ({ measure, remedy: judge(measure, input) }))
    .filter(({ remedy }) => remedy.worst > spread.worst.low + 1e-6)
    .sort((a, b) => byBenefit(a.remedy, b.remedy))
  const remedies = judged.map(({ remedy }) => remedy)
  const together = joinMeasures(
    judged.map(({ measure }) => measure),
    input,
  )
  if (remedies[0]?.state !== 'go' && together) remedies.push(together)
  remedies.push(moreSuperfat(input, spread))
  return remedies.sort(byBenefit)
}

const STATE_ORDER: Readonly<Record<SuperfatState, number>> = { go: 0, hold: 1, stop: 2 }

/** A change of paper or scale is ranked before a change of the recipe. */
const KIND_ORDER: Readonly<Record<RemedyKind, number>> = {
  'fat-certificate': 0,
  'purity-certificate': 0,
  'finer-scale': 0,
  together: 1,
  'superfat-at-least': 2,
}

const byBenefit = (a: Remedy, b: Remedy): number =>
  STATE_ORDER[a.state] - STATE_ORDER[b.state] || KIND_ORDER[a.kind] - KIND_ORDER[b.kind] || b.worst - a.worst

function judge(measure: Measure, input: SuperfatInput): Remedy {
  const { state, worst, monteCarlo } = superfatSpread({ ...measure.apply(input), draws: DRAWS })
  return {
    kind: measure.kind,
    of: measure.of,
    ...(measure.value === undefined ? {} : { value: measure.value }),
    state,
    worst: worst.low,
    lower: monteCarlo.low,
  }
}

/** ± of a purity that the supplier certifies for the lot [–], estimate. */
const PURITY_TOLERANCE = 0.005

/** A division finer than this is not sold for kitchen-sized loads [kg], common practice. */
const FINEST_DIVISION = 0.0001

function possibleMeasures(input: SuperfatInput): readonly Measure[] {
  const measures: Measure[] = []
  for (const { key, saponificationValue } of input.fats) {
    if (saponificationValue.high - saponificationValue.low <= 2 * CERTIFICATE_TOLERANCE * 1.001) continue
    measures.push({
      kind: 'fat-certificate',
      of: key,
      apply: (batch) => ({
        ...batch,
        fats: batch.fats.map((fat) =>
          fat.key === key
            ? { ...fat, saponificationValue: narrow(fat.saponificationValue, CERTIFICATE_TOLERANCE) }
            : fat,
        ),
      }),
    })
  }
  for (const { alkali, purity } of input.alkalis) {
    if (purity.high - purity.low <= 2 * PURITY_TOLERANCE * 1.001) continue
    measures.push({
      kind: 'purity-certificate',
      of: alkali,
      apply: (batch) => ({
        ...batch,
        alkalis: batch.alkalis.map((one) =>
          one.alkali === alkali ? { ...one, purity: narrow(one.purity, PURITY_TOLERANCE) } : one,
        ),
      }),
    })
  }
  for (const [key, scale] of Object.entries(input.scales)) {
    const division = scale.division / 10
    if (division < FINEST_DIVISION) continue
    measures.push({
      kind: 'finer-scale',
      of: key,
      value: division,
      apply: (batch) => ({
        ...batch,
        scales: {
          ...batch.scales,
          [key]: { ...scale, division, repeatability: Math.min(scale.repeatability, division) },
        },
      }),
    })
  }
  return measures
}

const narrow = <T extends { readonly nominal: number; readonly low: number; readonly high: number }>(
  range: T,
  tolerance: number,
): T => ({ ...range, low: range.nominal - tolerance, high: range.nominal + tolerance })

/** Measures in order of benefit, joined until the batch is at go. */
function joinMeasures(measures: readonly Measure[], input: SuperfatInput): Remedy | undefined {
  let batch = input
  const names: string[] = []
  let last: Remedy | undefined
  for (const measure of measures) {
    batch = measure.apply(batch)
    names.push(measure.of)
    if (names.length < 2) continue
    last = judge({ kind: 'together', of: names.join('+'), apply: () => batch }, batch)
    if (last.state === 'go') return last
  }
  return last
}

/** The smallest superfat at which neither floor, lower bound nor worst case stands against the batch. */
function moreSuperfat(input: SuperfatInput, spread: SuperfatSpread): Remedy {
  // Scaling the net alkali by f scales 1 − s by f, in the worst case as in the nominal one.
  const factor = Math.min(
    1 / (1 - spread.worst.low),
    1 / (1 - spread.monteCarlo.low),
    (1 - input.floor) / (1 - spread.nominal),
  )
  const scaled = (superfat: number): number => 1 - factor * (1 - superfat)
  return {
    kind: 'superfat-at-least',
    of: '',
    value: scaled(spread.nominal),
    state: 'go',
    worst: scaled(spread.worst.low),
    lower: scaled(spread.monteCarlo.low),
  }
}
