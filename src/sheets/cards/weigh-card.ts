/** The card at the scales: every fat, each draw once, and the pot that proves it. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { PotCheck } from '../../binder/pot-checks.ts'
import { oilsMass } from '../batch/weights.ts'
import type { CardDraft, CardSize } from '../card-sheet.ts'
import type { Frame } from '../frame.ts'
import type { Card, Inline } from '../model.ts'
import { batchTitle, fromSheet } from './batch-words.ts'

export const weighCard = (frame: Frame, batch: BoundBatch, sheet: string, size: CardSize): CardDraft => {
  const { say, show } = frame
  const { gross } = batch.scales
  const draws = batch.oils.reduce((sum, { plan }) => sum + plan.draws.length, 0)
  return {
    id: `weigh/${batch.key}`,
    title: batchTitle(frame, batch, 'card.weigh.title', size),
    card: {
      caution: { signal: 'warning', words: say('card.weigh.caution') },
      number: potNumber(frame, batch),
      ...(batch.state === 'hold' ? { hold: say('card.hold') } : {}),
      wear: say('card.wear'),
      steps: [
        say('card.weigh.scales'),
        ...(gross ? [placeLine(frame, gross)] : []),
        say('card.weigh.draw', {
          draws: show.count('oils.draws', draws),
          container: frame.vesselName(batch.vessels.weighing.key),
          scale: frame.scaleName(batch.scales.oils),
        }),
        grossLine(frame, batch),
      ],
      stop: say('card.weigh.stop', { sheet }),
      from: fromSheet(frame, sheet),
    },
  }
}

/** What the scale shows in the end, kettle and all; without such a scale all fats. */
const potNumber = (frame: Frame, batch: BoundBatch): NonNullable<Card['number']> => {
  const { say, show } = frame
  const { gross } = batch.scales
  if (!gross)
    return {
      label: say('card.weigh.number-fats'),
      words: { text: '[[mass]]', fill: { mass: oilsMass(frame, batch) } },
    }
  const { band, scale } = gross
  return {
    label: say('card.weigh.number', { scale: frame.scaleName(scale.name) }),
    words: { text: '[[mass]]', fill: { mass: show.weight('gross.expected', band.expected, scale.division) } },
  }
}

/** A kettle that was zeroed would show the fats alone, and a right batch would look wrong. */
const placeLine = ({ say, show, scaleName }: Frame, { empty, band, scale }: PotCheck): Inline =>
  say('card.weigh.place', {
    scale: scaleName(scale.name),
    low: show.weight('kettle.empty.low', empty?.low ?? band.low, scale.division),
    high: show.weight('kettle.empty.high', empty?.high ?? band.high, scale.division),
  })

const grossLine = ({ say, show }: Frame, { scales: { gross } }: BoundBatch): Inline => {
  if (!gross) return say('card.weigh.no-scale')
  const { band, scale } = gross
  return say('card.weigh.gross', {
    low: show.weight('gross.low', band.low, scale.division),
    high: show.weight('gross.high', band.high, scale.division),
  })
}
