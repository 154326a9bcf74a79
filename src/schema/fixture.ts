/** fixtures/NAME.yaml: the bar, the grid, and the mould and the cutters that follow from them. */
import { z } from 'zod'
import { count, name, oneOf, pull, quantity, report, share, words, yesOrNo } from './fields.ts'
import { checkTolerances, tolerances } from './tolerances.ts'
import { leverPress, trialFrame } from './trial-and-press.ts'

const trim = quantity('length', { min: '0 mm', max: '60 mm' }).optional()
const panel = name()

export const THREADS = ['1/4-20', 'M6'] as const
export const PEGS = ['sealed', 'open-gear'] as const
export const ANCHORS = ['screw', 'pin'] as const
export const WIRE_MATERIALS = ['music-wire', 'stainless-302'] as const

/** Sizes that the standards of spring wire have strengths for: 0.010 to 0.063 in. */
const wire = () => quantity('length', { min: '0.01 in', max: '0.063 in' }).describe('Diameter of the wire.')
const wireMaterial = oneOf(WIRE_MATERIALS).optional()
const tension = () =>
  quantity('force', { min: '5 N', max: '1000 N' })
    .optional()
    .describe('Of a wire as it is tuned, without soap; follows from wire and peg where it is left out.')

const tape = () => quantity('length', { min: '1 mm', max: '3 m' }).optional()
const sizes = z.strictObject({ length: tape(), width: tape() }).optional()
const places = z
  .array(quantity('length', { min: '0 mm', max: '3 m' }))
  .max(40)
  .superRefine((list, context) => {
    const at = list.findIndex((place, index) => index > 0 && place <= (list[index - 1] ?? 0))
    if (at > 0)
      report(context, {
        code: 'readings-not-ascending',
        message: 'These places are measured from one end, and this one does not lie beyond the one before it',
        advice:
          'Hook the tape on the same face for all of them, and write them in the order in which it passes them.',
        path: [at],
      })
  })
  .optional()

/** What a tape found on the strung grid cutter: places from the inner face of the left end and of the front side. */
const gridCutterAsBuilt = z.strictObject({
  'inside-length': tape(),
  'inside-width': tape(),
  'wires-across-length': places,
  'wires-across-width': places,
  'speaking-length': z
    .strictObject({ 'short-wires': tape(), 'long-wires': tape() })
    .optional()
    .describe('Of a wire, from the middle of one rod to the middle of the other.'),
})

/** What a steel rule found on the strung bar cutter. */
const barCutterAsBuilt = z.strictObject({
  wires: places.describe('Middles, from the face of the end stop.'),
  'speaking-length': tape().describe('Of a wire, from the pin at the back to the pin at the front.'),
})

/** What a tape found on the finished fixtures; the names are those of the page that asks for them. */
const asBuilt = z.strictObject({
  'grid-cutter': gridCutterAsBuilt.optional(),
  'bar-cutter': barCutterAsBuilt.optional(),
  'inside-length': tape(),
  'inside-width': tape(),
  'rim-above-bench': tape(),
  'base-length': tape(),
  'base-width': tape(),
  'base-height': tape(),
  parts: z
    .strictObject({
      side: sizes,
      end: sizes,
      'base-top': sizes,
      rail: sizes,
      strip: sizes,
      lid: sizes,
      cleat: sizes,
    })
    .optional(),
  'grooves-across-length': places,
  'grooves-across-width': places,
  water: z
    .strictObject({
      weighed: quantity('mass', { min: '100 g', max: '500 kg' }),
      'below-rim': quantity('length', { min: '0 mm', max: '1 m' }),
    })
    .optional(),
})

const cuttingLoad = () => quantity('forcePerLength', { min: '1 N/m', max: '1000 N/m' })

/** What soap holds a wire back with on each metre that lies in it, as a maker knows it. */
const cuttingLoads = z
  .strictObject({ fresh: cuttingLoad(), usual: cuttingLoad(), late: cuttingLoad() })
  .superRefine(({ fresh, usual, late }, context) => {
    if (fresh <= usual && usual <= late) return
    report(context, {
      code: 'loads-not-ascending',
      message: 'Soap holds a wire back more the longer it stands, and these loads do not ascend',
      advice: 'Write the smallest load after "fresh:" and the largest after "late:".',
      path: [fresh <= usual ? 'late' : 'usual'],
    })
  })
  .describe('Of a block cut early, as usual and late; estimates stand for them where they are left out.')

/** What pulled a trial frame of a few such wires through a test block of the same soap. */
const cuttingTrial = z
  .strictObject({
    readings: z
      .array(pull({ min: '0 N', max: '1000 N' }))
      .min(1)
      .max(20)
      .describe('While the wires move steadily, as a force or as a luggage scale shows it in kg or lb.'),
    'frame-mass': quantity('mass', { min: '0 g', max: '20 kg' }).describe(
      'Of the trial frame; nought where the block stands on the scale.',
    ),
    wires: count({ min: 1, max: 12 }),
    width: quantity('length', { min: '20 mm', max: '500 mm' }).describe(
      'Of the test block, along the wires.',
    ),
  })
  .describe('Gives the usual load and how well it is known.')

/** What cannot be derived from mould and block is asked for; the rest may be set. */
const gridCutter = z.strictObject({
  panels: z.strictObject({
    side: panel,
    end: panel,
    shelf: panel.describe('Carries pegs and anchors: as thick as the pegs want it.'),
    'stop-block': panel.optional(),
  }),
  wire: wire(),
  'wire-material': wireMaterial,
  peg: oneOf(PEGS).optional(),
  'peg-rating': quantity('force', { min: '20 N', max: '1000 N' })
    .optional()
    .describe('Pull that a peg holds, where its maker states it.'),
  anchor: oneOf(ANCHORS).optional(),
  'loop-wires': yesOrNo()
    .optional()
    .describe('One wire serves two neighbouring cuts; the last of an odd number has its own.'),
  tension: z.strictObject({ 'short-wires': tension(), 'long-wires': tension() }).optional(),
  'stand-height': quantity('length', { min: '0 mm', max: '1.2 m' })
    .optional()
    .describe('Top of the low stand that base and block are cut on, above the floor.'),
  clearance: quantity('length', { min: '0 mm', max: '20 mm' })
    .optional()
    .describe('Between block and frame, each side.'),
  'layer-gap': quantity('length', { min: '0 mm', max: '60 mm' }).optional(),
  skirt: quantity('length', { min: '10 mm', max: '200 mm' })
    .optional()
    .describe('Wood of the frame below its lower wires.'),
  'above-wires': quantity('length', { min: '20 mm', max: '200 mm' }).optional(),
  handle: quantity('length', { min: '10 mm', max: '300 mm' })
    .optional()
    .describe('Sides run past the ends by this much.'),
  'shelf-depth': quantity('length', { min: '20 mm', max: '120 mm' }).optional(),
  dado: z
    .strictObject({
      depth: quantity('length', { min: '1 mm', max: '50 mm' }),
      fit: quantity('length', { min: '0 mm', max: '2 mm' }),
    })
    .optional()
    .describe('As in the mould where it is missing.'),
})

/** What cannot be derived from bar and block is asked for; the rest may be set. */
const barCutter = z.strictObject({
  panels: z.strictObject({
    base: panel,
    platform: panel.describe('The grooves eat it.'),
    fence: panel,
    frame: panel.describe('Arms and rails; pegs want 12 mm or more.'),
    upright: panel.describe('Risers, end stop, hinge post, back stop, braces and rests.'),
  }),
  wire: wire(),
  'wire-material': wireMaterial,
  tension: tension(),
  peg: oneOf(PEGS).optional().describe('As in the grid cutter where it is left out.'),
  anchor: oneOf(ANCHORS).optional().describe('As in the grid cutter where it is left out.'),
  'peg-rating': quantity('force', { min: '20 N', max: '1000 N' })
    .optional()
    .describe('Pull that a peg holds, where its maker states it.'),
  'platform-height': quantity('length', { min: '50 mm', max: '400 mm' })
    .optional()
    .describe('Top of the platform above the bench.'),
  'wire-depth': quantity('length', { min: '0.5 mm', max: '30 mm' })
    .optional()
    .describe('Of the closed wire below the platform; 1/8 in, or more where the lag asks for it.'),
  'groove-width': quantity('length', { min: '0.5 mm', max: '20 mm' }).optional(),
  'groove-depth': quantity('length', { min: '1 mm', max: '50 mm' }).optional(),
  'slot-width': quantity('length', { min: '0.5 mm', max: '20 mm' })
    .optional()
    .describe('Of the slots in the fence; as wide as the grooves where it is left out.'),
  'fence-height': share({ min: '30 %', max: '110 %' })
    .optional()
    .describe('Of the height of the lying loaf.'),
  'front-rail-width': quantity('length', { min: '20 mm', max: '200 mm' }).optional(),
  'back-rail-width': quantity('length', { min: '20 mm', max: '200 mm' }).optional(),
  'arm-width': quantity('length', { min: '20 mm', max: '120 mm' }).optional(),
  handle: quantity('length', { min: '20 mm', max: '300 mm' })
    .optional()
    .describe('Arms run past the front rail by this much.'),
  clearance: quantity('length', { min: '0 mm', max: '30 mm' })
    .optional()
    .describe('Between the swinging frame and what stands.'),
})

const fixture = z.strictObject({
  title: words({ max: 60 }),
  'how-many': count({ min: 1, max: 20 })
    .optional()
    .describe('Moulds of this very kind in the shop: so many batches may stand at once.'),
  bar: z.strictObject({
    'along-length': quantity('length', { min: '10 mm', max: '300 mm' }),
    'along-width': quantity('length', { min: '10 mm', max: '300 mm' }),
    thickness: quantity('length', { min: '8 mm', max: '150 mm' }),
    'size-is': oneOf(['green', 'cured'])
      .optional()
      .describe('Green: as it is cut. Cured: as it is sold; the cut is made larger by what drying takes.'),
  }),
  grid: z.strictObject({
    columns: count({ min: 1, max: 20 }),
    rows: count({ min: 1, max: 20 }),
    slices: count({ min: 1, max: 40 }),
  }),
  'wire-allowance': z.strictObject({ length: trim, width: trim, height: trim }).optional(),
  trim: z
    .strictObject({ top: trim, bottom: trim, left: trim, right: trim, front: trim, back: trim })
    .optional(),
  lining: panel.describe('Sheet between soap and walls, by its name among the panels.'),
  panels: z.strictObject({
    side: panel,
    end: panel,
    'base-top': panel,
    rail: panel,
    strip: panel,
    lid: panel,
  }),
  dado: z.strictObject({
    depth: quantity('length', { min: '1 mm', max: '50 mm' }),
    fit: quantity('length', { min: '0 mm', max: '2 mm' }),
  }),
  lip: quantity('length', { min: '10 mm', max: '200 mm' }),
  freeboard: quantity('length', { min: '0 mm', max: '300 mm' }),
  base: z.strictObject({
    height: quantity('length', { min: '20 mm', max: '300 mm' }),
    clearance: quantity('length', { min: '0 mm', max: '10 mm' }),
    'groove-width': quantity('length', { min: '0.5 mm', max: '20 mm' }),
    'groove-depths': z
      .strictObject({
        'short-wires': quantity('length', { min: '1 mm', max: '50 mm' }),
        'long-wires': quantity('length', { min: '1 mm', max: '50 mm' }),
      })
      .describe('The short wires lead: their grooves are deeper.'),
    'groove-strips': panel.describe('Sheet that the strips in the grooves are sawn from.'),
    rails: count({ min: 2, max: 12 }),
  }),
  rods: z.strictObject({
    thread: oneOf(THREADS),
    heights: z
      .array(quantity('length', { min: '5 mm', max: '1500 mm' }))
      .min(1)
      .max(8),
    'in-base': count({ min: 0, max: 8 }),
    'stock-length': quantity('length', { min: '200 mm', max: '4 m' }),
    'washer-recess': quantity('length', { min: '0 mm', max: '20 mm' }).optional(),
  }),
  'strip-width': quantity('length', { min: '10 mm', max: '200 mm' }),
  'as-built': asBuilt.optional(),
  'grid-cutter': gridCutter.optional(),
  'bar-cutter': barCutter.optional(),
  'cutting-load': cuttingLoads.optional(),
  'cutting-trial': cuttingTrial.optional(),
  'trial-frame': trialFrame.optional(),
  'lever-press': leverPress.optional(),
  tolerances: tolerances.optional(),
})

export const fixtureFile = fixture.superRefine((file, context) => {
  if (file['cutting-load'] && file['cutting-trial'])
    report(context, {
      code: 'more-than-one',
      message: 'Only one of "cutting-load", "cutting-trial" can be said',
      advice:
        'Keep the trial, which tells the usual load of your own soap, or the loads, and take the other out.',
      path: ['cutting-trial'],
      at: 'key',
    })
  for (const section of ['grid-cutter', 'bar-cutter'] as const)
    if (file['as-built']?.[section] && !file[section])
      report(context, {
        code: 'section-without-cutter',
        message: `These are readings of a ${section}, and this fixture has none`,
        advice: `Add a section "${section}" to the fixture, or take these readings out.`,
        path: ['as-built', section],
        at: 'key',
      })
  for (const section of ['trial-frame', 'lever-press'] as const)
    if (file[section] && !file['grid-cutter'])
      report(context, {
        code: 'section-without-cutter',
        message: `A "${section}" belongs to a grid cutter, and this fixture has none`,
        advice: `Add a section "grid-cutter", or take "${section}" out.`,
        path: [section],
        at: 'key',
      })
  if (file.tolerances) checkTolerances(file.bar, file.tolerances, context)
})

export type FixtureFile = z.output<typeof fixtureFile>
export type AsBuiltSection = z.output<typeof asBuilt>
export type GridCutterSection = z.output<typeof gridCutter>
export type BarCutterSection = z.output<typeof barCutter>
