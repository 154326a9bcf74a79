/** The folder `help/` of a maker, which this program writes and nobody else. */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { helpFiles } from '../schema/help/help-files.ts'
import { HELP } from '../schema/read-folder.ts'

/** What this program writes there, by paths below the maker's folder. */
export const helpBelow = (): readonly (readonly [below: string, text: string])[] =>
  [...helpFiles()].map(([name, text]) => [`${HELP}/${name}`, text] as const)

/** What of it is not so. */
export const helpOutOfDate = (folder: string): ReadonlyMap<string, string> =>
  new Map(
    helpBelow().filter(([below, text]) => {
      const path = join(folder, ...below.split('/'))
      return !existsSync(path) || readFileSync(path, 'utf8') !== text
    }),
  )

/** One line for whoever reads on in pages of another version; nothing where all is well, or nobody asked for help. */
export const helpRemark = (folder: string, shown: string): string | undefined =>
  existsSync(join(folder, HELP)) && helpOutOfDate(folder).size > 0
    ? `The pages in ${shown}/${HELP} are of another version of the program. This puts them right: npm run upgrade -- ${shown}`
    : undefined
