/**
 * Views and dimensions of the mould put together, lid off.
 */
import { railPlaces } from '../../fixtures/mould-rods.ts'
import type { BlockMould } from '../../fixtures/mould-types.ts'
import { cutSceneAt } from '../cut-scene.ts'
import type { LinearRequest, Side } from '../dimension-types.ts'
import { projectScene } from '../projection.ts'
import { assemblyScene } from '../scene.ts'
import type { SheetRequest } from '../sheet.ts'
import type { Point, Projection } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { MouldDrawingWords } from './mould-words.ts'

/**
 * The assembly sheet: front and top view, and a section beside the front view.
 *
 * Formula: anchors are corners of the mould in its own frame. Validity: any mould.
 * @param mould as designed [m]
 * @param words of the drawing
 * @param projection of the drawing
 * @returns views with dimensions
 * @source common practice
 */
export function assemblySheet(
  mould: BlockMould,
  words: MouldDrawingWords,
  projection: Projection,
): Pick<SheetRequest, 'front' | 'top' | 'side' | 'details'> {
  const parts = mould.parts.filter((part) => part.key !== 'lid' && part.key !== 'cleat')
  const scene = assemblyScene(parts, mould.rounds)
  const plane = sectionPlane(mould)
  return {
    front: {
      ...frontView(mould),
      title: words.frontView,
      lines: projectScene({ scene, viewpoint: 'front', showHidden: ['end', 'base-top', 'rail'] }),
      extras: [{ kind: 'plane', x: plane, letter: 'A' }],
    },
    top: {
      ...topView(mould, projection),
      title: words.topView,
      lines: projectScene({ scene, viewpoint: 'top', showHidden: [] }),
    },
    side: sectionView(mould, words, plane),
    details: [],
  }
}

function frontView({ inside, outside }: BlockMould): Pick<ViewRequestOnPaper, 'name' | 'dimensions'> {
  const inner = inside.length / 2
  return {
    name: 'front',
    dimensions: [linear('inside-length', 'above', [-inner, outside.height], [inner, outside.height])],
  }
}

function topView(
  { inside, outside, rods, input }: BlockMould,
  projection: Projection,
): Pick<ViewRequestOnPaper, 'name' | 'dimensions'> {
  // Beside the top view there is room on the side where the section stands beside the front view.
  const side = projection === 'third-angle' ? 'right' : 'left'
  const x = ((side === 'right' ? 1 : -1) * outside.length) / 2
  const rodX = x - (Math.sign(x) * input.lip) / 2
  const inner = inside.width / 2
  const outer = outside.width / 2
  const back = outer + input.panels.strip.thickness
  return {
    name: 'top',
    dimensions: [
      linear('outside-length', 'above', [-outside.length / 2, back], [outside.length / 2, back]),
      linear('inside-width', side, [x, -inner], [x, inner]),
      linear('outside-width', side, [x, -outer], [x, outer]),
      linear('rod-length', side, [rodX, -rods.length / 2], [rodX, rods.length / 2]),
    ],
  }
}

function sectionView(mould: BlockMould, words: MouldDrawingWords, plane: number): ViewRequestOnPaper {
  const { outside, inside, base, block } = mould
  const parts = mould.parts.filter((part) => part.key !== 'lid' && part.key !== 'cleat')
  const { scene, wood } = cutSceneAt(assemblyScene(parts, mould.rounds), plane)
  const right = outside.width / 2
  const soap = base.height + block.setHeight
  const inner = inside.width / 2
  return {
    name: 'section',
    title: `${words.section} A–A`,
    lines: projectScene({ scene, viewpoint: 'right', showHidden: [] }),
    hatched: [
      wood.filter(({ key }) => key !== 'strip').flatMap(({ rects }) => rects),
      wood.filter(({ key }) => key === 'strip').flatMap(({ rects }) => rects),
    ],
    extras: [{ kind: 'line', class: 'phantom', a: { x: -inner, y: soap }, b: { x: inner, y: soap } }],
    dimensions: [
      linear('base-height', 'right', [inner, 0], [inner, base.height]),
      linear('soap-height', 'right', [inner, base.height], [inner, soap]),
      linear('freeboard', 'right', [inner, soap], [inner, outside.height]),
      linear('side-height', 'right', [right, 0], [right, outside.height]),
    ],
  }
}

/** Between the last rail and the middle of its gap, so that the plane meets neither a rail nor a rod. */
function sectionPlane({ input, base }: BlockMould): number {
  const rails = railPlaces(input, base.length)
  const last = rails[rails.length - 1]!
  const before = rails[rails.length - 2]!
  return last - (last - before) / 4 - input.panels.rail.thickness / 4
}

const at = ([x, y]: readonly [number, number]): Point => ({ x, y })

function linear(
  name: string,
  side: Side,
  from: readonly [number, number],
  to: readonly [number, number],
): LinearRequest {
  return { kind: 'linear', name: `assembly.${name}`, side, from: at(from), to: at(to) }
}
