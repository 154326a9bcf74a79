/** Cuts the lines round a place out of a text and puts a row of marks under it. */
import { columnsOf, visibleText } from './visible.ts'

export interface FrameLine {
  readonly text: string
  /** true for the row of marks */
  readonly marks: boolean
}

/** Offsets at which the lines of a text begin; CR, LF and CR LF end a line. */
export function lineStarts(text: string): readonly number[] {
  const starts = [0]
  for (const { index, 0: end } of text.matchAll(/\r\n|\n|\r/g)) starts.push(index + end.length)
  return starts
}

/**
 * Line and column of an offset, both counted from 1.
 *
 * @param text    the whole text
 * @param starts  from lineStarts
 * @param offset  [–] code units from the start of the text
 * @returns the column counts characters, a tab as one
 * @source common practice
 */
export function placeInLines(
  text: string,
  starts: readonly number[],
  offset: number,
): { line: number; column: number } {
  const index = lineIndexOf(starts, offset)
  const before = text.slice(starts[index], offset)
  return { line: index + 1, column: [...before].length + 1 }
}

/**
 * The marked line with its neighbours and a row of carets; long lines are cut round the mark.
 *
 * @param text    the whole text
 * @param starts  from lineStarts
 * @param span    [–] offsets of what is marked; only its first line is
 * @returns up to three lines of text and one of marks
 * @source common practice
 */
export function codeFrame(
  text: string,
  starts: readonly number[],
  span: readonly [number, number],
): FrameLine[] {
  const index = lineIndexOf(starts, span[0])
  const first = Math.max(0, index - 1)
  const last = Math.min(starts.length - 1, index + 1)
  const markedStart = starts[index] ?? 0
  // Of a line as long as a book only the part round the mark is looked at.
  const skipped = Math.max(0, span[0] - markedStart - LOOKED_AT)
  const lineText = (line: number): string =>
    text
      .slice(starts[line], starts[line + 1])
      .replace(/[\r\n]+$/, '')
      .slice(skipped, skipped + 3 * LOOKED_AT)
  const marked = lineText(index)
  const from = Math.min(span[0] - markedStart - skipped, marked.length)
  const to = Math.min(Math.max(span[1] - markedStart - skipped, from + 1), Math.max(marked.length, from + 1))
  const cells = cellsOf(marked)
  const before = columnsUpTo(cells, from)
  const width = Math.max(1, columnsUpTo(cells, to) - before)
  const cut = Math.max(0, before + Math.min(width, LONGEST_MARK) + MARGIN - WINDOW)
  const digits = String(last + 1).length
  const gutter = (label: string): string => `${label.padStart(digits + 2)} | `
  const lines: FrameLine[] = []
  for (let line = first; line <= last; line += 1) {
    const content = lineText(line)
    const isLastEmpty = line === starts.length - 1 && content === '' && line !== index
    if (isLastEmpty) continue
    lines.push({ text: (gutter(String(line + 1)) + windowOf(cellsOf(content), cut)).trimEnd(), marks: false })
    if (line === index) {
      const carets = '^'.repeat(Math.min(width, WINDOW - (before - cut)))
      lines.push({ text: gutter('') + ' '.repeat(before - cut) + carets, marks: true })
    }
  }
  return lines
}

interface Cell {
  readonly shown: string
  readonly columns: number
  /** offset in the line at which the character begins */
  readonly offset: number
}

const WINDOW = 100 // columns of a line that are shown; common practice
const MARGIN = 20 // columns kept after the mark; common practice
const LONGEST_MARK = 60 // columns of the mark that are kept in view; common practice
const LOOKED_AT = 300 // characters before the mark; common practice
const TAB = '    '

function lineIndexOf(starts: readonly number[], offset: number): number {
  let [low, high] = [0, starts.length - 1]
  while (low < high) {
    const middle = Math.ceil((low + high) / 2)
    if ((starts[middle] ?? 0) <= offset) low = middle
    else high = middle - 1
  }
  return low
}

function cellsOf(line: string): Cell[] {
  const cells: Cell[] = []
  let offset = 0
  for (const character of line) {
    const shown = character === '\t' ? TAB : visibleText(character)
    const columns = shown === character ? columnsOf(character) : shown.length
    cells.push({ shown, columns, offset })
    offset += character.length
  }
  return cells
}

const columnsUpTo = (cells: readonly Cell[], offset: number): number =>
  cells.reduce((sum, cell) => (cell.offset < offset ? sum + cell.columns : sum), 0)

/** The part of a line between two columns, with a sign where something was left out. */
function windowOf(cells: readonly Cell[], from: number): string {
  let column = 0
  let shown = ''
  for (const cell of cells) {
    const start = column
    column += cell.columns
    if (start < from) {
      // A wide character across the edge leaves blanks, so that everything after it stays in its column.
      if (column > from) shown += ' '.repeat(column - from)
      continue
    }
    if (column - from > WINDOW) return `${leftSign(shown, from)}…`
    shown += cell.shown
  }
  return leftSign(shown, from)
}

const leftSign = (shown: string, from: number): string =>
  from > 0 && shown !== ''
    ? `…${' '.repeat(Math.max(0, columnsOf([...shown][0] ?? '') - 1))}${[...shown].slice(1).join('')}`
    : shown
