/** stock/*.yaml: a plain list of what came in, was made, was lost and was counted. What a batch used stands in its own file. */
import { z } from 'zod'
import { count, date, mark, money, name, quantity, report, words } from './fields.ts'
import { exactlyOne } from './shapes.ts'

/** As it is written on the tub: the supplier's, or one of your own. */
export const lotName = () => mark({ max: 40 })

/** Some of a lot. */
export const ofLot = () =>
  z.strictObject({
    lot: lotName().describe('What is written on the tub: a lot of the stock.'),
    amount: quantity('mass', { min: '0.1 g', max: '5000 kg' }).describe('How much of it.'),
  })

const KINDS = ['received', 'made', 'lost', 'counted'] as const

/** Keys that an entry of one kind has and others lack. */
const ONLY: Readonly<Record<string, readonly (typeof KINDS)[number][]>> = {
  material: ['received', 'made'],
  price: ['received'],
  from: ['received'],
  'best-before': ['received', 'made'],
  keeps: ['received', 'made'],
  of: ['made'],
  batch: ['made'],
  why: ['lost', 'counted'],
}

const entry = z
  .strictObject({
    date: date().describe('The day on which it came, was made, lost or counted.'),
    received: lotName()
      .optional()
      .describe(
        'A lot that came in, by what is written on it. One of received, made, lost and counted must be there, and only one.',
      ),
    made: lotName()
      .optional()
      .describe('A lot that the shop made itself: a stock lye, a blend, trim that is kept.'),
    lost: lotName().optional().describe('Some of a lot that was spilled, spoiled or thrown away.'),
    counted: lotName()
      .optional()
      .describe('A lot that stock-taking counted: what there is of it from then on.'),
    material: name()
      .optional()
      .describe('What it is: a name among the materials. It must be there for what was received or made.'),
    amount: quantity('mass', { min: '0 g', max: '5000 kg' })
      .optional()
      .describe('How much of it, by weight. One of amount and pieces must be there, and only one.'),
    pieces: count({ min: 0, max: 1_000_000 })
      .optional()
      .describe('How many of it, for what is counted and not weighed.'),
    price: money().optional().describe('Of all of it; without it the cost of a bar leaves this lot out.'),
    from: words({ max: 60 }).optional().describe('Who sold it.'),
    'best-before': date().optional().describe('The last day on which it may be used, as printed.'),
    keeps: quantity('duration', { min: '1 day', max: '520 weeks' })
      .optional()
      .describe('From the day it came until it may be used for the last time; what ends first counts.'),
    of: z
      .array(ofLot())
      .min(1)
      .max(40)
      .optional()
      .describe('Lots that it was made of, for what was made in the shop.'),
    batch: name().optional().describe('The batch that left it over, in place of "of".'),
    why: words({ max: 120 }).optional().describe('What happened, or why it was counted.'),
  })
  .superRefine((one, context) => {
    exactlyOne(one, KINDS, context)
    exactlyOne(one, ['amount', 'pieces'], context)
    const kind = KINDS.find((key) => one[key] !== undefined)
    if (!kind) return
    for (const [key, kinds] of Object.entries(ONLY))
      if (Object.hasOwn(one, key) && one[key as keyof typeof one] !== undefined && !kinds.includes(kind))
        report(context, {
          code: 'entry-of-another-kind',
          message: `"${key}" says nothing of what was ${kind}`,
          advice: `Take it out: it belongs to an entry that begins with ${kinds.map((other) => `"${other}"`).join(' or ')}.`,
          path: [key],
          at: 'key',
        })
    if ((kind === 'received' || kind === 'made') && one.material === undefined)
      report(context, {
        code: 'name-missing',
        message: '"material" is missing here',
        advice: 'Say what it is: a key of the materials, for example "material: olive".',
      })
    if (kind === 'made') exactlyOne(one, ['of', 'batch'], context)
  })

export const ledgerFile = z
  .strictObject({
    entries: z.array(entry).min(1).max(5000).describe('One entry for each, in any order.'),
  })
  .describe(
    'What came in, was made, was lost and was counted. What a batch used stands in the file of the batch.',
  )

export type LedgerEntry = z.output<typeof entry>
export type LedgerFile = z.output<typeof ledgerFile>
