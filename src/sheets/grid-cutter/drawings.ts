/** The drawings of a grid cutter: pages with a title block, and the pictures that stand among the text. */
import type { BoundGridCutter } from '../../binder/bind-grid-cutter.ts'
import { gridCutterDrawings } from '../../drawing/grid-cutter/grid-drawings.ts'
import { gridHands } from '../../drawing/grid-cutter/grid-hands.ts'
import { gridStroke } from '../../drawing/grid-cutter/grid-stroke.ts'
import { gridUsePictures } from '../../drawing/grid-cutter/grid-use.ts'
import type { GridDrawingWords } from '../../drawing/grid-cutter/grid-words.ts'
import type { Projection } from '../../drawing/types.ts'
import { inlineWords } from '../compose.ts'
import { drawingPages, drawingWordsOf, fixtureWords } from '../fixture/drawing-pages.ts'
import type { Frame } from '../frame.ts'
import type { Figure } from '../model.ts'

/** mm that a figure stays narrower than the page: lengths are cut to pixels */
const BESIDE = 1

const DRAWINGS = [
  'assembly',
  'section',
  'exploded',
  'wire-end',
  'across',
  'in-groove',
  'wire-hole',
  'use',
  'stroke',
  'hands',
].map((key) => `grid-${key}`)
const DETAILS = [
  'peg', 'anchor', 'turn', 'wire', 'rod', 'post', 'button', 'eye', 'rail', 'shelf', 'along-short', 'along-long', 'across',
  'ends', 'middle', 'deeper', 'hole', 'pick',
] as const // biome-ignore format: a list
const USE = [
  'laid', 'through', 'first-out', 'start', 'mark', 'end', 'hands-above', 'hands-end', 'hand-fingers', 'hand-thumb', 'hand-stick', 'hand-block', 'hand-palm',
] as const // biome-ignore format: a list

const wordsOf = (frame: Frame, { cutter }: BoundGridCutter): GridDrawingWords => ({
  ...fixtureWords(
    frame,
    cutter.parts.map(({ key }) => key),
    DRAWINGS,
  ),
  // of a screw's head, where other fixtures have a washer's
  recess: inlineWords(frame.say('drawing.grid-detail.recess')),
  details: drawingWordsOf(frame, 'grid-detail', DETAILS),
  use: drawingWordsOf(frame, 'grid-use', USE),
})

export const gridDrawingPages = (
  frame: Frame,
  bound: BoundGridCutter,
  title: string,
  sheetNumber: string,
  projection: Projection,
): readonly Figure[] =>
  drawingPages(frame, {
    kind: 'grid-cutter',
    of: bound.cutter,
    title,
    sheetNumber,
    projection,
    words: wordsOf(frame, bound),
    draw: gridCutterDrawings,
  })

/** What it is for, at a glance. */
export const usePicture = (frame: Frame, bound: BoundGridCutter): Figure => ({
  kind: 'figure',
  svg: frame.once(['grid-use', bound.cutter], () =>
    gridUsePictures(bound.cutter, wordsOf(frame, bound), frame.room.width - BESIDE),
  ),
  caption: frame.say('grid.picture.caption'),
  values: [],
})

/** How hands lie on the handles. */
export const handsFigure = (frame: Frame, bound: BoundGridCutter): Figure => ({
  kind: 'figure',
  svg: gridHands(bound.cutter, wordsOf(frame, bound), frame.room.width - BESIDE),
  caption: frame.say('grid.hands.caption'),
  values: [],
})

/** The stroke with the sizes that hands meet. */
export const strokeFigure = (frame: Frame, bound: BoundGridCutter): Figure => {
  const { show, say } = frame
  const { svg, dimensions } = gridStroke(bound.cutter, wordsOf(frame, bound), {
    width: frame.room.width - BESIDE,
    format: (metres) => ({ shown: show.bareSize(metres) }),
  })
  return {
    kind: 'figure',
    svg,
    caption: say(`grid.stroke.caption-${show.lengthUnit}`),
    values: dimensions.map(({ name, value, shown }) => ({
      name: `drawing.${name}`,
      value,
      unit: 'm',
      shown,
    })),
  }
}
