/** Why a number is another one than on paper: inputs are put back one by one, and what then comes back is their doing. */
import type { Comparison, InputChange, Inputs } from './input-changes.ts'

/** By sheet and by name of a value or other mark: what is shown. */
export type ShownNow = ReadonlyMap<string, ReadonlyMap<string, string>>

export interface Causes {
  /** the changes that a shown value of a sheet hangs on; empty where none was found */
  readonly of: (sheet: string, name: string) => readonly InputChange[]
}

/** Bound on how many mixtures of inputs are composed; each takes as long as an edit. */
const MOST_TRIED = 32

/**
 * Finds the changes of inputs that shown values hang on.
 *
 *     c is a cause of v  ⇔  v(all as now, c as before) ≠ v(all as now)
 *
 * A value that no single change brings back is followed through all changes, one after the other, and is put down to
 * those at which it changes on that way. Changes that give no binder when they are put back alone, such as a material
 * that a recipe names by now, are put back together. Where there are too many, neighbours are put back together.
 *
 * @param comparison  of the inputs then and now
 * @param asked       by sheet, the names of values whose causes are wanted
 * @param now         what is shown now
 * @param composed    what a mixture of inputs shows; undefined where it is no binder
 * @source common practice
 */
export const findCauses = async (
  comparison: Comparison,
  asked: ReadonlyMap<string, readonly string[]>,
  now: ShownNow,
  composed: (inputs: Inputs) => Promise<ShownNow | undefined>,
): Promise<Causes> => {
  const found = new Map<string, Set<InputChange>>()
  const key = (sheet: string, name: string): string => JSON.stringify([sheet, name])
  const names = [...asked].flatMap(([sheet, all]) => all.map((name) => [sheet, name] as const))
  const put = (sheet: string, name: string, changes: readonly InputChange[]): void => {
    const known = found.get(key(sheet, name)) ?? new Set()
    for (const change of changes) known.add(change)
    found.set(key(sheet, name), known)
  }
  const left = (): (readonly [string, string])[] =>
    names.filter(([sheet, name]) => !found.has(key(sheet, name)))
  const shownIn = (shown: ShownNow, sheet: string, name: string): string | undefined =>
    shown.get(sheet)?.get(name)

  const groups = grouped(comparison.changes, MOST_TRIED)
  const together: InputChange[] = []
  for (const group of groups) {
    const without = await composed(comparison.without(new Set(group)))
    if (!without) {
      together.push(...group)
      continue
    }
    for (const [sheet, name] of names)
      if (shownIn(without, sheet, name) !== shownIn(now, sheet, name)) put(sheet, name, group)
  }
  if (together.length > 0 && left().length > 0) {
    const without = await composed(comparison.without(new Set(together)))
    if (without)
      for (const [sheet, name] of left())
        if (shownIn(without, sheet, name) !== shownIn(now, sheet, name)) put(sheet, name, together)
  }
  if (left().length > 0 && groups.length > 1) {
    const open = left()
    const takenBack = new Set<InputChange>()
    let before = now
    let waiting: InputChange[] = []
    for (const group of groups) {
      for (const change of group) takenBack.add(change)
      waiting.push(...group)
      const after = await composed(comparison.without(takenBack))
      if (!after) continue
      for (const [sheet, name] of open)
        if (shownIn(after, sheet, name) !== shownIn(before, sheet, name)) put(sheet, name, waiting)
      before = after
      waiting = []
    }
  }
  return { of: (sheet, name) => [...(found.get(key(sheet, name)) ?? [])] }
}

/**
 * Changes in groups that are put back together, no more groups than asked for: one each, or those that share the
 * beginning of their path, or their file, or all.
 */
const grouped = (changes: readonly InputChange[], most: number): readonly (readonly InputChange[])[] => {
  for (const depth of [Number.POSITIVE_INFINITY, 3, 2, 1, 0]) {
    const groups = new Map<string, InputChange[]>()
    for (const change of changes) {
      const name = JSON.stringify(
        depth === Number.POSITIVE_INFINITY
          ? [change.file, change.path, change.kind]
          : [change.file, change.path.slice(0, depth)],
      )
      const group = groups.get(name) ?? []
      group.push(change)
      groups.set(name, group)
    }
    if (groups.size <= most) return [...groups.values()]
  }
  return changes.length === 0 ? [] : [changes]
}
