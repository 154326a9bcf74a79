/** Blocks of a sheet as a reader reads them. */
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Block } from '../../src/sheets/model.ts'

export const rowsOf = (block: Block | undefined): string[][] =>
  block?.kind === 'table'
    ? block.rows.map((row) =>
        row.map((cell) =>
          cell.kind === 'words' || cell.kind === 'typed'
            ? inlineWords(cell.words)
            : cell.kind === 'value'
              ? cell.value.shown
              : cell.kind === 'maker'
                ? cell.text
                : '',
        ),
      )
    : []

/** Thin and fixed spaces as the one of the keyboard. */
export const plain = (text: string): string => text.replace(/[\u202F\u00A0]/g, ' ')

/** Steps, reasons, cautions or rows. */
export const linesOf = (block: Block | undefined): readonly string[] => {
  if (block?.kind === 'steps') return block.items.map(({ text }) => plain(inlineWords(text)))
  if (block?.kind === 'stamp' || block?.kind === 'cautions')
    return block.items.map((one) => plain(inlineWords(one)))
  return rowsOf(block).map((row) => plain(row.join(' | ')))
}

/** The same, each on a line of one text. */
export const saidOf = (block: Block | undefined): string => linesOf(block).join('\n')
