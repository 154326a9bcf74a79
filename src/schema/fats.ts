/** The fats library: published figures of each fat, each with its source. */
import { z } from 'zod'
import { FATTY_ACIDS, type FattyAcidName } from '../chemistry/fatty-acids.ts'
import { name, oneOf, plainNumber, quantity, share, words } from './fields.ts'
import { inOrder } from './shapes.ts'

const evidence = { source: name(), evidence: oneOf(['read', 'recalled', 'computed']) }
const limit = (max: number) => plainNumber({ min: 0, max })

/** A published range; a standard that gives only one limit leaves the other out. */
const published = (max: number) =>
  z.strictObject({ from: limit(max).optional(), to: limit(max).optional(), ...evidence }).superRefine(inOrder)

const acid = z.string().refine((key): key is FattyAcidName => Object.hasOwn(FATTY_ACIDS, key), {
  error: 'is not a fatty acid that this program knows',
})

const meltingTemperature = () => quantity('temperature', { min: '-30 C', max: '120 C' })

/** Percent of each acid in all the fatty acids. */
export const acidShares = () => z.partialRecord(acid, limit(100))

export const fat = z.strictObject({
  names: z.array(words({ max: 80 })).min(1),
  inci: z.strictObject({ name: words({ max: 120 }), ...evidence }),
  kind: oneOf(['triglyceride', 'wax', 'fatty-acid']),
  'saponification-value': z
    .strictObject({ from: limit(560), to: limit(560), ...evidence })
    .superRefine(inOrder),
  'acid-value': published(560).optional(),
  'iodine-value': published(250).optional(),
  density: z.strictObject({
    from: plainNumber({ min: 0.7, max: 1.2 }),
    to: plainNumber({ min: 0.7, max: 1.2 }),
    at: quantity('temperature', { min: '0 C', max: '120 C' }),
    'against-water-at': quantity('temperature', { min: '0 C', max: '40 C' }).optional(),
    state: oneOf(['solid', 'liquid']).optional(),
    ...evidence,
  }),
  melting: z
    .strictObject({
      from: meltingTemperature().describe('Lowest melting point that is published.'),
      to: meltingTemperature().describe(
        'Highest melting point that is published; above it nothing is solid.',
      ),
      'solid-at-room': share()
        .optional()
        .describe('Share that is solid near 20 C; all of it is taken to be solid where it is not given.'),
      ...evidence,
    })
    .superRefine(inOrder)
    .optional()
    .describe('For a fat that is solid or partly solid near 20 C.'),
  unsaponifiable: published(1000).optional(),
  'fatty-acids': z
    .strictObject({ percent: z.record(acid, z.tuple([limit(100), limit(100)])), ...evidence })
    .optional(),
  'measured-composition': z.strictObject({ percent: acidShares(), ...evidence }).optional(),
  notes: z.array(words({ max: 500 })).optional(),
})

export type FatEntry = z.output<typeof fat>
