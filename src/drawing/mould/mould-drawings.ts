/**
 * The drawings of a block mould: the assembly and every part that is cut for it.
 */
import type { BlockMould } from '../../fixtures/mould-types.ts'
import { drawnWith } from '../drawn-with.ts'
import type { FixtureDrawingOptions } from '../part-words.ts'
import type { Drawing } from '../types.ts'
import { grooveSeal } from './groove-seal.ts'
import { mouldApart } from './mould-apart.ts'
import { assemblySheet } from './mould-assembly.ts'
import { baseGlueUp, lidGlueUp, stripGlueUp } from './mould-glue-ups.ts'
import type { MouldDrawingWords } from './mould-words.ts'

export type MouldDrawingOptions = FixtureDrawingOptions<MouldDrawingWords>

/**
 * Draws the mould.
 *
 * Formula: one drawing for the assembly, one with it drawn apart, one per part in cutting order, then what is glued up. Validity: see the sheet.
 * @param mould as designed [m]
 * @param options box [mm], length formatter, projection and words
 * @returns drawings: `assembly`, `exploded`, `groove-seal`, `part.KEY` …, `glue-up.strip`, `glue-up.base`, `glue-up.lid`
 * @source common practice
 */
export function mouldDrawings(mould: BlockMould, options: MouldDrawingOptions): readonly Drawing[] {
  const { projection, words } = options
  const assembly = drawnWith(options).sheet('assembly', 'assembly', assemblySheet(mould, words, projection))
  const { sheet, apart, part } = drawnWith(options, assembly.scale)
  const glueUps = { strip: stripGlueUp, base: baseGlueUp, lid: lidGlueUp }
  const seal = grooveSeal(mould, words)
  return [
    assembly,
    apart(mouldApart(mould), 'exploded'),
    ...(seal.details.length > 0 ? [sheet('groove-seal', 'groove-seal', seal)] : []),
    ...mould.parts.map(part),
    ...Object.entries(glueUps).map(([key, views]) =>
      sheet(`glue-up.${key}`, `glue-up-${key}`, views(mould, words)),
    ),
  ]
}
