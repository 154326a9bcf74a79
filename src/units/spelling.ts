/** Finds what a misspelt word was probably meant to be. */
import { distance } from 'fastest-levenshtein'

/**
 * The allowed word nearest to a typed one, if it is near enough to be offered as "did you mean".
 *
 * A word that differs only in capitals always is. Otherwise at most `edits` letters may differ, and fewer than half of
 * the typed ones, so that "mass" is never offered for "wax".
 *
 * @param typed    what was written
 * @param allowed  the words that would have been right
 * @param edits    [–] greatest number of letters put in, left out or changed
 * @returns the nearest word, the first listed of equals, or undefined
 * @source common practice
 */
export function didYouMean(typed: string, allowed: readonly string[], edits = 3): string | undefined {
  const folded = typed.toLowerCase()
  const sameLetters = allowed.find((word) => word.toLowerCase() === folded)
  if (sameLetters !== undefined) return sameLetters
  if (typed.length > LONGEST_COMPARED) return undefined
  let nearest: string | undefined
  let fewest = Math.min(edits, Math.ceil(typed.length / 2) - 1) + 1
  for (const word of allowed) {
    if (Math.abs(word.length - typed.length) >= fewest) continue
    const found = distance(folded, word.toLowerCase())
    if (found < fewest) [nearest, fewest] = [word, found]
  }
  return nearest ?? partOf(folded, allowed)
}

/** The shortest allowed word of which the typed one is a whole part: "shea" for "shea-butter". */
const partOf = (typed: string, allowed: readonly string[]): string | undefined =>
  allowed
    .filter((word) => typed.length >= SHORTEST_PART && word.toLowerCase().split('-').includes(typed))
    .sort((a, b) => a.length - b.length)[0]

const SHORTEST_PART = 3 // [–] characters; common practice

const LONGEST_COMPARED = 60 // [–] characters; longer words are not misspellings; common practice
