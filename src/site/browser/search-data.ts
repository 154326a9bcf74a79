/** The list for searching as it lies in `assets/search-index.js`: every line once, every place of a term in few letters. */

/** A stretch of a sheet below one heading. */
export interface Stretch {
  /** place of its sheet in `sheets` */
  readonly sheet: number
  readonly anchor: string
  readonly heading: string
  /** places of its lines in `lines` */
  readonly lines: readonly number[]
}

export interface SearchData {
  readonly sheets: readonly {
    readonly number: string
    readonly title: string
    readonly section: string
    /** below the output folder */
    readonly file: string
  }[]
  readonly stretches: readonly Stretch[]
  readonly lines: PackedLines
  /** all of the library's index but its terms */
  readonly index: Readonly<Record<string, unknown>>
  /** a term, then for each field that has it: the field, and its stretches as steps in base 36, with `*` how often */
  readonly terms: readonly string[]
}

/** Lines in few letters: their words by how often they are used, and each line as places of its words in base 36. */
export interface PackedLines {
  readonly words: string
  readonly lines: readonly string[]
}

export const packedLines = (lines: readonly string[]): PackedLines => {
  const often = new Map<string, number>()
  for (const word of lines.flatMap((line) => line.split(' '))) often.set(word, (often.get(word) ?? 0) + 1)
  const words = [...often].sort(([, one], [, other]) => other - one).map(([word]) => word)
  const places = new Map(words.map((word, place) => [word, place.toString(36)]))
  return {
    words: words.join(' '),
    lines: lines.map((line) =>
      line
        .split(' ')
        .map((word) => places.get(word))
        .join(' '),
    ),
  }
}

/** One line after the other, when it is asked for. */
export const lineReader = ({ words, lines }: PackedLines): ((place: number) => string) => {
  const known = words.split(' ')
  return (place) =>
    (lines[place] ?? '')
      .split(' ')
      .map((word) => known[Number.parseInt(word, 36)] ?? '')
      .join(' ')
}

/** How often, by stretch, by field. */
export type Postings = Readonly<Record<string, Readonly<Record<string, number>>>>

export const packed = (term: string, postings: Postings): string =>
  [
    term,
    ...Object.entries(postings).map(([field, places]) => {
      let before = 0
      const steps = Object.entries(places)
        .map(([place, often]) => [Number(place), often] as const)
        .sort(([one], [other]) => one - other)
        .map(([place, often]) => {
          const step = (place - before).toString(36)
          before = place
          return often === 1 ? step : `${step}*${often}`
        })
      return `${field}=${steps.join(' ')}`
    }),
  ].join('|')

export const unpacked = (line: string): [string, Postings] => {
  const [term = '', ...fields] = line.split('|')
  return [
    term,
    Object.fromEntries(
      fields.map((field) => {
        const [name = '', steps = ''] = field.split('=')
        let at = 0
        return [
          name,
          Object.fromEntries(
            steps.split(' ').map((step) => {
              const [by = '', often = '1'] = step.split('*')
              at += Number.parseInt(by, 36)
              return [at, Number(often)]
            }),
          ),
        ]
      }),
    ),
  ]
}
