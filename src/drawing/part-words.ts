import type { LengthFormatter, Projection } from './types.ts'

/** Words on the drawing of a part, from the text catalogue. */
export interface PartWords {
  /** titles of the face that is drawn, by part key */
  readonly face: Readonly<Record<string, string>>
  /** of the edge from which widths are measured */
  readonly edgeView: string
  /** of the edge at the right-hand end */
  readonly endEdgeView: string
  /** before the letter of an enlarged detail */
  readonly detail: string
  /** beside the arrow of the face grain */
  readonly grain: string
  /** before the number of pieces */
  readonly make: string
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
}

/** Words that the drawings of every fixture share. */
export interface FixtureWords extends PartWords {
  /** before a scale, e.g. of 1:5 */
  readonly scale: string
  readonly frontView: string
  readonly topView: string
  readonly sideView: string
  /** before the letter of a section */
  readonly section: string
  /** what each drawing shows: `assembly`, `exploded`, the part keys, and what else the fixture draws */
  readonly labels: Readonly<Record<string, string>>
}

/** What every drawing of a fixture is set with. */
export interface FixtureDrawingOptions<Words extends FixtureWords> {
  /** room for one drawing [mm] */
  readonly box: { readonly width: number; readonly height: number }
  readonly formatter: LengthFormatter
  /** of what stands in a title, with its unit */
  readonly exact: LengthFormatter
  readonly projection: Projection
  readonly words: Words
}
