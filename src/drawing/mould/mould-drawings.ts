/**
 * The drawings of a block mould: the assembly and every part that is cut for it.
 */
import type { BlockMould } from '../../fixtures/mould-types.ts'
import { explodedDrawing } from '../exploded/exploded-drawing.ts'
import { partSheet } from '../part-sheet.ts'
import { drawSheet } from '../sheet.ts'
import type { Drawing, LengthFormatter, Projection } from '../types.ts'
import { grooveSeal } from './groove-seal.ts'
import { assemblySheet } from './mould-assembly.ts'
import { baseGlueUp, lidGlueUp, stripGlueUp } from './mould-glue-ups.ts'

export interface MouldDrawingOptions {
  /** room for one drawing [mm] */
  readonly box: { readonly width: number; readonly height: number }
  readonly formatter: LengthFormatter
  /** of what stands in a title, with its unit */
  readonly exact: LengthFormatter
  readonly projection: Projection
  readonly words: MouldDrawingWords
}

/** Every word on the drawings, from the text catalogue. */
export interface MouldDrawingWords {
  /** before a scale, e.g. of 1:5 */
  readonly scale: string
  readonly frontView: string
  /** of the assembly, which is drawn without its lid */
  readonly topView: string
  readonly topViewPlain: string
  readonly sideView: string
  /** before the letter of a section */
  readonly section: string
  /** before the letter of an enlarged detail */
  readonly detail: string
  /** of the edge from which widths are measured */
  readonly edgeView: string
  /** of the edge at the right-hand end */
  readonly endEdgeView: string
  /** beside the arrow of the face grain */
  readonly grain: string
  /** before the number of pieces */
  readonly make: string
  /** titles of the face that is drawn, by part key */
  readonly face: Readonly<Record<string, string>>
  /** after the diameter of a hole */
  readonly through: string
  /** after the leg of a bevel */
  readonly bevel: string
  /** before the size of a recess for a washer */
  readonly recess: string
  /** before the size of a notch, and after its depth */
  readonly notch: string
  readonly deep: string
  /** after the thickness of a part */
  readonly thick: string
  /** at the line along which a sheet is folded */
  readonly fold: string
  /** at a line that is scribed along a part */
  readonly scribe: string
  /** what is glued up before assembly: `strip`, `base`, `lid` */
  readonly glueUps: Readonly<Record<string, string>>
  /** titles of the two sections that show how batter is kept out */
  readonly seam: string
  readonly crossing: string
  /** notes on those: `side`, `lining`, `bead`, `long`, `short` */
  readonly sealNotes: Readonly<Record<string, string>>
  /** what each drawing shows: `assembly`, `exploded`, the part keys, `glue-up-strip`, `glue-up-base`, `glue-up-lid`, `groove-seal` */
  readonly labels: Readonly<Record<string, string>>
}

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
    explodedDrawing(mould, { box, label: label('exploded'), scaleWord: words.scale, framed: true }),
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
