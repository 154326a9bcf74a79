/** What is read of any folder, with the place where it was written. */
import { lineOf } from '../diagnostics.ts'
import type { YamlDocument } from './yaml.ts'

/** A thing of the maker's with where it was written. */
export interface Placed<T> {
  readonly key: string
  readonly value: T
  readonly document: YamlDocument
  /** JSON pointer of the thing in its document */
  readonly path: string
}

export interface PageFile {
  readonly key: string
  readonly file: string
  readonly title: string
  /** the whole file */
  readonly text: string
  /** all after the title */
  readonly markdown: string
}

/** Where in a maker’s file something stands that a finding is about. */
export interface FindingPlace {
  readonly file: string
  /** counted from 1 */
  readonly line: number
  /** as the file writes it: `dado: depth` */
  readonly key: string
}

/** The line of one value. @returns nothing for what the document does not write */
export const placeAt = (document: Placed<unknown>['document'], path: string): FindingPlace | undefined => {
  const line = lineOf(document, path)
  return line === undefined
    ? undefined
    : { file: document.file, line, key: path.slice(1).replaceAll('/', ': ') }
}
