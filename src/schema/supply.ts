/** What is bought: suppliers, the packs that they sell, and what bars are wrapped in. Sections of materials/*.yaml. */
import { z } from 'zod'
import { count, money, name, quantity, words } from './fields.ts'
import { exactlyOne } from './shapes.ts'

/** An amount as the calculators take it [kg or pieces]. */
export const amountOf = (of: {
  readonly amount?: number | undefined
  readonly pieces?: number | undefined
}): number => of.amount ?? of.pieces ?? 0

export const supplier = z.strictObject({
  name: words({ max: 60 }).describe('What the shopping list calls it.'),
  delivery: money()
    .optional()
    .describe('What one delivery costs, however much it brings; nothing where it is left out.'),
  'lead-time': quantity('duration', { min: '0 h', max: '52 weeks' })
    .optional()
    .describe('From the order until it is in the shop; the same day where it is left out.'),
})

export const packaging = z.strictObject({
  name: words({ max: 80 }).describe('What sheets call it.'),
  'for-each-bar': count({ min: 1, max: 20 })
    .optional()
    .describe('Pieces of it that one bar takes; one where it is left out.'),
})

export const pack = z
  .strictObject({
    material: name().describe(
      'What is in it: a name among the fats, alkalis, additives, scents, liquids or packaging.',
    ),
    supplier: name().describe('Who sells it: a name among the suppliers.'),
    amount: quantity('mass', { min: '0.1 g', max: '5000 kg' })
      .optional()
      .describe(
        'Weight of what is in it, without the tub. One of amount and pieces must be there, and only one.',
      ),
    pieces: count({ min: 1, max: 1_000_000 })
      .optional()
      .describe('How many are in it, for what is counted and not weighed.'),
    price: money().optional().describe('Of one pack; without it the pack is not bought.'),
    'at-least': count({ min: 1, max: 1000 })
      .optional()
      .describe('The fewest packs that are sold at a time; one where it is left out.'),
    available: count({ min: 0, max: 1000 })
      .optional()
      .describe('The most packs that there are; as many as wanted where it is left out.'),
    'lead-time': quantity('duration', { min: '0 h', max: '52 weeks' })
      .optional()
      .describe("From the order until it is in the shop, where it is not its supplier's."),
    keeps: quantity('duration', { min: '1 day', max: '520 weeks' })
      .optional()
      .describe(
        'From the day it arrives until it may be used for the last time; for ever where it is left out.',
      ),
  })
  .superRefine((one, context) => exactlyOne(one, ['amount', 'pieces'], context))

export type SupplierEntry = z.output<typeof supplier>
export type PackagingEntry = z.output<typeof packaging>
export type PackEntry = z.output<typeof pack>
