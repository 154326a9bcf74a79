/**
 * How batter is kept out of the grooves and from under the block: two enlarged sections of the mould ready to be filled.
 */
import { shortWiresRun } from '../../fixtures/mould-grooves.ts'
import type { BlockMould } from '../../fixtures/mould-types.ts'
import { isChannel } from '../../geometry/part.ts'
import { type ClippedCut, clippedSection, clippedCut as cut, noteAt } from '../clipped-section.ts'
import type { LeaderRequest } from '../dimension-types.ts'
import { assemblyScene } from '../scene.ts'
import type { SheetRequest } from '../sheet.ts'
import type { Point } from '../types.ts'
import type { ViewRequestOnPaper } from '../view.ts'
import type { MouldDrawingWords } from './mould-words.ts'

/** m; what is drawn above and below the base top, and beside a crossing */
const ROOM = 0.012

/**
 * The two sections: a wall with its lining, the base's edge and the nearest long strip; a crossing of two strips.
 *
 * Formula: planes across the length, one clear of the short grooves and one along the middle of the first of them.
 * Validity: a mould that is at least as long as wide; sections that show nothing are left out.
 * @param mould as designed [m]
 * @param words of the drawing
 * @returns enlarged views with notes
 * @source common practice
 */
export function grooveSeal(mould: BlockMould, words: MouldDrawingWords): Pick<SheetRequest, 'details'> {
  if (shortWiresRun(mould.input) !== 'width') return { details: [] }
  const parts = mould.parts.filter(({ key }) => !['lid', 'cleat', 'strip', 'rail'].includes(key))
  const scene = assemblyScene([...parts, ...mould.liningInPlace], [])
  const { base, inside, input } = mould
  const baseTop = mould.parts.find(({ key }) => key === 'base-top')!
  const across = baseTop.features.filter(isChannel)
  const middleOf = (size: number, { at, size: wide }: { at: number; size: number }) =>
    at + wide / 2 - size / 2
  const shortAt = across.filter(({ runs }) => runs === 'width').map((one) => middleOf(base.length, one))
  const longAt = across.filter(({ runs }) => runs === 'length').map((one) => middleOf(base.width, one))
  const top = base.height
  const under = top - input.panels.baseTop.thickness
  const wall = -inside.width / 2
  const first = longAt[0]
  const clear = shortAt[0] === undefined ? 0 : (shortAt[0] - base.length / 2) / 2
  const seam: ViewRequestOnPaper[] =
    first === undefined
      ? []
      : [
          sectionView(
            cut(scene, clear, {
              x: wall - input.panels.side.thickness,
              y: under - ROOM / 2,
              width: first - wall + input.panels.side.thickness + ROOM,
              height: top - under + ROOM * 2,
            }),
            {
              name: 'seam',
              title: words.seam,
              notes: [
                note('side', words.sealNotes.side ?? '', {
                  x: wall - input.panels.side.thickness,
                  y: under,
                }),
                note('lining', words.sealNotes.lining ?? '', {
                  x: wall + input.panels.lining.thickness / 2,
                  y: top + ROOM,
                }),
                note('bead', words.sealNotes.bead ?? '', { x: wall + input.panels.lining.thickness, y: top }),
                note('strip', words.sealNotes.long ?? '', {
                  x: first,
                  y: top - input.base.grooveDepth.longWires / 2,
                }),
              ],
            },
          ),
        ]
  const along = shortAt[0]
  const crossing: ViewRequestOnPaper[] =
    first === undefined || along === undefined
      ? []
      : [
          sectionView(
            cut(scene, along, {
              x: first - 2 * ROOM,
              y: under,
              width: 4 * ROOM,
              height: top - under + ROOM / 2,
            }),
            {
              name: 'crossing',
              title: words.crossing,
              notes: [
                note('long', words.sealNotes.long ?? '', {
                  x: first,
                  y: top - input.base.grooveDepth.longWires / 2,
                }),
                note('short', words.sealNotes.short ?? '', {
                  x: first - ROOM,
                  y: top - input.base.grooveDepth.longWires,
                }),
              ],
            },
          ),
        ]
  return { details: [...seam, ...crossing] }
}

/** Wood that touches slants the other way; plastic is left bare between its thick lines. */
const SLANTS = [['side'], ['base-top']]

const sectionView = (
  section: ClippedCut,
  { name, title, notes }: { name: string; title: string; notes: readonly LeaderRequest[] },
): ViewRequestOnPaper => clippedSection(section, { name, title, dimensions: notes, slants: SLANTS })

const note = (name: string, words: string, at: Point): LeaderRequest =>
  noteAt(`groove-seal.${name}`, at, words)
