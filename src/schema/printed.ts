/** records/printed.yaml: papers that were printed, where they went, and which were taken down. */
import { z } from 'zod'
import { count, date, oneOf, report, words } from './fields.ts'

/** Papers that came into the shop or left it; papers that are no more. */
const HUNG = ['filed', 'laminated', 'given-away'] as const
const REMOVED = ['taken-down', 'gone'] as const

/** Whether papers of such an entry are there from then on. */
export const isHung = (how: PrintedEntry['how']): how is (typeof HUNG)[number] =>
  HUNG.some((one) => one === how)

const paper = z.strictObject({
  sheet: words({ max: 200 }).describe('Which sheet it is, by its name.'),
  revision: count({ min: 1, max: 9999 }).describe('The revision that stands at its foot.'),
  code: words({ max: 20 }).describe('The code that stands at its foot.'),
  shows: words({ max: 64 })
    .optional()
    .describe(
      'The first figures of what tells two papers of one sheet apart, as the program writes them. It must be there for papers that were hung up.',
    ),
})

const entry = z
  .strictObject({
    date: date().describe('The day on which it was done.'),
    how: oneOf([...HUNG, ...REMOVED]).describe(
      'What became of the papers. taken-down and gone are for papers that are no more.',
    ),
    where: words({ max: 80 })
      .optional()
      .describe(
        'Where they hang, or who has them. It must be there for papers that are not taken down or gone.',
      ),
    by: words({ max: 60 }).optional().describe('Who did it.'),
    sheets: z.array(paper).min(1).max(5000).describe('Which papers, one entry each.'),
  })
  .superRefine((one, context) => {
    if (!isHung(one.how)) return
    if (one.where === undefined)
      report(context, {
        code: 'name-missing',
        message: '"where" is missing here',
        advice: 'Say where the papers hang or lie, for example "where: wall by the scale".',
      })
    for (const [index, { shows }] of one.sheets.entries())
      if (shows === undefined)
        report(context, {
          code: 'name-missing',
          message: '"shows" is missing here',
          advice:
            'It tells two papers of one sheet apart: copy the whole line as "npm run printed" writes it, or let it write the entry.',
          path: ['sheets', index],
        })
  })

export const printedFile = z
  .strictObject({
    entries: z
      .array(entry)
      .max(100_000)
      .describe('One for each time that papers were printed or removed, in the order of their days.'),
  })
  .describe(
    'Papers that were printed: what hangs in the shop, lies filed or was given away, and what was taken down. "npm run printed" writes it; you may write an entry yourself.',
  )

export type PrintedFile = z.output<typeof printedFile>
export type PrintedEntry = z.output<typeof entry>
