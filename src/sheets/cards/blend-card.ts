/** The card at kettle and mould: from here on nobody can stop, so the line to pour to is the largest. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import { pourPicture } from '../../drawing/pour-picture.ts'
import type { CardDraft, CardSize } from '../card-sheet.ts'
import { inlineWords } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Card, Inline } from '../model.ts'
import { batchTitle, fromSheet } from './batch-words.ts'

/** K, either way; what the batch sheet allows (common practice) */
const WITHIN = 3

export const blendCard = (frame: Frame, batch: BoundBatch, sheet: string, size: CardSize): CardDraft => {
  const { say, show } = frame
  const { heat, fill } = batch
  return {
    id: `blend/${batch.key}`,
    title: batchTitle(frame, batch, 'card.blend.title', size),
    card: {
      caution: { signal: 'danger', words: say('card.blend.caution') },
      number: {
        label: say('card.blend.number'),
        words: { text: '[[below]]', fill: { below: show.length('fill.belowRim', fill.freeboard) } },
      },
      ...(size === 'full' ? { picture: picture(frame, batch) } : {}),
      wear: say('card.wear'),
      steps: [
        say('card.blend.hold', {
          fats: show.temperature('heat.fats', heat.fats),
          lye: show.temperature('heat.lye', heat.lye),
          within: show.kelvins('heat.within', WITHIN),
        }),
        say('card.blend.lye'),
        batch.time === undefined
          ? say('card.blend.blend')
          : say('card.blend.blend-limit', { minutes: show.minutes('time.toThick', batch.timeToThick) }),
        ...traceLine(frame, batch),
        pourLine(frame, batch),
        say('card.blend.cover'),
      ],
      stop:
        batch.time === undefined
          ? say('card.blend.stop-thick', { sheet })
          : say('card.blend.stop', { sheet }),
      from: fromSheet(frame, sheet),
    },
  }
}

const traceLine = ({ say }: Frame, batch: BoundBatch): readonly Inline[] => {
  if (batch.colours.length > 0) return [say('card.blend.trace-colours')]
  const waits = batch.later !== undefined || batch.additions.some(({ role }) => role !== 'acid')
  return waits ? [say('card.blend.trace')] : []
}

const pourLine = ({ say, show }: Frame, batch: BoundBatch): Inline => {
  return batch.byValve
    ? say('card.blend.valve')
    : say('card.blend.jug', { jug: show.heavy('pour.jugMass', batch.pour.jug.mass) })
}

/** mm; what a card of a whole page has beside its number; half a page has no room to spare */
const ROOM = { width: 58, height: 52 }

const picture = ({ say }: Frame, { mould: { mould }, fill }: BoundBatch): NonNullable<Card['picture']> => ({
  svg: pourPicture({
    label: inlineWords(say('card.blend.picture')),
    ...ROOM,
    wall: mould.input.panels.side.thickness,
    belowRim: fill.freeboard,
  }),
  values: [],
})
