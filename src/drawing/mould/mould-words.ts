import type { FixtureWords } from '../part-words.ts'

/** Every word on the drawings of a mould, from the text catalogue. `topView` is of the assembly, drawn without its lid. */
export interface MouldDrawingWords extends FixtureWords {
  readonly topViewPlain: string
  /** what is glued up before assembly: `strip`, `base`, `lid` */
  readonly glueUps: Readonly<Record<string, string>>
  /** titles of the two sections that show how batter is kept out */
  readonly seam: string
  readonly crossing: string
  /** notes on those: `side`, `lining`, `bead`, `long`, `short` */
  readonly sealNotes: Readonly<Record<string, string>>
}
