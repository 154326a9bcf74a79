/** recipes/NAME.yaml: one formula, in shares, for a batch of any size. */
import { z } from 'zod'
import { count, name, quantity, share, words } from './fields.ts'

export const recipeFile = z.strictObject({
  title: words({ max: 60 }),
  fats: z.record(name(), share({ min: '0.1 %', max: '100 %' })),
  superfat: share({ min: '-5 %', max: '30 %' }).describe('Share of the fats that the lye leaves alone.'),
  alkali: name(),
  'lye-concentration': share({ min: '10 %', max: '60 %' }).describe(
    'Share of pure alkali in the finished lye.',
  ),
  'pour-temperature': quantity('temperature', { min: '15 C', max: '90 C' }),
  tried: z
    .strictObject({
      where: words({ max: 60 }),
      oils: quantity('mass', { min: '50 g', max: '500 kg' }),
      'minutes-to-thick': count({ min: 1, max: 600 }),
      behaviour: words({ max: 120 }),
    })
    .optional(),
})

export type RecipeFile = z.output<typeof recipeFile>
