/**
 * The drawings of a bar cutter: put together, its swing, drawn apart, enlarged details, and every part.
 */
import type { BarCutter } from '../../fixtures/bar-cutter/types.ts'
import { drawnWith } from '../drawn-with.ts'
import type { FixtureDrawingOptions } from '../part-words.ts'
import { pictureDrawing } from '../picture.ts'
import type { Drawing } from '../types.ts'
import { cutterApart } from './bar-cutter-apart.ts'
import { cutterAssembly, cutterSection } from './bar-cutter-assembly.ts'
import type { BarCutterDrawingWords } from './bar-cutter-words.ts'
import { hingeDetail, pegDetail, stringingPlan } from './frame-details.ts'
import { wireAcross, wireAlong } from './wire-details.ts'

/**
 * Draws the bar cutter.
 *
 * Formula: one drawing from outside, one cut along a wire, one apart, one for each detail and one for each part in cutting
 * order. Validity: see each of them.
 * @param cutter as designed [m]
 * @param options box [mm], length formatter, projection and words
 * @returns drawings: `assembly`, `front`, `section`, `exploded`, `detail.…`, `part.KEY` …
 * @source common practice
 */
export function barCutterDrawings(
  cutter: BarCutter,
  options: FixtureDrawingOptions<BarCutterDrawingWords>,
): readonly Drawing[] {
  const { box, exact, words } = options
  const { sheet, apart, clearPart } = drawnWith(options, SHARED_SCALE)
  const views = cutterAssembly(cutter, words)
  const details = {
    along: [wireAlong(cutter, words)],
    across: wireAcross(cutter, words),
    peg: pegDetail(cutter, words),
    hinge: [hingeDetail(cutter, words)],
    strings: [stringingPlan(cutter, words)],
  }
  return [
    sheet('assembly', 'bar-cutter-assembly', views.assembly),
    sheet('front', 'bar-cutter-front', views.front),
    sheet('section', 'bar-cutter-section', cutterSection(cutter, words)),
    apart(cutterApart(cutter), 'bar-cutter-exploded'),
    ...Object.entries(details).flatMap(([key, views]) =>
      views.length === 0
        ? []
        : [
            pictureDrawing({
              name: `detail.${key}`,
              label: words.labels[`bar-cutter-${key}`] ?? '',
              views,
              box: { ...box, height: DETAIL_SHARE * box.height },
              largestScale: DETAIL_SCALES[key as keyof typeof details],
              // Parts of a millimetre are lost in fractions of an inch: details say millimetres.
              format: exact,
            }),
          ],
    ),
    ...cutter.parts.map(clearPart),
  ]
}

/** Views and parts share it wherever the paper allows, so that they can be compared. */
const SHARED_SCALE = { paper: 1, model: 5 } as const
/** Two details stand on a page. */
const DETAIL_SHARE = 0.62

/** No larger than helps: a wire's middle at full size, its groove five times. */
const DETAIL_SCALES = {
  along: { paper: 1, model: 1 },
  across: { paper: 5, model: 1 },
  peg: { paper: 2, model: 1 },
  hinge: { paper: 3, model: 1 },
  strings: { paper: 1, model: 2 },
} as const
