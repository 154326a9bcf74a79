/** markets/NAME.yaml: bars that must be ready for a day. */
import { z } from 'zod'
import { count, date, name, quantity, words } from './fields.ts'
import { mapOf } from './shapes.ts'

export const marketFile = z
  .strictObject({
    title: words({ max: 60 }).describe('What sheets call it.'),
    date: date().describe('The day of the market.'),
    ready: quantity('duration', { min: '0 days', max: '60 days' })
      .optional()
      .describe('All bars are labelled so long before it, in whole days; one day where it is left out.'),
    mould: name().describe(
      'The mould that is poured for it: the name of its file in fixtures, without .yaml.',
    ),
    bars: mapOf(count({ min: 1, max: 100000 })).describe('Bars of each recipe, by the name of its file.'),
    'label-weight': quantity('mass', { min: '5 g', max: '5 kg' })
      .optional()
      .describe(
        'The least weight of one bar, as its label says: bars are ready when they keep it until they are sold.',
      ),
  })
  .describe('Bars that must be ready for a day: the sheet says by when to pour.')

export type MarketFile = z.output<typeof marketFile>
