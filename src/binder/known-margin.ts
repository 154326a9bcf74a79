/** The margin of the superfat, drawn once for the same weighings: one recipe is planned, shown and priced many times. */

import type { SuperfatInput } from '../chemistry/superfat-input.ts'
import { type SuperfatMargin, superfatMargin } from '../chemistry/superfat-interval.ts'
import { keptOrMade } from '../kept-or-made.ts'

/** Margins that this process has drawn: whoever binds again after an edit waits only for what it changed. */
const KNOWN = new Map<string, SuperfatMargin>()
const MOST_KNOWN = 256

/** @returns what `superfatMargin` gives, from the second time on without drawing it */
export const knownMargin = (input: SuperfatInput): SuperfatMargin =>
  keptOrMade(KNOWN, MOST_KNOWN, JSON.stringify(input), () => superfatMargin(input))
