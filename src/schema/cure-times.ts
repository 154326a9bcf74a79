/** When bars are stamped, turned, tested, labelled and no longer sold: in a recipe, or in the shop for all of them. */
import { z } from 'zod'
import { quantity } from './fields.ts'
import { inOrder } from './shapes.ts'

const after = (min: string, max: string) => quantity('duration', { min, max }).optional()

export const cureTimes = {
  stamp: z
    .strictObject({
      from: quantity('duration', { min: '0 h', max: '30 days' }).describe('The earliest.'),
      to: quantity('duration', { min: '0 h', max: '60 days' }).describe('The latest.'),
    })
    .superRefine(inOrder)
    .optional()
    .describe(
      'Between these times after bars were sliced they take a stamp: firm enough to hold an edge, soft enough to take one. Left out where bars are not stamped.',
    ),
  turn: z
    .array(quantity('duration', { min: '1 day', max: '365 days' }))
    .max(20)
    .optional()
    .describe('When bars are turned, each time after the pour; as is usual where it is left out.'),
  'test-after': after('1 day', '365 days').describe(
    'After the pour: the test that releases a batch; a usual time where it is left out.',
  ),
  'label-after': after('1 day', '730 days').describe(
    'After the pour, at the earliest; later where bars have not dried to the weight on their label. A usual time where it is left out.',
  ),
  'sell-by': after('7 days', '2000 days').describe(
    'After the pour: the last day of sale; a usual time where it is left out.',
  ),
} as const
