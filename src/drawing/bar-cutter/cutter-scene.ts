/**
 * The bar cutter as the person who uses it sees it: handles in front, end stop at the right, hinge at the back.
 *
 * In a view from the right, x runs from the handles to the hinge: it is minus the distance from the axis.
 */
import type { BarCutter, CutterWire, Plate } from '../../fixtures/bar-cutter/types.ts'
import type { Part, Round } from '../../geometry/part.ts'
import { assemblyScene, type Scene } from '../scene.ts'
import { turned } from '../turn-scene.ts'
import type { Point, Rect } from '../types.ts'
import type { ViewExtra } from '../view-marks.ts'

/** What is bought, by the name that the parts list has for all of its pieces. */
export const HARDWARE = ['continuous-hinge', 'tuning-peg', 'wire-pin', 'wire-anchor', 'music-wire'] as const
export type Hardware = (typeof HARDWARE)[number]

/**
 * Pieces of one bought thing share a name: post, housing and button are a peg.
 *
 * @param key of a round, or of an item to buy
 * @returns the name that drawings and lists use
 */
export const hardwareKey = (key: string): string => {
  if (key === 'peg' || key.startsWith('peg-')) return 'tuning-peg'
  if (key.startsWith('anchor-')) return 'wire-anchor'
  if (key === 'stainless-wire') return 'music-wire'
  return key.startsWith('hinge-') ? 'continuous-hinge' : key
}

/** A plate as a part that lies where it is: drawings know no plates. */
export const plateAsPart = ({ box: { min, max } }: Plate): Part => ({
  key: 'continuous-hinge',
  count: 1,
  length: max.x - min.x,
  width: max.y - min.y,
  thickness: max.z - min.z,
  material: '',
  density: 0,
  grain: 'length',
  features: [],
  placements: [{ origin: min, u: '+x', v: '+y', w: '+z' }],
  handed: false,
})

/** The knuckle turns between its two leaves, along the whole hinge. */
export const knuckle = ({ hinge, frame, input }: BarCutter): Round => ({
  key: 'continuous-hinge',
  shape: 'circle',
  axis: 'x',
  centre: [0, hinge.axis],
  diameter: input.hinge.knuckle,
  from: frame.x[0],
  to: frame.x[1],
})

export const cutterRounds = ({ rounds }: BarCutter): readonly Round[] =>
  rounds.map((round) => ({ ...round, key: hardwareKey(round.key) }))

/**
 * Everything of the closed cutter but its wires.
 *
 * @param cutter as designed [m]
 * @param shown  which parts, by key; all when it is left out
 * @returns the scene, turned so that handles are in front [m]
 */
export const cutterScene = (cutter: BarCutter, shown: (key: string) => boolean = () => true): Scene =>
  turned(
    assemblyScene(
      [
        ...cutter.parts.filter(({ key }) => shown(key)),
        ...(shown('continuous-hinge')
          ? [...cutter.plates.fixed, ...cutter.plates.swinging].map(plateAsPart)
          : []),
      ],
      [
        ...cutterRounds(cutter).filter(({ key }) => shown(key)),
        ...(shown('continuous-hinge') ? [knuckle(cutter)] : []),
      ],
    ),
  )

/** The loaf on its platform, seen from the right [m]. */
export const loafRect = ({ loaf, platform }: BarCutter): Rect => ({
  x: -loaf.to,
  y: platform.top,
  width: loaf.width,
  height: loaf.height,
})

export const rectLines = (kind: 'phantom' | 'visible', { x, y, width, height }: Rect): readonly ViewExtra[] =>
  closedLines(kind, [
    { x, y },
    { x: x + width, y },
    { x: x + width, y: y + height },
    { x, y: y + height },
  ])

export const closedLines = (
  kind: 'phantom' | 'visible' | 'dimension',
  points: readonly Point[],
): readonly ViewExtra[] =>
  points.map((a, index) => ({ kind: 'line', class: kind, a, b: points[(index + 1) % points.length]! }))

/** A wire between its two pins, seen from the right: the thin line that it is [m]. */
export const spanOf = ({ frame, wire }: BarCutter): { readonly a: Point; readonly b: Point } => ({
  a: { x: -frame.frontPins, y: wire.height },
  b: { x: -frame.backPins, y: wire.height },
})

/** Of all wires the one nearest to the middle: a section along it shows a slot, a groove and a peg. */
export const middleWire = ({ wires }: BarCutter): CutterWire | undefined =>
  wires[Math.floor((wires.length - 1) / 2)]
