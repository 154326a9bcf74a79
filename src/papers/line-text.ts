/** Lines of a sheet in which values are named, not shown: `Weigh [[naoh.mass]] of it`. */

/** Double brackets of the sheet's own are written as the name of themselves. */
const BRACKETS = '[['
const NAMED = /\[\[(\[\[|[^\]]*)\]\]/g

/** A gap for a value. */
export const gapFor = (name: string): string => `[[${name}]]`

/** Words of the sheet, which may hold double brackets of their own. */
export const plainText = (text: string): string => text.replaceAll(BRACKETS, gapFor(BRACKETS))

/** A line with something in the place of each of its gaps. */
export const filledLine = (line: string, fill: (name: string) => string): string =>
  line.replace(NAMED, (_all, name: string) => (name === BRACKETS ? BRACKETS : fill(name)))

/** Names of the values that stand in a line, in order. */
export const namesIn = (line: string): string[] =>
  [...line.matchAll(NAMED)].map((match) => match[1] ?? '').filter((name) => name !== BRACKETS)
