/** How text becomes terms that are searched, the same when the list is made and when somebody types. */

/** Letters and digits, held together by what stands inside codes and numbers: `4.1`, `N-88`, `2027-03-14`, `C18:1`. */
const TERM = /[\p{L}\p{N}]+(?:[.:/-][\p{L}\p{N}]+)*/gu

/** Small letters without accents; digits of one number together, whatever narrow blank parts them. */
export const folded = (text: string): string =>
  text
    .replace(/(\d)[\u202f\u00a0](?=\d{3})/g, '$1')
    .replaceAll('\u2044', '/')
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()

const whole = (text: string): string[] => folded(text).match(TERM) ?? []

/** Terms of a text: codes as a whole, and their longer parts. */
export const termsOf = (text: string): string[] =>
  whole(text).flatMap((term) => {
    const parts = term.split(/[.:/-]/)
    return parts.length === 1 ? [term] : [term, ...parts.filter((part) => part.length > 1)]
  })

/** Terms of what somebody typed: codes as they stand. */
export const termsAsked = (text: string): string[] => whole(text)

/** One letter or digit is found everywhere; what looks like the number of a sheet leads to that sheet, not to all that name it. */
export const keptTerm = (term: string, field?: string): string | null =>
  term.length < 2 || (field === 'text' && /^\d+\.\d+$/.test(term)) ? null : term

export const FIELDS = ['number', 'title', 'heading', 'text'] as const

export const INDEX_OPTIONS = {
  fields: [...FIELDS],
  tokenize: termsOf,
  processTerm: keptTerm,
}

/** A term is also looked for by its beginning, and with a small slip where it is long and no code. */
export const SEARCH_OPTIONS = {
  tokenize: termsAsked,
  boost: { number: 8, title: 5, heading: 3 },
  prefix: true,
  fuzzy: (term: string): number => (term.length < 4 || /\d/.test(term) ? 0 : term.length < 8 ? 1 : 2),
  weights: { prefix: 0.6, fuzzy: 0.2 },
}
