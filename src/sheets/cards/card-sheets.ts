/** Every station card of a binder: those of each batch, then those of each mould and its cutters. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { BoundMould } from '../../binder/bind-mould.ts'
import { isStopped } from '../../findings.ts'
import { type CardDraft, type CardSize, cardSheet } from '../card-sheet.ts'
import { logNumber } from '../cure/tasks.ts'
import type { Frame } from '../frame.ts'
import type { Sheet } from '../model.ts'
import { fixedLinks } from '../places.ts'
import { batchTitle } from './batch-words.ts'
import { blendCard } from './blend-card.ts'
import { lyeCard } from './lye-card.ts'
import { gridCard, mouldCard, sliceCard } from './mould-cards.ts'
import { rackCard, wrapCard } from './rack-cards.ts'
import { weighCard } from './weigh-card.ts'

export const cardSheets = (frame: Frame, binder: BoundBinder): readonly Sheet[] => {
  const size = sizeIn(binder)
  const drafts = [
    ...binder.batches.flatMap((batch, index) => batchCards(frame, binder, batch, `4.${index + 1}`)),
    ...binder.moulds.flatMap((mould) => fixtureCards(frame, binder, mould)),
  ]
  return drafts.map((draft, index) => cardSheet(frame, draft, `5.${index + 1}`, size))
}

const sizeIn = ({ content }: BoundBinder): CardSize => content.shop.value.paper.cards ?? 'full'

/** A card that is laminated outlives its batch: of a stopped one there is a card that says so. */
const batchCards = (
  frame: Frame,
  binder: BoundBinder,
  batch: BoundBatch,
  sheet: string,
): readonly CardDraft[] => {
  const size = sizeIn(binder)
  if (batch.state === 'stop') return [stopCard(frame, batch, sheet, size)]
  const shop = binder.content.shop.value
  const { made } = batch.file.value
  // who wrapped its bars needs no card of it any more, and who poured it none of the pour
  const cure = made?.wrapped ? undefined : binder.cures.find((one) => one.batch === batch)
  const dried = cure
    ? [rackCard(frame, shop, cure, logNumber(binder, cure), size), wrapCard(frame, cure, sheet, size)]
    : []
  if (made) return dried.filter((one) => one !== undefined)
  return [
    weighCard(frame, batch, sheet, size),
    lyeCard(frame, batch, sheet, size),
    blendCard(frame, batch, sheet, size),
    ...dried.filter((one) => one !== undefined),
  ]
}

const stopCard = (frame: Frame, batch: BoundBatch, sheet: string, size: CardSize): CardDraft => {
  const { say } = frame
  return {
    id: `stop/${batch.key}`,
    title: batchTitle(frame, batch, 'card.stop.title', size),
    card: {
      caution: { signal: 'danger', words: say('card.stop.caution') },
      steps: [say('card.stop.old'), say('card.stop.why', { sheet }), say('card.stop.skin', fixedLinks)],
      stop: say('card.stop.begun', fixedLinks),
      from: say('card.stop.from', { sheet }),
    },
  }
}

/** What does not stand has no card: its stop page says what to do. */
const fixtureCards = (frame: Frame, binder: BoundBinder, mould: BoundMould): readonly CardDraft[] => {
  if (isStopped(mould.findings)) return []
  const grid = binder.gridCutters.find(({ key }) => key === mould.key)
  const bar = binder.barCutters.find(({ key }) => key === mould.key)
  return [
    mouldCard(frame, mould),
    ...(grid && !isStopped(grid.findings) ? [gridCard(frame, mould, grid)] : []),
    ...(bar && !isStopped(bar.findings) ? [sliceCard(frame, mould)] : []),
  ]
}
