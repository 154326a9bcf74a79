/** recipes/NAME.yaml: one formula, in shares, for a batch of any size. */
import { z } from 'zod'
import { batchKey } from './batch-key.ts'
import { cureTimes } from './cure-times.ts'
import { count, name, plainNumber, quantity, report, share, words } from './fields.ts'
import { entered, labelWords } from './selling.ts'
import { exactlyOne, mapOf } from './shapes.ts'

export const recipeFile = z
  .strictObject({
    title: words({ max: 60 }),
    fats: mapOf(share({ min: '0.1 %', max: '100 %' })).describe(
      'Shares of the weight of all fats; they make 100 %.',
    ),
    superfat: share({ min: '-5 %', max: '30 %' }).describe('Share of the fats that the lye leaves alone.'),
    alkali: name().optional().describe('The one alkali that the lye is made of.'),
    alkalis: mapOf(share({ min: '1 %', max: '99 %' }))
      .optional()
      .describe('Or two, with their shares of the hydroxide by number of molecules; they make 100 %.'),
    'lye-concentration': share({ min: '10 %', max: '60 %' })
      .optional()
      .describe('Share of alkali, as weighed, in the finished lye.'),
    'water-to-lye': plainNumber({ min: 0.6, max: 9 })
      .optional()
      .describe('Or: water for each part of alkali.'),
    'water-share-of-fats': share({ min: '5 %', max: '100 %' })
      .optional()
      .describe('Or: water as a share of the fats.'),
    'lye-liquid': name().optional().describe('What the lye is made with, when it is not water.'),
    'later-liquid': share({ min: '1 %', max: '60 %' })
      .optional()
      .describe('Share of the water that is kept back and goes in at the first trace.'),
    additions: mapOf(share({ min: '0.01 %', max: '50 %' }))
      .optional()
      .describe('Scents, acids and other additions, as shares of the weight of all fats.'),
    colours: mapOf(
      z.strictObject({
        share: share({ min: '1 %', max: '100 %' }).describe('Share of the batter.'),
        with: mapOf(share({ min: '0.01 %', max: '20 %' }))
          .optional()
          .describe('Additives, as shares of the fats in this part of the batter.'),
      }),
    )
      .optional()
      .describe('Parts that the batter is divided into at the first trace; they make 100 %.'),
    'lye-temperature': quantity('temperature', { min: '10 C', max: '70 C' })
      .optional()
      .describe('Of the lye when it goes into the fats; the pour temperature where it is not given.'),
    'pour-temperature': quantity('temperature', { min: '15 C', max: '90 C' }),
    tried: z
      .strictObject({
        where: words({ max: 60 }),
        oils: quantity('mass', { min: '50 g', max: '500 kg' }),
        'minutes-to-thick': count({ min: 1, max: 600 }).describe(
          'From the lye in the fats until it was too thick to pour.',
        ),
        'minutes-to-trace': count({ min: 1, max: 600 })
          .optional()
          .describe('From the lye in the fats until drops left a mark that stayed.'),
        behaviour: words({ max: 120 }),
      })
      .optional(),
    cure: z
      .strictObject(cureTimes)
      .optional()
      .describe("Times of this recipe, where they are not the shop's."),
    code: batchKey()
      .optional()
      .describe('Tells its batches from others of the same day, in the code on a label.'),
    'label-words': labelWords().optional().describe('What its label says beside what the law asks for.'),
    entered: entered().optional().describe("What has been done for this recipe's bars before they are sold."),
  })
  .superRefine((recipe, context) => {
    exactlyOne(recipe, ['lye-concentration', 'water-to-lye', 'water-share-of-fats'], context)
    exactlyOne(recipe, ['alkali', 'alkalis'], context)
    if (recipe.colours) {
      const sum = Object.values(recipe.colours).reduce((total, part) => total + part.share, 0)
      if (Math.abs(sum - 1) > 0.0005)
        report(context, {
          code: 'colours-not-100',
          message: `The colours make ${Math.round(sum * 10_000) / 100} % of the batter, not 100 %`,
          advice: 'Let their shares make 100 %; a part that stays plain is a colour too, without "with".',
          path: ['colours'],
          at: 'key',
        })
    }
    if (recipe.alkalis) {
      const sum = Object.values(recipe.alkalis).reduce((total, part) => total + part, 0)
      const keys = Object.keys(recipe.alkalis)
      if (keys.length !== 2 || Math.abs(sum - 1) > 0.0005)
        report(context, {
          code: 'alkalis-not-100',
          message: `Two alkalis that make 100 % belong here, but ${keys.length === 1 ? 'this is one of' : `these ${keys.length} make`} ${Math.round(sum * 10_000) / 100} %`,
          advice: 'Name two alkalis whose shares make 100 %, or one alkali with "alkali:".',
          path: ['alkalis'],
          at: 'key',
        })
    }
  })

export type RecipeFile = z.output<typeof recipeFile>
