/** Where text may have a figure of its own that no value fills: each group with its reason. Nothing else may. */

export interface Allowed {
  readonly why: string
  readonly keys: RegExp
}

export const FIGURES_IN_PHRASES: readonly Allowed[] = [
  { why: 'official wordings carry their codes', keys: /^official\./ },
  { why: 'first aid: a time that no shop changes', keys: /^cautions\.aid\.|^emergency\.(eyes|skin)\.act$/ },
  { why: 'a step, a section or five marked bars, by number', keys: /^(trouble|release|training)\./ },
  {
    why: 'a step or a section of the batch sheet, by number',
    keys: /^(batch|block)\.|^card\.(weigh|blend)\.stop|^finding\.(core-never-cool|cut-window-empty)$/,
  },
  { why: 'what a code of a paper looks like', keys: /^code\.slip\.(length|letters)$/ },
  { why: 'marks on five bars', keys: /^cure\.how\.pick$/ },
  {
    why: 'how sure an interval is',
    keys: /^(cure\.(by-weighing|chart\.fitted)|recipe\.keep\.soft-low|record\.what\.superfat-note)$/,
  },
  {
    why: 'for how much of it a figure counts',
    keys: /^recipe\.(formula|lye|figures|superfat|products|acids)\./,
  },
  { why: 'formulas and what they stand on', keys: /^method\./ },
  { why: 'standards and grades of steel', keys: /^(material|wires\.material|grid\.hardware)\./ },
  { why: 'an angle that names a shape', keys: /^feature\.chamfer\./ },
  {
    why: 'a tolerance that begins at nothing',
    keys: /^(mould|grid)\.inspection\.wider$|^as-built\.passes-more$/,
  },
  { why: 'gears are named as so many to one', keys: /^grid\.string\.first-why$/ },
  { why: 'moments in their order', keys: /^drawing\.bar-cutter\.title\.use-/ },
  { why: 'how exact a printer must be', keys: /^template\.check$/ },
]

export const FIGURES_IN_TEMPLATES: readonly {
  readonly why: string
  readonly of: string
  readonly line: RegExp
}[] = [
  { why: 'headings are numbered', of: 'batch', line: /^## \d / },
  { why: 'first aid: a time that no shop changes', of: 'batch', line: /^\*\*Danger\.\*\* / },
  { why: 'shares are brought to the whole', of: 'recipe', line: /100 %/ },
]

/** In place of what is filled in; no text has it. */
const PLACE = '%%'

/** Text with its placeholders gone. */
export const withoutPlaces = (text: string): string => text.replace(/\[\[[^\]]+\]\]/g, PLACE)

/** Pieces of catalogue text that have a figure of their own, the longest first. */
export const figurePieces = (texts: readonly string[]): string[] =>
  texts
    .flatMap((text) =>
      withoutPlaces(text)
        .replace(/^#+ /gm, '')
        .split(/%%|\n|\*\*/),
    )
    .map((piece) => piece.replace(/\s+/g, ' ').trim())
    .filter((piece) => /\d/.test(piece))
    .sort((a, b) => b.length - a.length)
