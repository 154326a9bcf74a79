import type { FixtureWords } from '../part-words.ts'

/** Every word on the drawings of a grid cutter, from the text catalogue. */
export interface GridDrawingWords extends FixtureWords {
  /** titles and notes of the details, by their key */
  readonly details: Readonly<Record<string, string>>
  /** titles of the pictures of its use, and what stands beside their sizes */
  readonly use: Readonly<Record<string, string>>
}
