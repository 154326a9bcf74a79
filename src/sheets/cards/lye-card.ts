/** The card at the lye: what goes into what, how hot it may get, and the pail that proves it. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { alkaliKey } from '../batch/weights.ts'
import type { CardDraft, CardSize } from '../card-sheet.ts'
import type { Frame } from '../frame.ts'
import type { Card, Inline, Value } from '../model.ts'
import { batchTitle, fromSheet } from './batch-words.ts'

export const lyeCard = (frame: Frame, batch: BoundBatch, sheet: string, size: CardSize): CardDraft => {
  const { say, show } = frame
  const { lye } = batch
  const vessel = frame.vesselName(batch.vessels.lye.key)
  return {
    id: `lye/${batch.key}`,
    title: batchTitle(frame, batch, 'card.lye.title', size),
    card: {
      caution: {
        signal: 'danger',
        words: say(lye.thinned ? 'card.lye.stock-caution' : 'card.lye.caution'),
      },
      number: alkaliNumber(frame, batch),
      wear: say('card.wear'),
      steps: [
        batch.scales.lye
          ? say('card.lye.place', { vessel, scale: frame.scaleName(batch.scales.lye.scale.name) })
          : say('card.lye.pail', { vessel }),
        batch.additions.some(({ role }) => role === 'acid')
          ? say('card.lye.acid', { water: waterLine(frame, batch) })
          : waterLine(frame, batch),
        alkaliLine(frame, batch),
        grossLine(frame, batch),
        say('card.lye.stand', { temperature: show.temperature('lye.useAt', batch.heat.lye) }),
      ],
      stop: say('card.lye.stop', { limit: show.temperature('lye.limit', lye.limit), sheet }),
      from: fromSheet(frame, sheet),
    },
  }
}

/** As the phrase for both names them. */
const sodiumFirst = (alkalis: BoundBatch['alkalis']): BoundBatch['alkalis'] =>
  [...alkalis].sort((one, other) => (one.kind > other.kind ? -1 : 1))

/** What goes in at once is what a hand holds: one portion, and how often; of a stock lye all of it. */
const alkaliNumber = (frame: Frame, { alkalis, lye }: BoundBatch): NonNullable<Card['number']> => {
  const { say, show } = frame
  const sums = alkalis.map(
    ({ kind, plan }): Value => show.weight(`${alkaliKey(kind)}.mass`, plan.sum, plan.scale.division),
  )
  if (lye.thinned) return { label: say('card.lye.stock-number'), words: pairOf(frame, alkalis, sums) }
  const { first, last, isAlike } = portionsOf(frame, alkalis, lye)
  const [sum] = sums
  const portions = show.count('portions', lye.portions.length)
  const label =
    alkalis.length === 1 && sum
      ? say('card.lye.number', {
          alkali: say(`batch.lye.kind-head.${alkaliKey(alkalis[0]?.kind ?? 'NaOH')}`),
          portions,
          sum,
        })
      : say('card.lye.number-two', { portions })
  return {
    label: isAlike ? label : say('card.lye.last', { label, last: pairOf(frame, alkalis, last) }),
    words: pairOf(frame, alkalis, first),
  }
}

/** The first and the last portion, of each alkali; the last takes what rounding leaves. */
const portionsOf = (
  { show }: Frame,
  alkalis: BoundBatch['alkalis'],
  { portions }: BoundBatch['lye'],
): { readonly first: Value[]; readonly last: Value[]; readonly isAlike: boolean } => {
  const of = (place: number): Value[] =>
    alkalis.map(({ kind, plan }, index) =>
      show.weight(
        `${alkaliKey(kind)}.portion.${place + 1}.mass`,
        portions[place]?.masses[index] ?? 0,
        plan.scale.division,
      ),
    )
  const first = of(0)
  const last = of(portions.length - 1)
  return { first, last, isAlike: last.every(({ shown }, index) => shown === first[index]?.shown) }
}

const pairOf = ({ say }: Frame, alkalis: BoundBatch['alkalis'], masses: readonly Value[]): Inline => {
  const [first, second] = sodiumFirst(alkalis).map((one): Inline => {
    const mass = masses[alkalis.indexOf(one)]
    return mass ? { text: '[[mass]]', fill: { mass } } : say('batch.lye.nothing')
  })
  return first && second ? say('card.lye.pair', { first, second }) : (first ?? say('batch.lye.nothing'))
}

const waterLine = (frame: Frame, batch: BoundBatch): Inline => {
  const { say, show } = frame
  const weight = (name: string, plan: BoundBatch['water']) => show.weight(name, plan.sum, plan.scale.division)
  const fill = {
    mass: weight('water.mass', batch.water),
    liquid: batch.liquid ?? say('card.lye.water-name'),
    temperature: show.temperature('water.temperature', batch.lye.waterTemperature),
    hold: waterHold(frame, batch),
  }
  return batch.ice
    ? say('card.lye.water-ice', { ...fill, ice: weight('ice.mass', batch.ice) })
    : say('card.lye.water', fill)
}

/** Before any alkali: what the scale shows of the water, or that its draws are counted. */
const waterHold = ({ say, show }: Frame, { scales: { water: check } }: BoundBatch): Inline =>
  check
    ? say('card.lye.water-hold', {
        low: show.weight('lye.water.low', check.band.low, check.scale.division),
        high: show.weight('lye.water.high', check.band.high, check.scale.division),
      })
    : say('card.lye.water-counted')

const alkaliLine = (frame: Frame, { lye, alkalis }: BoundBatch): Inline => {
  const { say, show } = frame
  if (lye.thinned) return say('card.lye.stock')
  const below = show.temperature('lye.nextPortionBelow', lye.waitBelow)
  const { first, isAlike } = portionsOf(frame, alkalis, lye)
  return isAlike
    ? say('card.lye.portion', { below, mass: pairOf(frame, alkalis, first) })
    : say('card.lye.portion-unlike', { below })
}

const grossLine = ({ say, show, scaleName }: Frame, { scales: { lye: check } }: BoundBatch): Inline => {
  if (!check) return say('card.lye.no-scale')
  const { band, scale } = check
  return say('card.lye.gross', {
    scale: scaleName(scale.name),
    low: show.weight('lye.gross.low', band.low, scale.division),
    high: show.weight('lye.gross.high', band.high, scale.division),
  })
}
