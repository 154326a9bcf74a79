/** Which uncertainty makes how much of the superfat's spread. */
import { uniformDeviation } from '../numerics/spread.ts'
import { MOLAR_MASS } from './atomic-weights.ts'
import { massDeviation, type SuperfatInput, scaleOf } from './superfat-input.ts'

export interface Contribution {
  readonly cause: 'saponification-value' | 'purity' | 'weighing' | 'span'
  /** fat, alkali or scale */
  readonly of: string
  readonly deviation: number
}

/**
 * Standard uncertainty of the superfat by cause, to first order.
 *
 *     u = |∂s/∂x| u(x)
 *
 * @param input as for superfatMargin
 * @returns deviations [–], largest first
 * @source jcgm100
 */
export function superfatContributions(input: SuperfatInput): readonly Contribution[] {
  const { demands, hydroxides, demand, net } = amounts(input)
  if (demand === 0) return []
  const ratio = net / demand
  const parts: Contribution[] = []
  const bySpan = new Map<string, number>()
  const push = (cause: Contribution['cause'], of: string, deviation: number) => {
    if (deviation !== 0) parts.push({ cause, of, deviation: Math.abs(deviation) })
  }
  input.fats.forEach((fat, i) => {
    const share = ratio * ((demands[i] ?? 0) / demand)
    const middle = (fat.saponificationValue.low + fat.saponificationValue.high) / 2
    push('saponification-value', fat.key, (share * uniformDeviation(fat.saponificationValue)) / middle)
    if (fat.mass > 0) push('weighing', fat.key, (share * massDeviation(input, fat.weighing)) / fat.mass)
    bySpan.set(fat.weighing.scale, (bySpan.get(fat.weighing.scale) ?? 0) + share)
  })
  input.alkalis.forEach((alkali, j) => {
    const share = (hydroxides[j] ?? 0) / demand
    const middle = (alkali.purity.low + alkali.purity.high) / 2
    push('purity', alkali.alkali, (share * uniformDeviation(alkali.purity)) / middle)
    if (alkali.mass > 0)
      push('weighing', alkali.alkali, (share * massDeviation(input, alkali.weighing)) / alkali.mass)
    bySpan.set(alkali.weighing.scale, (bySpan.get(alkali.weighing.scale) ?? 0) - share)
  })
  for (const acid of input.acids ?? []) {
    const share = (acid.mass * acid.hydroxidePerMass) / demand
    push('weighing', acid.key, (massDeviation(input, acid.weighing) * acid.hydroxidePerMass) / demand)
    bySpan.set(acid.weighing.scale, (bySpan.get(acid.weighing.scale) ?? 0) + share)
  }
  for (const [key, share] of bySpan) {
    const { span } = scaleOf(input, key)
    push('span', key, share * uniformDeviation({ low: -span, high: span }))
  }
  return parts.sort((a, b) => b.deviation - a.deviation)
}

/** Hydroxide each fat takes and each alkali brings [mol], values in the middle of their limits. */
function amounts(input: SuperfatInput) {
  const demands = input.fats.map(
    (fat) => (fat.mass * (fat.saponificationValue.low + fat.saponificationValue.high)) / 2 / MOLAR_MASS.KOH,
  )
  const hydroxides = input.alkalis.map(
    ({ alkali, mass, purity }) => (mass * (purity.low + purity.high)) / 2 / MOLAR_MASS[alkali],
  )
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0)
  return {
    demands,
    hydroxides,
    demand: sum(demands),
    net:
      sum(hydroxides) -
      sum((input.acids ?? []).map(({ mass, hydroxidePerMass }) => mass * hydroxidePerMass)) -
      (input.hydroxideForAcids ?? 0),
  }
}
