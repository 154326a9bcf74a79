/** What all cards of a batch say alike. */
import type { BoundBatch } from '../../binder/bind-batch.ts'
import type { Frame } from '../frame.ts'
import type { Inline } from '../model.ts'

/** @param key phrase with the station's name */
export const batchTitle = ({ say, show }: Frame, batch: BoundBatch, key: string): Inline =>
  say(key, { recipe: batch.recipeTitle, date: show.date('batch.date', batch.date) })

export const fromSheet = ({ say }: Frame, sheet: string): Inline => say('card.from', { sheet })
