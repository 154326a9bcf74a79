/** The folder `help/` of a maker, which this program writes and nobody else. */
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { helpFiles } from '../schema/help/help-files.ts'

/** What this program would write there and what is not so, by paths below the maker's folder. */
export const helpOutOfDate = (folder: string): ReadonlyMap<string, string> =>
  new Map(
    [...helpFiles()]
      .map(([name, text]) => [`help/${name}`, text] as const)
      .filter(([below, text]) => {
        const path = join(folder, ...below.split('/'))
        return !existsSync(path) || readFileSync(path, 'utf8') !== text
      }),
  )

/** One line for whoever reads on in pages of another version; nothing where all is well, or nobody asked for help. */
export const helpRemark = (folder: string, shown: string): string | undefined =>
  existsSync(join(folder, 'help')) && helpOutOfDate(folder).size > 0
    ? `The pages in ${shown}/help are of another version of the program. This puts them right: npm run upgrade -- ${shown}`
    : undefined
