/** Looks something up in the list for searching. */
import MiniSearch, { type AsPlainObject, type Query, type SearchResult } from 'minisearch'
import { lineReader, type SearchData, unpacked } from './search-data.ts'
import { INDEX_OPTIONS, SEARCH_OPTIONS, termsAsked, termsOf } from './search-terms.ts'

export interface Found {
  readonly number: string
  readonly title: string
  readonly section: string
  readonly heading: string
  /** below the output folder, with the place on the page */
  readonly href: string
  /** a line that has what was asked for, in pieces: each second one is what was found */
  readonly snippet: readonly string[]
}

/** Letters of a snippet. */
const LONGEST = 120

/**
 * @param same what is written in two ways: `NaOH = sodium hydroxide; …`
 * @returns a function that finds places, best first
 */
export const searcher = (data: SearchData, same = ''): ((query: string) => readonly Found[]) => {
  const index = MiniSearch.loadJS(
    { ...data.index, index: data.terms.map(unpacked) } as unknown as AsPlainObject,
    {
      ...INDEX_OPTIONS,
    },
  )
  const pairs = same.split(';').map((pair) => pair.split('=').map((side) => termsAsked(side).join(' ')))
  const inOtherWords = (query: string): string[] => {
    const terms = termsAsked(query)
    const other = terms.map((term) => pairs.find(([short]) => short === term)?.[1] ?? term)
    return other.some((term, index) => term !== terms[index]) ? [other.join(' ')] : []
  }
  const lineAt = lineReader(data.lines)
  return (query) => {
    const asked: Query = { combineWith: 'OR', queries: [query, ...inOtherWords(query)].map(allOf) }
    const all = index.search(asked)
    const results = all.length > 0 ? all : index.search(query, { ...SEARCH_OPTIONS, combineWith: 'OR' })
    return results.flatMap((result) => foundIn(data, lineAt, result) ?? [])
  }
}

/** Every word of a query must be there. */
const allOf = (query: string): Query => ({ ...SEARCH_OPTIONS, combineWith: 'AND', queries: [query] })

const foundIn = (
  data: SearchData,
  lineAt: (place: number) => string,
  { id, terms }: SearchResult,
): Found | undefined => {
  const stretch = data.stretches[id as number]
  const sheet = stretch && data.sheets[stretch.sheet]
  if (!stretch || !sheet) return undefined
  const { number, title, section, file } = sheet
  return {
    number,
    title,
    section,
    heading: stretch.heading,
    href: `${file}#${stretch.anchor}`,
    snippet: snippetOf(stretch.lines.map(lineAt), new Set(terms)),
  }
}

/** The line that has most of the terms, cut to length round the first of them. */
const snippetOf = (lines: readonly string[], terms: ReadonlySet<string>): readonly string[] => {
  let [best, most] = [lines[0] ?? '', 0]
  for (const line of lines) {
    const here = new Set(termsOf(line).filter((term) => terms.has(term))).size
    if (here > most) [best, most] = [line, here]
  }
  const words = best.split(/([\s(),;“”"]+)/)
  const isHit = (word: string): boolean => termsOf(word).some((term) => terms.has(term))
  const first = Math.max(0, words.findIndex(isHit))
  let [from, to, length] = [first, first, words[first]?.length ?? 0]
  while (length < LONGEST && (from > 0 || to < words.length - 1)) {
    if (to < words.length - 1) length += words[++to]?.length ?? 0
    if (from > 0 && length < LONGEST) length += words[--from]?.length ?? 0
  }
  const pieces: string[] = [from > 0 ? '…' : '']
  for (const word of words.slice(from, to + 1)) {
    const hit = isHit(word)
    if (hit === (pieces.length % 2 === 0)) pieces[pieces.length - 1] += word
    else pieces.push(word)
  }
  if (to < words.length - 1) {
    if (pieces.length % 2 === 0) pieces.push('…')
    else pieces[pieces.length - 1] += '…'
  }
  return pieces
}
