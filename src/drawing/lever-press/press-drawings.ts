/** The drawings of a lever press: put together over its cutter, drawn apart, part by part; and pictures of its use. */
import type { LeverPress } from '../../fixtures/lever-press/types.ts'
import type { LinearRequest, Side } from '../dimension-types.ts'
import type { FixtureDrawingOptions, FixtureWords } from '../part-words.ts'
import { projectScene } from '../projection.ts'
import { type RowOfViews, rowOfViews } from '../row-of-views.ts'
import { assemblyScene } from '../scene.ts'
import type { SheetViews } from '../sheet.ts'
import type { Move, Moves } from '../small/small-apart.ts'
import { smallFixtureDrawings } from '../small/small-fixture.ts'
import type { Drawing, LengthFormatter, Point } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { ViewExtra } from '../view-marks.ts'
import { type PressMoment, pressFront, pressPose } from './press-moment.ts'

/** Every word on the drawings of a press. */
export interface PressWords extends FixtureWords {
  /** titles and notes of the pictures of its use */
  readonly use: Readonly<Record<string, string>>
}

export const PRESS_NUMBERED = ['press-pin', 'press-bolt', 'hand-bar'] as const

/**
 * Draws it.
 *
 * Formula: as small fixtures are. Validity: as designed.
 * @param press   as designed [m]
 * @param options box [mm], length formatter, projection and words
 * @returns drawings: `press.assembly`, `exploded`, `part.PART` …
 * @source common practice
 */
export const pressDrawings = (
  press: LeverPress,
  options: FixtureDrawingOptions<PressWords>,
): readonly Drawing[] =>
  smallFixtureDrawings(
    {
      key: 'press',
      parts: press.parts,
      rounds: press.rounds,
      assembly: assembly(press, options.words),
      enlarged: {},
      moves: movesOf(press),
      numbered: PRESS_NUMBERED,
    },
    options,
  )

type Place = readonly [number, number]

const linear = (name: string, side: Side, [x, y]: Place, [toX, toY]: Place): LinearRequest => ({
  kind: 'linear',
  name: `press.${name}`,
  side,
  from: { x, y },
  to: { x: toX, y: toY },
})

function assembly(press: LeverPress, words: PressWords): SheetViews {
  const { geometry, input } = press
  const last = { hole: geometry.steps.length - 1, swing: 0 } as const
  const { lines, extras } = pressFront(press, last)
  const scene = assemblyScene(press.parts, press.rounds)
  const pose = pressPose(press, last)
  const { outline } = lines
  const [left, right] = [outline.x, Math.max(outline.x + outline.width, pose.hands.x)]
  const low = outline.y
  const high = outline.y + outline.height
  const top = projectScene({ scene, viewpoint: 'top', showHidden: [] })
  const side = projectScene({ scene, viewpoint: 'right', showHidden: [] })
  const feet = -press.standHeight
  return {
    front: {
      name: 'front',
      title: words.frontView,
      lines: { ...lines, outline: { ...outline, width: right - left } },
      extras,
      dimensions: [
        linear('arm', 'above', [pose.pin.x, high], [0, high]),
        linear('lever', 'above', [pose.pin.x, high], [pose.hands.x, high]),
        linear('stand', 'left', [left, feet], [left, 0]),
        linear('posts', 'left', [left, feet], [left, high]),
        linear('spine', 'below', [left, low], [outline.x + outline.width, low]),
      ],
    },
    top: {
      name: 'top',
      title: words.topView,
      lines: top,
      dimensions: [
        linear(
          'width',
          'left',
          [top.outline.x, top.outline.y],
          [top.outline.x, top.outline.y + top.outline.height],
        ),
      ],
    },
    side: {
      name: 'side',
      title: words.sideView,
      lines: side,
      dimensions: [
        linear(
          'bridge',
          'above',
          [-input.frame.width / 2, side.outline.y + side.outline.height],
          [input.frame.width / 2, side.outline.y + side.outline.height],
        ),
      ],
    },
    details: [],
  }
}

/** Lever and bridge up off the stand, posts and packers aside, feet down. */
const movesOf = ({ geometry, input }: LeverPress): Moves => {
  const { arm, link } = geometry
  const wide = input.frame.width
  const up = link * 1.6
  return (key, side): Move => {
    const atPosts = side.x < 0
    switch (key) {
      case 'press-lever':
        return { apart: { z: up } }
      case 'hand-bar':
        return { carried: { z: up }, apart: { y: -wide } }
      case 'press-pin':
        return { carried: { z: up }, apart: { y: -wide * 1.1 } }
      case 'press-link':
        return { carried: { z: up * 0.5 }, apart: { y: side.y * wide * 0.45 } }
      case 'press-bolt':
        return atPosts
          ? { apart: { y: -wide * 1.2 } }
          : { carried: { z: up * 0.5 }, apart: { y: -wide * 1.05 } }
      case 'press-bridge-end':
        return { apart: { x: side.x * arm * 0.5 } }
      case 'press-post':
        return { apart: { y: side.y * wide * 0.75 } }
      case 'press-packer':
        return { apart: { y: side.y * wide * 0.35 } }
      case 'press-foot':
        return { apart: { z: -0.16 } }
      case 'press-board':
        return { apart: { z: 0.07 } }
      case 'press-cleat':
        return { carried: { z: 0.07 }, apart: { z: 0.06 } }
      default:
        return {}
    }
  }
}

/**
 * Three moments side by side: the first press begins, it ends, the last one ends.
 *
 * Formula: see the pose. Validity: a frame that stays level.
 * @param press as designed [m]
 * @param words titles and notes
 * @param options width of the row [mm], and how lengths are written
 * @returns an svg, and the sizes that it shows
 * @source common practice
 */
export function pressUse(
  press: LeverPress,
  words: PressWords,
  { width, format }: { readonly width: number; readonly format: LengthFormatter },
): RowOfViews {
  const last = press.geometry.steps.length - 1
  const moments: readonly (PressMoment & { readonly name: string })[] = [
    { name: 'start', hole: 0, swing: 1 },
    { name: 'step', hole: 0, swing: -1 },
    { name: 'end', hole: last, swing: -1 },
  ]
  return rowOfViews(
    moments.map((moment) => momentView(press, words, moment)),
    { name: 'press-use', label: words.labels['press-use'] ?? '', width, height: 110, format },
  )
}

function momentView(
  press: LeverPress,
  words: PressWords,
  { name, ...moment }: PressMoment & { readonly name: string },
): ViewRequestOnPaper {
  const { geometry, standHeight } = press
  const { lines, extras } = pressFront(press, moment)
  const pose = pressPose(press, moment)
  const floor = -geometry.standTop
  const { outline } = lines
  const left = outline.x
  const right = pose.hands.x + 0.06
  const top = Math.max(outline.y + outline.height, pressPose(press, { hole: 0, swing: 1 }).hands.y + 0.03)
  const line = (a: Point, b: Point): ViewExtra => ({ kind: 'line', class: 'visible', a, b })
  const note = (key: string, at: Point) =>
    ({
      kind: 'leader',
      name: `press-use.${name}.${key}`,
      at,
      text: [{ words: words.use[key] ?? '' }],
    }) as const
  return {
    name,
    title: words.use[name] ?? '',
    lines: { ...lines, outline: { x: left, y: floor, width: right - left, height: top - floor } },
    extras: [
      ...extras,
      line({ x: left, y: floor }, { x: right, y: floor }),
      // what raises the stand to its height
      ...(geometry.standTop > standHeight + 0.005
        ? [left + 0.12, outline.x + outline.width - 0.09].flatMap((x): readonly ViewExtra[] => [
            { kind: 'line', class: 'phantom', a: { x, y: floor }, b: { x, y: -standHeight } },
            {
              kind: 'line',
              class: 'phantom',
              a: { x: x + 0.09, y: floor },
              b: { x: x + 0.09, y: -standHeight },
            },
          ])
        : []),
    ],
    dimensions: [
      {
        kind: 'linear',
        name: `press-use.${name}.hands`,
        side: 'right',
        from: { x: right, y: floor },
        to: { x: pose.hands.x, y: pose.hands.y },
      },
      ...(name === 'start' ? [note('pin', pose.pin)] : []),
      ...(name === 'end' ? [note('pin', pose.pin)] : []),
    ],
  }
}
