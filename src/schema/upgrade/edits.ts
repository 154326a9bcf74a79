/** Edits of a file as it was typed: all else in it stays, remarks and layout too. */
import type { SourceDocument, Span } from '../../diagnostics.ts'

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

const lineStart = (text: string, at: number): number => text.lastIndexOf('\n', at - 1) + 1
const lineEnd = (text: string, at: number): number => {
  const end = text.indexOf('\n', at)
  return end < 0 ? text.length : end
}

/**
 * Turns the lines of a name and its value into remarks.
 *
 * @param why stands behind the first of them
 * @returns nothing where something else stands on these lines, too
 */
export const asRemark = ({ text, placeOf }: SourceDocument, path: string, why: string): Edit | undefined => {
  const [key, value] = [placeOf(path, 'key'), placeOf(path, 'value')]
  if (!key || !value) return undefined
  const from = lineStart(text, key[0])
  const to = lineEnd(text, value[1])
  const isAlone = /^[ ]*$/.test(text.slice(from, key[0])) && /^[ \t\r]*(#.*)?$/.test(text.slice(value[1], to))
  if (!isAlone) return undefined
  const ends = text.slice(from, to).includes('\r\n') ? '\r\n' : '\n'
  const lines = text
    .slice(from, to)
    .split(/\r?\n/)
    .map((line) => line.replace(/^( *)/, '$1# '))
  return {
    range: [from, to],
    text: [`${/^ */.exec(lines[0] ?? '')?.[0] ?? ''}# ${why}`, ...lines].join(ends),
  }
}
