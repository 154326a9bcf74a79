/** Which sheets are printed for what: a binder has hundreds of pages, and nobody needs all of them at once. */
import { inlineList, words } from './compose.ts'
import type { Frame } from './frame.ts'
import { linkTo } from './links.ts'
import type { Inline, Sheet, Table } from './model.ts'

/** A batch that is not stopped. */
export interface BatchToPrint {
  readonly key: string
  readonly title: string
  /** ISO day of the pour */
  readonly date: string
  /** it is over: nobody works by its sheet any more */
  readonly made: boolean
}

type Ids = (id: string) => boolean
const ids =
  (pattern: RegExp): Ids =>
  (id) =>
    pattern.test(id)

/** What is printed once and for all, before any batch. */
const BEFORE: readonly (readonly [string, Ids])[] = [
  ['wall', ids(/^cautions\/(emergency|lye|spill)$/)],
  ['shelf', ids(/^(trouble|release)$/)],
  ['stations', ids(/^card\/(mould|grid-cut|slice)\//)],
  ['pilot', ids(/^pilot\//)],
  ['stopped', ids(/^card\/stop\//)],
]
/** What is printed for somebody, or for a day. */
const AFTER: readonly (readonly [string, Ids])[] = [
  ['plan', ids(/^(cure\/(plan|racks)|calendar\/.*)$/)],
  ['logs', ids(/^records\//)],
  ['helper', ids(/^(training$|cautions\/)/)],
  [
    'builder',
    ids(
      /^(cautions\/saw$|(fixture|grid-cutter|bar-cutter|wires|trial-frame|lever-press|as-built|router|layout|quote)\/)/,
    ),
  ],
  ['buying', ids(/^supply\/(shopping|stock)$/)],
  ['market', ids(/^market\//)],
  ['papers', ids(/^printed$/)],
]

/**
 * @param others  all other sheets in the order of the binder
 * @param batches all that are not stopped
 * @returns a row for each use that any sheet is for, the sheets of what is left in the last
 */
export const whatToPrint = (
  { say, show }: Frame,
  others: readonly Sheet[],
  batches: readonly BatchToPrint[],
): Table => {
  const made = new Set(batches.flatMap((batch) => (batch.made ? [batch.key] : [])))
  const standing = others.filter(({ stopped }) => !stopped)
  const uses: readonly (readonly [Inline, Ids])[] = [
    ...BEFORE.map(([key, of]) => [say(`uses.${key}`), of] as const),
    ...batches
      .filter(({ made }) => !made)
      .map(
        ({ key, title, date }) =>
          [
            say('uses.batch', { title, date: show.date(`uses.${key}.date`, date) }),
            (id: string) => keyOf(id) === key,
          ] as const,
      ),
    [say('uses.made'), (id) => !id.startsWith('batch/') && made.has(keyOf(id))],
    ...AFTER.map(([key, of]) => [say(`uses.${key}`), of] as const),
    [say('uses.screen'), (id) => !id.startsWith('front/') && !named.has(id)],
  ]
  const named = new Set(
    standing.flatMap(({ id }) => (uses.slice(0, -1).some(([, of]) => of(id)) ? [id] : [])),
  )
  return {
    kind: 'table',
    columns: [
      { head: say('uses.head.what'), align: 'left', width: 46 },
      { head: say('uses.head.sheets'), align: 'left' },
    ],
    rows: uses.flatMap(([what, of]) => {
      const sheets = runs(say, others, (sheet) => !sheet.stopped && of(sheet.id))
      return sheets.length === 0 ? [] : [[words(what), words(inlineList(say, sheets))]]
    }),
  }
}

/** Sheets of a batch end in its key. */
const keyOf = (id: string): string => id.split('/').at(-1) ?? ''

/** From how many sheets on that follow one another only the first and the last are named. */
const RUN = 3

/** @returns numbers of those that hold, as they follow one another in the binder */
const runs = (say: Frame['say'], sheets: readonly Sheet[], holds: (sheet: Sheet) => boolean): Inline[] => {
  const all: Sheet[][] = []
  let isOpen = false
  for (const sheet of sheets) {
    if (holds(sheet)) {
      const last = all.at(-1)
      if (isOpen && last && sectionOf(last[0] as Sheet) === sectionOf(sheet)) last.push(sheet)
      else all.push([sheet])
    }
    isOpen = holds(sheet)
  }
  return all.flatMap((run) => {
    const links = run.map((sheet) => linkTo(sheet))
    const [from, to] = [links[0], links.at(-1)]
    return links.length < RUN || !from || !to ? links : [say('uses.from-to', { from, to })]
  })
}

const sectionOf = ({ number }: Sheet): string => number.split('.')[0] ?? ''
