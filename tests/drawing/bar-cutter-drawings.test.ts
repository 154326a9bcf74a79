/** Drawings of bar cutters: what they measure, that they fit, and that what swings is drawn where it swings. */
import { describe, expect, it } from 'vitest'
import { cutterApart } from '../../src/drawing/bar-cutter/bar-cutter-apart.ts'
import { barCutterDrawings } from '../../src/drawing/bar-cutter/bar-cutter-drawings.ts'
import { cutterUse } from '../../src/drawing/bar-cutter/bar-cutter-use.ts'
import type { BarCutterDrawingWords } from '../../src/drawing/bar-cutter/bar-cutter-words.ts'
import { outside, swungFrame, swungWire } from '../../src/drawing/bar-cutter/side-lines.ts'
import { axonometricLines } from '../../src/drawing/exploded/axonometric.ts'
import { placesSeen } from '../../src/drawing/exploded/exploded-drawing.ts'
import { assemblyScene } from '../../src/drawing/scene.ts'
import { turned } from '../../src/drawing/turn-scene.ts'
import type { LengthFormatter, Projection } from '../../src/drawing/types.ts'
import { designBarCutter } from '../../src/fixtures/bar-cutter/design.ts'
import type { BarCutterInput } from '../../src/fixtures/bar-cutter/types.ts'
import { demoCutterInput, slicesOf } from '../fixtures/bar-cutter-input.ts'
import { coordinatesOf, expectClear, expectInside, expectNamedOnce } from './drawing-checks.ts'

const NAMED = { get: (_: object, key: string) => key, ownKeys: () => [] }
const said = new Proxy({}, NAMED) as Readonly<Record<string, string>>
const words: BarCutterDrawingWords = {
  scale: 'Scale', frontView: 'front', topView: 'from above', sideView: 'side', section: 'Section', detail: 'Detail',
  edgeView: 'Lower edge', endEdgeView: 'Right edge', grain: 'grain', make: 'make', through: 'through', bevel: 'bevel',
  recess: 'recess on top', recessBelow: 'recess below', scribe: 'line', notch: 'slot', deep: 'deep', fold: 'fold', thick: 'thick', face: said, labels: said,
  titles: said, notes: said,
} // biome-ignore format: a list
const millimetres: LengthFormatter = (metres) => ({ shown: `${Math.round(metres * 10000) / 10} mm` })
/** As sheets write them: the unit stands below the drawing. */
const bare: LengthFormatter = (metres) => ({ shown: `${Math.round(metres * 10000) / 10}` })
const box = { width: 173, height: 206 }
const draw = (input: BarCutterInput, projection: Projection = 'third-angle') =>
  barCutterDrawings(designBarCutter(input), {
    box,
    formatter: bare,
    exact: millimetres,
    projection,
    words,
  })

const none = { start: 0, end: 0 }
const cases: readonly (readonly [string, BarCutterInput])[] = [
  ['seven wires', demoCutterInput],
  ['six wires, nothing trimmed', { ...demoCutterInput, block: slicesOf(7, none) }],
  ['a wire for every peg too many', { ...demoCutterInput, block: slicesOf(9, none, 0.02) }],
  ['one wire', { ...demoCutterInput, block: slicesOf(2, none) }],
]

describe.each(cases)('by hand: %s', (_, input) => {
  const cutter = designBarCutter(input)
  const drawings = draw(input, 'first-angle')

  it('fits the box, with its values clear of each other, each named once', () => {
    expectInside(drawings, box)
    expectClear(drawings)
    expectNamedOnce(drawings)
  })

  it('locates every feature once and only once', () => {
    for (const part of cutter.parts) {
      const drawing = drawings.find(({ name }) => name === `part.${part.key}`)
      const located = drawing?.dimensions.flatMap(({ locates }) => locates).sort()
      expect(located, part.key).toEqual(coordinatesOf(part))
    }
  })

  it('numbers all that is drawn apart, and shows at least a bit of it', () => {
    const apart = cutterApart(cutter)
    const seen = placesSeen(apart, axonometricLines(apart.scene, apart.paths))
    expect([...apart.numbers.values()]).toEqual([...apart.numbers].map((__, index) => index + 1))
    expect(seen.filter(({ places }) => places.length === 0).map(({ key }) => key)).toEqual([])
  })
})

describe('by hand: what is measured', () => {
  const cutter = designBarCutter(demoCutterInput)
  const value = (name: string) =>
    draw(demoCutterInput)
      .flatMap(({ dimensions }) => dimensions)
      .find((one) => one.name === name)!.value * 1000

  it('says the heights that a builder checks', () => {
    // platform 3 in; wires 1/8 in below it; rails 4 mm above the wires: 76.2 − 3.175 + 4
    expect(value('assembly.platform-height')).toBeCloseTo(76.2, 6)
    expect(value('section.knuckles')).toBeCloseTo(77.025, 6)
    // the axis half a folded hinge of 2.4 mm below the rails
    expect(value('section.axis-height')).toBeCloseTo(75.825, 6)
    expect(value('detail.axis-above-wire')).toBeCloseTo(2.8, 6)
  })

  it('says how a wire lies in its groove, at rest and under load', () => {
    // half of a wire of 0.5 mm and 2 mm for crumbs below 3.175 mm; board of 17.8 mm
    expect(value('detail.groove-depth')).toBeCloseTo(5.425, 6)
    expect(value('detail.below-groove')).toBeCloseTo(12.375, 6)
    expect(value('detail.lag')).toBeCloseTo(2, 9)
    expect(value('detail.middle-below')).toBeCloseTo(1.175, 6)
  })

  it('says a lap that is cut from below by its own face', () => {
    const rail = draw(demoCutterInput).find(({ name }) => name === 'part.cutter-front-rail')!
    expect(rail.dimensions.find(({ name }) => name.endsWith('lap-1.depth'))!.value).toBeCloseTo(0.0089, 9)
    // both laps are hidden lines on the upper face
    expect(rail.svg).toMatch(/class="hidden"/)
  })

  it('draws the open frame as high as it is, and the wire level when it is closed', () => {
    const open = swungFrame(cutter, cutter.swing.angle).flat()
    // a drawing shows the frame's wood and metal; the highest of both is what the design says
    expect(Math.max(...open.map(({ y }) => y))).toBeCloseTo(cutter.swing.heightOpen, 6)
    const { a, b } = swungWire(cutter, 0)
    expect([a.y, b.y]).toEqual([cutter.wire.height, cutter.wire.height])
    // between pins 8 mm from the edges of rails that are 105.45 mm apart
    expect((b.x - a.x) * 1000).toBeCloseTo(121.45, 2)
  })
})

describe('by hand: pictures of the use', () => {
  const drawing = cutterUse(designBarCutter(demoCutterInput), words, {
    box: { width: 173, height: 140 },
    format: bare,
  })

  it('are four, in the order of the work, and fit', () => {
    const views = [...drawing.svg.matchAll(/data-view="use\.(.*?)"/g)].map((match) => match[1])
    expect(views).toEqual(['use-open', 'use-half', 'use-closed', 'use-out'])
    expectInside([drawing], { width: 173, height: 140 })
    expect(drawing.scale.model).toBeLessThanOrEqual(8)
  })
})

describe('by hand: lines and scenes', () => {
  const square = [
    { x: 0, y: 0 },
    { x: 1, y: 0 },
    { x: 1, y: 1 },
    { x: 0, y: 1 },
  ]

  it('keeps of a line what is outside a shape', () => {
    const across = outside({ a: { x: -1, y: 0.5 }, b: { x: 3, y: 0.5 } }, square)
    expect(across).toEqual([
      { a: { x: -1, y: 0.5 }, b: { x: 0, y: 0.5 } },
      { a: { x: 1, y: 0.5 }, b: { x: 3, y: 0.5 } },
    ])
    expect(outside({ a: { x: 0.2, y: 0.2 }, b: { x: 0.8, y: 0.9 } }, square)).toEqual([])
    expect(outside({ a: { x: -1, y: 2 }, b: { x: 3, y: 2 } }, square)).toHaveLength(1)
  })

  it('turns a scene half round: twice is as before', () => {
    const { parts, rounds } = designBarCutter(demoCutterInput)
    const scene = assemblyScene(parts, rounds)
    const once = turned(scene)
    const [box0, box1] = [scene.boxes[0]!, once.boxes[0]!]
    expect([box1.min.x, box1.max.y]).toEqual([-box0.max.x, -box0.min.y])
    const lying = scene.rounds.findIndex(({ axis }) => axis === 'y')
    expect(once.rounds[lying]!.to).toBe(-scene.rounds[lying]!.from)
    expect(turned(once)).toEqual(scene)
  })
})
