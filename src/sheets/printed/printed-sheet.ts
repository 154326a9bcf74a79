/** Which papers no longer show what the binder says, what changed on them and why: for a walk through the shop with a pen. */
import { box, empty, finishSheet, maker, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import { linkTo, type Place } from '../links.ts'
import type { Block, Cell, Inline, Sheet, Value } from '../model.ts'
import { excerpts } from './excerpt.ts'
import {
  type ChangeCause,
  drawingMark,
  lineMark,
  type OutOfDate,
  type Paper,
  type PrintedPapers,
} from './types.ts'

/** A code, or what another paper says with figures in it. */
const asShown = (name: string, shown: string, unit: 'code' | 'quoted'): Value => ({
  name,
  value: shown,
  unit,
  shown,
})

/** What another paper says: a value under a name of its own where there are figures in it, else words. */
const quoted = (name: string, text: string): Value | string =>
  /\d/.test(text) ? asShown(name, text, 'quoted') : text
const quotedCell = (name: string, text: string): Cell => {
  const found = quoted(name, text)
  return typeof found === 'string' ? maker(found) : number(found)
}
const quotedWords = (name: string, text: string): Inline => ({
  text: '[[text]]',
  fill: { text: quoted(name, text) },
})

const NO_PAPERS: PrintedPapers = { outOfDate: [], right: [] }

/**
 * Without papers it holds the page's place, and says how papers are written down.
 * @param place that it has in its binder
 */
export const printedSheet = (
  frame: Frame,
  { id, number: sheetNumber }: Place,
  papers: PrintedPapers = NO_PAPERS,
): Sheet => {
  const { say } = frame
  const { outOfDate, right } = papers
  const letters = lettersOf(outOfDate)
  return finishSheet({
    ...frame.sheet('printed', id, say('section.records'), sheetNumber, say('printed.title')),
    template: frame.template('printed'),
    fill: { intro: introOf(frame, papers), note: say('printed.causes-note') },
    blocks: {
      first: downTable(frame, 'printed.first', outOfDate, true),
      other: downTable(frame, 'printed.other', outOfDate, false),
      changes: changeTable(frame, outOfDate, letters),
      causes: causeTable(frame, letters),
      ...(outOfDate.length === 0 ? { note: nothing } : {}),
      right: rightTable(frame, right),
    },
    sources: [],
  })
}

const introOf = ({ say, show }: Frame, { outOfDate, right }: PrintedPapers): Inline => {
  const count = outOfDate.length + right.length
  if (count === 0) return say('printed.none')
  const all = show.count('papers', count)
  if (outOfDate.length === 0) return say('printed.all-right', { count: all })
  return say('printed.count', { wrong: show.count('papers.out-of-date', outOfDate.length), count: all })
}

/** Names of its values: which paper it is of, by its place in the whole list. */
const nameOf = (papers: readonly OutOfDate[], one: OutOfDate): string => `paper.${papers.indexOf(one) + 1}`

const downTable = (frame: Frame, caption: string, papers: readonly OutOfDate[], safety: boolean): Block => {
  const { say, show } = frame
  const listed = papers.filter((one) => one.safety === safety)
  if (listed.length === 0) return nothing
  return {
    kind: 'table',
    style: 'log',
    caption: say(caption),
    columns: [
      { head: say('printed.down'), align: 'centre', width: 7 },
      { head: say('printed.where'), align: 'left', width: 21 },
      { head: say('printed.sheet'), align: 'left' },
      { head: say('printed.on-it'), align: 'left', width: 16 },
      { head: say('printed.date'), align: 'left', width: 13 },
      { head: say('printed.instead'), align: 'left', width: 20 },
    ],
    rows: listed.map((one): Cell[] => {
      const name = nameOf(papers, one)
      return [
        box,
        words(say(`printed.how.${one.paper.how}`, { where: one.paper.where })),
        words(sheetName(frame, name, one)),
        number(asShown(`${name}.code`, one.paper.code, 'code')),
        number(show.narrowDate(`${name}.date`, one.paper.date)),
        words(instead(frame, name, one)),
      ]
    }),
  }
}

const sheetName = (
  { say }: Frame,
  name: string,
  { paper, number: before, title, now }: OutOfDate,
): Inline => {
  // a title with its dates, as the sheet itself has it
  const titled = quotedWords(`${name}.title`, now?.title ?? title ?? paper.sheet)
  // whoever walks looks for the number that stands on the old paper
  if (now && before !== undefined && before !== now.number)
    return say('printed.sheet-renumbered', {
      before: quotedWords(`${name}.number`, before),
      title: titled,
      number: linkTo(now),
    })
  if (now) return say('printed.sheet-name', { number: linkTo(now), title: titled })
  if (title === undefined || before === undefined) return titled
  return say('printed.sheet-gone', { number: quotedWords(`${name}.number`, before), title: titled })
}

const instead = ({ say }: Frame, name: string, { now }: OutOfDate): Inline =>
  now
    ? say(now.recorded ? 'printed.instead.recorded' : 'printed.instead.new', {
        code: asShown(`${name}.new-code`, now.code, 'code'),
      })
    : say('printed.instead.none')

/** One row of what changed; none hang on anything where that is not asked. */
interface Row {
  readonly what: string | Inline
  readonly was?: string
  readonly now?: string | Inline
  readonly causes: readonly ChangeCause[] | undefined | 'none'
  /** somebody may be hurt by it */
  readonly safety: boolean
  readonly places: number
}

/** Of one sheet no more rows are printed: whoever wants all looks where all are. */
const MOST_ROWS = 25

const changeTable = (frame: Frame, papers: readonly OutOfDate[], letters: Letters): Block => {
  const { say } = frame
  // the same paper in two places is told once
  const told = [...new Map(papers.map((one) => [one.paper.code, one])).values()].filter(({ now }) => now)
  if (told.length === 0) return nothing
  return {
    kind: 'table',
    style: 'changes',
    caption: say('printed.changes'),
    columns: [
      { head: say('printed.sheet'), align: 'left', width: 7 },
      { head: say('printed.what'), align: 'left' },
      { head: say('printed.was'), align: 'left', width: 25 },
      { head: say('printed.now'), align: 'left', width: 25 },
      { head: say('printed.because'), align: 'left', width: 11 },
    ],
    rows: told.flatMap((one): Cell[][] => {
      const name = nameOf(papers, one)
      const sheet = one.now ? words(linkTo(one.now)) : empty
      const none = words(say('printed.nothing'))
      const rows = gathered(rowsOf(frame, name, one))
      const shown = rows.slice(0, rows.length > MOST_ROWS ? MOST_ROWS - 1 : MOST_ROWS)
      const cellOf = (part: string, text: string | Inline | undefined): Cell =>
        text === undefined
          ? none
          : typeof text === 'string'
            ? quotedCell(`${name}.${part}`, text)
            : words(text)
      return [
        ...shown.map(({ what, was, now, causes, places }, index): Cell[] => [
          sheet,
          places === 1
            ? cellOf(`${index}.what`, what)
            : words(
                say('printed.places', {
                  what: typeof what === 'string' ? quotedWords(`${name}.${index}.what`, what) : what,
                  count: frame.show.count(`${name}.${index}.places`, places),
                }),
              ),
          cellOf(`${index}.was`, was),
          cellOf(`${index}.now`, now),
          causes === 'none' ? none : words(causeWords(frame, letters, causes)),
        ]),
        ...(shown.length === rows.length
          ? []
          : [
              [
                sheet,
                words(
                  say('printed.more', {
                    count: frame.show.count(`${name}.more`, rows.length - shown.length),
                  }),
                ),
                none,
                none,
                none,
              ],
            ]),
      ]
    }),
  }
}

/** Rows that say the same of several places as one, what may hurt somebody first. */
const gathered = (rows: readonly Row[]): Row[] => {
  const all = new Map<string, Row>()
  for (const row of rows) {
    const isPair = typeof row.what === 'string' && row.was !== undefined && row.now !== undefined
    const key = isPair ? JSON.stringify([row.was, row.now]) : `row ${all.size}`
    const known = all.get(key)
    all.set(
      key,
      known
        ? {
            ...known,
            places: known.places + row.places,
            safety: known.safety || row.safety,
            causes: ofBoth(known.causes, row.causes),
          }
        : row,
    )
  }
  return [...all.values()].sort((a, b) => Number(b.safety) - Number(a.safety))
}

const ofBoth = (one: Row['causes'], other: Row['causes']): Row['causes'] =>
  Array.isArray(one) && Array.isArray(other)
    ? [...new Map([...one, ...other].map((cause) => [causeKey(cause), cause])).values()]
    : one

const rowsOf = ({ say }: Frame, name: string, { changes, causes }: OutOfDate): Row[] => {
  const told = { causes: 'none', safety: false, places: 1 } as const
  if (!changes) return [{ ...told, what: say('printed.not-kept') }]
  const changed = (
    key: string,
    both: { readonly before: string; readonly now: string } | undefined,
  ): Row[] =>
    both
      ? [{ ...told, what: say(key), was: both.before, now: both.now, causes: causes.get(lineMark(both.now)) }]
      : []
  return [
    ...(changes.language === undefined
      ? []
      : [{ ...told, what: say('printed.other-language', { language: changes.language }), safety: true }]),
    ...changes.values.map(
      (one): Row => ({
        what: one.label,
        ...(one.before === undefined ? {} : { was: one.before }),
        ...(one.now === undefined ? {} : { now: one.now }),
        causes: causes.get(one.name),
        safety: one.safety,
        places: 1,
      }),
    ),
    ...changed('printed.number-of-it', changes.number),
    ...changed('printed.title-of-it', changes.title),
    ...changes.lines.map((one): Row => {
      const { before, now } = excerpts(one.before, one.now)
      return {
        what: say('printed.words'),
        ...(before === undefined ? {} : { was: before }),
        ...(now === undefined ? {} : { now }),
        causes: causes.get(lineMark(one.now ?? one.before ?? '')),
        safety: one.safety,
        places: 1,
      }
    }),
    ...changes.drawings.map(
      (label, index): Row => ({
        ...told,
        what: say('printed.drawing', {
          label: quotedWords(`${name}.drawing.${index}`, excerpts(label, undefined).before ?? ''),
        }),
        now: say('printed.drawing-other'),
        causes: causes.get(drawingMark(label)),
      }),
    ),
    ...(changes.renumbered ? [{ ...told, what: say('printed.renumbered') }] : []),
  ]
}

/** What changes hang on, each with the letter that the rows name it by. */
type Letters = ReadonlyMap<string, { readonly letter: string; readonly cause: ChangeCause }>

const causeKey = ({ file, path, kind }: ChangeCause): string => JSON.stringify([file, path, kind])

/** A, B, …, Z, AA, AB, … */
const letterAt = (index: number): string =>
  (index >= ALPHABET.length ? letterAt(Math.floor(index / ALPHABET.length) - 1) : '') +
  (ALPHABET[index % ALPHABET.length] ?? '')
const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ'

const lettersOf = (papers: readonly OutOfDate[]): Letters => {
  const letters = new Map<string, { letter: string; cause: ChangeCause }>()
  for (const { causes } of papers)
    for (const cause of [...causes.values()].flat())
      if (!letters.has(causeKey(cause)))
        letters.set(causeKey(cause), { letter: letterAt(letters.size), cause })
  return letters
}

const causeWords = ({ say }: Frame, letters: Letters, causes: readonly ChangeCause[] | undefined): Inline => {
  if (!causes) return say('printed.cause-unknown')
  if (causes.length === 0) return say('printed.cause-program')
  const inOrder = [...letters].filter(([key]) => causes.some((cause) => causeKey(cause) === key))
  const [first, ...rest] = inOrder.map(([, { letter }]) => plain(letter))
  return rest.reduce((before, next) => say('printed.and', { before, next }), first as Inline)
}

const plain = (text: string): Inline => ({ text: '[[text]]', fill: { text } })

const causeTable = ({ say }: Frame, letters: Letters): Block => {
  if (letters.size === 0) return nothing
  const none = words(say('printed.nothing'))
  const shown = (name: string, text: string | undefined): Cell =>
    text === undefined ? none : quotedCell(name, text)
  return {
    kind: 'table',
    caption: say('printed.causes'),
    columns: [
      { head: say('printed.cause'), align: 'left', width: 9 },
      { head: say('printed.cause-file'), align: 'left', width: 30 },
      { head: say('printed.cause-path'), align: 'left' },
      { head: say('printed.was'), align: 'left', width: 17 },
      { head: say('printed.now'), align: 'left', width: 17 },
    ],
    rows: [...letters.values()].map(({ letter, cause: { file, path, kind, before, now } }) => [
      words(plain(letter)),
      maker(file),
      path.length === 0 ? words(say('printed.cause-whole')) : maker(path.join(': ')),
      kind === 'added'
        ? words(say('printed.cause-added'))
        : kind === 'gone' && before === undefined
          ? words(say('printed.cause-there'))
          : shown(`cause.${letter}.was`, before),
      kind === 'gone' ? words(say('printed.cause-gone')) : shown(`cause.${letter}.now`, now),
    ]),
  }
}

const rightTable = (frame: Frame, right: PrintedPapers['right']): Block => {
  const { say, show } = frame
  if (right.length === 0) return nothing
  const where = ({ how, where: place }: Paper): Inline => say(`printed.how.${how}`, { where: place })
  return {
    kind: 'table',
    caption: say('printed.right'),
    columns: [
      { head: say('printed.where'), align: 'left', width: 30 },
      { head: say('printed.sheet'), align: 'left' },
      { head: say('printed.on-it'), align: 'left', width: 18 },
      { head: say('printed.date'), align: 'left', width: 14 },
    ],
    rows: right.map(({ paper, now }, index) => [
      words(where(paper)),
      words(
        say('printed.sheet-name', {
          number: linkTo(now),
          title: quotedWords(`right.${index + 1}.title`, now.title),
        }),
      ),
      number(asShown(`right.${index + 1}.code`, paper.code, 'code')),
      number(show.narrowDate(`right.${index + 1}.date`, paper.date)),
    ]),
  }
}
