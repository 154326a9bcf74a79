/** Finds the part of a zod schema that a path of a file belongs to, for names and examples in advice. */
import type { z } from 'zod'

export type AnySchema = z.core.$ZodType

/** What is used of zod's own description of a schema. */
interface Definition {
  readonly type: string
  readonly shape?: Readonly<Record<string, AnySchema>>
  readonly element?: AnySchema
  readonly valueType?: AnySchema
  readonly innerType?: AnySchema
  readonly in?: AnySchema
  readonly options?: readonly AnySchema[]
  readonly items?: readonly AnySchema[]
  readonly discriminator?: string
  readonly values?: readonly unknown[]
}

/**
 * The schema of a path's value.
 *
 * @param schema  of the whole file
 * @param path    names and list positions
 * @param data    content of the file, which decides between the forms of a union that names them by one of its values
 * @returns the schema, or undefined where the schema knows no such path
 * @source common practice
 */
export function schemaAt(
  schema: AnySchema,
  path: readonly PropertyKey[],
  data: unknown,
): AnySchema | undefined {
  const [first, ...others] = path
  if (first === undefined) return schema
  for (const form of formsOf(schema, data)) {
    const { shape, element, valueType, items } = definitionOf(form)
    const below = (shape && own(shape, first)) ?? element ?? items?.[Number(first)] ?? valueType
    const found = below && schemaAt(below, others, valueBelow(data, first))
    if (found !== undefined) return found
  }
  return undefined
}

/** A file may name what every object has of itself. */
const own = <T>(shape: Readonly<Record<string, T>>, name: PropertyKey): T | undefined =>
  Object.hasOwn(shape, name) ? shape[String(name)] : undefined

/** Names that a map at a path may have; empty if any name is allowed or it is no map. */
export function namesAllowedAt(
  schema: AnySchema,
  path: readonly PropertyKey[],
  data: unknown,
): readonly string[] {
  const at = schemaAt(schema, path, data)
  const forms = at === undefined ? [] : formsOf(at, path.reduce(valueBelow, data))
  return [...new Set(forms.flatMap((form) => Object.keys(definitionOf(form).shape ?? {})))]
}

/** What a map or list holds under a name or position; undefined for anything else. */
export function valueBelow(data: unknown, key: PropertyKey): unknown {
  return typeof data === 'object' && data !== null && Object.hasOwn(data, key)
    ? Reflect.get(data, key)
    : undefined
}

/** The first example given for a schema or for what it wraps. */
export function exampleOf(schema: AnySchema | undefined): string | undefined {
  for (let each = schema; each !== undefined; ) {
    const [example] = ((each as z.ZodType).meta?.()?.examples as readonly unknown[] | undefined) ?? []
    if (typeof example === 'string') return example
    const { innerType, in: input, options } = definitionOf(each)
    each = innerType ?? input ?? options?.[0]
  }
  return undefined
}

/** What is known of the field at a path, through its wrappers. */
export function metaAt(
  schema: AnySchema,
  path: readonly PropertyKey[],
  data: unknown,
): Readonly<Record<string, unknown>> | undefined {
  for (let each = schemaAt(schema, path, data); each !== undefined; ) {
    const meta = (each as z.ZodType).meta?.()
    if (meta?.['x-quantity'] !== undefined) return meta
    const { innerType, in: input } = definitionOf(each)
    each = innerType ?? input
  }
  return undefined
}

/** Whether something that is known of a field is known of one of the forms that a path may have. */
export function isMarkedAt(
  schema: AnySchema,
  path: readonly PropertyKey[],
  data: unknown,
  mark: string,
): boolean {
  const isMarked = (each: AnySchema): boolean => {
    if ((each as z.ZodType).meta?.()?.[mark] === true) return true
    const { innerType, in: input, options } = definitionOf(each)
    return [innerType, input, ...(options ?? [])].some((one) => one !== undefined && isMarked(one))
  }
  const at = schemaAt(schema, path, data)
  return at !== undefined && isMarked(at)
}

const definitionOf = (schema: AnySchema): Definition => schema._zod.def as unknown as Definition

/** A schema without its wrappers; each of the forms that the data can still have if there are several. */
function formsOf(schema: AnySchema, data: unknown): AnySchema[] {
  const { innerType, in: input, options, discriminator } = definitionOf(schema)
  const wrapped = innerType ?? input
  if (wrapped !== undefined) return formsOf(wrapped, data)
  if (options === undefined) return [schema]
  const forms = options.flatMap((option) => formsOf(option, data))
  if (discriminator === undefined) return forms
  const chosen = valueBelow(data, discriminator)
  const fitting = forms.filter((form) => {
    const naming = definitionOf(form).shape?.[discriminator]
    return naming !== undefined && definitionOf(naming).values?.includes(chosen)
  })
  return fitting.length > 0 ? fitting : forms
}
