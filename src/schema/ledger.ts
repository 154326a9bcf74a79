/** stock/*.yaml: a plain list of what came in, was made, was lost and was counted. What a batch used stands in its own file. */
import { z } from 'zod'
import { count, date, mark, money, name, quantity, report, words } from './fields.ts'
import { exactlyOne } from './shapes.ts'

/** As it is written on the tub: the supplier's, or one of your own. */
export const lotName = () => mark({ max: 40 })

/** Some of a lot. */
export const ofLot = () =>
  z.strictObject({ lot: lotName(), amount: quantity('mass', { min: '0.1 g', max: '5000 kg' }) })

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
    date: date(),
    received: lotName().optional().describe('A lot that came in, by what is written on it.'),
    made: lotName()
      .optional()
      .describe('A lot that the shop made itself: a stock lye, a blend, trim that is kept.'),
    lost: lotName().optional().describe('Some of a lot that was spilled, spoiled or thrown away.'),
    counted: lotName().optional().describe('What stock-taking found of a lot.'),
    material: name().optional(),
    amount: quantity('mass', { min: '0 g', max: '5000 kg' }).optional(),
    pieces: count({ min: 0, max: 1_000_000 }).optional(),
    price: money().optional().describe('Of all of it.'),
    from: words({ max: 60 }).optional().describe('Who sold it.'),
    'best-before': date().optional().describe('The last day on which it may be used, as printed.'),
    keeps: quantity('duration', { min: '1 day', max: '520 weeks' })
      .optional()
      .describe('From the day it came; what ends first counts.'),
    of: z.array(ofLot()).min(1).max(40).optional().describe('Lots that it was made of.'),
    batch: name().optional().describe('The batch that left it over.'),
    why: words({ max: 120 }).optional(),
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

export const ledgerFile = z.strictObject({
  entries: z.array(entry).min(1).max(5000).describe('One line for each; in any order.'),
})

export type LedgerEntry = z.output<typeof entry>
export type LedgerFile = z.output<typeof ledgerFile>
