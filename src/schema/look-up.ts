/**
 * Names that point from one file into another. They are looked up in the files as typed, before and whether or not
 * the rest of a file could be understood, so that one run finds every misspelt name.
 */
import type { Diagnostic } from '../diagnostics.ts'
import { pointer } from '../diagnostics.ts'
import { isList, isMap } from '../revisions/input-changes.ts'
import { didYouMean } from '../units/spelling.ts'
import { NAME } from './names.ts'
import type { YamlDocument, YamlNode } from './yaml.ts'

/** A file that could at least be read as YAML. */
export interface ReadFile {
  readonly folder: string
  readonly key: string
  readonly document: YamlDocument
}

interface Reference {
  readonly path: readonly string[]
  readonly at: 'key' | 'value'
  readonly name: string
  readonly among: ReadonlySet<string>
  readonly what: string
  readonly where: string
}

export interface LookUp {
  /** one for each name that nothing bears; grows as names are looked up */
  readonly diagnostics: Diagnostic[]
  readonly inFolder: (folder: string) => readonly ReadFile[]
  /** Looks up the names of a map. @param where folder in which such things are told of, `materials` if left out */
  readonly keys: (
    file: ReadFile,
    part: string | readonly string[],
    among: ReadonlySet<string>,
    what: string,
    where?: string,
  ) => void
  /** Looks up the one name that stands at a place. */
  readonly value: (
    file: ReadFile,
    path: readonly string[],
    among: ReadonlySet<string>,
    what: string,
    where?: string,
  ) => void
}

/**
 * @param files     all files read, whatever was wrong with them
 * @param unread    folders of files that were no YAML at all: what they would have named is not missed on top
 */
export const lookUp = (files: readonly ReadFile[], unread: ReadonlySet<string>): LookUp => {
  const diagnostics: Diagnostic[] = []
  const look = ({ document }: ReadFile, reference: Reference): void => {
    const { name, among, what, where } = reference
    // What cannot be a name at all has been told already.
    if (among.has(name) || unread.has(where) || !NAME.test(name)) return
    const list = [...among]
    const near = didYouMean(name, list)
    diagnostics.push({
      severity: 'error',
      code: 'unknown-name',
      file: document.file,
      path: pointer(reference.path),
      at: reference.at,
      message: `There is no ${what} named "${name}"`,
      advice:
        near !== undefined
          ? `Did you mean "${near}"?`
          : list.length > 0
            ? `Known are: ${list.slice(0, 40).join(', ')}.`
            : `Nothing of that kind is defined yet: add it in ${where}.`,
    })
  }
  const keys: LookUp['keys'] = (file, part, among, what, where = 'materials') => {
    const above = [part].flat()
    for (const name of keysOf(above.reduce<YamlNode>(child, file.document.data)))
      look(file, { path: [...above, name], at: 'key', name, among, what, where })
  }
  const value: LookUp['value'] = (file, path, among, what, where = 'materials') => {
    const name = path.reduce<YamlNode>(child, file.document.data)
    if (typeof name === 'string') look(file, { path, at: 'value', name, among, what, where })
  }
  return {
    diagnostics,
    inFolder: (folder) => files.filter((file) => file.folder === folder),
    keys,
    value,
  }
}

/** Of a list its entry of that number. */
export const child = (node: YamlNode, name: string): YamlNode => {
  if (isList(node)) return node[Number(name)]
  return isMap(node) && Object.hasOwn(node, name) ? node[name] : undefined
}

export const keysOf = (node: YamlNode): string[] => (isMap(node) ? Object.keys(node) : [])
