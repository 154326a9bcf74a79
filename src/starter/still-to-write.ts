/** What a new folder leaves for its maker to write, and still says so. */
import type { SourceDocument } from '../diagnostics.ts'
import { KEPT } from '../schema/read-folder.ts'
import { starterWords } from './read-starter.ts'

/** Lines of one part of a file, in whatever language. */
export interface StillToWrite {
  readonly file: string
  readonly lines: readonly number[]
  /** the first of them, as the file has it */
  readonly text: string
  /** which part of the file they stand in */
  readonly section: string
}

/** Of all languages, those that ask for something. */
const asked = (): readonly string[] =>
  Object.values(starterWords()).flatMap((words) =>
    Object.entries(words).flatMap(([name, text]) => (name.startsWith('write-') ? [text] : [])),
  )

/** @returns what is asked for, in the order of the files and their lines; texts within remarks do not count */
export const stillToWrite = (documents: ReadonlyMap<string, SourceDocument>): StillToWrite[] => {
  const texts = asked()
  return [...documents].flatMap(([file, { text }]) => {
    // what a paper said once
    if (file.includes(`${KEPT}/`)) return []
    let section = ''
    const found = text.split('\n').flatMap((line, index) => {
      section = /^([a-z][a-z-]*):/.exec(line)?.[1] ?? section
      const said = texts.find((one) => line.replace(/(^|\s)#.*/, '').includes(one))
      return said === undefined ? [] : [{ line: index + 1, said, section }]
    })
    return [...new Set(found.map((one) => one.section))].flatMap((part) => {
      const same = found.filter((one) => one.section === part)
      const [first] = same
      return first ? [{ file, lines: same.map(({ line }) => line), text: first.said, section: part }] : []
    })
  })
}
