/** Finds words of one language among those of another. */
import type { Catalogue } from '../../src/text/catalogue.ts'

/** Pieces of text that show which language it is: two words at least, or a long one. */
const piecesOf = (catalogue: Catalogue): ReadonlySet<string> =>
  new Set(
    allTexts(catalogue)
      .flatMap((text) => text.split(/\[\[[^\]]*\]\]|\{[a-z]\}|\*\*|\n|^#+ /m))
      .map((piece) => piece.replace(/^[\s\p{P}\d]+|[\s\p{P}\d]+$/gu, ''))
      .filter((piece) => /\p{L}{2,}[^\p{L}]+\p{L}{2,}|\p{L}{6,}/u.test(piece)),
  )

const allTexts = (catalogue: Catalogue): readonly string[] => [
  ...catalogue.keys.map(catalogue.phrase),
  ...catalogue.sheets.map(catalogue.template),
  ...catalogue.locale.months,
  ...Object.values(catalogue.locale.units),
  catalogue.locale.noon,
  catalogue.locale.midnight,
]

const isLetter = (character: string | undefined): boolean =>
  character !== undefined && /\p{L}/u.test(character)

/** Whether a piece stands in a text, and not within longer words. */
const stands = (text: string, piece: string): boolean => {
  for (let at = text.indexOf(piece); at >= 0; at = text.indexOf(piece, at + 1))
    if (!isLetter(text[at - 1]) && !isLetter(text[at + piece.length])) return true
  return false
}

/**
 * @param texts   of sheets
 * @param foreign whose words are looked for
 * @param own     the language of the sheets
 * @returns pieces of the foreign catalogue in the texts, but those that the own one has as well
 */
export const strangers = (texts: Iterable<string>, foreign: Catalogue, own: Catalogue): readonly string[] => {
  const text = [...texts].join('\n').replace(/\[\[[^\]]*\]\]/g, ' ')
  const ownText = [...allTexts(own), own.locale.name].join('\n')
  return [...piecesOf(foreign)].filter((piece) => stands(text, piece) && !stands(ownText, piece))
}
