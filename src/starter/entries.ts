/** Entries of a YAML file as they were typed, with their comments, to be put into another. */
import { pointer } from '../diagnostics.ts'
import { edited, lineEnd, lineStart } from '../schema/text-edits.ts'
import type { YamlDocument, YamlNode } from '../schema/yaml.ts'

/** Whole lines of an entry, from its name to the end of its value. @throws Error for one that is not there: a bug */
const linesOf = (
  { text, placeOf, file }: YamlDocument,
  path: readonly string[],
): readonly [number, number] => {
  const [key, value] = [placeOf(pointer(path), 'key'), placeOf(pointer(path), 'value')]
  if (!key || !value) throw new Error(`${file} has no ${path.join(' ')}`)
  // with the end of its last line
  return [lineStart(text, key[0]), Math.min(lineEnd(text, value[1]) + 1, text.length)]
}

/**
 * Entries below one name of a file, under that name.
 *
 * @param without names in an entry whose lines are left out
 */
export const entriesText = (
  document: YamlDocument,
  part: string,
  keys: readonly string[],
  without: readonly string[] = [],
): string =>
  `${part}:\n${keys
    .map((key) => {
      const [from, to] = linesOf(document, [part, key])
      const gaps = without
        .filter((name) => document.placeOf(pointer([part, key, name]), 'key'))
        .map((name) => ({ range: linesOf(document, [part, key, name]), text: '' }))
      // gaps are behind the entry's first character
      return edited(document.text.slice(0, to), gaps).slice(from)
    })
    .join('')}`

/** Every source that entries name, in the order of the list of sources. */
export const sourcesNamed = (
  nodes: readonly YamlNode[],
  list: Readonly<Record<string, YamlNode>>,
): readonly string[] => {
  const named = new Set<string>()
  const look = (node: YamlNode): void => {
    if (typeof node !== 'object') return
    if (!Array.isArray(node)) {
      const source = (node as Readonly<Record<string, YamlNode>>).source
      if (typeof source === 'string') named.add(source)
    }
    for (const below of Object.values(node)) look(below)
  }
  for (const node of nodes) look(node)
  return Object.keys(list).filter((key) => named.has(key))
}
