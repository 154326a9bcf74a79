/** The drawings of a bar cutter on their pages, and the picture of its use. */
import type { BoundBarCutter } from '../../binder/bind-bar-cutter.ts'
import { barCutterDrawings } from '../../drawing/bar-cutter/bar-cutter-drawings.ts'
import { cutterUse } from '../../drawing/bar-cutter/bar-cutter-use.ts'
import type { BarCutterDrawingWords } from '../../drawing/bar-cutter/bar-cutter-words.ts'
import type { Projection } from '../../drawing/types.ts'
import { inlineWords } from '../compose.ts'
import { drawingPages, drawingWordsOf, fixtureWords } from '../fixture/drawing-pages.ts'
import type { Frame } from '../frame.ts'
import type { Figure } from '../model.ts'

const TITLES = [
  'front', 'use-open', 'use-half', 'use-closed', 'use-out', 'along', 'across', 'peg', 'hinge', 'strings',
] as const // biome-ignore format: a list
const NOTES = [
  'loaf', 'fence', 'catch', 'handle', 'hands', 'thrust', 'on-rests', 'wire-below', 'lift', 'post', 'gear', 'button', 'bushing', 'pin',
  'wire', 'under-load', 'at-rest', 'ends', 'middle', 'axis', 'leaf-rail', 'leaf-post', 'pair', 'single', 'slot', 'wire-level',
  'end-stop', 'stop-end', 'leaning',
] as const // biome-ignore format: a list
const DRAWINGS = [
  'assembly',
  'front',
  'section',
  'exploded',
  'use',
  'along',
  'across',
  'peg',
  'hinge',
  'strings',
]

/** Of a page's height: the picture stands below the words that it is for. */
const USE_SHARE = 0.66

export const barCutterDrawingPages = (
  frame: Frame,
  { cutter, title }: BoundBarCutter,
  sheetNumber: string,
  projection: Projection,
): readonly Figure[] =>
  drawingPages(frame, {
    kind: 'bar-cutter',
    of: cutter,
    title: inlineWords(frame.say('bar-cutter.title', { title })),
    sheetNumber,
    projection,
    words: barCutterWords(frame, cutter),
    draw: barCutterDrawings,
  })

export const useFigure = (frame: Frame, { cutter }: BoundBarCutter): Figure => {
  const { say, show, room } = frame
  const { svg } = cutterUse(cutter, barCutterWords(frame, cutter), {
    box: { width: room.width - 1, height: room.height * USE_SHARE },
    format: (metres) => ({ shown: show.bareSize(metres) }),
  })
  return { kind: 'figure', svg, caption: say('bar-cutter.use.caption'), values: [] }
}

const barCutterWords = (frame: Frame, { parts }: BoundBarCutter['cutter']): BarCutterDrawingWords => ({
  ...fixtureWords(
    frame,
    parts.map(({ key }) => key),
    DRAWINGS.map((key) => `bar-cutter-${key}`),
  ),
  recess: inlineWords(frame.say('drawing.bar-cutter.recess-above')),
  recessBelow: inlineWords(frame.say('drawing.bar-cutter.recess-below')),
  notch: inlineWords(frame.say('drawing.bar-cutter.slot')),
  titles: drawingWordsOf(frame, 'bar-cutter.title', TITLES),
  notes: drawingWordsOf(frame, 'bar-cutter.note', NOTES),
})
