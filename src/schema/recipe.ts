/** recipes/NAME.yaml: one formula, in shares, for a batch of any size. */
import { z } from 'zod'
import { batchKey } from './batch-key.ts'
import { cureTimes } from './cure-times.ts'
import { count, name, plainNumber, quantity, report, share, words } from './fields.ts'
import { entered, labelWords } from './selling.ts'
import { exactlyOne, mapOf } from './shapes.ts'

export const recipeFile = z
  .strictObject({
    title: words({ max: 60 }).describe('What sheets and labels call it.'),
    fats: mapOf(share({ min: '0.1 %', max: '100 %' })).describe(
      'Shares of the weight of all fats, each by the name of its fat; they make 100 %.',
    ),
    superfat: share({ min: '-5 %', max: '30 %' }).describe('Share of the fats that the lye leaves alone.'),
    alkali: name()
      .optional()
      .describe(
        'The one alkali that the lye is made of: a name among the alkalis of the materials. One of alkali and alkalis must be there, and only one.',
      ),
    alkalis: mapOf(share({ min: '1 %', max: '99 %' }))
      .optional()
      .describe(
        'Or two, one NaOH and one KOH, with their shares of the hydroxide by number of molecules; they make 100 %.',
      ),
    'lye-concentration': share({ min: '10 %', max: '60 %' })
      .optional()
      .describe(
        'Share of alkali, as weighed, in the finished lye. One of lye-concentration, water-to-lye and water-share-of-fats must be there, and only one.',
      ),
    'water-to-lye': plainNumber({ min: 0.6, max: 9 })
      .optional()
      .describe('In place of lye-concentration: water for each part of alkali.'),
    'water-share-of-fats': share({ min: '5 %', max: '100 %' })
      .optional()
      .describe('In place of lye-concentration: water as a share of the fats.'),
    'lye-liquid': name()
      .optional()
      .describe(
        'What the lye is made with, a name among the liquids of the materials; water where it is left out.',
      ),
    'later-liquid': share({ min: '1 %', max: '60 %' })
      .optional()
      .describe(
        'Share of the water that is kept back and goes in at the first trace; none where it is left out.',
      ),
    additions: mapOf(share({ min: '0.01 %', max: '50 %' }))
      .optional()
      .describe('Scents, acids and other additions, each by its name, as shares of the weight of all fats.'),
    colours: mapOf(
      z.strictObject({
        share: share({ min: '1 %', max: '100 %' }).describe('Share of the batter.'),
        with: mapOf(share({ min: '0.01 %', max: '20 %' }))
          .optional()
          .describe(
            'Additives, each by its name, as shares of the fats in this part of the batter; a part without it stays plain.',
          ),
      }),
    )
      .optional()
      .describe(
        'Parts that the batter is divided into at the first trace, each under a name of your own; they make 100 %. All of one colour where it is left out.',
      ),
    'lye-temperature': quantity('temperature', { min: '10 C', max: '70 C' })
      .optional()
      .describe('Of the lye when it goes into the fats; the pour temperature where it is left out.'),
    'pour-temperature': quantity('temperature', { min: '15 C', max: '90 C' }).describe(
      'Of the batter when it is poured, and of the fats when the lye goes in.',
    ),
    tried: z
      .strictObject({
        where: words({ max: 60 }).describe('Which trial it was.'),
        oils: quantity('mass', { min: '50 g', max: '500 kg' }).describe(
          'How much of all fats it was made with.',
        ),
        'minutes-to-thick': count({ min: 1, max: 600 }).describe(
          'From the lye in the fats until it was too thick to pour, in minutes.',
        ),
        'minutes-to-trace': count({ min: 1, max: 600 })
          .optional()
          .describe(
            "From the lye in the fats until drops left a mark that stayed, in minutes; the shop's own pace where it is left out.",
          ),
        behaviour: words({ max: 120 }).describe('How it went, in a few words.'),
      })
      .optional()
      .describe('How it went in a small batch. A recipe that was never tried is held back.'),
    cure: z
      .strictObject(cureTimes)
      .optional()
      .describe("Times of this recipe, where they are not the shop's."),
    code: batchKey()
      .optional()
      .describe('Tells its batches from others of the same day, in the code on a label.'),
    'label-words': labelWords()
      .optional()
      .describe('What its label says beside what the law asks for, a line each.'),
    entered: entered()
      .optional()
      .describe(
        "What has been done for this recipe's bars before they are sold; it goes before what the shop has entered for all.",
      ),
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
  .describe('One formula, in shares, for a batch of any size.')

export type RecipeFile = z.output<typeof recipeFile>
