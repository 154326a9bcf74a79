/** The card at the lye: what goes into what, how hot it may get, and the pail that proves it. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { alkaliKey } from '../batch/weights.ts'
import type { Frame } from '../frame.ts'
import type { Card, Inline } from '../model.ts'
import { batchTitle, fromSheet } from './batch-words.ts'
import type { CardDraft } from './card-sheet.ts'

export const lyeCard = (frame: Frame, batch: BoundBatch, sheet: string): CardDraft => {
  const { say, show } = frame
  const { lye } = batch
  return {
    id: `lye/${batch.key}`,
    title: batchTitle(frame, batch, 'card.lye.title'),
    card: {
      caution: {
        signal: 'danger',
        words: say(lye.thinned ? 'card.lye.stock-caution' : 'card.lye.caution'),
      },
      number: alkaliNumber(frame, batch),
      wear: say('card.wear'),
      steps: [
        waterLine(frame, batch),
        ...(batch.additions.some(({ role }) => role === 'acid') ? [say('card.lye.acid')] : []),
        ...alkaliLines(frame, batch),
        grossLine(frame, batch),
        say('card.lye.stand', { temperature: show.temperature('lye.useAt', batch.heat.lye) }),
      ],
      stop: say('card.lye.stop', { limit: show.temperature('lye.limit', lye.limit) }),
      from: fromSheet(frame, sheet),
    },
  }
}

/** As the phrase for both names them. */
const sodiumFirst = (alkalis: BoundBatch['alkalis']): BoundBatch['alkalis'] =>
  [...alkalis].sort((one, other) => (one.kind > other.kind ? -1 : 1))

/** Sum of each alkali as it is weighed. */
const alkaliNumber = ({ say, show }: Frame, { alkalis, lye }: BoundBatch): NonNullable<Card['number']> => {
  const [first, second] = sodiumFirst(alkalis).map(({ kind, plan }): Inline => {
    const mass = show.weight(`${alkaliKey(kind)}.mass`, plan.sum, plan.scale.division)
    return { text: '[[mass]]', fill: { mass } }
  })
  const portions = show.count('portions', lye.portions.length)
  const alkali = say(`batch.lye.kind-head.${alkaliKey(alkalis[0]?.kind ?? 'NaOH')}`)
  return {
    label: lye.thinned
      ? say('card.lye.stock-number')
      : second
        ? say('card.lye.number-two', { portions })
        : say('card.lye.number', { alkali, portions }),
    words:
      first && second ? say('card.lye.two-masses', { first, second }) : (first ?? say('batch.lye.nothing')),
  }
}

const waterLine = ({ say, show }: Frame, batch: BoundBatch): Inline => {
  const weight = (name: string, plan: BoundBatch['water']) => show.weight(name, plan.sum, plan.scale.division)
  const fill = {
    mass: weight('water.mass', batch.water),
    liquid: batch.liquid ?? say('card.lye.water-name'),
    temperature: show.temperature('water.temperature', batch.lye.waterTemperature),
    vessel: batch.vessels.lye.key,
  }
  return batch.ice
    ? say('card.lye.water-ice', { ...fill, ice: weight('ice.mass', batch.ice) })
    : say('card.lye.water', fill)
}

const alkaliLines = ({ say, show }: Frame, { lye }: BoundBatch): readonly Inline[] => {
  const peak = show.temperature('lye.peak', lye.peak)
  if (lye.thinned) return [say('card.lye.stock', { peak })]
  return [
    say('card.lye.portion', { peak }),
    say('card.lye.wait', { below: show.temperature('lye.nextPortionBelow', lye.waitBelow) }),
  ]
}

const grossLine = ({ say, show }: Frame, { scales: { lye: check } }: BoundBatch): Inline => {
  if (!check) return say('card.lye.no-scale')
  const { band, scale } = check
  return say('card.lye.gross', {
    low: show.weight('lye.gross.low', band.low, scale.division),
    high: show.weight('lye.gross.high', band.high, scale.division),
  })
}
