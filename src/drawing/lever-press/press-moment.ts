/** A lever press at any moment of its work: which hole its pin is in, and how far its lever has swung. */
import { pressLevels } from '../../fixtures/lever-press/parts.ts'
import type { LeverPress } from '../../fixtures/lever-press/types.ts'
import { shifted } from '../exploded/apart.ts'
import { projectScene, type ViewLines } from '../projection.ts'
import { assemblyScene } from '../scene.ts'
import type { Point, Rect } from '../types.ts'
import type { ViewExtra } from '../view-marks.ts'

export interface PressMoment {
  /** counted from 0, the highest */
  readonly hole: number
  /** of the lever: 1 at the start of the step, -1 at its end */
  readonly swing: 1 | 0 | -1
}

/** What moves, where it is from the front [m]. */
export interface PressPose {
  readonly pin: Point
  /** bolts of the link */
  readonly upper: Point
  readonly lower: Point
  readonly hands: Point
  /** top of the frame above the board */
  readonly frameTop: number
  readonly angle: number
}

/**
 * Places of pin, link, hands and frame.
 *
 *     upper bolt = pin + arm (cos θ, sin θ);   lower bolt below the middle of the block, a link away
 *
 * @param press  as designed [m]
 * @param moment hole and swing
 * @returns places from the front [m]
 * @source common practice
 */
export function pressPose({ geometry, input }: LeverPress, { hole, swing }: PressMoment): PressPose {
  const { arm, lever, link, steps, bridgeClear } = geometry
  const angle = swing * geometry.angle
  const pin = { x: -arm, y: steps[hole]?.pin ?? 0 }
  const along = (reach: number): Point => ({
    x: pin.x + reach * Math.cos(angle),
    y: pin.y + reach * Math.sin(angle),
  })
  const upper = along(arm)
  const lower = { x: 0, y: upper.y - Math.sqrt(link ** 2 - upper.x ** 2) }
  return {
    pin,
    upper,
    lower,
    hands: along(lever),
    frameTop: lower.y - input.lumber.width / 2 - bridgeClear,
    angle,
  }
}

const isBridge = (key: string): boolean => key === 'press-beam' || key === 'press-bridge-end'
const isSwung = (key: string): boolean => key === 'press-lever' || key === 'press-link'

/** Stand and bridge from the front; lever and link lean and are drawn as outlines. */
export function pressFront(
  press: LeverPress,
  moment: PressMoment,
): { readonly lines: ViewLines; readonly extras: readonly ViewExtra[] } {
  const pose = pressPose(press, moment)
  const down = pose.lower.y - pressLevels(press.input, press.geometry).beam
  const parts = press.parts
    .filter(({ key }) => !isSwung(key))
    .map((part) =>
      isBridge(part.key)
        ? { ...part, placements: part.placements.map((one) => shifted(one, { x: 0, y: 0, z: down })) }
        : part,
    )
  const lines = projectScene({ scene: assemblyScene(parts, []), viewpoint: 'front', showHidden: [] })
  return { lines, extras: [...leaning(press, pose), ...frameLines(press, pose.frameTop)] }
}

/** Lever, link and bar as polygons. */
function leaning(press: LeverPress, { pin, upper, lower, hands, angle }: PressPose): readonly ViewExtra[] {
  const lever = press.parts.find(({ key }) => key === 'press-lever')
  const link = press.parts.find(({ key }) => key === 'press-link')
  const bar = press.rounds.find(({ key }) => key === 'hand-bar')
  const before = -(lever?.placements[0]?.origin.x ?? 0) - press.geometry.arm
  const lean = Math.atan2(upper.y - lower.y, upper.x - lower.x)
  const past = ((link?.length ?? 0) - press.geometry.link) / 2
  return [
    ...strip(pin, angle, [-before, (lever?.length ?? 0) - before], lever?.width ?? 0),
    ...strip(lower, lean, [-past, press.geometry.link + past], link?.width ?? 0),
    ...[pin, upper, lower].flatMap((at) => ring(at, BOLT_SHOWN)),
    ...ring(hands, (bar?.diameter ?? 0) / 2),
  ]
}

/** m; pin and bolts, large enough to be seen in a small picture */
const BOLT_SHOWN = 0.008
const CORNERS = 12

const strip = (
  from: Point,
  angle: number,
  [start, end]: readonly [number, number],
  width: number,
): readonly ViewExtra[] => {
  const at = (along: number, up: number): Point => ({
    x: from.x + along * Math.cos(angle) - up * Math.sin(angle),
    y: from.y + along * Math.sin(angle) + up * Math.cos(angle),
  })
  return closed([at(start, -width / 2), at(end, -width / 2), at(end, width / 2), at(start, width / 2)])
}

const ring = ({ x, y }: Point, radius: number): readonly ViewExtra[] =>
  closed(
    Array.from({ length: CORNERS }, (_, index) => {
      const angle = (2 * Math.PI * index) / CORNERS
      return { x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) }
    }),
  )

const closed = (corners: readonly Point[], kind: 'visible' | 'phantom' = 'visible'): readonly ViewExtra[] =>
  corners.map((a, index) => ({
    kind: 'line',
    class: kind,
    a,
    b: corners[(index + 1) % corners.length] ?? a,
  }))

const boxed = ({ x, y, width, height }: Rect): readonly Point[] => [
  { x, y },
  { x: x + width, y },
  { x: x + width, y: y + height },
  { x, y: y + height },
]

/** The grid cutter with its handles, base and block, as phantoms. */
const frameLines = ({ input: { frame } }: LeverPress, top: number): readonly ViewExtra[] => {
  const half = frame.endToEnd / 2 + frame.handle
  const high = frame.topAtEnd - frame.edgeAtEnd
  const soap = frame.endToEnd / 2 - frame.side
  const base = frame.base.length / 2
  const baseTop = frame.base.height
  return [
    ...closed(boxed({ x: -half, y: top - high, width: 2 * half, height: high }), 'phantom'),
    ...closed(boxed({ x: -base, y: 0, width: 2 * base, height: baseTop }), 'phantom'),
    ...closed(boxed({ x: -soap, y: baseTop, width: 2 * soap, height: frame.blockTop - baseTop }), 'phantom'),
  ]
}
