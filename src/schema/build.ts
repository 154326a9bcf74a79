/** builds/NAME.yaml: what is made in one go, from the same boards. */
import { z } from 'zod'
import { count, date, oneOf, words } from './fields.ts'
import { mapOf } from './shapes.ts'

/** What can be made of a fixture, in the order in which it is used. */
export const BUILD_PIECES = [
  'set-up-gauge', 'mould', 'grid-cutter', 'bar-cutter', 'trial-frame', 'lever-press',
] as const // biome-ignore format: one line reads better

export type BuildPiece = (typeof BUILD_PIECES)[number]

export const buildFile = z
  .strictObject({
    title: words({ max: 60 }).describe('What the quote page calls it.'),
    'wanted-by': date()
      .optional()
      .describe('The day by which all of it should be made; a line to write on where it is left out.'),
    fixtures: mapOf(
      z.strictObject({
        pieces: z
          .array(oneOf(BUILD_PIECES))
          .min(1)
          .max(BUILD_PIECES.length)
          .optional()
          .describe('What of it; all that it has where it is left out.'),
        'how-many': count({ min: 1, max: 50 })
          .optional()
          .describe('Of each piece; one where it is left out.'),
      }),
    )
      .optional()
      .describe(
        'Which fixtures are made, each by the name of its file; all of every fixture where it is left out.',
      ),
  })
  .describe('What is made in one go, sawn from the same boards; whoever saws it gets a quote page.')

export type BuildFile = z.output<typeof buildFile>
