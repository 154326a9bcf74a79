/** How a value is typed, in a sentence: the same where an editor shows it and on the page of its kind of file. */
import { KINDS, type QuantityKind } from '../../units.ts'
import type { Described } from './described.ts'

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} or ${words.at(-1)}`

/** The example that refusals give, too; a name has none, since only the maker's own are of use. */
export const exampleOf = (part: Described): string =>
  part['x-form'] === 'name' ? '' : String(part.examples?.[0] ?? part['x-example'] ?? '')

const quantityNoun = (part: Described): string => {
  const { noun } = KINDS[part['x-quantity'] as QuantityKind]
  const also = part['x-also'] as QuantityKind | undefined
  return `A ${noun}${also ? ` or the ${KINDS[also].noun} that a scale shows for it` : ''}`
}

const allowed = ({ 'x-allowed': range }: Described): string => (range ? `, ${range}` : '')

/** A share has but one unit, which its limits and its example show. */
const unitsOf = ({ 'x-units': units = [] }: Described): string =>
  units.length > 1 ? `, in ${listed(units)}` : ''

/** What is typed, without the example; "" for groups and lists, whose parts say it. */
const formOf = (part: Described): string => {
  switch (part['x-form']) {
    case 'quantity':
      return `${quantityNoun(part)}${allowed(part)}${unitsOf(part)}${part['x-or'] ? `; or "${part['x-or']}"` : ''}`
    case 'money':
      return 'A price with its currency'
    case 'currency':
      return 'Three capital letters'
    case 'whole-number':
      return `A whole number${allowed(part)}`
    case 'plain-number':
      return `A number without a unit${allowed(part)}`
    case 'date':
      return 'A date: year, month and day'
    case 'time':
      return 'A time of day'
    case 'name':
      return `A name: small letters, digits and single hyphens, up to ${part.maxLength} characters`
    case 'batch-key':
      return 'One to six letters and digits without 0, 1, I and O'
    case 'text':
      return `Text on one line, up to ${part.maxLength} characters${inLanguages(part)}`
    case 'lines':
      return `Text, up to ${part.maxLength} characters${inLanguages(part)}`
    default:
      if (part.const !== undefined) return `The words "${part.const}"`
      if (part.enum !== undefined) return `One of: ${part.enum.join(', ')}`
      return ''
  }
}

const inLanguages = (part: Described): string => (part['x-words'] ? ', or one text for each language' : '')

/** Where an example says more than the form itself. */
const FORMS_WITH_EXAMPLES: ReadonlySet<Described['x-form']> = new Set([
  'quantity',
  'money',
  'currency',
  'date',
  'time',
  'batch-key',
])

/** What is typed at a part of a file, with an example where one helps; "" for groups and lists. */
export const typedAs = (part: Described): string => {
  const form = formOf(part)
  const shows = FORMS_WITH_EXAMPLES.has(part['x-form']) && exampleOf(part) !== ''
  return form === '' ? '' : `${form}${shows ? `, for example ${exampleOf(part)}` : ''}.`
}

/** What an editor says where a value is not typed like that. */
export const refusalOf = (part: Described): string => {
  const sentence = typedAs(part)
  return sentence === '' ? '' : `This is wanted here: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1)}`
}
