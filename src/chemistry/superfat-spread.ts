/** Nominal superfat, its worst case and its 95 % interval. */
import { type Interval, normalInterval95, type Range, rootSumSquare } from '../numerics/spread.ts'
import { MOLAR_MASS } from './atomic-weights.ts'
import { superfatContributions } from './superfat-contributions.ts'
import { drawSuperfats } from './superfat-draws.ts'
import { type SuperfatInput, scaleKeys, scaleOf, type Weighing } from './superfat-input.ts'

export type SuperfatState = 'go' | 'hold' | 'stop'

/** Superfats [–]. */
export interface SuperfatSpread {
  readonly nominal: number
  /** everything against you, at either end */
  readonly worst: Range
  readonly monteCarlo: Interval
  readonly rootSumSquare: Interval
  readonly state: SuperfatState
}

/**
 * Nominal, worst case and 95 % interval of the superfat, without advice.
 *
 *     as superfatMargin
 *
 * @param input as for superfatMargin
 * @returns superfats [–] and the state
 * @source jcgm100, jcgm101
 */
export function superfatSpread(input: SuperfatInput): SuperfatSpread {
  const nominal = superfatAt(input, nominalPoint)
  const worst = worstCase(input)
  // A normal spread has tails that the limits forbid.
  const within = (interval: Interval): Interval => ({
    ...interval,
    low: Math.max(interval.low, worst.low),
    high: Math.min(interval.high, worst.high),
  })
  const monteCarlo = within(drawSuperfats(input))
  const normal = normalInterval95(
    superfatAt(input, middlePoint),
    rootSumSquare(superfatContributions(input).map((part) => part.deviation)),
  )
  const rootSum = within(normal)
  const state =
    nominal < input.floor || monteCarlo.low < 0 ? 'stop' : worst.low < 0 ? 'hold' : ('go' as const)
  return { nominal, worst, monteCarlo, rootSumSquare: rootSum, state }
}

/** How a value is picked between its limits, and how far a weighing is off [kg]. */
interface Point {
  readonly value: (range: Range & { readonly nominal: number }, role: 'fat' | 'alkali') => number
  readonly massError: (item: { readonly weighing: Weighing }, role: 'fat' | 'alkali') => number
  readonly span: (scale: string) => number
}

const nominalPoint: Point = { value: (range) => range.nominal, massError: () => 0, span: () => 0 }
const middlePoint: Point = {
  value: (range) => (range.low + range.high) / 2,
  massError: () => 0,
  span: () => 0,
}

function superfatAt(input: SuperfatInput, point: Point): number {
  let demand = 0
  for (const fat of input.fats) {
    const mass = (fat.mass + point.massError(fat, 'fat')) * (1 + point.span(fat.weighing.scale))
    demand += (mass * point.value(fat.saponificationValue, 'fat')) / MOLAR_MASS.KOH
  }
  let hydroxide = -(input.hydroxideForAcids ?? 0)
  // An acid takes alkali as a fat does: too little of it is against you.
  for (const acid of input.acids ?? []) {
    const mass = (acid.mass + point.massError(acid, 'fat')) * (1 + point.span(acid.weighing.scale))
    hydroxide -= mass * acid.hydroxidePerMass
  }
  for (const alkali of input.alkalis) {
    const mass = (alkali.mass + point.massError(alkali, 'alkali')) * (1 + point.span(alkali.weighing.scale))
    hydroxide += (mass * point.value(alkali.purity, 'alkali')) / MOLAR_MASS[alkali.alkali]
  }
  return demand === 0 ? 0 : 1 - hydroxide / demand
}

/** Repeatability counts twice in a worst case [standard deviations]: about one weighing in twenty is further off. */
const WORST_REPEATABILITY = 2

function worstCase(input: SuperfatInput): Range {
  const keys = scaleKeys(input)
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  // Span errors can be high or low on each scale: a ratio of sums has its extremes at the corners.
  for (let corner = 0; corner < 2 ** keys.length; corner++) {
    const span = (scale: string): number =>
      (((corner >> keys.indexOf(scale)) & 1) === 1 ? 1 : -1) * scaleOf(input, scale).span
    low = Math.min(low, superfatAt(input, extremePoint(input, 'fat', span)))
    high = Math.max(high, superfatAt(input, extremePoint(input, 'alkali', span)))
  }
  return { low, high }
}

/** Everything of one role at its low end, everything of the other at its high end. */
function extremePoint(input: SuperfatInput, lowRole: 'fat' | 'alkali', span: Point['span']): Point {
  return {
    value: (range, role) => (role === lowRole ? range.low : range.high),
    massError: ({ weighing }, role) => {
      const scale = scaleOf(input, weighing.scale)
      const error =
        weighing.draws * (scale.division / 2) +
        Math.sqrt(weighing.draws) * WORST_REPEATABILITY * scale.repeatability
      return role === lowRole ? -error : error
    },
    span,
  }
}
