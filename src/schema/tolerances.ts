/** Of a fixture: how exact a maker saws, marks and pours, and how even the bars shall be. */
import { z } from 'zod'
import { quantity, report, share } from './fields.ts'

const off = (what: string) => quantity('length', { min: '0 mm', max: '1 in' }).optional().describe(what)

export const tolerances = z
  .strictObject({
    'wire-spacing': off('Each wire of the grid cutter from its true place, to either side.'),
    'slice-spacing': off('Each wire of the bar cutter from its true place, counted from the end stop.'),
    'soap-leads': off('Soap leads a wire aside on its way.'),
    'mould-inside': off('Length and width of the mould between its walls.'),
    'gauge-laid': off('The middle of the set-up gauge on the middle of a frame.'),
    'frame-centred': off(
      'The frame of the grid cutter from the middle of the block; as far as its play lets it where it is left out.',
    ),
    'end-stop': off('The loaf on the face of the end stop.'),
    'fill-height': off('The top of the block; matters where no wire trims it.'),
    density: share({ max: '20 %' })
      .optional()
      .describe(
        'Soap of one batch heavier or lighter than the mean. What is usual is taken where it is left out.',
      ),
    'wanted-spread': quantity('mass', { min: '0.01 g', max: '2 kg' })
      .optional()
      .describe(
        'Nearly all bars shall lie within this of the mean, to either side. What is usual is taken where it is left out.',
      ),
    'least-weight': quantity('mass', { min: '1 g', max: '20 kg' })
      .optional()
      .describe(
        'What a bar shall weigh at the least as it is cut, where no batch says what its label will say.',
      ),
  })
  .describe('Common practice stands for what is left out.')

export type TolerancesSection = z.output<typeof tolerances>

/** Which size of a bar an error is judged by. */
const JUDGED_BY = {
  'wire-spacing': 'face',
  'slice-spacing': 'thickness',
  'soap-leads': 'thickness',
  'mould-inside': 'face',
  'gauge-laid': 'face',
  'frame-centred': 'face',
  'end-stop': 'thickness',
  'fill-height': 'thickness',
} as const satisfies Partial<Record<keyof TolerancesSection, 'face' | 'thickness'>>

/** Of a bar's size: whoever is off by more has written something else than a tolerance [–] (estimate) */
const MOST = 0.15

/**
 * Says which tolerances no bar of this size can have.
 *
 * @param bar     size [m]
 * @param section as typed
 * @param context what zod hands to the check
 */
export function checkTolerances(
  bar: { readonly 'along-length': number; readonly 'along-width': number; readonly thickness: number },
  section: TolerancesSection,
  context: z.RefinementCtx,
): void {
  const sizes = { face: Math.min(bar['along-length'], bar['along-width']), thickness: bar.thickness }
  for (const [key, by] of Object.entries(JUDGED_BY)) {
    const value = section[key as keyof typeof JUDGED_BY]
    if (value === undefined || value <= MOST * Math.min(sizes[by], sizes.face)) continue
    report(context, {
      code: 'tolerance-too-wide',
      message: `A bar that is this much off in its ${by === 'face' ? 'length or width' : 'thickness'} is another bar`,
      advice:
        'A tolerance says how far something may be from its true place, to either side: a few sixteenths of an inch at the most. Write 1/32 in for sawing, 1/64 in for a joint.',
      path: ['tolerances', key],
    })
  }
}
