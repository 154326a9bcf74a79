/** One batch's bars on the rack: what they ought to weigh, what they did weigh, and when they may be labelled. */

import { type Drying, dryingFromWeighIns } from '../cure/drying.ts'
import { estimateDrying } from '../cure/drying-estimate.ts'
import type { LossBetween, WeightOn } from '../cure/drying-forms.ts'
import { type LabelPlan, labelPlan } from '../cure/label-weight.ts'
import type { Finding } from '../findings.ts'
import type { Content } from '../schema/content.ts'
import { dayNumber } from '../units/civil-day.ts'
import type { BoundBatch } from './bind-batch.ts'
import { cureDays } from './cure-days.ts'
import { scalesOf } from './shop-tools.ts'
import { waterSum } from './weigh-out.ts'

/** How the bars of a batch dry; when they are weighed again is the calendar's. */
export interface DryingBars {
  readonly batch: BoundBatch
  /** of one bar as it is cut [kg] */
  readonly barMass: number
  /** d after the pour at which bars stand free */
  readonly freeFrom: number
  /** by the weigh-ins; missing before the first */
  readonly drying: Drying | undefined
  /** whether the weights come from the weigh-ins; an estimate until they are enough */
  readonly isFitted: boolean
  /** kg of a bar on a day after the pour */
  readonly weightOn: WeightOn
  readonly lossBetween: LossBetween
  /** what the label may say, and from which day a bar may bear it */
  readonly label: LabelPlan
  readonly weighIns: readonly { readonly date: string; readonly days: number; readonly mass: number }[]
  /** what the next reading of a bar ought to show on a day after the pour [kg] */
  readonly readingOn: WeightOn
  readonly findings: readonly Finding[]
}

const DAY = 86400
/** d; when bars are free where nothing could be reckoned of the block (estimate) */
const USUALLY_FREE = 2
/** A digital scale rounds: one division over the square root of twelve, and as much again for its play [–] (estimate) */
const PLAY = 0.6

/** @returns nothing for a batch that must not be made */
export const dryingBars = (content: Content, batch: BoundBatch): DryingBars | undefined => {
  if (batch.state === 'stop') return undefined
  const { fill, mould, file } = batch
  const { alongLength, alongWidth, thickness } = mould.bar.green
  const density = fill.pouredMass / (fill.area * fill.setHeight.nominal)
  const barMass = density * alongLength * alongWidth * thickness
  const waterShare = waterSum(batch) / fill.batterMass
  const cut = batch.blockHeat?.heat.earliestCut.nominal
  const freeFrom = Math.max(1, Math.ceil((cut ?? USUALLY_FREE * DAY) / DAY))
  const estimate = estimateDrying(
    {
      mass: barMass,
      waterShare,
      thickness: Math.min(alongLength, alongWidth, thickness),
    },
    freeFrom,
  )
  const poured = dayNumber(batch.date)
  const weighIns = (file.value['weigh-ins'] ?? []).map(({ date, weight }) => ({
    date,
    days: dayNumber(date) - poured,
    mass: weight,
  }))
  const scale = scalesOf(content.shop.value)[0]
  const drying =
    weighIns.length === 0
      ? undefined
      : dryingFromWeighIns({
          weighIns,
          freeFrom,
          scaleDeviation: scale.division * PLAY,
          dryMass: barMass * (1 - waterShare),
        })
  const isFitted = drying !== undefined && drying.forms.length > 0
  const weightOn = drying?.weightOn ?? estimate.weightOn
  const lossBetween = drying?.lossBetween ?? estimate.lossBetween
  const days = cureDays(content, batch.recipeKey)
  const label = labelPlan({
    weightOn,
    lossBetween,
    notBefore: days.label,
    until: days.sellBy,
    declared: file.value['label-weight'],
  })
  return {
    batch,
    barMass,
    freeFrom,
    drying,
    isFitted,
    weightOn,
    lossBetween,
    label,
    weighIns,
    // The next reading scatters about the curve; of an estimate the range is wider than that.
    readingOn: drying?.readingOn ?? estimate.weightOn,
    // Once bars were weighed, what was estimated of them says nothing any more.
    findings: [...(drying?.findings ?? []), ...(isFitted ? [] : estimate.findings), ...label.findings],
  }
}
