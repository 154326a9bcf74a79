/** Of a fixture with a grid cutter: the trial frame, which has defaults for all of it, and the lever press. */
import { z } from 'zod'
import { name, oneOf, quantity, yesOrNo } from './fields.ts'

const panel = name()
const size = (min: string, max: string) => quantity('length', { min, max })

/** Where the push of a trial is read. */
export const SCALE_PLACES = ['under-block', 'pulls-frame'] as const
export const WOODS = ['softwood', 'yellow-birch'] as const

export const trialFrame = z
  .strictObject({
    block: z
      .strictObject({
        length: size('40 mm', '400 mm').describe('Across the wires.'),
        width: size('40 mm', '300 mm').describe('Along the wires.'),
        height: size('20 mm', '200 mm').describe('From the base to its top.'),
      })
      .optional()
      .describe('The test block; about a kilogram of soap where it is left out.'),
    panels: z
      .strictObject({
        cheek: panel
          .optional()
          .describe(
            'Board of the cheeks that the wires go through; that of the cutter’s sides where it is left out.',
          ),
        spreader: panel
          .optional()
          .describe('Board between the cheeks; that of the cutter’s ends where it is left out.'),
        shelf: panel
          .optional()
          .describe(
            'Board that carries pegs and anchors; that of the cutter’s shelves where it is left out.',
          ),
        top: panel
          .optional()
          .describe('Top of its base; that of the mould’s base where it is left out. The grooves eat it.'),
        foot: panel.optional().describe('Board of its feet; that of the cutter’s ends where it is left out.'),
      })
      .optional()
      .describe('Boards of the trial frame; those of the grid cutter and the mould where they are left out.'),
    spacing: size('5 mm', '150 mm')
      .optional()
      .describe('From wire to wire; a share of the block’s length where it is left out.'),
    scale: z
      .strictObject({
        capacity: quantity('mass', { min: '500 g', max: '500 kg' }).describe('The most it can weigh.'),
        division: quantity('mass', { min: '0.1 g', max: '1 kg' }).describe('The smallest step it shows.'),
        place: oneOf(SCALE_PLACES)
          .optional()
          .describe(
            'The block stands on the scale, or the scale hangs on the frame and draws it down. Under the block where it is left out.',
          ),
      })
      .optional()
      .describe('Where the push is read; one of the shop’s scales where it is left out, under the block.'),
  })
  .describe('Every fixture with a grid cutter has a trial frame; this changes it.')

export const leverPress = z
  .strictObject({
    lumber: z
      .strictObject({
        board: panel.describe(
          'Which lumber: a name among the panels of the materials, which tells how thick it is.',
        ),
        width: size('50 mm', '300 mm').describe('How wide it is, as measured.'),
        wood: oneOf(WOODS)
          .optional()
          .describe('The weakest pine that is sold as lumber where it is left out.'),
      })
      .describe('Lumber that lever, posts, beam, spine and feet are cut from.'),
    panel: panel.describe('Board of the legs of the bridge, link, board and cleats.'),
    packer: panel.describe('Thin sheet between posts and spine: room for the lever.'),
    alone: yesOrNo().optional().describe('Nobody is there to help. No where it is left out.'),
    'stand-top': size('0 mm', '1.2 m')
      .optional()
      .describe(
        'Board of the stand above the floor; so that the first press is at the elbow where it is left out.',
      ),
  })
  .describe('A lever that pushes the grid cutter down, where hands do not.')

export type TrialFrameSection = z.output<typeof trialFrame>
