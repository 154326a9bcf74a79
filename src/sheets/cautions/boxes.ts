/** Boxes of cautions and ticked steps, which all sheets of the section are made of. */
import type { Fill, Say } from '../compose.ts'
import type { Cautions, Signal, Steps } from '../model.ts'

/** A box with its signal word; `heading` is a key of the catalogue, and so are its items. */
export const cautionBox = (
  say: Say,
  signal: Signal,
  heading: string | undefined,
  keys: readonly string[],
  fill: Fill = {},
): Cautions => ({
  kind: 'cautions',
  signal,
  ...(heading === undefined ? {} : { heading: say(heading, fill) }),
  items: keys.map((key) => say(key, fill)),
})

/** Keys that begin alike, each with an end of its own. */
export const under = (start: string, ends: readonly string[]): string[] =>
  ends.map((end) => `${start}.${end}`)

/** Steps to tick, one action a line. */
export const ticked = (say: Say, keys: readonly string[], fill: Fill = {}, first = 1): Steps => ({
  kind: 'steps',
  first,
  items: keys.map((key) => ({ text: say(key, fill) })),
})
