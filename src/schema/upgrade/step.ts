/** One step from a format to the next. */
import type { Diagnostic } from '../../diagnostics.ts'
import type { Edit } from '../text-edits.ts'
import type { YamlDocument } from '../yaml.ts'

export interface Told {
  readonly path: string
  readonly text: string
}

export interface StepResult {
  readonly edits: readonly Edit[]
  /** what the edits do, for whoever owns the file */
  readonly told: readonly Told[]
  /** what only the maker can know: nothing is changed until they have written it */
  readonly unknown: readonly Diagnostic[]
  /** worth a look, and changed by nobody */
  readonly notes: readonly Told[]
}

/** By the paths of files below the folder; a file that it does not name stays as it is. */
export type Step = (files: ReadonlyMap<string, YamlDocument>) => ReadonlyMap<string, StepResult>
