/** Finds figures on a page that stand in no value with a name. */
import { readCatalogue } from '../../src/schema/read-catalogue.ts'
import { type Element, hasClass, textNodes } from '../sites/html.ts'
import { figurePieces } from '../text/figures-in-text.ts'

const plain = (text: string): string => text.replace(/\s+/g, ' ').trim()

/** Where figures are no quantities. */
const PLACES: readonly { readonly why: string; readonly is: (element: Element) => boolean }[] = [
  { why: 'a value with its name', is: ({ tag }) => tag === 'data' },
  {
    why: 'a size in a drawing, with its name',
    is: ({ attributes }) => attributes['data-name'] !== undefined,
  },
  { why: 'not seen', is: ({ tag }) => tag === 'style' || tag === 'title' },
  ...[
    ['number of a sheet or of an entry', 'sheet-number'],
    ['the same where it leads there', 'reference'],
    ['number, edition and pages of a sheet', 'title-block'],
  ].map(([why = '', name = '']) => ({ why, is: (element: Element) => hasClass(element, name) })),
]

/** What a text that was filled in may say where it is none of the maker's own words. */
const NAMES: readonly { readonly why: string; readonly like: RegExp }[] = [
  { why: 'number of a sheet', like: /^\d+\.\d+$/ },
  { why: 'tiles of a template', like: /^[A-Z]\d+(, [A-Z]\d+)*$/ },
  { why: 'wires in the order of their tuning', like: /^\d+( – \d+)*$/ },
  {
    why: 'a screw, thread or rod by the name it is sold under',
    like: /^#\d+( x \d\S* in)?$|^(\d )?\d\/\d(-\d+)?( in)?$|^\d in$/,
  },
  { why: 'a fatty acid by its carbons and double bonds', like: /^C\d+:\d(OH)?$/ },
  { why: 'a line as it is typed into a file, for an example', like: /^\d+ (h|F|C|g)$/ },
  {
    why: 'a router file of a part, by its key, and the folder of a fixture',
    like: /^[a-z\d-]+\.dxf$|^dxf\/[^ ]+$/,
  },
  { why: 'the day of the edition', like: /^\d{1,2} \w+ \d{4}$/ },
  { why: 'a file of the maker’s, by its path below the folder', like: /^([a-z]+\/)?[a-z\d-]+\.(yaml|md)$/ },
  {
    why: 'the code of a batch, and its parts',
    like: /^[2-9A-HJ-NP-Z]{3}(-[2-9A-HJ-NP-Z]{1,6}-[2-9A-HJ-NP-Z]{2})?$|^[2-9A-HJ-NP-Z]{2}$/,
  },
  {
    why: 'a colour by its index number, in a list of ingredients',
    like: /^([\p{L} ]+, )*(CI \d{5})(, [\p{L}\d ]+)*$/u,
  },
  {
    why: 'a section of the law',
    like: /^(\d+ CFR|NIST|MoCRA|Cosmetic Regulations|1223\/2009|76\/211\/EEC) /,
  },
]

/** Words of a drawing that count or name, and are no size of what is drawn. */
const IN_DRAWINGS: readonly { readonly why: string; readonly like: RegExp }[] = [
  {
    why: 'how many pieces a part has, as the cut list says',
    like: /, make \d+,?( |$)|^Serves all \d+ pieces/,
  },
  { why: 'scale of a view', like: /, \d+:\d+$|^\d+:\d+(, \d+:\d+)*$/ },
  { why: 'tile of a template', like: /(, tile )?\b[A-Z]\d( of \d)?$|^cut here; [A-Z]\d goes under$/ },
  { why: 'moments of use, one after the other', like: /^\d\.? [A-Z]/ },
  { why: 'how exact a printer must be', like: /^more than \d\.\d mm out, do not use\.$/ },
  { why: 'a part, by the number that the list of parts gives it', like: /^\d{1,2}$/ },
  { why: 'an offcut, by the number that the list of offcuts gives it', like: /^Offcut \d+$/ },
]

const catalogue = readCatalogue('en')

export interface Stray {
  readonly text: string
  readonly in: string
}

/**
 * @param page     of a sheet
 * @param own      texts that the maker typed
 * @param pieces   of the catalogue, that have figures of their own
 * @param shown    values of the sheet, as they are shown
 */
export const strayFigures = (
  page: Element,
  own: ReadonlySet<string>,
  pieces: readonly string[],
  shown: ReadonlySet<string>,
): Stray[] =>
  textNodes(page).flatMap(({ text, around }): Stray[] => {
    const said = plain(text)
    if (!/\d/.test(said) || around.some((element) => PLACES.some(({ is }) => is(element)))) return []
    const innermost = around.at(-1) as Element
    const drawn = around.some(({ tag }) => tag === 'svg')
    if (hasClass(innermost, 'maker') && (own.has(said) || NAMES.some(({ like }) => like.test(said))))
      return []
    if (drawn) {
      // numbers along an axis; a thickness or a count that a drawing repeats is one of the sheet's values
      if (innermost.tag === 'text' && hasClass(innermost, 'value')) return []
      if (shown.has(said) || IN_DRAWINGS.some(({ like }) => like.test(said))) return []
    }
    const left = pieces.reduce((rest, piece) => rest.replace(piece, ''), said)
    return /\d/.test(left)
      ? [
          {
            text: said,
            in: around
              .slice(-3)
              .map(({ tag, attributes }) => `${tag}.${attributes.class ?? ''}`)
              .join(' > '),
          },
        ]
      : []
  })

/** Pieces of all phrases and templates. @param templates their names */
export const catalogueFigures = (templates: readonly string[]): string[] =>
  figurePieces([
    ...catalogue.keys.map((key) => catalogue.phrase(key)),
    ...templates.map((name) => catalogue.template(name)),
  ])

/** Every text in typed content. */
export const textsIn = (
  content: unknown,
  found = new Set<string>(),
  seen = new Set<unknown>(),
): Set<string> => {
  if (typeof content === 'string') found.add(plain(content))
  if (typeof content !== 'object' || content === null || seen.has(content)) return found
  seen.add(content)
  for (const one of content instanceof Map
    ? [...content.keys(), ...content.values()]
    : Object.values(content))
    textsIn(one, found, seen)
  return found
}
