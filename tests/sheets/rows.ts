/** A table of a sheet as a reader reads it. */
import { inlineWords } from '../../src/sheets/compose.ts'
import type { Block } from '../../src/sheets/model.ts'

export const rowsOf = (block: Block | undefined): string[][] =>
  block?.kind === 'table'
    ? block.rows.map((row) =>
        row.map((cell) =>
          cell.kind === 'words'
            ? inlineWords(cell.words)
            : cell.kind === 'value'
              ? cell.value.shown
              : cell.kind === 'maker'
                ? cell.text
                : '',
        ),
      )
    : []
