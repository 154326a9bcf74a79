/** The drawings of a mould as pages with a title block each. */
import type { BoundMould } from '../../binder/bind-mould.ts'
import { framedPages, roomInFrame, type TitleBlock } from '../../drawing/framed-page.ts'
import { type MouldDrawingWords, mouldDrawings } from '../../drawing/mould/mould-drawings.ts'
import type { Projection } from '../../drawing/types.ts'
import type { Part } from '../../geometry/part.ts'
import { inlineWords } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Figure } from '../model.ts'
import { INSPECTION } from './inspection.ts'

/** What the section's heading and the caption take of a page [mm]. */
const AROUND = { width: 1, height: 24 } as const

export const drawingPages = (
  frame: Frame,
  { mould, title }: BoundMould,
  sheetNumber: string,
  projection: Projection,
): readonly Figure[] => {
  const page = { width: frame.room.width - AROUND.width, height: frame.room.height - AROUND.height }
  const { say, show } = frame
  const drawings = mouldDrawings(mould, {
    box: roomInFrame(page),
    formatter: (metres) => ({ shown: show.bareSize(metres) }),
    exact: (metres) => ({ shown: show.millimetres('', metres).shown }),
    projection,
    words: drawingWords(frame, mould.parts),
  })
  const pages = framedPages(drawings, {
    page,
    projection,
    title: titleBlock(frame, title, sheetNumber),
  })
  return pages.map(({ svg, dimensions }) => ({
    kind: 'figure',
    svg,
    caption: say(`mould.drawing.caption-${show.lengthUnit}`),
    values: dimensions.map(({ drawing, name, value, shown }) => ({
      name: `drawing.${drawing}.${name}`,
      value,
      unit: 'm',
      shown,
    })),
  }))
}

const titleBlock = ({ say, show, shopName, issued }: Frame, title: string, number: string): TitleBlock => {
  const named = (key: string) => inlineWords(say(`drawing.title-block.${key}`))
  const field = (key: string, text: string, maker = false) => ({ label: named(key), text, maker })
  return {
    owner: field('owner', shopName, true),
    title: field('title', title, true),
    documentType: field('type', named('type-is')),
    number: field('number', number),
    date: field('date', issued.shown, true),
    drawnBy: field('drawn', ''),
    approvedBy: field('approved', ''),
    tolerance: field(
      'tolerance',
      inlineWords(
        say('drawing.title-block.tolerance-is', {
          outline: show.size('', INSPECTION.outline),
          joint: show.size('', INSPECTION.joint),
        }),
      ),
      true,
    ),
    scale: named('scale'),
    sheet: named('sheet'),
    of: named('of'),
  }
}

const drawingWords = ({ say }: Frame, parts: readonly Part[]): MouldDrawingWords => {
  const word = (key: string) => inlineWords(say(`drawing.${key}`))
  const keys = parts.map(({ key }) => key)
  const glueUps = ['strip', 'base', 'lid']
  const labelled = ['assembly', 'exploded', 'groove-seal', ...keys, ...glueUps.map((key) => `glue-up-${key}`)]
  const of = (all: readonly string[], group: string) =>
    Object.fromEntries(all.map((key) => [key, word(`${group}.${key}`)]))
  return {
    scale: word('scale'),
    frontView: word('front-view'),
    topView: word('top-view'),
    topViewPlain: word('top-view-plain'),
    sideView: word('side-view'),
    section: word('section'),
    detail: word('detail'),
    edgeView: word('edge-view'),
    endEdgeView: word('end-edge-view'),
    grain: word('grain'),
    make: word('make'),
    through: word('through'),
    bevel: word('bevel'),
    recess: word('recess'),
    notch: word('notch'),
    deep: word('deep'),
    fold: word('fold'),
    scribe: word('scribe'),
    thick: word('thick'),
    seam: word('seam'),
    crossing: word('crossing'),
    sealNotes: of(['side', 'lining', 'bead', 'long', 'short'], 'seal'),
    face: of(keys, 'face'),
    glueUps: of(glueUps, 'glue-up'),
    labels: of(labelled, 'label'),
  }
}
