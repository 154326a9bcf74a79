/** Why a number is another one than on paper: inputs are put back group by group, and what then comes back is their doing. */
import type { Comparison, InputChange, Inputs } from './input-changes.ts'

/** By sheet and by name of a value or other mark: what is shown. */
export type ShownNow = ReadonlyMap<string, ReadonlyMap<string, string>>

export interface Causes {
  /** the changes that a shown value of a sheet hangs on; empty where none was found */
  readonly of: (sheet: string, name: string) => readonly InputChange[]
}

/** Bound on how many mixtures of inputs are composed; each takes as long as an edit. */
const MOST_TRIED = 32
/** More parts than these are halved before they are tried. */
const MOST_PARTS = 4

/** Marks that read otherwise than now, with what they read. */
type Moved = ReadonlyMap<string, string | undefined>

/**
 * Finds the changes of inputs that shown values hang on.
 *
 *     c is a cause of v  ⇔  v(all as now, c as before) ≠ v(all as now)
 *
 * Changes are put back in groups: all of a file first, then all of a section of it, then each, and many of one kind
 * by halves. A group whose putting back moves nothing that is asked for is left whole. As long as what parts of a group
 * do is just what the group does, the last part is not tried: it does the rest. Changes that undo each other may so be
 * missed.
 *
 * A value that no group brings back is followed on the way from now to then, file by file, and is put down to those at
 * which it changes. Changes that give no binder when they are put back alone, such as a material that a recipe
 * names by now, are put back together. Where too many would have to be tried, a value is put down to a whole group.
 *
 * @param comparison  of the inputs then and now
 * @param asked       by sheet, the names of values whose causes are wanted
 * @param now         what is shown now
 * @param composed    what a mixture of inputs shows; undefined where it is no binder
 * @param most        how many mixtures may be composed
 * @source common practice
 */
export const findCauses = async (
  comparison: Comparison,
  asked: ReadonlyMap<string, readonly string[]>,
  now: ShownNow,
  composed: (inputs: Inputs) => Promise<ShownNow | undefined>,
  most = MOST_TRIED,
): Promise<Causes> => {
  const { changes } = comparison
  const key = (sheet: string, name: string): string => JSON.stringify([sheet, name])
  const names = new Map(
    [...asked].flatMap(([sheet, all]) => all.map((name) => [key(sheet, name), { sheet, name }] as const)),
  )
  const found = new Map<string, Set<InputChange>>()
  const put = (marks: Iterable<string>, group: readonly InputChange[]): void => {
    for (const mark of marks) found.set(mark, new Set([...(found.get(mark) ?? []), ...group]))
  }
  const open = (marks: Iterable<string>): string[] => [...marks].filter((mark) => !found.has(mark))

  let left = most
  const known = new Map<string, Moved | undefined>()
  /** What is moved by putting a group back; nothing where that gives no binder, or none may be composed any more. */
  const moved = async (group: readonly InputChange[]): Promise<Moved | undefined> => {
    const key = group.map((change) => changes.indexOf(change)).join()
    if (!known.has(key)) known.set(key, await tried(group))
    return known.get(key)
  }
  const tried = async (group: readonly InputChange[]): Promise<Moved | undefined> => {
    left -= 1
    const without = await composed(comparison.without(new Set(group)))
    if (!without) return undefined
    const all = new Map<string, string | undefined>()
    for (const [mark, { sheet, name }] of names) {
      const shown = without.get(sheet)?.get(name)
      if (shown !== now.get(sheet)?.get(name)) all.set(mark, shown)
    }
    return all
  }

  /** changes that give no binder when each is put back alone */
  const together: InputChange[] = []
  /** @param known what the whole group moves; undefined where nobody tried */
  const search = async (group: readonly InputChange[], known: Moved | undefined): Promise<void> => {
    if (known && (group.length === 1 || left <= 0)) return put(known.keys(), group)
    const parts = partsOf(group)
    const broken: InputChange[] = []
    const told = new Set<string>()
    /** whether all that parts do so far is what the group does, so that the parts that are left do the rest */
    let isClear = known !== undefined
    for (const [index, part] of parts.entries()) {
      const rest = new Map([...(known ?? [])].filter(([mark]) => !told.has(mark)))
      if (isClear && rest.size === 0) return
      if (left <= 0) {
        put(rest.keys(), [...broken, ...parts.slice(index).flat()])
        return
      }
      const own = isClear && index === parts.length - 1 ? rest : await moved(part)
      if (own && own.size > 0) await search(part, own)
      else if (!own && !known && part.length > 1) await search(part, undefined)
      else if (!own) broken.push(...part)
      for (const mark of own?.keys() ?? []) told.add(mark)
      isClear &&= own !== undefined && [...own].every(([mark, shown]) => known?.get(mark) === shown)
    }
    // shares that make 100 % only together; or changes of which none alone does anything
    if (known)
      put(
        [...known.keys()].filter((mark) => !told.has(mark)),
        broken.length > 0 ? broken : group,
      )
    else together.push(...broken)
  }

  if (changes.length === 0 || names.size === 0) return { of: () => [] }
  const isMany = new Set(changes.map(({ file }) => file)).size > MOST_PARTS
  const all = isMany ? await moved(changes) : undefined
  if (all?.size !== 0) await search(changes, all)
  if (together.length > 0 && open(names.keys()).length > 0 && left > 0) {
    const own = await moved(together)
    if (own) put(open(own.keys()), together)
  }
  if (changes.length > 1 && open(names.keys()).length > 0 && left > 0) {
    const then = all ?? (await moved(changes))
    if (then) await follow(then)
  }
  return { of: (sheet, name) => [...(found.get(key(sheet, name)) ?? [])] }

  /** From now to then one file after the other, by halves of the way. */
  async function follow(then: Moved): Promise<void> {
    const marks = open(then.keys())
    const files = naturalParts(changes)
    const between = async (
      [from, before]: readonly [number, Moved],
      [to, after]: readonly [number, Moved],
    ): Promise<void> => {
      const own = marks.filter((mark) => before.get(mark) !== after.get(mark))
      if (own.length === 0) return
      // the middle first; where it gives no binder, what is nearest to it
      const middle = (from + to) >> 1
      const places = Array.from({ length: to - from - 1 }, (_, index) => from + 1 + index)
      places.sort((a, b) => Math.abs(a - middle) - Math.abs(b - middle))
      for (const place of places) {
        if (left <= 0) break
        const half = await moved(files.slice(0, place).flat())
        if (!half) continue
        await between([from, before], [place, half])
        return between([place, half], [to, after])
      }
      const group = files.slice(from, to).flat()
      const does = group.filter((change) => [...found.values()].some((known) => known.has(change)))
      put(own, does.length > 0 ? does : group)
    }
    await between([0, new Map()], [files.length, then])
  }
}

/** A group taken apart: by files, in one file by the first name in which paths differ; halves where these are many. */
const partsOf = (group: readonly InputChange[]): readonly (readonly InputChange[])[] => {
  const natural = naturalParts(group)
  if (natural.length <= MOST_PARTS) return natural
  const half = natural.length >> 1
  return [natural.slice(0, half).flat(), natural.slice(half).flat()]
}

const naturalParts = (group: readonly InputChange[]): readonly (readonly InputChange[])[] => {
  const deepest = Math.max(...group.map(({ path }) => path.length))
  for (let depth = 0; depth <= deepest; depth += 1) {
    const parts = new Map<string, InputChange[]>()
    for (const change of group) {
      const name = JSON.stringify([change.file, change.path.slice(0, depth)])
      parts.set(name, [...(parts.get(name) ?? []), change])
    }
    if (parts.size > 1) return [...parts.values()]
  }
  return group.map((change) => [change])
}
