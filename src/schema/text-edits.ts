/** Edits of a file as it was typed: all else in it stays, remarks and layout too. */
import type { Span } from '../diagnostics.ts'

export interface Edit {
  /** characters that are taken out */
  readonly range: Span
  readonly text: string
}

/** @param edits that do not meet, in any order */
export const edited = (text: string, edits: readonly Edit[]): string =>
  [...edits]
    .sort((one, other) => other.range[0] - one.range[0])
    .reduce((whole, { range: [from, to], text: put }) => whole.slice(0, from) + put + whole.slice(to), text)

/** Where the line begins that a place is on. */
export const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1
/** Where it ends, its end not counted. */
export const lineEnd = (text: string, at: number): number => {
  const end = text.indexOf('\n', at)
  return end < 0 ? text.length : end
}
