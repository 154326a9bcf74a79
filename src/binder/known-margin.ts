/** The margin of the superfat, drawn once for the same weighings: one recipe is planned, shown and priced many times. */

import type { SuperfatInput } from '../chemistry/superfat-input.ts'
import { type SuperfatMargin, superfatMargin } from '../chemistry/superfat-interval.ts'
import { keptByInput } from '../kept-or-made.ts'

const MOST_KNOWN = 256

/** What `superfatMargin` gives, from the second time on without drawing it. */
export const knownMargin: (input: SuperfatInput) => SuperfatMargin = keptByInput(MOST_KNOWN, superfatMargin)
