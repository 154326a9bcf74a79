/**
 * A JSON Schema (draft 7) of each kind of file, for editors that complete and check while somebody types.
 *
 * An editor reads YAML 1.2: `100` reaches it as a number, `true` as a yes-or-no of its own, and `yes`, `2027-03-14` and
 * `8:30` as text. The program takes every value as it was typed, so a name or a text may be a number or true here. Editors
 * that are set to YAML 1.1 read `yes` as true and complain of it; letting true pass would hide that nobody here reads it.
 */
import type { QuantityKind } from '../../units.ts'
import type { FileKind } from '../file-kind.ts'
import { type Described, describedOf, type Form, isList, samenessOf } from './described.ts'
import {
  BATCH_KEY_PATTERN,
  CURRENCY_PATTERN,
  DATE_PATTERN,
  LANGUAGE_PATTERN,
  LONGEST_QUANTITY,
  MONEY_PATTERN,
  PLAIN_NUMBER_PATTERN,
  quantityPattern,
  TIME_PATTERN,
  textPattern,
  WHOLE_NUMBER_PATTERN,
} from './patterns.ts'
import { exampleOf, refusalOf, typedAs } from './sentences.ts'

export interface JsonSchema {
  readonly [keyword: string]: unknown
}

/** Definitions by their names, as they are met. */
type Definitions = Map<string, JsonSchema>

/** @returns the schema of one kind of file, the same each time */
export const jsonSchemaOf = (kind: FileKind): JsonSchema => {
  const definitions: Definitions = new Map()
  const described = describedOf(kind.schema)
  const shared = sharedParts(described)
  const whole = finished(described, { definitions, shared })
  return {
    $schema: 'http://json-schema.org/draft-07/schema#',
    title: `A ${kind.name} file`,
    ...whole,
    definitions: Object.fromEntries([...definitions].sort(([a], [b]) => (a < b ? -1 : 1))),
  }
}

interface Ways {
  readonly definitions: Definitions
  /** names of parts that stand in several places, by what they are */
  readonly shared: ReadonlyMap<string, string>
}

/** Groups that stand in a file more than once, named after the first place at which they do. */
const sharedParts = (whole: Described): ReadonlyMap<string, string> => {
  const met = new Map<string, { name: string; times: number }>()
  const walk = (part: Described, name: string): void => {
    if (part.properties) {
      const known = met.get(samenessOf(part))
      if (known) {
        known.times += 1
        return
      }
      met.set(samenessOf(part), { name, times: 1 })
    }
    for (const [key, below] of Object.entries(part.properties ?? {})) walk(below, key)
    if (typeof part.additionalProperties === 'object') walk(part.additionalProperties, `one-of-${name}`)
    if (part.items) for (const one of [part.items].flat() as Described[]) walk(one, `one-of-${name}`)
    for (const one of part.anyOf ?? []) walk(one, name)
  }
  walk(whole, 'file')
  const names = new Set<string>()
  return new Map(
    [...met].flatMap(([key, { name, times }]) => {
      if (times < 2) return []
      let free = name
      for (let number = 2; names.has(free); number += 1) free = `${name}-${number}`
      names.add(free)
      return [[key, `group-${free}`] as const]
    }),
  )
}

/** What an editor shows beside a part: what it is, and how it is typed. */
const said = (part: Described): JsonSchema => {
  const words = [part.description, typedAs(part)].filter(Boolean).join(' ')
  return words === '' ? {} : { description: words }
}

/** Keywords beside a reference are not read by every editor, and are inside `allOf`. */
const referring = (name: string, beside: JsonSchema): JsonSchema => ({
  ...beside,
  allOf: [{ $ref: `#/definitions/${name}` }],
})

const finished = (part: Described, ways: Ways): JsonSchema => {
  const name = ways.shared.get(samenessOf(part))
  if (name === undefined) return { ...said(part), ...bare(part, ways) }
  if (!ways.definitions.has(name)) {
    // named before it is made, so that it is there for parts of itself
    ways.definitions.set(name, {})
    ways.definitions.set(name, bare(part, ways))
  }
  return referring(name, said(part))
}

const bare = (part: Described, ways: Ways): JsonSchema => {
  const form = part['x-form']
  if (form !== undefined) return typedLeaf(part, form, ways)
  if (part.anyOf) return { anyOf: part.anyOf.map((one) => finished(one, ways)) }
  if (part.type === 'object') return group(part, ways)
  if (part.type === 'array') return list(part, ways)
  if (part.const !== undefined) return { const: part.const }
  if (part.enum !== undefined) return { enum: part.enum }
  throw new RangeError(`no form is known for ${JSON.stringify(part)}`)
}

const group = (part: Described, ways: Ways): JsonSchema => {
  const { properties, required, propertyNames, additionalProperties, minProperties } = part
  return {
    type: 'object',
    ...(properties
      ? {
          properties: Object.fromEntries(
            Object.entries(properties).map(([key, below]) => [key, finished(below, ways)]),
          ),
        }
      : {}),
    ...(required && required.length > 0 ? { required } : {}),
    ...(propertyNames ? { propertyNames: namesOf(propertyNames) } : {}),
    additionalProperties:
      typeof additionalProperties === 'object' ? finished(additionalProperties, ways) : false,
    ...(minProperties === undefined ? {} : { minProperties }),
  }
}

const namesOf = ({ enum: names, pattern, maxLength }: Described): JsonSchema => {
  if (names) return { enum: names }
  return { pattern, maxLength }
}

const list = ({ items, minItems, maxItems }: Described, ways: Ways): JsonSchema => {
  const many = {
    ...(minItems === undefined ? {} : { minItems }),
    ...(maxItems === undefined ? {} : { maxItems }),
  }
  if (!isList(items)) return { type: 'array', items: finished(items ?? {}, ways), ...many }
  return {
    type: 'array',
    items: items.map((one) => finished(one, ways)),
    additionalItems: false,
    minItems: items.length,
    maxItems: items.length,
  }
}

/**
 * A value of one form: its pattern is one definition, however often it is asked for; beside it stands what differs. By
 * the type beside it an editor knows that a value follows when it completes a key.
 */
const typedLeaf = (part: Described, form: Form, { definitions }: Ways): JsonSchema => {
  const example = exampleOf(part)
  const examples = example === '' ? {} : { examples: part.examples ?? [example] }
  const refusal = refusalOf(part)
  const defined = (name: string, schema: JsonSchema, beside: JsonSchema): JsonSchema => {
    definitions.set(name, schema)
    return referring(name, { ...beside, ...examples })
  }
  /** what no parser of YAML takes for a number */
  const text = (name: string, pattern: JsonSchema): JsonSchema =>
    defined(name, pattern, { type: 'string', errorMessage: refusal })
  switch (form) {
    case 'quantity':
      return text(quantityName(part), {
        pattern: quantityPattern(
          part['x-quantity'] as QuantityKind,
          part['x-also'] as QuantityKind,
          part['x-or'],
        ),
        maxLength: LONGEST_QUANTITY,
        patternErrorMessage: `Write a number and its unit${part['x-or'] ? `, or "${part['x-or']}"` : ''}. Units: ${part['x-units']?.join(', ')}.`,
      })
    case 'money':
      return text('price', { pattern: MONEY_PATTERN, patternErrorMessage: refusal })
    case 'currency':
      return text('currency', { pattern: CURRENCY_PATTERN, patternErrorMessage: refusal })
    case 'date':
      return text('date', { pattern: DATE_PATTERN, patternErrorMessage: refusal })
    case 'time':
      return text('time-of-day', { pattern: TIME_PATTERN, patternErrorMessage: refusal })
    case 'name':
      return defined(
        'name',
        { pattern: part.pattern, maxLength: part.maxLength, minimum: 0, patternErrorMessage: refusal },
        ANY_SCALAR,
      )
    case 'batch-key':
      return defined(
        'batch-key',
        { pattern: BATCH_KEY_PATTERN, minimum: 0, patternErrorMessage: refusal },
        ANY_SCALAR,
      )
    case 'whole-number':
    case 'plain-number':
      return {
        type: [form === 'whole-number' ? 'integer' : 'number', 'string'],
        pattern: form === 'whole-number' ? WHOLE_NUMBER_PATTERN : PLAIN_NUMBER_PATTERN,
        ...(part['x-least'] === undefined ? {} : { minimum: part['x-least'] }),
        ...(part['x-most'] === undefined ? {} : { maximum: part['x-most'] }),
        errorMessage: refusal,
        patternErrorMessage: refusal,
        ...examples,
      }
    case 'text':
    case 'lines':
      return textLeaf(part, form, defined)
  }
}

const quantityName = (part: Described): string =>
  [part['x-quantity'], part['x-also'], part['x-or']?.replaceAll(' ', '-')].filter(Boolean).join('-or-')

/** A text, and where a maker may give it once for each language, the same of each. */
const textLeaf = (
  part: Described,
  form: 'text' | 'lines',
  defined: (name: string, schema: JsonSchema, beside: JsonSchema) => JsonSchema,
): JsonSchema => {
  const name = `${form}-${part.maxLength}`
  const plain = {
    ...ANY_SCALAR,
    pattern: textPattern(part.maxLength ?? 0, form === 'lines'),
    patternErrorMessage: refusalOf({ ...part, 'x-words': false }),
  }
  const leaf = defined(name, plain, ANY_SCALAR)
  if (!part['x-words']) return leaf
  const one = { $ref: `#/definitions/${name}` }
  const each = {
    type: 'object',
    propertyNames: { pattern: LANGUAGE_PATTERN },
    additionalProperties: one,
    minProperties: 1,
  }
  return defined(`${name}-by-language`, { anyOf: [one, each] }, { type: [...ANY_SCALAR.type, 'object'] })
}

/** What an editor may take a plain word or number for; a pattern holds for text alone. */
const ANY_SCALAR = { type: ['string', 'number', 'boolean'] } as const
