/** shop.yaml: what stands on every sheet, and the tools that a batch is planned for. */
import { z } from 'zod'
import { cureTimes } from './cure-times.ts'
import {
  count,
  currency,
  date,
  mark,
  money,
  name,
  oneOf,
  quantity,
  report,
  share,
  timeOfDay,
  words,
  yesOrNo,
} from './fields.ts'
import { labelsOnPaper, selling } from './selling.ts'
import { mapOf } from './shapes.ts'

export const VESSEL_MATERIALS = [
  'polypropylene', 'hdpe', 'stainless-304', 'stainless-316', 'aluminium', 'zinc', 'galvanised-steel', 'tin', 'brass',
  'glass', 'pet', 'wood', 'other',
] as const // biome-ignore format: one line reads better

/** Who or what everybody must be able to tell or fetch; a line is left to write it on where the file has none. */
export const CONTACT_KINDS = ['fire-brigade', 'person-to-fetch', 'our-address'] as const

export const VESSEL_USES = ['weighing', 'alkali', 'lye', 'mixing', 'pouring'] as const

/** In place of its key, wherever a reader meets it; files go on naming it by its key. */
const toolName = () => words({ max: 30 }).optional()

const scale = z.strictObject({
  name: toolName().describe('As sheets say it beside the word “scale”: “bench” for the bench scale.'),
  capacity: quantity('mass', { min: '10 g', max: '1000 kg' }).describe(
    'The most it can weigh, container included.',
  ),
  division: quantity('mass', { min: '0.001 g', max: '1 kg' }).describe('The smallest step it shows.'),
  'smallest-weighing': quantity('mass', { min: '0.01 g', max: '50 kg' }).optional(),
  repeatability: quantity('mass', { min: '0 g', max: '1 kg' }).optional(),
  'span-error': share({ min: '0 %', max: '5 %' }).optional().describe('Error in proportion to the load.'),
  'check-mass': quantity('mass', { min: '1 g', max: '500 kg' }).optional(),
})

const vessel = z.strictObject({
  name: toolName().describe('As sheets say it; its key where it is left out.'),
  use: oneOf(VESSEL_USES).describe('What it is for.'),
  material: oneOf(VESSEL_MATERIALS),
  volume: quantity('volume', { min: '50 ml', max: '500 l' }).describe('Filled to the brim.'),
  'empty-mass': quantity('mass', { min: '1 g', max: '200 kg' }),
  height: quantity('length', { min: '1 cm', max: '2 m' }).optional(),
  rated: quantity('temperature', { min: '20 C', max: '300 C' }).describe(
    'The hottest that its maker allows.',
  ),
  'how-many': count({ min: 1, max: 6 })
    .optional()
    .describe('Vessels of this very kind; a batch that is too large for one is shared among them.'),
  stands: quantity('length', { min: '0 cm', max: '150 cm' })
    .optional()
    .describe('Height above the floor of what it stands on while it is used.'),
  tray: quantity('volume', { min: '50 ml', max: '500 l' })
    .optional()
    .describe('What the tub or tray under it holds.'),
  valve: yesOrNo()
    .optional()
    .describe('Near its bottom: the batter runs out of it, and nobody lifts or ladles.'),
  'tight-lid': yesOrNo().optional().describe('It has a lid that closes tight and stays on.'),
  cooling: z
    .strictObject({
      first: quantity('temperature', { min: '0 C', max: '120 C' }),
      second: quantity('temperature', { min: '0 C', max: '120 C' }),
      after: quantity('duration', { min: '5 min', max: '24 h' }),
      room: quantity('temperature', { min: '-10 C', max: '45 C' }),
      filled: quantity('volume', { min: '50 ml', max: '500 l' })
        .optional()
        .describe('How much lye was in it then; half of what it holds where it is not given.'),
    })
    .optional()
    .describe('Two thermometer readings of this vessel full of lye, to know how fast it cools.'),
})

/** Two tools under one name would be one to whoever reads it on a sheet; one without a name goes by its key. */
const namedApart = (
  tools: Readonly<Record<string, { readonly name?: string | undefined }>>,
  context: z.RefinementCtx,
): void => {
  const all = Object.entries(tools).map(([key, { name }]) => ({
    key,
    name,
    read: (name ?? key).toLowerCase(),
  }))
  for (const [index, { key, name, read }] of all.entries()) {
    const other = all.find(
      (one, at) => one.read === read && at !== index && (at < index || one.name === undefined),
    )
    if (name === undefined || !other) continue
    report(context, {
      code: 'tool-named-twice',
      message: `"${name}" is what sheets call "${other.key}" already`,
      advice: 'Give one of the two another name: on a sheet nobody could tell them apart.',
      path: [key, 'name'],
    })
  }
}

/** What the maker has measured of how a batter fills a mould; each replaces an estimate of the trade. */
const fill = z.strictObject({
  'left-in-kettle': share({ min: '0 %', max: '10 %' }).optional(),
  air: share({ min: '0 %', max: '20 %' }).optional().describe('Air that the blender beats in, by volume.'),
  'sinks-while-setting': share({ min: '0 %', max: '15 %' })
    .optional()
    .describe('How much lower the set block stands than the poured batter.'),
  'rises-while-hot': share({ min: '0 %', max: '30 %' }).optional(),
  dish: quantity('length', { min: '0 mm', max: '30 mm' }).optional(),
  ash: quantity('length', { min: '0 mm', max: '15 mm' }).optional(),
})

/** How a poured block is kept, and when it is opened; each replaces what is usual. */
const block = z
  .strictObject({
    insulation: quantity('length', { min: '0 mm', max: '200 mm' })
      .optional()
      .describe('Foam round the walls and on the lid; none where it is left out.'),
    'insulation-off': quantity('duration', { min: '30 min', max: '5 days' })
      .optional()
      .describe('After the pour; where it is left out, with the walls and the lid that carry it.'),
    'lid-off': quantity('duration', { min: '30 min', max: '5 days' })
      .optional()
      .describe('After the pour; where it is left out, with the walls that it lies on.'),
    'strip-not-before': quantity('duration', { min: '1 h', max: '5 days' })
      .optional()
      .describe('After the pour, whatever is reckoned; 18 h where it is left out.'),
    'walls-off': quantity('duration', { min: '1 h', max: '5 days' })
      .optional()
      .describe('After the pour; where it is left out, as soon as the block holds.'),
    'cut-below': quantity('temperature', { min: '20 C', max: '60 C' })
      .optional()
      .describe('Core of the block, before it is cut.'),
  })
  .superRefine((given, context) => {
    const { 'lid-off': lid, 'insulation-off': foam, 'walls-off': walls, 'strip-not-before': floor } = given
    const clash = (key: string, message: string, advice: string): void =>
      report(context, { code: 'times-contradict', message, advice, path: [key] })
    if (walls !== undefined && lid !== undefined && lid > walls)
      clash(
        'lid-off',
        'The lid would come off after the walls that it lies on',
        'Make "lid-off" earlier than "walls-off", or leave it out: the lid then comes off with the walls.',
      )
    if (walls !== undefined && foam !== undefined && foam > walls)
      clash(
        'insulation-off',
        'The foam would come off after the walls that carry it',
        'Make "insulation-off" earlier than "walls-off", or leave it out: the foam then comes off with the walls.',
      )
    if (walls !== undefined && floor !== undefined && walls < floor)
      clash(
        'walls-off',
        'The walls would come off before this shop allows it',
        'Make "walls-off" later, or "strip-not-before" earlier.',
      )
    if (foam !== undefined && !((given.insulation ?? 0) > 0))
      clash(
        'insulation-off',
        'Foam would come off where there is none',
        'Say how thick it is with "insulation", or leave "insulation-off" out.',
      )
  })

const heater = z.strictObject({
  power: quantity('power', { min: '50 W', max: '20 kW' }),
  efficiency: share({ min: '5 %', max: '100 %' })
    .optional()
    .describe('Share of the power that ends in the fats; an estimate is used where it is not given.'),
})

/** How fast this shop works, from the clock. */
const pace = z.strictObject({
  blend: quantity('duration', { min: '10 s', max: '60 min' })
    .optional()
    .describe('From lye in the oils to the first trace, the blender running.'),
  'longest-run': quantity('duration', { min: '5 s', max: '30 min' })
    .optional()
    .describe('The blender runs so long at most before it has to rest.'),
  rest: quantity('duration', { min: '5 s', max: '30 min' }).optional(),
  colour: quantity('duration', { min: '10 s', max: '60 min' })
    .optional()
    .describe('For one colour: measured out, stirred in, ready to pour.'),
  jug: quantity('duration', { min: '5 s', max: '10 min' })
    .optional()
    .describe('For one jug: filled, carried, poured, back at the kettle.'),
})

export const WEEKDAYS = [
  'monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday',
] as const // biome-ignore format: one line reads better

/** When somebody is there to work, and awake. */
const hours = z
  .strictObject({
    opens: timeOfDay(),
    closes: timeOfDay(),
    'rest-days': z.array(oneOf(WEEKDAYS)).max(7).optional().describe('Days of the week without work.'),
    holidays: z.array(date()).max(400).optional().describe('Other days without work.'),
    'awake-from': timeOfDay().optional(),
    'awake-until': timeOfDay().optional().describe('Somebody can still look at a block until then.'),
    'week-begins': oneOf(['monday', 'sunday']).optional().describe('First day of a row on the month pages.'),
    clock: oneOf(['24-hour', 'am-pm']).optional().describe('How times of day are printed.'),
  })
  .superRefine((day, context) => {
    if (day.opens >= day.closes)
      report(context, {
        code: 'closes-before-it-opens',
        message: 'The shop closes before it opens',
        advice: 'Swap "opens" and "closes", or write the later one as 20:00 or 8 pm.',
        path: ['closes'],
      })
    if (new Set(day['rest-days']).size === WEEKDAYS.length)
      report(context, {
        code: 'no-working-day',
        message: 'Every day of the week is a rest day: nothing could ever be done',
        advice: 'Take at least one day out of "rest-days".',
        path: ['rest-days'],
      })
  })

const rack = z.strictObject({
  length: quantity('length', { min: '10 cm', max: '10 m' }).describe('Of one shelf.'),
  width: quantity('length', { min: '5 cm', max: '3 m' }).describe('Of one shelf.'),
  shelves: count({ min: 1, max: 60 }),
  'shelf-carries': quantity('mass', { min: '1 kg', max: '500 kg' })
    .optional()
    .describe('The most that its maker allows on one shelf, spread evenly.'),
  gap: quantity('length', { min: '0 mm', max: '10 cm' })
    .optional()
    .describe('Air between two bars; a finger where it is left out.'),
})

/** What is counted on the parts for an estimate of hours; each takes so many minutes. */
export const WORK_KINDS = [
  'set-up', 'saw-cut', 'channel-metre', 'hole', 'recess', 'notch', 'edge', 'piece', 'joint', 'screw', 'fitting', 'wire',
  'finish',
] as const // biome-ignore format: one line reads better

export type WorkKind = (typeof WORK_KINDS)[number]

/** How this shop, or a friend with a larger saw, takes sheet stock apart. */
const saw = z.strictObject({
  kerf: quantity('length', { min: '0.5 mm', max: '20 mm' })
    .optional()
    .describe('Width of a saw cut, measured on a test cut; 1/8 in where it is left out.'),
  'edge-trim': quantity('length', { min: '0 mm', max: '500 mm' })
    .optional()
    .describe('Sawn off each edge of a bought board before anything else; 1/4 in where it is left out.'),
  'keeps-offcuts-from': quantity('length', { min: '10 mm', max: '1 m' })
    .optional()
    .describe('An offcut is kept when both of its sides are at least this; 6 in where it is left out.'),
})

/** A piece of board that stands in the shop already. */
const boardInShop = z.strictObject({
  panel: name(),
  length: quantity('length', { min: '20 mm', max: '6 m' }).describe('Along the grain of its face.'),
  width: quantity('length', { min: '20 mm', max: '6 m' }),
  'how-many': count({ min: 1, max: 99 }).optional(),
  'edge-trim': quantity('length', { min: '0 mm', max: '500 mm' })
    .optional()
    .describe('Sawn off each of its edges; nothing where it is left out, for an offcut has sawn edges.'),
  label: words({ max: 30 }).optional().describe('What is written on it.'),
})

/** Work on a batch, where it is counted in the cost of a bar. */
const labour = z.strictObject({
  'hourly-rate': money(),
  'each-batch': quantity('duration', { min: '0 min', max: '200 h' }).describe(
    'All hands together, from the first weighing to the last label.',
  ),
})

/** Whoever saws and glues for this shop. */
const friend = z.strictObject({
  'hourly-rate': money().optional(),
  minutes: z
    .strictObject(
      Object.fromEntries(
        WORK_KINDS.map((kind) => [kind, quantity('duration', { min: '0 s', max: '8 h' }).optional()]),
      ) as Record<WorkKind, z.ZodOptional<z.ZodType<number, string>>>,
    )
    .optional()
    .describe('For one of each, from the clock; each replaces an estimate.'),
})

export const shopFile = z
  .strictObject({
    format: count({ min: 1, max: 1000 })
      .optional()
      .describe('Of the files of this folder, as the program writes it; 1 where it is left out.'),
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
    people: z.strictObject({
      'elbow-height': quantity('length', { min: '50 cm', max: '160 cm' }),
      'shoulder-height': quantity('length', { min: '70 cm', max: '200 cm' }),
    }),
    limits: z.strictObject({
      'least-superfat': share({ min: '0 %', max: '20 %' }),
      'hot-lift': quantity('mass', { min: '1 kg', max: '23 kg' }),
      'hottest-lye': quantity('temperature', { min: '40 C', max: '95 C' }),
      'next-portion-below': quantity('temperature', { min: '20 C', max: '90 C' }),
    }),
    contacts: z
      .array(
        z.strictObject({
          who: words({ max: 40 }),
          reach: words({ max: 80 }),
          is: oneOf(CONTACT_KINDS)
            .optional()
            .describe('Where it is one of these: no line is left to write it on.'),
        }),
      )
      .min(1)
      .max(12),
    fill: fill.optional(),
    cure: z
      .strictObject({
        'weight-loss': share({ min: '0 %', max: '30 %' })
          .optional()
          .describe('Of the batter, from the pour until bars are sold.'),
        ...cureTimes,
      })
      .optional(),
    block: block.optional(),
    hours: hours.optional(),
    racks: mapOf(rack)
      .optional()
      .describe('Where bars dry; without it, room for all of them is taken for granted.'),
    heater: heater.optional(),
    pace: pace.optional(),
    currency: currency().optional().describe('Of every price in this folder.'),
    saw: saw.optional(),
    'boards-in-shop': z
      .array(boardInShop)
      .min(1)
      .max(200)
      .optional()
      .describe('Boards and offcuts to use up before anything is bought.'),
    friend: friend.optional(),
    labour: labour.optional(),
    room: z.strictObject({ 'usual-temperature': quantity('temperature', { min: '-10 C', max: '45 C' }) }),
    scales: mapOf(scale).superRefine(namedApart),
    vessels: mapOf(vessel).superRefine(namedApart),
    selling: selling.optional().describe('Where bars are sold, and their labels.'),
  })
  .superRefine(labelsOnPaper)

export type ShopFile = z.output<typeof shopFile>
