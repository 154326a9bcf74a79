/**
 * How hands lie on the handles, beside their mark sticks: from above and from an end.
 */
import { FOREARM, type Hand, handsOn } from '../../fixtures/grid-cutter/hands.ts'
import { STICK_WIDTH } from '../../fixtures/grid-cutter/marks.ts'
import type { GridCutter } from '../../fixtures/grid-cutter/types.ts'
import type { Box } from '../../geometry/placement.ts'
import { noteAt } from '../clipped-section.ts'
import type { DimensionRequest } from '../dimension-types.ts'
import { projectScene } from '../projection.ts'
import { rowOfViews } from '../row-of-views.ts'
import type { Scene } from '../scene.ts'
import type { Point, Scale } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { ViewExtra } from '../view-marks.ts'
import { edgesOf, gridScene } from './grid-scene.ts'
import type { GridDrawingWords } from './grid-words.ts'

const SCALES: readonly Scale[] = [4, 5, 6, 7, 8, 10, 12, 15, 20, 30, 50].map((model) => ({ paper: 1, model }))

/**
 * Two views side by side, the wires just on the block.
 *
 * Formula: the frame lifted by its stroke, four hands on it as boxes. Validity: any cutter.
 * @param cutter as designed [m]
 * @param words titles, notes and label
 * @param width of the row [mm]
 * @returns an svg
 * @source common practice
 */
export function gridHands(cutter: GridCutter, words: GridDrawingWords, width: number): string {
  return rowOfViews([fromAbove(cutter, words), fromEnd(cutter, words)], {
    name: 'hands',
    label: words.labels['grid-hands'] ?? '',
    width,
    height: 100,
    format: () => ({ shown: '' }),
    titlesAtFoot: true,
    scales: SCALES,
  }).svg
}

const piecesOf = ({ palm, fingers, thumb }: Hand): readonly Box[] => [palm, ...fingers, thumb]

/** m; a stick above the handles at the first touch */
const ABOVE = 0.02
/** m; what is drawn of the block */
const SOAP = 0.04

/** Frame, lifted, with hands on it, and its stand where asked for. */
function handled(cutter: GridCutter, lift: number, base: boolean): Scene {
  const frame = gridScene(cutter, { lift, base })
  const hands = handsOn(cutter, lift).flatMap(piecesOf)
  return {
    ...frame,
    boxes: [...frame.boxes, ...hands.map((box) => ({ key: 'hand', ...box }))],
    edges: [
      ...frame.edges,
      ...hands.flatMap((box) => edgesOf(box).map((edge) => ({ key: 'hand', ...edge }))),
    ],
  }
}

/** What of a scene lies beyond a place along its length: one end, the drawing broken off. */
function beyond(scene: Scene, from: number): Scene {
  return {
    boxes: scene.boxes
      .filter(({ max }) => max.x > from)
      .map((box) => ({ ...box, min: { ...box.min, x: Math.max(from, box.min.x) } })),
    edges: scene.edges
      .filter(({ a, b }) => Math.max(a.x, b.x) > from)
      .map(({ key, a, b }) => ({
        key,
        a: { ...a, x: Math.max(from, a.x) },
        b: { ...b, x: Math.max(from, b.x) },
      })),
    bores: scene.bores.filter(({ a, b }) => Math.min(a.x, b.x) > from),
    rounds: scene.rounds.filter(({ axis, centre, from: near }) => (axis === 'x' ? near : centre[0]) > from),
  }
}

const middleOf = ({ min, max }: Box, across: 'x' | 'y', up: 'y' | 'z'): Point => ({
  x: (min[across] + max[across]) / 2,
  y: (min[up] + max[up]) / 2,
})

const note = (words: GridDrawingWords, key: string, at: Point): DimensionRequest =>
  noteAt(`hands.${key}`, at, words.use[key.replace('-end', '')] ?? '')

const phantom = (a: Point, b: Point): ViewExtra => ({ kind: 'line', class: 'phantom', a, b })

function fromAbove(cutter: GridCutter, words: GridDrawingWords): ViewRequestOnPaper {
  const hand = handsOn(cutter, cutter.stroke)[3]
  const { lined } = cutter.input.mould
  const half = { x: lined.length / 2, y: lined.width / 2 }
  const from = half.x - SOAP
  return {
    name: 'above',
    title: words.use['hands-above'] ?? '',
    lines: projectScene({
      scene: beyond(handled(cutter, cutter.stroke, true), from),
      viewpoint: 'top',
      showHidden: [],
    }),
    extras: [
      phantom({ x: half.x, y: -half.y }, { x: half.x, y: half.y }),
      ...[-half.y, half.y].map((y) => phantom({ x: from, y }, { x: half.x, y })),
      ...forearms(cutter),
    ],
    dimensions: hand
      ? [
          note(words, 'hand-fingers', middleOf(hand.fingers[1] ?? hand.palm, 'x', 'y')),
          note(words, 'hand-thumb', middleOf(hand.thumb, 'x', 'y')),
          note(words, 'hand-stick', stickAt(cutter)),
          note(words, 'hand-block', { x: half.x - SOAP / 2, y: 0 }),
        ]
      : [],
  }
}

/** m; what is drawn of a forearm beyond its handle */
const ARM = 0.06

/** Both edges of each arm, as it comes in over the outer end of its handle. */
function forearms({ outside, inside }: GridCutter): readonly ViewExtra[] {
  const [end, middle] = [outside.length / 2, (inside.width + outside.width) / 4]
  return [-1, 1].flatMap((side) =>
    [-1, 1].map((edge) => {
      const y = side * middle + (edge * FOREARM) / 2
      return phantom({ x: end, y }, { x: end + ARM, y })
    }),
  )
}

/** Middle of a mark stick, right and in front. */
const stickAt = ({ stand, input }: GridCutter): Point => ({
  x: stand.board.length / 2 + input.panels.cleat.thickness / 2,
  y: -(stand.board.width - STICK_WIDTH) / 2,
})

/** Views stand beside each other by their heights: the frame's middle at that of the view from above. */
const toMiddle = ({ edgeAtEnd, outside }: GridCutter): number => -edgeAtEnd - outside.height / 2

/** Mark sticks as far up as the frame reaches down. */
function sticksFromEnd({ outside, stand }: GridCutter): readonly ViewExtra[] {
  const [low, high] = [-outside.height / 2, outside.height / 2 + ABOVE]
  const [near, far] = [stand.board.width / 2 - STICK_WIDTH, stand.board.width / 2]
  return [-far, -near, near, far].map((x) => phantom({ x, y: low }, { x, y: high }))
}

function fromEnd(cutter: GridCutter, words: GridDrawingWords): ViewRequestOnPaper {
  const lift = toMiddle(cutter)
  const hand = handsOn(cutter, lift)[3]
  const stick = cutter.stand.board.width / 2 - STICK_WIDTH / 2
  return {
    name: 'end',
    title: words.use['hands-end'] ?? '',
    lines: projectScene({ scene: handled(cutter, lift, false), viewpoint: 'right', showHidden: [] }),
    // they stand before the hands, and would hide them
    extras: sticksFromEnd(cutter),
    dimensions: hand
      ? [
          note(words, 'hand-palm', middleOf(hand.palm, 'y', 'z')),
          note(words, 'hand-stick-end', { x: stick, y: ABOVE - cutter.outside.height / 2 }),
        ]
      : [],
  }
}
