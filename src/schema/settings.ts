/** What shop.yaml says of every binder, whatever work it is for: whose it is, its words, its paper. */
import { z } from 'zod'
import { count, date, mark, oneOf, quantity, words, yesOrNo } from './fields.ts'

/** Fields of shop.yaml that the engine reads; a process adds its own. */
export const binderSettings = {
  format: count({ min: 1, max: 1000 })
    .optional()
    .describe(
      'Which format the files of this folder are in; "npm run upgrade" changes it. 1 where it is left out.',
    ),
  name: words({ max: 60 }).describe('The name of the shop, as it stands on every sheet.'),
  edition: date().describe('The date that the sheets carry; change it when you print a new edition.'),
  language: mark({ max: 20 }).describe(
    'Language of the binder: the name of a folder of this program’s words, such as en or es.',
  ),
  'decimal-mark': oneOf(['point', 'comma'])
    .optional()
    .describe(
      'In numbers on paper; as the language usually has it where it is left out. In these files it is always a point.',
    ),
  paper: z
    .strictObject({
      size: oneOf(['Letter', 'A4']).describe('Size of the sheets.'),
      'right-hand-starts': yesOrNo().describe(
        'Every sheet begins on a right-hand page, for printing on both sides.',
      ),
      'mirrored-margins': yesOrNo().describe(
        'The binding margin changes sides with the page, for printing on both sides.',
      ),
      'binding-margin': quantity('length', { min: '15 mm', max: '40 mm' }).describe(
        'Blank edge that the holes are punched in.',
      ),
      cards: oneOf(['full', 'half'])
        .optional()
        .describe(
          'A station card on a page, for the wall; or twice on a page that is cut apart, for the bench. Full where it is left out.',
        ),
    })
    .describe('What the binder is printed on.'),
  units: z
    .strictObject({
      length: oneOf(['in', 'mm']).describe('The first unit of lengths; the other one is printed beside it.'),
      'smallest-fraction': oneOf(['1/8 in', '1/16 in', '1/32 in', '1/64 in'])
        .optional()
        .describe('The finest that you can read on your tape; a usual one where it is left out.'),
      temperature: oneOf(['F', 'C']).describe(
        'The first unit of temperatures; the other one is printed beside it.',
      ),
    })
    .describe('Units that sheets are printed in; these files take any of them.'),
}

/** What sheets call a scale or a vessel; one without a name goes by its key. */
interface Named {
  readonly name?: string | undefined
}

/** The same as read, and what of a shop the engine shows where a process has it. */
export interface BinderSettings extends z.output<z.ZodObject<typeof binderSettings>> {
  readonly hours?: { readonly clock?: '24-hour' | 'am-pm' | undefined } | undefined
  readonly scales?: Readonly<Record<string, Named>>
  readonly vessels?: Readonly<Record<string, Named>>
}
