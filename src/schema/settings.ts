/** What shop.yaml says of every binder, whatever work it is for: whose it is, its words, its paper. */
import { z } from 'zod'
import { date, mark, oneOf, quantity, words, yesOrNo } from './fields.ts'

/** Fields of shop.yaml that the engine reads; a process adds its own. */
export const binderSettings = {
  name: words({ max: 60 }),
  edition: date().describe('The date that the sheets carry.'),
  language: mark({ max: 20 }).describe('Of the binder: the name of a folder of this program’s words.'),
  'decimal-mark': oneOf(['point', 'comma'])
    .optional()
    .describe('In numbers on paper; as the language usually has it where it is left out.'),
  paper: z.strictObject({
    size: oneOf(['Letter', 'A4']),
    'right-hand-starts': yesOrNo(),
    'mirrored-margins': yesOrNo(),
    'binding-margin': quantity('length', { min: '15 mm', max: '40 mm' }),
    cards: oneOf(['full', 'half'])
      .optional()
      .describe(
        'A station card on a page, for the wall; or twice on a page that is cut apart, for the bench.',
      ),
  }),
  units: z.strictObject({
    length: oneOf(['in', 'mm']),
    'smallest-fraction': oneOf(['1/8 in', '1/16 in', '1/32 in', '1/64 in']).optional(),
    temperature: oneOf(['F', 'C']),
  }),
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
