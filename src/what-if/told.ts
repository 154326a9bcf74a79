/** What a change of the files does, for a person at a terminal: stops and conflicts first, then numbers by their sheets. */

import { columnsOf, visibleText } from '../diagnostics/visible.ts'
import type { Colours } from '../diagnostics.ts'
import { type InputNode, inputText } from '../revisions/input-changes.ts'
import type { Differences, NamedSheet, SheetDifference } from './differences.ts'
import { isToldByNumbers, type Row, rowsOf, type SheetRows } from './rows.ts'
import type { Placed } from './settings.ts'

export interface HungPaper extends NamedSheet {
  readonly where: string
}

export interface Telling {
  readonly settings: readonly Placed[]
  readonly differences: Differences
  /** papers that would be out of date and are not yet */
  readonly papers: readonly HungPaper[]
  /** numbers from 1 of the settings that a number of a sheet hangs on; missing where nobody asked */
  readonly causeOf?: (sheet: string, name: string) => readonly number[]
}

export interface Reader {
  /** all, in place of what matters most */
  readonly all: boolean
  /** columns of the terminal */
  readonly width: number
  readonly colours: Colours
}

const MOST_ROWS = 40
const MOST_DRAWINGS = 2
const MOST_SHEETS = 12
/** On more sheets than these drawings are counted, and those of which no number is told stand together. */
const MANY_SHEETS = 12
const NARROWEST = 40
const WIDEST = 120

/** @returns lines without their ends */
export const linesOf = (telling: Telling, reader: Reader): string[] => {
  const { differences, causeOf } = telling
  const width = Math.min(Math.max(reader.width, NARROWEST), WIDEST)
  const paper = new Paper(width, reader.colours)
  writeSettings(paper, telling)
  const { sheets } = differences
  if (sheets.length === 0 && differences.conflicts.length === 0) {
    paper.gap()
    paper.words('On no sheet would anything read otherwise. Nothing was written.')
    return paper.lines
  }
  const { languages } = differences
  if (languages) {
    paper.gap()
    paper.words(
      `The binder would be in another language, ${languages.after} in place of ${languages.before}: only its numbers are compared.`,
    )
  }
  writeStates(paper, sheets)
  writeConflicts(paper, telling)
  writeComing(paper, sheets, reader.all)
  writePapers(paper, telling.papers, reader.all)
  const most = reader.all ? Number.POSITIVE_INFINITY : MOST_ROWS
  const marked = rowsOf(sheets, most, causeOf ?? (() => []))
  const isSame = causeOf !== undefined && new Set(marked.flatMap((one) => one.rows.map(marksOf))).size === 1
  const rows = isSame ? rowsOf(sheets, most, () => []) : marked
  if (isSame) {
    const [causes = []] = marked.flatMap((one) => one.rows.map((row) => row.causes))
    paper.gap()
    if (causes.length > 0)
      paper.words(`All numbers below hang on ${causes.map((one) => `[${one}]`).join(' and ')}.`)
  }
  const isMany = !reader.all && rows.length > MANY_SHEETS
  const isShort = ({ rows, sheet }: SheetRows): boolean =>
    !reader.all && rows.length === 0 && (isMany || sheet.drawings.length === 0)
  const drawings = reader.all ? Number.POSITIVE_INFINITY : isMany ? 0 : MOST_DRAWINGS
  for (const one of rows) if (!isShort(one)) writeSheet(paper, one, reader.all, drawings)
  writeShort(paper, rows.filter(isShort))
  writeIdle(paper, telling)
  writeSum(paper, sheets, rows, reader.all, drawings)
  return paper.lines
}

/** Lines on a terminal, none wider than it. */
class Paper {
  readonly lines: string[] = []
  readonly width: number
  readonly colours: Colours
  constructor(width: number, colours: Colours) {
    this.width = width
    this.colours = colours
  }
  gap(): void {
    if (this.lines.length > 0 && this.lines.at(-1) !== '') this.lines.push('')
  }
  head(text: string, paint = this.colours.bold): void {
    this.gap()
    for (const line of wrapped(visibleText(text), this.width)) this.lines.push(paint(line))
  }
  words(text: string, indent = '', hanging = indent): void {
    const [first = '', ...others] = wrapped(visibleText(text), this.width - hanging.length)
    this.lines.push(`${indent}${first}`, ...others.map((line) => `${hanging}${line}`))
  }
}

const INDENT = '  '
const DEEPER = '    '

const writeSettings = (paper: Paper, { settings }: Telling): void => {
  paper.head('What if')
  settings.forEach(({ setting, before, after }, index) => {
    const was = before === undefined ? 'not given' : nodeText(before)
    const is = setting.value === undefined ? 'left out' : nodeText(after)
    const number = settings.length > 1 ? `[${index + 1}] ` : ''
    const change = was === is ? `${is}, as it is already` : `${was} → ${is}`
    paper.words(`${number}${setting.address}: ${change}`, INDENT, DEEPER)
  })
}

const LONGEST_NODE = 200
const nodeText = (node: InputNode): string => {
  const text = inputText(node)
  return text.length > LONGEST_NODE ? `${text.slice(0, LONGEST_NODE)} …` : text
}

const nameOf = ({ number, title }: NamedSheet): string => `${number} ${title}`

/** What becomes of a sheet as a whole, in the words of its heading. */
const headOf = ({ change, before = 'good', after }: SheetDifference): string | undefined => {
  if (after === undefined) return undefined
  if (change === 'comes') return after === 'good' ? undefined : `Would come, and be ${after}`
  if (before === after) return undefined
  if (after === 'good') return before === 'stopped' ? 'Would be made again' : 'Would be held no longer'
  if (before === 'stopped') return 'Would be made again, and held'
  return `Would be ${after}`
}

const writeStates = (paper: Paper, sheets: readonly SheetDifference[]): void => {
  const { red, yellow, green } = paper.colours
  const groups = new Map<string, SheetDifference[]>()
  for (const sheet of sheets) {
    const head = headOf(sheet)
    if (head === undefined) continue
    const key = JSON.stringify([head, sheet.after === 'good' ? [] : sheet.reasons])
    groups.set(key, [...(groups.get(key) ?? []), sheet])
  }
  for (const group of [...groups.values()].sort((a, b) => ORDER(a) - ORDER(b))) {
    const [first] = group
    if (!first) continue
    const paint = first.after === 'stopped' ? red : first.after === 'held' ? yellow : green
    paper.head(`${headOf(first)}:`, (text) => paper.colours.bold(paint(text)))
    for (const sheet of group) paper.words(nameOf(sheet), INDENT, DEEPER)
    if (first.after === 'good') continue
    for (const reason of first.reasons) paper.words(`– ${reason}`, DEEPER, `${DEEPER}  `)
  }
}
const STATES = ['stopped', 'held', 'good']
const ORDER = ([first]: readonly SheetDifference[]): number => STATES.indexOf(first?.after ?? 'good')

const writeConflicts = (paper: Paper, { differences: { conflicts } }: Telling): void => {
  const { red, green } = paper.colours
  for (const change of ['comes', 'goes'] as const) {
    const own = conflicts.filter((one) => one.change === change)
    if (own.length === 0) continue
    const paint = change === 'comes' ? red : green
    paper.head(change === 'comes' ? 'New conflicts:' : 'Conflicts that go:', (text) =>
      paper.colours.bold(paint(text)),
    )
    for (const { sheet, reason } of own) paper.words(`${sheet.number}  ${reason}`, INDENT, DEEPER)
  }
}

const writeComing = (paper: Paper, sheets: readonly SheetDifference[], all: boolean): void => {
  for (const change of ['comes', 'goes'] as const) {
    const own = sheets.filter((one) => one.change === change)
    writeList(paper, change === 'comes' ? 'New sheets' : 'Sheets that go', own.map(nameOf), all)
  }
  const moved = sheets.filter(({ numberBefore }) => numberBefore !== undefined)
  writeList(
    paper,
    'Sheets with another number',
    moved.map((one) => `${one.numberBefore} → ${nameOf(one)}`),
    all,
  )
}

const writePapers = (paper: Paper, papers: readonly HungPaper[], all: boolean): void =>
  writeList(
    paper,
    'Papers that would be out of date',
    papers.map((one) => `${nameOf(one)}, ${one.where}`),
    all,
  )

const writeList = (paper: Paper, head: string, items: readonly string[], all: boolean): void => {
  if (items.length === 0) return
  paper.head(`${head} (${items.length}):`)
  for (const item of all ? items : items.slice(0, MOST_SHEETS)) paper.words(item, INDENT, DEEPER)
  if (!all && items.length > MOST_SHEETS) paper.words(`… and ${items.length - MOST_SHEETS} more`, INDENT)
}

const GAP = 2
const ARROW = ' → '
const LONGEST_LABEL = 44
const SHORTEST_LABEL = 24
/** Below it numbers stand on a line of their own. */
const NARROWEST_LABEL = 14
const LONGEST_SHEETS = 20
const LONGEST_NUMBER = 26

const writeSheet = (paper: Paper, { sheet, rows, left }: SheetRows, all: boolean, most: number): void => {
  const drawings = sheet.drawings.slice(0, most)
  const lines = all ? sheet.lines : []
  const more = moreOf({ sheet, rows, left }, lines.length, drawings.length)
  // what is read there stands with the first sheet that has it
  if (rows.length + drawings.length + lines.length + more.length === 0) return
  paper.head(nameOf(sheet))
  writeRows(paper, sheet, rows)
  for (const caption of drawings) {
    const line = `drawing: ${visibleText(caption)}`
    paper.lines.push(`${INDENT}${cut(line, paper.width - INDENT.length)}`)
  }
  for (const { before, now } of lines) {
    if (before !== undefined) paper.words(`before: ${before}`, INDENT, DEEPER)
    if (now !== undefined) paper.words(`after:  ${now}`, INDENT, DEEPER)
  }
  if (more.length > 0)
    for (const line of wrapped(`… ${more.join(', ')}`, paper.width - INDENT.length))
      paper.lines.push(paper.colours.dim(INDENT + line))
}

/** What a sheet has beside what is told of it. */
const moreOf = ({ sheet, rows, left }: SheetRows, lines = 0, drawings = 0): string[] => {
  const notDrawn = sheet.drawings.length - drawings
  return [
    ...(left > 0 ? [counted(left, rows.length > 0 ? 'more number' : 'number')] : []),
    ...(lines < sheet.lines.length ? [counted(sheet.lines.length, 'line', ' of text')] : []),
    ...(notDrawn > 0 ? [counted(notDrawn, drawings > 0 ? 'more drawing' : 'drawing')] : []),
  ]
}

const writeShort = (paper: Paper, sheets: readonly SheetRows[]): void => {
  const told = sheets.filter((one) => moreOf(one).length > 0)
  if (told.length === 0) return
  paper.head('Other sheets')
  for (const one of told) paper.words(`${nameOf(one.sheet)}: ${moreOf(one).join(', ')}`, INDENT, DEEPER)
}

const writeRows = (paper: Paper, sheet: SheetDifference, rows: readonly Row[]): void => {
  const longest = (of: (row: Row) => string, most: number): number =>
    Math.min(most, Math.max(0, ...rows.map((row) => widthOf(of(row)))))
  const marks = longest(marksOf, 12)
  const before = longest((row) => row.before, LONGEST_NUMBER)
  const after = longest((row) => row.after, LONGEST_NUMBER)
  const indent = INDENT.length + (marks === 0 ? 0 : marks + 1)
  const room = paper.width - indent - GAP - before - ARROW.length - after
  // a few sheets beside each row where there is room for them
  const sheets = longest((row) => alsoOn(row, sheet), LONGEST_SHEETS)
  const most = Math.max(SHORTEST_LABEL, room - GAP - sheets)
  const label = Math.max(
    NARROWEST_LABEL,
    Math.min(
      room,
      most,
      Math.max(
        SHORTEST_LABEL,
        longest((row) => row.label, LONGEST_LABEL),
      ),
    ),
  )
  for (const row of rows) {
    const [first = '', ...others] = wrapped(visibleText(row.label), label)
    const numbers = `${padStart(visibleText(row.before), before)}${ARROW}${visibleText(row.after)}`
    const head = INDENT + (marks === 0 ? '' : `${padEnd(marksOf(row), marks)} `)
    const line = `${head}${padEnd(first, label)}${' '.repeat(GAP)}${numbers}`
    const also = alsoOn(row, sheet)
    if (widthOf(line) > paper.width) {
      const [top = '', ...more] = wrapped(visibleText(row.label), paper.width - indent - GAP)
      paper.lines.push(`${head}${top}`, ...more.map((rest) => ' '.repeat(indent + GAP) + rest))
      for (const rest of wrapped(numbers.trimStart(), paper.width - indent - GAP))
        paper.lines.push(' '.repeat(indent + GAP) + rest)
      if (also !== '')
        for (const rest of wrapped(also, paper.width - indent - GAP))
          paper.lines.push(' '.repeat(indent + GAP) + paper.colours.dim(rest))
      continue
    }
    const start = indent + label + GAP + before + ARROW.length + after + GAP
    const isBeside = also !== '' && Math.max(start, widthOf(line) + GAP) + widthOf(also) <= paper.width
    paper.lines.push(isBeside ? padEnd(line, start - GAP) + ' '.repeat(GAP) + paper.colours.dim(also) : line)
    for (const rest of others) paper.lines.push(' '.repeat(indent + GAP) + rest)
    if (also !== '' && !isBeside)
      for (const rest of wrapped(also, paper.width - indent - GAP))
        paper.lines.push(' '.repeat(indent + GAP) + paper.colours.dim(rest))
  }
}

const marksOf = ({ causes }: Row): string => (causes.length === 0 ? '' : `[${causes.join(',')}]`)

const alsoOn = ({ sheets }: Row, own: SheetDifference): string => {
  const others = sheets.filter(({ id }) => id !== own.id)
  return others.length === 0 ? '' : `also on ${others.map(({ number }) => number).join(', ')}`
}

/** Settings that nothing was put down to, beside others that something was. */
const writeIdle = (paper: Paper, { settings, differences: { sheets }, causeOf }: Telling): void => {
  if (!causeOf) return
  const known = new Set(sheets.flatMap(({ id, numbers }) => numbers.flatMap(({ name }) => causeOf(id, name))))
  const idle = settings.flatMap((_, index) => (known.has(index + 1) ? [] : [`[${index + 1}]`]))
  if (idle.length === 0) return
  paper.gap()
  paper.words(`No number was found to hang on ${idle.join(' or ')}.`)
}

const writeSum = (
  paper: Paper,
  sheets: readonly SheetDifference[],
  rows: readonly SheetRows[],
  all: boolean,
  drawings: number,
): void => {
  const told = sheets.filter(isToldByNumbers)
  const sum = (of: (sheet: SheetDifference) => readonly unknown[]): number =>
    told.reduce((all, sheet) => all + of(sheet).length, 0)
  const what = [
    [sum(({ numbers }) => numbers), 'number', ''],
    [sum(({ lines }) => lines), 'line', ' of text'],
    [sum(({ drawings }) => drawings), 'drawing', ''],
  ] as const
  const changed = what.flatMap(([count, noun, after]) => (count > 0 ? [counted(count, noun, after)] : []))
  const isMore =
    !all &&
    rows.some(({ left, sheet }) => left > 0 || sheet.lines.length > 0 || sheet.drawings.length > drawings)
  paper.gap()
  paper.words(
    changed.length === 0
      ? 'No number of any other sheet would change. Nothing was written.'
      : `On ${counted(told.length, 'sheet')} would change: ${changed.join(', ')}.${isMore ? ' With --all every one is told.' : ''} Nothing was written.`,
  )
}

const counted = (count: number, noun: string, after = ''): string =>
  `${count} ${noun}${count === 1 ? '' : 's'}${after}`

const widthOf = (text: string): number => [...text].reduce((sum, one) => sum + columnsOf(one), 0)
const padEnd = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - widthOf(text)))
const padStart = (text: string, width: number): string =>
  ' '.repeat(Math.max(0, width - widthOf(text))) + text

const cut = (text: string, width: number): string => {
  if (widthOf(text) <= width) return text
  const short = [...text].slice(0, width - 2).join('')
  const last = short.lastIndexOf(' ')
  return `${last > width / 2 ? short.slice(0, last) : short} …`
}

/** Lines no wider than a width, broken between words; a word that is wider still is broken in itself. */
const wrapped = (text: string, width: number): string[] => {
  const lines: string[] = []
  let line = ''
  for (const word of text.split(' ')) {
    if (line !== '' && widthOf(line) + 1 + widthOf(word) <= width) line += ` ${word}`
    else {
      if (line !== '') lines.push(line)
      line = word
    }
    while (widthOf(line) > width) {
      lines.push(line.slice(0, width))
      line = line.slice(width)
    }
  }
  return [...lines, line]
}
