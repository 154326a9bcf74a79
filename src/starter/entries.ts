/** Entries of a YAML file as they were typed, with their comments, to be put into another. */
import { pointer } from '../diagnostics.ts'
import type { YamlDocument, YamlNode } from '../schema/yaml.ts'

const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1
const lineEnd = (text: string, at: number): number => {
  const end = text.indexOf('\n', at)
  return end < 0 ? text.length : end + 1
}

/** Whole lines of an entry, from its name to the end of its value. @throws Error for one that is not there: a bug */
const linesOf = (
  { text, placeOf, file }: YamlDocument,
  path: readonly string[],
): readonly [number, number] => {
  const [key, value] = [placeOf(pointer(path), 'key'), placeOf(pointer(path), 'value')]
  if (!key || !value) throw new Error(`${file} has no ${path.join(' ')}`)
  return [lineStart(text, key[0]), lineEnd(text, value[1])]
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
        .map((name) => linesOf(document, [part, key, name]))
        .sort(([a], [b]) => a - b)
      let text = ''
      let at = from
      for (const [begin, end] of gaps) {
        text += document.text.slice(at, begin)
        at = end
      }
      return text + document.text.slice(at, to)
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
