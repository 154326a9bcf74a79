/**
 * A board as it is sawn up: its pieces to scale with their names, its cuts with the numbers that the saw plan gives them.
 */
import type { PlanCut, PlanPiece, SawPlan } from '../../sheet-stock/saw-plan.ts'
import type { Place } from '../../sheet-stock/types.ts'
import type { LinearRequest } from '../dimension-types.ts'
import { crosses, lettering, overlaps } from '../lettering.ts'
import { arrow } from '../linear-dimension.ts'
import { boundsOf, grown, markBox, moved, moveMark, pointsBox, segments } from '../mark-bounds.ts'
import { pictureStyle } from '../picture.ts'
import type { ViewLines } from '../projection.ts'
import { fittingScale, onPaper } from '../scale.ts'
import { hatch } from '../section.ts'
import { drawnDimensions, scaleText } from '../sheet.ts'
import { sheetSvg } from '../svg.ts'
import { textRuns } from '../text-width.ts'
import {
  capitalHeight,
  type Drawing,
  type DrawingStyle,
  type DrawnDimension,
  type LengthFormatter,
  type LineClass,
  type Mark,
  type Point,
  type Rect,
  type Scale,
  type TextMark,
} from '../types.ts'
import { type PaperView, paperView } from '../view.ts'
import { blockSize, clippedMarks, setLines, type WordLines, type WordPiece, wordsIn } from './piece-words.ts'

/** What is written on a board besides sizes; the catalogue's. */
export interface BoardWords {
  readonly grain: string
  readonly trim: string
  /** before the number of one that is kept */
  readonly offcut: string
}

export interface BoardDrawingRequest {
  readonly name: string
  readonly label: string
  /** without its scale */
  readonly title: string
  readonly plan: SawPlan
  /** by key of the blank */
  readonly parts: ReadonlyMap<string, { readonly number: number; readonly name: string }>
  /** it has one, along its length */
  readonly grain: boolean
  readonly words: BoardWords
  /** room there is [mm] */
  readonly box: { readonly width: number; readonly height: number }
  readonly format: LengthFormatter
  readonly scales?: readonly Scale[]
}

export interface BoardDrawing extends Drawing {
  /** its length runs up the paper */
  readonly upright: boolean
  /** outlines of all pieces that are not sawn again, by id, y up from the lower left corner [mm] */
  readonly outlines: ReadonlyMap<number, Rect>
  /** marks of the pieces and cuts, on the same paper [mm] */
  readonly marks: readonly Mark[]
  /** numbers of the cuts in their circles [mm] */
  readonly circles: readonly { readonly number: number; readonly centre: Point; readonly radius: number }[]
}

const SCALES: readonly Scale[] = [1, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 22, 25, 30, 40, 50].map(
  (model) => ({ paper: 1, model }),
) // biome-ignore format: a list

const STYLE: DrawingStyle = { ...pictureStyle, firstRow: 9, nextRow: 6.5 }

/** mm; numbers of cuts, numbers of parts, and all else: capitals of 2.5 mm, the smallest ISO 3098 step for print (from memory) */
const CUT_TYPE = 2.5 / capitalHeight
const PART_TYPE = 3 / capitalHeight
const TYPE = 2.5 / capitalHeight
/** mm; round a number of one figure, and of two */
const RADIUS = [2.5, 2.9] as const
const KEPT_HATCH = 5 // mm between the lines over what is kept
const WASTE_HATCH = 1.6 // and over what is not
const CORNER = 4 // mm; legs of the black corner
const GRAIN = 26 // mm; length of the double arrow
const THIN = 'dimension' satisfies LineClass

/**
 * Draws a board.
 *
 * Formula: lying or upright, whichever lets the scale be larger. A number stands on its cut where it covers the fewest
 * lines; words stand in their piece, or beside it with a leader where not even its number has room. Validity: any plan.
 * @param request plan [m], names and words, room [mm]
 * @returns the drawing [mm]
 * @source common practice
 */
export function boardDrawing(request: BoardDrawingRequest): BoardDrawing {
  const scales = request.scales ?? SCALES
  const best = [false, true].map((upright) => {
    const scale = fittingScale((one) => roughSize(request, one, upright), request.box, scales)
    return { upright, scale }
  })
  const [lying, standing] = best as [(typeof best)[0], (typeof best)[0]]
  const chosen = standing.scale.model < lying.scale.model ? standing : lying
  // what is set round the board takes more room than was reckoned, now and then
  const from = scales.findIndex(({ model }) => model === chosen.scale.model)
  let drawn = compose(request, scales[from]!, chosen.upright)
  for (const scale of scales.slice(from + 1)) {
    if (drawn.widthMm <= request.box.width && drawn.heightMm <= request.box.height) break
    drawn = compose(request, scale, chosen.upright)
  }
  return drawn
}

/** mm; round the board for what has no room on it, so that what is crowded never takes more paper than there is */
const MARGIN = 13
/** What lies beyond is no place, however free it is. */
const OUTSIDE = 100_000

/** Board and what stands round it, about [mm]. */
function roughSize({ plan }: BoardDrawingRequest, scale: Scale, upright: boolean) {
  const [across, up] = upright ? [plan.board.width, plan.board.length] : [plan.board.length, plan.board.width]
  return { width: onPaper(across, scale) + 2 * MARGIN, height: onPaper(up, scale) + 38 }
}

function compose(request: BoardDrawingRequest, scale: Scale, upright: boolean): BoardDrawing {
  const { plan, format, name, label } = request
  const perMetre = onPaper(1, scale)
  const { length, width } = plan.board
  /** Turned by a quarter, never mirrored: the datum corner comes to stand above. */
  const model = (place: Place): Rect =>
    upright
      ? { x: place.across, y: length - place.along - place.length, width: place.width, height: place.length }
      : { x: place.along, y: place.across, width: place.length, height: place.width }
  const paper = (place: Place): Rect => {
    const { x, y, width: wide, height: high } = model(place)
    return { x: x * perMetre, y: y * perMetre, width: wide * perMetre, height: high * perMetre }
  }
  const view = paperView(
    {
      name: 'board',
      title: '',
      lines: boardLines(upright ? { length: width, width: length } : { length, width }),
      dimensions: dimensionsOf(plan, model, upright),
    },
    { scale, format, style: STYLE },
  )
  const outline = paper({ along: 0, across: 0, length, width })
  const leaves = plan.pieces.filter(({ sawnBy }) => sawnBy === undefined)
  const outlines = new Map(leaves.map(({ id, place }) => [id, paper(place)]))
  const cutLines = plan.cuts.map((cut) => ({ cut, ...cutLine(plan, cut, paper) }))
  const numbers = numberCuts(cutLines, {
    view,
    outline,
    blanks: leaves.filter(({ kind }) => kind === 'blank').map(({ id }) => outlines.get(id)!),
    trimWord: request.words.trim,
  })
  const circles = numbers.circles
  const circleBoxes = circles.map(circleBox)
  const words = pieceWords(request, leaves, outlines, [
    ...circleBoxes,
    ...numbers.words.map(({ box }) => box),
    ...numbers.leaders.flatMap(alongLine),
  ])
  const letters = pieceLetters(plan, {
    circles,
    outline,
    rectOf: (id) => paper(plan.pieces[id]!.place),
    lines: [
      ...cutLines,
      ...boxSides(outline),
      ...numbers.leaders,
      ...view.dimensions.flatMap(({ marks: all }) => all.flatMap(segments)),
    ],
    taken: [
      ...circleBoxes,
      ...numbers.words.map(({ box }) => box),
      ...words.boxes,
      ...words.marks.flatMap((mark) => (mark.kind === 'line' ? alongLine(mark) : [])),
      ...view.dimensions.map(({ text }) => text.box),
    ],
  })
  const lettered = letters.map(({ box }) => box)
  const lines = [
    ...leaves.flatMap(({ id }) => rectLines(outlines.get(id)!)),
    ...leaves
      .filter(({ kind }) => kind === 'offcut' || kind === 'waste' || kind === 'board')
      .flatMap(({ id, kind }) =>
        hatchRound(
          outlines.get(id)!,
          [...words.boxes, ...lettered].filter((box) => overlaps(box, outlines.get(id)!)),
          kind === 'offcut' ? KEPT_HATCH : WASTE_HATCH,
        ),
      ),
  ]
  const marks: Mark[] = [
    ...clippedMarks(lines, circles),
    ...circles.flatMap(({ number, centre, radius }): Mark[] => [
      { kind: 'circle', class: THIN, centre, radius },
      cutNumber(number, centre),
    ]),
    ...numbers.words,
    ...numbers.leaders.flatMap(({ a, b }): Mark[] => [
      { kind: 'line', class: THIN, a, b },
      { kind: 'circle', class: THIN, centre: b, radius: 0.4 },
    ]),
    ...words.marks,
    ...letters,
    { kind: 'arrow', points: cornerMark(outline, upright) },
  ]
  const clipped = view.marks.flatMap((mark) => clippedMarks([mark], circles))
  const above = boundsOf([outline, view.extent, ...marks.map(markBox)])
  const grain = request.grain
    ? grainMark(request.words.grain, { x: outline.x, y: above.y + above.height + 1 }, upright)
    : []
  const top = boundsOf([above, ...grain.map(markBox)])
  const title = lettering({
    class: 'view-title',
    runs: [{ kind: 'plain', text: `${request.title}, ${scaleText(scale)}` }],
    at: { x: outline.x + outline.width / 2, y: top.y - 1.2 * STYLE.titleSize },
    turned: false,
    size: STYLE.titleSize,
  })
  const all: Mark[] = [...clipped, ...marks, ...grain, title]
  const extent = boundsOf([top, title.box])
  const whole: PaperView = { ...view, marks: all, extent }
  const at = { x: 0.5 - extent.x, y: 0.5 - extent.y }
  const size = { width: extent.width + 1, height: extent.height + 1 }
  const set = [{ view: whole, at }]
  const dimensions: readonly DrawnDimension[] = [
    ...drawnDimensions(set[0]!, size.height),
    ...words.sizes.map(({ box, ...one }) => {
      const on = moved(box, at)
      return { ...one, locates: [], box: { ...on, y: size.height - on.y - on.height } }
    }),
  ]
  return {
    name,
    label,
    scale,
    widthMm: size.width,
    heightMm: size.height,
    dimensions,
    upright,
    outlines: new Map([...outlines].map(([id, rect]) => [id, moved(rect, at)])),
    marks: marks.map((mark) => moveMark(mark, at)),
    circles: circles.map((one) => ({
      ...one,
      centre: { x: one.centre.x + at.x, y: one.centre.y + at.y },
    })),
    ...sheetSvg({ name, label, views: set, foot: [], ...size, style: STYLE, dimensions }),
  }
}

/** Its outline as a view that dimensions can be set round [m]. */
const boardLines = ({ length, width }: { readonly length: number; readonly width: number }): ViewLines => {
  const corners = [
    { x: 0, y: 0 },
    { x: length, y: 0 },
    { x: length, y: width },
    { x: 0, y: width },
  ]
  return {
    visible: corners.map((a, index) => ({ a, b: corners[(index + 1) % 4]! })),
    hidden: [],
    circles: [],
    hexagons: [],
    centres: [],
    axes: [],
    outline: { x: 0, y: 0, width: length, height: width },
  }
}

/** Narrower pieces have no dimension in a chain [m]. */
const LEAST_CHAINED = 0.04

/** The whole board, and the chain of what its first cuts part it into. */
function dimensionsOf(
  plan: SawPlan,
  model: (place: Place) => Rect,
  upright: boolean,
): readonly LinearRequest[] {
  const whole = model({ along: 0, across: 0, ...plan.board })
  const linear = (name: string, rect: Rect, isUp: boolean): LinearRequest => ({
    kind: 'linear',
    name,
    side: isUp ? 'left' : 'below',
    from: { x: whole.x, y: isUp ? rect.y : whole.y, ...(isUp ? {} : { x: rect.x }) },
    to: isUp ? { x: whole.x, y: rect.y + rect.height } : { x: rect.x + rect.width, y: whole.y },
  })
  const cutOf = (id: number): PlanCut | undefined => plan.cuts.find(({ piece }) => piece === id)
  let root = 0
  for (let cut = cutOf(root); cut?.kind === 'trim'; cut = cutOf(root)) root = cut.kept
  const kind = cutOf(root)?.kind
  const parted = (id: number): readonly PlanPiece[] => {
    const cut = cutOf(id)
    if (!cut || cut.kind !== kind) return [plan.pieces[id]!]
    return [...parted(cut.kept), ...(cut.falls === undefined ? [] : parted(cut.falls))]
  }
  const isUp = (kind === 'rip') !== upright
  const chain = kind === undefined ? [] : parted(root)
  return [
    linear('board.length', whole, upright),
    linear('board.width', whole, !upright),
    ...chain
      .filter(({ place }) => (kind === 'rip' ? place.width : place.length) >= LEAST_CHAINED)
      .map((piece) => linear(`chain.${piece.id}`, model(piece.place), isUp)),
  ]
}

interface CutLine {
  readonly cut: PlanCut
  readonly a: Point
  readonly b: Point
}

/** Middle of the saw cut, right through its piece [mm]. */
function cutLine(
  plan: SawPlan,
  cut: PlanCut,
  paper: (place: Place) => Rect,
): { readonly a: Point; readonly b: Point } {
  const whole = plan.pieces[cut.piece]!.place
  const kept = plan.pieces[cut.kept]!.place
  const falls = cut.falls === undefined ? undefined : plan.pieces[cut.falls]!.place
  const middle = (side: 'along' | 'across', size: 'length' | 'width'): number => {
    const isLow = cut.from === 'near' || cut.from === 'left'
    const edge = isLow ? kept[side] + kept[size] : kept[side]
    const beyond = falls
      ? isLow
        ? falls[side]
        : falls[side] + falls[size]
      : isLow
        ? whole[side] + whole[size]
        : whole[side]
    return (edge + beyond) / 2
  }
  const rip = cut.from === 'near' || cut.from === 'far'
  const at = rip
    ? paper({ ...whole, across: middle('across', 'width'), width: 0 })
    : paper({ ...whole, along: middle('along', 'length'), length: 0 })
  return { a: { x: at.x, y: at.y }, b: { x: at.x + at.width, y: at.y + at.height } }
}

interface NumberedCircle {
  readonly number: number
  readonly centre: Point
  readonly radius: number
}

/** Small boxes along a slanting line: one box round it would take far more room than it does. */
const alongLine = ({ a, b }: Straight): readonly Rect[] => {
  const count = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y)))
  return Array.from({ length: count + 1 }, (_, index) => ({
    x: a.x + ((b.x - a.x) * index) / count - 0.3,
    y: a.y + ((b.y - a.y) * index) / count - 0.3,
    width: 0.6,
    height: 0.6,
  }))
}

/** A line with the small boxes along it and one round them all: most lines are far from what is asked after. */
interface Beaded {
  readonly boxes: readonly Rect[]
  readonly whole: Rect
}

const beaded = (line: Straight): Beaded => {
  const boxes = alongLine(line)
  return { boxes, whole: boundsOf(boxes) }
}

/** mm; sums of the small boxes may differ in their last digit from those of the one round them */
const ROUNDED = 0.001

const runsOver = ({ boxes, whole }: Beaded, box: Rect): boolean =>
  overlaps(whole, box, ROUNDED) && boxes.some((one) => overlaps(one, box))

const circleBox = ({ centre, radius }: Omit<NumberedCircle, 'number'>): Rect => ({
  x: centre.x - radius,
  y: centre.y - radius,
  width: 2 * radius,
  height: 2 * radius,
})

/** Where each number stands: on its cut, or outside of the board for what is trimmed off. */
function numberCuts(
  cuts: readonly CutLine[],
  {
    view,
    outline,
    blanks,
    trimWord,
  }: {
    readonly view: PaperView
    readonly outline: Rect
    /** outlines of the parts, whose words want room, too */
    readonly blanks: readonly Rect[]
    readonly trimWord: string
  },
): {
  readonly circles: readonly NumberedCircle[]
  readonly words: readonly TextMark[]
  /** from a number to a cut that has no room for it */
  readonly leaders: readonly Straight[]
} {
  const circles: NumberedCircle[] = []
  const words: TextMark[] = []
  const leaders: Straight[] = []
  const lines: readonly Straight[] = [...cuts, ...boxSides(outline)]
  const small = blanks.filter(({ width, height }) => Math.min(width, height) < SMALL_PIECE)
  const around = view.dimensions.flatMap(({ marks, text }) => [
    ...marks.flatMap(segments),
    ...boxSides(text.box),
  ])
  for (const { cut, a, b } of cuts) {
    const radius = RADIUS[cut.number > 9 ? 1 : 0]
    if (cut.kind === 'trim') {
      const set = trimNumber({ cut, a, b }, radius, { outline, around, trimWord })
      circles.push(set.circle)
      words.push(set.word)
      continue
    }
    const length = Math.hypot(b.x - a.x, b.y - a.y)
    const way = { x: (b.x - a.x) / (length || 1), y: (b.y - a.y) / (length || 1) }
    // what lies outside meets nothing that is set there
    const own = grown(pointsBox([a, b]), radius + 0.3)
    const others = cuts.filter((one) => one.cut !== cut && meets(one, own))
    const rims = boxSides(outline)
    const cost = (centre: Point): number => {
      const reach = { centre, radius: radius + 0.3 }
      const covered = others.filter((one) => isNear(one, reach)).length
      const blocked = circles.filter(
        (one) => Math.hypot(one.centre.x - centre.x, one.centre.y - centre.y) < one.radius + radius + 0.4,
      ).length
      const rim = rims.filter((one) => isNear(one, reach)).length
      return 100 * blocked + 10 * (covered + rim)
    }
    // near an end of the cut, so that the middle of its pieces is left to their words
    const start = Math.min(length / 2, radius + 1.5)
    const steps = Math.max(1, Math.ceil((length - 2 * start) / 2))
    const places = Array.from(
      { length: steps + 1 },
      (_, index) => start + ((length - 2 * start) * index) / steps,
    )
    const tries = places.map((along, index) => {
      const centre = { x: a.x + way.x * along, y: a.y + way.y * along }
      return { centre, cost: cost(centre) + Math.min(index, steps - index + 0.5) * 0.05 }
    })
    const on = tries.reduce((best, one) => (one.cost < best.cost ? one : best))
    if (on.cost < 20) {
      circles.push({ number: cut.number, centre: on.centre, radius })
      continue
    }
    const led = ledNumber({ a, b }, radius, { circles, leaders, lines, small, room: grown(outline, MARGIN) })
    circles.push({ number: cut.number, centre: led.centre, radius })
    leaders.push(led.leader)
  }
  return { circles, words, leaders }
}

interface Straight {
  readonly a: Point
  readonly b: Point
}

/** mm; pieces narrower than this have little room for their own words */
const SMALL_PIECE = 14

/** mm; how far from its cut a number is looked for */
const FAR_NUMBERS = [5.5, 7, 9, 11, 13, 16, 19, 23, 27, 32, 38]

const count = <Of>(all: readonly Of[], holds: (one: Of) => boolean): number => {
  let found = 0
  for (const one of all) if (holds(one)) found += 1
  return found
}

/** A sum that is broken off where it is no longer the least: most places are far from the best one. */
const costUpTo = (least: number | undefined, start: number, parts: readonly (() => number)[]): number => {
  let cost = start
  for (const part of parts) {
    if (least !== undefined && cost >= least) return Number.POSITIVE_INFINITY
    cost += part()
  }
  return cost
}

/** Beside a cut that has no room for its number, with a line to it. */
function ledNumber(
  { a, b }: Straight,
  radius: number,
  {
    circles,
    leaders,
    lines,
    small,
    room,
  }: {
    readonly circles: readonly NumberedCircle[]
    readonly leaders: readonly Straight[]
    readonly lines: readonly Straight[]
    readonly small: readonly Rect[]
    readonly room: Rect
  },
): { readonly centre: Point; readonly leader: Straight } {
  let best: { cost: number; centre: Point; leader: Straight } | undefined
  for (const share of [0.5, 0.2, 0.8]) {
    const tip = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }
    const reached = grown(pointsBox([tip]), FAR_NUMBERS.at(-1)! + 2 * RADIUS[1] + 1)
    const near = {
      circles: circles.filter((one) => overlaps(circleBox(one), reached)),
      leaders: leaders.filter((one) => meets(one, reached)),
      lines: lines.filter((one) => meets(one, reached)),
      small: small.filter((one) => overlaps(one, reached)),
    }
    for (const far of FAR_NUMBERS)
      for (let turn = 0; turn < 16; turn += 1) {
        const angle = (Math.PI / 8) * turn + Math.PI / 16
        const way = { x: Math.cos(angle), y: Math.sin(angle) }
        const centre = { x: tip.x + way.x * far, y: tip.y + way.y * far }
        const leader = {
          a: { x: centre.x - way.x * radius, y: centre.y - way.y * radius },
          b: tip,
        }
        const reach = { centre, radius: radius + 0.4 }
        const box = circleBox({ centre, radius })
        const cost = costUpTo(best?.cost, far + (within(box, room) ? 0 : OUTSIDE), [
          () =>
            1000 *
            count(
              near.circles,
              (one) =>
                Math.hypot(one.centre.x - centre.x, one.centre.y - centre.y) < one.radius + radius + 0.5,
            ),
          () =>
            300 *
            count(near.circles, (one) => isNear(leader, { centre: one.centre, radius: one.radius + 0.3 })),
          () => 300 * count(near.leaders, (one) => isNear(one, reach) || isCrossing(one, leader)),
          () => 12 * count(near.lines, (one) => isNear(one, reach)),
          () => 3 * count(near.lines, (one) => isCrossing(one, leader)),
          () => 10 * count(near.small, (one) => overlaps(one, box)),
        ])
        if (!best || cost < best.cost) best = { cost, centre, leader }
      }
  }
  return best!
}

/** True when two straight lines cross within both. */
function isCrossing(one: Straight, other: Straight): boolean {
  return (
    sideOf(one, other.a) * sideOf(one, other.b) < -1e-9 && sideOf(other, one.a) * sideOf(other, one.b) < -1e-9
  )
}

/** On which side of a line a point is, by its sign. */
const sideOf = ({ a, b }: Straight, p: Point): number => (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x)

/** Outside, at the edge that is trimmed, with the word after it. */
function trimNumber(
  { cut, a, b }: CutLine,
  radius: number,
  {
    outline,
    around,
    trimWord,
  }: {
    readonly outline: Rect
    readonly around: readonly { readonly a: Point; readonly b: Point }[]
    readonly trimWord: string
  },
): { readonly circle: NumberedCircle; readonly word: TextMark } {
  const level = Math.abs(a.y - b.y) < 1e-9
  const gap = 0.8
  const isLow = level ? a.y < outline.y + outline.height / 2 : a.x < outline.x + outline.width / 2
  const out = level
    ? isLow
      ? outline.y - gap - radius
      : outline.y + outline.height + gap + radius
    : isLow
      ? outline.x - gap - radius
      : outline.x + outline.width + gap + radius
  const word = (centre: Point): TextMark => {
    const runs = [{ kind: 'plain' as const, text: trimWord }]
    const probe = lettering({ class: 'note-text', runs, at: { x: 0, y: 0 }, turned: false, size: TYPE })
    const ahead = radius + 0.8 + probe.box.width / 2
    const drop = (capitalHeight * TYPE) / 2
    return lettering({
      class: 'note-text',
      runs,
      at: level ? { x: centre.x + ahead, y: centre.y - drop } : { x: centre.x + drop, y: centre.y + ahead },
      turned: !level,
      size: TYPE,
    })
  }
  const shares = [0.3, 0.7, 0.5, 0.2, 0.4, 0.6, 0.8, 0.25, 0.35, 0.45, 0.55, 0.65, 0.75, 0.1, 0.15]
  const tries = shares.map((share) => {
    const centre = level
      ? { x: outline.x + outline.width * share, y: out }
      : { x: out, y: outline.y + outline.height * share }
    const text = word(centre)
    const boxes = [circleBox({ centre, radius }), text.box]
    const met = around.filter((line) => boxes.some((box) => meets(line, box))).length
    return { centre, text, met }
  })
  const best = tries.reduce((one, other) => (other.met < one.met ? other : one))
  return { circle: { number: cut.number, centre: best.centre, radius }, word: best.text }
}

const meets = ({ a, b }: { readonly a: Point; readonly b: Point }, box: Rect): boolean =>
  Math.min(a.x, b.x) <= box.x + box.width + 0.3 &&
  Math.max(a.x, b.x) >= box.x - 0.3 &&
  Math.min(a.y, b.y) <= box.y + box.height + 0.3 &&
  Math.max(a.y, b.y) >= box.y - 0.3

/** True when a straight line comes nearer to a centre than a radius. */
function isNear(
  { a, b }: { readonly a: Point; readonly b: Point },
  { centre, radius }: { readonly centre: Point; readonly radius: number },
): boolean {
  const run = { x: b.x - a.x, y: b.y - a.y }
  const length2 = run.x * run.x + run.y * run.y || 1
  const share = ((centre.x - a.x) * run.x + (centre.y - a.y) * run.y) / length2
  const at = Math.max(0, Math.min(1, share))
  return Math.hypot(a.x + run.x * at - centre.x, a.y + run.y * at - centre.y) < radius
}

const boxSides = ({ x, y, width, height }: Rect): readonly { readonly a: Point; readonly b: Point }[] => {
  const corners = [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ]
  return corners.map((a, index) => ({ a, b: corners[(index + 1) % 4]! }))
}

const rectLines = (rect: Rect): readonly Mark[] =>
  boxSides(rect).map(({ a, b }) => ({ kind: 'line', class: THIN, a, b }))

/** Hatching that leaves boxes free. */
function hatchRound(rect: Rect, boxes: readonly Rect[], pitch: number): readonly Mark[] {
  const free = boxes.reduce<readonly Rect[]>(
    (rects, box) => rects.flatMap((one) => without(one, box)),
    [rect],
  )
  return hatch(free, pitch, 1).map(({ a, b }) => ({ kind: 'line', class: 'hatch', a, b }))
}

/** What of a rectangle is left and right of, below and above another. */
function without(rect: Rect, hole: Rect): readonly Rect[] {
  if (!overlaps(rect, hole)) return [rect]
  const right = rect.x + rect.width
  const top = rect.y + rect.height
  const low = Math.max(rect.y, hole.y)
  const high = Math.min(top, hole.y + hole.height)
  return [
    { ...rect, height: low - rect.y },
    { ...rect, y: high, height: top - high },
    { x: rect.x, y: low, width: hole.x - rect.x, height: high - low },
    { x: hole.x + hole.width, y: low, width: right - hole.x - hole.width, height: high - low },
  ].filter(({ width, height }) => width > 1e-6 && height > 1e-6)
}

const cutNumber = (number: number, centre: Point): TextMark => ({
  ...lettering({
    class: 'note-text',
    runs: [{ kind: 'plain', text: String(number) }],
    at: { x: centre.x, y: centre.y - (capitalHeight * CUT_TYPE) / 2 },
    turned: false,
    size: number > 99 ? CUT_TYPE * 0.8 : CUT_TYPE,
  }),
  value: true,
})

/** mm between a circle and the letter beside it */
const BESIDE = 0.5
/** mm further off, where there is no room for it straight beside the circle */
const RINGS = [0, 1, 2, 3.5, 5]

/** The piece that a cut is made on, by its letter beside the cut's circle, where that touches least. */
function pieceLetters(
  { pieces, steps }: SawPlan,
  {
    circles,
    outline,
    rectOf,
    lines,
    taken,
  }: {
    readonly circles: readonly NumberedCircle[]
    readonly outline: Rect
    readonly rectOf: (id: number) => Rect
    readonly lines: readonly Straight[]
    readonly taken: readonly Rect[]
  },
): readonly TextMark[] {
  const set: TextMark[] = []
  const runs = lines.map(beaded)
  for (const {
    cuts: [first],
  } of steps) {
    const letter = first && pieces[first.piece]!.letter
    const circle = first && circles.find(({ number }) => number === first.number)
    if (letter === undefined || !circle) continue
    const word = [{ kind: 'plain' as const, text: letter }]
    const at = (x: number, y: number): TextMark =>
      lettering({ class: 'note-text', runs: word, at: { x, y }, turned: false, size: TYPE })
    const { width } = at(0, 0).box
    const high = capitalHeight * TYPE
    const piece = rectOf(first.piece)
    const isLed = !overlaps(circleBox(circle), piece)
    const reached = grown(circleBox(circle), BESIDE + RINGS.at(-1)! + 2 * (width + high) + 1)
    const boxes = [...taken, ...set.map((one) => one.box)].filter((one) => overlaps(one, reached))
    const near = runs.filter(({ whole }) => overlaps(whole, reached))
    let found: { readonly mark: TextMark; readonly cost: number } | undefined
    for (const ring of RINGS)
      for (let turn = 0; turn < 16; turn += 1) {
        const angle = (Math.PI / 8) * turn
        const way = { x: Math.cos(angle), y: Math.sin(angle) }
        const far = circle.radius + BESIDE + ring + (Math.abs(way.x) * width + Math.abs(way.y) * high) / 2
        const mark = at(circle.centre.x + way.x * far, circle.centre.y + way.y * far - high / 2)
        const { box } = mark
        const room: Rect = { ...box, y: box.y + 0.1 * box.height, height: 0.8 * box.height }
        const isOn = isLed || within(room, piece)
        const isClear = isLed ? !overlaps(room, outline) || within(room, outline) : true
        const cost = costUpTo(found?.cost, ring + (isOn ? 0 : 8) + (isClear ? 0 : 8), [
          () => 200 * count(boxes, (one) => overlaps(one, room, 0.2)),
          () => 20 * count(near, (line) => runsOver(line, room)),
        ])
        if (!found || cost < found.cost) found = { mark, cost }
      }
    if (found) set.push(found.mark)
  }
  return set
}

const within = (box: Rect, whole: Rect): boolean =>
  box.x >= whole.x &&
  box.y >= whole.y &&
  box.x + box.width <= whole.x + whole.width &&
  box.y + box.height <= whole.y + whole.height

interface SizeInWords {
  readonly name: string
  readonly value: number
  readonly shown: string
  readonly box: Rect
}

/** What stands in every piece. */
function pieceWords(
  { parts, words, format }: BoardDrawingRequest,
  leaves: readonly PlanPiece[],
  outlines: ReadonlyMap<number, Rect>,
  taken: readonly Rect[],
): {
  readonly marks: readonly Mark[]
  readonly boxes: readonly Rect[]
  readonly sizes: readonly SizeInWords[]
} {
  const marks: Mark[] = []
  const boxes: Rect[] = []
  const sizes: SizeInWords[] = []
  const waiting: { readonly rect: Rect; readonly lines: WordLines }[] = []
  const note = (text: string): WordPiece => ({
    class: 'note-text',
    runs: [{ kind: 'plain', text }],
    size: TYPE,
  })
  const bold = (text: string): WordPiece => ({
    class: 'view-title',
    runs: [{ kind: 'plain', text }],
    size: PART_TYPE,
  })
  for (const piece of leaves) {
    const rect = outlines.get(piece.id)!
    const { length, width } = piece.turned
      ? { length: piece.place.width, width: piece.place.length }
      : piece.place
    const name = piece.kind === 'blank' ? `blank.${piece.key}` : `offcut.${piece.offcut}`
    const size: WordPiece = {
      class: 'dimension-text',
      size: TYPE,
      runs: [
        ...textRuns(format(length).shown).map((run) => ({ ...run, name: `${name}.length` })),
        { kind: 'plain', text: ' × ' },
        ...textRuns(format(width).shown).map((run) => ({ ...run, name: `${name}.width` })),
      ],
    }
    const part = piece.key === undefined ? undefined : parts.get(piece.key)
    if (piece.kind !== 'offcut' && !part) continue
    const number = part ? bold(String(part.number)) : note(`${words.offcut} ${piece.offcut}`)
    const choices: readonly WordLines[] = part
      ? [
          [[number, note(part.name)], [size]],
          [[number, size]],
          [[number], [size]],
          [[number, note(part.name)]],
          [[number]],
          [[{ ...number, size: TYPE }]],
        ]
      : [[[number], [size]], [[number, size]], [[number]]]
    const placed = wordsIn(rect, choices, [...taken, ...boxes])
    if (placed) {
      marks.push(...placed.marks)
      boxes.push(placed.box)
      const written = placed.marks.find(({ runs }) => runs === size.runs)
      if (written)
        sizes.push(
          { name: `${name}.length`, value: length, shown: format(length).shown, box: written.box },
          { name: `${name}.width`, value: width, shown: format(width).shown, box: written.box },
        )
    } else if (part) waiting.push({ rect, lines: [[number]] })
  }
  const whole = boundsOf([...outlines.values()])
  const leaders: Straight[] = []
  for (const { rect, lines } of waiting) {
    const led = leadOut(rect, lines, {
      leaders,
      taken: [...taken, ...boxes],
      outlines: [...outlines.values()],
      whole,
    })
    marks.push(...led.marks)
    boxes.push(led.box)
    leaders.push(...led.marks.flatMap((mark) => (mark.kind === 'line' ? [mark] : [])))
  }
  return { marks, boxes, sizes }
}

/** mm; how far from its piece a number is looked for */
const FAR_WORDS = [6, 8, 10, 13, 16, 20, 25, 30, 40]

/** A number beside a piece that is too small for it, with a line that ends in the piece. */
function leadOut(
  rect: Rect,
  lines: WordLines,
  {
    leaders,
    taken,
    outlines,
    whole,
  }: {
    readonly leaders: readonly Straight[]
    readonly taken: readonly Rect[]
    readonly outlines: readonly Rect[]
    readonly whole: Rect
  },
): { readonly marks: readonly Mark[]; readonly box: Rect } {
  const from = { x: rect.x + rect.width / 2, y: rect.y + rect.height / 2 }
  const size = blockSize(lines)
  const reached = grown(pointsBox([from]), FAR_WORDS.at(-1)! + size.width + size.height)
  const room = grown(whole, MARGIN)
  const near = {
    others: leaders.filter((one) => meets(one, reached)).map((line) => ({ line, run: beaded(line) })),
    taken: taken.filter((one) => overlaps(one, reached)),
    sides: outlines.filter((one) => overlaps(one, reached, 1)).flatMap(boxSides),
  }
  let best: { readonly to: Point; readonly box: Rect; readonly cost: number } | undefined
  for (const far of FAR_WORDS)
    for (let turn = 0; turn < 32; turn += 1) {
      const angle = (Math.PI / 16) * turn + Math.PI / 32
      const to = { x: from.x + far * Math.cos(angle), y: from.y + far * Math.sin(angle) }
      const box = { x: to.x - size.width / 2, y: to.y - size.height / 2, ...size }
      const isOut = !overlaps(box, whole)
      const cost = costUpTo(best?.cost, far + (isOut ? -5 : 0) + (within(box, room) ? 0 : OUTSIDE), [
        () => 1000 * count(near.taken, (one) => overlaps(one, box, 0.6)),
        () => 200 * count(near.taken, (one) => crosses(from, to, one)),
        () =>
          200 *
          count(near.others, ({ line, run }) => isCrossing(line, { a: from, b: to }) || runsOver(run, box)),
        () => 20 * count(near.sides, (side) => meets(side, box)),
      ])
      if (!best || cost < best.cost) best = { to, box, cost }
    }
  if (!best) throw new Error('No place was tried.')
  const gap = Math.hypot(best.to.x - from.x, best.to.y - from.y)
  const short = Math.max(0, gap - size.height / 2 - 0.6) / gap
  const end = { x: from.x + (best.to.x - from.x) * short, y: from.y + (best.to.y - from.y) * short }
  return {
    box: best.box,
    marks: [
      ...setLines(lines, best.box, false),
      { kind: 'line', class: THIN, a: end, b: from },
      { kind: 'circle', class: THIN, centre: from, radius: 0.4 },
    ],
  }
}

/** Black triangle in the corner that everything is measured from. */
const cornerMark = ({ x, y, height }: Rect, upright: boolean): readonly Point[] => {
  const [at, up] = upright ? [y + height, -CORNER] : [y, CORNER]
  return [
    { x, y: at },
    { x: x + CORNER, y: at },
    { x, y: at + up },
  ]
}

/** Double arrow with its word, above the board at its left end, or up beside the word. */
function grainMark(word: string, from: Point, upright: boolean): readonly Mark[] {
  const line = (a: Point, b: Point): readonly Mark[] => [
    { kind: 'line', class: THIN, a, b },
    arrow(a, b, STYLE),
    arrow(b, a, STYLE),
  ]
  const text = (x: number, y: number): TextMark => {
    const runs = [{ kind: 'plain' as const, text: word }]
    const probe = lettering({ class: 'note-text', runs, at: { x: 0, y: 0 }, turned: false, size: TYPE })
    return lettering({
      class: 'note-text',
      runs,
      at: { x: x + probe.box.width / 2, y },
      turned: false,
      size: TYPE,
    })
  }
  if (upright) {
    const tall = GRAIN / 2
    return [
      ...line({ x: from.x + 2, y: from.y }, { x: from.x + 2, y: from.y + tall }),
      text(from.x + 5, from.y + tall / 2),
    ]
  }
  const y = from.y + TYPE / 2
  return [...line({ x: from.x, y }, { x: from.x + GRAIN, y }), text(from.x + GRAIN + 2, y - 0.35 * TYPE)]
}
