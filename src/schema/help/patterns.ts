/** How values are typed, as patterns that an editor checks while somebody types. They let through all that the program reads. */
import { KINDS, type QuantityKind, spellingsOf } from '../../units.ts'

/** Spaces that a keyboard or a copied text brings; plainNumberText makes plain ones of them. */
const SPACE = '[ \\t\\u00a0\\u2007\\u2009\\u202f]'
const WHOLE = '(?:0|[1-9]\\d*)'
const DECIMAL = `${WHOLE}(?:\\.\\d+)?`
const FRACTION = `(?:${WHOLE}(?:${SPACE}|-))?${WHOLE}${SPACE}?[/\\u2044]${SPACE}?${WHOLE}`
/** 2¼, and 2-¼ */
const SIGN = `(?:${WHOLE}(?:-|${SPACE}*))?[¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]`
const NUMBER = `(?:${FRACTION}|${SIGN}|${DECIMAL})`
const MINUS = '[-\\u2212]'

/** Kinds that may be typed in parts, as 2 lb 3 oz. */
const IN_PARTS: ReadonlySet<QuantityKind> = new Set(['length', 'mass', 'volume', 'duration'])

/** Nothing before and after it but what trimming takes away. */
const whole = (inner: string): string => `^\\s*${inner}\\s*$`

const escaped = (text: string): string => text.replace(/[\^$\\.*+?()[\]{}|/]/g, '\\$&')

const quantityOf = (kind: QuantityKind): string => {
  const unit = `(?:${spellingsOf(kind)
    .map((spelling) => escaped(spelling).replaceAll(' ', SPACE))
    .join('|')})`
  const part = `${NUMBER}\\s*${unit}`
  const parts = IN_PARTS.has(kind) ? `(?:${part}${SPACE}*(?:-${SPACE}*)?)*` : ''
  return `${KINDS[kind].mayBeNegative ? `(?:${MINUS}\\s*)?` : ''}${parts}${part}`
}

/** @param also another kind that is taken for it, @param or a word in place of it */
export const quantityPattern = (kind: QuantityKind, also?: QuantityKind, or?: string): string => {
  const forms = [
    ...(or === undefined ? [] : [escaped(or)]),
    quantityOf(kind),
    ...(also === undefined ? [] : [quantityOf(also)]),
  ]
  return whole(forms.length === 1 ? quantityOf(kind) : `(?:${forms.join('|')})`)
}

/** Longest quantity that is read, in characters. */
export const LONGEST_QUANTITY = 40

export const MONEY_PATTERN = whole(`${DECIMAL}${SPACE}*[A-Z]{3}`)
export const CURRENCY_PATTERN = whole('[A-Z]{3}')
export const WHOLE_NUMBER_PATTERN = whole(`${MINUS}?${WHOLE}`)
export const PLAIN_NUMBER_PATTERN = whole(`${MINUS}?${DECIMAL}`)
export const DATE_PATTERN = whole('\\d{4}-(?:0[1-9]|1[0-2])-(?:0[1-9]|[12]\\d|3[01])')
export const TIME_PATTERN = whole('\\d{1,2}(?::[0-5]\\d(?:\\s?[aApP][mM])?|\\s?[aApP][mM])')
/** A language's tag, as folders of words are named. */
export const LANGUAGE_PATTERN = '^[a-z]{2,3}(?:-[A-Za-z0-9]+)*$'
/** A batch key may be typed in small letters and with spaces round it. */
export const BATCH_KEY_PATTERN = whole('[2-9A-HJ-NP-Za-hj-np-z]{1,6}')

/** A mark over a letter is no character of its own: both are one when they are read. */
const MARK = '[\\u0300-\\u036f]'

/** @param max characters, @param lines whether it may go over several lines */
export const textPattern = (max: number, lines: boolean): string =>
  `^\\s*\\S${MARK}*(?:[^${lines ? '' : '\\r\\n'}\\u0300-\\u036f]${MARK}*){0,${max - 1}}\\s*$`
