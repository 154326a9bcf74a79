/** Makes text safe and honest to print on a terminal, and measures how many columns it takes there. */

/**
 * Replaces every character that could steer a terminal, reorder or hide text by a visible sign.
 *
 * @param text  any text, on one line: line ends become signs too
 * @returns text of printable characters; a tab becomes one space
 * @source common practice
 */
export const visibleText = (text: string): string => text.replace(/\t/g, ' ').replace(UNSAFE, sign)

/**
 * Columns that a character takes on a terminal.
 *
 * @param character  one code point
 * @returns 0 for combining marks, 2 for wide East Asian characters and pictures, else 1 [columns]
 * @source common practice
 */
export function columnsOf(character: string): 0 | 1 | 2 {
  const code = character.codePointAt(0) ?? 0
  if (code < 0x300) return 1
  if (COMBINING.test(character)) return 0
  return WIDE.some(([first, last]) => code >= first && code <= last) ? 2 : 1
}

/** Control, format (direction, zero width), unpaired surrogate, private and line-separator characters. */
const UNSAFE = /[\p{Cc}\p{Cf}\p{Cs}\p{Co}\u2028\u2029]/gu
const COMBINING = /\p{M}/u

/** Blocks of wide characters; from memory after the East Asian Width property, enough to keep a mark in place. */
const WIDE: readonly (readonly [number, number])[] = [
  [0x1100, 0x115f],
  [0x2e80, 0x303e],
  [0x3041, 0xa4cf],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe30, 0xfe6f],
  [0xff00, 0xff60],
  [0xffe0, 0xffe6],
  [0x1f300, 0x1f64f],
  [0x1f680, 0x1f6ff],
  [0x1f900, 0x1f9ff],
  [0x20000, 0x3fffd],
]

const CONTROL_PICTURES = 0x2400 // ␀, one sign for each of the 32 control characters

function sign(character: string): string {
  const code = character.codePointAt(0) ?? 0
  if (code < 0x20) return String.fromCodePoint(CONTROL_PICTURES + code)
  if (code === 0x7f) return '\u2421'
  return `<U+${code.toString(16).toUpperCase().padStart(4, '0')}>`
}
