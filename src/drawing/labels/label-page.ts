/** A page of labels at full size: the same label in every place of a grid, and marks to cut by in the margins. */
import { lettering } from '../lettering.ts'
import { moveMark } from '../mark-bounds.ts'
import { marksSvg, svgElement } from '../svg.ts'
import { textWidth } from '../text-width.ts'
import { capitalHeight, type Mark, type Point, type TextRun } from '../types.ts'

/** All [mm], `left` and `top` from the edges of the paper. */
export interface LabelPlaces {
  readonly paper: { readonly width: number; readonly height: number }
  readonly columns: number
  readonly rows: number
  readonly width: number
  readonly height: number
  readonly left: number
  readonly top: number
  readonly gapAcross: number
  readonly gapDown: number
  readonly cutMarks: boolean
}

/** mm; what a printer leaves blank at the edges of paper (4 to 6, from memory) */
const BLANK = 6
/** Between a label and its mark, and how long a mark is at most [mm] */
const AWAY = 1
const LONG = 4
/** mm; type size of the line in the margin, and the room that it takes below the blank edge */
const HEAD = 3
const HEAD_ROOM = 3.6
/** mm; the drawing ends so far above the lower edge, or it would take a second page */
const SHORT = 1

/** Lower left corner of each label from that of the paper, row by row from the top [mm]. */
export const labelCorners = (of: LabelPlaces): readonly Point[] =>
  Array.from({ length: of.rows * of.columns }, (_, index) => ({
    x: of.left + (index % of.columns) * (of.width + of.gapAcross),
    y: of.paper.height - of.top - of.height - Math.floor(index / of.columns) * (of.height + of.gapDown),
  }))

export interface LabelPageRequest {
  readonly places: LabelPlaces
  /** of one label from its lower left corner [mm] */
  readonly label: readonly Mark[]
  /** which page this is: stands in the upper margin where there is room */
  readonly head: readonly TextRun[]
  /** beside a line of this length, so that paper shows whether it was printed at full size [mm] */
  readonly scale: { readonly length: number; readonly runs: readonly TextRun[] }
  /** for those who do not see it */
  readonly listener: string
}

/**
 * The page.
 *
 * Formula: labels by their distances from the edges of the paper; marks in line with every edge of a label, in the
 * margins alone. Validity: a grid that lies on its paper.
 * @param request grid, label and words [mm]
 * @returns svg as large as the paper, but for a strip at its foot that no printer prints; whether the scale is on it
 * @source common practice
 */
export function labelPage({ places, label, head, scale, listener }: LabelPageRequest): {
  readonly svg: string
  readonly hasScale: boolean
} {
  const { paper } = places
  const corners = labelCorners(places)
  const marks: Mark[] = [
    ...corners.flatMap((at) => label.map((mark) => moveMark(mark, at))),
    ...(places.cutMarks ? edgeMarks(places) : []),
  ]
  const hasHead = places.top >= BLANK + HEAD_ROOM
  const y = paper.height - BLANK - capitalHeight * HEAD
  const wide = textWidth(head, HEAD)
  const left = Math.max(BLANK + 2, places.left)
  const right = paper.width - left
  const scaleWords = textWidth(scale.runs, HEAD)
  const hasScale = hasHead && left + wide + 4 + scale.length + 2 + scaleWords <= right
  if (hasHead) marks.push(wordsAt(head, left + wide / 2, y))
  if (hasScale) {
    const from = right - scaleWords - 2 - scale.length
    const middle = y + (capitalHeight * HEAD) / 2
    const tick = (x: number): Mark => ({
      kind: 'line',
      class: 'visible',
      a: { x, y: middle - 1 },
      b: { x, y: middle + 1 },
    })
    marks.push(
      { kind: 'line', class: 'visible', a: { x: from, y: middle }, b: { x: from + scale.length, y: middle } },
      wordsAt(scale.runs, right - scaleWords / 2, y),
    )
    // apart from the line, whose length is measured
    marks.push(tick(from), tick(from + scale.length))
  }
  const height = paper.height - SHORT
  const flip = ({ x, y: up }: Point): Point => ({ x, y: paper.height - up })
  const ticks = marks.filter((mark) => mark.kind !== 'text')
  return {
    svg: svgElement({
      width: paper.width,
      height,
      label: listener,
      body: `<g class="labels">${ticks.map((mark) => marksSvg([mark], flip)).join('')}${marksSvg(
        marks.filter((mark) => mark.kind === 'text'),
        flip,
      )}</g>`,
      ...(hasScale ? { checkScaleMm: scale.length } : {}),
      fullSize: true,
    }),
    hasScale,
  }
}

const wordsAt = (runs: readonly TextRun[], x: number, y: number): Mark =>
  lettering({ class: 'note-text', runs, at: { x, y }, turned: false, size: HEAD })

/** Lines in the margins in line with the edges of all labels; none where the margin has no room that is printed. */
function edgeMarks(of: LabelPlaces): readonly Mark[] {
  const { paper } = of
  const xs = edges(of.left, of.columns, of.width, of.gapAcross)
  const downs = edges(of.top, of.rows, of.height, of.gapDown)
  const below = paper.height - (downs.at(-1) ?? 0)
  const beside = paper.width - (xs.at(-1) ?? 0)
  const under = BLANK + (of.top >= BLANK + HEAD_ROOM + AWAY + 1 ? HEAD_ROOM : 0)
  const top = strip(of.top, under)
  const bottom = strip(below, BLANK)
  const left = strip(of.left, BLANK)
  const right = strip(beside, BLANK)
  const line = (a: Point, b: Point): Mark => ({ kind: 'line', class: 'extension', a, b })
  return [
    ...xs.flatMap((x) => [
      ...top.map(([from, to]) => line({ x, y: paper.height - from }, { x, y: paper.height - to })),
      ...bottom.map(([from, to]) => line({ x, y: from }, { x, y: to })),
    ]),
    ...downs.flatMap((down) => {
      const y = paper.height - down
      return [
        ...left.map(([from, to]) => line({ x: from, y }, { x: to, y })),
        ...right.map(([from, to]) => line({ x: paper.width - from, y }, { x: paper.width - to, y })),
      ]
    }),
  ]
}

/** From the edge of the paper: where a mark in this margin begins and ends. */
const strip = (margin: number, blank: number): readonly (readonly [number, number])[] => {
  const to = margin - AWAY
  const from = Math.max(blank, to - LONG)
  return to - from >= 1 ? [[from, to]] : []
}

/** Both edges of each label, the shared ones once. */
const edges = (from: number, count: number, size: number, gap: number): readonly number[] => [
  ...new Set(
    Array.from({ length: count }, (_, index) => from + index * (size + gap)).flatMap((at) => [
      Math.round(at * 1e4) / 1e4,
      Math.round((at + size) * 1e4) / 1e4,
    ]),
  ),
]
