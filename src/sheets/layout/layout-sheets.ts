/** The saw plans of a binder, after the sheets of its fixtures. */
import type { BoundBinder } from '../../binder/bind.ts'
import type { Frame } from '../frame.ts'
import type { Sheet } from '../model.ts'
import { layoutSheet } from './layout-sheet.ts'

export const layoutSheets = (
  frame: Frame,
  { sawing }: BoundBinder,
  fixtures: readonly Sheet[],
): readonly Sheet[] => {
  if (!sawing) return []
  const of = {
    key: 'all',
    title: frame.say('layout.title'),
    number: `7.${fixtures.length + 1}`,
    sawing,
    sheets: new Map(fixtures.filter(({ stopped }) => !stopped).map(({ id, number }) => [id, { id, number }])),
  }
  return [frame.once(['layout', of], () => layoutSheet(frame, of))]
}
