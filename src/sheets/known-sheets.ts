/** Sheets that this process has composed: whoever composes again after an edit waits only for what it changed. */
import type { Catalogue } from '../text/catalogue.ts'

/** Sheets that are kept of one catalogue, the oldest given up first. */
const MOST_KNOWN = 64

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
  if (own.has(input)) return own.get(input) as Made
  const [oldest] = own.keys()
  if (own.size >= MOST_KNOWN && oldest !== undefined) own.delete(oldest)
  const made = make()
  own.set(input, made)
  return made
}

/** Bound things as text that tells two of them apart; the files that they were read from are not part of them. */
export const inputText = (input: unknown): string =>
  JSON.stringify(input, (key, value: unknown) => {
    if (key === 'document') return undefined
    return value instanceof Map ? [...value] : value
  })
