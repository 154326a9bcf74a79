import type { FixtureWords } from '../part-words.ts'

/** Every word on the drawings of a trial frame, from the text catalogue. */
export interface TrialWords extends FixtureWords {
  /** titles of the enlarged sections, and notes on them */
  readonly details: Readonly<Record<string, string>>
  /** titles and notes of the pictures of the trial */
  readonly use: Readonly<Record<string, string>>
}
