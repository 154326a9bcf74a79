/** What is different between a paper and its sheet as it is now: numbers by name, lines by their words, drawings. */
import { besideEachOther } from '../revisions/alignment.ts'
import type { ShownLine, ShownSheet, ShownValue } from '../sheets/printed/shown-types.ts'
import type { ChangedLine, ChangedValue, SheetChanges } from '../sheets/printed/types.ts'
import { filledLine, namesIn } from './line-text.ts'

/** Units of what somebody may be hurt by who weighs, heats or waits by an old paper. */
const HURTS = new Set(['kg', 'K', 's'])

/** A step's number stands before its words: all of them move when one is put in. */
const STEP = /^\d+\.\t/

interface Line extends ShownLine {
  /** as it is read */
  readonly full: string
  /** without values and numbers of steps: what is compared */
  readonly bare: string
}

/**
 * Lists all that is read otherwise.
 *
 * A value is followed by its name; one that has another name by now is known by its label. Lines are compared
 * without their values, so that a line with other numbers in it is told as numbers.
 */
export const changesOf = (before: ShownSheet, now: ShownSheet): SheetChanges => {
  if (before.language !== now.language) return figuresChanged(before, now)
  const values = changedValues(before, now)
  const told = new Set(values.map(({ name }) => name))
  const { lines, renumbered } = changedLines(linesOf(before), linesOf(now), told)
  return {
    ...(before.number === now.number ? {} : { number: { before: before.number, now: now.number } }),
    ...(before.title === now.title ? {} : { title: { before: before.title, now: now.title } }),
    values,
    lines:
      before.section === now.section
        ? lines
        : [{ before: before.section, now: now.section, safety: false }, ...lines],
    drawings: changedDrawings(before, now),
    renumbered,
  }
}

/**
 * Of papers in two languages: numbers of equal names whose figures differ.
 *
 * Units, months and decimal marks are words of a language; what is left of a number without them is not.
 */
const figuresChanged = (before: ShownSheet, now: ShownSheet): SheetChanges => {
  const nowByName = new Map(now.values.map((value) => [value.name, value]))
  return {
    ...(before.number === now.number ? {} : { number: { before: before.number, now: now.number } }),
    language: before.language,
    values: before.values.flatMap((value): ChangedValue[] => {
      const other = nowByName.get(value.name)
      if (!other || !MEASURED.has(value.unit) || value.unit !== other.unit) return []
      if (figuresOf(value.shown) === figuresOf(other.shown)) return []
      const { name, label } = other
      return [{ name, label, before: value.shown, now: other.shown, safety: HURTS.has(value.unit) }]
    }),
    lines: [],
    drawings: [],
    renumbered: false,
  }
}
const MEASURED = new Set([...HURTS, 'm', 'm3', '1', 'kg/kg'])
/** `1,5 h` and `1.5 h` alike; spaces within a number are none. */
const figuresOf = (shown: string): string =>
  (shown.replace(/(\d)\s+(?=\d)/g, '$1').match(/\d+(?:[.,⁄/:]\d+)*/g) ?? [])
    .map((one) => one.replace(',', '.'))
    .join(' ')

export const hurts = ({ values, lines }: SheetChanges): boolean =>
  [...values, ...lines].some(({ safety }) => safety)

/** A line as it is read: values in their places, a gap between cells. */
export const fullLine = (line: string, values: ReadonlyMap<string, string>): string =>
  filledLine(line, (name) => values.get(name) ?? '').replaceAll('\t', ' · ')

const changedValues = (before: ShownSheet, now: ShownSheet): ChangedValue[] => {
  const nowByName = new Map(now.values.map((value) => [value.name, value]))
  const beforeByName = new Map(before.values.map((value) => [value.name, value]))
  const fresh = now.values.filter(({ name }) => !beforeByName.has(name))
  const renamed = new Map<string, ShownValue>()
  const taken = new Set<ShownValue>()
  for (const value of before.values) {
    if (nowByName.has(value.name)) continue
    const other = fresh.find((one) => !taken.has(one) && one.label === value.label && one.unit === value.unit)
    if (!other) continue
    renamed.set(value.name, other)
    taken.add(other)
  }
  const changed: ChangedValue[] = []
  for (const value of before.values) {
    const other = nowByName.get(value.name) ?? renamed.get(value.name)
    if (other?.shown === value.shown) continue
    changed.push({
      name: other?.name ?? value.name,
      label: other?.label ?? value.label,
      before: value.shown,
      ...(other ? { now: other.shown } : {}),
      safety: HURTS.has(value.unit) || HURTS.has(other?.unit ?? ''),
    })
  }
  for (const value of fresh)
    if (!taken.has(value))
      changed.push({ name: value.name, label: value.label, now: value.shown, safety: HURTS.has(value.unit) })
  return changed
}

const linesOf = ({ lines, values }: ShownSheet): Line[] => {
  const shown = new Map(values.map((value) => [value.name, value.shown]))
  return lines.map((line) => ({
    ...line,
    full: fullLine(line.text, shown),
    bare: filledLine(line.text.replace(STEP, ''), () => '…'),
  }))
}

const changedLines = (
  before: readonly Line[],
  now: readonly Line[],
  told: ReadonlySet<string>,
): { readonly lines: ChangedLine[]; readonly renumbered: boolean } => {
  const lines: ChangedLine[] = []
  let renumbered = false
  const bareOf = (all: readonly Line[]): string[] => all.map(({ bare }) => bare)
  for (const beside of besideEachOther(bareOf(before), bareOf(now), MOST_COMPARED)) {
    const old = beside.before === undefined ? undefined : before[beside.before]
    const fresh = beside.now === undefined ? undefined : now[beside.now]
    if (!beside.isSame || !old || !fresh) {
      lines.push(lineChange(old, fresh))
      continue
    }
    if (old.full === fresh.full) continue
    const withoutStep = (line: Line): string => line.full.replace(/^\d+\. · /, '')
    if (withoutStep(old) === withoutStep(fresh)) renumbered = true
    // numbers that are told by their names are not told again with the whole line
    else if (!namesIn(fresh.text).some((name) => told.has(name))) lines.push(lineChange(old, fresh))
  }
  return { lines, renumbered }
}

const lineChange = (before: Line | undefined, now: Line | undefined): ChangedLine => ({
  ...(before ? { before: before.full } : {}),
  ...(now ? { now: now.full } : {}),
  safety: before?.about !== undefined || now?.about !== undefined,
})

const changedDrawings = (before: ShownSheet, now: ShownSheet): string[] => {
  const had = new Set(before.drawings.map(({ hash }) => hash))
  const has = new Set(now.drawings.map(({ hash }) => hash))
  const fresh = now.drawings.filter(({ hash }) => !had.has(hash)).map(({ label }) => label)
  const gone = before.drawings.filter(({ hash }) => !has.has(hash)).map(({ label }) => label)
  if (fresh.length > 0 || gone.length > 0) return [...new Set([...fresh, ...gone])]
  const inOrder = before.drawings.every(({ hash }, index) => now.drawings[index]?.hash === hash)
  return inOrder && before.drawings.length === now.drawings.length
    ? []
    : now.drawings.map(({ label }) => label)
}

/** The most cells of a table of common lines; beyond it all lines between the equal ends are told. */
const MOST_COMPARED = 4_000_000
