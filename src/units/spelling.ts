/** Finds what a misspelt word was probably meant to be. */
import { distance } from 'fastest-levenshtein'

/**
 * The allowed word nearest to a typed one, if it is near enough to be offered as "did you mean".
 *
 * A word that differs only in capitals always is. Otherwise at most `edits` letters may differ, and fewer than half of
 * the typed ones, so that "mass" is never offered for "wax". Where no word is that near, one that begins with the
 * typed one is offered, or of which it is a whole part, or that is a whole part of it.
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

/** "shea-butter" for "shea", "coconut" for "coco" and for "coconut-oil": of several the shortest. */
const partOf = (typed: string, allowed: readonly string[]): string | undefined =>
  allowed
    .filter((word) => {
      const known = word.toLowerCase()
      const [shorter, longer] = typed.length < known.length ? [typed, known] : [known, typed]
      if (shorter.length < SHORTEST_PART) return false
      return partsOf(longer).includes(shorter) || (shorter === typed && longer.startsWith(shorter))
    })
    .sort((a, b) => a.length - b.length)[0]

const partsOf = (word: string): string[] => word.split(/[\s_-]+/)

const SHORTEST_PART = 3 // [–] characters; common practice

const LONGEST_COMPARED = 60 // [–] characters; longer words are not misspellings; common practice
