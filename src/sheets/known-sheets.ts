/** Sheets that this process has composed: whoever composes again after an edit waits only for what it changed. */
import { keptOrMade } from '../kept-or-made.ts'
import type { Catalogue } from '../text/catalogue.ts'

/** Sheets of fixtures, and drawings of each of their pieces, that are kept of one catalogue: a dozen fixtures' worth. */
const MOST_KNOWN = 100

const known = new WeakMap<Catalogue, Map<string, unknown>>()

/**
 * What `make` gives, from the second time on without making it.
 *
 * @param catalogue whose words it is made of
 * @param input     all else that it is made of, as data
 */
export const composedOnce = <Made>(catalogue: Catalogue, input: string, make: () => Made): Made => {
  const own = known.get(catalogue) ?? new Map<string, unknown>()
  known.set(catalogue, own)
  return keptOrMade(own as Map<string, Made>, MOST_KNOWN, input, make)
}

/** Bound things as text that tells two of them apart; the files that they were read from are not part of them. */
export const inputText = (input: unknown): string =>
  JSON.stringify(input, (key, value: unknown) => {
    if (key === 'document') return undefined
    return value instanceof Map ? [...value] : value
  })
