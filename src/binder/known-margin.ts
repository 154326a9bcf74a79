/** The margin of the superfat, drawn once for the same weighings: one recipe is planned, shown and priced many times. */

import type { SuperfatInput } from '../chemistry/superfat-input.ts'
import { type SuperfatMargin, superfatMargin } from '../chemistry/superfat-interval.ts'

/** Margins that this process has drawn: whoever binds again after an edit waits only for what it changed. */
const KNOWN = new Map<string, SuperfatMargin>()
const MOST_KNOWN = 256

/** @returns what `superfatMargin` gives, from the second time on without drawing it */
export const knownMargin = (input: SuperfatInput): SuperfatMargin => {
  const key = JSON.stringify(input)
  const before = KNOWN.get(key)
  if (before) return before
  const margin = superfatMargin(input)
  const [oldest] = KNOWN.keys()
  if (KNOWN.size >= MOST_KNOWN && oldest !== undefined) KNOWN.delete(oldest)
  KNOWN.set(key, margin)
  return margin
}
