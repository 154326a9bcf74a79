/** The make-up of a formula, reckoned once for the same fats: a recipe is asked for it with each of its batches. */

import { type BlendFat, type BlendMakeUp, blendMakeUp } from '../chemistry/blend-make-up.ts'
import { keptByInput } from '../kept-or-made.ts'

const MOST_KNOWN = 128

/** What `blendMakeUp` gives, from the second time on without reckoning. */
export const knownMakeUp: (fats: readonly BlendFat[]) => BlendMakeUp = keptByInput(MOST_KNOWN, blendMakeUp)
