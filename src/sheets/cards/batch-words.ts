/** What all cards of a batch say alike. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { CardSize } from '../card-sheet.ts'
import type { Frame } from '../frame.ts'
import type { Inline } from '../model.ts'

/** @param key phrase with the station's name; on half a page the month is short, so that the title keeps to its line */
export const batchTitle = ({ say, show }: Frame, batch: BoundBatch, key: string, size: CardSize): Inline => {
  const shown = size === 'half' ? show.narrowDate : show.date
  return say(key, { recipe: batch.recipeTitle, date: shown('batch.date', batch.date) })
}

export const fromSheet = ({ say }: Frame, sheet: string): Inline => say('card.from', { sheet })
