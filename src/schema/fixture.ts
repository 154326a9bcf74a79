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
const sizes = z
  .strictObject({ length: tape().describe('Along the part.'), width: tape().describe('Across the part.') })
  .optional()
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
  'inside-length': tape().describe('Inside the frame, from end to end.'),
  'inside-width': tape().describe('Inside the frame, from side to side.'),
  'wires-across-length': places.describe(
    'Middles of these wires, from the inside of the left end; all of them or none.',
  ),
  'wires-across-width': places.describe(
    'Middles of these wires, from the inside of the front side; all of them or none.',
  ),
  'speaking-length': z
    .strictObject({
      'short-wires': tape().describe('Of the short wires.'),
      'long-wires': tape().describe('Of the long wires.'),
    })
    .optional()
    .describe('Of a wire, from the middle of one rod to the middle of the other.'),
})

/** What a steel rule found on the strung bar cutter. */
const barCutterAsBuilt = z.strictObject({
  wires: places.describe('Middles of the wires, from the face of the end stop; all of them or none.'),
  'speaking-length': tape().describe('Of a wire, from the pin at the back to the pin at the front.'),
})

/** What a tape found on the finished fixtures; the names are those of the page that asks for them. */
const asBuilt = z.strictObject({
  'grid-cutter': gridCutterAsBuilt.optional().describe('What a tape found on the strung grid cutter.'),
  'bar-cutter': barCutterAsBuilt.optional().describe('What a steel rule found on the strung bar cutter.'),
  'inside-length': tape().describe('Of the mould, between its bare walls, from end to end.'),
  'inside-width': tape().describe('Of the mould, between its bare walls, from side to side.'),
  'rim-above-bench': tape().describe('Upper edge of the mould above the bench.'),
  'base-length': tape().describe('Length of the base.'),
  'base-width': tape().describe('Width of the base.'),
  'base-height': tape().describe('Top of the base above the bench.'),
  parts: z
    .strictObject({
      side: sizes.describe('Of a side.'),
      end: sizes.describe('Of an end.'),
      'base-top': sizes.describe('Of the top of the base.'),
      rail: sizes.describe('Of a rail under the base.'),
      strip: sizes.describe('Of a stiffening strip.'),
      lid: sizes.describe('Of the lid.'),
      cleat: sizes.describe('Of a cleat under the lid.'),
    })
    .optional()
    .describe('Finished sizes of parts of the mould.'),
  'grooves-across-length': places.describe(
    'Middles of these grooves of the base, from the corner that all is measured from; all of them or none.',
  ),
  'grooves-across-width': places.describe(
    'Middles of these grooves of the base, from the corner that all is measured from; all of them or none.',
  ),
  water: z
    .strictObject({
      weighed: quantity('mass', { min: '100 g', max: '500 kg' }).describe('What the water weighed.'),
      'below-rim': quantity('length', { min: '0 mm', max: '1 m' }).describe(
        'From the rim down to the water.',
      ),
    })
    .optional()
    .describe('Water in the lined mould: the best reading for a batch.'),
})

const cuttingLoad = () => quantity('forcePerLength', { min: '1 N/m', max: '1000 N/m' })

/** What soap holds a wire back with on each metre that lies in it, as a maker knows it. */
const cuttingLoads = z
  .strictObject({
    fresh: cuttingLoad().describe('Of a block that is cut early.'),
    usual: cuttingLoad().describe('Of a block that is cut as usual.'),
    late: cuttingLoad().describe('Of a block that is cut late.'),
  })
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
      .describe('What was read while the wires moved steadily, as a force or as a luggage scale shows it.'),
    'frame-mass': quantity('mass', { min: '0 g', max: '20 kg' }).describe(
      'Of the trial frame; nought where the block stands on the scale.',
    ),
    wires: count({ min: 1, max: 12 }).describe('How many wires the trial frame has.'),
    width: quantity('length', { min: '20 mm', max: '500 mm' }).describe(
      'Of the test block, along the wires.',
    ),
  })
  .describe('Gives the usual load and how well it is known.')

/** What cannot be derived from mould and block is asked for; the rest may be set. */
const gridCutter = z.strictObject({
  panels: z
    .strictObject({
      side: panel.describe('Board of its sides: a name among the panels of the materials.'),
      end: panel.describe('Board of its ends: a name among the panels of the materials.'),
      shelf: panel.describe('Board that carries pegs and anchors: as thick as the pegs want it.'),
      'stop-block': panel
        .optional()
        .describe('Board of its stop blocks; that of the ends where it is left out.'),
    })
    .describe('Boards that the grid cutter is made of.'),
  wire: wire().describe('Diameter of the wire.'),
  'wire-material': wireMaterial.describe('What the wire is made of; music-wire where it is left out.'),
  peg: oneOf(PEGS).optional().describe('Which kind of tuning pegs; sealed where it is left out.'),
  'peg-rating': quantity('force', { min: '20 N', max: '1000 N' })
    .optional()
    .describe(
      'Pull that a peg holds, where its maker states it; what is usual for its kind where it is left out.',
    ),
  anchor: oneOf(ANCHORS)
    .optional()
    .describe('What holds the other end of a wire; screw where it is left out.'),
  'loop-wires': yesOrNo()
    .optional()
    .describe(
      'One wire serves two neighbouring cuts; the last of an odd number has its own. No where it is left out.',
    ),
  tension: z
    .strictObject({
      'short-wires': tension().describe(
        'Pull in a short wire as it is tuned, without soap; it follows from wire and peg where it is left out.',
      ),
      'long-wires': tension().describe(
        'Pull in a long wire as it is tuned, without soap; it follows from wire and peg where it is left out.',
      ),
    })
    .optional()
    .describe('How hard the wires are tuned; it follows from wire and peg where it is left out.'),
  'stand-height': quantity('length', { min: '0 mm', max: '1.2 m' })
    .optional()
    .describe(
      'Top of the low stand that base and block are cut on, above the floor; a usual height where it is left out.',
    ),
  clearance: quantity('length', { min: '0 mm', max: '20 mm' })
    .optional()
    .describe(
      'Between block and frame, each side; where it is left out, room for the bulge of the mould and a little more.',
    ),
  'layer-gap': quantity('length', { min: '0 mm', max: '60 mm' })
    .optional()
    .describe(
      'Between short and long wires, one above the other; as much as they want under load where it is left out.',
    ),
  skirt: quantity('length', { min: '10 mm', max: '200 mm' })
    .optional()
    .describe('Wood of the frame below its lower wires; as much as guides it well where it is left out.'),
  'above-wires': quantity('length', { min: '20 mm', max: '200 mm' })
    .optional()
    .describe('Wood of the frame above its upper wires; a usual height where it is left out.'),
  handle: quantity('length', { min: '10 mm', max: '300 mm' })
    .optional()
    .describe('Sides run past the ends by this much; enough for hands and pegs where it is left out.'),
  'shelf-depth': quantity('length', { min: '20 mm', max: '120 mm' })
    .optional()
    .describe('How far the shelves stand out; a usual depth where it is left out.'),
  dado: z
    .strictObject({
      depth: quantity('length', { min: '1 mm', max: '50 mm' }).describe(
        'How deep the groove is in the side.',
      ),
      fit: quantity('length', { min: '0 mm', max: '2 mm' }).describe(
        'How much wider the groove is than the panel that goes in.',
      ),
    })
    .optional()
    .describe('Grooves that its ends stand in; as in the mould where it is left out.'),
})

/** What cannot be derived from bar and block is asked for; the rest may be set. */
const barCutter = z.strictObject({
  panels: z
    .strictObject({
      base: panel.describe('Board of its base: a name among the panels of the materials.'),
      platform: panel.describe('Board of its platform; the grooves eat it.'),
      fence: panel.describe('Board of its fence: a name among the panels of the materials.'),
      frame: panel.describe('Board of arms and rails; pegs want a thick one.'),
      upright: panel.describe('Board of risers, end stop, hinge post, back stop, braces and rests.'),
    })
    .describe('Boards that the bar cutter is made of.'),
  wire: wire().describe('Diameter of the wire.'),
  'wire-material': wireMaterial.describe('What the wire is made of; music-wire where it is left out.'),
  tension: tension().describe(
    'Pull in a wire as it is tuned, without soap; it follows from wire and peg where it is left out.',
  ),
  peg: oneOf(PEGS)
    .optional()
    .describe('Which kind of tuning pegs; as in the grid cutter where it is left out.'),
  anchor: oneOf(ANCHORS)
    .optional()
    .describe('What holds the other end of a wire; as in the grid cutter where it is left out.'),
  'peg-rating': quantity('force', { min: '20 N', max: '1000 N' })
    .optional()
    .describe(
      'Pull that a peg holds, where its maker states it; as in the grid cutter, or usual for its kind, where it is left out.',
    ),
  'platform-height': quantity('length', { min: '50 mm', max: '400 mm' })
    .optional()
    .describe('Top of the platform above the bench; a usual height where it is left out.'),
  'wire-depth': quantity('length', { min: '0.5 mm', max: '30 mm' })
    .optional()
    .describe(
      'Of the closed wire below the platform; where it is left out, a usual depth, or more where the wires trail more.',
    ),
  'groove-width': quantity('length', { min: '0.5 mm', max: '20 mm' })
    .optional()
    .describe('Width of the grooves that the wires go down into; a usual width where it is left out.'),
  'groove-depth': quantity('length', { min: '1 mm', max: '50 mm' })
    .optional()
    .describe('Depth of these grooves; enough for the wires where it is left out.'),
  'slot-width': quantity('length', { min: '0.5 mm', max: '20 mm' })
    .optional()
    .describe('Of the slots in the fence; as wide as the grooves where it is left out.'),
  'fence-height': share({ min: '30 %', max: '110 %' })
    .optional()
    .describe('Height of the fence, as a share of the lying loaf; a usual share where it is left out.'),
  'front-rail-width': quantity('length', { min: '20 mm', max: '200 mm' })
    .optional()
    .describe('Wide rails bend little under the pull of the wires; a usual width where it is left out.'),
  'back-rail-width': quantity('length', { min: '20 mm', max: '200 mm' })
    .optional()
    .describe('Wide rails bend little under the pull of the wires; a usual width where it is left out.'),
  'arm-width': quantity('length', { min: '20 mm', max: '120 mm' })
    .optional()
    .describe('Width of the arms; a usual width where it is left out.'),
  handle: quantity('length', { min: '20 mm', max: '300 mm' })
    .optional()
    .describe('Arms run past the front rail by this much; a usual length where it is left out.'),
  clearance: quantity('length', { min: '0 mm', max: '30 mm' })
    .optional()
    .describe('Between the swinging frame and what stands; a usual gap where it is left out.'),
})

const fixture = z.strictObject({
  title: words({ max: 60 }).describe('What sheets call it.'),
  'how-many': count({ min: 1, max: 20 })
    .optional()
    .describe(
      'Moulds of this very kind in the shop: so many batches may stand at once. One where it is left out.',
    ),
  bar: z
    .strictObject({
      'along-length': quantity('length', { min: '10 mm', max: '300 mm' }).describe(
        'Of a bar, along the length of the block.',
      ),
      'along-width': quantity('length', { min: '10 mm', max: '300 mm' }).describe(
        'Of a bar, along the width of the block.',
      ),
      thickness: quantity('length', { min: '8 mm', max: '150 mm' }).describe(
        'Of a bar: what the bar cutter slices off a loaf.',
      ),
      'size-is': oneOf(['green', 'cured'])
        .optional()
        .describe(
          'Green: as it is cut. Cured: as it is sold; the cut is made larger by what drying takes. Green where it is left out.',
        ),
    })
    .describe('Size of one bar.'),
  grid: z
    .strictObject({
      columns: count({ min: 1, max: 20 }).describe('Loaves along the length of the block.'),
      rows: count({ min: 1, max: 20 }).describe('Loaves along the width of the block.'),
      slices: count({ min: 1, max: 40 }).describe('Bars in a loaf.'),
    })
    .describe('How the block is divided.'),
  'wire-allowance': z
    .strictObject({
      length: trim.describe('For each cut across the length.'),
      width: trim.describe('For each cut across the width.'),
      height: trim.describe('For each slice.'),
    })
    .optional()
    .describe('Added for each cut, for soap that wires drag away; none where it is left out.'),
  trim: z
    .strictObject({
      top: trim.describe('Off the top: takes ash and the dish.'),
      bottom: trim.describe('Off the bottom.'),
      left: trim.describe('Off the left end.'),
      right: trim.describe('Off the right end.'),
      front: trim.describe('Off the front.'),
      back: trim.describe('Off the back.'),
    })
    .optional()
    .describe('Soap that is cut away; a face that is not named is not trimmed.'),
  lining: panel.describe('Sheet between soap and walls: a name among the panels of the materials.'),
  panels: z
    .strictObject({
      side: panel.describe('Board of its sides: a name among the panels of the materials.'),
      end: panel.describe('Board of its ends: a name among the panels of the materials.'),
      'base-top': panel.describe('Board of the top of the base; the grooves eat it.'),
      rail: panel.describe('Board of the rails under the base.'),
      strip: panel.describe('Board of the strips that stiffen the sides.'),
      lid: panel.describe('Board of the lid and its cleats.'),
    })
    .describe('Boards that the mould is made of; measure those that you really have.'),
  dado: z
    .strictObject({
      depth: quantity('length', { min: '1 mm', max: '50 mm' }).describe(
        'How deep the groove is in the side.',
      ),
      fit: quantity('length', { min: '0 mm', max: '2 mm' }).describe(
        'How much wider the groove is than the panel that goes in.',
      ),
    })
    .describe('Grooves in the sides that the ends stand in.'),
  lip: quantity('length', { min: '10 mm', max: '200 mm' }).describe(
    'How far a side goes on beyond the groove, where the rods go through.',
  ),
  freeboard: quantity('length', { min: '0 mm', max: '300 mm' }).describe(
    'Rim above the set soap: room to rise.',
  ),
  base: z
    .strictObject({
      height: quantity('length', { min: '20 mm', max: '300 mm' }).describe(
        'Top of the base above the bench.',
      ),
      clearance: quantity('length', { min: '0 mm', max: '10 mm' }).describe(
        'Between base and bare walls, each side; the lining stands in it.',
      ),
      'groove-width': quantity('length', { min: '0.5 mm', max: '20 mm' }).describe(
        'Room for a wire, and for a frame that stands askew.',
      ),
      'groove-depths': z
        .strictObject({
          'short-wires': quantity('length', { min: '1 mm', max: '50 mm' }).describe('For the short wires.'),
          'long-wires': quantity('length', { min: '1 mm', max: '50 mm' }).describe('For the long wires.'),
        })
        .describe('The short wires lead: their grooves are deeper.'),
      'groove-strips': panel.describe(
        'Sheet that the strips in the grooves are sawn from; they fill them during the pour.',
      ),
      rails: count({ min: 2, max: 12 }).describe('Rails on edge under the top of the base.'),
    })
    .describe('What the block stands on; the wires of the grid cutter go down into its grooves.'),
  rods: z
    .strictObject({
      thread: oneOf(THREADS).describe('Which rod is bought.'),
      heights: z
        .array(quantity('length', { min: '5 mm', max: '1500 mm' }))
        .min(1)
        .max(8)
        .describe('Heights of the rods in each lip above the bench, the lowest first.'),
      'in-base': count({ min: 0, max: 8 }).describe(
        'Rods through the hollow of the base, between its rails.',
      ),
      'stock-length': quantity('length', { min: '200 mm', max: '4 m' }).describe(
        'Length in which rod is sold.',
      ),
      'washer-recess': quantity('length', { min: '0 mm', max: '20 mm' })
        .optional()
        .describe('How deep washers are let into the sides; not at all where it is left out.'),
    })
    .describe('Threaded rods that hold the sides together.'),
  'strip-width': quantity('length', { min: '10 mm', max: '200 mm' }).describe(
    'Width of the strip glued along the outside of each side.',
  ),
  'as-built': asBuilt
    .optional()
    .describe(
      'What tape and rule found on the finished fixtures; what is not written here is taken as drawn.',
    ),
  'grid-cutter': gridCutter
    .optional()
    .describe('The frame of wires that parts the block into loaves; none is made where it is left out.'),
  'bar-cutter': barCutter
    .optional()
    .describe('The cutter that slices a loaf into bars; none is made where it is left out.'),
  'cutting-load': cuttingLoads
    .optional()
    .describe(
      'What soap holds a wire back with on each metre that lies in it; estimates stand for it where it is left out.',
    ),
  'cutting-trial': cuttingTrial
    .optional()
    .describe(
      'What a trial frame of a few wires was pushed through a test block with: it gives the usual load and how well it is known.',
    ),
  'trial-frame': trialFrame
    .optional()
    .describe('Every fixture with a grid cutter has a trial frame; this changes it.'),
  'lever-press': leverPress
    .optional()
    .describe(
      'A lever that pushes the grid cutter down, where hands do not; none is made where it is left out.',
    ),
  tolerances: tolerances
    .optional()
    .describe(
      'How exactly you work, and how even the bars shall be. Common practice stands for what is left out.',
    ),
})

export const fixtureFile = fixture
  .superRefine((file, context) => {
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
  .describe(
    'One mould, by the bar and the grid that it is made for, and the cutters that go with it. What is not written is worked out.',
  )

/** Sections that name boards for their own parts, as the fixture does under `panels`. */
export const SECTIONS_OF_PANELS = ['grid-cutter', 'bar-cutter', 'trial-frame'] as const

export type FixtureFile = z.output<typeof fixtureFile>
export type AsBuiltSection = z.output<typeof asBuilt>
export type GridCutterSection = z.output<typeof gridCutter>
export type BarCutterSection = z.output<typeof barCutter>
