/** What is read of any folder, with the place where it was written. */
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
