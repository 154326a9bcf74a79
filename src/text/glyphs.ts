/** Knows which characters the shipped fonts can print, so that no text comes out of the printer as an empty box. */

/**
 * The characters of a text that the shipped fonts cannot print, each once, in the order of the text.
 *
 * Line ends are not looked at: whoever lays out text handles them.
 *
 * @param text  any text, best in Unicode normal form C
 * @returns the characters, code point by code point; empty if all can be printed
 * @source noto-sans-fontsource
 */
export const unprintable = (text: string): string[] =>
  PLAIN.test(text) ? [] : [...new Set(text)].filter((character) => !isPrintable(character))

const PLAIN = /^[\x20-\x7e\n]*$/

function isPrintable(character: string): boolean {
  if (character === '\n') return true
  const code = character.codePointAt(0) ?? 0
  return PRINTABLE.some(([first, last]) => code >= first && code <= last)
}

/**
 * Code points in the character maps of both the sans and the monospaced family, latin and latin-ext files, regular and
 * bold, as far as a browser takes them from there: it looks only in files in whose range a character is, and that
 * of the accents U+0300 is none of ours. Computed from the shipped files, and compared with them by a test. Left out
 * although mapped: control characters, the soft hyphen, zero-width characters and the replacement sign.
 *
 * Not in the fonts, although often wanted: U+202F (narrow no-break space), ⅛ ⅜ ⅝ ⅞, → ≤ ≥ ≈ and Greek letters.
 */
const PRINTABLE: readonly (readonly [number, number])[] = [
  [0x20, 0x7e],
  [0xa0, 0xac],
  [0xae, 0x2cc],
  [0x2ce, 0x2d7],
  [0x2da, 0x2da],
  [0x2dc, 0x2ff],
  [0x304, 0x304],
  [0x308, 0x308],
  [0x329, 0x329],
  [0x1d00, 0x1dbf],
  [0x1e00, 0x1e9f],
  [0x1ef2, 0x1eff],
  [0x2002, 0x2002],
  [0x2009, 0x2009],
  [0x2013, 0x2014],
  [0x2018, 0x201a],
  [0x201c, 0x201e],
  [0x2020, 0x2020],
  [0x2022, 0x2022],
  [0x2026, 0x2026],
  [0x2032, 0x2033],
  [0x2039, 0x203a],
  [0x2044, 0x2044],
  [0x20a0, 0x20c0],
  [0x2113, 0x2113],
  [0x2122, 0x2122],
  [0x2212, 0x2212],
  [0x2c60, 0x2c7f],
  [0xa720, 0xa7ca],
  [0xa7d0, 0xa7d1],
  [0xa7d3, 0xa7d3],
  [0xa7d5, 0xa7d9],
  [0xa7f2, 0xa7ff],
]
