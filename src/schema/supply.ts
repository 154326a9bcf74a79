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
  name: words({ max: 60 }),
  delivery: money().optional().describe('What one delivery costs, however much it brings.'),
  'lead-time': quantity('duration', { min: '0 h', max: '52 weeks' })
    .optional()
    .describe('From the order until it is in the shop; the same day where it is left out.'),
})

export const packaging = z.strictObject({
  name: words({ max: 80 }),
  'for-each-bar': count({ min: 1, max: 20 })
    .optional()
    .describe('Pieces of it that one bar takes; one where it is left out.'),
})

export const pack = z
  .strictObject({
    material: name().describe('A key of the fats, alkalis, additives, scents, liquids or packaging.'),
    supplier: name(),
    amount: quantity('mass', { min: '0.1 g', max: '5000 kg' })
      .optional()
      .describe('Its weight, without the tub.'),
    pieces: count({ min: 1, max: 1_000_000 }).optional().describe('Or, of what is counted: how many.'),
    price: money().optional().describe('Of one pack; without it the pack is not bought.'),
    'at-least': count({ min: 1, max: 1000 }).optional().describe('Packs that are sold at least.'),
    available: count({ min: 0, max: 1000 }).optional().describe('Packs that there are at most.'),
    'lead-time': quantity('duration', { min: '0 h', max: '52 weeks' })
      .optional()
      .describe("Of this pack, where it is not its supplier's."),
    keeps: quantity('duration', { min: '1 day', max: '520 weeks' })
      .optional()
      .describe('From the day it arrives until it may be used for the last time.'),
  })
  .superRefine((one, context) => exactlyOne(one, ['amount', 'pieces'], context))

export type SupplierEntry = z.output<typeof supplier>
export type PackagingEntry = z.output<typeof packaging>
export type PackEntry = z.output<typeof pack>
