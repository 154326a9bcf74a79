/**
 * Width of lettering in Noto Sans 400, so that a drawing is laid out alike on every machine.
 */
import type { TextRun } from './types.ts'

/**
 * Width of a line of text.
 *
 * Formula: sum of the advances x size / 1000; in a fraction the digits and the stroke are the narrow ones.
 * Validity: characters of the table below; any other counts as the widest letter.
 * @param runs pieces of text
 * @param size type size [mm]
 * @returns width [mm]
 * @source common practice
 */
export function textWidth(runs: readonly TextRun[], size: number): number {
  const units = runs.reduce((sum, run) => sum + runUnits(run), 0)
  return (units * size) / 1000
}

/**
 * Splits a shown length into plain text and fractions.
 *
 * Formula: digits, a stroke, digits are a fraction. Validity: one line of text.
 * @param shown e.g. '2 1/4 in'
 * @returns runs in reading order
 * @source common practice
 */
export function textRuns(shown: string): readonly TextRun[] {
  return shown
    .split(/(\d+\/\d+)/)
    .filter((text) => text !== '')
    .map((text) => ({ kind: /^\d+\/\d+$/.test(text) ? 'fraction' : 'plain', text }))
}

export const diameterSignUnits = 900 // thousandths of the type size: circle of capital height and a gap

function runUnits(run: TextRun): number {
  if (run.kind === 'diameter') return diameterSignUnits
  const one = run.kind === 'fraction' ? fractionAdvance : plainAdvance
  return [...run.text].reduce((sum, character) => sum + one(character), 0)
}

// Numerator and denominator digits and the stroke between them, thousandths: measured on the rendered font (computed).
const fractionAdvance = (character: string): number => (character === '/' ? 130 : 350)

const plainAdvance = (character: string): number => advances.get(character) ?? widest

const widest = 930 // thousandths, capital W

// Advances in thousandths of the type size, from the hmtx and cmap tables of the latin 400 file of
// @fontsource/noto-sans 5.3.0 (read). U+202F is not in the font: renderers narrow the space to half (measured).
const charactersByAdvance: Readonly<Record<number, string>> = {
  166: '\u2009',
  175: '‘’',
  225: "'¸",
  232: '′',
  250: '‚',
  258: 'iıjlìíîï',
  260: ' \u00a0',
  268: ',.:;·',
  269: '!¡',
  273: 'J',
  281: '`´',
  300: '()',
  310: '‹',
  322: '-\u00ad',
  329: '[]',
  339: 'IÌÍÎÏ',
  344: 'f',
  350: '²³¹',
  357: 'ª',
  359: '“”',
  361: 't',
  372: '/\\',
  376: '•º',
  380: '{}',
  408: '"″',
  413: 'r',
  416: '„',
  428: '°',
  434: '?¿',
  444: '_',
  470: 'z',
  479: 's',
  480: 'cç',
  500: '–¯',
  508: 'v',
  509: '«»',
  510: 'yýÿ',
  513: '§',
  519: 'F',
  524: 'L',
  529: 'x',
  534: 'k',
  549: 'S',
  551: '*|¦',
  556: 'ETÈÉÊË',
  561: 'aàáâãäå',
  564: 'eèéêë',
  566: 'YÝ',
  572: '$0123456789−+<=>Z^~¢£¤¥¬±×÷',
  580: '¨',
  586: 'X',
  600: 'V',
  605: 'PoÞðòóôõöø',
  615: 'bdgpqþ',
  618: 'hunñùúûü',
  619: 'K',
  622: 'R',
  623: 'µ',
  631: 'ß',
  632: 'CÇ',
  639: 'AÀÁÂÃÄÅ',
  646: '#',
  650: 'B',
  655: '¶',
  728: 'G',
  730: 'DÐ',
  731: 'UÙÚÛÜ',
  732: '&',
  741: 'H',
  745: '¼',
  760: 'NÑ',
  771: '½',
  781: 'QO¾ÒÓÔÕÖØ',
  786: 'w',
  791: '…',
  831: '%',
  832: '©®',
  864: 'æ',
  881: 'Æ',
  899: '@',
  907: 'M',
  928: 'Œ',
  930: 'W',
  935: 'm',
  946: 'œ',
  1000: '—',
}

const advances: ReadonlyMap<string, number> = new Map(
  Object.entries(charactersByAdvance)
    .flatMap(([advance, characters]) =>
      [...characters].map((character): [string, number] => [character, Number(advance)]),
    )
    .concat([['\u202f', 130]]),
)
