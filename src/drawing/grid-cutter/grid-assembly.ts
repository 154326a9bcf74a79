/**
 * The grid cutter put together, as it stands at the end of its stroke, with the base in thin lines.
 */
import type { GridCutter } from '../../fixtures/grid-cutter/types.ts'
import { cutSceneAt } from '../cut-scene.ts'
import type { LinearRequest, Side } from '../dimension-types.ts'
import { projectScene } from '../projection.ts'
import type { SheetRequest } from '../sheet.ts'
import type { Projection } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { ViewExtra } from '../view-marks.ts'
import { gridScene } from './grid-scene.ts'
import type { GridDrawingWords } from './grid-words.ts'

/**
 * The assembly sheet: front and top view. Its section is as wide again, and stands on a drawing of its own.
 *
 * Formula: anchors are corners of the frame in its own place. Validity: any cutter.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @param projection of the drawing
 * @returns views with dimensions
 * @source common practice
 */
export function gridAssembly(
  cutter: GridCutter,
  words: GridDrawingWords,
  projection: Projection,
): Pick<SheetRequest, 'front' | 'top' | 'details'> {
  return {
    front: frontView(cutter, words),
    top: topView(cutter, words, projection),
    details: [],
  }
}

/**
 * The frame in section between two wires, over the base.
 *
 * Formula: anchors are corners of the frame in its own place. Validity: any cutter.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns the view with dimensions
 * @source common practice
 */
export const gridSection = (
  cutter: GridCutter,
  words: GridDrawingWords,
): Pick<SheetRequest, 'front' | 'details'> => ({ front: sectionView(cutter, words), details: [] })

type Place = readonly [number, number]

const linear = (name: string, side: Side, [x, y]: Place, [toX, toY]: Place): LinearRequest => ({
  kind: 'linear',
  name: `assembly.${name}`,
  side,
  from: { x, y },
  to: { x: toX, y: toY },
})

/** Where no wire and no rail of the base is met: half way between the two middle wires. */
function planeBetween({ wires, inside }: GridCutter): number {
  const places = wires.filter(({ runs }) => runs === 'width').map(({ at }) => at)
  const middle = Math.floor(places.length / 2)
  return ((places[middle - 1] ?? -inside.length / 2) + (places[middle] ?? inside.length / 2)) / 2
}

function frontView(cutter: GridCutter, words: GridDrawingWords): ViewRequestOnPaper {
  const { inside, outside, edgeAtEnd, input } = cutter
  const scene = gridScene(cutter, {})
  const left = -outside.length / 2
  const inner = inside.length / 2
  return {
    name: 'front',
    title: words.frontView,
    lines: projectScene({ scene, viewpoint: 'front', showHidden: [] }),
    extras: [{ kind: 'plane', x: planeBetween(cutter), letter: 'A' }],
    dimensions: [
      linear('handle', 'below', [left, edgeAtEnd], [-inner - input.panels.end.thickness, edgeAtEnd]),
      linear('height', 'left', [left, edgeAtEnd], [left, edgeAtEnd + outside.height]),
      linear('edge', 'left', [left, 0], [left, edgeAtEnd]),
    ],
  }
}

function topView(cutter: GridCutter, words: GridDrawingWords, projection: Projection): ViewRequestOnPaper {
  const { inside, outside, wires } = cutter
  const [x, y] = [outside.length / 2, outside.width / 2]
  const inner = { x: inside.length / 2, y: inside.width / 2 }
  // Beside the top view there is room on the side where the section stands beside the front view.
  const side = projection === 'third-angle' ? 'right' : 'left'
  const to = side === 'right' ? 1 : -1
  return {
    name: 'top',
    title: words.topView,
    lines: projectScene({ scene: gridScene(cutter, {}), viewpoint: 'top', showHidden: [] }),
    extras: wires.map(
      ({ runs, at, half }): ViewExtra => ({
        kind: 'line',
        class: 'dimension',
        a: runs === 'width' ? { x: at, y: -half } : { x: -half, y: at },
        b: runs === 'width' ? { x: at, y: half } : { x: half, y: at },
      }),
    ),
    dimensions: [
      linear('inside-length', 'above', [-inner.x, y], [inner.x, y]),
      linear('outside-length', 'above', [-x, y], [x, y]),
      linear('inside-width', side, [to * x, -inner.y], [to * x, inner.y]),
      linear('outside-width', side, [to * x, -y], [to * x, y]),
    ],
  }
}

function sectionView(cutter: GridCutter, words: GridDrawingWords): ViewRequestOnPaper {
  const { outside, edgeAtEnd, layers, input, inside, wires } = cutter
  const { scene, wood } = cutSceneAt(gridScene(cutter, {}), planeBetween(cutter))
  const { base, lined, block } = input.mould
  const right = outside.width / 2
  const shelf = right + input.shelfDepth
  const upright = (x: number, from: number, to: number): ViewExtra => ({
    kind: 'line',
    class: 'phantom',
    a: { x, y: from },
    b: { x, y: to },
  })
  const level = (half: number, y: number): ViewExtra => ({
    kind: 'line',
    class: 'phantom',
    a: { x: -half, y },
    b: { x: half, y },
  })
  const across = wires.find(({ runs }) => runs === 'width')
  return {
    name: 'section',
    title: `${words.section} A–A`,
    lines: projectScene({ scene, viewpoint: 'right', showHidden: [] }),
    hatched: [
      wood.filter(({ key }) => key.startsWith('cutter-')).flatMap(({ rects }) => rects),
      wood.filter(({ key }) => !key.startsWith('cutter-')).flatMap(({ rects }) => rects),
    ],
    extras: [
      upright(-base.width / 2, 0, base.height),
      upright(base.width / 2, 0, base.height),
      level(base.width / 2, base.height),
      // of the block only as much as tells what it is: the sheet of its use shows all of it
      ...[-1, 1].map((sign) =>
        upright(
          (sign * lined.width) / 2,
          base.height,
          base.height + Math.min(block.setHeight, outside.height),
        ),
      ),
      ...(across
        ? [
            {
              kind: 'line' as const,
              class: 'dimension' as const,
              a: { x: -across.half, y: across.height },
              b: { x: across.half, y: across.height },
            },
          ]
        : []),
    ],
    dimensions: [
      ...layers.map(({ layer, plane }) =>
        linear(`plane-${layer}`, 'right', [right, edgeAtEnd], [inside.width / 2, edgeAtEnd + plane]),
      ),
      linear('shelf-underside', 'right', [right, edgeAtEnd], [shelf, undersideOf(cutter)]),
      linear('base-height', 'left', [-base.width / 2, 0], [-base.width / 2, base.height]),
      linear('shelf', 'below', [right, edgeAtEnd], [shelf, edgeAtEnd]),
    ],
  }
}

/** Underside of the shelves of the sides above the bench. */
function undersideOf({ parts, edgeAtEnd }: GridCutter): number {
  return parts.find(({ key }) => key === 'side-shelf')?.placements[0]?.origin.z ?? edgeAtEnd
}
