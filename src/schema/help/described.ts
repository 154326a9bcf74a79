/** What the schemas know of every kind of file, as plain data: what stands where, and how it is typed. */
import { z } from 'zod'

/** A part of a file as zod writes it down, with what fields.ts says of each field under names that begin with x-. */
export interface Described {
  readonly type?: string
  readonly description?: string
  readonly examples?: readonly unknown[]
  readonly enum?: readonly string[]
  readonly const?: string
  readonly pattern?: string
  readonly maxLength?: number
  readonly properties?: Readonly<Record<string, Described>>
  readonly required?: readonly string[]
  readonly propertyNames?: Described
  readonly additionalProperties?: Described | boolean
  readonly minProperties?: number
  readonly items?: Described | readonly Described[]
  readonly minItems?: number
  readonly maxItems?: number
  readonly anyOf?: readonly Described[]
  readonly 'x-form'?: Form
  readonly 'x-example'?: string
  readonly 'x-quantity'?: string
  readonly 'x-also'?: string
  readonly 'x-or'?: string
  readonly 'x-units'?: readonly string[]
  readonly 'x-allowed'?: string
  readonly 'x-least'?: number
  readonly 'x-most'?: number
  readonly 'x-words'?: boolean
}

/** How a value is typed; each has one pattern in patterns.ts and one sentence in sentences.ts. */
export type Form =
  | 'quantity'
  | 'money'
  | 'currency'
  | 'whole-number'
  | 'plain-number'
  | 'date'
  | 'time'
  | 'name'
  | 'batch-key'
  | 'text'
  | 'lines'

/**
 * A file's schema as data, as a file is typed and not as it is read.
 *
 * @param schema of one kind of file
 * @throws Error for a part that JSON Schema has no words for: a bug
 */
export const describedOf = (schema: z.ZodType): Described =>
  z.toJSONSchema(schema, { target: 'draft-7', io: 'input' }) as Described

/** The parts that a part is made of, each by how its place is called. */
export const partsOf = (part: Described): readonly (readonly [name: string, part: Described])[] => [
  ...Object.entries(part.properties ?? {}),
  ...(typeof part.additionalProperties === 'object' ? [['NAME', part.additionalProperties] as const] : []),
  ...(isList(part.items)
    ? part.items.map((one, index) => [`${index}`, one] as const)
    : part.items
      ? [['-', part.items] as const]
      : []),
  ...(part.anyOf ?? []).map((one) => ['', one] as const),
]

export const isList = (items: Described['items']): items is readonly Described[] => Array.isArray(items)

/** The same of parts that differ in nothing but what is said of them where they stand. */
export const samenessOf = ({ description: _, ...part }: Described): string => JSON.stringify(part)
