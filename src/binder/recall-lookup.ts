/** What a person means who names a lot, a batch, or the code on a wrapper. */

import { readBatchCode } from '../labelling/batch-code.ts'
import { didYouMean } from '../units/spelling.ts'
import { batchKeyOf } from './batch-keys.ts'
import type { BoundBinder } from './bind.ts'
import { type Recalled, recallOf } from './bind-trace.ts'

export type Looked =
  | { readonly found: Recalled }
  /** a code that is right, of a day with no batch, or with several */
  | { readonly code: string; readonly date: string; readonly batches: readonly string[] }
  /** nothing of that name; one that is spelled alike, and all that there are */
  | { readonly near: string | undefined; readonly known: readonly string[] }

/** By its exact name first, then by the code on a wrapper, then by a name that differs in capitals only. */
export const lookUp = (
  { content, stock, trace }: Pick<BoundBinder, 'content' | 'stock' | 'trace'>,
  typed: string,
): Looked => {
  const called = (name: string | undefined): Recalled | undefined =>
    name === undefined ? undefined : recallOf(content, stock, trace, name)
  const exactly = called(typed)
  if (exactly) return { found: exactly }
  const read = readBatchCode(typed)
  if (read.ok) {
    const { code, date } = read.batch
    // by its day, and among those of one day by the key of its recipe; where that is gone, somebody has to say which is meant
    const ofDay = [...content.batches.values()].filter(({ value }) => value.date === date)
    const ofKey = ofDay.filter(
      ({ value }) => batchKeyOf(value, content.recipes.get(value.recipe)?.value) === read.batch.key,
    )
    const batches = ofKey.length > 0 ? ofKey : ofDay
    const only = batches.length === 1 ? called(batches[0]?.key) : undefined
    return only ? { found: only } : { code, date, batches: batches.map(({ key }) => key) }
  }
  const known = [...trace.lots.map(({ lot }) => lot.lot), ...content.batches.keys()]
  const alike = known.filter((name) => name.toLowerCase() === typed.toLowerCase())
  const found = alike.length === 1 ? called(alike[0]) : undefined
  return found ? { found } : { near: didYouMean(typed, known), known }
}
