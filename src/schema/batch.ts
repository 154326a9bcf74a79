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
    recipe: name().describe('Which recipe is made: the name of its file in recipes, without .yaml.'),
    mould: name().describe('Which mould it is poured into: the name of its file in fixtures, without .yaml.'),
    date: date().describe('The day of the pour.'),
    'pour-at': timeOfDay()
      .optional()
      .describe(
        'When the pour begins. Where it is left out, as early as everything can be ready once the shop opens.',
      ),
    code: batchKey()
      .optional()
      .describe("Stands in the code on its labels in place of its recipe's: for a second batch of one day."),
    fill: z
      .literal('to the line')
      .optional()
      .describe(
        'Fills the mould to the height of the whole block. One of fill, oils and on-hand must be there, and only one.',
      ),
    oils: quantity('mass', { min: '50 g', max: '500 kg' })
      .optional()
      .describe('In place of fill: this much of all fats together.'),
    'on-hand': mapOf(quantity('mass', { min: '1 g', max: '5000 kg' }))
      .optional()
      .describe(
        'In place of fill: what there is of the fats that are short, each by its name; the largest batch of whole slices is planned.',
      ),
    'label-weight': quantity('mass', { min: '5 g', max: '5 kg' })
      .optional()
      .describe(
        'The least weight of one bar, as its label says; the weigh-in log tells how much it may be, and from when.',
      ),
    'weigh-ins': z
      .array(
        z.strictObject({
          date: date().describe('The day on which it was weighed.'),
          weight: quantity('mass', { min: '1 g', max: '10 kg' }).describe('Weight of one bar.'),
        }),
      )
      .max(100)
      .optional()
      .describe('The same bar or bars on the scale each time, to follow how they dry.'),
    'core-temperatures': z
      .array(
        z.strictObject({
          after: quantity('duration', { min: '0 min', max: '5 days' }).describe('Time since the pour.'),
          reads: quantity('temperature', { min: '-10 C', max: '130 C' }).describe(
            'What the thermometer in the core showed.',
          ),
        }),
      )
      .max(200)
      .superRefine(ascending)
      .optional()
      .describe(
        'What was read in the middle of the block, in the order of time; all batches of the recipe are reckoned with it.',
      ),
    premix: name()
      .optional()
      .describe(
        'Fats that were blended beforehand and are drawn as one: a name among the premixes of the materials.',
      ),
    lye: z
      .strictObject({
        'water-temperature': quantity('temperature', { min: '0 C', max: '40 C' })
          .optional()
          .describe('Of the water before the alkali goes in; as warm as the room where it is left out.'),
        ice: shareOr('as needed', { min: '0 %', max: '90 %' })
          .optional()
          .describe(
            'Share of the water that goes in as ice; as needed: the least that keeps the lye under its limit. None where it is left out.',
          ),
        stock: name()
          .optional()
          .describe(
            'A ready stock lye in place of the dry alkali: a name among the stock lyes of the materials.',
          ),
      })
      .optional()
      .describe('How the lye is made; with water as warm as the room, without ice, where this is left out.'),
    made: made
      .optional()
      .describe(
        'What was done, copied from the paper after the day. A batch without it is still to be made.',
      ),
    'release-test': z
      .strictObject({
        date: date().describe('The day of the test.'),
        result: oneOf(['passed', 'failed']).describe('How it went.'),
        by: mark({ max: 60 }).optional().describe('Who signed it.'),
      })
      .optional()
      .describe('The free-alkali test of its bars; of a batch that was held no label is printed without it.'),
  })
  .superRefine((batch, context) => {
    exactlyOne(batch, ['fill', 'oils', 'on-hand'], context)
    if (batch.made) checkMadeDays(batch.date, batch.made, batch['release-test']?.date, context)
  })
  .describe(
    'One pour of one recipe into one mould on one day; later also what was done, and how many bars it came to.',
  )

export type BatchFile = z.output<typeof batchFile>
