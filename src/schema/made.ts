/** "made" in batches/NAME.yaml: what was done, copied from the paper after the day. */
import { z } from 'zod'
import { count, date, quantity, words } from './fields.ts'
import { lotName } from './ledger.ts'
import { amountFields } from './supply.ts'

export const made = z.strictObject({
  used: z
    .array(z.strictObject({ lot: lotName(), amount: amountFields().amount.unwrap() }))
    .min(1)
    .max(200)
    .describe('What was weighed out, lot by lot; stock goes down by it.'),
  'left-in-pot': quantity('mass', { min: '0 g', max: '100 kg' })
    .optional()
    .describe('Batter that stayed in kettle and jugs.'),
  trimmed: quantity('mass', { min: '0 g', max: '100 kg' })
    .optional()
    .describe('Cut off and not sold as bars.'),
  bars: z
    .strictObject({
      cut: count({ min: 1, max: 10_000 }),
      tests: count({ min: 0, max: 10_000 }).optional().describe('Cut open or kept as samples.'),
      rejected: count({ min: 0, max: 10_000 }).optional().describe('Broken, or off in shape or weight.'),
    })
    .optional(),
  wrapped: z
    .strictObject({
      date: date(),
      weights: z
        .array(quantity('mass', { min: '1 g', max: '10 kg' }))
        .min(1)
        .max(2000)
        .describe('Each of the bars that were weighed.'),
      packaging: z
        .array(z.strictObject({ lot: lotName(), pieces: count({ min: 1, max: 100_000 }) }))
        .max(40)
        .optional()
        .describe('What they were wrapped in, lot by lot; stock goes down by it.'),
    })
    .optional(),
  went: z
    .array(z.strictObject({ date: date(), bars: count({ min: 1, max: 10_000 }), to: words({ max: 60 }) }))
    .max(1000)
    .optional()
    .describe('Bars that left the shop, sold or given away.'),
})

export type Made = z.output<typeof made>
