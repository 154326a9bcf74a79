/** What a maker changed: two versions of a folder's data laid beside each other, and any mixture of the two. */
import { besideEachOther } from './alignment.ts'

/** Data as typed: every scalar is text; undefined where nothing was typed. */
export type InputNode = string | undefined | readonly InputNode[] | { readonly [name: string]: InputNode }

/** By path below the folder: the data of a YAML file, the text of a page. */
export type Inputs = ReadonlyMap<string, InputNode>

export interface InputChange {
  /** below the folder: `materials/alkalis.yaml` */
  readonly file: string
  /** names as typed, places in lists counted from one: `alkalis`, `soda-beads`, `purity`; empty for a whole file */
  readonly path: readonly string[]
  readonly kind: 'other' | 'added' | 'gone' | 'order'
  /** missing where it is added, or where only the order changed */
  readonly before?: InputNode
  /** missing where it is gone, or where only the order changed */
  readonly now?: InputNode
}

const ABSENT = Symbol('absent')
type Version = InputNode | typeof ABSENT

/** Two versions of one node: equal, other as a whole, or alike in kind and other inside. */
type Pair =
  | { readonly kind: 'same'; readonly node: InputNode }
  | {
      readonly kind: 'changed'
      readonly before: Version
      readonly now: Version
      readonly change: InputChange
    }
  | {
      readonly kind: 'map'
      readonly entries: ReadonlyMap<string, Pair>
      readonly before: readonly string[]
      readonly now: readonly string[]
      /** where the names that both have stand in another order */
      readonly order?: InputChange
    }
  | { readonly kind: 'list'; readonly items: readonly Pair[] }

/** Two versions of a folder. */
export interface Comparison {
  /** in the order of the files and of what stands in them now */
  readonly changes: readonly InputChange[]
  /** the folder as it is now, with some changes taken back */
  readonly without: (takenBack: ReadonlySet<InputChange>) => Inputs
}

/**
 * Lays two versions of a folder's data beside each other.
 *
 * Names are compared by name, lists by their longest common subsequence, so that a line that was put in between
 * is one added line and not a change of all lines after it.
 *
 * @param before data of each file at one time
 * @param now    data of each file at another
 * @returns what was changed, as small as it can be named, and every mixture of the two versions
 * @source common practice
 */
export const compareInputs = (before: Inputs, now: Inputs): Comparison => {
  const changes: InputChange[] = []
  const files = [...new Set([...before.keys(), ...now.keys()])].sort()
  const pairs = files.map((file): readonly [string, Pair] => [
    file,
    pairOf(file, [], versionIn(before, file), versionIn(now, file), changes),
  ])
  return {
    changes,
    without: (takenBack) =>
      new Map(
        pairs.flatMap(([file, pair]) => {
          const version = mixed(pair, takenBack)
          return version === ABSENT ? [] : [[file, version] as const]
        }),
      ),
  }
}

const versionIn = (inputs: Inputs, file: string): Version => (inputs.has(file) ? inputs.get(file) : ABSENT)

export const isMap = (node: Version): node is { readonly [name: string]: InputNode } =>
  typeof node === 'object' && node !== null && !Array.isArray(node)

export const isList = (node: Version): node is readonly InputNode[] => Array.isArray(node)

/** Equal text where the nodes are equal, order of names included. */
const textOf = (node: Version): string =>
  node === ABSENT
    ? ''
    : (JSON.stringify(node, (_key, value: unknown) => (value === undefined ? null : value)) ?? 'null')

const pairOf = (
  file: string,
  path: readonly string[],
  before: Version,
  now: Version,
  changes: InputChange[],
): Pair => {
  if (before !== ABSENT && now !== ABSENT) {
    if (textOf(before) === textOf(now)) return { kind: 'same', node: now }
    if (isMap(before) && isMap(now)) return pairOfMaps(file, path, before, now, changes)
    if (isList(before) && isList(now)) return pairOfLists(file, path, before, now, changes)
  }
  const change: InputChange = {
    file,
    path,
    kind: before === ABSENT ? 'added' : now === ABSENT ? 'gone' : 'other',
    ...(before === ABSENT ? {} : { before }),
    ...(now === ABSENT ? {} : { now }),
  }
  changes.push(change)
  return { kind: 'changed', before, now, change }
}

const pairOfMaps = (
  file: string,
  path: readonly string[],
  before: { readonly [name: string]: InputNode },
  now: { readonly [name: string]: InputNode },
  changes: InputChange[],
): Pair => {
  const namesBefore = Object.keys(before)
  const namesNow = Object.keys(now)
  const both = (names: readonly string[]): string =>
    JSON.stringify(names.filter((name) => Object.hasOwn(before, name) && Object.hasOwn(now, name)))
  const order: InputChange | undefined =
    both(namesBefore) === both(namesNow) ? undefined : { file, path, kind: 'order' }
  if (order) changes.push(order)
  const of = (node: { readonly [name: string]: InputNode }, name: string): Version =>
    Object.hasOwn(node, name) ? node[name] : ABSENT
  const entries = new Map(
    inOneOrder(namesNow, namesBefore).map((name) => [
      name,
      pairOf(file, [...path, name], of(before, name), of(now, name), changes),
    ]),
  )
  return { kind: 'map', entries, before: namesBefore, now: namesNow, ...(order ? { order } : {}) }
}

/** The names of the first list in its order, those that only the second has each after the name that it follows there. */
const inOneOrder = (first: readonly string[], second: readonly string[]): string[] => {
  const all = [...first]
  second.forEach((name, index) => {
    if (all.includes(name)) return
    const previous = second[index - 1]
    all.splice(previous === undefined ? 0 : all.indexOf(previous) + 1, 0, name)
  })
  return all
}

const pairOfLists = (
  file: string,
  path: readonly string[],
  before: readonly InputNode[],
  now: readonly InputNode[],
  changes: InputChange[],
): Pair => {
  const items = besideEachOther(before.map(textOf), now.map(textOf), MOST_COMPARED).map((beside): Pair => {
    if (beside.isSame && beside.now !== undefined) return { kind: 'same', node: now[beside.now] }
    const left: Version = beside.before === undefined ? ABSENT : before[beside.before]
    const right: Version = beside.now === undefined ? ABSENT : now[beside.now]
    // What is gone is named by its place of before, all else by the place at which it is found now.
    const place = (beside.now ?? beside.before ?? 0) + 1
    return pairOf(file, [...path, String(place)], left, right, changes)
  })
  return { kind: 'list', items }
}

/** A table of a thousand by a thousand is a second of work at most; whoever changes more sees the whole of it. */
const MOST_COMPARED = 1_000_000

const mixed = (pair: Pair, takenBack: ReadonlySet<InputChange>): Version => {
  switch (pair.kind) {
    case 'same':
      return pair.node
    case 'changed':
      return takenBack.has(pair.change) ? pair.before : pair.now
    case 'list':
      return pair.items.map((item) => mixed(item, takenBack)).filter((item) => item !== ABSENT)
    case 'map': {
      const names =
        pair.order && takenBack.has(pair.order)
          ? inOneOrder(pair.before, pair.now)
          : inOneOrder(pair.now, pair.before)
      const entries: [string, InputNode][] = []
      for (const name of names) {
        const entry = pair.entries.get(name)
        const version = entry ? mixed(entry, takenBack) : ABSENT
        if (version !== ABSENT) entries.push([name, version])
      }
      return Object.fromEntries(entries)
    }
  }
}

/** A node as a maker would write it in one line: `{ lot: N-88, amount: 2 kg }`. */
export const inputText = (node: InputNode): string => {
  if (node === undefined) return ''
  if (typeof node === 'string') return node.replace(/\s+/g, ' ').trim()
  if (isList(node)) return `[${node.map(inputText).join(', ')}]`
  const entries = Object.entries(node).map(([name, value]) => `${name}: ${inputText(value)}`)
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`
}
