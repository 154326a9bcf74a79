/** Which sheets are printed for what: a binder has hundreds of pages, and nobody needs all of them at once. */
import { inlineList, pagesOf, words } from './compose.ts'
import type { Frame } from './frame.ts'
import { linkTo, sectionOf } from './links.ts'
import type { Cell, Inline, Sheet, Table } from './model.ts'
import { BATCH_KIN } from './places.ts'

/** A batch that is not stopped. */
export interface BatchToPrint {
  readonly key: string
  readonly title: string
  /** ISO day of the pour */
  readonly date: string
  /** it is over: nobody works by its sheet any more */
  readonly made: boolean
}

type Holds = (sheet: Sheet) => boolean
/** What stands and has an id like this. */
const ids =
  (pattern: RegExp): Holds =>
  ({ id, stopped }) =>
    !stopped && pattern.test(id)

/** What is printed once and for all, before any batch. */
const BEFORE: readonly (readonly [string, Holds])[] = [
  ['wall', ids(/^cautions\/(emergency|lye|spill)$/)],
  ['shelf', ids(/^(trouble|release)$/)],
  ['stations', ids(/^card\/(mould|grid-cut|slice)\//)],
  ['pilot', ids(/^pilot\//)],
  ['stopped', ({ id, stopped }) => id.startsWith('card/stop/') || stopped !== undefined],
]
/** What is printed for somebody, or for a day. */
const AFTER: readonly (readonly [string, Holds])[] = [
  ['plan', ids(/^(cure\/(plan|racks)|calendar\/.*)$/)],
  ['logs', ids(/^records\//)],
  ['helper', ids(/^(training$|cautions\/)/)],
  [
    'builder',
    ids(
      /^(cautions\/(wire|saw)$|(fixture|grid-cutter|bar-cutter|wires|trial-frame|lever-press|as-built|layout)\/)/,
    ),
  ],
  ['router', ids(/^router\//)],
  ['quote', ids(/^quote\//)],
  ['buying', ids(/^supply\/(shopping|stock)$/)],
  ['market', ids(/^market\//)],
  ['papers', ids(/^printed$/)],
  ['own', ids(/^page\//)],
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
  const uses: readonly (readonly [Inline, Holds])[] = [
    ...BEFORE.map(([key, holds]) => [say(`uses.${key}`), holds] as const),
    ...batches
      .filter((batch) => !batch.made)
      .map(
        ({ key, title, date }) =>
          [
            say('uses.batch', { title, date: show.date(`uses.${key}.date`, date) }),
            (sheet: Sheet) => !sheet.stopped && keyOf(sheet) === key,
          ] as const,
      ),
    [
      say('uses.made'),
      (sheet) => !sheet.stopped && !sheet.id.startsWith('batch/') && made.has(keyOf(sheet) ?? ''),
    ],
    ...AFTER.map(([key, holds]) => [say(`uses.${key}`), holds] as const),
  ]
  const isNamed: Holds = (sheet) => uses.some(([, holds]) => holds(sheet))
  const rest: Holds = (sheet) => !sheet.id.startsWith('front/') && !isNamed(sheet)
  return {
    kind: 'table',
    columns: [
      { head: say('uses.head.what'), align: 'left', width: 38 },
      { head: say('uses.head.sheets'), align: 'left', width: 28 },
      { head: say('uses.head.pages'), align: 'left' },
    ],
    rows: [...uses, [say('uses.screen'), rest] as const].flatMap(([what, holds]) => {
      const found = runs(others, holds)
      const numbers = found.flatMap((run) => numbersOf(say, run))
      return found.length === 0 ? [] : [[words(what), words(inlineList(say, numbers)), pagesIn(found)]]
    }),
  }
}

const OF_BATCH = ['batch/', ...BATCH_KIN.map(([begins]) => begins)]
/** Key of the batch that a sheet is of; other things may have the same. */
const keyOf = ({ id }: Sheet): string | undefined => {
  const begins = OF_BATCH.find((one) => id.startsWith(one))
  return begins === undefined ? undefined : id.slice(begins.length)
}

/** From how many sheets on that follow one another only the first and the last are named. */
const RUN = 3

/** @returns those that hold, together where they follow one another in a section of the binder */
const runs = (sheets: readonly Sheet[], holds: Holds): (readonly [Sheet, ...Sheet[]])[] => {
  const all: [Sheet, ...Sheet[]][] = []
  let isOpen = false
  for (const sheet of sheets) {
    const last = all.at(-1)
    if (!holds(sheet)) isOpen = false
    else if (isOpen && last && sectionOf(last[0]) === sectionOf(sheet)) last.push(sheet)
    else {
      all.push([sheet])
      isOpen = true
    }
  }
  return all
}

const numbersOf = (say: Frame['say'], run: readonly [Sheet, ...Sheet[]]): readonly Inline[] => {
  const links = run.map((sheet) => linkTo(sheet))
  const [from, to] = [links[0], links.at(-1)]
  return links.length < RUN || !from || !to ? links : [say('uses.from-to', { from, to })]
}

const pagesIn = (all: readonly (readonly [Sheet, ...Sheet[]])[]): Cell =>
  pagesOf(all.map((run) => ({ from: run[0].anchor, to: (run.at(-1) ?? run[0]).anchor })))
