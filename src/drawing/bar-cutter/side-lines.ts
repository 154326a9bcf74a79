/**
 * The bar cutter from the side, its frame at any angle: what stands, cut along a wire, and what swings behind it.
 */
import { swung } from '../../fixtures/bar-cutter/balance.ts'
import type { BarCutter } from '../../fixtures/bar-cutter/types.ts'
import { woodBoxes } from '../../geometry/cells.ts'
import { type Box, placeBox } from '../../geometry/placement.ts'
import { type CutScene, cutSceneAt } from '../cut-scene.ts'
import { projectScene, type ViewLines } from '../projection.ts'
import type { Span } from '../spans.ts'
import type { Point, Rect } from '../types.ts'
import type { ViewExtra } from '../view-marks.ts'
import { closedLines, cutterScene, middleWire } from './cutter-scene.ts'

/** Cut wood that touches slants the other way. */
const SLANTS: readonly (readonly string[])[] = [
  ['cutter-base', 'cutter-platform', 'cutter-front-rail', 'cutter-back-rail'],
  ['cutter-riser', 'cutter-fence', 'cutter-hinge-post', 'cutter-back-stop'],
]

export interface SideView {
  readonly lines: ViewLines
  readonly hatched: readonly (readonly Rect[])[]
  readonly cut: CutScene
}

/**
 * What a plane along the middle wire shows, from the right.
 *
 * @param cutter as designed [m]
 * @param shown which parts and hardware, by key
 * @returns lines and hatching [m]
 */
export const alongWire = (cutter: BarCutter, shown: (key: string) => boolean): SideView => {
  const plane = -(middleWire(cutter)?.x ?? 0)
  const cut = cutSceneAt(cutterScene(cutter, shown), plane)
  return {
    cut,
    lines: projectScene({ scene: cut.scene, viewpoint: 'right', showHidden: [] }),
    hatched: SLANTS.map((keys) =>
      cut.wood.filter(({ key }) => keys.includes(key)).flatMap(({ rects }) => rects),
    ),
  }
}

/** A point of the closed frame, in the view from the right, the frame at an angle [m]. */
export const swungPoint = (
  { hinge }: BarCutter,
  point: { readonly y: number; readonly z: number },
  angle: number,
): Point => {
  const { y, z } = swung(point, hinge.axis, angle)
  return { x: -y, y: z }
}

/** Outlines of the frame from the side: the arm nearest to the viewer, which hides the rails, and a button. */
export const swungFrame = (cutter: BarCutter, angle: number): readonly (readonly Point[])[] => {
  const arm = boxesOf(cutter, 'cutter-arm')
  const whole = {
    y: [Math.min(...arm.map(({ min }) => min.y)), Math.max(...arm.map(({ max }) => max.y))] as const,
    z: [cutter.frame.bottom, cutter.frame.bottom + cutter.input.panels.frame.thickness] as const,
  }
  const metal = cutter.rounds
    .filter(({ key, axis }) => key === 'peg-button' || (key === 'peg-body' && axis === 'z'))
    .map(({ axis, centre, diameter, from, to }) => ({
      y:
        axis === 'y'
          ? ([from, to] as const)
          : ([centre[1] - diameter / 2, centre[1] + diameter / 2] as const),
      z:
        axis === 'y'
          ? ([centre[1] - diameter / 2, centre[1] + diameter / 2] as const)
          : ([from, to] as const),
    }))
  const alike = new Map([whole, ...metal].map((one) => [JSON.stringify(one), one]))
  return [...alike.values()].map(({ y, z }) =>
    [
      { y: y[0], z: z[0] },
      { y: y[1], z: z[0] },
      { y: y[1], z: z[1] },
      { y: y[0], z: z[1] },
    ].map((corner) => swungPoint(cutter, corner, angle)),
  )
}

/** A wire, pin to pin, the frame at an angle [m]. */
export const swungWire = (cutter: BarCutter, angle: number): Span => {
  const { frame, wire } = cutter
  return {
    a: swungPoint(cutter, { y: frame.frontPins, z: wire.height }, angle),
    b: swungPoint(cutter, { y: frame.backPins, z: wire.height }, angle),
  }
}

/** The frame at an angle as added lines. */
export const frameLines = (
  cutter: BarCutter,
  angle: number,
  kind: 'phantom' | 'visible',
): readonly ViewExtra[] => swungFrame(cutter, angle).flatMap((points) => closedLines(kind, points))

/** Where the middle of a handle goes, from one angle to another: an arc of short pieces. */
export const handleArc = (cutter: BarCutter, from: number, to: number): readonly Point[] => {
  const { frame, input } = cutter
  const middle = { y: frame.end - input.frame.handle / 2, z: frame.bottom + input.panels.frame.thickness / 2 }
  return Array.from({ length: ARC + 1 }, (_, index) =>
    swungPoint(cutter, middle, from + ((to - from) * index) / ARC),
  )
}
const ARC = 24

export const boxesOf = (cutter: BarCutter, key: string): readonly Box[] =>
  cutter.parts
    .filter((part) => part.key === key)
    .flatMap((part) =>
      part.placements.flatMap((placement) => woodBoxes(part).map((box) => placeBox(placement, box))),
    )

/** What is left of a piece of line outside a shape without hollows. */
export const outside = ({ a, b }: Span, shape: readonly Point[]): readonly Span[] => {
  let [enter, leave] = [0, 1]
  const middle = {
    x: shape.reduce((sum, { x }) => sum + x, 0) / shape.length,
    y: shape.reduce((sum, { y }) => sum + y, 0) / shape.length,
  }
  for (const [index, p] of shape.entries()) {
    const q = shape[(index + 1) % shape.length]!
    const side = (point: Point) => (q.x - p.x) * (point.y - p.y) - (q.y - p.y) * (point.x - p.x)
    const inner = Math.sign(side(middle))
    const [sa, sb] = [side(a) * inner, side(b) * inner]
    if (sa <= 0 && sb <= 0) return [{ a, b }]
    if (sa < 0) enter = Math.max(enter, sa / (sa - sb))
    if (sb < 0) leave = Math.min(leave, sa / (sa - sb))
  }
  if (enter >= leave) return [{ a, b }]
  const at = (share: number): Point => ({ x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share })
  return [...(enter > 1e-9 ? [{ a, b: at(enter) }] : []), ...(leave < 1 - 1e-9 ? [{ a: at(leave), b }] : [])]
}

/** Lines behind shapes: what none of them hides. */
export const behind = (lines: readonly Span[], shapes: readonly (readonly Point[])[]): readonly Span[] =>
  shapes.reduce<readonly Span[]>((left, shape) => left.flatMap((line) => outside(line, shape)), lines)
