/**
 * The drawings of a block mould: the assembly and every part that is cut for it.
 */
import type { BlockMould } from '../../fixtures/mould-types.ts'
import { explodedDrawing } from '../exploded/exploded-drawing.ts'
import { partSheet } from '../part-sheet.ts'
import type { FixtureDrawingOptions } from '../part-words.ts'
import { drawSheet } from '../sheet.ts'
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
  const { box, formatter: format, exact, projection, words } = options
  const common = { box, format, projection, scaleWord: words.scale, framed: true }
  const label = (key: string) => words.labels[key] ?? ''
  const assembly = drawSheet({
    ...common,
    name: 'assembly',
    label: label('assembly'),
    ...assemblySheet(mould, words, projection),
  })
  const rest = { ...common, largestScale: assembly.scale }
  const glueUps = { strip: stripGlueUp, base: baseGlueUp, lid: lidGlueUp }
  const seal = grooveSeal(mould, words)
  return [
    assembly,
    explodedDrawing(mouldApart(mould), {
      box,
      label: label('exploded'),
      scaleWord: words.scale,
      framed: true,
    }),
    ...(seal.details.length > 0
      ? [drawSheet({ ...rest, name: 'groove-seal', label: label('groove-seal'), ...seal })]
      : []),
    ...mould.parts.map((part) =>
      drawSheet({
        ...rest,
        name: `part.${part.key}`,
        label: label(part.key),
        ...partSheet(part, words, exact),
      }),
    ),
    ...Object.entries(glueUps).map(([key, views]) =>
      drawSheet({
        ...rest,
        name: `glue-up.${key}`,
        label: label(`glue-up-${key}`),
        ...views(mould, words),
      }),
    ),
  ]
}
