/**
 * The wires at the end of the stroke, loaded: how deep their ends and their middles are in the grooves of the base.
 */
import type { GridCutter, GridWire } from '../../fixtures/grid-cutter/types.ts'
import { isChannel } from '../../geometry/part.ts'
import { clippedCut, clippedSection, noteAt } from '../clipped-section.ts'
import type { Scene } from '../scene.ts'
import type { SheetRequest } from '../sheet.ts'
import type { Point, Rect } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { ViewExtra } from '../view-marks.ts'
import { exchanged, gridScene, wireFromSide } from './grid-scene.ts'
import type { GridDrawingWords } from './grid-words.ts'

/** m; what is drawn above and below the base top, and beside a groove */
const ROOM = 0.01

/**
 * Sections along a short and a long wire.
 *
 * Formula: planes along the middle of a groove. Validity: a layer without wires is
 * left out.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns enlarged views with notes
 * @source common practice
 */
export function wiresInGrooves(cutter: GridCutter, words: GridDrawingWords): Pick<SheetRequest, 'details'> {
  const first = (layer: GridWire['layer']) => cutter.wires.find((wire) => wire.layer === layer)
  const [short, long] = [first('short'), first('long')]
  return {
    details: [
      ...(short ? [alongView(cutter, words, short)] : []),
      ...(long ? [alongView(cutter, words, long)] : []),
    ],
  }
}

/**
 * A section across the groove of a short wire, the wire at its end.
 *
 * Formula: a plane across the wire that meets no other groove. Validity: a cutter without short wires has no drawing.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns one enlarged view with notes
 * @source common practice
 */
export function acrossGroove(cutter: GridCutter, words: GridDrawingWords): Pick<SheetRequest, 'details'> {
  const wire = cutter.wires.find(({ layer }) => layer === 'short')
  return { details: wire ? [acrossView(cutter, words, wire)] : [] }
}

/** As seen along the length, or with length and width exchanged, so that the wire runs from left to right. */
const seenAlong = (cutter: GridCutter, runs: GridWire['runs']): Scene => {
  const scene = gridScene(cutter, { base: true, hardware: false })
  return runs === 'width' ? scene : exchanged(scene)
}

const line = (kind: 'dimension' | 'extension', a: Point, b: Point): ViewExtra => ({
  kind: 'line',
  class: kind,
  a,
  b,
})

const SLANTS = [
  ['base-top'],
  ['cutter-side', 'cutter-side-2', 'cutter-end', 'cutter-end-2'],
] as const satisfies readonly (readonly string[])[]

const baseTopOf = ({ input }: GridCutter) => {
  const { base, input: mould } = input.mould
  return { top: base.height, under: base.height - mould.panels.baseTop.thickness }
}

function alongView(cutter: GridCutter, words: GridDrawingWords, wire: GridWire): ViewRequestOnPaper {
  const { inside, outside, input } = cutter
  const { top, under } = baseTopOf(cutter)
  const rails = wire.runs === 'width' ? (outside.width - inside.width) / 2 : input.panels.end.thickness
  const half = (wire.runs === 'width' ? inside.width : inside.length) / 2 + rails
  const region: Rect = { x: -half, y: under - ROOM / 2, width: 2 * half, height: top - under + 1.5 * ROOM }
  const section = clippedCut(seenAlong(cutter, wire.runs), wire.at, region)
  const middle = wire.height + wire.lag
  const { base } = input.mould
  const baseHalf = (wire.runs === 'width' ? base.width : base.length) / 2
  const note = (key: string, at: { x: number; y: number }, depth: number) =>
    noteAt(
      `in-groove.${wire.layer}.${key}`,
      at,
      `${words.details[key] ?? ''} `,
      { length: depth, name: `in-groove.${wire.layer}.${key}.depth` },
      ` ${words.details.deeper ?? ''}`,
    )
  return clippedSection(section, {
    name: `along-${wire.layer}`,
    title: words.details[`along-${wire.layer}`] ?? '',
    slants: SLANTS,
    extras: [
      ...wireFromSide(wire, 1).map((span): ViewExtra => ({ kind: 'line', class: 'dimension', ...span })),
      // from rod to the outside of the rail, and the top of the base behind its groove
      ...[-1, 1].map((sign) =>
        line('dimension', { x: sign * wire.half, y: wire.height }, { x: sign * half, y: wire.height }),
      ),
      line('extension', { x: -baseHalf, y: top }, { x: baseHalf, y: top }),
    ],
    dimensions: [
      note('ends', nearEnd(wire), top - wire.height),
      note('middle', { x: 0, y: middle }, top - middle),
    ],
  })
}

/** On the wire, far enough from its end that the note stands inside of the frame. */
function nearEnd({ half, height, lag }: GridWire): Point {
  const x = 0.014 - half
  return { x, y: height + lag * (1 - (x / half) ** 2) }
}

function acrossView(cutter: GridCutter, words: GridDrawingWords, wire: GridWire): ViewRequestOnPaper {
  const { top, under } = baseTopOf(cutter)
  const groove = grooveAt(cutter, wire)
  const region: Rect = {
    x: wire.at - groove.size / 2 - 2 * ROOM,
    y: under,
    width: groove.size + 4 * ROOM,
    height: top - under + ROOM / 2,
  }
  // Across the wire: the other way round than along it, through a place where no other groove is met.
  const plane = clearPlane(cutter, wire)
  const section = clippedCut(seenAlong(cutter, wire.runs === 'width' ? 'length' : 'width'), plane, region)
  const circle = { centre: { x: wire.at, y: wire.height }, radius: wire.diameter / 2, hidden: false }
  return clippedSection(section, {
    name: 'across',
    title: words.details.across ?? '',
    slants: SLANTS,
    lines: {
      visible: [],
      hidden: [],
      circles: [circle],
      hexagons: [],
      centres: [],
      axes: [],
      outline: region,
    },
    dimensions: [
      noteAt('in-groove.across.wire', { x: wire.at, y: wire.height }, words.details.wire ?? ''),
      {
        kind: 'linear',
        name: 'in-groove.across.width',
        side: 'above',
        from: { x: wire.at - groove.size / 2, y: top },
        to: { x: wire.at + groove.size / 2, y: top },
      },
      {
        kind: 'linear',
        name: 'in-groove.across.depth',
        side: 'right',
        from: { x: wire.at + groove.size / 2, y: top - groove.depth },
        to: { x: wire.at + groove.size / 2, y: top },
      },
    ],
  })
}

/** The groove of the base that a wire runs into. */
function grooveAt({ input }: GridCutter, wire: GridWire): { readonly size: number; readonly depth: number } {
  const { base, parts } = input.mould
  const size = wire.runs === 'width' ? base.length : base.width
  const grooves = parts.find(({ key }) => key === 'base-top')?.features.filter(isChannel) ?? []
  const found = grooves.find(
    ({ runs, at, size: wide }) =>
      runs === wire.runs && at - size / 2 < wire.at && at + wide - size / 2 > wire.at,
  )
  return found ?? { size: input.mould.input.base.grooveWidth, depth: 0 }
}

/** Half way between two grooves that cross the wire, or between such a groove and the edge. */
function clearPlane({ wires, input }: GridCutter, { runs }: GridWire): number {
  const { base } = input.mould
  const crossing = wires.filter((one) => one.runs !== runs).map(({ at }) => at)
  const edge = (runs === 'width' ? base.width : base.length) / 2
  return ((crossing[crossing.length - 1] ?? -edge) + edge) / 2
}
