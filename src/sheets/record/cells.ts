/** Cells that stay blank on paper until somebody has typed what was written in them. */
import { empty, typed } from '../compose.ts'
import type { Frame } from '../frame.ts'
import type { Cell, Inline, Value } from '../model.ts'

/** What was typed, or an empty cell to write in. */
export const typedOr = (
  { say }: Pick<Frame, 'say'>,
  value: Value | string | Inline | undefined,
  otherwise: Cell = empty,
): Cell => (value === undefined ? otherwise : typed(say('record.typed', { value })))
