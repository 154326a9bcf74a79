/** Which papers no longer show what the binder says, what changed on them and why: for a walk through the shop with a pen. */
import { box, empty, finishSheet, maker, nothing, number, words } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Block, Cell, Inline, Sheet, Value } from '../model.ts'
import { linkTo, PLACES } from '../places.ts'
import { excerpts } from './excerpt.ts'
import {
  type ChangeCause,
  drawingMark,
  lineMark,
  type OutOfDate,
  type Paper,
  type PrintedPapers,
} from './types.ts'

/** A text as a paper shows it, under a name of its own. */
const asShown = (name: string, shown: string, unit = 'text'): Value => ({ name, value: shown, unit, shown })

const NO_PAPERS: PrintedPapers = { outOfDate: [], right: [] }

/** Without papers it holds the page's place, and says how papers are written down. */
export const printedSheet = (frame: Frame, papers: PrintedPapers = NO_PAPERS): Sheet => {
  const { say } = frame
  const { id, number: sheetNumber } = PLACES.printed
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
        words(sheetName(frame, one)),
        number(asShown(`${name}.code`, one.paper.code, 'code')),
        number(show.narrowDate(`${name}.date`, one.paper.date)),
        words(instead(frame, name, one)),
      ]
    }),
  }
}

const sheetName = ({ say }: Frame, { paper, number: before, title, now }: OutOfDate): Inline =>
  now
    ? say('printed.sheet-name', { number: linkTo(now), title: asTitle(now.title) })
    : title !== undefined && before !== undefined
      ? say('printed.sheet-gone', { number: asText(`was.${paper.code}`, before), title: asTitle(title) })
      : asTitle(paper.sheet)

/** A sheet's title with its dates, as the sheet itself has it. */
const asTitle = (title: string): Inline => ({
  text: '[[title]]',
  fill: { title: asShown(`sheet.${title}`, title) },
})

const instead = ({ say }: Frame, name: string, { now }: OutOfDate): Inline =>
  now
    ? say(now.recorded ? 'printed.instead.recorded' : 'printed.instead.new', {
        code: asShown(`${name}.new-code`, now.code, 'code'),
      })
    : say('printed.instead.none')

/** One row of what changed. */
interface Row {
  readonly what: Cell
  readonly was: Cell
  readonly now: Cell
  readonly causes: readonly ChangeCause[] | undefined
}

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
    rows: told.flatMap((one): Cell[][] =>
      rowsOf(frame, nameOf(papers, one), one).map(({ what, was, now, causes }): Cell[] => [
        one.now ? words(linkTo(one.now)) : empty,
        what,
        was,
        now,
        words(causeWords(frame, letters, causes)),
      ]),
    ),
  }
}

const rowsOf = ({ say }: Frame, name: string, { changes, causes }: OutOfDate): Row[] => {
  const none = words(say('printed.nothing'))
  if (!changes) return [{ what: words(say('printed.not-kept')), was: none, now: none, causes: undefined }]
  const shown = (part: string, text: string | undefined): Cell =>
    text === undefined ? none : number(asShown(`${name}.${part}`, text))
  const changed = (
    key: string,
    part: string,
    both: { readonly before: string; readonly now: string } | undefined,
  ): Row[] =>
    both
      ? [
          {
            what: words(say(key)),
            was: shown(`${part}.was`, both.before),
            now: shown(`${part}.now`, both.now),
            causes: causes.get(lineMark(both.now)),
          },
        ]
      : []
  return [
    ...changes.values.map((one, index) => ({
      what: number(asShown(`${name}.value.${index}`, one.label)),
      was: shown(`value.${index}.was`, one.before),
      now: shown(`value.${index}.now`, one.now),
      causes: causes.get(one.name),
    })),
    ...changed('printed.number-of-it', 'number', changes.number),
    ...changed('printed.title-of-it', 'title', changes.title),
    ...(changes.language ? [{ what: words(say('printed.language')), was: none, now: none, causes: [] }] : []),
    ...changes.lines.map((one, index) => {
      const { before, now } = excerpts(one.before, one.now)
      return {
        what: words(say('printed.words')),
        was: shown(`line.${index}.was`, before),
        now: shown(`line.${index}.now`, now),
        causes: causes.get(lineMark(one.now ?? one.before ?? '')),
      }
    }),
    ...changes.drawings.map((label, index) => ({
      what: words(say('printed.drawing', { label: asText(`${name}.drawing.${index}`, label) })),
      was: none,
      now: words(say('printed.drawing-other')),
      causes: causes.get(drawingMark(label)),
    })),
    ...(changes.renumbered
      ? [{ what: words(say('printed.renumbered')), was: none, now: none, causes: undefined }]
      : []),
  ]
}

const asText = (name: string, text: string): Inline => ({
  text: '[[text]]',
  fill: { text: asShown(name, text) },
})

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
  const [first, ...rest] = causes.map((cause) => plain(letters.get(causeKey(cause))?.letter ?? ''))
  return rest.reduce((before, next) => say('printed.and', { before, next }), first as Inline)
}

const plain = (text: string): Inline => ({ text: '[[text]]', fill: { text } })

const causeTable = ({ say }: Frame, letters: Letters): Block => {
  if (letters.size === 0) return nothing
  const none = words(say('printed.nothing'))
  const shown = (name: string, text: string | undefined): Cell =>
    text === undefined ? none : number(asShown(name, text))
  return {
    kind: 'table',
    style: 'changes',
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
      kind === 'added' ? words(say('printed.cause-added')) : shown(`cause.${letter}.was`, before),
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
      words(say('printed.sheet-name', { number: linkTo(now), title: asTitle(now.title) })),
      number(asShown(`right.${index + 1}.code`, paper.code, 'code')),
      number(show.narrowDate(`right.${index + 1}.date`, paper.date)),
    ]),
  }
}
