/** Every place of a file, with what its schema knows of it: where tests put mistakes. */
import { parseDocument } from 'yaml'
import { type Described, describedOf } from '../../../src/schema/help/described.ts'
import { inLanguage } from '../../../src/schema/translations.ts'
import { readYaml } from '../../../src/schema/yaml.ts'
import { type KindName, kindNamed, underlinedIn } from './editor.ts'

type Path = readonly (string | number)[]

export interface Place {
  readonly path: Path
  readonly part: Described
  /** a name that the maker chose, of a group that has none of its own */
  readonly isNamedByMaker: boolean
}

/** A right file, twice: as the program takes it apart, and as an editor does. */
export interface Sample {
  readonly kind: KindName
  readonly typed: unknown
  readonly edited: unknown
  readonly places: readonly Place[]
}

const below = (data: unknown, key: string | number): unknown =>
  typeof data === 'object' && data !== null ? Reflect.get(data, key) : undefined

const isObject = (data: unknown): data is Readonly<Record<string, unknown>> =>
  typeof data === 'object' && data !== null && !Array.isArray(data)

const placesOf = (part: Described, data: unknown, path: Path, isNamedByMaker = false): Place[] => {
  const own = [{ path, part, isNamedByMaker }]
  if (Array.isArray(data)) {
    const { items } = part
    return [
      ...own,
      ...data.flatMap((one, index) =>
        placesOf((Array.isArray(items) ? items[index] : items) as Described, one, [...path, index]),
      ),
    ]
  }
  // of several forms the one that the data has
  if (part.anyOf)
    return part.anyOf
      .filter(({ type }) => (type === 'object') === isObject(data))
      .flatMap((one) => placesOf(one, data, path))
  if (!isObject(data)) return own
  return [
    ...own,
    ...Object.entries(data).flatMap(([key, one]) => {
      const fixed = part.properties?.[key]
      const form = fixed ?? (part.additionalProperties as Described)
      return placesOf(form, one, [...path, key], fixed === undefined)
    }),
  ]
}

/** @throws Error for a text that is no file of its kind */
export const sampleOf = (kind: KindName, text: string): Sample => {
  const { schema } = kindNamed(kind)
  const { document } = readYaml('file.yaml', new TextEncoder().encode(text))
  if (!document) throw new Error(`no ${kind} file`)
  const typed = inLanguage(document, schema, 'en', ['en', 'es']).document.data
  return {
    kind,
    typed,
    edited: parseDocument(text).toJS(),
    places: placesOf(describedOf(schema), typed, []),
  }
}

const GONE = Symbol('gone')
/** What a place becomes: a text as typed, nothing at all, or the same under another name. */
export type Change =
  | { readonly to: string }
  | { readonly isGone: true }
  | { readonly renamed: string }
  | { readonly added: string }

const changed = (data: unknown, path: Path, change: (node: unknown) => unknown): unknown => {
  const [first, ...rest] = path
  if (first === undefined) return change(data)
  const next = changed(below(data, first), rest, change)
  if (Array.isArray(data))
    return data.flatMap((one, index) => (index !== first ? [one] : next === GONE ? [] : [next]))
  const entries = Object.entries(data as object)
  return Object.fromEntries(
    entries.flatMap(([key, one]) => (key !== first ? [[key, one]] : next === GONE ? [] : [[key, next]])),
  )
}

const applied = (data: unknown, path: Path, change: Change, scalar: (text: string) => unknown): unknown => {
  if ('to' in change) return changed(data, path, () => scalar(change.to))
  if ('isGone' in change) return changed(data, path, () => GONE)
  if ('added' in change)
    return changed(data, path, (node) => ({ ...(node as object), [change.added]: scalar('5 g') }))
  const last = path.at(-1)
  return changed(data, path.slice(0, -1), (node) =>
    Object.fromEntries(
      Object.entries(node as object).map(([key, one]) => [key === last ? change.renamed : key, one]),
    ),
  )
}

/** What is typed after a colon, as the program takes it and as an editor's parser does. */
const afterColon = (text: string): { readonly typed: unknown; readonly edited: unknown } => ({
  typed: below(readYaml('file.yaml', new TextEncoder().encode(`key: ${text}`)).document?.data, 'key'),
  edited: below(parseDocument(`key: ${text}`).toJS(), 'key'),
})

/** Whether program and editor take a sample with one change in it. */
export const takenWith = (
  { kind, typed, edited }: Sample,
  path: Path,
  change: Change,
): { readonly program: boolean; readonly editor: boolean } => {
  // nothing after a colon is refused before a schema sees it
  const isEmpty = 'to' in change && afterColon(change.to).typed === undefined
  return {
    program:
      !isEmpty &&
      kindNamed(kind).schema.safeParse(applied(typed, path, change, (text) => afterColon(text).typed))
        .success,
    editor:
      underlinedIn(
        kind,
        applied(edited, path, change, (text) => afterColon(text).edited),
      ).length === 0,
  }
}
