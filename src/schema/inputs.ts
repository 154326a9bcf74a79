/** A maker's files as plain data and back: what is kept of them beside a print, and what an edit would make of them. */
import { type InputNode, type Inputs, isMap } from '../revisions/input-changes.ts'
import { type FileKinds, kindIn } from './file-kind.ts'
import { type FolderFile, RECORDS } from './read-folder.ts'
import { readIn } from './translations.ts'
import { readYaml } from './yaml.ts'

/**
 * What stands in each file: data of YAML as it was typed, comments and line ends left out; the text of a page.
 *
 * @param files as read by read-folder.ts; what cannot be taken apart is left out
 * @returns by path below the folder
 */
export const inputsOf = (files: readonly FolderFile[]): Inputs =>
  new Map(
    files.flatMap(({ file, below, bytes, refused }): [string, InputNode][] => {
      if (refused || below.startsWith(`${RECORDS}/`)) return []
      if (!below.endsWith('.yaml')) return [[below, new TextDecoder().decode(bytes)]]
      const { document } = readYaml(file, bytes)
      return document ? [[below, document.data]] : []
    }),
  )

/**
 * The same as far as a binder in some languages reads it: words in others are nothing to it, nor is which one it was
 * asked for in when papers were printed.
 *
 * @param inputs    by path below the folder
 * @param languages of the binder first, then of its labels
 * @param kinds     of files
 */
export const inputsReadIn = (
  inputs: Inputs,
  languages: readonly [string, ...string[]],
  kinds: FileKinds,
): Inputs =>
  new Map(
    [...inputs].map(([below, node]): [string, InputNode] => {
      const schema = below.endsWith('.yaml') ? kindIn(kinds, below)?.schema : undefined
      const read = schema ? readIn(node, schema, [...new Set(languages)]) : node
      if (below !== SHOP || !isMap(read)) return [below, read]
      const { language: _other, ...shop } = read
      return [below, { language: languages[0], ...shop }]
    }),
  )
const SHOP = 'shop.yaml'

/**
 * Files that hold just this data. JSON is YAML, and all scalars are text in both.
 *
 * @param inputs by path below the folder
 * @param shown  how messages name the folder
 */
export const filesOf = (inputs: Inputs, shown: string): FolderFile[] =>
  [...inputs]
    .map(([below, node]) => ({
      file: `${shown}/${below}`,
      below,
      bytes: new TextEncoder().encode(
        below.endsWith('.yaml')
          ? JSON.stringify(node, (_key, value: unknown) => (value === undefined ? null : value), 1)
          : String(node),
      ),
    }))
    .sort((a, b) => (a.below < b.below ? -1 : 1))
