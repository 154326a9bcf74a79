/**
 * The drawings of a grid cutter: put together, apart, in detail, and every part that is cut for it.
 */
import type { GridCutter } from '../../fixtures/grid-cutter/types.ts'
import { type DrawnWith, drawnWith } from '../drawn-with.ts'
import type { FixtureDrawingOptions } from '../part-words.ts'
import { pictureDrawing } from '../picture.ts'
import { standardScales } from '../scale.ts'
import type { Drawing } from '../types.ts'
import { gridApart } from './grid-apart.ts'
import { gridAssembly, gridSection } from './grid-assembly.ts'
import { wireEnds } from './grid-details.ts'
import { acrossGroove, wiresInGrooves } from './grid-groove.ts'
import { rodOverHole } from './grid-rod.ts'
import type { GridDrawingWords } from './grid-words.ts'

/**
 * Draws the grid cutter.
 *
 * Formula: one drawing for the assembly, one with it drawn apart, details of the wires, one per part. Validity: any
 * cutter; details that show nothing are left out.
 * @param cutter as designed [m]
 * @param options box [mm], length formatter, projection and words
 * @returns drawings: `assembly`, `section`, `exploded`, `wire-end`, `across`, `in-groove`, `wire-hole`, `part.KEY` …
 * @source common practice
 */
export function gridCutterDrawings(
  cutter: GridCutter,
  options: FixtureDrawingOptions<GridDrawingWords>,
): readonly Drawing[] {
  const { box, exact, projection, words } = options
  const assembly = drawnWith(options).sheet(
    'assembly',
    'grid-assembly',
    gridAssembly(cutter, words, projection),
  )
  const { sheet, apart, part } = drawnWith(options, assembly.scale)
  const overHole = rodOverHole(cutter, words).details
  const enlarged = Object.entries({ 'wire-end': wireEnds, across: acrossGroove, 'in-groove': wiresInGrooves })
  return [
    assembly,
    sheet('section', 'grid-section', gridSection(cutter, words)),
    apart(gridApart(cutter), 'grid-exploded'),
    ...enlarged.flatMap(([name, draw]) => {
      const views = draw(cutter, words)
      if (views.details.length === 0) return []
      return [largestThatFits(options, (drawn) => drawn.sheet(name, `grid-${name}`, views))]
    }),
    ...(overHole.length === 0
      ? []
      : [
          pictureDrawing({
            name: 'wire-hole',
            label: words.labels['grid-wire-hole'] ?? '',
            views: overHole,
            box: { ...box, height: HOLE_SHARE * box.height },
            largestScale: HOLE_SCALE,
            // parts of a millimetre are lost in fractions of an inch
            format: exact,
          }),
        ]),
    ...cutter.parts.map(part),
  ]
}

/** The hole of a wire, five times: a hair would not be seen. */
const HOLE_SCALE = { paper: 5, model: 1 } as const
/** Of a page's height */
const HOLE_SHARE = 0.4

/** of 1:5; what is smaller for its notes alone is no enlarged view: they go over two lines instead */
const SMALLEST_ENLARGED = 5

/** A drawing of enlarged views alone, at the largest scale at which they stand on a page. */
function largestThatFits(
  options: FixtureDrawingOptions<GridDrawingWords>,
  draw: (drawn: DrawnWith) => Drawing,
): Drawing {
  const { width, height } = options.box
  for (const scale of standardScales.filter(({ model }) => model <= SMALLEST_ENLARGED)) {
    const drawing = draw(drawnWith(options, scale, { onOneLine: true }))
    if (drawing.widthMm <= width && drawing.heightMm <= height) return drawing
  }
  return draw(drawnWith(options))
}
