/**
 * Views of the pieces that are glued up before assembly: strip on side, rails under the base top, cleats under the lid.
 */
import { cleatRoom } from '../../fixtures/mould-parts.ts'
import { railPlaces } from '../../fixtures/mould-rods.ts'
import type { BlockMould } from '../../fixtures/mould-types.ts'
import type { Part } from '../../geometry/part.ts'
import { projectScene } from '../projection.ts'
import { assemblyScene } from '../scene.ts'
import type { SheetRequest } from '../sheet.ts'
import type { MouldDrawingWords } from './mould-words.ts'

type Views = Pick<SheetRequest, 'front' | 'top' | 'side' | 'details'>

/**
 * The outside of a side with its stiffening strip.
 *
 * Formula: anchors are corners of the strip and the side. Validity: drawn for the front side; the back one is alike.
 * @param mould as designed [m]
 * @param words of the drawing
 * @returns front and side view with the strip's place
 * @source common practice
 */
export function stripGlueUp(mould: BlockMould, words: MouldDrawingWords): Views {
  const { outside, input } = mould
  const scene = assemblyScene([firstOf(mould, 'side'), firstOf(mould, 'strip')], [])
  const left = -outside.length / 2
  const low = (outside.height - input.stripWidth) / 2
  return {
    front: {
      name: 'front',
      title: `${words.glueUps.strip ?? ''}: ${words.frontView}`,
      lines: projectScene({ scene, viewpoint: 'front', showHidden: [] }),
      dimensions: [
        {
          kind: 'linear',
          name: 'glue-up.strip.height',
          side: 'left',
          from: { x: left, y: 0 },
          to: { x: left, y: low },
        },
      ],
    },
    side: {
      name: 'side',
      title: words.sideView,
      lines: projectScene({ scene, viewpoint: 'right', showHidden: [] }),
      dimensions: [],
    },
    details: [],
  }
}

/**
 * The base with its rails.
 *
 * Formula: rails by their left faces from the base's left end. Validity: any number of rails.
 * @param mould as designed [m]
 * @param words of the drawing
 * @returns front and side view with the rails' places
 * @source common practice
 */
export function baseGlueUp(mould: BlockMould, words: MouldDrawingWords): Views {
  const { base, input } = mould
  const scene = assemblyScene(
    mould.parts.filter((part) => part.key === 'base-top' || part.key === 'rail'),
    [],
  )
  const left = -base.length / 2
  const half = input.panels.rail.thickness / 2
  const inner = railPlaces(input, base.length).slice(1)
  return {
    front: {
      name: 'front',
      title: `${words.glueUps.base ?? ''}: ${words.frontView}`,
      lines: projectScene({ scene, viewpoint: 'front', showHidden: [] }),
      dimensions: [
        {
          kind: 'ordinate',
          side: 'below',
          origin: { x: left, y: 0 },
          stations: inner.map((x, index) => ({
            name: `glue-up.rail-${index + 2}.place`,
            at: { x: x - half, y: 0 },
          })),
        },
      ],
    },
    side: {
      name: 'side',
      title: words.sideView,
      lines: projectScene({ scene, viewpoint: 'right', showHidden: [] }),
      dimensions: [
        {
          kind: 'linear',
          name: 'glue-up.base.height',
          side: 'right',
          from: { x: base.width / 2, y: 0 },
          to: { x: base.width / 2, y: base.height },
        },
      ],
    },
    details: [],
  }
}

/**
 * The lid with its cleats.
 *
 * Formula: cleats by their outer faces and ends from the lid's edges. Validity: two cleats.
 * @param mould as designed [m]
 * @param words of the drawing
 * @returns top and front view with the cleats' places
 * @source common practice
 */
export function lidGlueUp(mould: BlockMould, words: MouldDrawingWords): Views {
  const { outside, inside, input } = mould
  const scene = assemblyScene(
    mould.parts.filter((part) => part.key === 'lid' || part.key === 'cleat'),
    [],
  )
  const left = -inside.length / 2 - input.panels.end.thickness
  const room = cleatRoom(input)
  const cleatX = -inside.length / 2 + room
  const cleatY = -inside.width / 2 + room
  const corner = { x: left, y: -outside.width / 2 }
  const inner = { x: cleatX, y: cleatY }
  return {
    top: {
      name: 'top',
      title: `${words.glueUps.lid ?? ''}: ${words.topViewPlain}`,
      lines: projectScene({ scene, viewpoint: 'top', showHidden: ['cleat'] }),
      dimensions: [
        { kind: 'linear', name: 'glue-up.cleat.from-end', side: 'below', from: corner, to: inner },
        { kind: 'linear', name: 'glue-up.cleat.from-side', side: 'left', from: corner, to: inner },
      ],
    },
    front: {
      name: 'front',
      title: words.frontView,
      lines: projectScene({ scene, viewpoint: 'front', showHidden: [] }),
      dimensions: [],
    },
    details: [],
  }
}

/** The part with only its first copy placed. */
function firstOf(mould: BlockMould, key: string): Part {
  const part = mould.parts.find((one) => one.key === key)!
  return { ...part, placements: part.placements.slice(0, 1) }
}
