/**
 * What is not understood from the parts alone, enlarged: peg and pin in their rail, a wire in its groove under load, the
 * folded hinge, and how the wires are strung.
 */
import type { BarCutter, CutterWire } from '../../fixtures/bar-cutter/types.ts'
import { type Hole, isChannel, isHole } from '../../geometry/part.ts'
import { clippedCut, clippedSection, noteAt } from '../clipped-section.ts'
import type { LeaderPiece, LeaderRequest, LinearRequest } from '../dimension-types.ts'
import { projectScene } from '../projection.ts'
import { assemblyScene } from '../scene.ts'
import { cutFace } from '../section.ts'
import { turned } from '../turn-scene.ts'
import type { Point, Rect } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { ViewExtra } from '../view-marks.ts'
import type { BarCutterDrawingWords } from './bar-cutter-words.ts'
import { cutterRounds, cutterScene, hardwareKey, knuckle, loafRect, spanOf } from './cutter-scene.ts'

/** m; drawn around what an enlarged view is about */
const ROOM = 0.012
/** pieces of the curve of a loaded wire */
const PIECES = 24
const SLANTS = [
  ['cutter-platform', 'cutter-front-rail', 'cutter-back-rail'],
  ['cutter-fence', 'cutter-hinge-post', 'cutter-riser'],
]

const noter =
  (view: string, { notes }: BarCutterDrawingWords) =>
  (name: string, at: Point, ...more: readonly LeaderPiece[]): LeaderRequest =>
    noteAt(`detail.${view}.${name}`, at, notes[name] ?? '', ...more)

const upright = (name: string, side: 'left' | 'right', from: Point, to: Point): LinearRequest => ({
  kind: 'linear',
  name: `detail.${name}`,
  side,
  from,
  to,
  outside: 'before',
})

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
      extras: [thin({ x: -postY, y: wire.height }, { x: -frame.frontRail[0] + ROOM / 2, y: wire.height })],
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

const thin = (a: Point, b: Point): ViewExtra => ({ kind: 'line', class: 'dimension', a, b })

/**
 * Along a wire, the frame closed: straight at rest, its middle trailing upwards while it cuts, out of the loaf both times.
 *
 * Formula: the trailing wire is a parabola between its pins. Validity: any wire.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns the view with the depth of the wire and its lag
 * @source common practice
 */
export function wireAlong(cutter: BarCutter, words: BarCutterDrawingWords): ViewRequestOnPaper {
  const { frame, wire, platform, input, wires } = cutter
  const strung = wires[Math.floor((wires.length - 1) / 2)]
  const { lag } = input.wire
  const region: Rect = {
    x: -frame.frontRail[0] - 2 * ROOM,
    y: platform.top - input.panels.platform.thickness - ROOM / 2,
    width: frame.frontRail[0] - frame.backRail[1] + 4 * ROOM,
    height: input.panels.platform.thickness + 2.6 * ROOM,
  }
  const cut = clippedCut(
    cutterScene(cutter, (key) => cutter.parts.some((part) => part.key === key)),
    -(strung?.x ?? 0),
    region,
  )
  const pins = cutter.rounds.filter(({ of }) => of.startsWith('pin-') && strung?.held.includes(of))
  const { a, b } = spanOf(cutter)
  const bowed = Array.from({ length: PIECES + 1 }, (_, index): Point => {
    const share = index / PIECES
    return { x: a.x + (b.x - a.x) * share, y: wire.height + 4 * lag * share * (1 - share) }
  })
  const loaf = loafRect(cutter)
  const note = noter('along', words)
  const middle = bowed[PIECES / 2]!
  return clippedSection(cut, {
    name: 'along',
    title: words.titles.along ?? '',
    slants: SLANTS,
    lines: projectScene({ scene: turned(assemblyScene([], pins)), viewpoint: 'right', showHidden: [] }),
    extras: [
      thin(a, b),
      ...bowed.slice(1).map((to, index) => ({ ...thin(bowed[index]!, to), class: 'hidden' as const })),
      ...[loaf.x, loaf.x + loaf.width].map(
        (x): ViewExtra => ({
          kind: 'line',
          class: 'phantom',
          a: { x, y: loaf.y },
          b: { x, y: region.y + region.height },
        }),
      ),
      {
        kind: 'line',
        class: 'phantom',
        a: { x: loaf.x, y: loaf.y },
        b: { x: loaf.x + loaf.width, y: loaf.y },
      },
    ],
    dimensions: [
      upright('wire-depth', 'right', { x: b.x, y: wire.height }, { x: b.x, y: platform.top }),
      note('under-load', middle, { length: lag, name: 'detail.lag' }),
      note('at-rest', { x: a.x + (middle.x - a.x) * 0.3, y: wire.height }),
      note('loaf', { x: loaf.x + loaf.width * 0.7, y: region.y + region.height - ROOM / 2 }),
    ],
  })
}

/**
 * Across a groove, the frame closed: where the wire is at its ends and where its middle is under load.
 *
 * Formula: the platform as it is cut. Validity: a cutter with a groove.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns the view; nothing where there is no groove
 * @source common practice
 */
export function wireAcross(cutter: BarCutter, words: BarCutterDrawingWords): readonly ViewRequestOnPaper[] {
  const part = cutter.parts.find(({ key }) => key === 'cutter-platform')
  const groove = part?.features.filter(isChannel).find(({ kind }) => kind === 'groove')
  if (!part || !groove) return []
  const { wire, input } = cutter
  const { thickness } = part
  const middle = groove.at + groove.size / 2
  const cut = cutFace({
    part,
    along: 'length',
    at: part.width / 2,
    from: groove.at - ROOM / 2,
    to: groove.at + groove.size + ROOM / 2,
  })
  const bottom = thickness - groove.depth
  const radius = input.wire.diameter / 2
  const circle = (height: number, hidden: boolean) => ({ centre: { x: middle, y: height }, radius, hidden })
  const ends = thickness - wire.depth
  const note = noter('across', words)
  return [
    {
      name: 'across',
      title: `${words.titles.across ?? ''},`,
      lines: {
        visible: [],
        hidden: [],
        hexagons: [],
        centres: [],
        axes: [],
        outline: cut.region,
        circles: [circle(ends, false), circle(ends + input.wire.lag, true)],
      },
      cut,
      dimensions: [
        {
          kind: 'linear',
          name: 'detail.groove-width',
          side: 'above',
          from: { x: groove.at, y: thickness },
          to: { x: groove.at + groove.size, y: thickness },
        },
        upright('groove-depth', 'left', { x: groove.at, y: bottom }, { x: groove.at, y: thickness }),
        upright('below-groove', 'left', { x: groove.at, y: 0 }, { x: groove.at, y: bottom }),
        note('ends', { x: middle + radius, y: ends }, { length: wire.depth, name: 'detail.ends-below' }),
        note(
          'middle',
          { x: middle + radius, y: ends + input.wire.lag },
          {
            length: wire.depth - input.wire.lag,
            name: 'detail.middle-below',
          },
        ),
      ],
    },
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
  const { frame, hinge, wire, input, platform } = cutter
  const right = hinge.edge + ROOM / 2
  const region: Rect = {
    x: -platform.y[0] - ROOM,
    y: hinge.axis - 2 * ROOM,
    width: platform.y[0] + ROOM + right,
    height: 3 * ROOM + input.panels.frame.thickness,
  }
  const pin = cutterRounds(cutter).find(({ key, centre }) => key === 'wire-pin' && centre[1] < platform.y[0])
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
      scene: turned(assemblyScene([], [knuckle(cutter), ...(pin ? [pin] : [])])),
      viewpoint: 'right',
      showHidden: [],
    }),
    extras: [
      thin({ x: -platform.y[0] - ROOM, y: wire.height }, { x: -frame.backPins, y: wire.height }),
      {
        kind: 'line',
        class: 'centre',
        a: { x: -platform.y[0], y: hinge.axis },
        b: { x: right, y: hinge.axis },
      },
    ],
    dimensions: [
      upright(
        'axis-above-wire',
        'left',
        { x: -platform.y[0], y: wire.height },
        { x: -platform.y[0], y: hinge.axis },
      ),
      note('axis', { x: 0, y: hinge.axis }),
      note('leaf-rail', { x: -leafY, y: plates[1]?.max.z ?? hinge.axis }),
      note('leaf-post', { x: -leafY, y: plates[0]?.min.z ?? hinge.axis }),
      note('wire', { x: -frame.backPins - ROOM / 2, y: wire.height }),
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
      ...(single === undefined ? [] : [note('single', at(wires[single], frame.backPins))]),
    ],
  }
}
