/** shop.yaml: what stands on every sheet, and the tools that a batch is planned for. */
import { z } from 'zod'
import { cureTimes } from './cure-times.ts'
import {
  count,
  currency,
  date,
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
import { binderSettings } from './settings.ts'
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
  name: toolName().describe(
    'What sheets call it beside the word “scale”: “bench” for the bench scale. Its key where it is left out.',
  ),
  capacity: quantity('mass', { min: '10 g', max: '1000 kg' }).describe(
    'The most it can weigh, container included.',
  ),
  division: quantity('mass', { min: '0.001 g', max: '1 kg' }).describe('The smallest step it shows.'),
  'smallest-weighing': quantity('mass', { min: '0.01 g', max: '50 kg' })
    .optional()
    .describe(
      'The least that is weighed on it, as its maker says; a number of its steps where it is left out.',
    ),
  repeatability: quantity('mass', { min: '0 g', max: '1 kg' })
    .optional()
    .describe(
      'How far readings of one thing lie apart, as its maker says; half a step where it is left out.',
    ),
  'span-error': share({ min: '0 %', max: '5 %' })
    .optional()
    .describe('Error in proportion to the load; what is usual for a shop scale where it is left out.'),
  'check-mass': quantity('mass', { min: '1 g', max: '500 kg' })
    .optional()
    .describe('The weight that it is checked with before a batch; without it the check is left out.'),
})

const vessel = z.strictObject({
  name: toolName().describe('What sheets call it; its key where it is left out.'),
  use: oneOf(VESSEL_USES).describe(
    'What it is for. A batch needs one vessel of each use; of several the largest is taken.',
  ),
  material: oneOf(VESSEL_MATERIALS).describe('What it is made of: some materials do not bear lye.'),
  volume: quantity('volume', { min: '50 ml', max: '500 l' }).describe('What it holds, filled to the brim.'),
  'empty-mass': quantity('mass', { min: '1 g', max: '200 kg' }).describe('What it weighs empty.'),
  height: quantity('length', { min: '1 cm', max: '2 m' })
    .optional()
    .describe('From its bottom to its rim; a usual height where it is left out.'),
  rated: quantity('temperature', { min: '20 C', max: '300 C' }).describe(
    'The hottest that its maker allows.',
  ),
  'how-many': count({ min: 1, max: 6 })
    .optional()
    .describe(
      'Vessels of this very kind; a batch that is too large for one is shared among them. One where it is left out.',
    ),
  stands: quantity('length', { min: '0 cm', max: '150 cm' })
    .optional()
    .describe(
      'Height above the floor of what it stands on while it is used; a low table where it is left out.',
    ),
  tray: quantity('volume', { min: '50 ml', max: '500 l' })
    .optional()
    .describe('What the tub or tray under it holds, if all of it runs out.'),
  valve: yesOrNo()
    .optional()
    .describe(
      'It has a valve near its bottom: the batter runs out of it, and nobody lifts or ladles. No where it is left out.',
    ),
  'tight-lid': yesOrNo()
    .optional()
    .describe('It has a lid that closes tight and stays on. No where it is left out.'),
  cooling: z
    .strictObject({
      first: quantity('temperature', { min: '0 C', max: '120 C' }).describe(
        'What the thermometer showed first.',
      ),
      second: quantity('temperature', { min: '0 C', max: '120 C' }).describe('What it showed later.'),
      after: quantity('duration', { min: '5 min', max: '24 h' }).describe('Time between both readings.'),
      room: quantity('temperature', { min: '-10 C', max: '45 C' }).describe(
        'Temperature of the room meanwhile.',
      ),
      filled: quantity('volume', { min: '50 ml', max: '500 l' })
        .optional()
        .describe('How much lye was in it then; half of what it holds where it is left out.'),
    })
    .optional()
    .describe(
      'Two thermometer readings of this vessel full of lye, to know how fast it cools; it is reckoned where they are left out.',
    ),
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
  'left-in-kettle': share({ min: '0 %', max: '10 %' })
    .optional()
    .describe('Share of the batter that stays on kettle, blender and jugs.'),
  air: share({ min: '0 %', max: '20 %' })
    .optional()
    .describe('Air that the blender beats in, as a share of the batter’s volume.'),
  'sinks-while-setting': share({ min: '0 %', max: '15 %' })
    .optional()
    .describe('How much lower the set block stands than the poured batter.'),
  'rises-while-hot': share({ min: '0 %', max: '30 %' })
    .optional()
    .describe('How much higher the batter stands for a while as the block heats up.'),
  dish: quantity('length', { min: '0 mm', max: '30 mm' })
    .optional()
    .describe('How deep the middle of the top sinks in as the block sets.'),
  ash: quantity('length', { min: '0 mm', max: '15 mm' })
    .optional()
    .describe('How deep the pale skin on top goes that is cut away.'),
})

/** How a poured block is kept, and when it is opened; each replaces what is usual. */
const block = z
  .strictObject({
    insulation: quantity('length', { min: '0 mm', max: '200 mm' })
      .optional()
      .describe('Thickness of the foam round the walls and on the lid; none where it is left out.'),
    'insulation-off': quantity('duration', { min: '30 min', max: '5 days' })
      .optional()
      .describe(
        'When the foam comes off, after the pour; where it is left out, with the walls and the lid that carry it.',
      ),
    'lid-off': quantity('duration', { min: '30 min', max: '5 days' })
      .optional()
      .describe(
        'When the lid comes off, after the pour; where it is left out, with the walls that it lies on.',
      ),
    'strip-not-before': quantity('duration', { min: '1 h', max: '5 days' })
      .optional()
      .describe(
        'The walls stay on for this long after the pour, whatever is reckoned; a usual time where it is left out.',
      ),
    'walls-off': quantity('duration', { min: '1 h', max: '5 days' })
      .optional()
      .describe('When the walls come off, after the pour; where it is left out, as soon as the block holds.'),
    'cut-below': quantity('temperature', { min: '20 C', max: '60 C' })
      .optional()
      .describe('Core of the block, before it is cut; a usual temperature where it is left out.'),
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
  power: quantity('power', { min: '50 W', max: '20 kW' }).describe('What its plate says.'),
  efficiency: share({ min: '5 %', max: '100 %' })
    .optional()
    .describe('Share of the power that ends in the fats; an estimate is used where it is left out.'),
})

/** How fast this shop works, from the clock. */
const pace = z.strictObject({
  blend: quantity('duration', { min: '10 s', max: '60 min' })
    .optional()
    .describe(
      'From lye in the oils to the first trace, the blender running; an estimate where it is left out.',
    ),
  'longest-run': quantity('duration', { min: '5 s', max: '30 min' })
    .optional()
    .describe(
      'The blender runs so long at most before it has to rest; as long as wanted where it is left out.',
    ),
  rest: quantity('duration', { min: '5 s', max: '30 min' })
    .optional()
    .describe('How long the blender rests between two runs; not at all where it is left out.'),
  colour: quantity('duration', { min: '10 s', max: '60 min' })
    .optional()
    .describe('For one colour: measured out, stirred in, ready to pour; an estimate where it is left out.'),
  jug: quantity('duration', { min: '5 s', max: '10 min' })
    .optional()
    .describe('For one jug: filled, carried, poured, back at the kettle; an estimate where it is left out.'),
})

export const WEEKDAYS = [
  'monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday', 'sunday',
] as const // biome-ignore format: one line reads better

/** When somebody is there to work, and awake. */
const hours = z
  .strictObject({
    opens: timeOfDay().describe('When work begins.'),
    closes: timeOfDay().describe('When work ends.'),
    'rest-days': z
      .array(oneOf(WEEKDAYS))
      .max(7)
      .optional()
      .describe('Days of the week without work; none where it is left out.'),
    holidays: z
      .array(date())
      .max(400)
      .optional()
      .describe('Other days without work; none where it is left out.'),
    'awake-from': timeOfDay()
      .optional()
      .describe('Somebody can look at a block from then on; from early in the morning where it is left out.'),
    'awake-until': timeOfDay()
      .optional()
      .describe(
        'Somebody can still look at a block until then; until late in the evening where it is left out.',
      ),
    'week-begins': oneOf(['monday', 'sunday'])
      .optional()
      .describe('First day of a row on the month pages; monday where it is left out.'),
    clock: oneOf(['24-hour', 'am-pm'])
      .optional()
      .describe('How times of day are printed; 24-hour where it is left out.'),
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
  length: quantity('length', { min: '10 cm', max: '10 m' }).describe('Of one shelf, inside.'),
  width: quantity('length', { min: '5 cm', max: '3 m' }).describe('Of one shelf, inside.'),
  shelves: count({ min: 1, max: 60 }).describe('How many shelves it has.'),
  'shelf-carries': quantity('mass', { min: '1 kg', max: '500 kg' })
    .optional()
    .describe(
      'The most that its maker allows on one shelf, spread evenly; weight is not looked at where it is left out.',
    ),
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

/** What one of each is. */
const WORK_WORDS: Readonly<Record<WorkKind, string>> = {
  'set-up': 'For each thing that is made: drawings read, jigs and fences set, tidied up.',
  'saw-cut': 'For one cut of the saw.',
  'channel-metre': 'For a metre of groove.',
  hole: 'For one hole.',
  recess: 'For one recess.',
  notch: 'For one notch.',
  edge: 'For one edge that is broken, folded or scribed.',
  piece: 'For one piece: measured, marked, sanded, labelled.',
  joint: 'For one joint: glued and clamped.',
  screw: 'For one screw.',
  fitting: 'For one peg, pin, anchor, rod, bolt or hinge: cut to length and put in.',
  wire: 'For one wire: strung and tuned.',
  finish: 'For a square metre of one coat.',
}

/** How this shop, or a friend with a larger saw, takes sheet stock apart. */
const saw = z.strictObject({
  kerf: quantity('length', { min: '0.5 mm', max: '20 mm' })
    .optional()
    .describe('Width of a saw cut, measured on a test cut; what most blades take where it is left out.'),
  'edge-trim': quantity('length', { min: '0 mm', max: '500 mm' })
    .optional()
    .describe(
      'Sawn off each edge of a bought board before anything else; what is usual where it is left out.',
    ),
  'keeps-offcuts-from': quantity('length', { min: '10 mm', max: '1 m' })
    .optional()
    .describe(
      'An offcut is kept when both of its sides are at least this; what is usual where it is left out.',
    ),
})

/** A piece of board that stands in the shop already. */
const boardInShop = z.strictObject({
  panel: name().describe('Which board it is: a name among the panels of the materials.'),
  length: quantity('length', { min: '20 mm', max: '6 m' }).describe('Along the grain of its face.'),
  width: quantity('length', { min: '20 mm', max: '6 m' }).describe('Across the grain of its face.'),
  'how-many': count({ min: 1, max: 99 })
    .optional()
    .describe('Boards of this very size; one where it is left out.'),
  'edge-trim': quantity('length', { min: '0 mm', max: '500 mm' })
    .optional()
    .describe('Sawn off each of its edges; nothing where it is left out, for an offcut has sawn edges.'),
  label: words({ max: 30 }).optional().describe('What is written on it, so that it is found again.'),
})

/** Work on a batch, where it is counted in the cost of a bar. */
const labour = z.strictObject({
  'hourly-rate': money().describe('What an hour of work is counted as.'),
  'each-batch': quantity('duration', { min: '0 min', max: '200 h' }).describe(
    'All hands together, from the first weighing to the last label.',
  ),
})

/** Whoever saws and glues for this shop. */
const friend = z.strictObject({
  'hourly-rate': money()
    .optional()
    .describe('What an hour of that work costs; without it the work has no price in the quote.'),
  minutes: z
    .strictObject(
      Object.fromEntries(
        WORK_KINDS.map((kind) => [
          kind,
          quantity('duration', { min: '0 s', max: '8 h' }).optional().describe(WORK_WORDS[kind]),
        ]),
      ) as Record<WorkKind, z.ZodOptional<z.ZodType<number, string>>>,
    )
    .optional()
    .describe('Time for one of each, from the clock; each takes the place of an estimate.'),
})

export const shopFile = z
  .strictObject({
    ...binderSettings,
    people: z
      .strictObject({
        'elbow-height': quantity('length', { min: '50 cm', max: '160 cm' }).describe(
          'Above the floor, of the shortest person who pours.',
        ),
        'shoulder-height': quantity('length', { min: '70 cm', max: '200 cm' }).describe(
          'Above the floor, of the shortest person who pours.',
        ),
      })
      .describe('Those who lift and pour.'),
    limits: z
      .strictObject({
        'least-superfat': share({ min: '0 %', max: '20 %' }).describe(
          'A batch that is planned below this is stopped.',
        ),
        'hot-lift': quantity('mass', { min: '1 kg', max: '23 kg' }).describe(
          'The most that one person lifts that is hot or caustic.',
        ),
        'hottest-lye': quantity('temperature', { min: '40 C', max: '95 C' }).describe(
          'The most that lye may reach in any vessel.',
        ),
        'next-portion-below': quantity('temperature', { min: '20 C', max: '90 C' }).describe(
          'The lye cools to this before the next portion of alkali goes in.',
        ),
      })
      .describe('What this shop never goes beyond.'),
    contacts: z
      .array(
        z.strictObject({
          who: words({ max: 40 }).describe('Who it is.'),
          reach: words({ max: 80 }).describe('The number to call, or what to write there by hand.'),
          is: oneOf(CONTACT_KINDS)
            .optional()
            .describe('Where it is one of these, no line is left on the sheets to write it on.'),
        }),
      )
      .min(1)
      .max(12)
      .describe('Who is called in an emergency, on the caution sheets and cards.'),
    fill: fill
      .optional()
      .describe('What you measured of how a batter fills a mould; each takes the place of an estimate.'),
    cure: z
      .strictObject({
        'weight-loss': share({ min: '0 %', max: '30 %' })
          .optional()
          .describe(
            'Share of the batter’s weight that dries away from the pour until bars are sold; an estimate where it is left out.',
          ),
        ...cureTimes,
      })
      .optional()
      .describe('What happens to bars on the rack, and when; a recipe may have times of its own.'),
    block: block
      .optional()
      .describe('How a poured block is kept, and when it is opened; each takes the place of what is usual.'),
    hours: hours
      .optional()
      .describe('When somebody is there to work, and awake; usual hours where it is left out.'),
    racks: mapOf(rack)
      .optional()
      .describe('Where bars dry; without it, room for all of them is taken for granted.'),
    heater: heater
      .optional()
      .describe('What the kettle is warmed on; one of a usual power is taken where it is left out.'),
    pace: pace
      .optional()
      .describe(
        'How fast this shop works, from the clock. Without it estimates are taken, and no batch is stopped by them.',
      ),
    currency: currency()
      .optional()
      .describe('Of every price in this folder. It must be there as soon as there is a price.'),
    saw: saw.optional().describe('How boards are sawn here, or by a friend with a larger saw.'),
    'boards-in-shop': z
      .array(boardInShop)
      .min(1)
      .max(200)
      .optional()
      .describe('Boards and offcuts to use up before anything is bought.'),
    friend: friend.optional().describe('Whoever saws and glues for this shop, and is asked for a price.'),
    labour: labour
      .optional()
      .describe('Work on a batch, counted in the cost of a bar; it is not counted where this is left out.'),
    room: z
      .strictObject({
        'usual-temperature': quantity('temperature', { min: '-10 C', max: '45 C' }).describe(
          'As warm as it usually is on a day of work.',
        ),
      })
      .describe('The room where soap is made.'),
    scales: mapOf(scale)
      .superRefine(namedApart)
      .describe('The scales of the shop, each under a name of your own.'),
    vessels: mapOf(vessel)
      .superRefine(namedApart)
      .describe('Jugs, pails and kettles, each under a name of your own.'),
    selling: selling
      .optional()
      .describe('Where bars are sold, and their labels; without it no labels are printed.'),
  })
  .superRefine(labelsOnPaper)
  .describe(
    'The shop itself: what stands on every sheet, and the tools, people and hours that batches are planned for.',
  )

export type ShopFile = z.output<typeof shopFile>
