/** Where tape and rule go on the finished fixtures: each seen from above, every reading an arrow with its letter. */
import { boxOutline, slanted } from '../box-marks.ts'
import { LEADING, lettering } from '../lettering.ts'
import { arrow } from '../linear-dimension.ts'
import { figureSvg } from '../svg.ts'
import { capitalHeight, drawingStyle, type Mark, type Point, type Rect, type TextRun } from '../types.ts'
import { wrapRuns } from '../wrap-runs.ts'

/** Sizes of what is drawn [m]; every view has its own scale. */
export interface TapePlaces {
  readonly name: string
  /** for readers who cannot see it */
  readonly label: string
  /** of the drawing [mm] */
  readonly width: number
  readonly mould: {
    readonly title: string
    readonly inside: { readonly length: number; readonly width: number }
    readonly wall: number
    /** rim above the base, and water below the rim */
    readonly height: number
    readonly below: number
    readonly letters: {
      readonly weighed: string
      readonly below: string
      readonly length: string
      readonly width: string
    }
  }
  readonly frame?: {
    readonly title: string
    readonly inside: { readonly length: number; readonly width: number }
    readonly wall: number
    /** middles of wires from the inner faces */
    readonly across: { readonly length: readonly number[]; readonly width: readonly number[] }
    /** from the inner face out to the middle of a rod */
    readonly rod: number
    readonly letters: {
      readonly length: string
      readonly width: string
      readonly acrossLength: string
      readonly acrossWidth: string
      /** of wires that run along the width, and along the length */
      readonly alongWidth: string
      readonly alongLength: string
    }
  }
  readonly bar?: {
    readonly title: string
    /** middles of wires from the face of the end stop, and the loaf's length and width */
    readonly wires: readonly number[]
    readonly loaf: { readonly length: number; readonly width: number }
    readonly speaking: number
    readonly letters: { readonly wires: string; readonly speaking: string }
  }
}

export interface TapeDrawing {
  readonly svg: string
  readonly widthMm: number
  readonly heightMm: number
  readonly marks: readonly Mark[]
}

const MILLIMETRE = 1000
/** mm of paper; type of letters and of titles, circle round a letter, its way from what is measured, columns apart */
const LETTER = 2.6 / capitalHeight
const TITLE = 2.6 / capitalHeight
const RADIUS = 2.7
const ROW = 6
const GAP = 7
/** mm; arrows are shorter than on a sheet of parts */
const STYLE = { ...drawingStyle, arrowLength: 2.2, arrowWidth: 0.8 }
const TITLE_ROOM = 6

/**
 * Draws the views side by side.
 *
 * Formula: each view fills its column, at a scale of its own; places are to that scale. Validity: for finding one's way, not
 * for taking sizes.
 * @param request sizes [m], letters and titles, width [mm]
 * @returns svg and size [mm]
 * @source common practice
 */
export function tapePlaces(request: TapePlaces): TapeDrawing {
  const { mould, frame, bar, width } = request
  // the mould has a second view below the first: it is drawn smaller
  const parts = [MOULD_SHARE, ...(frame ? [1] : []), ...(bar ? [1] : [])]
  const room = width - (parts.length - 1) * GAP
  const columns = parts.map((part) => (room * part) / parts.reduce((sum, one) => sum + one, 0))
  const [first = 0, second = 0] = columns
  const views = [
    mouldView(mould, Math.min(first, MOST)),
    ...(frame ? [frameView(frame, Math.min(second, MOST))] : []),
    ...(bar ? [barView(bar, Math.min(columns.at(-1) ?? 0, MOST))] : []),
  ]
  const titles = views.map((view, index) =>
    wrapRuns([{ kind: 'plain', text: view.title }], columns[index] ?? 0, TITLE),
  )
  const lines = Math.max(...titles.map(({ length }) => length))
  const titleRoom = TITLE_ROOM + (lines - 1) * LEADING * TITLE
  const height = Math.max(...views.map((view) => view.height)) + titleRoom
  const marks = views.flatMap((view, index) => {
    const column = columns[index] ?? 0
    const left = columns.slice(0, index).reduce((sum, one) => sum + one + GAP, 0)
    const shift = { x: left + (column - view.width) / 2, y: height - titleRoom - view.height }
    return [
      ...view.marks(shift),
      ...(titles[index] ?? []).map((runs, line) =>
        title(runs, { x: left + column / 2, y: height - TITLE * (1 + line * LEADING) }),
      ),
    ]
  })
  return {
    svg: figureSvg({ name: request.name, label: request.label, width, height, view: 'places', marks }),
    widthMm: width,
    heightMm: height,
    marks,
  }
}

/** of the mould's column, beside one of the others */
const MOULD_SHARE = 0.8
/** mm; a view that has the page to itself grows no larger */
const MOST = 62

interface View {
  readonly title: string
  readonly width: number
  readonly height: number
  readonly marks: (at: Point) => Mark[]
}

function mouldView(mould: TapePlaces['mould'], width: number): View {
  const { inside, wall, letters } = mould
  // the plan, and below it the mould seen through from the front, at the same scale
  const scale = width / ((inside.length + 2 * wall) * MILLIMETRE)
  const mm = (length: number): number => length * MILLIMETRE * scale
  const [deep, w] = [mm(inside.width), mm(wall)]
  const high = Math.min(mm(mould.height), SECTION)
  const below = Math.max(RADIUS + 1, (mould.below / mould.height) * high)
  const height = deep + 2 * w + GAP + high + w
  return {
    title: mould.title,
    width,
    height,
    marks: ({ x, y }) => {
      const plan = { x: x + w, y: y + height - w - deep, width: mm(inside.length), height: deep }
      const cut = { x: x + w, y: y + w, width: plan.width, height: high }
      const outer = { x, y: plan.y - w, width: plan.width + 2 * w, height: deep + 2 * w }
      const level = cut.y + cut.height - below
      const tape = cut.x + cut.width * 0.8
      return [
        ...walls(plan, outer),
        boxOutline(plan),
        boxOutline(outer),
        ...measure(
          { x: plan.x, y: plan.y + deep * 0.3 },
          { x: plan.x + plan.width, y: plan.y + deep * 0.3 },
          letters.length,
          0.62,
        ),
        ...measure(
          { x: plan.x + plan.width * 0.26, y: plan.y },
          { x: plan.x + plan.width * 0.26, y: plan.y + deep },
          letters.width,
          0.68,
        ),
        // walls, bottom and water of the section
        ...walls(cut, { x, y, width: plan.width + 2 * w, height: high + w }, true),
        line('visible', { x, y: cut.y + high }, { x, y }),
        line('visible', { x, y }, { x: x + outer.width, y }),
        line('visible', { x: x + outer.width, y }, { x: x + outer.width, y: cut.y + high }),
        line('visible', { x, y: cut.y + high }, { x: cut.x, y: cut.y + high }),
        line('visible', { x: cut.x + cut.width, y: cut.y + high }, { x: x + outer.width, y: cut.y + high }),
        line('visible', { x: cut.x, y: cut.y + high }, { x: cut.x, y: cut.y }),
        line('visible', { x: cut.x, y: cut.y }, { x: cut.x + cut.width, y: cut.y }),
        line('visible', { x: cut.x + cut.width, y: cut.y }, { x: cut.x + cut.width, y: cut.y + high }),
        line('dimension', { x: cut.x, y: level }, { x: cut.x + cut.width, y: level }),
        ...ripples(cut, level),
        line('phantom', { x: cut.x, y: cut.y + high }, { x: cut.x + cut.width, y: cut.y + high }),
        ...outside({ x: tape, y: cut.y + high }, { x: tape, y: level }, letters.below),
        ...circled(letters.weighed, { x: cut.x + cut.width * 0.4, y: cut.y + (level - cut.y) * 0.5 }),
      ]
    },
  }
}

/** mm; of the section of the mould, which is not drawn higher */
const SECTION = 26

function frameView(frame: NonNullable<TapePlaces['frame']>, width: number): View {
  const { inside, wall, across, letters, rod } = frame
  const left = across.width.length > 0 ? ROW + RADIUS : 0
  const below = across.length.length > 0 ? ROW + RADIUS : 0
  const scale = (width - left) / ((inside.length + 2 * wall) * MILLIMETRE)
  const mm = (length: number): number => length * MILLIMETRE * scale
  const [deep, w] = [mm(inside.width), mm(wall)]
  const height = deep + 2 * w + below
  return {
    title: frame.title,
    width,
    height,
    marks: ({ x, y }) => {
      const plan = { x: x + left + w, y: y + below + w, width: mm(inside.length), height: deep }
      const outer = { x: plan.x - w, y: plan.y - w, width: plan.width + 2 * w, height: deep + 2 * w }
      const xs = across.length.map((place) => plan.x + mm(place))
      const ys = across.width.map((place) => plan.y + mm(place))
      const reach = Math.max(mm(rod), 0.8)
      // letters and arrows stand between wires, never on one
      const gapsX = gapsOf(xs, plan.x, plan.x + plan.width)
      const gapsY = gapsOf(ys, plan.y, plan.y + deep)
      const high = pick(gapsY, 0.5)
      const beside = pick(gapsX, 0.5)
      const shareX = (part: number): number => (pick(gapsX, part) - plan.x) / plan.width
      const shareY = (part: number): number => (pick(gapsY, part) - plan.y) / deep
      const lastX = xs.at(-1)
      const lastY = ys.at(-1)
      return [
        ...walls(plan, outer),
        boxOutline(plan),
        boxOutline(outer),
        ...(xs.length > 0 ? [plan.y - 2 * reach, plan.y + deep] : []).map((edge) =>
          boxOutline({ x: plan.x, y: edge, width: plan.width, height: 2 * reach }),
        ),
        ...(ys.length > 0 ? [plan.x - 2 * reach, plan.x + plan.width] : []).map((edge) =>
          boxOutline({ x: edge, y: plan.y, width: 2 * reach, height: deep }),
        ),
        // the wire that is measured is its own arrow
        ...xs
          .slice(0, -1)
          .map((at) => line('phantom', { x: at, y: plan.y - reach }, { x: at, y: plan.y + deep + reach })),
        ...ys
          .slice(0, -1)
          .map((at) =>
            line('phantom', { x: plan.x - reach, y: at }, { x: plan.x + plan.width + reach, y: at }),
          ),
        ...measure({ x: plan.x, y: high }, { x: plan.x + plan.width, y: high }, letters.length, shareX(0.75)),
        ...measure({ x: beside, y: plan.y }, { x: beside, y: plan.y + deep }, letters.width, shareY(0)),
        ...(lastX === undefined
          ? []
          : [
              ...running(
                { x: plan.x, y: outer.y - ROW },
                xs.map((at) => ({ x: at, y: outer.y - ROW })),
                letters.acrossLength,
                [plan.y, ...xs.map(() => plan.y - reach)],
              ),
              ...measure(
                { x: lastX, y: plan.y - reach },
                { x: lastX, y: plan.y + deep + reach },
                letters.alongWidth,
                shareY(1),
              ),
            ]),
        ...(lastY === undefined
          ? []
          : [
              ...running(
                { x: outer.x - ROW, y: plan.y },
                ys.map((at) => ({ x: outer.x - ROW, y: at })),
                letters.acrossWidth,
                [plan.x, ...ys.map(() => plan.x - reach)],
              ),
              ...measure(
                { x: plan.x - reach, y: lastY },
                { x: plan.x + plan.width + reach, y: lastY },
                letters.alongLength,
                shareX(0),
              ),
            ]),
      ]
    },
  }
}

function barView(bar: NonNullable<TapePlaces['bar']>, width: number): View {
  const { wires, loaf, speaking, letters } = bar
  const last = Math.max(loaf.length, ...wires)
  const stop = 4
  const beyond = 5
  const scale = (width - stop - beyond) / (last * MILLIMETRE)
  const mm = (length: number): number => length * MILLIMETRE * scale
  const deep = mm(loaf.width)
  const reach = Math.max(3, (mm(speaking) - deep) / 2)
  const below = ROW + RADIUS
  const height = deep + 2 * reach + below
  return {
    title: bar.title,
    width,
    height,
    marks: ({ x, y }) => {
      const face = x + stop
      const plan = { x: face, y: y + below + reach, width: mm(loaf.length), height: deep }
      const post = { x, y: plan.y - 1, width: stop, height: deep + 2 }
      const ends = [plan.y - reach, plan.y + deep + reach] as const
      const at = wires.map((place) => face + mm(place))
      const middle = at[Math.floor(at.length / 2)]
      return [
        ...slanted(post, 1.6, 1),
        boxOutline(post),
        boxOutline(plan),
        ...at.flatMap((place): Mark[] => [
          ...(place === middle ? [] : [line('phantom', { x: place, y: ends[0] }, { x: place, y: ends[1] })]),
          { kind: 'circle', class: 'visible', centre: { x: place + 0.7, y: ends[0] }, radius: 0.6 },
          { kind: 'circle', class: 'visible', centre: { x: place + 0.7, y: ends[1] }, radius: 0.6 },
        ]),
        ...(middle === undefined
          ? []
          : [
              ...running(
                { x: face, y: ends[0] - ROW },
                at.map((place) => ({ x: place, y: ends[0] - ROW })),
                letters.wires,
                [post.y, ...at.map(() => ends[0] - 0.8)],
              ),
              ...measure({ x: middle, y: ends[0] }, { x: middle, y: ends[1] }, letters.speaking, 0.5),
            ]),
      ]
    },
  }
}

/** Middles of what lies between places. */
const gapsOf = (places: readonly number[], from: number, to: number): readonly number[] => {
  const edges = [from, ...places, to]
  return edges.slice(1).map((edge, index) => (edge + (edges[index] ?? 0)) / 2)
}

/** @param part of the way through a list, 0 its first and 1 its last */
const pick = (all: readonly number[], part: number): number => all[Math.round((all.length - 1) * part)] ?? 0

const line = (kind: Extract<Mark, { kind: 'line' }>['class'], a: Point, b: Point): Mark => ({
  kind: 'line',
  class: kind,
  a,
  b,
})

/** Wood between two rectangles: the strips on all sides, or on all but the upper one. */
function walls(inner: Rect, outer: Rect, isOpen = false): Mark[] {
  const right = inner.x + inner.width
  const top = inner.y + inner.height
  const strips: Rect[] = [
    { x: outer.x, y: outer.y, width: outer.width, height: inner.y - outer.y },
    { x: outer.x, y: inner.y, width: inner.x - outer.x, height: inner.height },
    { x: right, y: inner.y, width: outer.x + outer.width - right, height: inner.height },
    ...(isOpen ? [] : [{ x: outer.x, y: top, width: outer.width, height: outer.y + outer.height - top }]),
  ]
  return strips.flatMap((strip) => slanted(strip, 1.8, 1))
}

/** Short strokes under the surface, as water is drawn. */
const ripples = ({ x, width }: Rect, level: number): Mark[] =>
  [0.1, 0.2, 0.56, 0.66].flatMap((share) => {
    const from = x + width * share
    return [1.3, 2.6].map((down, index) =>
      line('dimension', { x: from + index, y: level - down }, { x: from + 4 - index, y: level - down }),
    )
  })

/** An arrow at both ends, its letter on it. */
function measure(a: Point, b: Point, letter: string, share: number): Mark[] {
  const length = Math.hypot(b.x - a.x, b.y - a.y) || 1
  const along = { x: (b.x - a.x) / length, y: (b.y - a.y) / length }
  const at = { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share }
  const before = { x: at.x - along.x * RADIUS, y: at.y - along.y * RADIUS }
  const after = { x: at.x + along.x * RADIUS, y: at.y + along.y * RADIUS }
  return [
    line('dimension', a, before),
    line('dimension', after, b),
    arrow(a, b, STYLE),
    arrow(b, a, STYLE),
    ...circled(letter, at),
  ]
}

/** Too short for its letter: arrows from outside, letter above. */
function outside(top: Point, bottom: Point, letter: string): Mark[] {
  const up = { x: top.x, y: top.y + 4 }
  const down = { x: bottom.x, y: bottom.y - 4 }
  return [
    line('dimension', up, top),
    line('dimension', down, bottom),
    line('dimension', top, bottom),
    arrow(top, up, STYLE),
    arrow(bottom, down, STYLE),
    ...circled(letter, { x: down.x, y: down.y - RADIUS }),
  ]
}

/** mm; half of the bar that stands for the face which a rule is put against */
const FACE = 1.8

/** All from one face: a heavy bar where the rule is put against it, an arrow at each place, lines down from what is measured. */
function running(from: Point, to: readonly Point[], letter: string, starts: readonly number[]): Mark[] {
  const last = to.at(-1) ?? from
  const isAcross = last.y === from.y
  const feet = [from, ...to]
  const beyond = RADIUS + 1.2
  const ahead = isAcross ? { x: last.x + beyond, y: last.y } : { x: last.x, y: last.y + beyond }
  return [
    line('dimension', from, last),
    ...(isAcross
      ? [line('visible', { x: from.x, y: from.y - FACE }, { x: from.x, y: from.y + FACE })]
      : [line('visible', { x: from.x - FACE, y: from.y }, { x: from.x + FACE, y: from.y })]),
    ...to.map((place) => arrow(place, from, STYLE)),
    ...feet.map((foot, index) => {
      const start = starts[index] ?? 0
      return isAcross
        ? line('extension', { x: foot.x, y: start }, { x: foot.x, y: foot.y - 1 })
        : line('extension', { x: start, y: foot.y }, { x: foot.x - 1, y: foot.y })
    }),
    ...circled(letter, ahead),
  ]
}

const circled = (letter: string, centre: Point): Mark[] => [
  { kind: 'circle', class: 'visible', centre, radius: RADIUS },
  lettering({
    class: 'note-text',
    runs: [{ kind: 'plain', text: letter }],
    at: { x: centre.x, y: centre.y - (capitalHeight * LETTER) / 2 },
    turned: false,
    size: LETTER,
  }),
]

const title = (runs: readonly TextRun[], at: Point): Mark =>
  lettering({ class: 'note-text', runs, at, turned: false, size: TITLE })
