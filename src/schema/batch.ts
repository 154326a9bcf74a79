/** batches/NAME.yaml: one pour of one recipe into one mould on one day. */
import { z } from 'zod'
import { batchKey } from './batch-key.ts'
import { date, mark, name, oneOf, quantity, report, shareOr, timeOfDay } from './fields.ts'
import { made } from './made.ts'
import { checkMadeDays } from './made-days.ts'
import { exactlyOne, mapOf } from './shapes.ts'

/** A log is written as time goes on: a time that goes back is a slip of the pen. */
const ascending = (log: readonly { readonly after: number }[], context: z.RefinementCtx): void => {
  const back = log.findIndex(({ after }, index) => after <= (log[index - 1]?.after ?? -1))
  if (back < 0) return
  report(context, {
    code: 'times-not-ascending',
    message: 'This reading is not later than the one before it',
    advice: 'Write the readings in the order of their times, each time once.',
    path: [back, 'after'],
  })
}

export const batchFile = z
  .strictObject({
    recipe: name(),
    mould: name(),
    date: date(),
    'pour-at': timeOfDay()
      .optional()
      .describe('When the pour begins; when the shop opens where it is left out.'),
    code: batchKey()
      .optional()
      .describe("In the code on its labels, in place of its recipe's: for a second batch of one day."),
    fill: z.literal('to the line').optional().describe('Fill the mould to the height of the whole block.'),
    oils: quantity('mass', { min: '50 g', max: '500 kg' })
      .optional()
      .describe('Or: this much of all fats together.'),
    'on-hand': mapOf(quantity('mass', { min: '1 g', max: '5000 kg' }))
      .optional()
      .describe(
        'Or: what there is of the fats that are short; the largest batch of whole slices is planned.',
      ),
    'label-weight': quantity('mass', { min: '5 g', max: '5 kg' })
      .optional()
      .describe(
        'The least weight of one bar, as its label says; the weigh-in log tells how much it may be, and from when.',
      ),
    'weigh-ins': z
      .array(z.strictObject({ date: date(), weight: quantity('mass', { min: '1 g', max: '10 kg' }) }))
      .max(100)
      .optional()
      .describe('The same bar or bars each time, weight of one.'),
    'core-temperatures': z
      .array(
        z.strictObject({
          after: quantity('duration', { min: '0 min', max: '5 days' }).describe('Since the pour.'),
          reads: quantity('temperature', { min: '-10 C', max: '130 C' }).describe('Thermometer in the core.'),
        }),
      )
      .max(200)
      .superRefine(ascending)
      .optional()
      .describe('What was read in the middle of the block; all batches of the recipe are reckoned with it.'),
    premix: name().optional().describe('Fats that were blended beforehand and are drawn as one.'),
    lye: z
      .strictObject({
        'water-temperature': quantity('temperature', { min: '0 C', max: '40 C' }).optional(),
        ice: shareOr('as needed', { min: '0 %', max: '90 %' })
          .optional()
          .describe(
            'Share of the water that goes in as ice; as needed: the least that keeps the lye under its limit.',
          ),
        stock: name().optional().describe('A ready stock lye in place of the dry alkali.'),
      })
      .optional(),
    made: made.optional().describe('What was done; a batch without it is still to be made.'),
    'release-test': z
      .strictObject({
        date: date(),
        result: oneOf(['passed', 'failed']),
        by: mark({ max: 60 }).optional().describe('Who signed it.'),
      })
      .optional()
      .describe('The free-alkali test of its bars; of a batch that was held no label is printed without it.'),
  })
  .superRefine((batch, context) => {
    exactlyOne(batch, ['fill', 'oils', 'on-hand'], context)
    if (batch.made) checkMadeDays(batch.date, batch.made, batch['release-test']?.date, context)
  })

export type BatchFile = z.output<typeof batchFile>
