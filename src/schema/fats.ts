/** The fats library: published figures of each fat, each with its source. */
import { z } from 'zod'
import { FATTY_ACIDS, type FattyAcidName } from '../chemistry/fatty-acids.ts'
import { mark, name, oneOf, plainNumber, quantity, report, share, words } from './fields.ts'
import { inOrder } from './shapes.ts'

const evidence = { source: name(), evidence: oneOf(['read', 'recalled', 'computed']) }
const limit = (max: number) => plainNumber({ min: 0, max })

/** A published range; a standard that gives only one limit leaves the other out. */
const published = (max: number) =>
  z.strictObject({ from: limit(max).optional(), to: limit(max).optional(), ...evidence }).superRefine(inOrder)

const acid = z
  .string()
  .refine((key): key is FattyAcidName => Object.hasOwn(FATTY_ACIDS, key), {
    error: 'is not a fatty acid that this program knows',
  })
  .meta({ enum: Object.keys(FATTY_ACIDS) })

const meltingTemperature = () => quantity('temperature', { min: '-30 C', max: '120 C' })

/** Units as in the head of the shipped library: melting in C, an apparent density in g/mL, an acid in percent. */
const FIGURES = [
  'saponification-value', 'acid-value', 'ester-value', 'hydroxyl-value', 'iodine-value', 'density',
  'apparent-density', 'melting', 'unsaponifiable', 'fatty-acid',
] as const // biome-ignore format: one line reads better

const figureLimit = () => plainNumber({ min: -30, max: 1000 }).optional()

const secondReading = z
  .strictObject({
    figure: oneOf(FIGURES),
    acid: acid.optional().describe('Which fatty acid, where the figure is one.'),
    with: acid.optional().describe('A second fatty acid: the figure is of both together.'),
    from: figureLimit(),
    to: figureLimit(),
    at: quantity('temperature', { min: '0 C', max: '120 C' }).optional(),
    'against-water-at': quantity('temperature', { min: '0 C', max: '40 C' }).optional(),
    note: words({ max: 80 }).optional(),
    ...evidence,
  })
  .superRefine(inOrder)
  .superRefine(({ figure, acid, with: second, from, to }, context) => {
    if (from === undefined && to === undefined)
      report(context, {
        code: 'none-of-several',
        message: 'This reading has no figure',
        advice: 'Add "from", "to" or both.',
      })
    if (figure === 'fatty-acid' && acid === undefined)
      report(context, {
        code: 'name-missing',
        message: '"acid" is missing here',
        advice: 'Say which fatty acid it is, for example "acid: C18:1".',
      })
    const stray = acid === undefined ? 'with' : 'acid'
    if (figure !== 'fatty-acid' && (acid ?? second) !== undefined)
      report(context, {
        code: 'name-unknown',
        message: `"${stray}" belongs to the figure fatty-acid only`,
        advice: 'Take it out, or correct the figure.',
        path: [stray],
        at: 'key',
      })
  })

/** Percent of each acid in all the fatty acids. */
export const acidShares = () => z.partialRecord(acid, limit(100))

export const fat = z.strictObject({
  names: z.array(words({ max: 80 })).min(1),
  inci: z.strictObject({ name: mark({ max: 120 }), ...evidence }),
  salts: z
    .strictObject({ sodium: mark({ max: 120 }), potassium: mark({ max: 120 }) })
    .optional()
    .describe('What its soaps are called on a label, where the program does not know or is not sure.'),
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
  also: z
    .array(secondReading)
    .optional()
    .describe('Second readings and extras, for comparison; nothing is reckoned from them.'),
  notes: z.array(words({ max: 500 })).optional(),
})

export type FatEntry = z.output<typeof fat>
