/** The drawings of a grid cutter: legible and complete for any of them, and showing what the geometry says. */
import { describe, expect, it } from 'vitest'
import { gridApart, gridItems } from '../../src/drawing/grid-cutter/grid-apart.ts'
import { gridCutterDrawings } from '../../src/drawing/grid-cutter/grid-drawings.ts'
import { gridHands } from '../../src/drawing/grid-cutter/grid-hands.ts'
import { loavesOf, wireFromSide } from '../../src/drawing/grid-cutter/grid-scene.ts'
import { gridStroke } from '../../src/drawing/grid-cutter/grid-stroke.ts'
import { gridUsePictures } from '../../src/drawing/grid-cutter/grid-use.ts'
import type { GridDrawingWords } from '../../src/drawing/grid-cutter/grid-words.ts'
import type { Projection } from '../../src/drawing/types.ts'
import { blockDimensions } from '../../src/fixtures/block-dimensions.ts'
import { designGridCutter, type GridCutterInput } from '../../src/fixtures/grid-cutter/design.ts'
import { blockOf, demoGridInput, gridOnMould } from '../fixtures/grid-input.ts'
import { inches, itDrawsWell, millimetres } from './drawing-checks.ts'

const words: GridDrawingWords = {
  scale: 'Scale',
  frontView: 'from the front',
  topView: 'from above',
  sideView: 'from the right',
  section: 'Section',
  detail: 'Detail',
  edgeView: 'Lower edge',
  endEdgeView: 'Right edge',
  grain: 'grain',
  make: 'make',
  face: { 'cutter-side': 'Side, inside face', 'cutter-end': 'End, inside face' },
  through: 'through',
  bevel: 'bevel',
  recess: 'recess',
  notch: 'notch',
  deep: 'deep',
  fold: 'fold',
  thick: 'thick',
  scribe: 'line',
  labels: {},
  details: {
    peg: 'A wire at its peg',
    anchor: 'The same wire at its anchor',
    turn: 'A wire where it turns',
    wire: 'wire',
    rod: 'rod in its kerf',
    post: 'post, three turns',
    button: 'button',
    eye: 'eye on its anchor',
    rail: 'side',
    shelf: 'shelf in its dado',
    'along-short': 'A short wire at the end, loaded',
    'along-long': 'A long wire at the end, loaded',
    across: 'Across its groove',
    ends: 'ends',
    middle: 'middle',
    deeper: 'below the top',
    hole: 'The rod over its wire hole',
    pick: 'toothpick',
  },
  use: { laid: 'Laid on', through: 'Through', 'first-out': 'First loaf out', start: 'First touch', mark: 'At a mark', end: 'At the stop', 'hands-above': 'From above', 'hands-end': 'From an end', 'hand-fingers': 'fingers', 'hand-thumb': 'thumb', 'hand-stick': 'stick', 'hand-block': 'block', 'hand-palm': 'palm' },
} // biome-ignore format: one line reads better

const NONE = { start: 0, end: 0 }
const box = { width: 173, height: 206 }
const looped: GridCutterInput = { ...demoGridInput, wire: { ...demoGridInput.wire, looped: true } }
/** One row of wide bars: wires across alone. */
const oneWay = gridOnMould({
  block: blockDimensions({
    columns: 4,
    rows: 1,
    slices: 7,
    bar: { alongLength: 0.06, alongWidth: 0.18, thickness: 0.028 },
    wireAllowance: { length: 0, width: 0, height: 0 },
    trim: { length: NONE, width: NONE, height: NONE },
  }),
})
const trimmed = gridOnMould({ block: blockOf(5, 3, { width: { start: 0.005, end: 0.006 } }) })

const cases: readonly (readonly [string, GridCutterInput, Projection])[] = [
  ['inches, third angle', demoGridInput, 'third-angle'],
  ['millimetres, first angle', demoGridInput, 'first-angle'],
  ['loops', looped, 'third-angle'],
  ['wires one way only', oneWay, 'third-angle'],
]

describe.each(cases)('by hand: %s', (_, input, projection) => {
  const cutter = designGridCutter(input)
  const formatter = projection === 'third-angle' ? inches : millimetres
  const drawings = gridCutterDrawings(cutter, { box, formatter, exact: millimetres, projection, words })
  itDrawsWell(drawings, cutter.parts, box)

  it('fits the pictures of its use into a row', () => {
    const width = (svg: string) => Number(/width="([\d.]+)mm"/.exec(svg)?.[1])
    expect(width(gridUsePictures(cutter, words, box.width))).toBeLessThanOrEqual(box.width)
    const stroke = gridStroke(cutter, words, { width: box.width, format: formatter })
    expect(width(stroke.svg)).toBeLessThanOrEqual(box.width)
    expect(width(gridHands(cutter, words, box.width))).toBeLessThanOrEqual(box.width)
  })

  it('numbers every part, rods, pegs and anchors, and shows each number once', () => {
    const numbers = [...gridItems(cutter).values()]
    expect(numbers).toEqual(numbers.map((_one, index) => index + 1))
    const drawn = drawings.find(({ name }) => name === 'exploded')?.svg ?? ''
    const shown = [...drawn.matchAll(/class="note-text"[^>]*>(\d+)</g)].map((match) => Number(match[1]))
    expect(shown.sort((a, b) => a - b)).toEqual(numbers)
  })
})

describe('by hand: sides trimmed, so that the handles are long', () => {
  // At 1:10 a side is too small for all its notes: one lies on the line of a dimension.
  it('fits the page', () => {
    const options = {
      box,
      formatter: millimetres,
      exact: millimetres,
      projection: 'first-angle',
      words,
    } as const
    for (const { name, widthMm, heightMm } of gridCutterDrawings(designGridCutter(trimmed), options)) {
      expect(widthMm, name).toBeLessThanOrEqual(box.width)
      expect(heightMm, name).toBeLessThanOrEqual(box.height)
    }
  })
})

describe('by hand: what the drawings say of the demo’s cutter', () => {
  const cutter = designGridCutter(demoGridInput)
  const options = {
    box,
    formatter: millimetres,
    exact: millimetres,
    projection: 'third-angle',
    words,
  } as const
  const drawn = gridCutterDrawings(cutter, options).flatMap(({ dimensions }) => dimensions)
  const value = (name: string) => drawn.find((one) => one.name === name)?.value ?? Number.NaN

  it('measures frame and planes', () => {
    // block 285.75 by 209.55 mm and 1 mm each side; 18 mm boards, handles of 101.6 mm
    expect(value('assembly.inside-length')).toBeCloseTo(0.28775, 9)
    expect(value('assembly.inside-width')).toBeCloseTo(0.21155, 9)
    expect(value('assembly.outside-length')).toBeCloseTo(0.28775 + 2 * (0.018 + 0.1016), 9)
    // skirt a fifth of the width
    expect(value('assembly.plane-short')).toBeCloseTo(0.2 * 0.21155, 9)
    expect(value('assembly.plane-long')).toBeCloseTo(0.2 * 0.21155 + cutter.gap.is, 9)
  })

  it('shows ends and middles of loaded wires below the top of the base', () => {
    // long ends 7 + 1.5 of lag and margin, short ones deeper by the gap; less 7 and 4 of lag
    expect(value('in-groove.short.ends.depth')).toBeCloseTo(0.0085 + cutter.gap.is, 9)
    expect(value('in-groove.short.middle.depth')).toBeCloseTo(0.0045 + cutter.gap.is, 9)
    expect(value('in-groove.long.ends.depth')).toBeCloseTo(0.0085, 9)
    expect(value('in-groove.long.middle.depth')).toBeCloseTo(0.0015, 9)
    expect(value('in-groove.across.width')).toBeCloseTo(0.005, 9)
    expect(value('in-groove.across.depth')).toBeCloseTo(0.016, 9)
  })

  it('shows where the post stands, and how far below its shelf the wire is', () => {
    // shelf of 40 mm less 12; wrap of 8
    expect(value('wire-end.peg.out')).toBeCloseTo(0.028, 9)
    expect(value('wire-end.peg.below-shelf')).toBeCloseTo(0.008, 9)
    expect(value('wire-end.anchor.out')).toBeCloseTo(0.028, 9)
  })

  it('shows the stroke from hand to knuckle', () => {
    const { dimensions } = gridStroke(cutter, words, { width: box.width, format: millimetres })
    const of = (name: string) => dimensions.find((one) => one.name === `stroke.${name}`)?.value
    expect(of('hands-start')).toBeCloseTo(cutter.hands.start, 9)
    expect(of('knuckles')).toBeCloseTo(cutter.edgeAtEnd, 9)
    expect(of('reach')).toBeCloseTo(cutter.railAboveBase, 9)
    // the block's top above the bench, less the upper edge at the end
    const { base, block } = demoGridInput.mould
    expect(of('standing')).toBeCloseTo(base.height + block.setHeight - cutter.hands.end, 9)
  })

  it('bows a loaded wire to a parabola, its middle above its ends by the lag', () => {
    const wire = { half: 0.1, height: 0.07, lag: 0.004 }
    const spans = wireFromSide(wire, 1)
    const points = [...spans.map(({ a }) => a), ...spans.slice(-1).map(({ b }) => b)]
    expect(points[0]?.y).toBeCloseTo(0.07, 12)
    expect(Math.max(...points.map(({ y }) => y))).toBeCloseTo(0.074, 12)
    // half way out the bow is three quarters
    expect(points.find(({ x }) => Math.abs(x - 0.05) < 1e-9)?.y).toBeCloseTo(0.073, 12)
    expect(wireFromSide(wire, 0, 0.1)).toEqual([{ a: { x: -0.1, y: 0.17 }, b: { x: 0.1, y: 0.17 } }])
  })

  it('parts the block into its fifteen loaves', () => {
    const loaves = loavesOf(cutter)
    expect(loaves).toHaveLength(15)
    const volume = loaves.reduce(
      (sum, { min, max }) => sum + (max.x - min.x) * (max.y - min.y) * (max.z - min.z),
      0,
    )
    expect(volume).toBeCloseTo(0.28575 * 0.20955 * demoGridInput.mould.block.setHeight, 9)
  })

  it('moves nothing into anything else when it is drawn apart', () => {
    const { boxes } = gridApart(cutter).scene
    const shared = (a: number, b: number, c: number, d: number) => Math.min(b, d) - Math.max(a, c)
    for (const [index, one] of boxes.entries())
      for (const other of boxes.slice(index + 1)) {
        const depth = Math.min(
          ...(['x', 'y', 'z'] as const).map((axis) =>
            shared(one.min[axis], one.max[axis], other.min[axis], other.max[axis]),
          ),
        )
        expect(depth, `${one.key} and ${other.key}`).toBeLessThan(1e-6)
      }
  })
})
