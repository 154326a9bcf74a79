/** The weight on a label: a least weight, that every bar still has on its last day of sale, though it dries until then. */
import type { Finding } from '../findings.ts'
import type { LossBetween, WeightOn } from './drying-forms.ts'

/** Share by which the lightest likely bar of a block is below its mean: wires off by half a millimetre [–]. */
export const LIGHTER = 0.03 // estimate
/** kg; what a label is written to, and a bar is weighed to */
const GRAM = 0.001
/** A hair, so that 100 g is not taken for 99.999 g [–] */
const SLACK = 1e-6

export interface LabelSetting {
  /** kg of the mean bar on a day after the pour, and kg that it may lose at most between two days */
  readonly weightOn: WeightOn
  readonly lossBetween: LossBetween
  /** d after the pour: first day that the shop labels on, last day of sale */
  readonly notBefore: number
  readonly until: number
  /** kg that the label says, if it is known */
  readonly declared?: number | undefined
}

/** Days after the pour [d] from which a bar may bear the label; undefined: not before its last day of sale. */
export interface LabelDays {
  /** a bar at the heavy end of the range, in its middle, at its light end */
  readonly earliest: number | undefined
  readonly middle: number | undefined
  readonly latest: number | undefined
}

export interface LabelPlan {
  readonly declared: number | undefined
  /** d after the pour on which labelling begins; undefined: the middle bar does not reach what the label says */
  readonly from: number | undefined
  readonly days: LabelDays
  /** d after the pour */
  readonly until: number
  /** kg: the heaviest label that the lightest likely bar still reaches on the last day of sale, in whole grams */
  readonly most: number
  /** by which the lightest bar is taken to be below the mean of its block [–] */
  readonly lighter: number
  /** kg that the scale must show of a bar on a day for it to bear the label, in whole grams; undefined without a label */
  readonly leastOn: (days: number) => number | undefined
  readonly findings: readonly Finding[]
}

/**
 * When bars may be labelled, and with how much at most.
 *
 *     least(t) = label + loss(t … last day of sale)        from = first t with weight(t) ≥ least(t)
 *     most = lower edge of the weight on the last day of sale · (1 − lighter)
 *
 * What a label declares is a least weight: it must be in each bar when it is sold, not only on the day of the label. So
 * a bar is labelled by what it weighs less all that it may still lose, and the days are those at which this is enough:
 * the drying has slowed by then. Both round so that the label stays true. Loss is that of the mean bar; damp weeks, in
 * which bars take water back, are not counted on.
 *
 * @param setting weights [kg], days after the pour [d]
 * @returns days [d], weights [kg], and findings
 * @source common practice
 */
export function labelPlan({ weightOn, lossBetween, notBefore, until, declared }: LabelSetting): LabelPlan {
  const last = weightOn(until)
  const most = Math.floor((last.low * (1 - LIGHTER)) / GRAM + SLACK) * GRAM
  const first = Math.min(notBefore, until)
  const leastOn = (days: number): number | undefined =>
    declared === undefined
      ? undefined
      : Math.ceil((declared + lossBetween(days, until)) / GRAM - SLACK) * GRAM
  const firstDay = (edge: 'low' | 'middle' | 'high'): number | undefined => {
    if (declared === undefined) return first
    for (let day = first; day <= until; day += 1)
      if (weightOn(day)[edge] - lossBetween(day, until) >= declared - SLACK * GRAM) return day
    return undefined
  }
  const days = { earliest: firstDay('high'), middle: firstDay('middle'), latest: firstDay('low') }
  return {
    declared,
    from: days.middle,
    days,
    until,
    most,
    lighter: LIGHTER,
    leastOn,
    findings: declared === undefined ? [] : labelFindings(declared, weightOn, days, most),
  }
}

function labelFindings(declared: number, weightOn: WeightOn, days: LabelDays, most: number): Finding[] {
  // on the day of the pour no bar has lost anything yet
  const { middle: green } = weightOn(0)
  if (green < declared)
    return [{ code: 'bars-below-label', severity: 'stop', values: { declared, mass: green } }]
  if (days.middle === undefined)
    return [{ code: 'label-above-dry-bars', severity: 'warn', values: { declared, labelMost: most } }]
  if (declared > most + SLACK * GRAM)
    return [{ code: 'label-above-lightest', severity: 'warn', values: { declared, labelMost: most } }]
  return []
}
