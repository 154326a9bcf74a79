/**
 * Puts one view on paper: its lines, its dimensions around it, and its title underneath.
 */

import { layOutSide, type PlacedDimension, textsOf } from './dimension-rows.ts'
import type {
  DimensionRequest,
  LeaderRequest,
  LinearRequest,
  OrdinateRequest,
  Side,
} from './dimension-types.ts'
import { grainMarks } from './grain.ts'
import { drawLeader } from './leader.ts'
import { BOLD, LEADING, lettering } from './lettering.ts'
import { boundsOf, markBox, segments } from './mark-bounds.ts'
import type { ViewLines } from './projection.ts'
import { onPaper } from './scale.ts'
import type { CutFace } from './section.ts'
import { textWidth } from './text-width.ts'
import type { DrawingStyle, LengthFormatter, Mark, Point, Rect, Scale, TextRun } from './types.ts'
import { cutMarks, extraMarks, hatchMarks, isText, type ViewExtra, viewMarks } from './view-marks.ts'
import { wrapRuns } from './wrap-runs.ts'

export interface ViewRequestOnPaper {
  readonly name: string
  readonly title: string
  /** what is said after the title: a value with its unit, and a word */
  readonly titleValue?: { readonly shown: string; readonly after: string }
  readonly lines?: ViewLines
  readonly cut?: CutFace
  /** cut wood of a section view, one list per hatching direction [m] */
  readonly hatched?: readonly (readonly Rect[])[]
  readonly extras?: readonly ViewExtra[]
  readonly dimensions: readonly DimensionRequest[]
}

export interface PaperSettings {
  readonly scale: Scale
  readonly format: LengthFormatter
  readonly style: DrawingStyle
  /** what the view may be wide; when it is told, notes and titles go over two lines where one has no room [mm] */
  readonly room?: number
}

/** A view on paper, y up, in its own coordinates: the model's origin is the paper's [mm]. */
export interface PaperView {
  readonly name: string
  readonly marks: readonly Mark[]
  readonly dimensions: readonly PlacedDimension[]
  readonly outline: Rect
  /** with dimensions and title */
  readonly extent: Rect
}

/**
 * Lays out a view with its dimensions.
 *
 * Formula: model [m] times scale; dimensions stacked outside the outline; notes where they cover least.
 * Validity: any scale.
 * @param request lines or cut face, dimensions and title
 * @param settings scale, formatter and style
 * @returns the view on paper [mm]
 * @source common practice
 */
export function paperView(request: ViewRequestOnPaper, settings: PaperSettings): PaperView {
  const { scale, format, style, room } = settings
  const paperPerMetre = onPaper(1, scale)
  const toPaper = ({ x, y }: Point): Point => ({ x: x * paperPerMetre, y: y * paperPerMetre })
  const marks = [
    ...(request.lines ? viewMarks(request.lines, toPaper, paperPerMetre) : []),
    ...(request.cut ? cutMarks(request.cut, toPaper) : []),
    ...(request.hatched ?? []).flatMap((wood, index) => hatchMarks(wood, toPaper, index % 2 === 0 ? 1 : -1)),
  ]
  const model = request.lines?.outline ?? request.cut?.region ?? { x: 0, y: 0, width: 0, height: 0 }
  const corner = toPaper(model)
  const outline: Rect = {
    ...corner,
    width: model.width * paperPerMetre,
    height: model.height * paperPerMetre,
  }
  const extras = (request.extras ?? []).flatMap((extra) =>
    extra.kind === 'grain'
      ? grainMarks(extra, { outline, style, lines: marks.flatMap(segments) })
      : extraMarks(extra, toPaper, outline, style),
  )
  const placed: PlacedDimension[] = []
  for (const side of ['above', 'below', 'left', 'right'] as const)
    placed.push(
      ...layOutSide({
        side,
        edge: edgeOf(outline, side),
        linear: request.dimensions.filter(
          (one): one is LinearRequest => one.kind === 'linear' && one.side === side,
        ),
        ordinates: request.dimensions.filter(
          (one): one is OrdinateRequest => one.kind === 'ordinate' && one.side === side,
        ),
        toPaper,
        format,
        style,
        taken: [...placed.flatMap(textsOf), ...extras.filter(isText)].map((text) => text.box),
      }),
    )
  const drawnSoFar = (): Rect =>
    boundsOf([
      outline,
      ...marks.map(markBox),
      ...extras.map(markBox),
      ...placed.flatMap((one) => [...textsOf(one).map(({ box }) => box), ...one.marks.map(markBox)]),
    ])
  const leaders = request.dimensions.filter((one): one is LeaderRequest => one.kind === 'leader')
  for (const leader of leaders) {
    const lines = [...marks, ...extras, ...placed.flatMap((one) => one.marks)].flatMap(segments)
    const taken = [...placed.flatMap(textsOf), ...extras.filter(isText)].map((text) => text.box)
    const within = room === undefined ? {} : { within: { room, drawn: drawnSoFar() } }
    placed.push(drawLeader({ leader, toPaper, paperPerMetre, format, style, taken, lines, ...within }))
  }
  const drawn = drawnSoFar()
  const middle = outline.x + outline.width / 2
  const widest = room === undefined ? LONGEST_TITLE : Math.min(LONGEST_TITLE, titleRoom(drawn, middle, room))
  const titles = linesOf(titleRuns(request), style.titleSize, widest).map((runs, line) =>
    lettering({
      class: 'view-title',
      runs,
      at: {
        x: middle,
        y: drawn.y - style.titleSize * (1.1 + line * LEADING),
      },
      turned: false,
      size: style.titleSize,
    }),
  )
  const all: Mark[] = [...marks, ...extras, ...(request.title === '' ? [] : titles)]
  return {
    name: request.name,
    marks: all,
    dimensions: placed,
    outline,
    extent: request.title === '' ? drawn : boundsOf([drawn, ...titles.map(({ box }) => box)]),
  }
}

/** A title that is wider than its room is set on two lines. */
const linesOf = (runs: readonly TextRun[], size: number, room: number): readonly (readonly TextRun[])[] => {
  if (textWidth(runs, size) <= room) return [runs]
  const wide = Math.max(room, LEAST_TITLE)
  return atComma(runs, size, wide) ?? wrapRuns(runs, wide, size)
}

/** Two lines that are as alike in width as commas allow; none when a line would be too wide. */
const atComma = (
  runs: readonly TextRun[],
  size: number,
  room: number,
): readonly (readonly TextRun[])[] | undefined => {
  const pairs = runs.flatMap((run, index) => {
    if (run.kind !== 'plain' || run.value) return []
    return [...run.text.matchAll(/[,;] /g)].map(({ index: at }) => {
      const tail = run.text.slice(at + 2)
      return [
        [...runs.slice(0, index), { ...run, text: run.text.slice(0, at + 1) }],
        [...(tail === '' ? [] : [{ ...run, text: tail }]), ...runs.slice(index + 1)],
      ]
    })
  })
  const wider = (lines: readonly (readonly TextRun[])[]) =>
    Math.max(...lines.map((line) => textWidth(line, size)))
  return pairs.filter((lines) => wider(lines) <= room).sort((one, other) => wider(one) - wider(other))[0]
}

/** What a title may be wide in the regular weight, so that it and what is drawn above it have room [mm]. */
const titleRoom = (drawn: Rect, middle: number, room: number): number => {
  const farther = Math.max(middle - drawn.x, drawn.x + drawn.width - middle)
  return (room >= 2 * farther ? room : 2 * (room - farther)) / BOLD
}

/** mm in the regular weight; either paper has more between its margins, also for bold letters */
const LONGEST_TITLE = 158
/** mm; below this a title would have a line for each word */
const LEAST_TITLE = 40

const titleRuns = ({ title, titleValue }: ViewRequestOnPaper): readonly TextRun[] =>
  titleValue
    ? [
        { kind: 'plain', text: `${title}, ` },
        { kind: 'plain', text: titleValue.shown, value: true },
        { kind: 'plain', text: ` ${titleValue.after}` },
      ]
    : [{ kind: 'plain', text: title }]

function edgeOf(outline: Rect, side: Side): number {
  switch (side) {
    case 'above':
      return outline.y + outline.height
    case 'below':
      return -outline.y
    case 'left':
      return -outline.x
    case 'right':
      return outline.x + outline.width
  }
}
