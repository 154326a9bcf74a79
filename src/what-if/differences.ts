/** Two binders laid beside each other, sheet by sheet: what a change of the files does to each number that is read. */
import { changesOf } from '../papers/changes.ts'
import type { Revised } from '../papers/revisions.ts'
import { holdsOf, inlineWords } from '../sheets/compose.ts'
import type { Inline, Sheet } from '../sheets/model.ts'
import type { ShownValue } from '../sheets/printed/shown-types.ts'
import type { ChangedLine } from '../sheets/printed/types.ts'

/** How a sheet is to be used: as it stands, after somebody looked at what holds it, not at all. */
export type State = 'good' | 'held' | 'stopped'

export interface NamedSheet {
  readonly id: string
  readonly number: string
  readonly title: string
}

export interface Shown {
  /** SI, or the text itself; missing where only the text is known */
  readonly value?: number | string
  readonly shown: string
}

/** A number that is another one, comes, or goes. */
export interface NumberDifference {
  readonly name: string
  readonly label: string
  readonly unit: string
  readonly before?: Shown
  readonly after?: Shown
}

export interface SheetDifference extends NamedSheet {
  readonly change: 'other' | 'comes' | 'goes'
  readonly before?: State
  readonly after?: State
  /** why it is held or stopped afterwards */
  readonly reasons: readonly string[]
  readonly numbers: readonly NumberDifference[]
  /** the number that it has in the binder as it is, where that is another one */
  readonly numberBefore?: string
  /** its words */
  readonly lines: readonly ChangedLine[]
  /** captions of drawings that are drawn otherwise */
  readonly drawings: readonly string[]
}

export interface ConflictDifference {
  readonly sheet: NamedSheet
  readonly change: 'comes' | 'goes'
  readonly reason: string
}

export interface Differences {
  /** in the order of the binder; those that go where they stood */
  readonly sheets: readonly SheetDifference[]
  readonly conflicts: readonly ConflictDifference[]
  /** where they are two: words are not compared then */
  readonly languages?: { readonly before: string; readonly after: string }
}

/**
 * What is read otherwise.
 *
 * @param before sheets as they are
 * @param after  sheets as they would be
 */
export const differencesOf = (before: readonly Revised[], after: readonly Revised[]): Differences => {
  const had = new Map(before.map((one) => [one.sheet.id, one]))
  const has = new Map(after.map((one) => [one.sheet.id, one]))
  const ids = merged(
    after.map(({ sheet }) => sheet.id),
    before.map(({ sheet }) => sheet.id),
  )
  const [was, is] = [before, after].map(([first]) => first?.shown.language ?? '')
  return {
    ...(was !== undefined && is !== undefined && was !== is ? { languages: { before: was, after: is } } : {}),
    sheets: ids.flatMap((id) => {
      const difference = sheetDifference(had.get(id), has.get(id))
      return difference ? [difference] : []
    }),
    conflicts: ids.flatMap((id) => conflictsOf(had.get(id), has.get(id))),
  }
}

/** The first list with what only the second has, each after what it follows there. */
const merged = (first: readonly string[], second: readonly string[]): string[] => {
  const all = [...first]
  const known = new Set(first)
  second.forEach((id, index) => {
    if (known.has(id)) return
    const previous = second[index - 1]
    all.splice(previous === undefined ? 0 : all.indexOf(previous) + 1, 0, id)
    known.add(id)
  })
  return all
}

const sheetDifference = (
  before: Revised | undefined,
  after: Revised | undefined,
): SheetDifference | undefined => {
  const one = after ?? before
  if (!one || (before && after && before.fingerprint === after.fingerprint)) return undefined
  const sheet = namedSheet(one)
  const states = {
    ...(before ? { before: stateOf(before.sheet) } : {}),
    ...(after ? { after: stateOf(after.sheet) } : {}),
    reasons: after ? reasonsOf(after.sheet) : [],
  }
  if (!before || !after)
    return {
      ...sheet,
      ...states,
      change: after ? 'comes' : 'goes',
      numbers: one.shown.values.map((value) => numberOf(value, before, after)),
      lines: [],
      drawings: [],
    }
  const { values, lines, drawings, number, title } = changesOf(before.shown, after.shown)
  const now = new Map(after.shown.values.map((value) => [value.name, value]))
  const then = new Map(before.shown.values.map((value) => [value.name, value]))
  return {
    ...sheet,
    ...states,
    change: 'other',
    numbers: values.map(({ name, label, before: was, now: is }) => ({
      name,
      label,
      unit: (now.get(name) ?? then.get(name))?.unit ?? '',
      ...(was === undefined ? {} : { before: withValue(before, name, was) }),
      ...(is === undefined ? {} : { after: withValue(after, name, is) }),
    })),
    ...(number ? { numberBefore: number.before } : {}),
    lines: title ? [{ ...title, safety: false }, ...lines] : lines,
    drawings,
  }
}

export const namedSheet = ({ shown: { id, number, title } }: Revised): NamedSheet => ({ id, number, title })

const numberOf = (
  { name, label, unit, shown }: ShownValue,
  before: Revised | undefined,
  after: Revised | undefined,
): NumberDifference => ({
  name,
  label,
  unit,
  ...(before ? { before: withValue(before, name, shown) } : {}),
  ...(after ? { after: withValue(after, name, shown) } : {}),
})

const withValue = ({ sheet }: Revised, name: string, shown: string): Shown => {
  const value = sheet.values.get(name)
  // one that was followed to another name is known by what was read of it
  return value?.shown === shown ? { value: value.value, shown } : { shown }
}

const stateOf = (sheet: Sheet): State => {
  if (sheet.stopped) return 'stopped'
  return holdsOf(sheet).length > 0 ? 'held' : 'good'
}

const reasonsOf = (sheet: Sheet): string[] =>
  (sheet.stopped?.map(({ reason }) => reason) ?? holdsOf(sheet).flatMap(({ items }) => items)).map(
    inlineWords,
  )

const conflictsOf = (before: Revised | undefined, after: Revised | undefined): ConflictDifference[] => {
  const one = after ?? before
  if (!one) return []
  const sheet = namedSheet(one)
  const was = [...(before?.sheet.conflicts ?? [])]
  const is = [...(after?.sheet.conflicts ?? [])]
  // what says the same in other hours is no new conflict
  for (const wordsOf of [inlineWords, withoutNumbers])
    for (const own of [...is]) {
      const at = was.findIndex(
        ({ code, reason }) => code === own.code && wordsOf(reason) === wordsOf(own.reason),
      )
      if (at < 0) continue
      was.splice(at, 1)
      is.splice(is.indexOf(own), 1)
    }
  return [
    ...is.map(({ reason }) => ({ sheet, change: 'comes', reason: inlineWords(reason) }) as const),
    ...was.map(({ reason }) => ({ sheet, change: 'goes', reason: inlineWords(reason) }) as const),
  ]
}

/** Words with a gap for each number that is measured or reckoned; names stay. */
const withoutNumbers = ({ text, fill }: Inline): string =>
  inlineWords({
    text,
    fill: Object.fromEntries(
      Object.entries(fill).map(([name, filling]) => {
        if (typeof filling === 'string') return [name, filling]
        if ('text' in filling) return [name, withoutNumbers(filling)]
        return [name, RECKONED.has(filling.unit) ? '…' : filling]
      }),
    ),
  })
const RECKONED = new Set(['kg', 'K', 's', 'm', 'm3', '1', 'date', 'moment', 'time'])
