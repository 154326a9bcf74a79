/** batches/NAME.yaml: one pour of one recipe into one mould on one day. */
import { z } from 'zod'
import { date, name, quantity, shareOr, timeOfDay } from './fields.ts'
import { exactlyOne, mapOf } from './shapes.ts'

export const batchFile = z
  .strictObject({
    recipe: name(),
    mould: name(),
    date: date(),
    'pour-at': timeOfDay()
      .optional()
      .describe('When the pour begins; when the shop opens where it is left out.'),
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
      .describe('Of one bar, as its label says; the cure sheet tells when bars reach it.'),
    'weigh-ins': z
      .array(z.strictObject({ date: date(), weight: quantity('mass', { min: '1 g', max: '10 kg' }) }))
      .max(100)
      .optional()
      .describe('The same bar or bars each time, weight of one.'),
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
  })
  .superRefine((batch, context) => exactlyOne(batch, ['fill', 'oils', 'on-hand'], context))

export type BatchFile = z.output<typeof batchFile>
