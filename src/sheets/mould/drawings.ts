/** The drawings of a mould as pages with a title block each. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import { drawnWith } from '../../drawing/drawn-with.ts'
import { mouldDrawings } from '../../drawing/mould/mould-drawings.ts'
import type { MouldDrawingWords } from '../../drawing/mould/mould-words.ts'
import type { Projection } from '../../drawing/types.ts'
import type { Part } from '../../geometry/part.ts'
import { inlineWords } from '../compose.ts'
import { drawingPages, drawingWordsOf, fixtureWords } from '../fixture/drawing-pages.ts'
import type { Frame } from '../frame.ts'
import type { Figure } from '../model.ts'

export const mouldDrawingPages = (
  frame: Frame,
  { mould, gauge, title }: BoundMould,
  sheetNumber: string,
  projection: Projection,
): readonly Figure[] =>
  drawingPages(frame, {
    kind: 'mould',
    of: { mould, gauge },
    title,
    sheetNumber,
    projection,
    words: mouldWords(frame, [...mould.parts, ...(gauge ? [gauge.part] : [])]),
    draw: (of, options) => [
      ...mouldDrawings(of.mould, options),
      ...(of.gauge ? [drawnWith(options).part(of.gauge.part)] : []),
    ],
  })

const mouldWords = (frame: Frame, parts: readonly Part[]): MouldDrawingWords => {
  const word = (key: string) => inlineWords(frame.say(`drawing.${key}`))
  const glueUps = ['strip', 'base', 'lid']
  const drawings = ['assembly', 'exploded', 'groove-seal', ...glueUps.map((key) => `glue-up-${key}`)]
  return {
    ...fixtureWords(
      frame,
      parts.map(({ key }) => key),
      drawings,
    ),
    topView: word('top-view'),
    topViewPlain: word('top-view-plain'),
    seam: word('seam'),
    crossing: word('crossing'),
    sealNotes: drawingWordsOf(frame, 'seal', ['side', 'lining', 'bead', 'long', 'short']),
    glueUps: drawingWordsOf(frame, 'glue-up', glueUps),
  }
}
