/**
 * The drawings of a grid cutter: put together, apart, in detail, and every part that is cut for it.
 */
import type { GridCutter } from '../../fixtures/grid-cutter/types.ts'
import { explodedDrawing } from '../exploded/exploded-drawing.ts'
import { partSheet } from '../part-sheet.ts'
import type { FixtureDrawingOptions } from '../part-words.ts'
import { drawSheet } from '../sheet.ts'
import type { Drawing } from '../types.ts'
import { gridApart } from './grid-apart.ts'
import { gridAssembly } from './grid-assembly.ts'
import { wireEnds } from './grid-details.ts'
import { wiresInGrooves } from './grid-groove.ts'
import type { GridDrawingWords } from './grid-words.ts'

/**
 * Draws the grid cutter.
 *
 * Formula: one drawing for the assembly, one with it drawn apart, details of the wires, one per part. Validity: any
 * cutter; details that show nothing are left out.
 * @param cutter as designed [m]
 * @param options box [mm], length formatter, projection and words
 * @returns drawings: `assembly`, `exploded`, `wire-end`, `in-groove`, `part.KEY` …
 * @source common practice
 */
export function gridCutterDrawings(
  cutter: GridCutter,
  options: FixtureDrawingOptions<GridDrawingWords>,
): readonly Drawing[] {
  const { box, formatter: format, exact, projection, words } = options
  const common = { box, format, projection, scaleWord: words.scale, framed: true }
  const label = (key: string) => words.labels[key] ?? ''
  const assembly = drawSheet({
    ...common,
    name: 'assembly',
    label: label('grid-assembly'),
    ...gridAssembly(cutter, words, projection),
  })
  const details = { 'wire-end': wireEnds, 'in-groove': wiresInGrooves }
  return [
    assembly,
    explodedDrawing(gridApart(cutter), {
      box,
      label: label('grid-exploded'),
      scaleWord: words.scale,
      framed: true,
    }),
    ...Object.entries(details).flatMap(([name, draw]) => {
      const views = draw(cutter, words)
      return views.details.length === 0
        ? []
        : [drawSheet({ ...common, name, label: label(`grid-${name}`), ...views })]
    }),
    ...cutter.parts.map((part) =>
      drawSheet({
        ...common,
        largestScale: assembly.scale,
        name: `part.${part.key}`,
        label: label(part.key),
        ...partSheet(part, words, exact),
      }),
    ),
  ]
}
