/** An answer of a person, held against the field of a file that it is for: the same limits, the same words. */
import { z } from 'zod'
import { decode } from './decode.ts'
import type { FileKind } from './file-kind.ts'
import { schemaAt } from './schema-walk.ts'
import { readYaml } from './yaml.ts'

/**
 * @param kind  of the file that the answer goes into
 * @param path  names from the top of the file down
 * @returns what is wrong, and what to do; nothing where the file would take it
 */
export const answerFault = (
  { schema }: FileKind,
  path: readonly string[],
  typed: string,
): string | undefined => {
  const field = schemaAt(schema, path, undefined)
  if (!field) throw new Error(`no file has ${path.join(' ')}`)
  const { document } = readYaml('answer', new TextEncoder().encode(`answer: ${JSON.stringify(typed)}\n`))
  if (!document) return 'This cannot be written into a file. Type it with ordinary characters.'
  const [first] = decode(document, z.strictObject({ answer: field as z.ZodType })).diagnostics
  return first && `${first.message}. ${first.advice}`
}
