/** Sheets that this process has composed: whoever composes again after an edit waits only for what it changed. */
import { keptOrMade } from '../kept-or-made.ts'
import type { Catalogue } from '../text/catalogue.ts'

/** Sheets of fixtures, and drawings of each of their pieces, that are kept of one catalogue: a dozen fixtures' worth. */
const MOST_KNOWN = 100

const known = new WeakMap<Catalogue, Map<string, Map<string, unknown>>>()
/** Shops, or ways of writing, that are kept of one catalogue. */
const MOST_FRAMES = 8

/**
 * Makes what it is asked for, from the second time on without making it.
 *
 * @param catalogue whose words it is made of
 * @param frame     what else all of it shares, as data
 */
export const composingOnce = (
  catalogue: Catalogue,
  frame: unknown,
): (<Made>(input: unknown, make: () => Made) => Made) => {
  const frames = known.get(catalogue) ?? new Map<string, Map<string, unknown>>()
  known.set(catalogue, frames)
  const own = keptOrMade(frames, MOST_FRAMES, inputText(frame), () => new Map<string, unknown>())
  return <Made>(input: unknown, make: () => Made): Made =>
    keptOrMade(own as Map<string, Made>, MOST_KNOWN, inputText(input), make)
}

/** Bound things as text that tells two of them apart; the files that they were read from are not part of them. */
const inputText = (input: unknown): string =>
  JSON.stringify(input, (key, value: unknown) => {
    if (key === 'document') return undefined
    return value instanceof Map ? [...value] : value
  })
