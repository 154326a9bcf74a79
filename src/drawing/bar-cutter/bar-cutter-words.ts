import type { FixtureWords } from '../part-words.ts'

/** Every word on the drawings of a bar cutter, from the text catalogue. */
export interface BarCutterDrawingWords extends FixtureWords {
  /** titles of views, by their names */
  readonly titles: Readonly<Record<string, string>>
  /** notes at places, by what they say */
  readonly notes: Readonly<Record<string, string>>
}
