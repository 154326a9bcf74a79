/** The folder help/ of a maker's folder: the program's own words on its files, for people and for their editors. */
import type { FileKind } from '../file-kind.ts'
import { FILE_KINDS } from '../file-kinds.ts'
import { helpPage, indexPage, pagesPage } from './help-pages.ts'
import { jsonSchemaOf } from './json-schema.ts'

/**
 * Every file of the folder by its name below help/.
 *
 * @returns texts that end in a line break, the same each time
 * @source common practice
 */
export const helpFiles = (): ReadonlyMap<string, string> =>
  new Map([
    ['README.md', indexPage()],
    ['page.md', pagesPage()],
    ...Object.values<FileKind>(FILE_KINDS).flatMap((kind) => [
      [`${kind.name}.md`, helpPage(kind)] as const,
      [`${kind.name}.schema.json`, `${JSON.stringify(jsonSchemaOf(kind), undefined, 1)}\n`] as const,
    ]),
  ])
