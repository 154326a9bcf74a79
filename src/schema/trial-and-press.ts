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
        height: size('20 mm', '200 mm'),
      })
      .optional()
      .describe('The test block; about a kilogram of soap where it is left out.'),
    panels: z
      .strictObject({
        cheek: panel.optional(),
        spreader: panel.optional(),
        shelf: panel.optional(),
        top: panel.optional().describe('Of its base; the grooves eat it.'),
        foot: panel.optional(),
      })
      .optional()
      .describe('Boards of the grid cutter and the mould where they are left out.'),
    spacing: size('5 mm', '150 mm').optional().describe('From wire to wire.'),
    scale: z
      .strictObject({
        capacity: quantity('mass', { min: '500 g', max: '500 kg' }),
        division: quantity('mass', { min: '0.1 g', max: '1 kg' }),
        place: oneOf(SCALE_PLACES)
          .optional()
          .describe('The block stands on the scale, or the scale hangs on the frame and draws it down.'),
      })
      .optional()
      .describe('One of the shop’s scales where it is left out, under the block.'),
  })
  .describe('Every fixture with a grid cutter has a trial frame; this changes it.')

export const leverPress = z
  .strictObject({
    lumber: z.strictObject({
      board: panel.describe('Lever, posts, beam, spine and feet are cut from it.'),
      width: size('50 mm', '300 mm'),
      wood: oneOf(WOODS).optional().describe('The weakest pine that is sold as lumber where it is left out.'),
    }),
    panel: panel.describe('Legs of the bridge, link, board and cleats.'),
    packer: panel.describe('Thin sheet between posts and spine: room for the lever.'),
    alone: yesOrNo().optional().describe('Nobody is there to help.'),
    'stand-top': size('0 mm', '1.2 m')
      .optional()
      .describe(
        'Board of the stand above the floor; so that the first press is at the elbow where it is left out.',
      ),
  })
  .describe('A lever that pushes the grid cutter down, where hands do not.')

export type TrialFrameSection = z.output<typeof trialFrame>
