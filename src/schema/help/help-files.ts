/** What may stand in each file, for people and for editors. */
import { FILE_KINDS } from '../file-kinds.ts'

/** By name below `help/`. */
export const helpFiles = (): ReadonlyMap<string, string> =>
  new Map(
    Object.entries(FILE_KINDS).map(([kind, { name }]) => [
      `${kind}.md`,
      `# ${name}\n\nWhat may stand in this file is not written down yet.\n`,
    ]),
  )
