/** What the sheets of a label are called. */
import type { BoundLabel } from '../../binder/bind-labels.ts'
import type { Frame } from '../frame.ts'
import type { Inline } from '../model.ts'

export const labelTitle = (
  { say, show }: Frame,
  { batch }: BoundLabel,
  key: 'label.title' | 'label.page.title' | 'label.page.title-unsold',
): Inline => say(key, { recipe: batch.recipeTitle, date: show.date('batch.date', batch.date) })
