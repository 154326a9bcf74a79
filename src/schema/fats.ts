/** The fats library: published figures of each fat, each with its source. */
import { z } from 'zod'
import { FATTY_ACIDS, type FattyAcidName } from '../chemistry/fatty-acids.ts'
import { mark, name, oneOf, plainNumber, quantity, report, share, words } from './fields.ts'
import { inOrder } from './shapes.ts'

const evidence = {
  source: name().describe('Where it was read: a name among the sources.'),
  evidence: oneOf(['read', 'recalled', 'computed']).describe(
    'How it is known. read: seen in print. recalled: from memory, check it before you rely on it. computed: reckoned from other figures.',
  ),
}
const limit = (max: number) => plainNumber({ min: 0, max })

/** A published range; a standard that gives only one limit leaves the other out. */
const published = (max: number) =>
  z
    .strictObject({
      from: limit(max)
        .optional()
        .describe('Lower end of what is published; left out where a standard has none.'),
      to: limit(max)
        .optional()
        .describe('Upper end of what is published; left out where a standard has none.'),
      ...evidence,
    })
    .superRefine(inOrder)

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
    figure: oneOf(FIGURES).describe('Which figure it is a second reading of.'),
    acid: acid.optional().describe('Which fatty acid, where the figure is one.'),
    with: acid.optional().describe('A second fatty acid: the figure is of both together.'),
    from: figureLimit().describe(
      'Lower end of the range, in the unit of its figure. One of from and to must be there.',
    ),
    to: figureLimit().describe('Upper end of the range, in the unit of its figure.'),
    at: quantity('temperature', { min: '0 C', max: '120 C' })
      .optional()
      .describe('Temperature of the fat as it was measured.'),
    'against-water-at': quantity('temperature', { min: '0 C', max: '40 C' })
      .optional()
      .describe('Temperature of the water that it was measured against.'),
    note: words({ max: 80 }).optional().describe('What it is a reading of.'),
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
  names: z
    .array(words({ max: 80 }))
    .min(1)
    .describe('What it is called; sheets take the first.'),
  inci: z
    .strictObject({ name: mark({ max: 120 }).describe('Its name in lists of ingredients.'), ...evidence })
    .describe('What it is called on a label.'),
  salts: z
    .strictObject({
      sodium: mark({ max: 120 }).describe('Its soap with NaOH.'),
      potassium: mark({ max: 120 }).describe('Its soap with KOH.'),
    })
    .optional()
    .describe('What its soaps are called on a label, where the program does not know or is not sure.'),
  kind: oneOf(['triglyceride', 'wax', 'fatty-acid']).describe(
    'What it mostly is: most fats and oils are triglycerides.',
  ),
  'saponification-value': z
    .strictObject({
      from: limit(560).describe('Lower end of what is published.'),
      to: limit(560).describe('Upper end of what is published.'),
      ...evidence,
    })
    .superRefine(inOrder)
    .describe('mg KOH that turn 1 g of the fat to soap.'),
  'acid-value': published(560).optional().describe('mg KOH for 1 g that belong to free fatty acid.'),
  'iodine-value': published(250)
    .optional()
    .describe('g of iodine that 100 g of the fat take up; higher is softer and keeps less long.'),
  density: z
    .strictObject({
      from: plainNumber({ min: 0.7, max: 1.2 }).describe(
        'Lower end: weight against the same volume of water.',
      ),
      to: plainNumber({ min: 0.7, max: 1.2 }).describe('Upper end: weight against the same volume of water.'),
      at: quantity('temperature', { min: '0 C', max: '120 C' }).describe(
        'Temperature of the fat as it was measured.',
      ),
      'against-water-at': quantity('temperature', { min: '0 C', max: '40 C' })
        .optional()
        .describe(
          'Temperature of the water that it was measured against; water as warm as a room where it is left out.',
        ),
      state: oneOf(['solid', 'liquid'])
        .optional()
        .describe('Whether it was solid or liquid as it was measured; liquid where it is left out.'),
      ...evidence,
    })
    .describe('Its density, for volumes in vessels and mould.'),
  melting: z
    .strictObject({
      from: meltingTemperature().describe('Lowest melting point that is published.'),
      to: meltingTemperature().describe(
        'Highest melting point that is published; above it nothing is solid.',
      ),
      'solid-at-room': share()
        .optional()
        .describe('Share that is solid near 20 C; all of it is taken to be solid where it is left out.'),
      ...evidence,
    })
    .superRefine(inOrder)
    .optional()
    .describe('When it melts: for a fat that is solid or partly solid near 20 C.'),
  unsaponifiable: published(1000)
    .optional()
    .describe('g in 1 kg that never turn to soap; none where it is left out.'),
  'fatty-acids': z
    .strictObject({
      percent: z
        .record(acid, z.tuple([limit(100), limit(100)]))
        .describe('Percent of all fatty acids, lowest and highest of each.'),
      ...evidence,
    })
    .optional()
    .describe('What is published of its fatty acids.'),
  'measured-composition': z
    .strictObject({ percent: acidShares().describe('Percent of all fatty acids.'), ...evidence })
    .optional()
    .describe('Fatty acids of an oil that was analysed.'),
  also: z
    .array(secondReading)
    .optional()
    .describe('Second readings and extras, for comparison; nothing is reckoned from them.'),
  notes: z
    .array(words({ max: 500 }))
    .optional()
    .describe('What else is worth knowing of it.'),
})

export type FatEntry = z.output<typeof fat>
