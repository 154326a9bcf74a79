/**
 * Views and sizes of the bar cutter put together: from the front and from above, and cut along a wire with its swing.
 */
import type { BarCutter } from '../../fixtures/bar-cutter/types.ts'
import { noteAt } from '../clipped-section.ts'
import type { LinearRequest, Side } from '../dimension-types.ts'
import { projectScene } from '../projection.ts'
import type { SheetRequest } from '../sheet.ts'
import type { Rect } from '../types.ts'
import type { ViewExtra } from '../view-marks.ts'
import type { BarCutterDrawingWords } from './bar-cutter-words.ts'
import { cutterScene, loafRect, middleWire, rectLines, spanOf } from './cutter-scene.ts'
import { alongWire, boxesOf, frameLines } from './side-lines.ts'

/**
 * The cutter from above, and from the front, the frame closed.
 *
 * Formula: anchors are corners of the cutter in its own frame, turned so that the handles are in front. Validity: any bar
 * cutter.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns two drawings, each a view with its dimensions
 * @source common practice
 */
export function cutterAssembly(
  cutter: BarCutter,
  words: BarCutterDrawingWords,
): Readonly<Record<'assembly' | 'front', Pick<SheetRequest, 'front' | 'top' | 'details'>>> {
  const { frame, platform, backStop, fence, base, wires, input } = cutter
  const scene = cutterScene(cutter)
  const [left, right] = [-frame.x[1], -frame.x[0]]
  const fenceTop = platform.top + fence.height
  const front = -frame.end
  const plane = middleWire(cutter)?.x ?? 0
  return {
    assembly: {
      top: {
        name: 'top',
        title: words.topView,
        lines: projectScene({ scene, viewpoint: 'top', showHidden: [] }),
        extras: [
          { kind: 'plane', x: -plane, letter: 'A' },
          ...wires.map(
            ({ x }): ViewExtra => ({
              kind: 'line',
              class: 'dimension',
              a: { x: -x, y: -frame.frontRail[0] },
              b: { x: -x, y: -frame.backRail[1] },
            }),
          ),
          ...loafFromAbove(cutter),
        ],
        dimensions: [
          linear('frame-width', 'above', [left, front], [right, front]),
          ...firstAndLast(wires).map(({ name, from, to }) =>
            linear(name, 'below', [-to, -frame.end], [-from, -frame.end]),
          ),
          noteAt(
            'assembly.end-stop',
            { x: input.panels.upright.thickness / 2, y: -(platform.y[0] + platform.y[1]) / 2 },
            words.notes['end-stop'] ?? '',
          ),
          linear('handle', 'left', [left, front], [left, -frame.frontRail[1]]),
          linear('base-depth', 'left', [left, -base.y[1]], [left, -base.y[0]]),
          linear('rail-to-rail', 'right', [right, -frame.frontRail[0]], [right, -frame.backRail[1]]),
          linear('pin-to-pin', 'right', [right, -frame.frontPins], [right, -frame.backPins]),
        ],
      },
      details: [],
    },
    front: {
      front: {
        name: 'front',
        title: words.titles.front ?? '',
        lines: projectScene({ scene, viewpoint: 'front', showHidden: [] }),
        dimensions: [
          linear('platform-height', 'right', [-platform.x[0], 0], [-platform.x[0], platform.top]),
          linear('fence-top', 'right', [-platform.x[0], 0], [-platform.x[0], fenceTop]),
          linear('back-stop-top', 'left', [left, 0], [left, backStop.top]),
        ],
      },
      details: [],
    },
  }
}

/** From the face of the end stop to the first wire, and from there to the last; the record of inspection has them all. */
const firstAndLast = (wires: BarCutter['wires']) => {
  const [first] = wires
  const last = wires[wires.length - 1]
  return [
    ...(first ? [{ name: 'first-wire', from: 0, to: first.x }] : []),
    ...(first && last && last !== first ? [{ name: 'first-to-last', from: first.x, to: last.x }] : []),
  ]
}

const loafFromAbove = ({ loaf }: BarCutter): readonly ViewExtra[] =>
  rectLines('phantom', { x: -loaf.length, y: -loaf.to, width: loaf.length, height: loaf.width })

/**
 * The cutter cut along a wire, closed, with the open frame and the loaf in phantom lines.
 *
 * Formula: the open frame is the closed one turned about the axis of the hinge. Validity: any bar cutter.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns the view with dimensions
 * @source common practice
 */
export function cutterSection(
  cutter: BarCutter,
  words: BarCutterDrawingWords,
): Pick<SheetRequest, 'front' | 'details'> {
  const { frame, swing, hinge, backStop, base, platform } = cutter
  const { lines, hatched } = alongWire(cutter, () => true)
  const open = frameLines(cutter, swing.angle, 'phantom')
  const outline: Rect = {
    ...lines.outline,
    y: 0,
    height: Math.max(swing.heightOpen, lines.outline.height),
  }
  const button = Math.max(frame.end, ...cutter.rounds.map(({ axis, to }) => (axis === 'y' ? to : 0)))
  const rest = boxesOf(cutter, 'cutter-rest')[0]
  return {
    front: {
      name: 'section',
      title: `${words.section} A–A${words.notes.leaning ?? ''}`,
      lines: { ...lines, outline },
      hatched,
      extras: [
        ...open,
        ...rectLines('phantom', loafRect(cutter)),
        { kind: 'line', class: 'dimension', ...spanOf(cutter) },
      ],
      dimensions: [
        linear('knuckles', 'left', [-button, 0], [-button, frame.bottom], 'section'),
        ...(rest
          ? [linear('rest-height', 'left', [-rest.max.y, rest.min.z], [-rest.max.y, rest.max.z], 'section')]
          : []),
        linear('axis-height', 'right', [0, 0], [0, hinge.axis], 'section'),
        linear('stop-height', 'right', [-backStop.face, 0], [-backStop.face, backStop.top], 'section'),
        linear('open-height', 'right', [-swing.behind, 0], [-swing.behind, swing.heightOpen], 'section'),
        linear('over-edge', 'below', [-frame.end, 0], [-base.y[1], 0], 'section'),
        linear('fence-to-axis', 'below', [-platform.y[1], 0], [0, 0], 'section'),
        linear('open-behind', 'below', [0, 0], [-swing.behind, 0], 'section'),
      ],
    },
    details: [],
  }
}

const linear = (
  name: string,
  side: Side,
  [ax, ay]: readonly [number, number],
  [bx, by]: readonly [number, number],
  group = 'assembly',
): LinearRequest => ({
  kind: 'linear',
  name: `${group}.${name}`,
  side,
  from: { x: ax, y: ay },
  to: { x: bx, y: by },
})
