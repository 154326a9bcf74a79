/**
 * The rod over its wire hole, several times enlarged: what hides the upper part of the hole, and what presses the wire up.
 */
import type { GridCutter } from '../../fixtures/grid-cutter/types.ts'
import { PICK_OUT } from '../../fixtures/wire-hardware.ts'
import { isHole } from '../../geometry/part.ts'
import { clippedCut, clippedSection, noteAt } from '../clipped-section.ts'
import { projectScene } from '../projection.ts'
import type { SheetRequest } from '../sheet.ts'
import type { Point } from '../types.ts'
import type { ViewExtra } from '../view-marks.ts'
import { gridScene } from './grid-scene.ts'
import type { GridDrawingWords } from './grid-words.ts'

/** m; what is drawn below and above */
const ROOM = 0.004
/** m; beside the rail, where notes stand */
const BESIDE = 0.011

/**
 * A section through the hole of a wire that runs across the block, at the back side.
 *
 * Formula: a plane along the wire; the toothpick fills the hole below the wire outside, and ends at the rod. Validity: a
 * cutter without such wires has no drawing.
 * @param cutter as designed [m]
 * @param words of the drawing
 * @returns one enlarged view with notes
 * @source common practice
 */
export function rodOverHole(cutter: GridCutter, words: GridDrawingWords): Pick<SheetRequest, 'details'> {
  const wire = cutter.wires.find(({ runs }) => runs === 'width')
  const side = cutter.parts.find(({ key }) => key === 'cutter-side')
  const hole = side?.features.filter(isHole).find(({ name }) => name.startsWith('wire-'))
  const rod = cutter.rounds.find(
    ({ key, axis, centre }) => key === 'bridge-rod' && axis === 'x' && centre[0] > 0,
  )
  if (!wire || !hole || !rod) return { details: [] }
  const [near, far] = [cutter.inside.width / 2, cutter.outside.width / 2]
  const low = wire.height - hole.diameter / 2
  const region = {
    x: near - BESIDE,
    y: low - ROOM,
    width: far - near + 2 * BESIDE,
    height: rod.diameter + hole.diameter + 2 * ROOM,
  }
  const section = clippedCut(
    gridScene(cutter, { hardware: false }),
    wire.at,
    region,
    cutter.parts
      .filter(({ key }) => key.startsWith('cutter-side'))
      .map(({ key }) => ({ key, rect: { x: near, y: low, width: far - near, height: hole.diameter } })),
  )
  const under = wire.height - wire.diameter / 2
  const over = wire.height + wire.diameter / 2
  const line = (a: Point, b: Point): ViewExtra => ({ kind: 'line', class: 'dimension', a, b })
  const tip = { x: near + rod.diameter, y: under }
  const note = (key: string, at: Point) => noteAt(`wire-hole.${key}`, at, words.details[key] ?? '')
  return {
    details: [
      clippedSection(section, {
        name: 'hole',
        title: words.details.hole ?? '',
        slants: [['cutter-side', 'cutter-side-2']],
        lines: projectScene({
          scene: { boxes: [], edges: [], bores: [], rounds: [rod] },
          viewpoint: 'right',
          showHidden: [],
        }),
        extras: [
          line({ x: near - BESIDE, y: under }, { x: far + BESIDE, y: under }),
          line({ x: near - BESIDE, y: over }, { x: far + BESIDE, y: over }),
          line(tip, { x: far, y: low }),
          line({ x: far, y: low }, { x: far + PICK_OUT, y: low }),
          line({ x: far + PICK_OUT, y: low }, { x: far + PICK_OUT, y: under }),
        ],
        dimensions: [
          note('wire', { x: near - BESIDE / 2, y: wire.height }),
          note('rod', { x: rod.centre[0], y: rod.centre[1] }),
          note('pick', { x: far + PICK_OUT / 2, y: (under + low) / 2 }),
        ],
      }),
    ],
  }
}
