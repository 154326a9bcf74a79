/**
 * The frame enlarged: a peg and its pin in their rail, the folded hinge, and how the wires are strung.
 */
import type { BarCutter, CutterWire } from '../../fixtures/bar-cutter/types.ts'
import { type Hole, isHole } from '../../geometry/part.ts'
import { clippedCut, clippedSection } from '../clipped-section.ts'
import { projectScene } from '../projection.ts'
import { assemblyScene } from '../scene.ts'
import { turned } from '../turn-scene.ts'
import type { Point, Rect } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { BarCutterDrawingWords } from './bar-cutter-words.ts'
import { closedLines, cutterScene, hardwareKey, knuckle } from './cutter-scene.ts'
import { noter, ROOM, SLANTS, thin, upright } from './detail-marks.ts'

/** m; of rail and post in front of the hinge */
const HINGE_ROOM = 0.028

/**
 * A peg in the front rail, cut through the middle of its post, with the pin that its wire leaves.
 *
 * Formula: hardware whole, wood cut. Validity: a cutter with a peg.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns the view; nothing where no wire has a peg
 * @source common practice
 */
export function pegDetail(cutter: BarCutter, words: BarCutterDrawingWords): readonly ViewRequestOnPaper[] {
  const { frame, input, wire } = cutter
  const own = cutter.wires.filter(({ front }) => front === 'peg')
  const strung = own[Math.floor(own.length / 2)]
  if (!strung) return []
  const rounds = cutter.rounds.filter(({ of, centre, axis }) => {
    const y = axis === 'z' ? centre[1] : frame.posts
    return strung.held.includes(of) && y > frame.frontRail[0]
  })
  const post = rounds.find(({ key }) => key === 'peg-post')
  const pin = rounds.find(({ key }) => hardwareKey(key) === 'wire-pin')
  if (!post || !pin) return []
  const [postX, postY] = post.centre
  const rail = cutter.parts.find(({ key }) => key === 'cutter-front-rail')!
  const hole = rail.features.filter(isHole).find(({ u }) => Math.abs(u + frame.x[0] - postX) < 1e-6)
  const end = Math.max(...rounds.map(({ axis, to }) => (axis === 'y' ? to : 0)), frame.frontRail[1])
  const region: Rect = {
    x: -end - ROOM / 2,
    y: frame.bottom - ROOM,
    width: end - frame.frontRail[0] + ROOM,
    height: 3.4 * ROOM + input.panels.frame.thickness,
  }
  const cut = clippedCut(
    cutterScene(cutter, (key) => key === 'cutter-front-rail'),
    -postX,
    region,
    hole ? boresOf(hole, postY, frame.bottom, input.panels.frame.thickness) : [],
  )
  const note = noter('peg', words)
  const top = frame.bottom + input.panels.frame.thickness
  // What its bushing and washer have room for: no wider than the recess, and above the wire.
  const [wide, low, seat] = [
    input.peg.recess / 2,
    wire.height + input.wire.diameter,
    frame.bottom + cutter.winding.sunk,
  ]
  const bushing = [
    { x: -postY - wide, y: seat },
    { x: -postY - wide, y: low },
    { x: -postY + wide, y: low },
    { x: -postY + wide, y: seat },
  ] as const
  return [
    clippedSection(cut, {
      name: 'peg',
      title: words.titles.peg ?? '',
      slants: SLANTS,
      lines: projectScene({
        scene: turned(assemblyScene([], rounds)),
        viewpoint: 'right',
        showHidden: [],
      }),
      extras: [
        thin({ x: -postY, y: wire.height }, { x: -frame.frontRail[0] + ROOM / 2, y: wire.height }),
        ...closedLines('phantom', bushing),
      ],
      dimensions: [
        upright(
          'wire-drop',
          'right',
          { x: -frame.frontRail[0], y: wire.height },
          { x: -frame.frontRail[0], y: frame.bottom },
        ),
        note('post', { x: -postY, y: post.from }),
        note('gear', { x: -postY, y: top + ROOM * 0.8 }),
        note('button', { x: -end + ROOM / 2, y: top + ROOM }),
        note('pin', { x: -pin.centre[1], y: pin.from }),
        note('bushing', bushing[1]),
        note('wire', { x: -frame.frontRail[0] + ROOM / 4, y: wire.height }),
      ],
    }),
  ]
}

/** The bore and the recess of a hole that the plane goes through. */
const boresOf = (
  { diameter, counterbore }: Hole,
  y: number,
  low: number,
  thickness: number,
): readonly { readonly key: string; readonly rect: Rect }[] => {
  const rect = (wide: number, from: number, to: number) => ({
    key: 'cutter-front-rail',
    rect: { x: -y - wide / 2, y: low + from, width: wide, height: to - from },
  })
  return [
    rect(diameter, 0, thickness),
    ...(counterbore
      ? [
          counterbore.face === 'lower'
            ? rect(counterbore.diameter, 0, counterbore.depth)
            : rect(counterbore.diameter, thickness - counterbore.depth, thickness),
        ]
      : []),
  ]
}

/**
 * The hinge, folded, with the back end of a wire: why the axis is where it is.
 *
 * Formula: leaves and wood cut between two wires. Validity: any bar cutter.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns the view with the heights that set the axis
 * @source common practice
 */
export function hingeDetail(cutter: BarCutter, words: BarCutterDrawingWords): ViewRequestOnPaper {
  const { frame, hinge, wire, input } = cutter
  const right = hinge.edge + ROOM / 2
  const region: Rect = {
    x: -HINGE_ROOM,
    y: hinge.axis - 1.5 * ROOM,
    width: HINGE_ROOM + right,
    height: 2.2 * ROOM + input.panels.frame.thickness,
  }
  const cut = clippedCut(
    cutterScene(cutter, (key) => key !== 'wire-pin' && key !== 'tuning-peg'),
    -frame.x[0] - (input.frame.armWidth + (frame.x[1] - frame.x[0]) / 2),
    region,
  )
  const note = noter('hinge', words)
  const plates = [...cutter.plates.fixed, ...cutter.plates.swinging].map(({ box }) => box)
  const leafY = plates[0] ? (plates[0].min.y + plates[0].max.y) / 2 : 0
  return clippedSection(cut, {
    name: 'hinge',
    title: words.titles.hinge ?? '',
    slants: SLANTS,
    lines: projectScene({
      scene: turned(assemblyScene([], [knuckle(cutter)])),
      viewpoint: 'right',
      showHidden: [],
    }),
    extras: [
      thin({ x: region.x, y: wire.height }, { x: right, y: wire.height }),
      {
        kind: 'line',
        class: 'centre',
        a: { x: region.x, y: hinge.axis },
        b: { x: right, y: hinge.axis },
      },
    ],
    dimensions: [
      upright('axis-above-wire', 'left', { x: region.x, y: wire.height }, { x: region.x, y: hinge.axis }),
      upright('rail-above-wire', 'right', { x: right, y: wire.height }, { x: right, y: frame.bottom }),
      note('axis', { x: 0, y: hinge.axis }),
      note('leaf-rail', { x: -leafY, y: plates[1]?.max.z ?? hinge.axis }),
      note('leaf-post', { x: -leafY, y: plates[0]?.min.z ?? hinge.axis }),
      note('wire-level', { x: region.x + ROOM / 3, y: wire.height }),
    ],
  })
}

/**
 * The frame from below: which wire goes round which pins.
 *
 * Formula: paths of the wires as they are strung. Validity: any bar cutter.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns the view
 * @source common practice
 */
export function stringingPlan(cutter: BarCutter, words: BarCutterDrawingWords): ViewRequestOnPaper {
  const { swinging, wires, strings, frame } = cutter
  const bought = ['tuning-peg', 'wire-pin', 'wire-anchor']
  const scene = cutterScene(cutter, (key) => swinging.includes(key) || bought.includes(key))
  const note = noter('strings', words)
  const at = (wire: CutterWire | undefined, y: number): Point => ({ x: -(wire?.x ?? 0), y })
  const kind = (which: 'pair' | 'single') => strings.find((string) => string.kind === which)?.wires[0]
  const [pair, single] = [kind('pair'), kind('single')]
  const turn =
    pair === undefined ? [] : [note('pair', { ...at(wires[pair], frame.backPins), y: frame.backPins })]
  return {
    name: 'strings',
    title: words.titles.strings ?? '',
    lines: projectScene({ scene, viewpoint: 'bottom', showHidden: [] }),
    // seen from below: to the right as in the other views, upwards away from the hinge
    extras: wires.flatMap(({ path }) =>
      path.slice(1).map((to, index) => {
        const [x, y] = path[index]!
        return thin({ x: -x, y }, { x: -to[0], y: to[1] })
      }),
    ),
    dimensions: [
      ...turn,
      note('stop-end', { x: -frame.x[0], y: (frame.backRail[1] + frame.frontRail[0]) / 2 }),
      ...(single === undefined ? [] : [note('single', at(wires[single], frame.backPins))]),
    ],
  }
}
