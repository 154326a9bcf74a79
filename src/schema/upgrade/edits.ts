/** Lines that an upgrade takes out of use. */
import type { SourceDocument } from '../../diagnostics.ts'
import { type Edit, lineEnd, lineStart } from '../text-edits.ts'

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
