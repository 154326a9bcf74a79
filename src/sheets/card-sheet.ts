/** One station card as a sheet: a whole page, or twice on a page that is cut apart. */
import { finishSheet } from './compose.ts'
import { type Frame, readingOf } from './frame.ts'
import type { Card, Inline, Sheet } from './model.ts'

/** How large a shop wants its cards. */
export type CardSize = 'full' | 'half'

/** A card before its number in the binder is known. */
export interface CardDraft {
  /** station and what it is for: `weigh/2027-03-14-hearth` */
  readonly id: string
  readonly title: Inline
  readonly card: Omit<Card, 'kind' | 'copies'>
}

export const cardSheet = (
  frame: Frame,
  { id, title, card }: CardDraft,
  sheetNumber: string,
  size: CardSize,
): Sheet =>
  finishSheet({
    ...frame.sheet('card', `card/${id}`, frame.say('section.card'), sheetNumber, title),
    reading: readingOf(frame.show, size === 'half' ? 'half-card' : 'card'),
    template: frame.template('card'),
    fill: {},
    blocks: { card: { kind: 'card', copies: size === 'half' ? [1, 2] : [1], ...card } },
    sources: [],
  })

/** What a reader counts: the caution, the number, what is worn, every step, the stop. */
export const MOST_LINES = 10

/** @returns how many lines a card has */
export const cardLines = ({ number, hold, wear, steps, stop }: CardDraft['card']): number =>
  1 + steps.length + [number, hold, wear, stop].filter((one) => one !== undefined).length
