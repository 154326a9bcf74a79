/** Small helpers that every sheet is composed with: phrases, values, cells, and the finished sheet. */
import type { Catalogue } from '../text/catalogue.ts'
import type { Block, Cell, Inline, Sheet, Source, Stamp, Value } from './model.ts'
import type { Show } from './shown.ts'

export type Fill = Readonly<Record<string, Value | string | Inline>>

/** The catalogue's phrase under a key, with what fills its placeholders. */
export type Say = (key: string, fill?: Fill) => Inline

/** Phrases of one catalogue. @throws Error for a key that the catalogue lacks (a bug) */
export const sayer =
  (catalogue: Catalogue): Say =>
  (key, fill = {}) => {
    const text = catalogue.phrase(key)
    // many phrases of a sheet may be offered the same references; each keeps those that it names
    const named = placeholders(text).filter((name) => Object.hasOwn(fill, name))
    return { text, fill: Object.fromEntries(named.map((name) => [name, fill[name] as Fill[string]])) }
  }

/** One after the other, with what stands between two of them; `none` where there are none. */
export const inlineList = (
  say: Say,
  [first, ...rest]: readonly Inline[],
  none = say('reference.none'),
): Inline => (first ? rest.reduce((before, next) => say('reference.list', { before, next }), first) : none)

/** Numbers one after the other, with what their language puts between two of them. */
export const inlineNumbers = ({ numbersMark }: Show, numbers: readonly Inline[]): Inline => {
  const [first, ...rest] = numbers
  if (!first) throw new Error('No numbers to list.')
  return rest.reduce(
    (before, next) => ({ text: `[[before]]${numbersMark}[[next]]`, fill: { before, next } }),
    first,
  )
}

export const words = (inline: Inline): Cell => ({ kind: 'words', words: inline })
export const number = (value: Value): Cell => ({ kind: 'value', value })
export const maker = (text: string): Cell => ({ kind: 'maker', text })
export const box: Cell = { kind: 'box' }
/** @param of anchors of sheets, the first and the last of those that follow one another */
export const pagesOf = (of: readonly { readonly from: string; readonly to: string }[]): Cell => ({
  kind: 'pages',
  of,
})
export const choices = (of: readonly Inline[]): Cell => ({ kind: 'choices', of })
export const empty: Cell = { kind: 'empty' }
/** A block that a sheet leaves out when there is nothing to say. */
export const nothing: Block = { kind: 'cautions', signal: 'notice', items: [] }
export const typed = (inline: Inline): Cell => ({ kind: 'typed', words: inline })
export const blank = (after?: Inline): Cell => (after ? { kind: 'blank', after } : { kind: 'blank' })

/** An anchor for HTML and PDF from a sheet's id: `batch/2027-03-14-hearth` → `batch-2027-03-14-hearth`. */
export const anchorOf = (id: string): string => id.replaceAll('/', '-')

/** Everything of a sheet but what follows from the rest. */
export type Draft = Omit<Sheet, 'anchor' | 'values'>

/**
 * Completes a sheet: its anchor, and the values that it shows, in the order in which its template and blocks name them.
 * Values that nothing shows are left out, so that what is listed is what the reader sees.
 * @throws Error when two different values share a name
 */
export const finishSheet = (draft: Draft): Sheet => {
  const values = new Map<string, Value>()
  const take = (value: Value): void => {
    const before = values.get(value.name)
    if (before && (before.shown !== value.shown || before.value !== value.value))
      throw new Error(`Two different values are named "${value.name}" on ${draft.id}.`)
    values.set(value.name, value)
  }
  const takeFilling = (filling: Value | string | Inline | undefined): void => {
    if (filling === undefined || typeof filling === 'string') return
    if ('text' in filling) takeInline(filling)
    else take(filling)
  }
  const takeInline = (inline: Inline): void => {
    for (const name of placeholders(inline.text)) takeFilling(inline.fill[name])
  }
  const takeCell = (cell: Cell): void => {
    if (cell.kind === 'value') take(cell.value)
    else if (cell.kind === 'words' || cell.kind === 'typed') takeInline(cell.words)
    else if (cell.kind === 'blank' && cell.after) takeInline(cell.after)
    else if (cell.kind === 'choices') for (const one of cell.of) takeInline(one)
  }
  takeInline(draft.title)
  take(draft.issued)
  takeInline(draft.revision)
  for (const name of placeholders(draft.template)) {
    const block = draft.blocks[name]
    if (block) for (const part of blockParts(block)) 'kind' in part ? takeCell(part) : takeFilling(part)
    else takeFilling(draft.fill[name])
  }
  take(draft.reading.at)
  return { ...draft, anchor: anchorOf(draft.id), values }
}

/** Names between double brackets, in order. */
export const placeholders = (text: string): string[] =>
  [...text.matchAll(/\[\[([^\]\n]+)\]\]/g)].map((match) => (match[1] ?? '').trim())

/** Everything in a block that may hold a value. */
const blockParts = (block: Block): (Cell | Inline | Value)[] => {
  switch (block.kind) {
    case 'table':
      return [
        ...(block.caption ? [block.caption] : []),
        ...block.columns.map((column) => column.head),
        ...block.rows.flat(),
        ...(block.foot ?? []).flat(),
      ]
    case 'steps':
      return block.items.flatMap((step) => [
        ...(step.caution ? [step.caution.words] : []),
        step.text,
        ...(step.why ? [step.why] : []),
        ...(step.blanks ?? []).flatMap(({ label, after, typed }) => [label, typed ?? after ?? []].flat()),
      ])
    case 'facts':
      return block.items.flatMap((item) =>
        item.note ? [item.label, item.cell, item.note] : [item.label, item.cell],
      )
    case 'cautions':
      return block.heading ? [block.heading, ...block.items] : [...block.items]
    case 'figure':
      return [...block.values, block.caption]
    case 'contents':
      return block.entries.map((entry) => entry.title)
    case 'stamp':
      return [block.heading, ...block.items, ...(block.ticks ?? [])]
    case 'card':
      return [
        block.caution.words,
        ...(block.number ? [block.number.label, block.number.words] : []),
        ...(block.picture?.values ?? []),
        ...[block.hold, block.wear, ...block.steps, block.stop, block.from].filter(
          (one) => one !== undefined,
        ),
      ]
    case 'first-aid':
      return [block.always, ...block.items.flatMap(({ where, act }) => [where, act])]
    case 'contacts':
      return [...block.toWrite]
    case 'cases':
      return [
        ...Object.values(block.labels),
        ...block.items.flatMap(({ sign, see, cause, now, verdict, safe, next }) => [
          sign,
          see,
          cause,
          ...now,
          verdict,
          safe,
          next,
        ]),
      ]
    case 'index':
      return [
        ...Object.values(block.heads),
        ...block.groups.flatMap(({ title, items }) => [
          title,
          ...items.flatMap(({ sign, verdict }) => [sign, verdict]),
        ]),
      ]
    case 'month':
      return [
        ...block.weekdays,
        ...block.weeks
          .flat()
          .flatMap(({ day, note, groups }) => [
            ...(day ? [day] : []),
            ...(note ? [note] : []),
            ...groups.flatMap(({ of, tasks }) => [of, ...tasks]),
          ]),
      ]
  }
}

/** What keeps its bars in the shop until somebody did what it says. */
export const holdsOf = ({ blocks }: Pick<Sheet, 'blocks'>): readonly Stamp[] =>
  Object.values(blocks).flatMap((block) => (block.kind === 'stamp' && block.isHold === true ? [block] : []))

/** The sources that a sheet lists: each once, in the order asked for. */
export const pickSources = (all: ReadonlyMap<string, Source>, keys: Iterable<string>): Source[] => {
  const picked = new Map<string, Source>()
  for (const key of keys) {
    const source = all.get(key)
    if (source) picked.set(key, source)
  }
  return [...picked.values()]
}

/** An inline as bare text: its values as shown, Markdown marks gone. @throws Error for a placeholder nothing fills */
export const inlineWords = ({ text, fill }: Inline): string => plainWords(text, fill)

export const plainWords = (text: string, fill: Fill): string =>
  text
    .replace(/\[\[([^\]]+)\]\]/g, (_all, name: string) => {
      const found = filling(name.trim(), fill)
      if (typeof found === 'string') return found
      return 'text' in found ? inlineWords(found) : found.shown
    })
    .replace(/\*\*|\\(?=[*_[\]])/g, '')

/** What fills a placeholder. In our own templates a missing one is a bug; of a maker's page the schema has checked it. */
export const filling = (name: string, fill: Fill): Value | string | Inline => {
  const found = Object.hasOwn(fill, name) ? fill[name] : undefined
  if (found === undefined) throw new Error(`Nothing fills the placeholder [[${name}]].`)
  return found
}
