/** Words that make more of a bar than soap. */

export interface Claim {
  /** as it stands in the text */
  readonly word: string
  /** characters before it */
  readonly at: number
  readonly makes: 'cosmetic' | 'drug'
}

/**
 * How such words begin in English and in Spanish; what makes the skin look or smell better, and what treats or prevents.
 * From memory. "Cure" and "cured" are words of soap making, and so are "cura" and "curado"; a germ may be that of wheat.
 */
const BEGINNINGS = {
  cosmetic: [
    'moisturi[sz]', 'hydrat(?:e|es|ing)\\b', 'deodor', 'exfoliat', 'nourish', 'soften(?:s|ing)?\\b', 'smooth(?:s|ing|er)\\b',
    'anti-?ag(?:e|ing|eing)\\b', 'anti-?wrinkle', 'brighten', 'beautif', 'condition(?:s|ing)\\b', 'rejuvenat', 'revitali[sz]',
    'perfum(?:e|es|ing)\\b',
    'hidrata', 'humect', 'desodor', 'exfoli', 'nutre(?:n)?\\b', 'nutritiv', 'suaviza', 'antiedad', 'antiarrugas',
    'ilumina', 'blanquea', 'embellec', 'acondicion', 'rejuvenec', 'reafirma', 'perfuma(?:n|do|da)?\\b',
  ],
  drug: [
    'acne', 'eczema', 'psoriasis', 'dermatitis', 'rosacea', 'anti-?bacteri', 'anti-?fung', 'anti-?sept', 'anti-?microb',
    'anti-?inflammat', 'germs\\b', 'germicid', 'disinfect', 'heal(?:s|ing)?\\b', 'cures\\b', 'treat(?:s|ing|ment|ments)?\\b', 'medicat',
    'medicin', 'therap', 'kills?\\b', 'sunscreen', 'repel',
    'acné', 'eccema', 'rosácea', 'antifúng', 'antimic', 'antiséptic', 'gérmenes', 'desinfect', 'cicatriz', 'sana(?:n|r)?\\b',
    'curativ', 'trata(?:n|r|mientos?)?\\b', 'medicament', 'terap', 'alivia', 'mata(?:n|r)?\\b', 'protector(?:es)? solar',
  ],
} as const // biome-ignore format: lists read better in rows

const PATTERNS = (['cosmetic', 'drug'] as const).map((makes) => ({
  makes,
  // not within a word: "Lacnea" is a name
  pattern: new RegExp(`(?<![\\p{L}\\p{N}])(?:${BEGINNINGS[makes].join('|')})[\\p{L}-]*`, 'giu'),
}))

/**
 * Claims in a text, English and Spanish only.
 *
 *     a word that begins as one of the list does
 *
 * What the words around it say is not understood: "does not moisturise" is found, too. And a claim in other words is
 * not: a text in which nothing is found may make one all the same.
 *
 * @param text of a label or of a page that sells the bar
 * @returns words with their places, in the order of the text
 * @source cfr-21-701-20, common practice
 */
export const claimsIn = (text: string): Claim[] =>
  PATTERNS.flatMap(({ makes, pattern }) =>
    [...text.matchAll(pattern)].map((match): Claim => ({ word: match[0], at: match.index, makes })),
  ).sort((a, b) => a.at - b.at)
