/**
 * A wire in its groove, enlarged: along it and across it, the frame closed, at rest and under load.
 */
import type { BarCutter } from '../../fixtures/bar-cutter/types.ts'
import { isChannel } from '../../geometry/part.ts'
import { clippedCut, clippedSection } from '../clipped-section.ts'
import { projectScene } from '../projection.ts'
import { assemblyScene } from '../scene.ts'
import { cutFace } from '../section.ts'
import { turned } from '../turn-scene.ts'
import type { Point, Rect } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { BarCutterDrawingWords } from './bar-cutter-words.ts'
import { cutterScene, loafRect, middleWire, spanOf } from './cutter-scene.ts'
import { edge, noter, phantom, ROOM, SLANTS, thin, upright } from './detail-marks.ts'

/** m; of a bar, above the platform */
const BAR = 0.003
/** pieces of the curve of a loaded wire */
const PIECES = 24

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
  const { frame, wire, platform, input, fence } = cutter
  const strung = middleWire(cutter)
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
  const top = region.y + region.height
  const middle = bowed[PIECES / 2]!
  return clippedSection(cut, {
    name: 'along',
    title: words.titles.along ?? '',
    slants: SLANTS,
    lines: projectScene({ scene: turned(assemblyScene([], pins)), viewpoint: 'right', showHidden: [] }),
    extras: [
      thin(a, b),
      ...bowed.slice(1).map((to, index) => ({ ...thin(bowed[index]!, to), class: 'hidden' as const })),
      phantom({ x: loaf.x + loaf.width, y: loaf.y }, { x: loaf.x + loaf.width, y: top }),
      // behind the plane: the walls of groove and slot
      edge({ x: -fence.y[1], y: loaf.y - platform.grooveDepth }, { x: -fence.y[1], y: top }),
      edge({ x: loaf.x, y: loaf.y - platform.grooveDepth }, { x: loaf.x, y: top }),
      edge({ x: loaf.x, y: loaf.y }, { x: -platform.y[0], y: loaf.y }),
    ],
    dimensions: [
      upright('wire-depth', 'right', { x: b.x, y: wire.height }, { x: b.x, y: platform.top }),
      note('under-load', middle, { length: lag, name: 'detail.lag' }),
      note('at-rest', { x: a.x + (middle.x - a.x) * 0.3, y: wire.height }),
      note('loaf', { x: loaf.x + loaf.width * 0.7, y: top - ROOM / 2 }),
      note('slot', { x: -(fence.y[0] + fence.y[1]) / 2, y: loaf.y + ROOM }),
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
  const circle = (height: number) => ({ centre: { x: middle, y: height }, radius, hidden: false })
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
        circles: [circle(ends), circle(ends + input.wire.lag)],
      },
      cut,
      // the two bars, parted by the width of the wire
      extras: [
        [cut.region.x, middle - radius],
        [middle + radius, cut.region.x + cut.region.width],
      ].flatMap(([from, to]) => [
        phantom({ x: from!, y: thickness }, { x: to!, y: thickness }),
        ...[from!, to!]
          .filter((x) => Math.abs(x - middle) < 2 * radius)
          .map((x) => phantom({ x, y: thickness }, { x, y: thickness + BAR })),
      ]),
      dimensions: [
        {
          kind: 'linear',
          name: 'detail.groove-width',
          side: 'below',
          from: { x: groove.at, y: bottom },
          to: { x: groove.at + groove.size, y: bottom },
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
